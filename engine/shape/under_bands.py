"""What of an edge's sections lies within the end of another band, and cannot be hung."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.edge_parts import EndedBand
from ..core.expression import Operand, Term
from ..core.operands import Role
from ..core.problems import Place
from ..fabric.gauge import Gauge
from ..words.terms.section_names import ENDED_BANDS
from .edging import Section, begins_level, shaped, straight


def beneath(section: Section, stitches: int, gauge: Gauge, band: EndedBand,
            place: Place | None = None) -> Section:
    """Return a neck's section without the `stitches` at its front that lie within a `band`'s end,
    as the source says at a `place`.

    Only what is bound off level there lies beneath the band's top; a slope begins beside it.
    """
    if not begins_level(section):
        return section
    first, *rest = section.segments
    left = max(0, abs(first.stitches) - stitches)
    wide = first.wide and Term(first.wide, Role.STITCHES) - Operand(
        Fraction(stitches), Role.INSIDE, place=place)
    kept = (first._replace(stitches=left if first.stitches > 0 else -left,
                           wide=wide),) if left else ()
    made = shaped(section.own or section.role, (*kept, *rest), gauge, section.across,
                  details=section.details, up=section.up) or section
    return replace(made, zone=section.zone, covered=abs(first.stitches) - left, within=band,
                   worn=section.worn, falls=section.falls)


def below_band(section: Section, rows: int, band: EndedBand, place: Place | None = None) -> Section:
    """Return a straight side less the topmost `rows`, within a `band` hung so far from its top, as
    the source says at a `place`."""
    left = max(1, section.places - rows)
    less = Operand(Fraction(section.places - left), Role.WITHIN, ENDED_BANDS[band],
                   place)
    made = straight(section.own or section.role, left, section.pitch, layers=section.layers,
                    stretch=section.stretch, details=section.details, made=section.taken - less)
    return replace(made, zone=section.zone, covered=section.places - left, within=band,
                   joins_hem=section.joins_hem, worn=section.worn)
