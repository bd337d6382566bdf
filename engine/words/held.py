"""Words for needles that are pushed to holding position, and put back."""

from __future__ import annotations

from itertools import takewhile

from ..machine import edge_steps, steps
from ..machine.reasons import Reason
from .instruction import Instruction, Moment
from .reasons import DIVIDES, reason_said
from .set_up import sets_hold, weights_back_said
from .words import needles_said

_QUARTERS = ("crown-in-quarters.html", "how to knit a crown in quarters")


def hold(m: Moment, step: steps.Hold) -> Instruction:
    """Needles to holding."""
    why = f" ({said})" if (said := reason_said(step)) else ""
    return Instruction(text=f"<b>Push needles {needles_said(step.needles)}</b> forward to "
                     f"holding position{why}.{_opening_open(m, step)}{_half_counted(m, step)}",
                       check=True,
                       how=_QUARTERS if step.reason is Reason.ALL_BUT_FIRST_QUARTER else None)


def _opening_open(m: Moment, step: steps.Hold) -> str:
    """That no yarn goes round the needle at an opening, as it does at other turns beside held
    needles: it would tie both halves together. The stitches of a centre go off before the row."""
    if step.reason is not Reason.ALL_BUT_FIRST_HALF:
        return ""
    held = step.needles
    for off in takewhile(lambda s: not isinstance(s, steps.Knit), m.later):
        if isinstance(off, edge_steps.TakeOff):
            held -= off.needles
    return (f" Do not lay the yarn round {held.last}: the opening stays open. See at each turn "
            "there that the yarn has not caught on it.")


def _half_counted(m: Moment, step: steps.Hold) -> str:
    """That the row counter counts the rows of the first part, as the bed's own does; and that the
    carriage stays as a chart's tucks have it, where this step does not set it."""
    if step.reason not in DIVIDES:
        return ""
    part, others = DIVIDES[step.reason]
    upto = next(n for n, s in enumerate(m.later)
                if isinstance(s, steps.SetCounter) and s.reason is Reason.WHERE_DIVIDED)
    last = max(n for n, s in enumerate(m.later[:upto]) if isinstance(s, steps.Knit))
    ends = m.work.run.states[m.upto + last].counter
    stays = "" if sets_hold(m.earlier[-1:]) else " The carriage stays set to hold."
    return (f"{stays} <small>The row counter counts the rows of this {part} too, up to {ends}. For "
            f"{others} it is set back to {m.after.counter}.</small>")


def resume(m: Moment, step: steps.Resume) -> Instruction:
    """Needles back from holding, to where each stitch stays behind its open latch and the
    carriage, set to hold or to knit, knits it (common practice, no source)."""
    why = f" ({said})" if (said := reason_said(step)) else ""
    return Instruction(text=f"<b>Put needles {needles_said(step.needles)}</b>{why} back in upper "
                     "working position, every latch open."
                     f"{weights_back_said(m.after)}", check=True)
