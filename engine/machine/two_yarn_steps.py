"""Steps for rows of two yarns: a contrast yarn in a second feeder, and the needles that take it.

Set for two yarns, the carriage lays both in one row. Needles in upper working position take the
contrast yarn, those in working position the main yarn; each yarn lies in a float behind the
other's stitches, on the side towards the knitter.
"""

from __future__ import annotations

from enum import Enum

from .needles import NONE, Needles
from .records import dataclass
from .step_keys import StepYarn
from .steps import Knit, Step


class Yarns(Enum):
    """How many yarns the carriage is set to lay in one row.

    Set for two, it lays the yarn of the second feeder on every needle that stands in upper working
    position. Where that feeder is empty, those needles drop their stitches.
    """

    ONE = "one yarn"
    TWO = "two yarns"


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class SetYarns(Step):
    """Set the main bed's carriage to knit one yarn in a row, or two."""

    to: Yarns


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class ThreadContrast(Step):
    """Put the contrast `yarn` into the second feeder, on the side where the carriage stands.

    A `fresh` end is new; otherwise it is the one that hangs from the work at that side. A new end
    is laid `under` a needle that was held there since the last row.
    """

    yarn: StepYarn
    fresh: bool
    under: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class UnthreadContrast(Step):
    """Take the contrast yarn out of the second feeder; `cut` it, or leave it hanging."""

    cut: bool


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class PickContrast(Step):
    """Bring needles to upper working position: they take the contrast yarn in the next row.

    `lowered` stand there too since they were held or cast on: they go back to working position.
    """

    needles: Needles
    lowered: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class KnitTwo(Knit):
    """Knit one row with two yarns: `contrast` on the needles `picks`, `yarn` on all others."""

    contrast: StepYarn
    picks: Needles
