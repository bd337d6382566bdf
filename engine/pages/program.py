"""Tells a program as numbered steps, with checkpoints and diagrams off the bed's states."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType
from typing import Any

from ..drawings.needles import share_drawn
from ..machine import edge_steps, rib_steps, set_up_steps, steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.headings import Heading
from ..machine.programs import Program, ProgramSection
from ..machine.reasons import Reason
from ..machine.steps import Step
from ..markup.html import esc, items, link, part
from ..pattern.model import Pattern
from ..proof.proof import KnittedPiece, Strip
from ..words import edges as tell_edges
from ..words import hands as tell_hands
from ..words import held as tell_held
from ..words import hole_steps as tell_holes
from ..words import hung as tell_hung
from ..words import put_by as tell_put_by
from ..words import ribs as tell_ribs
from ..words import rows as tell_rows
from ..words import set_up as tell_set_up
from ..words import two_yarns as tell_two_yarns
from ..words.bench_steps import StepFacts
from ..words.charted_rows import ChartedRows, is_charted, rows_from
from ..words.charted_rows import rows_said as charted_rows_said
from ..words.checkpoint import checkpoint
from ..words.headings import title_of
from ..words.instruction import Instruction, Moment, Together, Work
from ..words.mitre import is_mitre
from ..words.repeats import Goes, goes_said, in_goes, is_chart
from ..words.shaped_edges import ShapingBlock, read_events
from ..words.shaping import block_said
from ..words.shaping_blocks import in_blocks
from ..words.together import as_one, together
from .designer_notes import NOWHERE, NotesHere, shown
from .step_diagrams import Diagrams

TECHNIQUES = "../../techniques/"


def _by_hand(m: Moment, step: steps.HandKnit) -> Instruction:
    return tell_edges.knit_with_cord(m, step) if step.cord else tell_rows.knit_by_hand(m, step)


def _bring(m: Moment, step: steps.Bring) -> Instruction:
    return tell_ribs.bring_main(m, step) if m.after.second else tell_rows.bring(m, step)


def _increase(m: Moment, step: steps.Increase) -> Instruction:
    return (tell_ribs.fill if step.reason is Reason.TO_FILL_RIB else tell_hung.increase)(m, step)


TELLS: MappingProxyType[type[Step], Callable[[Moment, Any], Instruction]] = MappingProxyType({
    steps.Bring: _bring,
    steps.Thread: tell_rows.thread,
    steps.Unthread: tell_rows.unthread,
    steps.SetDial: tell_rows.set_dial,
    steps.SetCounter: tell_rows.set_counter,
    steps.CastOn: tell_rows.cast_on,
    steps.Knit: tell_rows.knit,
    steps.HandKnit: _by_hand,
    steps.FreePass: tell_rows.free_pass,
    steps.TurnWork: tell_rows.turn_work,
    steps.Transfer: tell_rows.transfer,
    steps.TurnLoop: tell_holes.turn_loop,
    steps.Cross: tell_rows.cross,
    steps.Tuck: tell_rows.tuck,
    steps.Slip: tell_rows.slip,
    two_yarns.SetYarns: tell_two_yarns.set_yarns,
    two_yarns.ThreadContrast: tell_two_yarns.thread_contrast,
    two_yarns.UnthreadContrast: tell_two_yarns.unthread_contrast,
    two_yarns.PickContrast: tell_two_yarns.pick,
    two_yarns.KnitTwo: tell_two_yarns.knit_two,
    edge_steps.Hang: tell_edges.hang,
    edge_steps.BindOff: tell_edges.bind_off,
    edge_steps.DrawCord: tell_edges.draw_cord,
    steps.Hold: tell_held.hold,
    steps.Resume: tell_held.resume,
    edge_steps.TakeOff: tell_put_by.take_off,
    edge_steps.CloseUp: tell_put_by.close_up,
    steps.Increase: _increase,
    steps.Attend: tell_hands.attend,
    set_up_steps.SetCarriage: tell_set_up.set_carriage,
    set_up_steps.HangWeights: tell_set_up.hang_weights,
    set_up_steps.TakeWeightsOff: tell_set_up.weights_off,
    set_up_steps.Couple: tell_set_up.couple,
    set_up_steps.Uncouple: tell_set_up.uncouple,
    set_up_steps.CutEnd: tell_set_up.cut_end,
    rib_steps.Latch: tell_ribs.latch,
    rib_steps.RaiseSecond: tell_ribs.raise_second,
    rib_steps.LowerSecond: tell_ribs.lower_second,
    rib_steps.Rack: tell_ribs.rack,
    rib_steps.BringSecond: tell_ribs.bring_second,
    rib_steps.Zigzag: tell_ribs.zigzag,
    rib_steps.KnitBeds: tell_ribs.knit_beds,
    rib_steps.Across: tell_ribs.across,
})


def tell(work: Work, pattern: Pattern, prefix: str, notes: NotesHere = NOWHERE) -> str:
    """Return the sections of a strip or piece: a Markdown heading and a list of steps each.

    The designer's `notes` stand at their sections and steps.
    """
    out, number, bench, counter = [], 0, StepFacts(work), 0
    every = [section.heading for section in work.program.sections]
    diagrams = Diagrams(work, pattern)
    for place, (title, group) in enumerate(numbered(work, pattern), 1):
        run = bench.attributes(group)
        where = f"{_name(work)}, {title[:1].lower()}{title[1:]}"
        told = []
        for n, each in enumerate(group, 1):
            told.append(notes.at_step(each, _told(each, f"{prefix}-{number + n}", where, diagrams),
                                      counter))
            counter = max(counter, shown(each))
        start = f' start="{number + 1}"' if number else ""
        listed = (f'<ol class="wb-steps"{start}{run}>\n'
                  f'{"".join(told)}</ol>\n\n')
        out.append(part(title, f"{prefix}-part-{place}")
                   + notes.at_section(every[place - 1], listed, every, place - 1))
        number += len(told)
    return share_drawn("".join(out), prefix) + bench.chart_data(f"{prefix}-rows")


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
    """A section of a program whose steps are all `every`; parts of it are told as moments."""

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
            events = read_events(section, self.work.run.states, at, charted=charted)
            blocks = {block.first: block for block in in_blocks(events)}
        while at < upto:
            told = blocks.get(at) or self._rows(at, upto, charted) or self._moment(at, at + 1)
            yield told
            at = told.upto if isinstance(told, ShapingBlock) else at + len(told.steps)

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


def _kind(step: Step, program: Program) -> str:
    """What is done alike at every hole; "" for a step that stands alone."""
    if is_mitre(step):
        return "mitre"
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


def _name(work: Work) -> str:
    return work.plan.band.title if isinstance(work, Strip) else work.piece.title


def _told(told: Moment | ShapingBlock, anchor: str, where: str, diagrams: Diagrams) -> str:
    if isinstance(told, ShapingBlock):
        return _shaping(told, anchor, where, diagrams.after_shaping(told, anchor))
    if isinstance(told, Goes | ChartedRows):
        diagrams.passed(told.after)
        return goes_said(told, anchor) if isinstance(told, Goes) else \
            charted_rows_said(told, anchor)
    return _step(told, anchor, diagrams)


def _shaping(block: ShapingBlock, anchor: str, where: str, figure: str) -> str:
    text, more = block_said(block, where)
    if block.before:
        text = f"{words_of(block.before).text} {text}"
    return (f'<li id="{anchor}"><p>{text}</p>{more}{figure}'
            f"{checkpoint(block.events[-1].after)}</li>\n")


def _step(m: Moment, anchor: str, diagrams: Diagrams) -> str:
    told = words_of(m)
    how = ""
    if told.how:
        page = (TECHNIQUES + told.how[0]).replace("techniques/../", "")  # a page beside that folder
        how = f" {link(page, esc(told.how[1].capitalize()), 'wb-how')}"
    after = f"<p>{told.after}</p>" if told.after else ""
    known = m.is_band and m.after.loaded.stretch == m.strip.layout.needles.stretch
    check = checkpoint(m.after, where=not known) if told.check else ""
    return (f'<li id="{anchor}"><p>{told.text}{"" if told.places or told.after else how}</p>'
            f"{items(told.places, 'wb-holes')}"
            f"{after[:-4] + how + '</p>' if after else f'<p>{how}</p>' if told.places else ''}"
            f"{diagrams.after(m, told, anchor)}{check}</li>\n")


def words_of(m: Moment) -> Instruction:
    """Return the instruction at a moment, before it is laid out as a numbered step."""
    if isinstance(m, Together):
        return as_one([words_of(each) for each in m.parts])
    return TELLS[type(m.steps[0])](m, m.steps[0])
