"""Which steps of a program are one numbered step on the page, before any of it is written."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from ..machine import edge_steps, set_up_steps, steps
from ..machine.headings import Heading
from ..machine.programs import Program, ProgramSection
from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.steps import Step
from ..pattern.model import Pattern
from ..proof.proof import KnittedPiece, Strip, Work
from ..words.charted_rows import ChartedRows, is_charted, rows_from
from ..words.instruction import Moment
from ..words.mitre_instructions import is_mitre
from ..words.repeats import in_goes, is_chart
from ..words.section_titles import title_of
from ..words.shaped_edges import ShapingBlock, read_events
from ..words.shaping_blocks import in_blocks
from ..words.together import together


def numbered(work: Work, pattern: Pattern) -> Iterator[tuple[str, list[Moment | ShapingBlock]]]:
    """Return each section's title and what its numbered steps tell, every step of it once."""
    every, done = work.program.steps, 0
    for section in work.program.sections:
        upto = done + len(section.steps)
        part = _Part(work, pattern, section.heading, every)
        plain = isinstance(work, Strip) and not _shapes(work, section)
        yield title_of(section, work), list(together(
            part.holes(done, upto) if plain else part.shaped(done, upto)))
        done = upto


def _shapes(strip: Strip, section: ProgramSection) -> bool:
    """True where the ends of a collar change."""
    return not strip.plan.collar.is_straight and any(isinstance(step, steps.Increase | steps.Hold)
               or (isinstance(step, steps.Transfer) and step.rest) for step in section.steps)


@dataclass(frozen=True, slots=True)
class _Part:
    """A section of a program whose steps are all `every`; parts of it are written as moments."""

    work: Work
    pattern: Pattern
    heading: Heading
    every: tuple[Step, ...]

    def holes(self, at: int, upto: int) -> Iterator[Moment]:
        """A band's steps from `at`, those that do the same at every hole together."""
        kinds = (_kind(step, self.work.program) or n
                 for n, step in enumerate(self.every[at:upto]))
        for _, group in groupby(kinds):
            last = at + sum(1 for _ in group)
            yield self._moment(at, last)
            at = last

    def shaped(self, at: int, upto: int) -> Iterator[Moment | ShapingBlock]:
        """A piece's steps from `at`, those of a shaping together.

        Where no row is knitted there is no shaping to be counted by.
        """
        section, charted = self.every[at:upto], is_charted(self.heading, self.work)
        if is_chart(self.heading, self.work):
            while at < upto and isinstance(self.every[at],
                                                steps.Resume | set_up_steps.SetCarriage
                                                | set_up_steps.HangWeights):
                yield self._moment(at, at + 1)
                at += 1
            if goes := tuple(self.goes(at, upto)):
                yield from goes
                return
            section = self.every[at:upto]
        blocks = {}
        if any(isinstance(step, steps.Knit) for step in section):
            events = read_events(section, self.work.trace.states, at, charted=charted)
            blocks = {block.first: block for block in in_blocks(events)}
        while at < upto:
            item = blocks.get(at) or self._rows(at, upto, charted) or self._moment(at, at + 1)
            yield item
            at = item.upto if isinstance(item, ShapingBlock) else at + len(item.steps)

    def _rows(self, at: int, upto: int, charted: bool) -> ChartedRows | None:
        """The rows of a shaped piece's chart from `at`, where there are any."""
        rows, end = rows_from(self.every[at:upto], 0) if charted else (0, 0)
        if not rows:
            return None
        return ChartedRows(work=self.work, pattern=self.pattern, at=at, upto=at + end, rows=rows)

    def goes(self, at: int, upto: int) -> Iterator[Moment]:
        """The steps of a section knitted from a chart, whole repeats together."""
        assert isinstance(self.work, KnittedPiece) and self.work.piece.chart is not None
        return in_goes(self._moment(at, upto), self.work.piece.chart.height)

    def _moment(self, at: int, upto: int) -> Moment:
        return Moment(work=self.work, pattern=self.pattern, at=at, upto=upto)


_AT_HOLES = {steps.HandKnit, steps.CastOn, edge_steps.Hang, edge_steps.BindOff,
             edge_steps.DrawCord}


def _kind(step: Step, program: Program) -> str:
    """What is done alike at every hole; "" for a step that stands alone."""
    if is_mitre(step):
        return "mitre"
    if type(step) not in _AT_HOLES:
        return ""
    match step:
        case steps.HandKnit(cord=cord) if cord:
            return "cord"
        case edge_steps.Hang(lean=lean) if lean is not None:
            return "upper"
        case edge_steps.Hang(onto_empty=True, picks=()):
            return "lower"
        case edge_steps.BindOff(keep_last=True):
            return "across"
        case steps.CastOn(reason=Reason.BUTTONHOLE):
            return "cast on"
        case edge_steps.DrawCord(edge=edge) if edge not in {program.first_row, *program.on_waste}:
            return "draw"
    return ""
