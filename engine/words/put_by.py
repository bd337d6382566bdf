"""Words for stitches that are put on waste yarn, where they wait, or drawn up."""

from __future__ import annotations

from ..machine import edge_steps, rib_steps, steps
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..machine.trace import State
from ..markup.html import esc
from ..program.waiting import strips_of
from ..proof.proof import KnittedPiece
from .instruction import Instruction, Moment
from .row_instructions import spans_text
from .words import counted, needles_text, stitches


def take_off(m: Moment, step: edge_steps.TakeOff) -> Instruction:
    """Stitches onto waste yarn, where they wait, or drawn up."""
    some = f"{stitches(len(step.needles))} ({spans_text(step.needles)})"
    name, seams = esc(step.edge), in_seams(m, step)
    if step.reason is Reason.DRAWN_UP:
        side = m.after.side
        return Instruction(
            text=f"<b>Draw the yarn's end through all {some}</b> with a blunt sewing needle, from "
            f"the {side.value}, where it hangs, to the {side.other.value}. Take the stitches off "
            "the needles, and draw them up loosely.",
            check=True,
        )
    if step.by_needle:
        return Instruction(text=f"<b>Put {some} on waste yarn:</b> draw waste yarn, about twice "
                         "as long as they are wide, through them with a blunt sewing needle. Take "
                         "them off the needles. Tie the two ends of the waste yarn together in a "
                         "bow. "
                         f"Label them “{name}”.{seams}", check=True)
    goes_on = bool(m.after.loaded) or any(isinstance(later, steps.Knit) for later in m.later)
    rest = (f" The held needles ({spans_text(m.after.holding)}) stay in holding position."
            if m.after.holding else "")
    to, passes = "", ""
    if goes_on:
        to = f" to the {_beyond(m.after, step)}"
        passes = f" The row counter counts the {counted(step.rows, 'row')} and this pass too."
    return Instruction(text=f"<b>Knit {some} off on waste yarn:</b> thread waste yarn and knit "
                     f"{counted(step.rows, 'row')} over them{' alone' * bool(m.after.loaded)}. "
                     "<em>Keep your feet clear,</em> and take the weights off them. Cut the waste "
                     f"yarn and take it out of the feeder.{rest} "
                     f"Take the carriage across{to} without yarn: the stitches drop off.{passes} "
                     f"Label them “{name}”.{seams}", check=goes_on)


def _beyond(bed: State, off: edge_steps.TakeOff) -> str:
    """The side to which the pass goes, and the last needle that it passes where some stay held."""
    if not bed.loaded:
        return bed.side.value
    passed = bed.loaded | off.needles
    return f"{bed.side.value} of {passed.first if bed.side is Side.LEFT else passed.last}"


_CLOSED = "closing-up-a-crown.html", "how to close up a crown"
_SPREAD = "evenly-in-one-row.html", "how to spread stitches evenly"
FILL = "evenly-in-one-row.html#fill", "how to fill needles above a rib"
WASTE_OUT = "Count the stitches, then draw the waste yarn out if you used it."


def close_up(m: Moment, step: edge_steps.CloseUp) -> Instruction:
    """All stitches off and on again, closer together, or further apart above a rib."""
    idle = len(step.needles - step.onto)
    emptied = (f" Push the emptied needle{'s' * (idle > 1)} back to non-working position."
               if idle else "")
    above_rib = step.reason is Reason.ABOVE_RIB
    clear, more = (_clear_of(m, step), f"{_pairs(m)}{_brought(m, step)}") if above_rib else ("", "")
    waste = f" {WASTE_OUT}" if above_rib and not step.empty else ""
    return Instruction(
        text=f"{clear}<b>Take all {len(step.needles)} stitches off</b>, on the garter bar or on a "
             f"length of waste yarn drawn through them with a blunt sewing needle.{more} "
             f"{_left_empty(step)}<b>Hang them again</b> in their order, side by side, on needles "
             f"{needles_text(step.onto)}: {_two_on(step)}.{emptied}{waste}",
        how=_SPREAD if above_rib else _CLOSED, check=True, diagram=True)


def _clear_of(m: Moment, step: edge_steps.CloseUp) -> str:
    """That the carriage goes out of the way of the bar, and of needles beyond the rib. Pushed away
    from the work it knits nothing."""
    side, reach = m.after.side, step.needles | step.onto
    far = reach.first if side is Side.LEFT else reach.last
    whose = "the main bed's" if m.earlier_of(rib_steps.LowerSecond) else "the"
    return (f"Push {whose} carriage further out to the {side.value}, clear of {far} and of the "
            f"bar; it stays on the {side.value}. <em>Support the work with one hand.</em> ")


def _brought(m: Moment, step: edge_steps.CloseUp) -> str:
    """That needles beyond the rib come into work, once the bar has taken the stitches."""
    assert m.before is not None
    more = step.onto - m.before.working
    return f" Bring {needles_text(more)} to working position too." if more else ""


def _pairs(m: Moment) -> str:
    """What stays together on its way."""
    assert m.before is not None
    return (" The two loops of a needle, a knit and a purl one, are one stitch: draw the waste "
            "yarn through both, and hang both on one needle." if m.before.doubled else "")


def _left_empty(step: edge_steps.CloseUp) -> str:
    """Which needles get no stitch, before the others are hung."""
    return (f"These needles stay empty, in working position, for the next step: "
            f"{needles_text(step.empty)}. ") if step.empty else ""


def _two_on(step: edge_steps.CloseUp) -> str:
    """Which needles take two stitches: all, all but a few, or those that are named; or none."""
    if step.empty:
        return "one on each of the others"
    if not (alone := step.onto - step.doubled):
        return "two on each"
    if len(alone) == 1:
        return f"two on each, but one on {needles_text(alone)}"
    return f"one on each, but two on each of {needles_text(step.doubled)}"


def in_seams(m: Moment, step: edge_steps.TakeOff) -> str:
    """What is said of the outermost of the stitches, where they lie in seams.

    They are hung, or sewn off, with the others: nothing else would hold them once the waste yarn
    is out (common practice, no source).
    """
    if not isinstance(m.work, KnittedPiece):
        return ""
    piece = m.work.piece
    name = next((n for n in piece.in_seams if step.edge in strips_of(piece, n)), None)
    if name is None:
        return ""
    if step.edge != name:
        return (" The outermost stitch will lie in a seam. Hang it, or sew it off, with the other "
                "stitches.")
    return (" The first and the last stitch will lie in seams. Hang them, or sew them off, with "
            "the other stitches.")
