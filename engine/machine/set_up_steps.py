"""Steps that set the machine up: levers of the carriages, weights, the arm that joins two beds.

They change no loop. What they leave behind decides what the next row does, so that the bed keeps
it and refuses a row, or an end of the program, for which it is wrong.
"""

from __future__ import annotations

from enum import Enum

from .members import Members
from .needles import NONE, Needles
from .records import dataclass
from .rib_steps import Beds
from .step_keys import StepYarn
from .steps import Step


class Carriage(Enum):
    """What a carriage does with needles that hold a stitch.

    Set to knit it also knits needles in holding position back. Set to hold it leaves those where
    they are. With its slip levers set it passes every needle by.
    """

    KNIT = "knit"
    HOLD = "hold"
    SLIP = "slip"


class Weight(Members):
    """What pulls the work down."""

    COMB = "the cast-on comb with its weights"
    EVEN = "weights"
    CLAWS = "claw weights"


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class SetCarriage(Step):
    """Set the carriage of one bed, or of both, to knit, to hold, or to slip."""

    to: Carriage
    bed: Beds = Beds.MAIN


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class HangWeights(Step):
    """Hang `weight` under the stitches of `needles`; claw weights that hang elsewhere move."""

    weight: Weight
    needles: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class TakeWeightsOff(Step):
    """Take off all weights, the claw weights `claws_only`, or those under held `needles` alone."""

    claws_only: bool = False
    needles: Needles = NONE


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Couple(Step):
    """Join the carriages of both beds with the connecting arm, which has the feeder."""


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class Uncouple(Step):
    """Take the connecting arm off and put the main bed's own arm, with its feeder, on."""


@dataclass(slots=True, kw_only=True, unsafe_hash=True)
class CutEnd(Step):
    """Cut the end of `yarn` that hangs from the work, taken out of its feeder before."""

    yarn: StepYarn
