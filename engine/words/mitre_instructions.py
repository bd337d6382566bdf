"""Words for the mitre of a band: a stitch at each side of every corner goes, or comes."""

from __future__ import annotations

from ..core.counts import DOWN, whole
from ..machine import steps
from ..machine.needles import Needle, Needles, between
from ..machine.prongs import IN_GOES
from ..machine.reasons import Reason
from ..plan.band import BandPlan
from .explained import CLEAR
from .instruction import Instruction, Moment
from .words import counted, from_to, joined, needles_text, stitches

OFF = f"{CLEAR} <b>Take all weights off.</b>"
ON = "<em>Hang the weights on again,</em> evenly."
INCREASE = ("increase.html#steps-fashioned", "how to increase")
PAGE = ("../bands/one-piece.html#mitre", "about the mitre")


def is_mitre(step: steps.Step) -> bool:
    """True for a step of a mitre's pair, all of which are told as one."""
    return step.reason is Reason.FOR_MITRE


def pair_instruction(m: Moment) -> Instruction:
    """A pair that goes at every corner, or one that comes."""
    moved = [s for s in m.steps if isinstance(s, steps.Transfer)]
    if len(moved) != 2:
        return _corners_instruction(m, moved)
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
             f"all {stitches(gone[0])} at its left ({needles_text(left.needles)}) one needle to "
             f"the right, and all {stitches(gone[1])} at its right ({needles_text(right.needles)}) "
             f"one needle to the left. {middle} then holds three loops. Bring it fully forward, "
             "its latch open: the next row knits them as one. Push the emptied needle at either "
             f"end back to non-working position. {ON}",
        how=how, check=True, diagram=first)


def _corners_instruction(m: Moment, moved: list[steps.Transfer]) -> Instruction:
    """The stretches between several corners, and the corners' own stitches, one by one."""
    plan = m.strip.plan.mitre
    assert plan is not None
    first = not any(is_mitre(s) for s in m.earlier)
    fresh = [s for s in m.steps if isinstance(s, steps.Increase)]
    what = "Open out" if fresh else "Close in"
    new = m.after.loaded - m.before.loaded if m.before else m.after.loaded
    brought = f" Bring {needles_text(new)} to working position." if fresh else ""
    then = (_filled(fresh[0].needles) if fresh else
            f"{needles_text(m.after.doubled)} then hold three loops each. Bring them fully "
            "forward, latches open: the next row knits each three as one. Push the "
            "emptied needles at either end back to non-working position.")
    how = ("With the garter bar, or three at a time with a transfer tool, beginning at the side to "
           "which they go") if first else "In the same way"
    return Instruction(
        text=f"{OFF} <b>{what} the mitre by a pair at each of its {len(plan.turns.corners)} "
             f"corners.</b>{brought} {how}, move in this order:",
        places=tuple(_move(s) for s in moved), after=f"{then} {ON}",
        how=PAGE if first else INCREASE if fresh else None, check=True, diagram=first)


def rest_text(plan: BandPlan) -> str:
    """That a mitre takes less than its turn asks for: at the head, as it is no act."""
    return _taken(plan) and f" {_taken(plan)} The fabric gives the rest."


def pinned(plan: BandPlan) -> str:
    """What becomes of a turn that a mitre leaves to the fabric, once the band is closed: common
    practice, no source."""
    if not _taken(plan):
        return ""
    return (" Pin the point flat, damp it and let it dry. If it stands up, lay it there in a flat "
            "fold and sew the fold down inside, with a spare end of the band's yarn." if
            plan.edge_path.corner else
            " Pin every corner square, damp it and let it dry.")


def _taken(plan: BandPlan) -> str:
    """How many of the pairs that its turn asks for a mitre takes; nothing where it takes all."""
    if plan.mitre is None:
        return ""
    depth = plan.depth.value * plan.gauge.row * plan.mitre.turns.steep.value / plan.gauge.stitch
    pairs, whole_turn = plan.mitre.pairs.value, whole(depth, DOWN)
    if whole_turn == pairs:
        return ""
    return f"In all the mitre takes {pairs} of the {whole_turn} whole pairs that the turn asks for."


def _filled(empty: Needles) -> str:
    """From where the needles beside a corner take their loops: as of any fully fashioned increase
    ("Fully fashioned", techniques/increase.md), and not two from the corner's one stitch."""
    # Empty needles lie in pairs, one on either side of a corner.
    away = joined([Needle(place + (1 if n % 2 else -1)).name for n, place in enumerate(
        needle.place for needle in empty)])
    return (f"Fill each of the needles left empty, {needles_text(empty)}, with the loop "
            f"just below the stitch beside it, away from the corner ({away}).")


def _move(step: steps.Transfer) -> str:
    side = "right" if step.by > 0 else "left"
    return (f"<b>{from_to(step.needles)}</b> ({stitches(len(step.needles))}): "
            f"{counted(abs(step.by), 'needle')} to the {side}")


def _with_what(most: int, middle: Needle) -> str:
    """The garter bar for a long row of stitches; a short one goes on the transfer tool."""
    if most > IN_GOES:
        return ("With the garter bar, or three at a time with a transfer tool beginning beside "
                f"{middle}")
    return f"With the transfer tool, beginning beside {middle}"


def _out(most: int) -> str:
    """With what stitches move apart: the outermost first, onto needles that are empty."""
    if most > IN_GOES:
        return ("With the garter bar, or three at a time with a transfer tool, beginning at the "
                "ends")
    return "With the transfer tool, beginning at the ends"


def _comes(m: Moment, left: Needles, right: Needles) -> Instruction:
    (brought,) = [s for s in m.steps if isinstance(s, steps.Bring)]
    (fresh,) = [s for s in m.steps if isinstance(s, steps.Increase)]
    point = "the point" if m.strip.plan.edge_path.corner else \
        f"the corner's stitch on {(between(left.last, right.first) - left - right).first}"
    return Instruction(
        text=f"{OFF} <b>Open out the mitre by a pair.</b> Bring {needles_text(brought.needles)} to "
             f"working position. {_out(max(len(left), len(right)))}, move all "
             f"{stitches(len(left))} at the left "
             f"of {point} ({needles_text(left)}) one needle to the left, and all "
             f"{stitches(len(right))} at its right ({needles_text(right)}) one needle to the "
             f"right. {_filled(fresh.needles)} {ON}", how=INCREASE, check=True)
