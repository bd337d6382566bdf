"""A stitch chart on the needles of a piece: which needle is which column, and what is cut.

The knitter sees the purl side, so the chart is turned over: its right-hand column lies on the
left of the bed (laces and crossings have to be reversed for the machine: alessandrina.com,
2020-07-05 and 2022-01-03).
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from ..core.counts import Rounding
from ..core.text_kinds import FindingText
from ..machine.needles import Needle, Needles, between, centred, of
from ..machine.records import dataclass
from ..pattern.cells import Cell, Cells, part_of
from ..pattern.stitch_chart import StitchChart, mirrored, turned_over


class Align(Enum):
    """Where the whole repeats lie; left and right are those of the bed.

    WHOLE leaves nothing over and refuses what does not fit; the others cut repeats at the ends.
    """

    WHOLE = "whole"
    CENTRE = "centre"
    LEFT = "left"
    RIGHT = "right"

    @property
    def mirrored(self) -> Align:
        """The same with left and right exchanged."""
        return {Align.LEFT: Align.RIGHT, Align.RIGHT: Align.LEFT}.get(self, self)


@dataclass(frozen=True, slots=True)
class RepeatLine:
    """A line of the piece at which a repeat begins: `at` stitches from its left end on the bed."""

    name: str
    at: int


class Unfit(ValueError):
    """A piece that whole repeats do not fill; `below` and `above` are the nearest that they do.

    `below` is None where not even one repeat has room [stitches].
    """

    def __init__(self, stitches: int, below: int | None, above: int, rule: Rounding) -> None:
        nearest: FindingText = f"{above} are the fewest" if below is None else \
            f"{below} or {above} would be"
        found: FindingText = f"{stitches} stitches are not {rule}; {nearest}"
        super().__init__(found)
        self.stitches, self.below, self.above = stitches, below, above


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A chart on the needles of a piece, as the knitter sees it.

    `rows` are from row 1 up, each from the left of the bed, a cell a needle from `first` on.
    `columns` says for each needle which column of the written chart it is, counted from 1 from
    its left; None for an edge stitch. `start` is the place of the first whole repeat, counted
    from the left from 0 [needles], and `repeats` how many there are. `cut` stitches of a further
    repeat stand left and right of them; what needs a stitch that was cut away is plain.
    `chart` is as it lies: turned over, and mirrored where the piece is (`mirror`).
    """

    chart: StitchChart
    first: Needle
    rows: tuple[Cells, ...]
    columns: tuple[int | None, ...]
    start: int
    repeats: int
    cut: tuple[int, int]
    mirror: bool = False

    @property
    def taken(self) -> Needles:
        """All needles from end to end, those out of work among them."""
        return between(self.first, Needle(self.first.place + len(self.columns) - 1))

    @property
    def needles(self) -> Needles:
        """The needles in work: the piece's stitches."""
        return self.taken - self.on(1, Cell.OUT)

    @property
    def bounds(self) -> tuple[int, ...]:
        """Where the whole repeats begin and the last one ends, from the left from 0 [needles]."""
        return tuple(self.start + self.chart.width * n for n in range(self.repeats + 1))

    @property
    def edges(self) -> Needles:
        """The plain needles at both ends."""
        return self.at(i for i, column in enumerate(self.columns) if column is None)

    def row(self, row: int) -> Cells:
        """The cells of the piece's row `row`, counted from 1: the chart's rows over and over."""
        return self.rows[(row - 1) % len(self.rows)]

    def on(self, row: int, *cells: Cell) -> Needles:
        """The needles that do one of `cells` in the piece's row `row`."""
        return self.at(i for i, there in enumerate(self.row(row)) if there in cells)

    def at(self, places: Iterable[int]) -> Needles:
        """The needles at these places, counted from the left from 0."""
        return of(*(Needle(self.first.place + place) for place in places))


def multiple(chart: StitchChart) -> Rounding:
    """Return the rule for the stitches of a piece that whole repeats and the edges fill.

    A multiple of 6 plus 2 is 8, 14, 20 and so on (readknittingpatterns.com, "cast on a
    multiple"); of an arrangement with needles left out, the stitches alone are counted.
    """
    return Rounding("multiple", of=chart.stitches, plus=2 * chart.edge)


