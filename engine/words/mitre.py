"""Words for the mitre of a band: a stitch at each side of the point of a V goes, or comes again."""

from __future__ import annotations

from ..machine import steps
from ..machine.needles import Needle, Needles
from ..machine.prongs import IN_GOES
from ..machine.reasons import Reason
from .instruction import Instruction, Moment
from .words import needles_said, stitches

OFF = "<b>Take all weights off.</b> Keep your feet clear."
ON = "Hang the weights on again, evenly."
PAGE = ("../bands/one-piece.html#mitre", "about the mitre")


def is_mitre(step: steps.Step) -> bool:
    """True for a step of a mitre's pair, all of which are told as one."""
    return step.reason is Reason.FOR_MITRE


def told_pair(m: Moment) -> Instruction:
    """A pair that goes, or one that comes again."""
    moved = [s for s in m.steps if isinstance(s, steps.Transfer)]
    left, right = moved
    first = not any(is_mitre(s) for s in m.earlier)
    how = PAGE if first else None
    if any(isinstance(s, steps.Increase) for s in m.steps):
        return _comes(m, left.needles, right.needles)
    corner = left.needles.last.place + 1
    at = next(n for a, b in m.after.loaded.spans() for n in (a, b) if a.place <= corner <= b.place)
    middle = type(at)(corner)
    gone = len(left.needles), len(right.needles)
    return Instruction(
        text=f"{OFF} <b>Close in the mitre by a pair.</b> {_with_what(max(gone), middle)}, move "
             f"all {stitches(gone[0])} at its left ({needles_said(left.needles)}) one needle to "
             f"the right, and all {stitches(gone[1])} at its right ({needles_said(right.needles)}) "
             f"one needle to the left. {middle} then holds three loops, which the next row knits "
             f"as one. Push the emptied needle at either end back to non-working position. {ON}",
        how=how, check=True, diagram=first)


def _with_what(most: int, middle: Needle) -> str:
    """The garter bar for a long row of stitches; a short one goes on the transfer tool."""
    if most > IN_GOES:
        return ("With the garter bar, or three at a time with a transfer tool beginning beside "
                f"{middle}")
    return f"With the transfer tool, beginning beside {middle}"


def _comes(m: Moment, left: Needles, right: Needles) -> Instruction:
    (brought,) = [s for s in m.steps if isinstance(s, steps.Bring)]
    (fresh,) = [s for s in m.steps if isinstance(s, steps.Increase)]
    return Instruction(
        text=f"{OFF} <b>Open out the mitre by a pair.</b> Bring {needles_said(brought.needles)} to "
             f"working position. Beginning at the ends, move all {stitches(len(left))} at the left "
             f"of the point ({needles_said(left)}) one needle to the left, and all "
             f"{stitches(len(right))} at its right ({needles_said(right)}) one needle to the "
             f"right. Give each of the needles left empty, {needles_said(fresh.needles)}, a loop "
             f"from the stitch beside it. {ON}", check=True)
