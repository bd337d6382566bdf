"""Crowns: where the dial comes down, where stitches go onto their neighbours or are closed up.

Two published gathered crowns are followed. "Mid-gauge hat for premature baby",
needlesofsteel.blogspot.com, 2014: over the last 12 of 46 rows the dial comes down by one dot every
two rows; then every second stitch is moved onto its neighbour, one row is knitted, and the rest are
drawn up. "Golf club covers, chunky", lacecarriage.com: every second stitch is moved at once; then
come two rows two numbers tighter and two rows two more. Both empty every second needle only once: a
few tight rows over the gaps leave no ladder, many at the same dial would.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ..pattern.specs import PLAIN_CROWN, CrownSpec
from .profile import Change, How, Profile

DOT, TWO_NUMBERS = 1, 6  # thirds of a number
AFTER_DOTS = 1  # rows above the gathering
AFTER_AT_ONCE = 4


class Tighter(NamedTuple):
    """The dial set tighter by so many `thirds` of a number, when `row` rows are knitted.

    Less than 0 sets it looser.
    """

    row: int
    thirds: int


class Closed(NamedTuple):
    """All stitches taken off when the counter reads `row`, and hung again side by side.

    Of the needles that they then hang on, counted from 0 at the left, two neighbours hang on those
    that are `doubled`. One that `halves` gathers the fabric; others shape it.
    """

    row: int
    doubled: tuple[int, ...]
    halves: bool = False

    @property
    def fewer(self) -> int:
        """How many stitches fewer there are after it [stitches]."""
        return len(self.doubled)


class Top(NamedTuple):
    """All that narrows the top of a piece without shaping its edges, row by row."""

    gathers: tuple[int, ...] = ()
    closes: tuple[Closed, ...] = ()
    tightens: tuple[Tighter, ...] = ()

    @property
    def narrows(self) -> tuple[int, ...]:
        """The rows at which it is gathered or closed up, from the lowest [rows]."""
        return (*self.gathers, *(each.row for each in self.closes))


PLAIN = Top()


class Crown(NamedTuple):
    """A crown of a piece: its first row [rows below it], where it is gathered, its dials."""

    first: int
    gather: int
    tightens: tuple[Tighter, ...]


def after_gathering(deep: int, spec: CrownSpec = PLAIN_CROWN) -> int:
    """Return the rows above the gathering of a crown over whose `deep` rows the dial comes down."""
    if spec.rows_after is not None:
        return spec.rows_after
    return AFTER_DOTS if deep else AFTER_AT_ONCE


def crown(rows: int, deep: int, spec: CrownSpec = PLAIN_CROWN) -> Crown:
    """Return the crown at the top of a piece of `rows` [rows], the dial changed over `deep`.

    With none the dial changes after the gathering. `spec` says how far it goes, and how often.
    """
    last = after_gathering(deep, spec)
    gather, each = rows - last, spec.step_rows
    thirds = spec.step if spec.step is not None else DOT if deep else TWO_NUMBERS
    by = -thirds if spec.looser else thirds
    first, upto = (gather - deep, gather) if deep else (gather, rows)
    steps = tuple(Tighter(row, by) for row in range(first, upto, each)) if by else ()
    return Crown(first, gather, steps)


def wedges(stitches: int, first: int, spec: CrownSpec) -> tuple[Closed, ...]:
    """Return the decreases of a crown of wedges that begins at row `first` over `stitches`.

    Each takes one stitch of every wedge: the last two of it go onto one needle, as "knit 6 and
    two together" takes them (sheepfibre, "Fancy beanie: top", 2011; Ann D., "Machine knit baby
    hats"). The `beside` stitches lie outside them, at both ends.
    """
    at, out, each = spec.beside // 2, [], (stitches - spec.beside) // spec.wedges
    for n, left in enumerate(range(each - 1, spec.left - 1, -1)):
        out.append(Closed(first + n * spec.every, tuple(
            at + wedge * left + left - 1 for wedge in range(spec.wedges))))
    return tuple(out)


def halvings(stitches: int, first: int, rows: Sequence[int]) -> tuple[Closed, ...]:
    """Return the halvings of a crown that begins at row `first`, with so many `rows` after each.

    The stitches go together in pairs from the left, an odd one stays alone (Shaina Bilow, "Magic
    hats on a flat knitting machine").
    """
    out, left, row = [], stitches, first
    for after in rows:
        out.append(Closed(row, tuple(range(left // 2)), halves=True))
        left, row = left - left // 2, row + after
    return tuple(out)


def side_decreases(stitches: int, first: int, rows: int, spec: CrownSpec) -> Profile:
    """Return either edge of a piece of `rows` [rows] that is decreased from row `first` on, a
    stitch at both edges every so many rows."""
    return Profile(rows, tuple(Change(first + n * spec.every, 1, How.DECREASE)
                               for n in range((stitches - spec.left) // 2)))


QUARTERS = 4


def quarter(stitches: int, spec: CrownSpec) -> Profile:
    """Return either edge of a quarter of so many `stitches`, from where the others are held.

    A stitch is decreased at both edges every so many rows, until few are left (Margaret, in
    slisen.blogspot.com, "Quarter crown for hats", 2016).
    """
    gone = (stitches - spec.left) // 2
    return side_decreases(stitches, 0, gone * spec.every, spec)
