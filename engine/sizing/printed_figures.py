"""A figure of a size chart as it is printed: both ends of a range, in either unit."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from ..core.text_kinds import FindingText
from ..core.units import UnitError, read_number

MM_IN = {"cm": Fraction(10), "in": Fraction(254, 10)}

_SPAN = re.compile(r"([^–-]+)(?:[–-]([^–-]+))?")
_MIXED = re.compile(r"([0-9])-([0-9]{1,4}/[0-9])")  # 22-1/2, as on a ruler


@lru_cache(maxsize=4096)  # every size asks for the rows of its chart again
def read_span(text: str) -> tuple[Fraction, Fraction]:
    """Return both ends of a printed figure: "28–30" is (28, 30), "16.5" is (16.5, 16.5).

    Raises UnitError when it is no number or range, is not above nothing, or runs downwards.
    """
    expected: FindingText = "a number such as 16.5, or a range such as 28–30"
    match = _SPAN.fullmatch(_MIXED.sub(r"\1 \2", text.strip()))
    if not match:
        raise UnitError(f'"{text}"', expected)
    try:
        low = read_number(match[1])
        high = read_number(match[2]) if match[2] else low
    except UnitError:
        unit = match[1].strip()[:1].isdigit()
        raise UnitError(f'"{text}"', expected, "Leave the unit out." if unit else "") from None
    if not 0 < low <= high:
        raise UnitError(f'"{text}"', "figures above 0, the smaller first")
    return low, high
