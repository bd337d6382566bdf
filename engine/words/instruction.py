"""The instruction of one numbered step, and the facts that it is made from."""

from __future__ import annotations

from dataclasses import field
from typing import NamedTuple

from ..machine.needles import NONE, Needles
from ..machine.programs import Program, S
from ..machine.records import dataclass
from ..machine.steps import Step
from ..machine.trace import State
from ..pattern.model import Fold, Pattern
from ..proof.proof import SizeProof, Strip, Work
from .needle_marks import Mark

NEXT = "</p>\n<p>"  # within the text of a step: a paragraph ends, and the next begins


def works(size: SizeProof) -> tuple[Work, ...]:
    """Everything that is knitted in one size, the pieces before the bands."""
    return (*size.pieces, *size.strips)


class StepAnchor(NamedTuple):
    """The id of a step on its page: that of the part, and the step's number; "front-3"."""

    part: str
    number: int

    def __str__(self) -> str:
        return f"{self.part}-{self.number}"


class Instruction(NamedTuple):
    """A numbered step: `text` and `places` (one entry a hole) are HTML.

    `how` names a technique page, with its anchor, and what it shows. With `check` a checkpoint
    follows; with `diagram` one of the needles follows, where they are not all alike. `chosen` are
    needles singled out there by their `mark`. A page has some five hundred: a tuple with names is
    made in a third of the time.
    """

    text: str
    places: tuple[str, ...] = ()
    after: str = ""
    how: tuple[str, str] | None = None
    check: bool = False
    diagram: bool = False
    chosen: Needles = NONE
    mark: Mark = Mark.CHOSEN


@dataclass(slots=True, kw_only=True)  # nothing changes one: frozen, it takes three times as long
class Moment:
    """Steps that are told as one (the same thing at every hole), between two states of the bed.

    `work` is the strip or the piece that is being knitted. Of its program's steps, counted from 0,
    these are those from `at` to before `upto`. `after` is the bed after the last of them.
    """

    work: Work
    pattern: Pattern
    at: int
    upto: int
    steps: tuple[Step, ...] = field(init=False)
    after: State = field(init=False)

    def __post_init__(self) -> None:
        self.steps = self.work.program.steps[self.at:self.upto]
        self.after = self.work.trace.states[self.upto - 1]

    @property
    def states(self) -> tuple[State, ...]:
        """The bed after each of the steps."""
        return self.work.trace.states[self.at:self.upto]

    @property
    def before(self) -> State | None:
        """The bed before the first of the steps; None where that begins the program."""
        return self.work.trace.states[self.at - 1] if self.at else None

    @property
    def earlier(self) -> tuple[Step, ...]:
        """The steps of the program before these."""
        return self.work.program.steps[:self.at]

    def earlier_of(self, kind: type[S]) -> tuple[S, ...]:
        """The steps of a kind before these."""
        return self.work.program.of(kind, before=self.at)

    @property
    def later(self) -> tuple[Step, ...]:
        """The steps of the program after these."""
        return self.work.program.steps[self.upto:]

    @property
    def program(self) -> Program:
        """The program the steps are of."""
        return self.work.program

    @property
    def strip(self) -> Strip:
        """The band's strip. Raises TypeError for a step of a piece."""
        if not isinstance(self.work, Strip):
            raise TypeError(f"{self.work.piece.title} is no band")
        return self.work

    @property
    def is_band(self) -> bool:
        """True for a step of a band, False for one of a piece."""
        return isinstance(self.work, Strip)

    @property
    def fold(self) -> Fold | None:
        """How the band, or the piece's hem, folds; None where there is no hem."""
        if isinstance(self.work, Strip):
            return self.work.plan.band.fold
        return self.work.piece.hem.fold if self.work.piece.hem else None

    @property
    def band(self) -> Needles:
        """The needles of the band, or those from the first to the last with stitches.

        Those of a band reach as far as its stitches do: a facing may have more than the edge.
        """
        if isinstance(self.work, Strip):
            return self.work.layout.needles | self.after.loaded
        held = (self.after.loaded or (self.before.loaded if self.before else NONE)
                or self.after.working)
        return held.stretch


@dataclass(slots=True, kw_only=True)
class Together(Moment):
    """Moments that follow each other and are told as one numbered step: levers and their row."""

    parts: tuple[Moment, ...]
