"""An edge of a piece from corner to corner, before it is measured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .crowns import QUARTERS as PARTS
from .crowns import Closed
from .profile import Profile

Spot = tuple[int, int]  # a corner before it is measured [quarters of a stitch, rows]
QUARTERS = 4  # a piece's middle may lie between two halves of a stitch


def walk(profile: Profile, last: int, start: Spot, side: int) -> list[Spot]:
    """Return the corners of an edge, upward from `start`; outward is to `side` (-1 or 1).

    It ends where stitches are first held: from there a slope leads to the piece's top.
    """
    x, up = start
    spots = [start]
    for segment in profile.drawn(last):
        if segment.stitches:
            x += side * segment.stitches * QUARTERS
        if segment.rows:
            up += segment.rows
        spots.append((x, up))
    return spots


def leaning(spots: list[Spot], side: int, closes: Sequence[Closed]) -> list[Spot]:
    """Return an edge whose top leans in where stitches are decreased across the whole row.

    As a slope of decreases: it begins as far below the first as the next one lies above it.
    """
    if not closes:
        return spots
    (x, top), rows = spots[-1], [each.row for each in closes]
    below = rows[1] - rows[0] if rows[1:] else 1
    out = [*spots[:-1], (x, rows[0] - below)]
    for each in closes:
        x -= side * each.fewer * QUARTERS // 2
        out.append((x, each.row))
    return [*out, (x, top)]


def petals(edge: Profile, left: Spot, right: Spot) -> Iterator[Spot]:
    """Yield the corners of the quarters of a crown that stand side by side, from the `right` end of
    the row that they stand on to its `left` end; `edge` is either edge of each."""
    wide = (right[0] - left[0]) // PARTS
    for number in range(PARTS):
        start = (right[0] - number * wide, right[1])
        yield from walk(edge, 0, start, 1)
        yield from reversed(walk(edge, 0, (start[0] - wide, right[1]), -1))
