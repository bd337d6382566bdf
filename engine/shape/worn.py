"""Where the sections of an edge lie on whoever wears it: two of one name are told apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..core.edge_parts import Worn
from ..machine.steps import Side
from ..words.terms.waiting_names import half_shoulder, shoulder_waits
from .edging import Section
from .piece import FRONTS


def shoulder_of(piece: str, side: Side) -> str:
    """Return what the stitches of a shoulder of back, front or half a front wait as."""
    if FRONTS.get(piece):
        return half_shoulder(side.value)
    return shoulder_waits(piece, side.value)


def worn(sections: Sequence[Section | None], first: Worn, last: Worn) -> list[Section]:
    """Return the sections of an edge that goes on as it began: those up to its middle lie `first`,
    those behind it `last` as worn. A section in the middle lies on both sides."""
    there = [s for s in sections if s is not None]
    half = len(there) // 2
    return [replace(s, worn=first if n < half else last if n >= len(there) - half else None)
            for n, s in enumerate(there)]
