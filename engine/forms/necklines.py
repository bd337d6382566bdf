"""Necks as rows of single decreases and bind-offs, for a body of any form.

Sources: a printed handbook, "Necklines: round and square" (N01); a yarn maker's lesson, "Knitting
tip: round neckline" (N02); a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ..catalogue.forms import ROUND_NECKS
from ..core.branched import as_even_as
from ..core.counted import Count
from ..core.counts import DOWN, Rounding, Unit
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Sum, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..pattern.conventions import NeckCurve, NeckSpec
from ..pattern.model import Neck
from ..pattern.slope_specs import Slope
from ..shape.curves import elliptic_neck, removed, round_neck, stepped, v_neck
from ..shape.even_gaps import AnyNumber, EvenSlope, number
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile, in_order, shifted
from ..shape.schedule import Schedule, schedule_of
from ..shape.slopes import (
    SlopeRequest,
    Usual,
    even_slope,
    slope_counts,
    slope_request,
    slope_schedule,
)
from ..shape.step_sizes import CountedSlope, SteppedSlope, StepSizes, listed_sizes
from ..words.terms.part_names import part_name

V_SIDE = Usual(end=2, least_first=0)  # the decreases of a V, which may begin where it opens

USUAL = NeckSpec()


@dataclass(frozen=True, slots=True, kw_only=True)
class NeckEdge:
    """One side of a neck: its `changes`, and the steps or the even slope that they are `made` by,
    whose first row lies `first` rows above the edge's own; `how` says how stitches go in steps."""

    changes: tuple[Change, ...]
    made: StepSizes | Schedule | None = None
    first: int = 0
    how: How = How.BIND_OFF

    def slopes(self, below: Expression) -> tuple[CountedSlope, ...]:
        """The edge as its calculation, above so many rows; nothing where it is not shaped."""
        if isinstance(self.made, Schedule):
            return even_slope(("neck", How.DECREASE), below, self.made)
        if self.made is None:
            return ()
        up = below + plain(self.first) if self.first else below
        return (SteppedSlope(name="neck", how=self.how, below=up, steps=self.made),)


def inner_edge(depth: AnyNumber, side_stitches: AnyNumber, neck: Neck,
               slope: SlopeRequest | None = None,
               own: NeckSpec = USUAL, measure: str = "front_neck") -> NeckEdge:
    """Return one side of the neck over `depth` rows, bound off on odd rows from the opening.

    A V is decreased as `slope`, a round one shaped as its `own` convention says. Raises CannotShape
    where the rows, which come of `measure`, are too few.
    """
    rows, going = number(depth), number(side_stitches)
    if neck is Neck.V and slope is not None:
        made = slope_schedule(slope, going, rows, V_SIDE)
        return NeckEdge(changes=made.changes(How.DECREASE), made=made)
    if not going.value:
        return NeckEdge(changes=())
    try:
        edge = _inner_edge(rows, going, neck, own)
        Profile(int(rows.value), edge.changes)
        return edge
    except CannotShape:
        raise
    except ValueError as fault:
        raise CannotShape(f"{going.value} stitches to go at either side of a neck {rows.value} "
                          "rows deep", f"Make {measure} more or neck_width less.",
                          at="neckline" if own != USUAL else f"measures.{measure}") from fault


HELD_ROWS = 3  # what a held neck's first step lies above its centre, and a row above its last one


def held_edge(edge: NeckEdge) -> NeckEdge:
    """Return one side of a neck with its stitches held where they would be bound off, 2 rows
    above its centre.

    Of a step all but one go into hold with the carriage on the other side, the last when the
    carriage has come, so that the yarn goes round it (S07).
    """
    changes = tuple(Change(row, stitches, How.HOLD) for change in edge.changes
                    for row, stitches in ((change.row + 1, change.stitches - 1),
                                          (change.row + 2, 1)) if stitches)
    return replace(edge, changes=changes, first=edge.first + 1, how=How.HOLD)


