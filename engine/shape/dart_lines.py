"""Where the vertical darts of a piece lie: the line of a dart's middle stitch."""

from __future__ import annotations

from .profile import Profile
from .walked import QUARTERS, Spot


def dart_line(edge: Profile, start: int, side: int) -> tuple[Spot, ...]:
    """Return the places of a dart's middle stitch before every change of it, from the lowest.

    `start` is where the edge begins, `side` on which of the sides it lies (-1 or 1). Nothing
    where the edge has no dart.
    """
    spots, x = [], start
    for change in edge.changes:
        if change.how.at_dart:
            spots.append((x - side * (change.inset * QUARTERS + QUARTERS // 2), change.row))
        x += side * change.outward * QUARTERS
    return tuple(spots)
