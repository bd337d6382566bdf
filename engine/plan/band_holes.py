"""The buttonholes a band asks for, held to the band: which size, where, and what is refused."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ..core.counted import Count, stated
from ..core.counts import DOWN, NEAREST, UP, Unit, decimal, whole
from ..core.problems import Problem, Severity, error, has_errors, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..machine.steps import Side
from ..pattern.holes import Buttonholes, Closing, Distance
from ..pattern.model import Band, BandRows, Pattern
from ..sizing.measures import Definition, evaluate
from ..sizing.quantities import Quantity
from .buttonholes import BandSpec, Placing, hole_stitches, number_every, place, place_at
from .closings import fixed_stitches
from .hole_fit import button_fits, hole_passes
from .hole_joins import is_clear
from .hole_specs import about, above_hem, below, in_hem


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleGround:
    """What a band offers its buttonholes in one size.

    `along` are the stitches among which they lie, from the lower end, before they move them;
    `beyond` those of the band above them; `measures` what the garment was cut from. `joins` are
    places along them, after so many stitches, that holes keep clear of; `grows_below` says that
    what the band grows by lies below all of them. An end that is `sewn` takes a stitch. Along a
    neck that opens the holes lie `only_on` one front; the first end is the right one's.
    """

    pattern: Pattern
    band: Band
    size: str
    gauge: Gauge
    rows: BandRows
    along: Count
    beyond: int = 0
    joins: tuple[int, ...] = ()
    grows_below: bool = True
    sewn: bool = False
    only_on: Side | None = None
    measures: Mapping[str, Quantity] = field(default_factory=dict)

    @property
    def asked(self) -> Buttonholes:
        """What the band asks of its holes. Raises ValueError for a band without."""
        if self.band.buttonholes is None:
            raise ValueError(f"band {self.band.key} has no buttonholes")
        return self.band.buttonholes

    @property
    def clear(self) -> int:
        """How far holes keep from a join: as far as from the nearer end [stitches]."""
        return min(_stitches(self.asked.lower, self.gauge), _stitches(self.asked.upper, self.gauge))

    @property
    def least(self) -> int:
        """The fewest stitches between a hole and an end: one that a seam takes, and one more."""
        return 2 if self.sewn else 1

    @property
    def path(self) -> str:
        """Where the source says so."""
        return f"bands.{self.band.key}.buttonholes"


def plan_holes(ground: HoleGround) -> tuple[Count, Placing | None, list[Problem]]:
    """Return a hole's stitches and where the holes go, with the findings; None where refused."""
    asked, hole = ground.asked, _hole(ground)
    problems = button_fits(ground.pattern, ground.band, ground.size, ground.gauge, ground.rows)
    problems += hole_passes(ground.pattern, ground.band, ground.size, ground.gauge, hole)
    if asked.at is not None:
        placing, found = _fixed(ground, hole.value)
    elif asked.in_hem is not None or asked.through is not None:
        placing, found = _spread_about(ground, hole.value)
    else:
        spec = _spec(ground, hole.value)
        placing = place(spec)
        found = [] if placing else [_no_placing(ground, spec)]
    if placing is not None:
        found += [*_at_join(ground, placing), *_on_other_front(ground, placing)]
    problems += found
    if placing is None or has_errors(problems):
        return hole, None, problems
    return hole, below(placing, ground.beyond), problems


def _hole(ground: HoleGround) -> Count:
    asked = ground.asked
    if fixed := fixed_stitches(asked.closing):
        return fixed
    if asked.stitches is not None:
        place = ground.pattern.place(f"{ground.path}.stitches", ground.size)
        return stated(asked.stitches[ground.size], Unit.STITCHES, place)
    return hole_stitches(asked.button, ground.gauge.stitch)


def _fixed(ground: HoleGround, hole: int) -> tuple[Placing | None, list[Problem]]:
    """Holes where the source puts them, from the lower end, or from the upper where below 0."""
    assert ground.asked.at is not None
    at, along = ground.asked.at[ground.size], ground.along.value
    middles = [x.mm / ground.gauge.stitch + (along if x.mm < 0 else 0) for x in at]
    placing = place_at(along, hole, middles)
    if placing is not None:
        return placing, []
    return None, [error(
        "holes-too-close", ground.pattern.place(f"{ground.path}.at", ground.size),
        size=ground.size,
        found=f"{len(at)} holes of {hole} stitches at "
              f"{', '.join(x.in_cm() for x in at)} on a band of {ground.along}",
        expected=f"gaps of at least {max(2, hole)} stitches, and 1 stitch at either end",
        remedy="Move the holes further apart, or choose a smaller button.")]


