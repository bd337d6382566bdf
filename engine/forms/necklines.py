"""Necks as rows of single decreases and bind-offs, for a body of any form.

Sources: a printed handbook, "Necklines: round and square" (N01); a yarn maker's lesson, "Knitting
tip: round neckline" (N02); a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..catalogue.forms import ROUND_NECKS
from ..core.counted import Count
from ..core.counts import DOWN, Rounding, Unit, whole
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, plain
from ..core.operands import ChoiceReason, Role
from ..pattern.conventions import NeckCurve, NeckSpec
from ..pattern.model import Neck
from ..pattern.slopes import Slope
from ..shape.curves import elliptic_neck, removed, round_neck, stepped, v_neck
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile, in_order, shifted
from ..shape.schedule import schedule_of
from ..shape.slopes import Asked, Usual, asked_of, slope_counts, slope_schedule

V_SIDE = Usual(end=2, least_first=0)  # the decreases of a V, which may begin where it opens

USUAL = NeckSpec()


def inner_edge(depth: int, side_stitches: int, neck: Neck, asked: Asked | None = None,
               own: NeckSpec = USUAL, measure: str = "front_neck") -> tuple[Change, ...]:
    """Return one side of the neck over `depth` rows, bound off on odd rows from the opening.

    A V is decreased as `asked`, a round one shaped as its `own` convention says. Raises CannotShape
    where the rows, which come of `measure`, are too few.
    """
    if neck is Neck.V and asked is not None:
        return slope_schedule(asked, side_stitches, depth, V_SIDE).changes(How.DECREASE)
    if not side_stitches:
        return ()
    try:
        return Profile(depth, _inner_changes(depth, side_stitches, neck, own)).changes
    except CannotShape:
        raise
    except ValueError as fault:
        raise CannotShape(f"{side_stitches} stitches to go at either side of a neck {depth} rows "
                          "deep", f"Make {measure} more or neck_width less.",
                          at="neckline" if own != USUAL else f"measures.{measure}") from fault


HELD_ROWS = 3  # what a held neck's first step lies above its centre, and a row above its last one


def held_room(height: int, own: NeckSpec) -> int:
    """Return the rows that the steps of a neck have of its `height`: fewer where they are held."""
    return height - HELD_ROWS if own.held else height


def held_edge(bound: Iterable[Change]) -> tuple[Change, ...]:
    """Return one side of a neck with its stitches held where they would be `bound` off, 2 rows
    above its centre.

    Of a step all but one go into hold with the carriage on the other side, the last when the
    carriage has come, so that the yarn goes round it (S07).
    """
    return tuple(Change(row, stitches, How.HOLD) for change in bound for row, stitches in (
        (change.row + 1, change.stitches - 1), (change.row + 2, 1)) if stitches)


def _inner_changes(depth: int, side_stitches: int, neck: Neck, own: NeckSpec
                   ) -> tuple[Change, ...]:
    if neck is Neck.V:
        return v_neck(side_stitches, depth, plain_at_top=min(2, depth - side_stitches))
    if own.steps:
        return stepped(_fitting(own.steps, side_stitches, depth), 1)
    if own.curve is NeckCurve.ELLIPSE:
        made = elliptic_neck(2 * side_stitches, depth, 0)
    else:
        steps = max(1, min(side_stitches, depth // 4))
        made = round_neck(2 * side_stitches, max(depth, 2 * steps + 2), centre=0, steps=steps)
    return tuple(Change(c.row - 1, c.stitches, c.how) for c in made.changes())


def _fitting(steps: Sequence[int], stitches: int, depth: int) -> tuple[int, ...]:
    """The designer's steps, which must come to the stitches that go and fit the rows. Raises
    CannotShape."""
    if len(steps) > (depth + 1) // 2:
        raise CannotShape(f"{len(steps)} steps, one every 2nd row, at the sides of a neck with "
                          f"{depth} rows for them",
                          f"Write {(depth + 1) // 2} steps at most, or make the neck deeper.",
                          at="neckline")
    if sum(steps) != stitches:
        more = stitches - sum(steps)
        way = f"Write {2 * more} stitches more" if more > 0 else f"Write {-2 * more} fewer"
        raise CannotShape(f"steps of {' + '.join(map(str, steps))} = {sum(steps)} stitches, where "
                          f"{stitches} go at either side of the neck's centre",
                          f"{way} for the centre, or leave one of the two out.", at="neckline")
    return tuple(steps)


def centre_stitches(neck: int, depth: int, kind: Neck, own: NeckSpec = USUAL) -> int:
    """Return the stitches at a neck's centre, of the same parity as the neck.

    Round and high: what the designer asks for, or what her steps leave; else two fifths (N01, N02:
    a third to a half), more where the rows are too few to shape the rest, as at a back neck; V:
    none, or one; square and boat: all. Raises CannotShape.
    """
    if kind is Neck.V:
        return neck % 2
    if kind in (Neck.SQUARE, Neck.BOAT):
        return neck
    if (centre := own_centre(plain(neck), own)) is not None:
        return _checked(int(centre.value), neck, own)
    room = max(0, depth // 4)  # steps that fit, of up to 3 stitches each in a shallow neck
    shaped_at_most = 2 * min(3 * room, neck * 3 // 10)
    return _of_parity(Fraction(neck - shaped_at_most), neck)


def centre_made(neck: Expression, depth: Expression, kind: Neck, own: NeckSpec) -> Expression:
    """Return the same stitches as an expression: what of the `neck` is left of what can be shaped
    in the rows of its `depth`."""
    if kind in (Neck.SQUARE, Neck.BOAT):
        return neck
    if (centre := own_centre(neck, own)) is not None:
        return centre
    room = Rounded(depth / plain(4), DOWN)
    sides = (plain(3) * room, Rounded(neck * plain(Fraction(3, 10)), DOWN))
    most = Chosen(sides, Rule.SMALLEST, ChoiceReason.NECK_SIDES)
    return Rounded(neck - plain(2) * most, Rounding("multiple", 2, int(neck.value) % 2))


def _of_parity(centre: Fraction, neck: int) -> int:
    return whole(centre, Rounding("multiple", 2, neck % 2))


def own_centre(neck: Expression, own: NeckSpec) -> Expression | None:
    """Return the centre of a round neck of so many stitches as the designer has it: what is asked
    for, what the steps leave, two fifths of an ellipse (N01, N02); None where nothing is asked."""
    if own.centre is not None:
        return Operand(Fraction(own.centre), Role.SOURCE, Unit.STITCHES.name_of(own.centre))
    if own.steps:
        return neck - plain(2) * plain(sum(own.steps))
    if own.curve is NeckCurve.ELLIPSE:
        return Rounded(plain(2) * neck / plain(5), Rounding("multiple", 2, int(neck.value) % 2))
    return None


def centre_counts(cut: Cut, neck: Count, *, whole_front: bool) -> list[tuple[str, str, Count]]:
    """Return the counts of the centres of necks that the designer shapes, of back and whole front.
    """
    own = cut.conventions
    asked = [("back", own.back_neck)] if cut.neck is not Neck.BOAT else []
    if whole_front and cut.neck in ROUND_NECKS:
        asked.append(("front", own.front_neck))
    made = ((key, own_centre(neck.term(Role.STITCHES), spec)) for key, spec in asked)
    return [(key, "neck_centre", Count(centre, Unit.STITCHES)) for key, centre in made
            if centre is not None]


def _checked(centre: int, neck: int, own: NeckSpec) -> int:
    """That centre, where it leaves equal sides. Raises CannotShape."""
    if centre < 0:
        raise CannotShape(f"steps of {' + '.join(map(str, own.steps))} = {sum(own.steps)} stitches "
                          f"at either side of a neck of {neck}",
                          f"Write steps of {neck // 2} stitches at most.", at="neckline")
    if centre > neck or (neck - centre) % 2:
        near = max(0, min(neck, centre + 1 if centre < neck else neck))
        raise CannotShape(f"a centre of {centre} of the {neck} stitches of a neck, which leaves "
                          "no equal sides", f"Write {near}.", at="neckline")
    return centre


def front_neck(row: int, height: int, stitches: int, kind: Neck, asked: Asked | None = None,
               own: NeckSpec = USUAL) -> tuple[Change, ...]:
    """Return the neck at a front edge: what is bound off there on the odd `row`, then its slope.

    It takes `stitches` in `height` rows from there; a V slopes from the row itself, as `asked`.
    """
    if kind is Neck.V:
        return shifted(inner_edge(height, stitches, kind, asked), row)
    centre = centre_stitches(2 * stitches, height + 1, kind, own) // 2
    return in_order(removed(row, centre),
                    shifted(inner_edge(height - 1, stitches - centre, kind, own=own), row + 1))


def v_counts(cut: Cut, front: Piece, start: int) -> tuple[tuple[str, str, Count], ...]:
    """Return the counts of a V that the designer schedules, from row `start` of a front's inner
    edge."""
    asked = asked_of(cut, Slope.V_NECK)
    if asked is None:
        return ()
    inner = front.opening.inner if front.opening else front.left
    return slope_counts(front.key, "neck_", asked, schedule_of(
        (change.row - start for change in inner.changes), inner.rows - start))
