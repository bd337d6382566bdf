"""Stitch repeats as small text charts: what each mark means, and which repeats can be knitted.

    / / ( (      one character a stitch, seen on the knit side; the lowest row is row 1.
    | | | |

What a row shows is made ready by hand before the carriage knits that row: stitches moved and
crossed, needles chosen. Then the row is knitted, and fills every needle that was left empty.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from itertools import groupby
from typing import TypeAlias

MOST_STITCHES, MOST_ROWS = 60, 120  # of a repeat; beyond, it is a picture and no repeat

class Cell(Enum):
    """What one needle does in one row, by its mark; left and right are those of the view."""

    KNIT = "|"
    OUT = "."
    LEFT = "<"
    RIGHT = ">"
    FRONT_RIGHT = "/"
    BEHIND_LEFT = "("
    BEHIND_RIGHT = ")"
    FRONT_LEFT = "\\"
    TUCK = "u"
    SLIP = "v"
    SECOND = "x"


Cells: TypeAlias = tuple[Cell, ...]

MARKS = " ".join(cell.value for cell in Cell)
_MOVES = {Cell.LEFT: -1, Cell.RIGHT: 1}
_TAKES = frozenset({Cell.KNIT, Cell.SECOND})  # stitches that another can be laid on
_PASSED = frozenset({Cell.TUCK, Cell.SLIP})
_CROSSING = re.compile(r"(/+)(\(+)|(\)+)(\\+)")
_LOOSE = re.compile(r"[/()\\]")

_ACROSS = {Cell.LEFT: Cell.RIGHT, Cell.FRONT_RIGHT: Cell.FRONT_LEFT,
           Cell.BEHIND_LEFT: Cell.BEHIND_RIGHT}
_MIRRORED = _ACROSS | {b: a for a, b in _ACROSS.items()}
_THROUGH = {Cell.LEFT: Cell.RIGHT, Cell.FRONT_RIGHT: Cell.BEHIND_LEFT,
            Cell.FRONT_LEFT: Cell.BEHIND_RIGHT}
_TURNED = _THROUGH | {b: a for a, b in _THROUGH.items()}


@dataclass(frozen=True, slots=True)
class Crossing:
    """Neighbouring stitches that change places: `left` of them go right, `right` go left.

    `at` is the first of them, counted from 0 [stitches]; `left_in_front` as the view has it.
    """

    at: int
    left: int
    right: int
    left_in_front: bool

    @property
    def width(self) -> int:
        """All stitches that it takes [stitches]."""
        return self.left + self.right


@dataclass(frozen=True, slots=True)
class Flaw:
    """Why rows are no repeat: in which row and column (both from 1, from the left), and what."""

    code: str
    row: int
    column: int
    found: str
    expected: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchChart:
    """A repeat: `rows` from row 1 up, each from the left; `edge` plain stitches at both sides.

    `words` are the designer's own for some of the marks. Raises ValueError where `flaws` finds
    any.
    """

    title: str
    rows: tuple[Cells, ...]
    edge: int = 1
    words: tuple[tuple[Cell, str], ...] = ()

    def __post_init__(self) -> None:
        if self.edge < 0:
            raise ValueError(f"a chart cannot have {self.edge} edge stitches")
        for flaw in flaws(self.rows, self.edge):
            raise ValueError(f"{flaw.found}; expected {flaw.expected}")

    @property
    def width(self) -> int:
        """The needles of a repeat, those out of work among them [needles]."""
        return len(self.rows[0])

    @property
    def height(self) -> int:
        """The rows of a repeat [rows]."""
        return len(self.rows)

    @property
    def stitches(self) -> int:
        """The needles of a repeat that are in work [stitches]."""
        return sum(cell is not Cell.OUT for cell in self.rows[0])

    @property
    def leaves_out(self) -> bool:
        """True where needles stay out of work."""
        return Cell.OUT in self.rows[0]

    @property
    def laid(self) -> Fraction:
        """The share of its stitches in which a row lays yarn: all but those passed by."""
        slipped = sum(cell is Cell.SLIP for row in self.rows for cell in row)
        return 1 - Fraction(slipped, self.stitches * self.height)

    @property
    def second(self) -> Fraction:
        """The share of its stitches that are in the second colour."""
        two = sum(cell is Cell.SECOND for row in self.rows for cell in row)
        return Fraction(two, self.stitches * self.height)

    @property
    def cells(self) -> frozenset[Cell]:
        """The marks it uses."""
        return frozenset(cell for row in self.rows for cell in row)


def marks_of(row: Cells) -> str:
    """Return one row as it is written."""
    return "".join(cell.value for cell in row)


def mirrored(chart: StitchChart) -> StitchChart:
    """Return the chart with left and right exchanged, as for the other front of a cardigan."""
    return _changed(chart, _MIRRORED)


def turned_over(chart: StitchChart) -> StitchChart:
    """Return the chart as it is seen from the fabric's other side.

    Left and right change places, and so do front and behind: a crossing leans the same way on
    both sides.
    """
    return _changed(chart, _TURNED)


def _changed(chart: StitchChart, by: dict[Cell, Cell]) -> StitchChart:
    rows = tuple(tuple(by.get(cell, cell) for cell in reversed(row)) for row in chart.rows)
    return replace(chart, rows=rows,
                   words=tuple((by.get(cell, cell), said) for cell, said in chart.words))


def part_of(row: Cells, columns: range) -> Cells:
    """Return the cells of a repeat in `columns` only; of a crossing cut through, plain stitches."""
    cells = list(row)
    for c in crossings(row):
        if not (c.at in columns and c.at + c.width - 1 in columns):
            cells[c.at:c.at + c.width] = [Cell.KNIT] * c.width
    return tuple(cells[columns.start:columns.stop])


def crossings(row: Cells) -> tuple[Crossing, ...]:
    """Return the crossings of a row, from the left."""
    return tuple(
        Crossing(match.start(), len(match[1] or match[3]), len(match[2] or match[4]),
                 left_in_front=match[1] is not None)
        for match in _CROSSING.finditer(marks_of(row)))


def emptied(row: Cells) -> tuple[int, ...]:
    """Return the places of a row whose stitch moves away while none comes, from the left."""
    landings = {at + _MOVES[cell] for at, cell in enumerate(row) if cell in _MOVES}
    return tuple(at for at, cell in enumerate(row) if cell in _MOVES and at not in landings)


def loops_taken(row: Cells) -> tuple[int, ...]:
    """Return how many stitches lie on each place of a row once all are moved [loops]."""
    loops = [int(cell is not Cell.OUT) for cell in row]
    for at, cell in enumerate(row):
        if cell in _MOVES:
            loops[at] -= 1
            if 0 <= at + _MOVES[cell] < len(row):
                loops[at + _MOVES[cell]] += 1
    return tuple(loops)


def longest_float(chart: StitchChart) -> tuple[int, int]:
    """Return the most stitches that a yarn floats past between two of its own, and in which row.

    Repeats go on side by side; (0, 1) where no row has two colours [stitches].
    """
    most, where = 0, 1
    for number, row in enumerate(chart.rows, 1):
        second = [cell is Cell.SECOND for cell in row if cell is not Cell.OUT]
        if any(second) and not all(second):
            run = max(len(list(same)) for _, same in groupby(second * 2))
            if run > most:
                most, where = run, number
    return most, where


# Rows that lay a loop on one needle before it knits: six with thin yarn, four are usual (worked
# examples W3-105 and W3-107, of tuck settings at 4.5 mm).
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
            loops = loops + (cell is Cell.TUCK) if cell in _PASSED else 0
            if loops > most[0]:
                most = loops, number % len(rows) + 1, column
    return most


def _tucked(rows: tuple[Cells, ...]) -> Iterator[Flaw]:
    """More loops on a needle than a hook holds."""
    most, row, column = most_tucked(rows)
    if most > MOST_TUCKED and any(cells[column - 1] not in _PASSED for cells in rows):
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
        if all(cell in _PASSED for cell in cells):
            yield Flaw("chart-column", 1, column, f"no row that knits at stitch {column}",
                       "a stitch that is knitted in one row at least",
                       "Knit it in the row above: a loop held for ever cannot be knitted off.")
    if all(cell is Cell.OUT for cell in rows[0]):
        yield Flaw("chart-column", 1, 1, "a repeat without a needle in work",
                   "one stitch at least", "Write | for a stitch.")


def _crossed(row: Cells) -> Iterator[tuple[str, int, str, str, str]]:
    """Marks of crossings that are left once the whole crossings are taken away."""
    rest = _CROSSING.sub(lambda match: "|" * len(match[0]), marks_of(row))
    for match in _LOOSE.finditer(rest):
        yield ("chart-crossing", match.start(), f'"{match[0]}" without those it crosses',
               "a whole crossing inside the repeat, such as //(( or ))\\\\",
               "Write the stitches that change places side by side in one row.")


def _moved(row: Cells) -> Iterator[tuple[str, int, str, str, str]]:
    """Stitches moved to where none can take them, and needles left empty side by side."""
    wide = len(row)
    moves = [cell for cell in row if cell in _MOVES]
    if len(moves) == wide and len(set(moves)) == 1:
        yield ("chart-move", 0, "nothing but stitches that move one way",
               "a stitch that stays and takes another", "Leave one plain stitch.")
        return
    for at, cell in enumerate(row):
        if cell not in _MOVES:
            continue
        there = row[(at + _MOVES[cell]) % wide]
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
        if cell in _PASSED:
            yield ("chart-two-yarns", at, f'"{cell.value}" in a row of two colours',
                   "rows that tuck or slip to have one", "Tuck or slip in a row of its own.")
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
