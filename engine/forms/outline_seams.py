"""Where an edge of an own piece has a stitch more for its seam: at its corners, one by one."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..pattern.outlines import EdgeSide, Going, OutlinePiece
from ..shape.garment import Cut
from .body_counts import SEAM


def seams_of(cut: Cut, piece: OutlinePiece, side: EdgeSide, heights: Sequence[int], top: int
             ) -> tuple[int, ...]:
    """Return the stitches that a seam takes at the lower edge and at each corner of an edge.

    A corner has one where rows beside it lie in a seam; stitches that are bound off take none.
    Where an edge runs straight out of its seam, it keeps that stitch to the next corner. `heights`
    are the rows of the corners, from the lowest, `top` those of the piece.
    """
    points = piece.points(side)
    at = [0, *heights]
    widths = [cut.measure(piece.width).value / (1 if piece.alike else 2),
              *(cut.measure(point.width).value for point in points)]
    level = [high == low or (point.by is Going.STEPS and one != other)
             for point, (low, high), (one, other) in zip(
                 points, pairwise(at), pairwise(widths), strict=True)]
    taken = [_taken(cut, piece, side, point.stretch) for point in points]
    if at[-1] < top:
        level, taken = [*level, False], [*taken, _taken(cut, piece, side)]
    found = [_beside(corner, level, taken) for corner in range(len(at))]
    straight = [n for n, (one, other) in enumerate(pairwise(widths))
                if one == other and not level[n]]
    for n in (*straight, *reversed(straight)):
        found[n] = found[n + 1] = max(found[n], found[n + 1])
    return tuple(found)


def _beside(corner: int, level: Sequence[bool], taken: Sequence[bool]) -> int:
    """What a seam takes at a corner: by the rows below and above it, or those that come next."""
    rows = [n for n in (corner - 1, corner) if 0 <= n < len(level) and not level[n]]
    rows = rows or [n for n in range(corner, len(level)) if not level[n]][:1]
    return SEAM * any(taken[n] for n in rows)


def _taken(cut: Cut, piece: OutlinePiece, side: EdgeSide, stretch: str = "") -> bool:
    """True where a part of a side lies in a seam, by its name or with the whole side."""
    return any(edge.piece == piece.key and edge.side is side and edge.stretch in ("", stretch)
               for join in cut.outline.joins for edge in join.edges)