def _spread_about(ground: HoleGround, hole: int) -> tuple[Placing | None, list[Problem]]:
    """Holes spread about one at a chosen measure, or above those in the hem."""
    asked, stitch = ground.asked, ground.gauge.stitch
    half = Fraction(hole, 2)
    low = _stitches(asked.lower, ground.gauge) + half
    top = ground.along.value - _stitches(asked.upper, ground.gauge) - half
    apart = None if asked.every is None else asked.every.mm / stitch
    number = None if asked.number is None else asked.number[ground.size]
    if asked.in_hem is not None:
        hem = asked.in_hem
        middles = above_hem(
            in_hem(hem.number, hem.depth[ground.size].mm / stitch, hem.ends.mm / stitch),
            hem.depth[ground.size].mm / stitch, top, number=number, apart=apart)
    else:
        at, found = _chosen(ground)
        if at is None:
            return None, found
        middles = about(at / stitch, low, top, number=number, apart=apart)
    placing = place_at(ground.along.value, hole, middles) if middles else None
    if placing is not None:
        return placing, []
    key = "in_hem" if asked.in_hem is not None else "through"
    return None, [error(
        "holes-too-close", ground.pattern.place(f"{ground.path}.{key}", ground.size),
        size=ground.size,
        found=f"holes of {hole} stitches about {_middles_said(middles, stitch)} from the lower "
              f"end, on {ground.along}" if middles else
              f"a hole that should lie outside the first and the last, on {ground.along}",
        expected=f"gaps of at least {max(2, hole)} stitches, and 1 stitch at either end",
        remedy="Ask for fewer holes, a smaller button, or another place for them.")]


def _middles_said(middles: Sequence[Fraction], stitch: Fraction) -> str:
    return ", ".join(Length(max(m, Fraction(0)) * stitch).in_cm() for m in middles)


def _chosen(ground: HoleGround) -> tuple[Fraction | None, list[Problem]]:
    """How far from the lower end the chosen hole lies [mm]: a sum of the garment's measures."""
    assert ground.asked.through is not None
    said = ground.asked.through[ground.size]
    place_ = ground.pattern.place(f"{ground.path}.through", ground.size)
    found, problems = evaluate({"chosen_hole": Definition(said, place_)}, ground.measures)
    if "chosen_hole" not in found:
        return None, list(problems)
    chosen = found["chosen_hole"]
    if chosen.is_length:
        return chosen.value, []
    return None, [error("unlike-measures", place_, size=ground.size, found=f"{said}, a number",
                        expected="a length from the band's lower end",
                        remedy='Write a length, such as "body_length - 24 cm".')]


def edge_in_hole(pattern: Pattern, band: Band, size: str, body: Gauge, gauge: Gauge,
                 rows: BandRows) -> list[Problem]:
    """The garment's edge lies inside the band, from the closing as deep as it is hung; a row is
    wanted between it and the holes (common practice, no source). Loops lie beyond the band."""
    hidden = band.stitches_in * body.stitch
    room = (rows.to_finish - 1) * gauge.row
    loops = band.buttonholes is not None and band.buttonholes.closing is Closing.LOOPS
    if hidden <= room or loops:
        return []
    need = whole(hidden / gauge.row, UP) + 1
    fewer = whole(room / body.stitch, DOWN)
    hang = f"Write stitches_in: {fewer}, or give" if fewer else "Give"
    return [note(
        Severity.WARNING, "edge-in-hole", pattern.place(f"bands.{band.key}.stitches_in"), size=size,
        found=f"the garment's edge {decimal(hidden, 1)} mm inside the band ({band.stitches_in} "
              f"stitch{'' if band.stitches_in == 1 else 'es'} in), and the holes {rows.to_finish} "
              f"row{'' if rows.to_finish == 1 else 's'}, "
              f"{decimal(rows.to_finish * gauge.row, 1)} mm, from the closing",
        expected="at least a row between the edge and the holes, or it shows in them",
        remedy=f"{hang} the band {need} rows from the holes to the closing.")]


def _spec(ground: HoleGround, hole: int) -> BandSpec:
    asked, gauge, along = ground.asked, ground.gauge, ground.along
    lower = _stitches(asked.lower, gauge)
    upper = _stitches(asked.upper, gauge)
    # Where the band goes on above its holes, their upper end is a join as well.
    joins = (*ground.joins, *((along.value,) if ground.beyond else ()))
    span = along.value - lower - upper
    if asked.number is not None:
        number = asked.number[ground.size]
    else:
        assert asked.every is not None
        number = number_every(span, hole, asked.every.mm / gauge.stitch, odd=asked.centre_hole)
    # Where the band goes on above its holes, both its fronts must keep their length.
    fixed = ground.beyond or (ground.joins and not ground.grows_below)
    give = 0 if fixed else whole(along.exact * asked.tolerance)
    at_first = number == 1 and ground.only_on is Side.RIGHT
    if at_first:
        lower, upper = upper, lower
    return BandSpec(stitches=along.value, holes=number, hole=hole, lower=lower, upper=upper,
                    end_give=asked.end_give, band_give=min(asked.band_give, give),
                    odd_gap=asked.odd_gap, least=ground.least, clear=ground.clear,
                    joins=tuple(along.value - join for join in joins),
                    at_first=at_first)


def _stitches(distance: Distance, gauge: Gauge) -> int:
    if distance.stitches is not None:
        return distance.stitches
    assert distance.length is not None
    return whole(distance.length.mm / gauge.stitch, NEAREST)


