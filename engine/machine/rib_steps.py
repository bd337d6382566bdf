"""Steps of ribs: latching columns up again, and everything done on two beds that face each other.

Needles of the second bed have the names of those of the main bed that they face at rack 0: its
L3 faces the main bed's L3. Racking is counted in half pitches, the second bed's needles moved
to the right: at 2 its L3 faces L2, at 1 it lies between L3 and L2.
"""

from __future__ import annotations

from enum import Enum

from .needles import Needles
from .records import dataclass
from .step_keys import StepYarn
from .steps import Dial, Position, Step


class Beds(Enum):
    """Which beds knit, or to which one stitches go."""

    BOTH = "both beds"
    MAIN = "the main bed"
    SECOND = "the second bed"


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Latch(Step):
    """Drop each of these needles' stitches down `rows` rows [rows] and latch it up again.

    One column after the other; from the knitter's side it then shows knit stitches. Each comes
    back onto its needle. The stitch below the lowest of the rows must be there to stop it.
    """

    needles: Needles
    rows: int


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class RaiseSecond(Step):
    """Bring the second bed up to face the main bed: bare, at rack 0."""


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class LowerSecond(Step):
    """Let the second bed down, with no stitch on it and no needle in work."""


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Rack(Step):
    """Move the second bed sideways to `halves` [half pitches to the right of rack 0]."""

    halves: int


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class BringSecond(Step):
    """Move empty needles of the second bed into `position`: working or non-working."""

    needles: Needles
    position: Position


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Zigzag(Step):
    """Cast on with one row over all needles in work of both beds, which take turns."""

    yarn: StepYarn
    dial: Dial


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class KnitBeds(Step):
    """Knit `rows` rows [rows] with every needle in work of `beds`; the others keep their loops.

    The carriages of both beds go together: side and row counter change as with any row.
    """

    rows: int
    yarn: StepYarn
    dial: Dial
    beds: Beds


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Across(Step):
    """Move the stitches of `needles` straight across, onto the needles `to` has opposite them.

    `needles` are of the other bed. Needles that take a stitch come into work, emptied ones go
    to non-working.
    """

    needles: Needles
    to: Beds


STEPS_OVER_TWO = (RaiseSecond, LowerSecond, Rack, BringSecond, Zigzag, KnitBeds, Across)
