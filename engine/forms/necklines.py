"""Necks as rows of single decreases and bind-offs, for a body of any form."""

from __future__ import annotations

from fractions import Fraction

from ..core.counts import Rounding, whole
from ..pattern.model import Neck
from ..shape.curves import removed, round_neck, v_neck
from ..shape.garment import CannotShape
from ..shape.profile import Change, Profile, in_order, shifted


def inner_edge(depth: int, side_stitches: int, neck: Neck) -> tuple[Change, ...]:
    """Return one side of the neck over `depth` rows, bound off on odd rows from the opening.

    Raises CannotShape where the rows are too few.
    """
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


def front_neck(row: int, height: int, stitches: int, kind: Neck) -> tuple[Change, ...]:
    """Return the neck at a front edge: what is bound off there on the odd `row`, then its slope.

    It takes `stitches` in `height` rows from there; a V slopes from the row itself.
    """
    if kind is Neck.V:
        return shifted(inner_edge(height, stitches, kind), row)
    centre = centre_stitches(2 * stitches, height + 1, kind) // 2
    return in_order(removed(row, centre),
                    shifted(inner_edge(height - 1, stitches - centre, kind), row + 1))
