"""Making up: the order of work after knitting, with the figures that both sides of a seam have."""

from __future__ import annotations

from collections.abc import Iterable

from ..machine.programs import Program
from ..machine.steps import Attend
from ..markup.html import block, esc, heading, items, link, shown_once
from ..shape.garment import Garment
from ..shape.tasks import TaskKind
from ..words.joins import join_said, shoulders_worn
from ..words.making_up import Instruction, instructions
from ..words.page_headings import MAKING_UP


def making_up(garment: Garment, programs: Iterable[Program] = ()) -> str:
    """Return the section: a numbered step each, its joins with what either side has.

    What the `programs` of the pieces tie into edges is taken out at the end.
    """
    marked = any(isinstance(step, Attend) and step.to == "mark edges"
                 for program in programs for step in program.steps)
    told = instructions(garment.tasks, garment.joins, marked=marked)
    body = shown_once("".join(_step(n, one) for n, one in enumerate(told, 1)))
    kinds = {task.kind for task in garment.tasks}
    lie = f"<p>{shoulders_worn(garment.joins)}</p>\n" \
        if kinds & {TaskKind.SHOULDERS, TaskKind.STRAPS} else ""
    return heading(2, MAKING_UP, "making-up") + block(
        f'{lie}<ol class="wb-steps">\n{body}</ol>')


def _step(number: int, told: Instruction) -> str:
    shown = "".join(f" {link(f'../../{page}.html', label, 'wb-how')}" for page, label in told.pages)
    return (f'<li id="make-up-{number}"><p>{esc(told.text)}{shown}</p>'
            f'{items(map(join_said, told.joins), "wb-holes")}</li>\n')
