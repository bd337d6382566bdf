"""Stitch repeats as small text charts: what each mark means, and which repeats can be knitted.

    / / ( (      one character a stitch, seen on the knit side; the lowest row is row 1.
    | | | |

What a row shows is made ready by hand before the carriage knits that row: stitches moved and
crossed, needles chosen. Then the row is knitted, and fills every needle that was left empty.
"""

from __future__ import annotations

from dataclasses import field, replace
from enum import Enum
from fractions import Fraction
from itertools import groupby

from ..core.problems import Place
from ..machine.records import dataclass
from .cells import Cell, Cells
from .chart_flaws import flaws

MOST_STITCHES, MOST_ROWS = 60, 120  # of a repeat; beyond, it is a picture and no repeat

_ACROSS = {Cell.LEFT: Cell.RIGHT, Cell.FRONT_RIGHT: Cell.FRONT_LEFT,
           Cell.BEHIND_LEFT: Cell.BEHIND_RIGHT}
_MIRRORED = _ACROSS | {b: a for a, b in _ACROSS.items()}
_THROUGH = {Cell.LEFT: Cell.RIGHT, Cell.FRONT_RIGHT: Cell.BEHIND_LEFT,
            Cell.FRONT_LEFT: Cell.BEHIND_RIGHT}
_TURNED = _THROUGH | {b: a for a, b in _THROUGH.items()}


class Alignment(Enum):
    """The line of a piece from which the repeats of its stitch chart are counted."""

    CENTRE = "centre"
    FRONT_EDGE = "front edge"
    SIDE_SEAM = "side seam"


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchChart:
    """A repeat: `rows` from row 1 up, each from the left; `edge` plain stitches at both sides.

    `words` are the designer's own for some of the marks, `place` is where the source has the
    repeat. Raises ValueError where `flaws` finds any.
    """

    title: str
    rows: tuple[Cells, ...]
    edge: int = 1
    words: tuple[tuple[Cell, str], ...] = ()
    place: Place | None = field(default=None, compare=False, repr=False)

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
                   words=tuple((by.get(cell, cell), meaning) for cell, meaning in chart.words))


def longest_float(chart: StitchChart) -> tuple[int, int]:
    """Return the most stitches that a yarn floats past between two that it knits, and in which row.

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