def _inner_edge(depth: Expression, side: Expression, neck: Neck, own: NeckSpec) -> NeckEdge:
    if neck is Neck.V:
        top = Chosen((plain(2), depth - Term(side, Role.NUMBER)), Rule.SMALLEST,
                     ChoiceReason.ROW_EACH)
        slope = v_neck(side, depth, plain_at_top=top)
        return NeckEdge(changes=slope.changes(How.DECREASE), made=slope)
    rows, stitches = int(depth.value), int(side.value)
    if own.steps:
        _check_fit(own.steps, stitches, rows)
        return NeckEdge(changes=stepped(own.steps, 1), made=listed_sizes(own_steps(own)), first=1)
    if own.curve is NeckCurve.ELLIPSE:
        round_ = elliptic_neck(2 * stitches, depth, 0, side)
    else:
        room = Chosen((Rounded(depth / plain(4), DOWN), Term(side, Role.STITCHES)), Rule.SMALLEST,
                      ChoiceReason.STITCH_EACH)
        times = Chosen((room, plain(1)), Rule.LARGEST, ChoiceReason.LEAST_ONE)
        high = max(rows, 2 * int(times.value) + 2)
        round_ = round_neck(2 * stitches, high, centre=0, steps=times, side=side)
    return NeckEdge(changes=round_.changes(-1), made=round_.made, first=1)


def own_steps(own: NeckSpec) -> tuple[Expression, ...]:
    """Return the steps of one side as the designer gives them."""
    return tuple(Operand(Fraction(step), Role.SOURCE, Unit.STITCHES.name_of(step), own.steps_place)
                 for step in own.steps)


def _check_fit(steps: Sequence[int], stitches: int, depth: int) -> None:
    """Raise CannotShape where the designer's steps do not come to the stitches that go, or do not
    fit the rows."""
    if len(steps) > (depth + 1) // 2:
        raise CannotShape(f"{len(steps)} steps, one every 2nd row, at the sides of a neck with "
                          f"{depth} rows for them",
                          f"Write {(depth + 1) // 2} steps at most, or make the neck deeper.",
                          at="neckline")
    if sum(steps) != stitches:
        more = stitches - sum(steps)
        remedy: FindingText = f"Write {2 * more} stitches more" if more > 0 else \
            f"Write {-2 * more} fewer"
        raise CannotShape(f"steps of {' + '.join(map(str, steps))} = {sum(steps)} stitches, where "
                          f"{stitches} go at either side of the neck's centre",
                          f"{remedy} for the centre, or leave one of the two out.", at="neckline")


def centre_made(neck: AnyNumber, depth: AnyNumber, kind: Neck, own: NeckSpec = USUAL
                ) -> Expression:
    """Return the stitches at a neck's centre, of the same parity as the neck, as an expression.

    Round and high: what the designer asks for, or what her steps leave; else two fifths (N01, N02:
    a third to a half), more where the rows of its `depth` are too few to shape the rest, as at a
    back neck; V: none, or one; square and boat: all. Raises CannotShape.
    """
    all_, rows = number(neck), number(depth)
    if kind is Neck.V:
        return all_ - plain(2) * Rounded(all_ / plain(2), DOWN)
    if kind in (Neck.SQUARE, Neck.BOAT):
        return all_
    if (centre := own_centre(all_, own)) is not None:
        _check(int(centre.value), int(all_.value), own)
        return centre
    return as_even_as(Rounded(all_ - plain(2) * _side(all_, rows),
                              Rounding("multiple", 2, int(all_.value) % 2)), all_)


def _side(neck: Expression, rows: Expression) -> Expression:
    """What goes at either side of the centre of a round neck of so many stitches: three tenths, in
    a shallow neck what steps of up to 3 stitches have room for."""
    room = Rounded(rows / plain(4), DOWN) if rows.value > 0 else plain(0)
    return Chosen((Rounded(neck * plain(Fraction(3, 10)), DOWN), plain(3) * room), Rule.SMALLEST,
                  ChoiceReason.NECK_SIDES)


def half_centre(side: Expression, depth: Expression, kind: Neck, own: NeckSpec = USUAL
                ) -> Expression:
    """Return half the stitches at the centre of a neck where so many go at each `side`, as at a
    front edge; see `centre_made`. Raises CannotShape."""
    half = Term(side, Role.STITCHES)
    if kind in ROUND_NECKS and own_centre(plain(2) * half, own) is None:
        return half - _side(plain(2) * half, depth)
    return centre_made(plain(2) * half, depth, kind, own) / plain(2)


def side_made(neck: Expression, centre: Expression) -> Expression:
    """Return what goes at either side of a neck's `centre`."""
    return (neck - Term(centre, Role.STITCHES, part_name(PartRole.AT_CENTRE))) / plain(2)


