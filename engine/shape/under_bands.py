"""What of an edge's sections lies within the end of another band, and cannot be hung."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.expression import Operand
from ..core.operands import Role
from ..fabric.gauge import Gauge
from .edging import Section, begins_level, shaped, straight


def beneath(section: Section, stitches: int, gauge: Gauge, band: str) -> Section:
    """Return a neck's section without the `stitches` at its front that lie within a `band`'s end.

    Only what is bound off level there lies beneath the band's top; a slope begins beside it.
    """
    if not begins_level(section):
        return section
    first, *rest = section.runs
    left = max(0, abs(first.stitches) - stitches)
    kept = (first._replace(stitches=left if first.stitches > 0 else -left),) if left else ()
    made = shaped(section.name, (*kept, *rest), gauge, section.across,
                  detail=section.detail) or section
    return replace(made, zone=section.zone, covered=abs(first.stitches) - left, within=band,
                   worn=section.worn, falls=section.falls)


def below_band(section: Section, rows: int, band: str) -> Section:
    """Return a straight side less the topmost `rows`, within a `band` hung so far from its top."""
    left = max(1, section.places - rows)
    less = Operand(Fraction(section.places - left), Role.WITHIN, band)
    made = straight(section.name, left, section.pitch, layers=section.layers,
                    stretch=section.stretch, detail=section.detail, made=section.taken - less)
    return replace(made, zone=section.zone, covered=section.places - left, within=band,
                   joins_hem=section.joins_hem, worn=section.worn)
