"""Tells a program as numbered steps, with checkpoints and diagrams off the bed's states."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from ..drawings.two_bed_needles import share_drawn
from ..machine import edge_steps, rib_steps, set_up_steps, steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.reasons import Reason
from ..machine.steps import Step
from ..markup.html import esc, items, link, part
from ..pattern.model import Pattern
from ..proof.proof import Strip, Work
from ..words import (
    edge_instructions,
    hung_band_instructions,
    rib_instructions,
    row_instructions,
    set_up_instructions,
    two_yarn_instructions,
)
from ..words import hands as hand_instructions
from ..words import held as held_instructions
from ..words import hole_steps as hole_instructions
from ..words import put_by as put_by_instructions
from ..words.bench_steps import StepFacts
from ..words.charted_rows import ChartedRows
from ..words.charted_rows import rows_text as charted_rows_text
from ..words.checkpoint import checkpoint
from ..words.edge_marks import named_marks
from ..words.instruction import Instruction, Moment, StepAnchor, Together
from ..words.repeats import Goes, goes_text
from ..words.shaped_edges import Done, ShapingBlock
from ..words.shaping import block_text
from ..words.together import as_one
from .numbering import numbered
from .placed_designer_notes import NOWHERE, NotesHere, shown
from .step_diagrams import Diagrams

TECHNIQUES = "../../techniques/"


def _thread(m: Moment, step: steps.Thread) -> Instruction:
    instruction = row_instructions.thread(m, step)
    return instruction._replace(text=instruction.text + held_instructions.chosen_next_text(m))


def _by_hand(m: Moment, step: steps.HandKnit) -> Instruction:
    knit = edge_instructions.knit_with_cord if step.cord else row_instructions.knit_by_hand
    return knit(m, step)


def _bring(m: Moment, step: steps.Bring) -> Instruction:
    bring = rib_instructions.bring_main if m.after.second else row_instructions.bring
    return bring(m, step)


def _increase(m: Moment, step: steps.Increase) -> Instruction:
    fills = step.reason is Reason.TO_FILL_RIB
    return (rib_instructions.fill if fills else hung_band_instructions.increase)(m, step)


INSTRUCTIONS: Mapping[type[Step], Callable[[Moment, Any], Instruction]] = MappingProxyType({
    steps.Bring: _bring,
    steps.Thread: _thread,
    steps.Unthread: row_instructions.unthread,
    steps.SetDial: row_instructions.set_dial,
    steps.SetCounter: row_instructions.set_counter,
    steps.CastOn: row_instructions.cast_on,
    steps.Knit: row_instructions.knit,
    steps.HandKnit: _by_hand,
    steps.FreePass: row_instructions.free_pass,
    steps.TurnWork: row_instructions.turn_work,
    steps.Transfer: row_instructions.transfer,
    steps.TurnLoop: hole_instructions.turn_loop,
    steps.Cross: row_instructions.cross,
    steps.Tuck: row_instructions.tuck,
    steps.Slip: held_instructions.slip,
    two_yarns.SetYarns: two_yarn_instructions.set_yarns,
    two_yarns.ThreadContrast: two_yarn_instructions.thread_contrast,
    two_yarns.UnthreadContrast: two_yarn_instructions.unthread_contrast,
    two_yarns.PickContrast: two_yarn_instructions.pick,
    two_yarns.KnitTwo: two_yarn_instructions.knit_two,
    edge_steps.Hang: edge_instructions.hang,
    edge_steps.BindOff: edge_instructions.bind_off,
    edge_steps.DrawCord: edge_instructions.draw_cord,
    steps.Hold: held_instructions.hold,
    steps.Resume: held_instructions.resume,
    edge_steps.TakeOff: put_by_instructions.take_off,
    edge_steps.CloseUp: put_by_instructions.close_up,
    steps.Increase: _increase,
    steps.Attend: hand_instructions.attend,
    set_up_steps.SetCarriage: set_up_instructions.set_carriage,
    set_up_steps.HangWeights: held_instructions.hang_weights,
    set_up_steps.TakeWeightsOff: set_up_instructions.weights_off,
    set_up_steps.Couple: set_up_instructions.couple,
    set_up_steps.Uncouple: set_up_instructions.uncouple,
    set_up_steps.CutEnd: set_up_instructions.cut_end,
    rib_steps.Latch: rib_instructions.latch,
    rib_steps.RaiseSecond: rib_instructions.raise_second,
    rib_steps.LowerSecond: rib_instructions.lower_second,
    rib_steps.Rack: rib_instructions.rack,
    rib_steps.BringSecond: rib_instructions.bring_second,
    rib_steps.Zigzag: rib_instructions.zigzag,
    rib_steps.KnitBeds: rib_instructions.knit_beds,
    rib_steps.Across: rib_instructions.across,
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
        item_texts = []
        for n, each in enumerate(group, 1):
            anchor = StepAnchor(prefix, number + n)
            item_texts.append(notes.at_step(each, _item(each, anchor, where, diagrams), counter))
            counter = max(counter, shown(each)) if notes.notes else 0  # only they ask for it
        start = f' start="{number + 1}"' if number else ""
        listed = (f'<ol class="wb-steps"{start}{run}>\n'
                  f'{"".join(item_texts)}</ol>\n\n')
        out.append(part(title, f"{prefix}-part-{place}")
                   + notes.at_section(every[place - 1], listed, every, place - 1))
        number += len(item_texts)
    return share_drawn("".join(out), prefix) + bench.chart_data(f"{prefix}-rows")


def _name(work: Work) -> str:
    return work.plan.band.title if isinstance(work, Strip) else work.piece.title


def _item(step: Moment | ShapingBlock, anchor: StepAnchor, where: str, diagrams: Diagrams) -> str:
    if isinstance(step, ShapingBlock):
        return _shaping(step, anchor, where, diagrams.after_shaping(step, anchor), diagrams.work)
    if isinstance(step, Goes | ChartedRows):
        diagrams.passed(step.after)
        return goes_text(step, anchor) if isinstance(step, Goes) else \
            charted_rows_text(step, anchor)
    return _step(step, anchor, diagrams)


def _shaping(block: ShapingBlock, anchor: StepAnchor, where: str, figure: str, work: Work) -> str:
    text, more = block_text(block, where)
    text += named_marks(work, (event.counter for event in block.events if any(
        act.done is Done.MARK for act in event.acts)))
    if block.before:
        text = f"{words_of(block.before).text} {text}"
    return (f'<li id="{anchor}"><p>{text}</p>{more}{figure}'
            f"{checkpoint(block.events[-1].after)}</li>\n")


def _step(m: Moment, anchor: StepAnchor, diagrams: Diagrams) -> str:
    instruction = words_of(m)
    how = ""
    if instruction.how:
        # a page beside that folder
        page = (TECHNIQUES + instruction.how[0]).replace("techniques/../", "")
        how = f" {link(page, esc(instruction.how[1].capitalize()), 'wb-how')}"
    text, after = instruction.text, f"<p>{instruction.after}{how}</p>"
    if not instruction.places:
        text, after = " ".join(filter(None, (instruction.text, instruction.after))) + how, ""
    check = checkpoint(m.after, where=not _is_known(m)) if instruction.check else ""
    return (f'<li id="{anchor}"><p>{text}</p>{items(instruction.places, "wb-holes")}{after}'
            f"{diagrams.after(m, instruction, anchor)}{check}</li>\n")


def _is_known(m: Moment) -> bool:
    """True where the stitches lie over all needles of a band."""
    return m.is_band and m.after.loaded.stretch == m.strip.layout.needles.stretch


def words_of(m: Moment) -> Instruction:
    """Return the instruction at a moment, before it is laid out as a numbered step."""
    if isinstance(m, Together):
        return as_one([words_of(each) for each in m.parts])
    return INSTRUCTIONS[type(m.steps[0])](m, m.steps[0])
