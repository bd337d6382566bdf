"""Tells a program as numbered steps, with checkpoints and diagrams off the bed's states."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import Any

from ..drawings.two_bed_needles import share_drawn
from ..machine import edge_steps, rib_steps, set_up_steps, steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.reasons import Reason
from ..machine.steps import Step
from ..markup.html import esc, items, link, part
from ..pattern.model import Pattern
from ..proof.proof import Strip
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
from ..words.charted_rows import ChartedRows
from ..words.charted_rows import rows_text as charted_rows_said
from ..words.checkpoint import checkpoint
from ..words.edge_marks import named_marks
from ..words.instruction import Instruction, Moment, Together, Work
from ..words.repeats import Goes, goes_text
from ..words.shaped_edges import Done, ShapingBlock
from ..words.shaping import block_text
from ..words.together import as_one
from .designer_notes import NOWHERE, NotesHere, shown
from .numbering import numbered
from .step_diagrams import Diagrams

TECHNIQUES = "../../techniques/"


def _thread(m: Moment, step: steps.Thread) -> Instruction:
    told = tell_rows.thread(m, step)
    return told._replace(text=told.text + tell_held.slipped_text(m))


def _by_hand(m: Moment, step: steps.HandKnit) -> Instruction:
    return tell_edges.knit_with_cord(m, step) if step.cord else tell_rows.knit_by_hand(m, step)


def _bring(m: Moment, step: steps.Bring) -> Instruction:
    return tell_ribs.bring_main(m, step) if m.after.second else tell_rows.bring(m, step)


def _increase(m: Moment, step: steps.Increase) -> Instruction:
    return (tell_ribs.fill if step.reason is Reason.TO_FILL_RIB else tell_hung.increase)(m, step)


TELLS: MappingProxyType[type[Step], Callable[[Moment, Any], Instruction]] = MappingProxyType({
    steps.Bring: _bring,
    steps.Thread: _thread,
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
    set_up_steps.HangWeights: tell_held.hang_weights,
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


def steps_html(work: Work, pattern: Pattern, prefix: str, notes: NotesHere = NOWHERE) -> str:
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
            told.append(notes.at_step(each, _item(each, f"{prefix}-{number + n}", where, diagrams),
                                      counter))
            counter = max(counter, shown(each)) if notes.notes else 0  # only they ask for it
        start = f' start="{number + 1}"' if number else ""
        listed = (f'<ol class="wb-steps"{start}{run}>\n'
                  f'{"".join(told)}</ol>\n\n')
        out.append(part(title, f"{prefix}-part-{place}")
                   + notes.at_section(every[place - 1], listed, every, place - 1))
        number += len(told)
    return share_drawn("".join(out), prefix) + bench.chart_data(f"{prefix}-rows")


def _name(work: Work) -> str:
    return work.plan.band.title if isinstance(work, Strip) else work.piece.title


def _item(told: Moment | ShapingBlock, anchor: str, where: str, diagrams: Diagrams) -> str:
    if isinstance(told, ShapingBlock):
        return _shaping(told, anchor, where, diagrams.after_shaping(told, anchor), diagrams.work)
    if isinstance(told, Goes | ChartedRows):
        diagrams.passed(told.after)
        return goes_text(told, anchor) if isinstance(told, Goes) else \
            charted_rows_said(told, anchor)
    return _step(told, anchor, diagrams)


def _shaping(block: ShapingBlock, anchor: str, where: str, figure: str, work: Work) -> str:
    text, more = block_text(block, where)
    text += named_marks(work, (event.counter for event in block.events if any(
        act.done is Done.MARK for act in event.acts)))
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
    text, after = told.text, f"<p>{told.after}{how}</p>" if told.after else f"<p>{how}</p>"
    if not told.places:
        text, after = " ".join(filter(None, (told.text, told.after))) + how, ""
    check = checkpoint(m.after, where=not _is_known(m)) if told.check else ""
    return (f'<li id="{anchor}"><p>{text}</p>{items(told.places, "wb-holes")}{after}'
            f"{diagrams.after(m, told, anchor)}{check}</li>\n")


def _is_known(m: Moment) -> bool:
    """True where the stitches lie over all needles of a band."""
    return m.is_band and m.after.loaded.stretch == m.strip.layout.needles.stretch


def words_of(m: Moment) -> Instruction:
    """Return the instruction at a moment, before it is laid out as a numbered step."""
    if isinstance(m, Together):
        return as_one([words_of(each) for each in m.parts])
    return TELLS[type(m.steps[0])](m, m.steps[0])
