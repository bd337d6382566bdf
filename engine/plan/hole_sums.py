"""The numbers of a band's holes as expressions: how many, and the stitches beside them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

from ..core.branched import Branched
from ..core.counts import DOWN, UP, Unit
from ..core.expression import (
    Chosen,
    Expression,
    Operand,
    Rounded,
    Rule,
    Sum,
    Term,
    plain,
    plain_of,
    tried_figure,
)
from ..core.note_arguments import Noted, NotedLength, NoteWord
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.band_places import place_in
from ..pattern.holes import Distance, Gaps
from .band import BandPlan
from .buttonholes import BandSpec, Candidate, Placing, holes_every, sound

HoleEnds = tuple[Expression, Expression]


def wanted_ends(plan: BandPlan, placing: Placing) -> HoleEnds:
    """Return what is asked for before the first hole and after the last, as expressions."""
    buttonholes, spec = plan.band.buttonholes, placing.spec
    assert buttonholes is not None
    usual = spec.upper if spec.usual_upper is None else spec.usual_upper
    low, high = (place_in(plan.band, f"buttonholes.ends.{end}") for end in ("lower", "upper"))
    return (distance_along(spec.lower, buttonholes.lower, plan.gauge, low),
            _upper(spec, distance_along(usual, buttonholes.upper, plan.gauge, high)))


def distance_along(stitches: int, distance: Distance, gauge: Gauge, place: Place | None
                   ) -> Expression:
    """Return a length in stitches of the band; a plain number where the source gives stitches, or
    where the other end has its length."""
    if distance.length is None:
        return plain(stitches) if place is None else Term(Operand(
            Fraction(stitches), Role.SOURCE, Unit.STITCHES.name_of(stitches), place), Role.NUMBER)
    made = Rounded(Operand(distance.length.mm, Role.STATED, "ends", place) / Operand(
        gauge.stitch, Role.BAND_STITCH))
    return plain_of(stitches, made)


def hole_ends(placing: Placing, along: str = "band_stitches",
              ends: HoleEnds | None = None) -> HoleEnds:
    """Return the stitches before the first hole and after the last, as expressions.

    `along` is the name of the count of what lies along the band, `ends` what is asked for.

    They are as asked, or as the search for the least that is given up moved them: every other end
    that the band could have is there with the cost of its best placing.
    """
    spec = placing.spec
    low, high = ends or (plain(spec.lower), _upper(spec))
    if placing.fixed:
        first = _nearest(placing.lower, placing.before[:1])
        inside = _holes(placing, along)
        within = Sum((first, inside, *hole_gaps(placing)))
        return first, plain(placing.stitches, along) - within
    if placing.alike:
        taken = Sum((_holes(placing, along), *hole_gaps(placing, along, (low, high)),
                     plain_of(placing.upper, high)))
        rest = spec.gaps is Gaps.EVEN
        return plain(placing.stitches, along) - taken if rest else low, high
    return (sought(low, tried_figure(placing.lower), spec, lambda one: one.lower),
            sought(high, tried_figure(placing.upper), spec, lambda one: one.upper))


def _upper(spec: BandSpec, usual: Expression | None = None) -> Expression:
    """The upper end as it is asked for; by default as it grew where a hole would lie on a join."""
    if spec.usual_upper is None:
        return usual or plain(spec.upper)
    return Chosen((usual or plain(spec.usual_upper), plain(spec.upper)), Rule.LARGEST,
                  ChoiceReason.CLEAR_OF_JOIN)


def sought(wanted: Expression, got: Expression, spec: BandSpec,
           figure: Callable[[Candidate], int],
           why: ChoiceReason = ChoiceReason.LEAST_GIVEN_UP) -> Expression:
    """Return a `figure` of a placing as the search for the least cost found it.

    The candidates are what is `wanted` and, the best last, every value that a sound placing has,
    each at the cost of its best one. What was not moved is as asked.
    """
    if wanted.value == got.value:
        return Branched(wanted)
    best: dict[int, Candidate] = {}
    for one in sorted(sound(spec), reverse=True):
        best.pop(figure(one), None)
        best[figure(one)] = one
    values = (got if value == got.value else tried_figure(value) for value in best)
    return Chosen((wanted, *values), Rule.LEAST, why,
                  tuple(Operand(Fraction(one.cost), Role.COST) for one in best.values()))


def filled(placing: Placing) -> Expression:
    """Return the stitches of a band as a search tried them: before the first hole, in the holes,
    between them, and after the last."""
    gaps = (tried_figure(placing.gaps.count(gap)) * tried_figure(gap)
            for gap in sorted(set(placing.gaps)))
    holes = tried_figure(placing.buttonhole_count) * tried_figure(placing.hole)
    return Sum((tried_figure(placing.lower), holes, *gaps, tried_figure(placing.upper)))


def hole_gaps(placing: Placing, along: str = "band_stitches", ends: HoleEnds | None = None
              ) -> tuple[Expression, ...]:
    """Return the stitches of every gap: the room between the ends, a stitch more in some.

    `along` is the name of the count of what lies along the band, `ends` what is asked for before
    the first hole and after the last.
    """
    if placing.fixed:
        hole = _hole(placing.hole, along)
        made = tuple(Term(b, Role.NUMBER) - Term(a, Role.NUMBER) - hole
                     for a, b in pairwise(placing.before))
        return tuple(_nearest(gap, made[n:n + 1]) for n, gap in enumerate(placing.gaps))
    if placing.alike:
        return _alike(placing, along, ends)
    taken = plain(placing.lower, "lower_end") + plain(placing.buttonhole_count, "buttonholes") \
        * _hole(placing.hole, along) + plain(placing.upper, "upper_end")
    share = (plain(placing.stitches, along) - taken) / _spaces(placing)
    return tuple(Rounded(share, UP if gap > share.value else DOWN) for gap in placing.gaps)


def _nearest(stitches: int, made: tuple[Expression, ...]) -> Expression:
    """Stitches that lie nearest to where the source puts a hole, as they are computed."""
    return plain_of(stitches, Branched(made[0] if made else plain(stitches)), Role.NEAREST_STITCH)


def _hole(places: int, along: str) -> Operand:
    """What a hole takes of the band's length: its stitches, or the row it lies on."""
    return plain(places, "hole_stitches" if along == "band_stitches" else "")


