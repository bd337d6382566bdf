"""The workbook's sheet of swatches: what was measured, and the gauge that comes of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ..core.expression import Expression, LookUp, Operand
from ..core.operands import Role
from ..core.problems import Place
from ..fabric.gauge import measure, measurements, row_made, stitch_made
from ..machine.records import dataclass
from ..pattern.fabrics import Fabric, Swatch
from ..pattern.places import Places
from ..words import sheet_text as words
from .sheet_formulas import Formula, figure_cell, formula, number, unchanged_check
from .sheet_values import Look, Sheet, SheetCell, address

_GAUGES = (Role.STITCHES_PER_MM, Role.ROWS_PER_MM, Role.STITCH_WIDTH, Role.BAND_STITCH,
           Role.ROW_HEIGHT, Role.MILLIMETRES)
_MEASURED = {Role.SWATCH_STITCHES: "B", Role.SWATCH_WIDTH: "C", Role.SWATCH_ROWS: "D",
             Role.SWATCH_HEIGHT: "E", Role.SWATCH_GRAMS: "J", Role.SWATCH_METRES: "K"}
_STITCH, _ROW, _PER_STITCH, _PER_ROW = "FGHI"
_COLUMNS = "ABCDEFGHIJKLM"
_CHECK, _PLACE = "LM"


class Gauges:
    """The rows of the sheet, and the cell of each figure that formulas of other sheets read."""

    def __init__(self, fabrics: Mapping[str, Fabric], places: Places) -> None:
        self._places = places
        self._gauges: dict[str, dict[Fraction, str]] = {}
        self._swatches: dict[tuple[Role, Place], str] = {}
        rows = [tuple(SheetCell(text, Look.HEAD) for text in words.GAUGE_COLUMNS)]
        for key, fabric in fabrics.items():
            if fabric.swatches:
                rows += self._fabric(key, fabric.swatches, len(rows) + 1)
        self.sheet = Sheet(words.GAUGES, tuple(rows))

    def _fabric(self, key: str, swatches: Sequence[Swatch], first: int
                ) -> list[tuple[SheetCell, ...]]:
        """A row for each swatch, and one for the mean, where the gauge stands."""
        wide, high = stitch_made(swatches), row_made(swatches)
        rows, cells, home = [], dict[int, str](), self._places.of(f"fabrics.{key}")
        for at, (swatch, one, other) in enumerate(
                zip(swatches, measurements(wide), measurements(high), strict=True), start=first):
            for part, each in ((one.of, "C"), (one.by, "B"), (other.of, "E"), (other.by, "D")):
                cells[id(part)] = f"{each}{at}"
            rows.append(_row({"A": SheetCell(key), **_measured(swatch),
                              _STITCH: _counted(one, cells),
                              _ROW: _counted(other, cells),
                              _CHECK: _unchanged(swatch, at),
                              _PLACE: SheetCell(str(swatch.place or home))}))
            cells |= {id(one): f"{_STITCH}{at}", id(other): f"{_ROW}{at}"}
            if swatch.place:
                self._swatches |= {(role, swatch.place): address(words.GAUGES, at, column)
                                   for role, column in _NUMBERS.items()}
        mean = first + len(rows)
        rows.append(_row({"A": SheetCell(words.mean_of(key)),
                          _STITCH: _counted(wide, cells),
                          _ROW: _counted(high, cells),
                          _PER_STITCH: _one_by(f"{_STITCH}{mean}", wide),
                          _PER_ROW: _one_by(f"{_ROW}{mean}", high),
                          _PLACE: SheetCell(str(home))}))
        gauge = measure(swatches)
        self._gauges[key] = {figure: address(words.GAUGES, mean, _COLUMNS.index(column) + 1)
                             for figure, column in (
            (gauge.row, _ROW), (gauge.stitch, _STITCH), (1 / gauge.row, _PER_ROW),
            (1 / gauge.stitch, _PER_STITCH))}
        return rows

    def cell(self, operand: Operand, fabrics: tuple[str, ...]) -> Formula | None:
        """Return the cell of a figure of a swatch, or of a gauge: that of the first of `fabrics`,
        or else of the only fabric that has it; None where it is no gauge, or that of several
        others."""
        if operand.place and (cell := self._swatches.get((operand.role, operand.place))):
            return Formula(cell, live=True, whole=True)
        if operand.role not in _GAUGES:
            return None
        found = [cells[operand.value] for key in fabrics
                 if operand.value in (cells := self._gauges.get(key, {}))]
        found = found[:1] or [cells[operand.value] for cells in self._gauges.values()
                              if operand.value in cells]
        return Formula(found[0], live=True, whole=True) if len(found) == 1 else None


_NUMBERS = {role: _COLUMNS.index(column) + 1 for role, column in _MEASURED.items()}


def _row(cells: Mapping[str, SheetCell]) -> tuple[SheetCell, ...]:
    return tuple(cells.get(column, SheetCell()) for column in _COLUMNS)


def _counted(tree: Expression, cells: Mapping[int, str]) -> SheetCell:
    return SheetCell(formula(tree, _Cells(cells)).text, Look.COUNTED, computes=True,
                     value=tree.value)


def _one_by(cell: str, tree: Expression) -> SheetCell:
    return SheetCell(f"1/{cell}", Look.COUNTED, computes=True, value=1 / tree.value)


def _measured(swatch: Swatch) -> dict[str, SheetCell]:
    """What was measured of a swatch, each in its column."""
    return {column: figure_cell(figure, Look.INPUT) for column, figure in _figures(swatch)}


def _unchanged(swatch: Swatch, at: int) -> SheetCell:
    return unchanged_check({f"{column}{at}": figure for column, figure in _figures(swatch)})


def _figures(swatch: Swatch) -> Iterator[tuple[str, Fraction]]:
    figures = {"B": Fraction(swatch.stitches), "C": swatch.width.mm, "D": Fraction(swatch.rows),
               "E": swatch.height.mm, "J": swatch.mass_g,
               "K": None if swatch.yarn is None else swatch.yarn.mm / 1000}
    yield from ((column, figure) for column, figure in figures.items() if figure is not None)


@dataclass(frozen=True, slots=True)
class _Cells:
    """The cells of one fabric as the formulas of its gauge read them."""

    of: Mapping[int, str]

    def figure(self, operand: Operand) -> Formula:
        """Return the cell of a measured figure; how many were measured stands as it is."""
        return Formula(self.of.get(id(operand), number(operand.value)), live=True, whole=True)

    def word(self, table: LookUp) -> Formula:
        """Raise TypeError: nothing is looked up in a gauge."""
        raise TypeError(table.table)

    def outright(self, number: int) -> Formula | None:
        """Raise TypeError: nobody gives a gauge outright."""
        raise TypeError(number)

    def known(self, tree: Expression) -> Formula | None:
        """Return the cell of a measurement that stands in one."""
        cell = self.of.get(id(tree))
        return None if cell is None else Formula(cell, live=True, whole=True)

    def apart(self, formula: Formula, value: Fraction) -> Formula:
        """Return a long formula as it is: there are no cells between on this sheet."""
        return formula
