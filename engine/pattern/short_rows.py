"""Short rows that a designer asks for in a body: over the bust."""

from __future__ import annotations

from dataclasses import dataclass

from ..core.units import Length


@dataclass(frozen=True, slots=True, kw_only=True)
class BustDarts:
    """Bust darts by short rows: how much longer a front is over the bust, and where they lie.

    They begin `below` the underarms and are knitted upward; the first turns lie `from_side` of the
    side edges, the last ones `reach` from them (None: a quarter of the width there).
    """

    extra: Length
    below: Length
    from_side: Length
    reach: Length | None = None
