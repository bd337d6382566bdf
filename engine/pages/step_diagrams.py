"""The diagrams of a program's steps: the needles after each step that changes how they differ."""

from __future__ import annotations

from dataclasses import field
from itertools import takewhile

from ..drawings.needle_row import as_drawn, needle_row
from ..drawings.two_bed_needles import beside
from ..drawings.two_beds import two_bed_diagram
from ..machine import steps
from ..machine.needles import NONE, Needles
from ..machine.records import dataclass
from ..machine.trace import State
from ..pattern.model import Pattern
from ..proof.proof import Work
from ..words import hung_band_instructions
from ..words.instruction import Instruction, Moment, StepAnchor
from ..words.needle_marks import Mark, all_alike, sorted_needles, unlike
from ..words.shaped_edges import Done, ShapingBlock
from ..words.words import needles_after, needles_as_after

Marked = tuple[tuple[Mark, int, Needles], ...]


@dataclass(slots=True)
class Diagrams:
    """What a reader has seen of the needles from one step of a program to the next.

    The program is that of a `work` of a pattern.
    `differ` is how they differed after the last step, `drawn` what that step's diagram showed: one
    that is like the last is left out.
    """

    work: Work
    pattern: Pattern
    differ: tuple[Needles, ...] = ()
    drawn: Marked = ()
    first: dict[str, StepAnchor] = field(default_factory=dict)

    def passed(self, state: State) -> None:
        """A step without a diagram, whose list of rows names the needles."""
        self.differ, self.drawn = unlike(state), ()

    def after_shaping(self, block: ShapingBlock, anchor: StepAnchor) -> str:
        """Return the figure of the needles after what is done once, or after stitches were bound
        off; "" after other shaping, whose sentence or list of rows is enough."""
        event, once = block.events[-1], len(block.events) == 1
        bound = any(act.done is Done.BIND_OFF for act in event.acts)
        if block.mixed or not (once or bound):
            self.passed(event.after)
            return ""
        m = Moment(work=self.work, pattern=self.pattern, at=event.first, upto=event.upto)
        return self.after(m, Instruction(text=""), anchor)

    def after(self, m: Moment, instruction: Instruction, anchor: StepAnchor) -> str:
        """Return the figure of the needles after a step; "" where it needs none.

        While a band's edge is hung its table names the needles as a diagram would.
        """
        if not instruction.chosen and (upper := _put_back(m)):
            instruction = instruction._replace(chosen=upper, mark=Mark.UPPER)
        before, self.differ = self.differ, unlike(m.after)
        owed = (bool(self.differ) and self.differ != before
                and not hung_band_instructions.is_hanging(m))
        if not (owed or instruction.diagram or self.drawn):
            return ""
        marked = () if m.after.second else sorted_needles(m.after, _in_use(m), instruction.chosen,
                                                          instruction.mark)
        figure = "" if marked and marked == self.drawn else diagram_of(m, instruction, anchor, owed)
        if figure or marked != self.drawn:
            self.drawn = marked if figure else ()
        return self._once(figure, anchor)

    def _once(self, figure: str, anchor: StepAnchor) -> str:
        """The figure, or the step that has the same one already."""
        if not figure:
            return ""
        shows = figure.replace(needles_after(anchor.number), "").replace(f'"{anchor}-', '"')
        first = self.first.setdefault(shows, anchor)
        return figure if first == anchor else as_drawn(needles_as_after(first.number, str(first)))


def diagram_of(m: Moment, instruction: Instruction, anchor: StepAnchor, owed: bool = False) -> str:
    """Return the figure of the needles after a moment, `owed` or asked for; "" where all alike."""
    title, prefix = needles_after(anchor.number), str(anchor)
    if instruction.diagram and m.after.second:
        return two_bed_diagram(m.after, prefix=prefix, title=title, bed=m.program.bed)
    if not owed and (not instruction.diagram or all_alike(m.after, _in_use(m), instruction.chosen)):
        return ""
    shown = beside(m.band | m.after.working, m.program.bed)
    return needle_row(m.after, shown, chosen=instruction.chosen, prefix=prefix, title=title,
                      mark=instruction.mark)


def _put_back(m: Moment) -> Needles:
    """The needles with one stitch that were put back from holding since the last row: in upper
    working position, from where the next row brings them to working position."""
    if not m.after.holding:
        return NONE
    back = NONE
    for step in takewhile(lambda s: not isinstance(s, steps.Knit),
                          reversed(m.program.steps[:m.upto])):
        if isinstance(step, steps.Resume):
            back |= step.needles
    return back & m.after.loaded - m.after.holding - m.after.doubled


def _in_use(m: Moment) -> Needles:
    """The band's needles, less those at its ends that are out of work: they need no drawing."""
    loaded = m.after.loaded
    if not loaded:
        return m.band.stretch
    inner = loaded.stretch
    return m.band.stretch if m.after.working - inner else inner
