"""Words for the foot of a slit: what is bound off there, or its one stitch drawn through."""

from __future__ import annotations

from ..catalogue.methods import STITCH_OVER
from ..machine import edge_steps
from ..markup.html import esc
from .instruction import Instruction, Moment
from .lengths import to_cut
from .reasons import reason_said
from .words import needles_said, stitches


def bind_off_foot(m: Moment, step: edge_steps.BindOff) -> Instruction:
    """Stitch over stitch; one stitch alone goes over no other (common practice, no source)."""
    spare = to_cut(len(step.needles), m.pattern.bed.pitch, int(STITCH_OVER.yarn), tails=2)
    if len(step.needles) == 1:
        return Instruction(
            text=f"<b>Take off the {stitches(1)} at the centre,</b> {needles_said(step.needles)}: "
                 f"draw a spare end of {esc(step.yarn)} about {spare} long through it, and fasten "
                 f"off both of its ends: {reason_said(step)}. Push the empty needle back to "
                 "non-working position.", check=True)
    return Instruction(
        text=f"<b>Bind off the {stitches(len(step.needles))} at the centre,</b> "
             f"{needles_said(step.needles)}, with a spare end of {esc(step.yarn)} about {spare} "
             f"long, {esc(step.method)}, and fasten off both of its ends: {reason_said(step)}. "
             "Push the empty needles back to non-working position.", check=True)
