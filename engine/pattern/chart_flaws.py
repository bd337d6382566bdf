"""Why rows of marks are no repeat that can be knitted side by side and upwards."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

from ..machine.records import dataclass
from .cells import CROSSING, MOVES, PASSED, Cell, Cells, marks_of

_TAKES = frozenset({Cell.KNIT, Cell.SECOND})  # stitches that another can be laid on
_LOOSE = re.compile(r"[/()\\]")


@dataclass(frozen=True, slots=True)
class Flaw:
    """Why rows are no repeat: in which row and column (both from 1, from the left), and what."""

    code: str
    row: int
    column: int
    found: str
    expected: str
    remedy: str


# Rows that lay a loop on one needle before it knits: six with thin yarn, four are usual, of tuck
# settings at 4.5 mm: alessandrina, "Tuck trims 4" and "Tuck lace trims".
MOST_TUCKED, USUALLY_TUCKED = 6, 4


def most_tucked(rows: tuple[Cells, ...]) -> tuple[int, int, int]:
    """Return the most rows that tuck on one needle before it knits [rows], the row of the last of
    them and its stitch, counted from 1; (0, 1, 1) where none tuck.

    Repeats go on upwards; a row that slips the needle leaves its loops.
    """
    most = (0, 1, 1)
    for column, cells in enumerate(zip(*rows, strict=True), 1):
        loops = 0
        for number, cell in enumerate(cells * 2):
            loops = loops + (cell is Cell.TUCK) if cell in PASSED else 0
            if loops > most[0]:
                most = loops, number % len(rows) + 1, column
    return most


def _tucked(rows: tuple[Cells, ...]) -> Iterator[Flaw]:
    """More loops on a needle than a hook holds."""
    most, row, column = most_tucked(rows)
    if most > MOST_TUCKED and any(cells[column - 1] not in PASSED for cells in rows):
        yield Flaw("chart-tucks", row, column, f"{most} rows that tuck at stitch {column}",
                   f"at most {MOST_TUCKED} before the needle knits",
                   "Knit it in between: no hook holds more loops.")


def flaws(rows: tuple[Cells, ...], edge: int) -> tuple[Flaw, ...]:
    """Return why `rows` cannot be repeated side by side and upwards; nothing where they can.

    Moved stitches, which may land in the neighbouring repeat, are looked at around the
    repeat's ends. That two empty needles side by side make no two stitches is common practice,
    no source.
    """
    if not rows or not rows[0]:
        return (Flaw("chart-uneven", 1, 1, "a row without marks", "rows of marks",
                     "Write one mark for every needle."),)
    uneven = _uneven(rows)
    if uneven:
        return uneven
    return (*_columns(rows), *_tucked(rows), *_each(rows, _crossed), *_each(rows, _moved),
            *_each(rows, _two_yarns), *_ends(rows, edge))


def _uneven(rows: tuple[Cells, ...]) -> tuple[Flaw, ...]:
    wide = len(rows[0])
    return tuple(
        Flaw("chart-uneven", number, min(len(row), wide) or 1,
             f"{len(row)} marks in row {number}", f"{wide} as in row 1, the lowest",
             "Give every row of the repeat the same width.")
        for number, row in enumerate(rows, 1) if len(row) != wide)


_RowFlaws: TypeAlias = Callable[[Cells], "Iterable[tuple[str, int, str, str, str]]"]


def _each(rows: tuple[Cells, ...], check: _RowFlaws) -> Iterator[Flaw]:
    """The flaws that single rows have; each check tells code, place from 0 and texts."""
    for number, row in enumerate(rows, 1):
        for code, at, found, expected, remedy in check(row):
            yield Flaw(code, number, at + 1, f"{found} at stitch {at + 1} of row {number}",
                       expected, remedy)


def _columns(rows: tuple[Cells, ...]) -> Iterator[Flaw]:
    """Needles in work now and then, needles that never knit, and nothing but empty needles."""
    for column, cells in enumerate(zip(*rows, strict=True), 1):
        out = [cell is Cell.OUT for cell in cells]
        if any(out) and not all(out):
            row = out.index(not out[0]) + 1
            yield Flaw("chart-column", row, column,
                       f'"." in some rows only at stitch {column}',
                       "a needle in work in all rows or in none",
                       'Write "." in every row, or in none.')
        if all(cell in PASSED for cell in cells):
            yield Flaw("chart-column", 1, column, f"no row that knits at stitch {column}",
                       "a stitch that is knitted in one row at least",
                       "Knit it in the row above: a loop held for ever cannot be knitted off.")
    if all(cell is Cell.OUT for cell in rows[0]):
        yield Flaw("chart-column", 1, 1, "a repeat without a needle in work",
                   "one stitch at least", "Write | for a stitch.")


def _crossed(row: Cells) -> Iterator[tuple[str, int, str, str, str]]:
    """Marks of crossings that are left once the whole crossings are taken away."""
    rest = CROSSING.sub(lambda match: "|" * len(match[0]), marks_of(row))
    for match in _LOOSE.finditer(rest):
        yield ("chart-crossing", match.start(), f'"{match[0]}" without those it crosses',
               "a whole crossing inside the repeat, such as //(( or ))\\\\",
               "Write the stitches that change places side by side in one row.")


def _moved(row: Cells) -> Iterator[tuple[str, int, str, str, str]]:
    """Stitches moved to where none can take them, and needles left empty side by side."""
    wide = len(row)
    moves = [cell for cell in row if cell in MOVES]
    if len(moves) == wide and len(set(moves)) == 1:
        yield ("chart-move", 0, "nothing but stitches that move one way",
               "a stitch that stays and takes another", "Leave one plain stitch.")
        return
    for at, cell in enumerate(row):
        if cell not in MOVES:
            continue
        there = row[(at + MOVES[cell]) % wide]
        if there is not cell and there not in _TAKES:
            yield ("chart-move", at, f'"{cell.value}" towards "{there.value}"',
                   "a plain stitch beside it to take the one that moves",
                   "Leave the stitch it is moved onto plain.")
        elif cell is Cell.LEFT and row[(at + 1) % wide] is Cell.RIGHT:
            yield ("chart-move", at, "two needles left empty side by side",
                   "a stitch between two eyelets", "Leave a plain stitch between them.")


def _two_yarns(row: Cells) -> Iterator[tuple[str, int, str, str, str]]:
    """What a row of two colours cannot have: needles passed by, or no stitch of the first yarn."""
    if Cell.SECOND not in row:
        return
    for at, cell in enumerate(row):
        if cell in PASSED:
            yield ("chart-two-yarns", at, f'"{cell.value}" in a row of two colours',
                   "rows that tuck or slip to have one", "Tuck or slip in a separate row.")
    if set(row) <= {Cell.SECOND, Cell.OUT}:
        yield ("chart-two-yarns", row.index(Cell.SECOND), "nothing but the second colour",
               "a stitch of each colour in a row of two",
               "Write | for one stitch at least: both yarns run through the row.")


def _ends(rows: tuple[Cells, ...], edge: int) -> Iterator[Flaw]:
    """What the ends of a piece without edge stitches cannot do."""
    if edge:
        return
    for number, row in enumerate(rows, 1):
        for at, move in ((0, Cell.LEFT), (len(row) - 1, Cell.RIGHT)):
            if row[at] in (move, Cell.OUT):
                what = "a stitch moved" if row[at] is move else "a needle left"
                yield Flaw("chart-edge", number, at + 1,
                           f"{what} out of the piece at stitch {at + 1} of row {number}",
                           "an edge stitch at each side", "Write edge: 1.")
