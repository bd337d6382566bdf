"""A small calculator of spreadsheet formulas: cells of a workbook, some of them changed.

It knows the few functions that our formulas use, computes in binary fractions as spreadsheet
programs do, and shares nothing with the engine. `test_sheets.py` has the same formulas computed by
programs that are not ours.
"""

from __future__ import annotations

import math
import operator
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from walebook.pages.sheet_values import SheetCell, Workbook

Cell = tuple[str, int, int]  # the title of its sheet, its column and its row, from 1
Computed = Callable[[], Any]
_TOKEN = re.compile(r"""\s*(?:(?P<text>"[^"]*")|(?P<number>\d+(?:\.\d+)?(?:E-?\d+)?)
    |(?:'(?P<sheet>(?:[^']|'')+)'!)?\$?(?P<column>[A-Z]{1,3})\$?(?P<row>\d+)
    |(?P<name>[A-Z]+)(?=\()|(?P<sign><=|>=|<>|[-+*/^(),<>=:]))""", re.VERBOSE)
_COMPARED = {"=": operator.eq, "<>": operator.ne, "<=": operator.le, ">=": operator.ge,
             "<": operator.lt, ">": operator.gt}
_ADDED = {"+": operator.add, "-": operator.sub}
_MULTIPLIED = {"*": operator.mul, "/": operator.truediv}


def _rounded(figure: float, places: float) -> float:
    """A half away from 0, as spreadsheet programs round."""
    fine = 10 ** int(places)
    return math.copysign(math.floor(abs(figure) * fine + 0.5) / fine, figure)


def _not_there() -> float:
    return math.nan


_FUNCTIONS: Mapping[str, Callable[..., Any]] = {
    "ROUND": _rounded, "INT": math.floor, "SQRT": math.sqrt, "MAX": max, "MIN": min, "ABS": abs,
    "AND": lambda *all_: all(all_), "NA": _not_there,
    "COUNTIF": lambda cells, text: sum(cell == text for cell in cells)}


class Calculator:
    """The figures of a workbook in which some cells were `changed`."""

    def __init__(self, book: Workbook, changed: Mapping[Cell, float]) -> None:
        self._cells: dict[Cell, SheetCell] = {
            (sheet.title, column, row): cell for sheet in book.sheets
            for row, cells in enumerate(sheet.rows, start=1)
            for column, cell in enumerate(cells, start=1) if cell.text}
        self._found: dict[Cell, Any] = dict(changed)

    def value(self, cell: Cell) -> Any:
        """What a cell comes to; an empty one to 0."""
        if cell not in self._found:
            of = self._cells.get(cell)
            self._found[cell] = 0.0 if of is None else of.text if not of.computes else \
                _Formula(of.text, cell[0], self).computed()
        return self._found[cell]


class _Formula:
    """A formula while it is read, from its first token to its last."""

    def __init__(self, text: str, sheet: str, cells: Calculator) -> None:
        self._tokens = list(_TOKEN.finditer(text))
        assert "".join(one[0] for one in self._tokens) == text.rstrip(), text
        self._sheet, self._cells, self._at = sheet, cells, 0

    def computed(self) -> Any:
        found = self._compared()
        assert self._at == len(self._tokens)
        return found()

    def _sign(self, *signs: str) -> str:
        """The next sign, which is passed over where it is one of these; else ""."""
        here = self._tokens[self._at]["sign"] if self._at < len(self._tokens) else None
        if here not in signs:
            return ""
        self._at += 1
        return here

    def _row(self, part: Callable[[], Computed], signs: Mapping[str, Callable[[Any, Any], Any]]
             ) -> Computed:
        found = part()
        while sign := self._sign(*signs):
            found = _both(signs[sign], found, part())
        return found

    def _compared(self) -> Computed:
        return self._row(self._summed, _COMPARED)

    def _summed(self) -> Computed:
        return self._row(self._product, _ADDED)

    def _product(self) -> Computed:
        return self._row(self._power, _MULTIPLIED)

    def _power(self) -> Computed:
        return self._row(self._single, {"^": operator.pow})

    def _single(self) -> Computed:
        if self._sign("-"):
            less = self._single()
            return lambda: -less()
        if self._sign("("):
            found = self._compared()
            assert self._sign(")")
            return found
        token = self._tokens[self._at]
        self._at += 1
        if token["text"]:
            return lambda: token["text"][1:-1]
        if token["number"]:
            return lambda: float(token["number"])
        return self._function(token["name"]) if token["name"] else self._cell(token)

    def _cell(self, token: re.Match[str]) -> Computed:
        sheet = (token["sheet"] or self._sheet).replace("''", "'")
        column, first = _column(token["column"]), int(token["row"])
        if not self._sign(":"):
            return lambda: self._cells.value((sheet, column, first))
        end = self._tokens[self._at]
        self._at += 1
        assert _column(end["column"]) == column and not end["sheet"]
        return lambda: [self._cells.value((sheet, column, row))
                        for row in range(first, int(end["row"]) + 1)]

    def _function(self, name: str) -> Computed:
        assert self._sign("(")
        parts: list[Computed] = []
        while not self._sign(")"):
            parts.append(self._compared())
            self._sign(",")
        return _chosen(parts) if name == "IF" else \
            lambda: _FUNCTIONS[name](*(part() for part in parts))


def _column(letters: str) -> int:
    """The number of a column, from 1."""
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - ord("A") + 1
    return column


def _both(sign: Callable[[Any, Any], Any], left: Computed, right: Computed) -> Computed:
    return lambda: sign(left(), right())


def _chosen(parts: Sequence[Computed]) -> Computed:
    """What is not chosen is not computed: it may be divided by 0."""
    condition, first, other = parts
    return lambda: first() if condition() else other()
