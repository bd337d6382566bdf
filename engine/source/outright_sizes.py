"""Readers of sizes given as a length, or as a count of stitches or rows."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from ..core.units import Length
from ..machine.records import dataclass
from .source import Scalar
from .values import Entry, Figure, Text, length, whole_number

_WORDS: Mapping[str, str] = {"stitches": "stitch|stitches|st|sts", "rows": "row|rows"}
_STITCHES = whole_number("stitches of a pocket", "6..80", "2..300")
_ROWS = whole_number("rows of a pocket or placket", "4..200", "2..600")
_PLACKET = length("placket", "4 cm..40 cm", "2 cm..60 cm")
_SIDE = length("side of a pocket", "3 cm..30 cm", "2 cm..60 cm")
_HEIGHT = length("height of a pocket", "5 cm..90 cm", "2 cm..150 cm")
FIGURES: tuple[Figure[Any], ...] = (_STITCHES, _ROWS, _PLACKET, _SIDE, _HEIGHT)


@dataclass(frozen=True, slots=True)
class LengthOrCount:
    """A reader of a length of one kind, or of a count of `unit`: "12 cm", "24 rows"."""

    length: Figure[Length]
    number: Figure[int]
    unit: str

    def __call__(self, entry: Entry) -> Length | int:
        """The length or the count. Raises Fault where it is neither, or out of range."""
        typed = Text(40, self.expected, f"Write a length or {self.unit}.")(entry)
        match = re.fullmatch(rf"(.*\S)\s*(?:{_WORDS[self.unit]})", typed)
        if match:
            return self.number(replace(entry, node=Scalar(match[1], entry.place)))
        return self.length(entry)

    @property
    def expected(self) -> str:
        """What is expected, with an example of either."""
        return f"a length such as 12 cm, or a count such as 24 {self.unit}"

    @property
    def spelt(self) -> str:
        """A regular expression of how its counts are written, for an editor."""
        return rf"[1-9][0-9]{{0,2}}\s*(?:{_WORDS[self.unit]})"


@dataclass(frozen=True, slots=True)
class CountOrShare:
    """A reader of a whole number of one kind, or of a share of another count: "96", "90 %"."""

    number: Figure[int]
    share: Figure[Fraction]

    def __call__(self, entry: Entry) -> int | Fraction:
        """The number or the share. Raises Fault where it is neither, or out of range."""
        typed = Text(40, self.expected, "Write a number or a share.")(entry)
        return (self.share if typed.endswith("%") else self.number)(entry)

    @property
    def expected(self) -> str:
        """What is expected, with an example of either."""
        return "a number of stitches such as 96, or a share such as 90 %"


PLACKET = LengthOrCount(_PLACKET, _ROWS, "rows")
POCKET_ACROSS = LengthOrCount(_SIDE, _STITCHES, "stitches")
POCKET_HEIGHT = LengthOrCount(_HEIGHT, _ROWS, "rows")
POCKET_DEPTH = LengthOrCount(_SIDE, _ROWS, "rows")
