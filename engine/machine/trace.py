"""What the bed saw: its state after every step, what was knitted, and why it refused."""

from __future__ import annotations

from typing import NamedTuple

from .needles import NONE, Needles, doubled
from .records import dataclass
from .set_up_steps import Carriage, Weight
from .step_keys import StepYarn
from .steps import Dial, Side
from .tools import Use
from .two_yarn_steps import Yarns


class Facing(NamedTuple):
    """The second bed while it faces the main bed: its rack [half pitches to the right], its
    needles in work, and those with a stitch."""

    rack: int
    working: Needles
    loaded: Needles


class State(NamedTuple):
    """The bed after a step.

    `loops` lists the loops on the needles layer by layer, oldest first: what each loop is
    made of or belongs to (a yarn, or the name of a hung edge), and the needles it is on; `loaded`
    are the needles that hold at least one. `waiting` lists the edges that wait off the needles,
    with the loops each has. `second` is the second bed, None where none faces the main bed.
    `contrast` is the yarn in the second feeder. `carriage` and `yarns` are how the main bed's
    carriage is set, `weights` what hangs from the work, `claws` the needles under which claw
    weights hang.
    """

    counter: int
    side: Side
    dial: Dial | None
    feeder: StepYarn
    working: Needles
    holding: Needles
    loops: tuple[tuple[str, Needles], ...]
    loaded: Needles
    waiting: tuple[tuple[str, int], ...]
    second: Facing | None = None
    contrast: StepYarn = StepYarn.NONE
    carriage: Carriage = Carriage.KNIT
    weights: frozenset[Weight] = frozenset()
    claws: Needles = NONE
    yarns: Yarns = Yarns.ONE

    @property
    def doubled(self) -> Needles:
        """The needles that hold more than one loop."""
        return doubled(self.loops)

    def on(self, loop: str) -> Needles:
        """The needles that hold a loop called `loop`."""
        for name, needles in self.loops:
            if name == loop:
                return needles
        return NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why a program cannot be knitted: its step (counted from 1), what was expected and found.

    `step` is one more than the last step when the fault is in what the program leaves behind.
    """

    step: int
    code: str
    counter: int
    needles: Needles
    expected: str
    found: str

    def __str__(self) -> str:
        at = f" at {self.needles}" if self.needles else ""
        return (f"step {self.step} (row counter {self.counter}){at}: {self.code}: "
                f"expected {self.expected}, found {self.found}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """A program run on the bed: a state a step, stitches and rows a yarn, and any refusal.

    `stitches` and `rows` count what was knitted with each yarn, by carriage and by hand
    (hand-made loops over some needles are stitches and no row). `tools` are those that were
    used, in the order of their first use.
    """

    states: tuple[State, ...]
    stitches: tuple[tuple[StepYarn, int], ...]
    rows: tuple[tuple[StepYarn, int], ...]
    refusal: Refusal | None
    tools: tuple[Use, ...] = ()