def _holes(placing: Placing, along: str) -> Expression:
    """The stitches, or the rows, of all holes."""
    return plain(placing.buttonhole_count, "buttonholes") * _hole(placing.hole, along)


def _spaces(placing: Placing) -> Expression:
    """How many gaps there are; of one hole there is none, and nothing is divided by it."""
    return Term(plain(placing.buttonhole_count, "buttonholes") - plain(1), Role.NUMBER)


def _alike(placing: Placing, along: str, ends: HoleEnds | None) -> tuple[Expression, ...]:
    """Gaps that are all alike, but for the one that takes the rest."""
    spec, spaces = placing.spec, _spaces(placing)
    low, high = (plain(spec.lower), plain(spec.upper)) if ends is None else (
        plain_of(spec.lower, ends[0]), plain_of(spec.upper, ends[1]))
    taken = low + plain(spec.buttonhole_count, "buttonholes") * _hole(spec.hole, along) + high
    room = plain(spec.stitches, along) - taken
    each = Rounded(room / spaces, DOWN)
    return tuple(each if gap == each.value else room - (spaces - plain(1)) * each
                 for gap in placing.gaps)


def buttonhole_count(plan: BandPlan, placing: Placing) -> Expression:
    """Return how many holes there are: as many as are asked for, or fit so far apart."""
    holes, role = plan.band.buttonholes, Role.HOLES_PLACED if plan.part else Role.HOLES_GIVEN
    assert holes is not None
    many = Operand(Fraction(placing.buttonhole_count), role, place=None if plan.part else
                   place_in(plan.band, f"buttonholes.{'at' if holes.at else 'number'}"))
    if holes.in_hem is not None:
        above = placing.buttonhole_count - holes.in_hem.buttonhole_count
        inside = Operand(Fraction(holes.in_hem.buttonhole_count), Role.NUMBER,
                         place=place_in(plan.band, "buttonholes.in_hem.number"))
        both = inside + plain_of(above, placing.above or plain(above))
        return Noted(both, Note.IN_HEM, (holes.in_hem.buttonhole_count, above))
    if holes.through is not None:
        return Noted(many, Note.THROUGH, (placing.through,))
    if holes.buttonhole_count is not None:
        return Noted(many, Note.AS_SOURCE)
    if holes.at is not None:
        return Noted(many, Note.PUT)
    assert holes.every is not None
    odd = NoteWord.ONE_IN_MIDDLE if holes.centre_hole else None
    apart = _lie(placing, plan.gauge)
    return Noted(_fitted(plan, placing, holes.every), Note.EVERY,
                 (NotedLength(holes.every.mm), odd, NotedLength(apart.mm) if apart else None))


def _fitted(plan: BandPlan, placing: Placing, every: Length) -> Expression:
    """How many fit so far apart; in a part of a band, as many as lie in it."""
    buttonholes = plan.band.buttonholes
    if plan.part is None and not placing.fixed and buttonholes is not None:
        fitted = holes_every(_span(plan, placing), placing.hole,
                             _apart(every, plan), odd=buttonholes.centre_hole)
        if fitted.value == placing.buttonhole_count:
            return Branched(fitted)
    return Operand(Fraction(placing.buttonhole_count), Role.HOLES_PLACED)


def _span(plan: BandPlan, placing: Placing) -> Expression:
    """The stitches from the first hole to the last, as they were before the search moved any."""
    spec, (low, high) = placing.spec, wanted_ends(plan, placing)
    along = "band_rows" if plan.is_lengthwise else "band_stitches"
    before = plain(spec.stitches, along) if spec.stitches == placing.stitches else \
        plain_of(spec.stitches, _before_search(plan.stitches.made))
    return Term(before - low - high, Role.NUMBER)


def _before_search(made: Expression) -> Expression:
    """What a count would have been without the search for it."""
    return made.candidates[0] if isinstance(made, Chosen) else made


def _apart(every: Length, plan: BandPlan) -> Expression:
    """What lies along the band from the start of one hole to the start of the next."""
    place = place_in(plan.band, "buttonholes.every")
    return Term(Operand(every.mm, Role.STATED, "every", place) / Operand(
        plan.gauge.stitch, Role.BAND_STITCH), Role.APART)


def _lie(placing: Placing, gauge: Gauge) -> Length | None:
    """How far apart so many come out, from start to start; gaps can differ by a stitch. None where
    there is but one."""
    spaces = placing.buttonhole_count - 1
    if not spaces:
        return None
    return Length((placing.hole + Fraction(sum(placing.gaps), spaces)) * gauge.stitch)
