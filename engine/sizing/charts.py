"""Body size charts: what is printed, what was mended or filled."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace
from fractions import Fraction

from ..core.body_figures import BodyFigure, BodyOperand, FigureBy
from ..core.counts import decimal
from ..core.expression import plain
from ..core.inches import in_fractions
from ..core.operands import Role
from ..core.problems import Place
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..machine.records import dataclass
from ..words.terms import body_words as words
from .ages import Age
from .printed_figures import MM_IN, read_span
from .quantities import Quantity, plain_name

AGREEMENT = Length(Fraction(5))  # inches and centimetres of one cell may differ by this [mm]


@dataclass(frozen=True, slots=True)
class SizeCell:
    """One measurement of one size, from `low` to `high` (alike where a single figure stands).

    `cm` and `inches` are what is printed, "" where nothing was read there; `mended` and `filled`
    say how, and from what, a printed error was replaced or an empty cell was filled, and `by` who
    did so.
    """

    low: Length
    high: Length
    cm: str = ""
    inches: str = ""
    mended: str = ""
    filled: str = ""
    by: FigureBy = FigureBy.CHART

    @property
    def middle(self) -> Length:
        """The value that is reckoned with: the middle of the range."""
        return (self.low + self.high).times(Fraction(1, 2))

    @property
    def printed(self) -> str:
        """The print in both units: "91.5–96.5 cm (36–38 in)"; "" for a filled cell.

        Where the two are not one measure, it says that the chart prints them so.
        """
        return words.figures_printed(self.cm, in_fractions(self.inches), apart=any(
            m.off > AGREEMENT for m in _parted("", "", self)))

    @property
    def printed_inches(self) -> tuple[Fraction, Fraction] | None:
        """The lowest and highest inches as printed; None where there are none or they are wrong."""
        return read_span(self.inches) if self.inches and not self.mended else None

    def as_printed(self, authority: str) -> str:
        """The print of the column that counts, as `span` would write it; "" where it is empty."""
        figures = self.cm if authority == "cm" else self.inches
        if not figures:
            return ""
        low, high = (Length(end * MM_IN[authority]) for end in read_span(figures))
        return SizeCell(low, high).span

    @property
    def span(self) -> str:
        """The figures that hold, in centimetres: "91.5–96.5 cm"."""
        return f"{'–'.join(dict.fromkeys(self.figures))} cm"

    @property
    def figures(self) -> tuple[str, str]:
        """The lowest and the highest figure that hold, in centimetres without the unit."""
        return decimal(self.low.cm, 2), decimal(self.high.cm, 2)


@dataclass(frozen=True, slots=True)
class Row:
    """A measurement through the sizes: `label` as the chart calls it, `how` it is taken on a body.

    `source` is "" where it is the chart's own; sizes without a figure have no cell. `at` is where a
    figure that is not there would stand in the chart's file.
    """

    name: str
    label: str
    how: str
    source: str
    cells: Mapping[str, SizeCell]
    at: Place | None = None


@dataclass(frozen=True, slots=True)
class Remark:
    """What a designer should know of some rows in some sizes (none named: all), and who says so.

    `short` says it in a line, "" where its first sentence does. `facts` are those of the chart as
    it is read, where a pattern calls its sizes otherwise; "" where they are to be gathered.
    """

    text: str
    source: str
    rows: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    short: str = ""
    facts: str = ""

    @property
    def line(self) -> str:
        """It in one short line, without a point."""
        text = self.short or re.split(r"(?<=[.:;])\s", self.text, maxsplit=1)[0]
        return (text if len(text) <= 100 else text[:99] + "…").rstrip(".:;")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A body size chart with its source. `authority` ("cm" or "in") is the column that counts.

    `read` says by which route its figures were read. `columns` has the chart's own name of a size
    that is called otherwise here, "" for one that is not in the chart; `ages` whose they are, `at`
    where the measurements of the pattern's own chart stand in its file.
    """

    key: str
    title: str
    publisher: str
    source: str
    url: str
    version: str
    read: str
    authority: str
    sizes: tuple[str, ...]
    rows: Mapping[str, Row]
    remarks: tuple[Remark, ...] = ()
    columns: Mapping[str, str] = field(default_factory=dict)
    ages: Mapping[str, Age] = field(default_factory=dict)
    at: Place | None = None

    def cell(self, name: str, size: str) -> SizeCell | None:
        """The cell of measurement `name` in `size`; None where the chart has none."""
        row = self.rows.get(name)
        return None if row is None else row.cells.get(size)

    def place_of(self, row: Row | None) -> Place | None:
        """Where a missing figure of `row` would stand, or a missing row; None but in an own chart.
        """
        return self.at and (row.at if row and row.at else self.at)

    def measurement(self, name: str, size: str) -> Quantity:
        """Return a body measurement [mm], its working naming chart, size, row and printed text.

        Raises KeyError when the chart has no such row, or nothing in that size.
        """
        cell = self.cell(name, size)
        if cell is None:
            raise KeyError(f"{self.key} has no {name} in size {size}")
        column, readers = self.columns.get(size, size), cell.by is FigureBy.READER
        held = readers or (cell.mended and cell.span != cell.as_printed(self.authority))
        figure = BodyFigure(
            chart=self.key, column=column, size=size, label=self.rows[name].label, by=cell.by,
            printed=cell.printed or cell.span, held=cell.span if held else "",
            filled=bool(cell.filled and not readers and column), middle=cell.low != cell.high,
            place=self.rows[name].at if cell.by is FigureBy.CHART else None)
        called = words.body_figure_name(figure)
        low, high = (BodyOperand(end.mm, Role.BODY, called, of=figure)
                     for end in (cell.low, cell.high))
        return Quantity(low if cell.low == cell.high else (low + high) / plain(2), True)

    def measurements(self, size: str) -> dict[str, Quantity]:
        """All the measurements that the chart has in `size`, by name."""
        return {name: self.measurement(name, size)
                for name, row in self.rows.items() if size in row.cells}

    def remarks_on(self, name: str, size: str) -> tuple[Remark, ...]:
        """What is to be known of measurement `name` in `size`: how it was mended or filled too."""
        cell = self.cell(name, size)
        if cell is None or not self.columns.get(size, size):
            return ()  # what the designer says of her own size is no chart's
        label, source = self.rows[name].label, self.rows[name].source or self.source
        own = [Remark(sentence(label, how), source, (name,)) for sentence, how in (
            (words.mended_remark, cell.mended), (words.filled_remark, cell.filled)) if how]
        return (*own, *(r for r in self.remarks
                        if (not r.rows or name in r.rows) and (not r.sizes or size in r.sizes)))


