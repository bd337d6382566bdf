"""The columns for an editor's remarks on a sheet of the workbook, and what its rows are called."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from ..words import sheet_text as words
from .sheet_values import Look, Sheet, SheetCell

Remarks = Mapping[tuple[str, str], tuple[str, str, str]]
"""Remark, status and the designer's answer, by the title of a sheet and what it calls the row."""
NO_REMARKS: Remarks = {}
_NONE = ("", "", "")
# The columns by which a row is called, from 0, where that is not the first alone.
_CALLED = {words.JOINS: (1, 0), words.FINDINGS: (1,)}


def row_names(title: str, rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield what each row of a sheet below its head is called; alike ones are numbered from 2."""
    met = Counter[str]()
    for row in rows:
        name = ", ".join(row[at] for at in _CALLED.get(title, (0,)))
        met[name] += 1
        yield name if met[name] == 1 else f"{name} ({met[name]})"


def with_remarks(sheet: Sheet, remarks: Remarks) -> Sheet:
    """Return a sheet with the columns for remarks behind its others, and what is in them."""
    head, *rows = sheet.rows
    names = row_names(sheet.title, ([cell.text for cell in row] for row in rows))
    made = [(*head, *(SheetCell(text, Look.HEAD) for text in words.REMARK_COLUMNS))]
    made += [(*row, *(SheetCell() for _ in range(len(head) - len(row))),
              *(SheetCell(text, Look.REMARK) for text in remarks.get((sheet.title, name), _NONE)))
             for row, name in zip(rows, names, strict=True)]
    return Sheet(sheet.title, tuple(made), sheet.left)
