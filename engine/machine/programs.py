"""A program: everything to be done for one strip or piece, from an empty bed to an empty bed."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import field
from typing import TypeVar

from .edge_steps import waste_of
from .headings import Heading
from .needles import NONE, Needles
from .records import dataclass
from .step_keys import StepYarn
from .steps import Side, Step

S = TypeVar("S", bound=Step)
_NONE_OF_IT: tuple[list[int], list[Step]] = ([], [])


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramSection:
    """A stretch of the program under one `heading`; of a half of a piece, its `side` of the bed."""

    heading: Heading
    steps: tuple[Step, ...]
    side: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """Everything to be done for one strip or piece, from an empty bed to an empty bed.

    `bed` is all needles there are. `edges` names the edges of finished pieces that the program
    may hang, with the rows each has [rows]. `first_row` names the first row of main yarn above
    ravel cord, where there is one: the row knitted after the yarn called `cord_yarn`.
    `starts` is the side of the carriage before the first step; it is set to knit, and what the
    row counter shows nobody knows until a step sets it.
    `row_one` is the side of the bed where row 1 of every edge lies, as the garment is held.
    `totals` claims what is knitted in all: (yarn, [stitches], [rows]); `crossed` how often a
    stitch changes places with others, `latched` how many are latched up again [stitches].
    `second` is all needles of a second bed; none where there is no such bed.
    `strips` are the edges that wait on a strip of waste yarn: (edge, what it was called when it
    was taken off, "" where no program took it off, and all [stitches] on that strip).
    `corners` are the edges beside which a hollow corner lies: (edge, the row beside it).
    """

    name: str
    bed: Needles
    starts: Side
    sections: tuple[ProgramSection, ...]
    edges: tuple[tuple[str, int], ...] = ()
    first_row: str = ""
    cord_yarn: StepYarn = StepYarn.NONE
    waste_yarn: StepYarn = StepYarn.NONE
    leaves: tuple[str, ...] = ()
    row_one: Side | None = None
    totals: tuple[tuple[StepYarn, int, int], ...] = ()
    crossed: int = 0
    latched: int = 0
    second: Needles = NONE
    strips: tuple[tuple[str, str, int], ...] = ()
    corners: tuple[tuple[str, int], ...] = ()
    steps: tuple[Step, ...] = field(init=False, repr=False, compare=False)
    """All steps in order."""
    _places: dict[type[Step], tuple[list[int], list[Step]]] = field(
        init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        # Once: a page asks for them a hundred times.
        object.__setattr__(self, "steps", tuple(
            step for section in self.sections for step in section.steps))

    def of(self, kind: type[S], *, before: int | None = None) -> tuple[S, ...]:
        """The steps of just this kind, in their order; those `before` a step, counted from 0."""
        if not self._places:  # what is only knitted is never asked
            for at, step in enumerate(self.steps):
                places, alike = self._places.setdefault(type(step), ([], []))
                places.append(at)
                alike.append(step)
        places, alike = self._places.get(kind, _NONE_OF_IT)
        upto = None if before is None else bisect_left(places, before)
        return tuple(alike[:upto])  # type: ignore[arg-type]

    @property
    def on_waste(self) -> frozenset[str]:
        """The names of the strips of waste yarn that it draws out."""
        return frozenset(waste_of(edge) for edge, _, _ in self.strips)
