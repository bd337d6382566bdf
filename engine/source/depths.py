"""Readers of how deep a hem or a band is: a length, or what lies in it, counted."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from ..core.counts import Unit
from ..core.units import Length
from ..machine.records import dataclass
from .source import Scalar
from .values import Entry, Figure, Text, length, whole_number

_ROWS = re.compile(r"(.*\S)\s*(?:row|rows)")
_ROWS_OR_STITCHES = re.compile(r"(.*\S)\s*(rows?|stitch(?:es)?)")
_ACROSS = whole_number("rows or stitches across a band", "3..60", "2..200")
BAND_DEPTH = length("depth of a band", "5 mm..25 cm", "2 mm..50 cm", example="3 cm, or 9 rows")
_HEM_ROWS = whole_number("rows of a hem", "4..60", "2..200")
HEM_DEPTH = length("depth of a hem", "1 cm..15 cm", "5 mm..20 cm", example="3 cm, or 20 rows")
# Figures within a value that has more in it than a figure.
FIGURES: tuple[Figure[Any], ...] = (HEM_DEPTH, _HEM_ROWS, BAND_DEPTH, _ACROSS)


@dataclass(frozen=True, slots=True)
class BandCount:
    """How many rows or stitches of a band lie across its edge."""

    number: int
    unit: Unit


def depth_or_rows(entry: Entry) -> Length | int:
    """Read how deep a hem is, as a length or in rows of a layer. Raises Fault."""
    expected = "one depth for all sizes, such as 3 cm or 20 rows"
    match = _ROWS.fullmatch(Text(40, expected, "Write a length or rows.")(entry))
    if match:
        return _HEM_ROWS(replace(entry, node=Scalar(match[1], entry.place)))
    return HEM_DEPTH(entry)


def band_depth(entry: Entry) -> Length | BandCount:
    """Read how deep a band is: a length, the rows of a layer, or its stitches. Raises Fault."""
    expected = "one depth, such as 3 cm or 9 rows"
    match = _ROWS_OR_STITCHES.fullmatch(Text(40, expected, "Write a length or rows.")(entry))
    if match is None:
        return BAND_DEPTH(entry)
    number = _ACROSS(replace(entry, node=Scalar(match[1], entry.place)))
    return BandCount(number, Unit.ROWS if match[2].startswith("row") else Unit.STITCHES)
