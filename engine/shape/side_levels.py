"""Where a side below its underarm is measured: its hip and its waist, across and upward."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from .dimension_names import DimensionKind, DimensionName
from .piece import Piece
from .walked import QUARTERS, Spot

HIP, WAIST = "hip", "waist"
WIDTH_AT = {HIP: DimensionName(DimensionKind.HIP_WIDTH),
            WAIST: DimensionName(DimensionKind.WAIST_WIDTH)}
HEIGHT_TO = {HIP: DimensionName(DimensionKind.TO_HIP), WAIST: DimensionName(DimensionKind.TO_WAIST)}


def height_to(corner: str) -> DimensionName:
    """Return the height of a corner of an own outline."""
    return DimensionName(DimensionKind.TO_CORNER, corner)


def height_from(below: str, corner: str) -> DimensionName:
    """Return the height between two corners of an own outline, the upper one at its top."""
    return DimensionName(DimensionKind.TO_LAST_CORNER, corner, below)


def seam_ends(piece: Piece) -> int:
    """Return the row up to which changes shape a side seam, 0 where it is straight.

    An own outline has no underarm: all that shapes it lies in its sides.
    """
    if piece.corners is not None:
        return piece.rows + 1
    return piece.levels[-1][1] if piece.levels else 0


def level_measures(piece: Piece, place: Callable[[int, int], int], seam: int, top: int
                   ) -> Iterable[tuple[DimensionName, Spot, Spot]]:
    """Yield the width of each level, where it is not that of the cast-on edge, and its height, by
    name and both ends.

    `place` says where an edge is before what is changed at a row; `seam` on which side the
    height is drawn (-1 or 1); `top` is the row at which the piece ends.
    """
    yield from _corners(piece, place, seam, top)
    for name, row in piece.levels:
        if name in WIDTH_AT and row:
            left, right = place(row + 1, -1), place(row + 1, 1)
            if right - left != place(0, 1) - place(0, -1):
                yield WIDTH_AT[name], (left, row), (right, row)
            x = left if seam < 0 else right
            yield HEIGHT_TO[name], (x, 0), (x, row)


def _corners(piece: Piece, place: Callable[[int, int], int], seam: int, top: int
             ) -> Iterable[tuple[DimensionName, Spot, Spot]]:
    """The width at each corner of an own outline, where it is another than below, and the height
    of each row that has one; of the top there are both already, and it has the height of the
    part that ends there."""
    left, right, high, wide = place(0, -1), place(0, 1), {0, piece.rows}, 0
    below, under = 0, ""
    for name, row, out, _ in piece.corners or ():
        x = left if seam < 0 else right
        if out is not None and row < piece.rows:
            ends = left - QUARTERS * out[0], right + QUARTERS * out[1]
            x = ends[seam > 0]
            if sum(out) != wide:
                width = DimensionName(DimensionKind.CORNER_WIDTH, name)
                yield width, (ends[0], row), (ends[1], row)
            wide = sum(out)
        if row not in high:
            yield height_to(name), (x, 0), (x, row)
        elif row == piece.rows > below > 0:
            yield height_from(under, name), (x, below), (x, top)
        high.add(row)
        below, under = row, name
