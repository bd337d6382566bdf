"""The rib that pieces begin with, as a designer asks for it: how it is made, its ends, its counts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import Enum
from fractions import Fraction

from ..core.problems import Place
from ..core.units import Length
from ..machine.records import dataclass
from ..machine.steps import Dial


class RibMake(Enum):
    """The ways a rib is made."""

    MOCK = "mock rib"
    HUNG = "hung mock rib"
    LATCHED = "latched rib"
    TWO_BED = "two-bed rib"


class RibEnds(Enum):
    """How a rib ends at the two sides of a piece, which decides how many stitches fit it."""

    RUN_ON = "run on"  # its repeats run on across the seams
    ALIKE = "alike"  # as it begins, with stitches that stand out
    ANY = "any"  # on any count: as nearly as it begins as that count allows


@dataclass(frozen=True, slots=True)
class RibStitches:
    """How many stitches a rib has: a number, or a share of its piece's, as it stands at `place`."""

    figure: int | Fraction
    place: Place | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class RibSpec:
    """A rib to begin with, as asked: its finished depth or its rows, its dial, how it is made, its
    repeat; of a hung one the dial of the row that joins it, None for the usual one. `works` are its
    stitches that stand out (True) or lie back, `fabric` what it was swatched as, "" for none.
    `stitches` are those of ribs that have others than their pieces, by the pieces' keys."""

    make: RibMake
    works: tuple[bool, ...]
    depth: Length | int
    dial: Dial
    fabric: str = ""
    joining: Dial | None = None
    ends: RibEnds = RibEnds.RUN_ON
    stitches: Mapping[str, RibStitches] = field(default_factory=dict)
    place: Place | None = field(default=None, compare=False)  # of its depth in the source
