"""A gathered crown or tip: where the dial comes down, and where stitches go onto their neighbours.

Two published crowns are followed. "Mid-gauge hat for premature baby", needlesofsteel.blogspot.com,
2014: over the last 12 of 46 rows the dial comes down by one dot every two rows; then every second
stitch is moved onto its neighbour, one row is knitted, and the rest are drawn up. "Golf club
covers, chunky", lacecarriage.com: every second stitch is moved at once; then come two rows two
numbers tighter and two rows two more. Both empty every second needle only once: a few tight rows
over the gaps leave no ladder, many at the same dial would.
"""

from __future__ import annotations

from typing import NamedTuple

DOT, TWO_NUMBERS = 1, 6  # thirds of a number
EVERY = 2  # rows at a setting
AFTER_DOTS = 1  # rows above the gathering
AFTER_AT_ONCE = 4


class Tighter(NamedTuple):
    """The dial set tighter by so many `thirds` of a number, when `row` rows are knitted."""

    row: int
    thirds: int


class Crown(NamedTuple):
    """A crown of a piece: its first row [rows below it], where it is gathered, its dials."""

    first: int
    gather: int
    tightens: tuple[Tighter, ...]


def after_gathering(deep: int) -> int:
    """Return the rows above the gathering of a crown over whose `deep` rows the dial comes down."""
    return AFTER_DOTS if deep else AFTER_AT_ONCE


def crown(rows: int, deep: int) -> Crown:
    """Return the crown at the top of a piece of `rows` [rows], tightened over `deep` of them.

    With none the dial comes down after the gathering, in two steps.
    """
    gather = rows - after_gathering(deep)
    if not deep:
        return Crown(gather, gather, tuple(Tighter(gather + at, TWO_NUMBERS)
                                           for at in range(0, AFTER_AT_ONCE, EVERY)))
    first = gather - deep
    return Crown(first, gather, tuple(Tighter(row, DOT) for row in range(first, gather, EVERY)))
