"""Words for choosing the needles of buttonholes before they are made."""

from __future__ import annotations

from ..machine import steps
from .buttonhole_text import holes_in_foot
from .instruction import Instruction, Moment
from .lengthwise_instructions import choose_one
from .words import counted, stitches


def choose_holes(m: Moment, step: steps.Attend) -> Instruction:
    """The needles of all holes of a row, or of the one that is made here."""
    if m.strip.plan.is_lengthwise:
        return choose_one(m, step)
    spans = step.needles.spans()
    size = stitches(len(step.needles) // len(spans))
    return Instruction(
        text=f"<b>Choose the needles of {_all(len(spans))}</b> of {size} "
             "before you knit the first. Bring them to upper working position:",
        places=tuple(f"Hole {n}: <b>{_span(a, b)}</b>"
                     for n, (a, b) in enumerate(_from_hem(m, spans), 1)),
        after=f"Count across from the left: {_counts_across(m, step)}. A hole moved by one needle "
              f"cannot be put right later.{holes_in_foot(m.strip.plan, m.pattern.garment)}",
        how=("buttonholes-by-hand.html#choose", "how to choose the needles"), diagram=True,
        chosen=step.needles)


def _all(number: int) -> str:
    return "both buttonholes" if number == 2 else f"all {counted(number, 'buttonhole')}"


def _span(a: object, b: object) -> str:
    return f"{a}" if a == b else f"{a} to {b}"


def _from_hem(m: Moment, spans: tuple[tuple[object, object], ...]
              ) -> tuple[tuple[object, object], ...]:
    """The holes in the order of their numbers: from the hem."""
    return spans if m.strip.layout.hem is steps.Side.LEFT else spans[::-1]


def _counts_across(m: Moment, step: steps.Attend) -> str:
    """Needles of ends, holes and gaps from left to right, as the bed has them."""
    free = [(a, b, False) for a, b in (m.after.loaded - step.needles).spans()]
    holes = [(a, b, True) for a, b in step.needles.spans()]
    return ", ".join(f"{'a hole of ' if hole else ''}{b.place - a.place + 1}"
                     for a, b, hole in sorted(free + holes))
