"""What a program in the making has written: its steps by sections, and the yarn they take."""

from __future__ import annotations

from dataclasses import field, replace
from typing import Any

from ..machine.edge_steps import TakeOff
from ..machine.headings import Heading
from ..machine.needles import NONE, Needle, Needles
from ..machine.programs import ProgramSection
from ..machine.reasons import Because, Reason
from ..machine.records import dataclass
from ..machine.rib_steps import KnitBeds, Zigzag
from ..machine.set_up_steps import Carriage
from ..machine.step_keys import StepYarn
from ..machine.steps import Claim, Dial, FreePass, Hold, Knit, Side, Slip, Step, Tuck
from ..machine.two_yarn_steps import KnitTwo

_AT_THE_DIAL = frozenset({Knit, KnitTwo, KnitBeds, Zigzag})  # what knits a row as the dial is set
_BY_THE_LEVERS = _AT_THE_DIAL | {FreePass, Hold, Tuck, Slip, TakeOff}  # what needs them as set


@dataclass
class Written:
    """Steps and sections, and what the next claim says: carriage, counter, stitches and loops.

    `piled` are the loops that lie on a needle above its first, where they can stay for the next
    step. `forward` are needles that a cast-on left fully forward, until a row brings them back. A
    setting that no step has used yet can be taken back.
    """

    side: Side
    counter: int = 0
    stitches: int = 0
    loops: int = 0
    piled: dict[Needle, int] = field(default_factory=dict)
    dial: Dial | None = None
    forward: Needles = NONE
    knitted: dict[StepYarn, list[int]] = field(default_factory=dict)
    sections: list[ProgramSection] = field(default_factory=list)
    row_dial: Dial | None = None
    _idle_dial: Step | None = None
    _idle_carriage: tuple[Step, Carriage] | None = None
    _steps: list[Step] = field(default_factory=list)

    def section(self, heading: Heading, side: Side | None = None) -> None:
        """Close the section with everything written since the last one, under `heading`."""
        self.sections.append(ProgramSection(heading=heading, steps=tuple(self._steps), side=side))
        self._steps.clear()

    def _book(self, yarn: StepYarn, stitches: int, rows: int) -> None:
        total = self.knitted.setdefault(yarn, [0, 0])
        total[0] += stitches
        total[1] += rows

    def pile(self, needle: Needle, loops: int) -> None:
        """So many loops moved onto a needle that holds one."""
        self.piled[needle] = self.piled.get(needle, 0) + loops

    def _off(self, needles: Needles) -> int:
        """Return how many loops lie on these needles above their first, and forget them."""
        return sum(self.piled.pop(needle, 0) for needle in needles) if self.piled else 0

    @property
    def totals(self) -> tuple[tuple[StepYarn, int, int], ...]:
        """What has been knitted of every yarn: (yarn, [stitches], [rows])."""
        return tuple((yarn, stitches, rows) for yarn, (stitches, rows) in self.knitted.items())

    def _write(self, kind: type[Step], because: Because = Reason.NONE, **what: Any) -> None:
        if kind in _AT_THE_DIAL:
            self.forward = NONE
            self.row_dial, self._idle_dial = self.dial, None
        if kind in _BY_THE_LEVERS:
            self._idle_carriage = None
        claim = Claim(self.counter, self.stitches, self.loops, self.side)
        reason, number = because if isinstance(because, tuple) else (because, 0)
        self._steps.append(kind(claim=claim, reason=reason, number=number, **what))

    def _take_back(self, step: Step) -> None:
        """A step out of the program again, in whatever section it stands."""
        self._steps[:] = [s for s in self._steps if s is not step]
        self.sections[:] = [replace(section, steps=tuple(s for s in section.steps
                                                         if s is not step))
                            for section in self.sections]
