"""The inputs of a workbook: a row for each figure that a source, a chart or a rule gives."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import field
from fractions import Fraction

from ..core.body_figures import BodyFigure, BodyOperand, FigureBy
from ..core.expression import LookUp, Operand
from ..core.operands import Role
from ..core.problems import Place
from ..machine.records import dataclass
from ..words import sheet_text as words
from ..words.terms.operand_words import WORDS
from .sheet_formulas import Formula, figure_cell, number, unchanged_check
from .sheet_values import Look, Sheet, SheetCell, address, column

FIRST_SIZE = 4  # the column of the first size, in every sheet
_AT_OWNER = (Role.WRITTEN, Role.WRITTEN_LENGTH, Role.SOURCE)  # where its owner is stated
# Figures of a rule of ours, or of the designer: they can be changed, and formulas follow.
_GIVEN = frozenset((
    Role.SOURCE, Role.SEAMS, Role.SEAM, Role.INSIDE, Role.INSIDE_BANDS, Role.ARMHOLE_BAND,
    Role.BUTTON, Role.STRETCHED, Role.ONE_LESS, Role.JOINING, Role.PANELS, Role.AT_ENDS, Role.CORD,
    Role.PI, Role.CENTIMETRE, Role.GRAMS_A_PACKAGE, Role.METRES_A_PACKAGE, Role.ALLOWANCE,
    Role.HOLES_GIVEN, Role.EASE, Role.RULE, Role.STATED, Role.BODY, Role.WRITTEN_LENGTH,
    Role.WRITTEN, Role.LENGTH, Role.MEASURE, Role.PLAIN_MEASURE, Role.SWATCH_STITCHES,
    Role.SWATCH_ROWS, Role.SWATCH_WIDTH, Role.SWATCH_HEIGHT, Role.SWATCH_GRAMS, Role.SWATCH_METRES,
    Role.LOOPS, Role.TEX, Role.SHARE, Role.TIMES_LONG, Role.PITCH, Role.HAND, Role.CUT_STEP))


def is_given(operand: Operand) -> bool:
    """True for what a source, a chart or a rule gives, False for what the engine has planned."""
    return operand.place is not None or operand.role in _GIVEN


@dataclass(frozen=True, slots=True)
class Used:
    """Which figure is calculated from an input: the `title` of its sheet, its `name` and its
    `place`, or the nearest one that there is."""

    title: str
    name: str
    place: Place | None


@dataclass
class _InputRow:
    label: str
    unit: str
    place: Place | None
    given: bool
    body: BodyFigure | None
    used: Used
    values: dict[int, Fraction | str] = field(default_factory=dict)


@dataclass
class Inputs:
    """Gathers the rows of the sheet of inputs while formulas are written; sizes by their number."""

    sizes: int
    rows: dict[tuple[object, ...], _InputRow] = field(default_factory=dict)
    _met: dict[tuple[object, ...], int] = field(default_factory=dict)

    def cell(self, operand: Operand, size: int, used: Used, owner: str = "",
             stated: Place | None = None) -> Formula:
        """Return the cell of an operand of a size, which is `used` by a figure; `owner` names the
        measure that it belongs to, which is `stated` at a place or by a rule of the form."""
        if operand.role is Role.NUMBER and operand.place is None:
            return Formula(number(operand.value), live=False, whole=True)
        if operand.role is Role.TRIED:
            return Formula(number(operand.value), live=False, whole=False)
        if isinstance(operand, BodyOperand):  # a body is measured once, whatever comes of it
            owner = ""
        place = None if owner else operand.place
        name = operand.of.label if isinstance(operand, BodyOperand) else operand.name
        same = (owner, operand.role, name if not owner else "", place)
        new = _InputRow(words.input_text(owner, operand),
                        WORDS[operand.role].unit,
                        operand.place or (stated if operand.role in _AT_OWNER else None),
                        is_given(operand),
                        operand.of if isinstance(operand, BodyOperand) else None, used)
        return self._placed(same, new, size, operand.value)

    def word(self, table: LookUp, size: int, used: Used) -> Formula:
        """Return the cell with the key of a look-up: a word of the source."""
        row = _InputRow(table.table, "", None, given=True, body=None, used=used)
        return self._placed((table.table,), row, size, table.key)

    def _placed(self, same: tuple[object, ...], new: _InputRow, size: int, value: Fraction | str
                ) -> Formula:
        """The cell of a value in the first row of its name that has no other for this size."""
        nth = 0
        while (row := self.rows.get((*same, nth))) and row.values.get(size, value) != value:
            nth += 1
        row = self.rows.setdefault((*same, nth), new)
        row.values[size] = value
        at = list(self.rows).index((*same, nth)) + 2
        return Formula(address(words.INPUTS, at, FIRST_SIZE + size), row.given, row.given)

    def _labels(self) -> list[str]:
        """What the rows are called: those alike with the end of their range, or with the figure
        that is calculated from them, and a number where that is the same too."""
        ranges = [self._range_end(row, name) for name, row in self.rows.items()]
        labels = [row.label if higher is None else words.range_end(row.label, higher=higher)
                  for row, higher in zip(self.rows.values(), ranges, strict=True)]
        many = Counter(labels)
        labels = [words.used_for(label, row.used.title, row.used.name) if many[label] > 1 else label
                  for label, row in zip(labels, self.rows.values(), strict=True)]
        return list(numbered(labels))

    def _range_end(self, row: _InputRow, name: tuple[object, ...]) -> bool | None:
        """True for the higher figure of a range of a chart, False for the lower, None for others.
        """
        *same, nth = name
        ends = (*same, 0) in self.rows and (*same, 1) in self.rows
        return bool(nth) if ends and row.body and row.body.by is FigureBy.CHART else None

    def sheet(self, sizes: tuple[str, ...]) -> Sheet:
        """Return the sheet. A figure that is the same in every size is changed in the first."""
        head = [*words.INPUT_COLUMNS, *sizes, words.CHECK]
        rows = [tuple(SheetCell(text, Look.HEAD) for text in head)]
        for at, (label, row) in enumerate(
                zip(self._labels(), self.rows.values(), strict=True), start=2):
            one = len(set(row.values.values())) == 1 and len(row.values) == self.sizes > 1
            cells = [SheetCell(label), SheetCell(row.unit), SheetCell(_whence(row))]
            look = Look.INPUT if row.given else Look.FIXED
            for size in range(self.sizes):
                if one and size:
                    first = address(words.INPUTS, at, FIRST_SIZE)
                    cells.append(SheetCell(first, Look.TEXT, computes=True,
                                           value=row.values[size]))
                else:
                    cells.append(_input(row.values.get(size), look))
            cells.append(unchanged_check({f"{column(FIRST_SIZE + size)}{at}": value
                                          for size, value in sorted(row.values.items())}))
            rows.append(tuple(cells))
        return Sheet(words.INPUTS, tuple(rows), FIRST_SIZE - 1)


def _whence(row: _InputRow) -> str:
    """Where an input comes from: its place in the source or the chart; or else that a rule gives it
    or the engine planned it, with the place of the figure that is calculated from it."""
    if row.place:
        return str(row.place)
    if row.body and row.body.by is FigureBy.CHART:
        return words.of_chart(row.body.chart, row.body.place)
    return words.whose(row.used.place, given=row.given)


def numbered(labels: Iterable[str]) -> Iterator[str]:
    """Yield labels, of those alike the second and the next with its number."""
    met = Counter[str]()
    for label in labels:
        met[label] += 1
        yield label if met[label] == 1 else words.nth_of_name(label, met[label])


def _input(value: Fraction | str | None, look: Look) -> SheetCell:
    if value is None:
        return SheetCell()
    return SheetCell(value, look) if isinstance(value, str) else figure_cell(value, look)
