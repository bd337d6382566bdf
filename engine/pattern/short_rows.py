"""Short rows that a designer asks for: over a bust, at a lower edge, in a heel or a toe."""

from __future__ import annotations

from enum import Enum

from ..core.units import Length
from ..machine.records import dataclass


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


class Turning(Enum):
    """How short rows follow one another from their first to their last."""

    BOTH = "shorter then longer"
    SHORTER = "shorter"
    LONGER = "longer"


class BesideEdge(Enum):
    """The edge of a piece, as it lies on the bed, beside which a part of it lies."""

    LEFT = "left"
    RIGHT = "right"


class TailCurve(Enum):
    """How the lower edge of a shirt tail runs from its middle to its sides."""

    ROUND = "round"
    STRAIGHT = "straight"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShirtTail:
    """A lower edge whose middle hangs `depth` lower than its sides.

    It rises over the width of `reach` at either side (None: a third of the whole), as `curve` says.
    """

    depth: Length
    reach: Length | None = None
    curve: TailCurve = TailCurve.ROUND
