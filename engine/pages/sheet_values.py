"""What a workbook for the tech editor is made of: sheets of rows of cells, as values."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from ..machine.records import dataclass
from ..words import sheet_text as words

CHANGES = 3, 2
"""Row and column of the sheet About with how many rows of inputs differ from the source."""


class Look(Enum):
    """What a cell is, by which it is coloured and, of an input, left open to change."""

    TEXT = "text"
    HEAD = "head"
    INPUT = "input"
    COUNTED = "counted"
    FIXED = "fixed"
    PUBLISHED = "published"
    CHECK = "check"
    REMARK = "remark"


@dataclass(frozen=True, slots=True)
class SheetCell:
    """A text, or with `computes` a formula without its equals sign, or a plain figure.

    `value` is what a formula comes to, for programs that show a workbook and calculate nothing.
    """

    text: str = ""
    look: Look = Look.TEXT
    computes: bool = False
    value: Fraction | str | None = None


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet by its title; its first row heads the columns. `left` columns stay in view."""

    title: str
    rows: tuple[tuple[SheetCell, ...], ...]
    left: int = 1


@dataclass(frozen=True, slots=True)
class Workbook:
    """All sheets of a pattern, its version and date; `live` of `counted` cells follow an input."""

    slug: str
    title: str
    version: str
    date: str
    sheets: tuple[Sheet, ...]
    counted: int
    live: int


def column(number: int) -> str:
    """Return the letters of a column, from 1: A, Z, AA."""
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def address(sheet: str, row: int, place: int) -> str:
    """Return the address of a cell as a formula of any sheet names it; row and column from 1."""
    quoted = sheet.replace("'", "''")
    return f"'{quoted}'!${column(place)}${row}"


def when(unchanged: str, otherwise: str) -> str:
    """Return the formula that is the one text's while no input is changed, else the other's.

    Both are formulas; the sheet About counts the inputs that differ.
    """
    return f"IF({address(words.ABOUT, *CHANGES)}=0,{unchanged},{otherwise})"
