"""Words for the steps of ribs: columns latched up, the second bed, rows over both beds."""

from __future__ import annotations

from ..machine import rib_steps, steps
from ..machine.needles import Needle
from ..machine.reasons import Reason
from ..machine.rib_steps import Beds
from ..machine.steps import Side
from ..markup.html import link
from ..pattern.rib_specs import RibEnds
from ..plan.band_order import AROUND, FRONT_EDGES
from ..proof.proof import KnittedPiece
from ..shape.piece import FRONTS
from ..shape.ribs import Rib, inside_edges
from .filled import under_neighbour
from .instruction import Instruction, Moment
from .needle_marks import Mark
from .reason_phrases import reason_text
from .terms.yarn_names import yarn_name
from .words import counted, stitches, upto_text, which

_LATCHED = "../../bands/latched-rib.html#steps"


def latch(m: Moment, step: rib_steps.Latch) -> Instruction:
    """Columns dropped and latched up again."""
    stop = m.after.counter - step.rows
    columns = counted(len(step.needles), "column")
    return Instruction(
        text=f"<b>Latch up {columns},</b> of {which(step.needles)}, one after the other. "
             "For each: put the latch tool, from your side, into the column's stitch of "
             f"row {stop}, drop the stitch off the needle and let it run down to the tool. "
             f"Latch it up again, bar by bar, {step.rows} in all, and hang the last stitch on its "
             f"needle.{_beside_bands(m)} {link(_LATCHED, 'How to latch a column', 'wb-how')}",
        check=True, diagram=True, chosen=step.needles, mark=Mark.LATCHED)


def _beside_bands(m: Moment) -> str:
    """That the ribs of two fronts are no mirror images beside their bands, at the left front, which
    is the second; "" where they are, or no band lies there. A front's own edge is at the right of
    the bed there, at the left of the right front: its purl side faces the knitter (geometry)."""
    piece = m.work.piece if isinstance(m.work, KnittedPiece) else None
    band = next((b for b in m.pattern.bands.values() if b.garment_edge in (*FRONT_EDGES, AROUND)),
                None)
    if not (band and piece and FRONTS.get(piece.key) is Side.LEFT and isinstance(piece.hem, Rib)):
        return ""
    above, rib = len(piece.needles), piece.hem
    right, left = inside_edges(above, rib, band.stitches_in)
    runs_on = (rib.across(above) - 2) % len(rib.works) == 0  # a seam has one at either side
    if left == right or rib.ends is not RibEnds.RUN_ON or not runs_on:
        return ""
    kinds = {True: "plain", False: "latched"}
    return (f" Beside its band this front begins with a {kinds[left]} column, the right front with "
            f"a {kinds[right]} one. So the rib runs on over both side seams.")


def fill(m: Moment, step: steps.Increase) -> Instruction:
    """The rib's empty needles into work, each with a loop from beside."""
    held = (m.before.loaded if m.before else m.after.loaded) - step.needles
    return Instruction(
        text=f"<b>Fill the empty needles:</b> bring {which(step.needles)} to working position. "
             f"With the transfer tool, lift onto each {under_neighbour(step.needles, held)}. "
             f"{counted(len(step.needles), 'needle')}; none between the two ends stays empty.",
        check=True)


def raise_second(m: Moment, step: rib_steps.RaiseSecond) -> Instruction:
    """The second bed up."""
    return Instruction(text="<b>Set the second bed up,</b> facing the main bed, with all its "
                     f"needles in non-working position. {pitch_text(0)}.",
                       how=("../bands/two-bed-rib.html", "about ribs on two beds"))


def lower_second(m: Moment, step: rib_steps.LowerSecond) -> Instruction:
    """The second bed down."""
    return Instruction(text="Push the second bed's carriage to the "
                     f"{m.after.side.value}, clear of the work. <em>Support the work</em> with "
                     "your hand. <b>Let the second bed down.</b>", check=True)


def rack(m: Moment, step: rib_steps.Rack) -> Instruction:
    """The second bed sideways."""
    why = f" {reason}" if (reason := reason_text(step)) else ""
    return Instruction(text=f"<b>Rack the second bed</b>{why}. {pitch_text(step.halves)}.")


def bring_main(m: Moment, step: steps.Bring) -> Instruction:
    """Needles of the main bed, while the second faces it."""
    return Instruction(text=f"<b>On the main bed bring {which(step.needles)}</b> to "
                     f"{step.position.value} position: {counted(len(step.needles), 'needle')}.")


def bring_second(m: Moment, step: rib_steps.BringSecond) -> Instruction:
    """Needles of the second bed."""
    return Instruction(text=f"<b>On the second bed bring {which(step.needles)}</b> to "
                     f"{step.position.value} position: {counted(len(step.needles), 'needle')}.",
                       diagram=True)


def zigzag(m: Moment, step: rib_steps.Zigzag) -> Instruction:
    """The first row, over both beds by turns."""
    loops = len(m.after.loaded) + (len(m.after.second.loaded) if m.after.second else 0)
    return Instruction(text=f"<b>Cast on with one zigzag row</b> of {yarn_name(step.yarn)} over "
                     "both beds. Hold the end of the yarn below the beds while the carriage goes "
                     "across. Every needle in work takes up a loop, of the two beds by turns: "
                     f"{loops} loops.", check=True)


def knit_beds(m: Moment, step: rib_steps.KnitBeds) -> Instruction:
    """Rows over both beds or one."""
    why = f" {reason}" if (reason := reason_text(step)) else ""
    other = {Beds.MAIN: Beds.SECOND, Beds.SECOND: Beds.MAIN}.get(step.beds)
    where = " over both beds" if other is None else f" with {step.beds.value} alone"
    return Instruction(text=f"<b>Knit {counted(step.rows, 'row')}{where}</b>{why}"
                     f"{upto_text(m.after.counter)}.",
                       check=other is None)


def across(m: Moment, step: rib_steps.Across) -> Instruction:
    """Stitches straight across to the other bed."""
    from_bed = Beds.SECOND if step.to is Beds.MAIN else Beds.MAIN
    doubled = bool(m.after.doubled)
    onto = ". It has a stitch already: both lie on one needle, and are knitted as one." \
        if doubled else "; bring that needle to working position first, latch open."
    every = "all " if step.reason is Reason.ALL_OF_THEM else ""
    more = bool(m.later) and isinstance(m.later[0], rib_steps.Across)
    why = "" if every else f", {reason_text(step)}"
    return Instruction(
        text=f"<b>Move {every}{stitches(len(step.needles))} of {from_bed.value} straight "
             f"across</b>, on {which(step.needles)}, with the transfer tool{why}: each "
             f"onto the needle of {step.to.value} that it faces{onto} Push the "
             "emptied needles back to non-working position.",
        check=not more, diagram=not every and not more)


def pitch_text(rack: int) -> str:
    """How the second bed lies: "Full pitch: its R1 faces R1 of the main bed"."""
    at = Needle(rack // 2)
    if rack % 2 == 0:
        return f"Full pitch: its R1 faces {at} of the main bed"
    return f"Half pitch: its R1 lies between {at} and {Needle(at.place + 1)} of the main bed"
