"""What a knitter is told at one numbered step, and what its teller may look at."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..model import Pattern
from ..needles import NONE, Needles
from ..proof import Strip
from ..steps import Step
from ..trace import State


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A numbered step: `text` and `places` (one entry a hole) are HTML.

    `how` names a technique page, with its anchor, and what it shows. With `check` a checkpoint
    follows; a diagram follows wherever the needles are not all alike, if `diagram` is not ruled
    out. `chosen` are needles brought forward.
    """

    text: str
    places: tuple[str, ...] = ()
    after: str = ""
    how: tuple[str, str] | None = None
    check: bool = False
    diagram: bool = False
    chosen: Needles = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """Steps that are told as one (the same thing at every hole), between two states of the bed."""

    strip: Strip
    pattern: Pattern
    section: str
    steps: tuple[Step, ...]
    states: tuple[State, ...]
    before: State | None
    earlier: tuple[Step, ...] = field(default=())
    later: tuple[Step, ...] = field(default=())

    @property
    def after(self) -> State:
        """The bed after the last of the steps."""
        return self.states[-1]

    @property
    def band(self) -> Needles:
        """The needles of the band."""
        return self.strip.layout.needles
