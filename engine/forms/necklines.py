"""Necks as rows of single decreases and bind-offs, for a body of any form."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Rounding, whole
from ..pattern.model import Neck
from ..pattern.slopes import Slope
from ..shape.curves import removed, round_neck, v_neck
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile, in_order, shifted
from ..shape.schedule import schedule_of
from ..shape.slopes import Asked, Usual, asked_of, slope_counts, slope_schedule

V_SIDE = Usual(end=2, least_first=0)  # the decreases of a V, which may begin where it opens


def inner_edge(depth: int, side_stitches: int, neck: Neck, asked: Asked | None = None
               ) -> tuple[Change, ...]:
    """Return one side of the neck over `depth` rows, bound off on odd rows from the opening.

    A V is decreased as `asked`. Raises CannotShape where the rows are too few.
    """
    if neck is Neck.V and asked is not None:
        return slope_schedule(asked, side_stitches, depth, V_SIDE).changes(How.DECREASE)
    if not side_stitches:
        return ()
    try:
        return Profile(depth, _inner_changes(depth, side_stitches, neck)).changes
    except ValueError as fault:
        raise CannotShape(f"{side_stitches} stitches to go at either side of a neck {depth} rows "
                          "deep", "Make the neck deeper or neck_width less.") from fault


def _inner_changes(depth: int, side_stitches: int, neck: Neck) -> tuple[Change, ...]:
    if neck is Neck.V:
        return v_neck(side_stitches, depth, plain_at_top=min(2, depth - side_stitches))
    steps = max(1, min(side_stitches, depth // 4))
    made = round_neck(2 * side_stitches, max(depth, 2 * steps + 2), centre=0, steps=steps)
    return tuple(Change(c.row - 1, c.stitches, c.how) for c in made.changes())


def centre_stitches(neck: int, depth: int, kind: Neck) -> int:
    """Return the stitches at a neck's centre, of the same parity as the neck.

    Round and high: two fifths (N01, N02: a third to a half), more where the rows are too few
    to shape the rest, as at a back neck; V: none, or one; square and boat: all.
    """
    if kind is Neck.V:
        return neck % 2
    if kind in (Neck.SQUARE, Neck.BOAT):
        return neck
    room = max(0, depth // 4)  # steps that fit, of up to 3 stitches each in a shallow neck
    shaped_at_most = 2 * min(3 * room, neck * 3 // 10)
    return whole(Fraction(neck - shaped_at_most), Rounding("multiple", 2, neck % 2))


def front_neck(row: int, height: int, stitches: int, kind: Neck, asked: Asked | None = None
               ) -> tuple[Change, ...]:
    """Return the neck at a front edge: what is bound off there on the odd `row`, then its slope.

    It takes `stitches` in `height` rows from there; a V slopes from the row itself, as `asked`.
    """
    if kind is Neck.V:
        return shifted(inner_edge(height, stitches, kind, asked), row)
    centre = centre_stitches(2 * stitches, height + 1, kind) // 2
    return in_order(removed(row, centre),
                    shifted(inner_edge(height - 1, stitches - centre, kind), row + 1))


def v_counts(cut: Cut, front: Piece, start: int) -> tuple[tuple[str, str, Count], ...]:
    """Return the counts of a V that the designer schedules, from row `start` of a front's inner
    edge."""
    asked = asked_of(cut, Slope.V_NECK)
    if asked is None:
        return ()
    inner = front.opening.inner if front.opening else front.left
    return slope_counts(front.key, "neck_", asked, schedule_of(
        (change.row - start for change in inner.changes), inner.rows - start))
