"""The section of a band: how it begins, its drawing, its steps, the table of what is hung where."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..drawings.band_drawing import band_drawing
from ..machine.steps import Side
from ..pattern.model import Pattern
from ..proof.proof import SizeProof, Strip
from ..words.band_ends import band_ends
from ..words.begins import begins_text
from ..words.strip_lead import strip_lead
from .anchors import strip_anchor
from .hanging import hanging_table
from .placed_designer_notes import notes_at
from .program import steps_html
from .sewing_on import sewing_table


def strip_body(pattern: Pattern, size: SizeProof, strip: Strip) -> str:
    """Return what stands under a band's heading."""
    prefix, notes = strip_anchor(strip), notes_at(pattern.designer_notes, size, strip)
    shown = sewing_table(strip) if strip.plan.is_lengthwise else hanging_table(strip)
    return notes.around(
        f"{strip_lead(strip, pattern.fabrics, begins_text(size, strip))}\n"
        f"{_drawing(size, strip, prefix)}"
        f"{steps_html(strip, pattern, prefix, notes)}{shown}")


def _drawing(size: SizeProof, strip: Strip, prefix: str) -> str:
    needles, hem = strip.layout.needles, strip.layout.hem
    ends = band_ends(strip.plan, strip.front)
    low, high = (ends.first, ends.last) if hem is Side.LEFT else (ends.last, ends.first)
    kind = KINDS[strip.plan.band.kind]
    if (not kind.doubled or kind.lengthwise or strip.plan.facing
            or not strip.plan.collar.is_straight
            or (size.assembled and not strip.with_holes)):
        return ""
    return band_drawing(
        strip.plan, hem=hem, with_holes=strip.with_holes, prefix=prefix, start=ends.first,
        ends=(f"{needles.first.name} ({low})", f"{needles.last.name} ({high})"))
