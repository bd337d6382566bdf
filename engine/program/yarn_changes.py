"""Writes the changes of yarn between the stripes of a piece."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field

from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.set_up_steps import CutEnd
from ..machine.step_keys import StepYarn
from ..machine.steps import Side
from ..shape.striping import Striped
from .both_beds import BothBeds


@dataclass
class Striping(BothBeds):
    """The `striped` rows of the piece that is written, None while its rows are of one yarn.

    `resting` are the yarns that hang from the work, and at which side; `holds` the row counters at
    which needles are held at a side.
    """

    striped: Striped | None = None
    resting: dict[str, Side] = field(default_factory=dict)
    holds: Mapping[Side, tuple[int, ...]] = field(default_factory=dict)

    @property
    def next_yarn(self) -> StepYarn:
        """What the yarn of the next row is called."""
        return self.striped.yarn(self.counter + 1) if self.striped else StepYarn.MAIN

    def by_yarn(self, rows: int) -> Iterator[int]:
        """The rows to knit, stripe by stripe, with the change of yarn before each of them."""
        while rows:
            self.change_yarn()
            until = self.striped.until(self.counter + 1) if self.striped else None
            these = rows if until is None else min(rows, until)
            rows -= these
            yield these

    def change_yarn(self) -> None:
        """The yarn of the next row into the feeder, where a stripe has ended."""
        if self.striped and self.yarn != self.next_yarn:
            self._change(self.striped)

    def _change(self, striped: Striped) -> None:
        row = self.counter + 1
        if self.yarn:
            rests = striped.rests(self.yarn, row)
            carried = striped.is_carried(rests) and not self.held_over(rests)
            if carried:
                self.resting[self.yarn] = self.side
            self.unthread(cut=not carried, reason=(Reason.STRIPE, rests if carried else 0))
        yarn = striped.yarn(row)
        hangs = self.resting.pop(yarn, None)
        self.thread(yarn, fresh=hangs is None, reason=(Reason.STRIPE, striped.rows(row)))

    def held_over(self, rests: int) -> bool:
        """True where needles are held at this side before a yarn is used again: it would have to
        lie over them."""
        return any(self.counter < at <= self.counter + rests
                   for at in self.holds.get(self.side, ()))

    def cut_resting(self, side: Side) -> None:
        """The yarns that rest at a side cut: what is knitted next does not reach them."""
        for yarn in [name for name, at in self.resting.items() if at is side]:
            del self.resting[yarn]
            self._write(CutEnd, yarn=yarn)