def place_repeat(chart: StitchChart, stitches: int, *, align: Align | RepeatLine = Align.WHOLE,
                 mirror: bool = False) -> Placed:
    """Return `chart` over a piece of `stitches` that lies centred on the bed [stitches].

    Needles out of work are taken up besides the stitches. `mirror` gives the other front:
    everything left and right exchanged, the odd needle and a repeat's odd stitch too. A Line is
    given as the piece then lies. Raises Unfit unless `align` finds room: whole repeats that
    leave nothing over for WHOLE, one whole repeat for the others.
    """
    over = stitches - 2 * chart.edge
    left = _left_over(over, chart, align, mirror)
    times, right = divmod(over - left, chart.stitches)
    if times < 1 or (align is Align.WHOLE and right):
        raise _unfit(chart, stitches)
    laid = turned_over(mirrored(chart) if mirror else chart)
    parts = (range(laid.width - _needles_for(left, reversed(laid.rows[0])), laid.width),
             *(range(laid.width),) * times,
             range(_needles_for(right, laid.rows[0])))
    rows = tuple(_row_of(row, parts, laid.edge) for row in laid.rows)
    first = centred(len(rows[0]), extra="right" if mirror else "left").first
    return Placed(chart=laid, first=first, rows=rows,
                  columns=_numbers(laid, parts, mirror, laid.edge),
                  start=laid.edge + len(parts[0]), repeats=times, cut=(left, right), mirror=mirror)


def begins_at(chart: StitchChart, stitches: int, align: Align) -> int:
    """Return the place of a needle at which a repeat begins, on a piece of `stitches` stitches.

    The piece lies centred on the bed, not mirrored. CENTRE has the whole repeats of its cast-on
    edge in the middle of it; LEFT and RIGHT begin beside the edge stitches there.
    """
    first = centred(stitches).first.place
    left = _left_over(max(0, stitches - 2 * chart.edge), chart, align, mirror=False)
    return first + chart.edge + left


def place_over(chart: StitchChart, taken: Needles, begins: int, *, mirror: bool = False) -> Placed:
    """Return `chart` over all needles of `taken`, a repeat beginning at the place `begins`.

    There are no edge stitches: of a shaped piece they are others in every row. With `mirror`
    the needles and `begins` are those of the other front, whose mirror image this is. Raises
    ValueError where not one whole repeat has room, or where the chart leaves needles out.
    """
    if chart.leaves_out:
        raise ValueError(f'the chart "{chart.title}" leaves needles out of work')
    if mirror:
        begins = -begins - chart.width
    left = (begins - taken.first.place) % chart.width
    times, right = divmod(len(taken) - left, chart.width)
    if times < 1:
        raise ValueError(f'{len(taken)} needles, too few for a repeat of the chart '
                         f'"{chart.title}", {chart.width} needles, from where it begins')
    laid = turned_over(mirrored(chart) if mirror else chart)
    parts = (range(laid.width - left, laid.width), *(range(laid.width),) * times, range(right))
    return Placed(chart=laid, first=taken.first,
                  rows=tuple(_row_of(row, parts, 0) for row in laid.rows),
                  columns=_numbers(laid, parts, mirror, 0), start=left, repeats=times,
                  cut=(left, right), mirror=mirror)


def _left_over(over: int, chart: StitchChart, align: Align | RepeatLine, mirror: bool) -> int:
    """The stitches of a cut repeat left of the first whole one."""
    if isinstance(align, RepeatLine):
        return (align.at - chart.edge) % chart.stitches
    rest = max(over, 0) % chart.stitches
    return {Align.WHOLE: 0, Align.LEFT: 0, Align.RIGHT: rest,
            Align.CENTRE: rest // 2 if mirror else rest - rest // 2}[align]


def _unfit(chart: StitchChart, stitches: int) -> Unfit:
    rule = multiple(chart)
    times = (stitches - rule.plus) // rule.of
    above = max(times + 1, 1) * rule.of + rule.plus
    return Unfit(stitches, times * rule.of + rule.plus if times > 0 else None, above, rule)


def _needles_for(stitches: int, cells: Iterable[Cell]) -> int:
    """How many of these needles hold so many stitches [needles]."""
    taken = 0
    for cell in cells:
        if not stitches:
            break
        taken += 1
        stitches -= cell is not Cell.OUT
    return taken


def _row_of(row: Cells, parts: tuple[range, ...], edge: int) -> Cells:
    """One row over the whole piece; a stitch that would be moved out of it is plain."""
    plain = (Cell.KNIT,) * edge
    cells = [*plain, *(cell for part in parts for cell in part_of(row, part)), *plain]
    for end, away in ((0, Cell.LEFT), (-1, Cell.RIGHT)):
        if cells[end] is away:
            cells[end] = Cell.KNIT
    return tuple(cells)


def _numbers(laid: StitchChart, parts: tuple[range, ...], mirror: bool, edge: int
             ) -> tuple[int | None, ...]:
    """The columns of the written chart over the whole piece."""
    plain = (None,) * edge
    return (*plain, *(column + 1 if mirror else laid.width - column
                      for part in parts for column in part), *plain)
