"""Words for a casing: its openings, the ends that stay open, and what goes through it."""

from __future__ import annotations

from collections.abc import Iterator

from ..core.units import Length, length_cm
from ..machine import steps
from ..machine.steps import Side
from ..markup.html import esc, link
from ..plan.band import BandPlan, depth_mm
from ..plan.casings import widest_elastic
from ..proof.yarn_ends import eyelet_end
from .cut_lengths import to_sew
from .instruction import Instruction, Moment
from .words import counted

CAUTIONS = link("../../cautions.html#cords", "Cautions on cords")


def choose_eyelets(m: Moment, step: steps.Attend) -> Instruction:
    """The needles where the cord comes out."""
    spans = [f"{a} and {b}" for a, b in step.needles.spans()]
    if m.strip.layout.hem is Side.RIGHT:
        spans = spans[::-1]
    return Instruction(
        text=f"<b>Here the cord comes out,</b> at {counted(len(spans), 'eyelet')} of this outer "
             "layer. Each takes two needles:",
        places=tuple(f"Eyelet {n}: <b>{span}</b>" for n, span in enumerate(spans, 1)),
        after="The inner layer has none.", diagram=True, chosen=step.needles)


def overcast_eyelets(m: Moment, step: steps.Attend) -> Instruction:
    """An eyelet's edge, against the cord's rubbing."""
    return Instruction(text="<b>Overcast every eyelet,</b> each with about "
                     f"{to_sew(eyelet_end(m.strip.plan))} of split main yarn, through the outer "
                     "layer alone, for the cord rubs there. The channel behind it stays open.")


def leave_ends(m: Moment, step: steps.Attend) -> Instruction:
    """The short ends of a casing without other openings."""
    casing = m.strip.plan.casing
    if casing.free:
        what = "the cord comes out there. Overcast the edge of each layer by itself." \
            if casing.cord else "the elastic is drawn in there."
        return Instruction(text=f"<b>Leave the band's short ends open:</b> {what}")
    layers = "Where they meet in a seam, sew them to each other layer by layer, so that the " \
        "channel runs on"
    apart = "" if casing.openings else "; leave that seam of the inner layer open for now"
    return Instruction(text=f"<b>Leave the band's short ends open.</b> {layers}{apart}.")


def casing_title(plan: BandPlan) -> str:
    """The heading of what goes through a casing."""
    return f"{plan.band.title}, {'cord' if plan.band.cord else 'elastic'}"


def to_draw_in(plan: BandPlan) -> str:
    """The entry of the materials: a cord or elastic, with its width."""
    name = esc(plan.band.title)
    if plan.band.cord and plan.casing.cord:
        return (f"<strong>Cord for the {name.lower()}:</strong> "
                f"{length_cm(plan.casing.cord.value)}, {plan.band.cord.width.in_mm()} wide; a "
                "bodkin")
    return (f"<strong>Elastic for the {name.lower()}:</strong> at most "
            f"{_widest(plan).in_mm()} wide; a bodkin")


def _widest(plan: BandPlan) -> Length:
    return widest_elastic(depth_mm(plan))


def cord_steps(plan: BandPlan, *, child: bool) -> Iterator[str]:
    """How a cord is cut, drawn in and sewn fast, a step each."""
    cord, length = plan.band.cord, plan.casing.cord
    assert cord is not None and length is not None
    openings = "the two slits" if plan.casing.slit else "the two eyelets"
    if not plan.casing.openings:
        openings = "its open ends" if plan.casing.free else "the open seam of the inner layer"
    if not plan.casing.free:
        yield "Sew the seams that the band's ends lie in, so that its channel is whole."
    yield (f"Cut a cord of <b>{length_cm(length.value)}</b>, {esc(cord.width.in_mm())} wide. Draw "
           f"it through the channel with a bodkin, in and out at {openings}: each end hangs out "
           f"{esc(str(cord.ties))} when the garment lies at its full width.")
    flat = (" No knots, bobbles or toggles on its ends: finish them flat." if child else
            " Finish its ends so that they do not fray.")
    yield ("Sew the cord fast through all layers half-way round, so that it cannot be drawn out."
           f"{flat} {CAUTIONS}.")


def elastic_steps(plan: BandPlan) -> Iterator[str]:
    """How elastic is drawn in and sewn together, a step each."""
    yield (f"Take elastic at most <b>{esc(_widest(plan).in_mm())}</b> wide, 6 mm less than the "
           "channel is deep. Try it round the body to find the length that sits well.")
    if plan.casing.free:
        yield ("Draw it through with a bodkin. At either end of the band, sew it fast through all "
               "layers. Then sew the band's ends shut over it.")
        return
    yield ("Sew the seam that the band's ends lie in, but leave it open in the inner layer. Draw "
           "the elastic through with a bodkin. Sew its ends flat on each other, and let them slip "
           "in.")
    yield "Close the gap of the inner layer. Nothing may hang out of the channel."
