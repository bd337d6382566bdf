"""Words for the openings of a casing, and for the ends that stay open."""

from __future__ import annotations

from ..machine import steps
from ..machine.steps import Side
from .told import Moment, Told
from .words import counted


def choose_eyelets(m: Moment, step: steps.Attend) -> Told:
    """The needles where the cord comes out."""
    spans = [f"{a} and {b}" for a, b in step.needles.spans()]
    if m.strip.layout.hem is Side.RIGHT:
        spans = spans[::-1]
    return Told(
        text=f"<b>Here the cord comes out,</b> at {counted(len(spans), 'eyelet')} of this outer "
             "layer. Each takes two needles:",
        places=tuple(f"Eyelet {n}: <b>{span}</b>" for n, span in enumerate(spans, 1)),
        after="The inner layer has none.", diagram=True, chosen=step.needles)


def overcast_eyelets(m: Moment, step: steps.Attend) -> Told:
    """An eyelet's edge, against the cord's rubbing."""
    return Told(text="<b>Overcast every eyelet</b> in split main yarn, through the outer layer "
                     "alone, for the cord rubs there. The channel behind it stays open.")


def leave_ends(m: Moment, step: steps.Attend) -> Told:
    """The short ends of a casing without other openings."""
    casing = m.strip.plan.casing
    if casing.free:
        what = "the cord comes out there. Overcast the edge of each layer by itself." \
            if casing.cord else "the elastic is drawn in there."
        return Told(text=f"<b>Leave the band's short ends open:</b> {what}")
    layers = "Where they meet in a seam, sew them to each other layer by layer, so that the " \
        "channel runs on"
    apart = "" if casing.openings else "; of the inner layer leave that seam open for now"
    return Told(text=f"<b>Leave the band's short ends open.</b> {layers}{apart}.")