def facts_of(chart: Chart, remark: Remark) -> str:
    """All that a remark says and is about: its words, who says so, and the chart's own figures that
    it names, under the chart's own names of sizes: a size that is renamed leaves them as they are.
    """
    if remark.facts:
        return remark.facts
    rows = [chart.rows[name] for name in (remark.rows or chart.rows) if name in chart.rows]
    figures = [f"{row.name} {size} {row.cells[size].span}" for row in rows
               for size in (remark.sizes or chart.sizes) if size in row.cells]
    return "\n".join((remark.text, remark.source, *figures))


def rows_for(chart: Chart, sizes: Sequence[str]) -> tuple[str, ...]:
    """Return the measurements that a chart has in every one of `sizes`, as sums name them."""
    return tuple(plain_name(name) for name, row in chart.rows.items()
                 if all(size in row.cells for size in sizes))


def change(chart: Chart, name: str, own: Mapping[str, Length], *,
           by: FigureBy = FigureBy.DESIGNER) -> Chart:
    """Return the chart with `own` figures for measurement `name` in some sizes, and `by` whom.

    The print stays readable. A new name makes a new row. Raises KeyError for an unknown size.
    """
    if unknown := [size for size in own if size not in chart.sizes]:
        raise KeyError(f"{chart.key} has no size {unknown[0]}")
    row = chart.rows.get(name) or Row(name, name.replace("_", " "), "",
                                       words.THE_DESIGNER, {})
    cells = dict(row.cells)
    for size, length in own.items():
        cells[size] = changed(cells.get(size), length, by)
    return replace(chart, rows={**chart.rows, name: replace(row, cells=cells)})


def changed(cell: SizeCell | None, length: Length, by: FigureBy) -> SizeCell:
    """Return a cell with another figure; its print, where there is one, stays readable."""
    if cell and cell.printed:
        return replace(cell, low=length, high=length, mended=words.WHOSE[by], by=by)
    return SizeCell(length, length, filled=words.WHOSE[by], by=by)


@dataclass(frozen=True, slots=True)
class Mismatch:
    """A cell whose printed centimetres and inches part by `off` at its `end` ("low" or "high")."""

    row: str
    size: str
    end: str
    inches: Fraction
    cm: Fraction
    off: Length

    def __str__(self) -> FindingText:
        return (f"{self.row} {self.size}: {decimal(self.inches, 3)} in is "
                f"{decimal(self.inches * MM_IN['in'] / 10, 1)} cm, printed {decimal(self.cm, 2)}")


def mismatches(chart: Chart, tolerance: Length = AGREEMENT) -> tuple[Mismatch, ...]:
    """Return the cells whose two printed units differ by more than `tolerance`."""
    return tuple(m for row in chart.rows.values() for size in chart.sizes if size in row.cells
                 for m in _parted(row.name, size, row.cells[size]) if m.off > tolerance)


def _parted(row: str, size: str, cell: SizeCell) -> Iterator[Mismatch]:
    if cell.cm and cell.inches:
        for end, cm, inches in zip(("low", "high"), read_span(cell.cm), read_span(cell.inches),
                                   strict=True):
            off = abs(cm * MM_IN["cm"] - inches * MM_IN["in"])
            yield Mismatch(row, size, end, inches, cm, Length(off))
