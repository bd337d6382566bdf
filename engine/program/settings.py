"""Writes the steps that set the machine up: yarns, dial, counter, levers, weights, the arm."""

from __future__ import annotations

from ..machine.needles import NONE, Needles
from ..machine.reasons import Because, Reason
from ..machine.records import dataclass
from ..machine.rib_steps import (
    Beds,
)
from ..machine.set_up_steps import (
    Carriage,
    Couple,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Uncouple,
    Weight,
)
from ..machine.step_keys import StepYarn
from ..machine.steps import (
    Dial,
    Resume,
    SetCounter,
    SetDial,
    Thread,
    Unthread,
)
from ..machine.two_yarn_steps import (
    SetYarns,
    Yarns,
)
from .steps_written import Written


@dataclass
class MachineSettings(Written):
    """How the machine is set while a program is written.

    `yarn` is what the feeder has, `counts` whether the row counter was set, `held` the stitches
    that the carriage passes over. `carriage` is how it is set; it goes back to `rests` when no
    needle is held any more. `heavy` says whether weights hang, `claws` the needles under which claw
    weights do, `near` a needle held for a shape on the carriage's own side since the last row,
    `raised` those put back in upper working position and not knitted since.
    """

    counts: bool = False
    carriage: Carriage = Carriage.KNIT
    rests: Carriage = Carriage.KNIT
    heavy: bool = False
    claws: Needles = NONE
    yarn: StepYarn = StepYarn.NONE
    held: int = 0
    near: Needles = NONE
    raised: Needles = NONE

    def thread(self, yarn: StepYarn, *, fresh: bool, reason: Because = Reason.NONE) -> None:
        """Yarn into the feeder, a new end under the needle held beside it."""
        self.yarn = yarn
        self._write(Thread, reason, yarn=yarn, fresh=fresh, under=self.near if fresh else NONE)

    def unthread(self, *, cut: bool, reason: Because = Reason.NONE) -> None:
        """Yarn out of the feeder."""
        self.yarn = StepYarn.NONE
        self._write(Unthread, reason, cut=cut)

    def set_dial(self, dial: Dial, reason: Because = Reason.NONE) -> None:
        """The dial, where it changes; a setting at which no row was knitted is taken back."""
        if dial == self.dial:
            return
        if self._idle_dial is not None:
            self._take_back(self._idle_dial)
            self._idle_dial = None
        self.dial = dial
        if dial != self.row_dial:
            self._write(SetDial, reason, dial=dial)
            self._idle_dial = self._steps[-1]

    def set_counter(self, rows: int, reason: Because = Reason.NONE) -> None:
        """The row counter, where it shows something else or nobody knows what."""
        if rows != self.counter or not self.counts:
            self.counter, self.counts = rows, True
            self._write(SetCounter, reason, rows=rows)

    def set_carriage(self, to: Carriage, bed: Beds = Beds.MAIN,
                     reason: Because = Reason.NONE) -> None:
        """The levers of one carriage or of both; a setting that nothing used is taken back."""
        was = self.carriage
        if bed is Beds.MAIN and self._idle_carriage is not None:
            idle, was = self._idle_carriage
            self._take_back(idle)
        if bed is not Beds.SECOND:
            self.carriage = to
        if bed is Beds.MAIN and self._idle_carriage is not None and to is was:
            self._idle_carriage = None
            return
        self._write(SetCarriage, reason, to=to, bed=bed)
        self._idle_carriage = (self._steps[-1], was) if bed is Beds.MAIN else None

    def set_yarns(self, to: Yarns) -> None:
        """The carriage set to lay one yarn in a row, or two."""
        self._write(SetYarns, to=to)

    def put_back_cast_on(self) -> None:
        """Needles that a cast-on left fully forward, where any are: a carriage set to hold passes
        them by, one that knits or slips knits them all, and with two yarns in the contrast one."""
        if self.forward:
            self._write(Resume, Reason.AFTER_CAST_ON, needles=self.forward)
            self.raised, self.forward = self.forward, NONE

    def tuck_by_holding(self, does: bool) -> None:
        """The carriage to hold for as long as rows tuck, then back to knit."""
        self.rests = Carriage.HOLD if does else Carriage.KNIT
        if does:
            self.put_back_cast_on()
        if not self.held and self.carriage is not self.rests:
            self.set_carriage(self.rests, reason=Reason.FOR_TUCK_ROWS if does else Reason.NONE)

    def ready(self) -> None:
        """The carriage set so that the next row knits: after a free pass its levers go back."""
        if self.carriage is Carriage.SLIP:
            self.set_carriage(Carriage.HOLD if self.held else self.rests)

    def hang_weights(self, weight: Weight, needles: Needles = NONE,
                     reason: Because = Reason.NONE) -> None:
        """Weights under stitches."""
        self.heavy = True
        if weight is Weight.CLAWS:
            self.claws = needles
        self._write(HangWeights, reason, weight=weight, needles=needles)

    def hang_claws(self, work: Needles) -> None:
        """Claw weights under the stitches knitted beside held ones, where none pull there yet."""
        if work and not self.claws & work:
            self.hang_weights(Weight.CLAWS, work)

    def weights_off(self, reason: Because = Reason.NONE) -> None:
        """All weights off, where any hang."""
        if self.heavy:
            self.heavy, self.claws = False, NONE
            self._write(TakeWeightsOff, reason)

    def couple(self) -> None:
        """The connecting arm on."""
        self._write(Couple)

    def uncouple(self) -> None:
        """The connecting arm off."""
        self._write(Uncouple)

    def lighten_held(self, needles: Needles) -> None:
        """Weights off from under held stitches that come off; those under the others stay."""
        self._write(TakeWeightsOff, needles=needles)

    def lighten(self, needles: Needles) -> None:
        """Weights off stitches that come off: all weights where no others are on the bed."""
        if len(needles) == self.stitches:
            self.weights_off()
        elif self.claws & needles:
            self.claws_off()

    def claws_off(self) -> None:
        """The claw weights off, where any hang; the others stay."""
        if self.claws:
            self.claws = NONE
            self._write(TakeWeightsOff, claws_only=True)

    def _release(self, needles: Needles) -> None:
        """Weights came off with the stitches that carried them, claw weights with all in work."""
        if not self.stitches:
            self.heavy = False
        if self.stitches == self.held or self.claws <= needles:
            self.claws = NONE
