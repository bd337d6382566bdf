"""Tells a strip's program as numbered steps, with checkpoints and diagrams off the bed's states."""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby
from types import MappingProxyType
from typing import Any

from .. import steps
from ..model import Pattern
from ..proof import Strip
from ..steps import Program, Step
from . import tell_edges, tell_hands, tell_rows
from .html import esc, heading, items, link
from .marks import all_alike
from .needle_svg import beside, needle_diagram
from .told import Moment, Told
from .words import check_said

TECHNIQUES = "../../techniques/"


def _by_hand(m: Moment, step: steps.HandKnit) -> Told:
    return tell_edges.knit_with_cord(m, step) if step.cord else tell_rows.knit_by_hand(m, step)


TELLS: MappingProxyType[type[Step], Callable[[Moment, Any], Told]] = MappingProxyType({
    steps.Bring: tell_rows.bring,
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
    steps.Hang: tell_edges.hang,
    steps.BindOff: tell_edges.bind_off,
    steps.DrawCord: tell_edges.draw_cord,
    steps.Hold: tell_rows.hold,
    steps.Resume: tell_rows.resume,
    steps.TakeOff: tell_rows.take_off,
    steps.Increase: tell_rows.increase,
    steps.Attend: tell_hands.attend,
})


def tell(strip: Strip, pattern: Pattern, prefix: str) -> str:
    """Return the strip's sections: a Markdown heading and an HTML list of steps each."""
    out, number, done = [], 0, 0
    every = strip.program.steps
    for place, section in enumerate(strip.program.sections, 1):
        told: list[str] = []
        for moment in _moments(strip, pattern, section, every, done):
            told.append(_step(moment, f"{prefix}-{number + len(told) + 1}"))
        out.append(heading(3, section.title, f"{prefix}-part-{place}"))
        out.append(f'<ol class="wb-steps" start="{number + 1}">\n{"".join(told)}</ol>\n\n')
        number += len(told)
        done += len(section.steps)
    return "".join(out)


def _moments(strip: Strip, pattern: Pattern, section: steps.Section, every: tuple[Step, ...],
             done: int) -> list[Moment]:
    """The section's steps, those that do the same at every hole together."""
    states, moments, at = strip.run.states, [], done
    numbered = list(enumerate(section.steps))
    for _, group in groupby(numbered, lambda n: _kind(n[1], strip.program) or n[0]):
        together = tuple(step for _, step in group)
        upto = at + len(together)
        moments.append(Moment(
            strip=strip, pattern=pattern, section=section.title, steps=together,
            states=states[at:upto], before=states[at - 1] if at else None,
            earlier=every[:at], later=every[upto:]))
        at = upto
    return moments


def _kind(step: Step, program: Program) -> str:
    """What is done alike at every hole; "" for a step that stands alone."""
    match step:
        case steps.HandKnit(cord=cord) if cord:
            return "cord"
        case steps.Hang(lean=lean) if lean is not None:
            return "upper"
        case steps.Hang(onto_empty=True):
            return "lower"
        case steps.BindOff(keep_last=True):
            return "across"
        case steps.DrawCord(edge=edge) if edge != program.first_row:
            return "draw"
    return ""


def _step(m: Moment, anchor: str) -> str:
    told = TELLS[type(m.steps[0])](m, m.steps[0])
    how = ""
    if told.how:
        how = f" {link(TECHNIQUES + told.how[0], esc(told.how[1].capitalize()), 'wb-how')}"
    after = f"<p>{told.after}</p>" if told.after else ""
    check = (f'<p class="wb-check"><b>Check:</b> {check_said(m.after)}.</p>'
             if told.check else "")
    return (f'<li id="{anchor}"><p>{told.text}{"" if told.places or told.after else how}</p>'
            f"{items(told.places, 'wb-holes')}"
            f"{after[:-4] + how + '</p>' if after else f'<p>{how}</p>' if told.places else ''}"
            f"{_diagram(m, told, anchor)}{check}</li>\n")


def _diagram(m: Moment, told: Told, anchor: str) -> str:
    if not told.diagram or all_alike(m.after, m.band, told.chosen):
        return ""
    title = f"The needles after step {anchor.rpartition('-')[2]}"
    return needle_diagram(m.after, beside(m.band, m.strip.program.bed), chosen=told.chosen,
                          prefix=anchor, title=title)
