"""Words for a facing that has another count than its edge: where it is hung, and at its fold."""

from __future__ import annotations

from ..catalogue.edge_roles import EdgeRole, role_of
from ..machine import edge_steps
from ..machine.needles import Needles
from ..machine.reasons import Reason
from ..machine.steps import Increase
from ..markup.html import esc
from ..plan.band import UNSEWN, BandPlan
from .band_ends import is_closed
from .filled import neighbour_side, under_neighbour
from .instruction import NEXT, Instruction, Moment
from .mitre_instructions import INCREASE
from .put_by import FILL, WASTE_OUT
from .words import needles_text, stitches


def hang_facing(m: Moment, step: edge_steps.Hang) -> Instruction:
    """All of them, two on a needle or a needle left empty where the count changes."""
    facing = m.strip.plan.facing
    assert facing is not None
    before, last = m.strip.plan.stitches.value, m.after.working
    empty = last - step.needles
    if step.doubled:
        how = (f"two stitches on each of {needles_text(step.doubled)}, the two that lie side by "
               "side, and one on each of the others")
    else:
        how = f"one on each needle, but none on {needles_text(empty)}: the next step fills these"
    return Instruction(
        text=f"<b>Hang the {stitches(before)} again,</b> in their order, on needles "
             f"{last.first} to {last.last}: {how}. Draw the waste yarn out. The facing's fabric "
             f"has {stitches(facing.stitches.value)} along the same length.",
        check=True, diagram=True)


def left_empty(gaps: Needles) -> str:
    """Which needles stay without a stitch while an edge is hung; "" where none does."""
    return f", but leave {needles_text(gaps)} empty for the next step" if gaps else ""


def fill_gaps(m: Moment, step: Increase) -> Instruction:
    """The needles that a facing has more than stitches waited, that a held neck gets at its steps,
    or a piece more than its rib: as of any fully fashioned increase ("Fully fashioned",
    techniques/increase.md), from a neighbour that holds a stitch."""
    which = f"{'each of ' * (len(step.needles) > 1)}{needles_text(step.needles)}"
    held = (m.before.loaded if m.before else m.after.loaded) - step.needles
    reason = (f"Along the same length the facing has {stitches(len(step.needles))} more than the "
              "edge.")
    if step.reason is Reason.FOR_STEPS:
        at = "at each of them" if len(step.needles) > 1 else "there"
        reason = f"The neck has a step {at}: without a loop a hole would be left."
    elif step.reason is Reason.ABOVE_RIB:
        return _fill_above_rib(m, step.needles, held)
    return Instruction(
        text=f"<b>Fill {which}</b> with {under_neighbour(step.needles, held)}. {reason}",
        how=INCREASE, check=True)


def _fill_above_rib(m: Moment, empty: Needles, held: Needles) -> Instruction:
    """The needles that a piece has more than its rib. Where both beds' stitches lie on one needle,
    the main bed's is the one of which the knitter sees the purl bump (geometry)."""
    side, one = neighbour_side(empty, held), len(empty) == 1
    of = "it" if one else "each"
    how = (f". On the needle to the {side} of {of} find the main bed's stitch. Lift the purl "
           "bump just below this stitch onto the empty needle."
           if m.after.doubled else f"{', each' * (not one)} with {under_neighbour(empty, held)}.")
    return Instruction(
        text=f"<b>Fill {needles_text(empty)}</b>{how} The piece now has "
             f"{stitches(len(empty))} more than its rib. {WASTE_OUT}",
        how=FILL, check=True)


def unsewn(plan: BandPlan) -> int:
    """How many stitches at each end of a neck's facing wait for the shoulder that closes it: its
    ends hide stitches there, which are pulled clear first."""
    closed = is_closed(plan) and role_of(plan.band.garment_edge) is EdgeRole.NECK
    return UNSEWN if closed else 0


def ends_unsewn(plan: BandPlan) -> str:
    """When the last stitches at each end are sewn down. A paragraph begins, or a space."""
    if not (last := unsewn(plan)):
        return " "
    return (f"{NEXT}The last {last} stay on the waste yarn: sew them down when the"
            f" {esc(plan.edge_path.closes or 'seam')} is joined. ")


def end_led(plan: BandPlan) -> str:
    """Where the sewing begins, as the end hangs from a stitch that stays. A sentence before a
    space, or none."""
    if not (last := unsewn(plan)):
        return ""
    hangs = ("If the end of a part hangs from one of these, lead the end loosely behind them"
             if plan.part else "The end that was left hangs from an outermost stitch: lead this "
             f"end loosely behind the last {stitches(last)}")
    return f"{hangs}, and begin to sew at the first stitch after them. "