def _no_placing(ground: HoleGround, spec: BandSpec) -> Problem:
    """Say which of the soundness rules cannot be met, with the figures and a way out."""
    pattern, path, size, gauge = ground.pattern, ground.path, ground.size, ground.gauge
    least = spec.least
    if spec.lower < least or spec.upper < least:
        sewn = ", whose ends are sewn" if ground.sewn else ""
        return error("hole-at-end", pattern.place(f"{path}.ends"), size=size,
                     found=f"holes {spec.lower} and {spec.upper} stitches from the ends of a band"
                           f"{sewn}",
                     expected=f"at least {Unit.STITCHES.of(least)} between a hole and the band's "
                              "end",
                     remedy=f"Give the ends {Unit.STITCHES.of(least)} or more.")
    if spec.joins and place(replace(spec, joins=())) is not None:
        return _over_join(ground, spec)
    gap = max(2, spec.hole)
    need = spec.lower + spec.upper + spec.holes * spec.hole + (spec.holes - 1) * gap
    room = spec.stitches - spec.lower - spec.upper
    fits = max(0, (room + gap) // (spec.hole + gap))
    key = "number" if f"{path}.number" in pattern.places else "every"
    return error("hole-wider-than-gap", pattern.place(f"{path}.{key}", size), size=size,
                 found=f"{spec.holes} holes of {spec.hole} stitches on a band of {spec.stitches}",
                 expected=f"gaps at least as wide as a hole ({gap} stitches), which takes {need} "
                          "stitches",
                 remedy=_fewer(key, fits, room - spec.hole, gauge))


def _over_join(ground: HoleGround, spec: BandSpec) -> Problem:
    """A hole that lies across a join or too near to it, with the nearest ends that keep clear."""
    way = "Ask for another number of holes."
    least = _stitches(ground.asked.upper, ground.gauge) + 1
    for stitches in range(least, spec.stitches):
        asked = replace(ground.asked, upper=Distance(stitches=stitches))
        moved = replace(ground, band=replace(ground.band, buttonholes=asked))
        if place(_spec(moved, spec.hole)) is not None:
            way = f"Write ends with upper: {stitches} stitches, or another number of holes."
            break
    return error("hole-at-join", ground.pattern.place(f"{ground.path}.ends"), size=ground.size,
                 found=f"{spec.holes} holes of {spec.hole} stitches, of which one lies across a "
                       f"join of the edge or less than {Unit.STITCHES.of(spec.clear)} from it",
                 expected="holes as far from joins and seams as from the band's ends", remedy=way)


def _at_join(ground: HoleGround, placing: Placing) -> list[Problem]:
    """Holes that the source puts across a join or too near to it."""
    if not placing.fixed or is_clear(placing.starts, placing.hole, ground.joins, ground.clear):
        return []
    key = "at" if ground.asked.at else "in_hem" if ground.asked.in_hem else "through"
    joins = ", ".join(Length(join * ground.gauge.stitch).in_cm() for join in ground.joins)
    return [error(
        "hole-at-join", ground.pattern.place(f"{ground.path}.{key}", ground.size),
        size=ground.size,
        found=f"a hole across a join of the edge, or less than "
              f"{Unit.STITCHES.of(ground.clear)} from it; joins lie {joins} from the lower end",
        expected="holes as far from joins and seams as from the band's ends",
        remedy="Move the hole, or write less for the ends.")]


def _on_other_front(ground: HoleGround, placing: Placing) -> list[Problem]:
    """Holes along a neck that opens which do not all lie on the front that has them."""
    front, half = ground.only_on, Fraction(placing.stitches, 2)
    on_right = [start + placing.hole - 1 <= half for start in placing.starts]
    on_left = [start > half for start in placing.starts]
    if front is None or all(on_right if front is Side.RIGHT else on_left):
        return []
    far = "" if front is Side.RIGHT else "-"
    return [error(
        "hole-on-other-front", ground.pattern.place(ground.path), size=ground.size,
        found=f"{Unit.HOLES.of(placing.holes)} along a neck that opens, not all of them on the "
              f"{front.value} front",
        expected=f"holes on the {front.value} front alone, the buttons on the other",
        remedy=f"Write number: 1, or places near that end, such as at: [{far}2 cm].")]


def _fewer(key: str, fits: int, span: int, gauge: Gauge) -> str:
    """The way out for too many holes where `fits` would fit, the first and last of them `span`
    stitches apart from start to start."""
    if not fits:
        return "Choose a smaller button or a longer edge."
    asked = f"Ask for at most {fits} hole{'' if fits == 1 else 's'}"
    if key == "every":
        # The nearest number of spaces is taken, so that this and anything wider gives no more.
        least = whole(span * gauge.stitch / (fits - Fraction(1, 2)), DOWN) + 1
        asked = f"Write a wider every, {decimal(Fraction(least, 10), 1)} cm or more"
    return f"{asked}, a smaller button, or less distance from the ends."
