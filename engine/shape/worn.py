"""Where the sections of an edge lie on whoever wears it: two of one name are told apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .edging import Section

RIGHT, LEFT = "right", "left"


def worn(sections: Sequence[Section | None], first: str, last: str) -> list[Section]:
    """Return the sections of an edge that goes on as it began: those up to its middle lie `first`,
    those behind it `last` as worn. A section in the middle lies on both sides."""
    there = [s for s in sections if s is not None]
    half = len(there) // 2
    return [replace(s, worn=first if n < half else last if n >= len(there) - half else "")
            for n, s in enumerate(there)]
