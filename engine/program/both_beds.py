"""Writes the steps on a second bed that faces the main bed."""

from __future__ import annotations

from ..machine.needles import Needles
from ..machine.reasons import Because, Reason
from ..machine.records import dataclass
from ..machine.rib_steps import (
    Across,
    Beds,
    BringSecond,
    KnitBeds,
    LowerSecond,
    Rack,
    RaiseSecond,
    Zigzag,
)
from ..machine.steps import (
    Position,
)
from .settings import MachineSettings


@dataclass
class BothBeds(MachineSettings):
    """What is on two beds while a program is written: `second` are the stitches on the second."""

    second: int = 0

    def raise_second(self) -> None:
        """The second bed up."""
        self._write(RaiseSecond)

    def lower_second(self) -> None:
        """The second bed down."""
        self._write(LowerSecond)

    def rack(self, halves: int, reason: Because = Reason.NONE) -> None:
        """The second bed sideways."""
        self._write(Rack, reason, halves=halves)

    def bring_second(self, needles: Needles, position: Position = Position.WORKING,
                     ) -> None:
        """Empty needles of the second bed to `position`."""
        self._write(BringSecond, needles=needles, position=position)

    def zigzag(self, main: Needles, second: Needles) -> None:
        """A loop on each of these needles of both beds, in one row."""
        self.stitches = self.loops = len(main) + len(second)
        self.second = len(second)
        self._pass(self.stitches, 1)
        self._write(Zigzag, yarn=self.yarn, dial=self.dial)

    def knit_beds(self, rows: int, beds: Beds, reason: Because = Reason.NONE) -> None:
        """Rows over both beds, or over one."""
        if beds is Beds.BOTH:
            self.loops = self.stitches
        over = {Beds.BOTH: self.stitches, Beds.MAIN: self.stitches - self.second,
                Beds.SECOND: self.second}
        self._pass(over[beds], rows)
        self._write(KnitBeds, reason, rows=rows, yarn=self.yarn, dial=self.dial, beds=beds)

    def _pass(self, over: int, rows: int) -> None:
        self.counter += rows
        self._book(self.yarn, rows * over, rows)
        if rows % 2:
            self.side = self.side.other

    def across(self, needles: Needles, to: Beds, reason: Because = Reason.NONE, *,
               fewer: int = 0) -> None:
        """Stitches straight across to the other bed, so that `fewer` needles hold some."""
        self.stitches -= fewer
        self.second += len(needles) if to is Beds.SECOND else -len(needles)
        self._write(Across, reason, needles=needles, to=to)
