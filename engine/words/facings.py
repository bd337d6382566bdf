"""Words for a facing that has another count than its edge: where it is hung, and at its fold."""

from __future__ import annotations

from ..machine import edge_steps
from ..machine.needles import Needles
from ..machine.steps import Increase
from .instruction import Instruction, Moment
from .words import needles_said, stitches


def hang_facing(m: Moment, step: edge_steps.Hang) -> Instruction:
    """All of them, two on a needle or a needle left empty where the count changes."""
    facing = m.strip.plan.facing
    assert facing is not None
    before, last = m.strip.plan.stitches.value, m.after.working
    empty = last - step.needles
    if step.doubled:
        how = (f"two stitches on each of {needles_said(step.doubled)}, the two that lie side by "
               "side, and one on every other needle")
    else:
        how = f"one on each needle, but none on {needles_said(empty)}: the next step fills these"
    return Instruction(
        text=f"<b>Hang the {stitches(before)} again,</b> in their order, on needles "
             f"{last.first} to {last.last}: {how}. Draw the waste yarn out. The facing's fabric "
             f"has {stitches(facing.stitches.value)} along the same length.",
        check=True, diagram=True)


def left_empty(gaps: Needles) -> str:
    """Which needles stay without a stitch while an edge is hung; "" where none does."""
    return f", but leave {needles_said(gaps)} empty for the next step" if gaps else ""


def fill_gaps(step: Increase) -> Instruction:
    """The needles that a facing has more than stitches waited."""
    which = f"{'each of ' * (len(step.needles) > 1)}{needles_said(step.needles)}"
    return Instruction(
        text=f"<b>Give {which} a loop</b> from the stitch beside it. Along the same length the "
             f"facing has {stitches(len(step.needles))} more than the edge.",
        check=True)
