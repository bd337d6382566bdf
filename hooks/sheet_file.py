"""Writes a tech editor's workbook as a file (ECMA-376, xlsx), and reads her remarks back."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from walebook.pages.sheet_formulas import number
from walebook.pages.sheet_remarks import row_names
from walebook.pages.sheet_values import Look, Sheet, SheetCell, Workbook, column
from walebook.words import sheet_text as words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

MISSING = ("workbooks are written and read by a library that cannot be used: {why}. Install it "
           "with: pip install 'walebook[sheet]'")
WIDEST = 60  # of a column [characters]
_FILLS = {Look.INPUT: "FFF4D6", Look.FIXED: "ECECEC", Look.PUBLISHED: "F2F2F2",
          Look.HEAD: "E4E8EC", Look.REMARK: "FDFDFD"}
_FORMULA = re.compile(r'<c r="([A-Z]+[0-9]+)"([^>]*)>(<f>[^<]*</f>)<v ?(?:/>|></v>)</c>')
_TIME = (1980, 1, 1, 0, 0, 0)  # of every file within: the same bytes on any day


class NoSheet(Exception):
    """A workbook cannot be written or read; says why, and what to do."""


@dataclass(frozen=True, slots=True)
class SheetRemark:
    """What an editor wrote beside a row: its sheet, the row (a count, an input, a join, a finding),
    its place in the source."""

    sheet: str
    count: str
    place: str
    remark: str
    status: str


def sheet_file(book: Workbook) -> bytes:
    """Return the workbook as a file. Raises NoSheet where the library is missing."""
    try:
        import openpyxl
    except ImportError as fault:
        raise NoSheet(MISSING.format(why=fault)) from fault
    made = openpyxl.Workbook()
    for blank in made.worksheets:
        made.remove(blank)
    made.properties.title, made.properties.creator = book.title, "Walebook"
    dated = datetime.fromisoformat(book.date)
    made.properties.created = dated
    for sheet in book.sheets:
        _fill(made.create_sheet(sheet.title), sheet)
    kept = BytesIO()
    made.save(kept)
    return _rewritten(kept.getvalue(), dated, book)


def _fill(made: Worksheet, sheet: Sheet) -> None:
    from openpyxl.styles import Alignment, Font, PatternFill
    fills = {look: PatternFill("solid", fgColor=tone) for look, tone in _FILLS.items()}
    bold, wrapped = Font(bold=True), Alignment(wrap_text=True, vertical="top")
    widths: dict[int, int] = {}
    for at, row in enumerate(sheet.rows, start=1):
        for place, cell in enumerate(row, start=1):
            if not cell.text and cell.look is not Look.REMARK:
                continue
            put = made.cell(at, place)
            _put(put, cell)
            if cell.look in fills:
                put.fill = fills[cell.look]
            if cell.look is Look.HEAD:
                put.font = bold
            if not cell.computes:
                put.alignment = wrapped
                widths[place] = max(widths.get(place, 0), len(cell.text))
    for place, wide in widths.items():
        made.column_dimensions[column(place)].width = min(WIDEST, max(9, wide + 2))
    if len(sheet.rows) > 1 and sheet.rows[0][0].look is Look.HEAD:
        made.freeze_panes = f"{column(sheet.left + 1)}2"


def _put(put: Any, cell: SheetCell) -> None:
    """A figure, a formula, or a text: what a designer wrote is never taken for a formula.

    A figure with more than two decimals stays a division, which is exact.
    """
    value = cell.value
    if isinstance(value, Fraction) and 100 % value.denominator == 0 and cell.text == number(value):
        put.value = _shown(value)
        return
    if cell.computes:
        put.value = f"={cell.text}"
        return
    put.value = cell.text
    put.data_type = "s"


def _shown(value: Fraction) -> int | float:
    return value.numerator if value.denominator == 1 else float(value)


def _rewritten(file: bytes, when: datetime, book: Workbook) -> bytes:
    """The file with what each formula comes to, and no trace of when it was written."""
    sheets = {f"xl/worksheets/sheet{n}.xml": sheet for n, sheet in enumerate(book.sheets, start=1)}
    made = BytesIO()
    with zipfile.ZipFile(BytesIO(file)) as old, \
            zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            within = old.read(name)
            if name == "docProps/core.xml":
                within = _dated(within, when)
            if name in sheets:
                within = _with_values(within.decode(), sheets[name]).encode()
            new.writestr(zipfile.ZipInfo(name, _TIME), within, zipfile.ZIP_DEFLATED)
    return made.getvalue()


def _with_values(text: str, sheet: Sheet) -> str:
    """The text of a sheet with the value of each formula behind it: the library writes none."""
    values = {f"{column(place)}{at}": cell.value for at, row in enumerate(sheet.rows, start=1)
              for place, cell in enumerate(row, start=1) if cell.value is not None}

    def with_value(found: re.Match[str]) -> str:
        cell, more, formula = found.groups()
        value = values[cell]
        if isinstance(value, str):
            return f'<c r="{cell}"{more} t="str">{formula}<v>{escape(value)}</v></c>'
        return f'<c r="{cell}"{more}>{formula}<v>{_shown(value)}</v></c>'

    return _FORMULA.sub(with_value, text)


def _dated(properties: bytes, when: datetime) -> bytes:
    from xml.etree import ElementTree
    tree = ElementTree.fromstring(properties)
    for element in tree:
        if element.tag.endswith("}modified"):
            element.text = f"{when:%Y-%m-%dT%H:%M:%SZ}"
    return ElementTree.tostring(tree)


def remarks_in(path: Path) -> tuple[str, tuple[SheetRemark, ...]]:
    """Return the folder of the pattern that a workbook is of, and the remarks in it, in order.

    Raises NoSheet for what is no workbook of ours.
    """
    try:
        import openpyxl
    except ImportError as fault:
        raise NoSheet(MISSING.format(why=fault)) from fault
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    except FileNotFoundError as fault:
        raise NoSheet(f"there is no file {path}") from fault
    except Exception as fault:  # the library raises many kinds for damaged files, some its own
        raise NoSheet(f"{path} is no workbook (xlsx) that can be read. Ask the editor to save it "
                      "again as xlsx") from fault
    with_remarks = [remark for sheet in book.worksheets for remark in _remarks(sheet)]
    slug = _slug(book)
    book.close()
    return slug, tuple(with_remarks)


def _slug(book: Any) -> str:
    if words.ABOUT in book.sheetnames:
        for (first, *_) in book[words.ABOUT].iter_rows(values_only=True):
            if isinstance(first, str) and first.startswith(words.FOLDER):
                return first.removeprefix(words.FOLDER).strip()
    raise NoSheet(f"the workbook has no sheet {words.ABOUT} that names its pattern. Write it anew "
                  "with: walebook sheet NAME")


def _remarks(sheet: Any) -> Iterator[SheetRemark]:
    rows = sheet.iter_rows(values_only=True)
    head = list(next(rows, ()) or ())
    if words.REMARK not in head or words.STATUS not in head:
        return
    remark, status = head.index(words.REMARK), head.index(words.STATUS)
    place = next((at for at, name in enumerate(head) if name in words.PLACES), None)
    texts = [[str(cell).strip() if cell is not None else "" for cell in row]
             + [""] * (len(head) - len(row)) for row in rows]
    for name, cells in zip(row_names(sheet.title, texts), texts, strict=True):
        if cells[remark] or cells[status]:
            yield SheetRemark(sheet.title, name, "" if place is None else cells[place],
                              cells[remark], cells[status])