def own_centre(neck: Expression, own: NeckSpec) -> Expression | None:
    """Return the centre of a round neck of so many stitches as the designer has it: what is asked
    for, what the steps leave, two fifths of an ellipse (N01, N02); None where nothing is asked."""
    if own.centre is not None:
        return Operand(Fraction(own.centre), Role.SOURCE, Unit.STITCHES.name_of(own.centre),
                       own.centre_place)
    if own.steps:
        steps = own_steps(own)
        return neck - plain(2) * (steps[0] if len(steps) == 1 else Sum(steps))
    if own.curve is NeckCurve.ELLIPSE:
        return as_even_as(Rounded(neck * plain(Fraction(2, 5)),
                                  Rounding("multiple", 2, int(neck.value) % 2)), neck)
    return None


def centre_counts(cut: Cut, neck: Count, *, whole_front: bool) -> list[tuple[str, str, Count]]:
    """Return the counts of the centres of necks that the designer shapes, of back and whole front.
    """
    own = cut.conventions
    necks = [("back", own.back_neck)] if cut.neck is not Neck.BOAT else []
    if whole_front and cut.neck in ROUND_NECKS:
        necks.append(("front", own.front_neck))
    made = ((key, own_centre(neck.term(Role.STITCHES), spec)) for key, spec in necks)
    return [(key, "neck_centre", Count(centre, Unit.STITCHES)) for key, centre in made
            if centre is not None]


def _check(centre: int, neck: int, own: NeckSpec) -> None:
    """Raise CannotShape where the centre leaves no equal sides."""
    if centre < 0:
        raise CannotShape(f"steps of {' + '.join(map(str, own.steps))} = {sum(own.steps)} stitches "
                          f"at either side of a neck of {neck}",
                          f"Write steps of {neck // 2} stitches at most.", at="neckline")
    if centre > neck or (neck - centre) % 2:
        near = max(0, min(neck, centre + 1 if centre < neck else neck))
        raise CannotShape(f"a centre of {centre} of the {neck} stitches of a neck, which leaves "
                          "no equal sides", f"Write {near}.", at="neckline")


def front_neck(row: int, height: AnyNumber, stitches: AnyNumber, kind: Neck,
               slope: SlopeRequest | None = None, own: NeckSpec = USUAL) -> NeckEdge:
    """Return the neck at a front edge: what is bound off there on the odd `row`, then its slope.

    It takes `stitches` in `height` rows from there; a V slopes from the row itself, as `slope`.
    """
    high, going = number(height), number(stitches)
    if kind is Neck.V:
        edge = inner_edge(high, going, kind, slope)
        return replace(edge, changes=shifted(edge.changes, row))
    centre = half_centre(going, high + plain(1), kind, own)
    rest = Term(going, Role.STITCHES) - Term(centre, Role.STITCHES)
    return bound_off_first(row, centre, inner_edge(high - plain(1), rest, kind, own=own), going)


def bound_off_first(row: int, at_once: Expression, side: NeckEdge, going: Expression) -> NeckEdge:
    """Return the edge of a neck at which so many are bound off `at_once` on a `row`, and then those
    of its `side` go, `going` in all."""
    changes = in_order(removed(row, int(at_once.value)), shifted(side.changes, row + 1))
    above = side.made
    if above is None:
        return NeckEdge(changes=changes, made=listed_sizes([at_once]))
    assert isinstance(above, StepSizes), "a V has nothing bound off"
    return NeckEdge(changes=changes, made=StepSizes(
        stitches=going, times=Term(above.times, Role.NUMBER) + plain(1),
        sizes=(at_once, *above.sizes),
        helps=(("stitches_above", Unit.STITCHES, above.stitches),
               ("times_above", Unit.TIMES, above.times), *above.helps)))


def v_counts(cut: Cut, front: Piece, start: int) -> tuple[tuple[str, str, Count], ...]:
    """Return the counts of a V that the designer schedules, from row `start` of a front's inner
    edge."""
    request = slope_request(cut, Slope.V_NECK)
    if request is None:
        return ()
    inner = front.opening.inner if front.opening else front.left
    made = schedule_of((change.row - start for change in inner.changes), inner.rows - start)
    gaps = next((slope.gaps for slope in front.slopes
                 if slope.name == "neck" and isinstance(slope, EvenSlope)), None)
    if gaps and gaps.made.value == made.rows:
        made = replace(made, gaps=gaps)
    return slope_counts(front.key, "neck_", request, made)
