"""Garments for the upper body: what lies over what, from the front and from behind."""

from __future__ import annotations

from collections.abc import Sequence

from .garment_bands import front_bands
from .garment_body import body_marks, body_of
from .garment_neck import far_side, neckband_marks, neckband_of
from .garment_parts import Parts
from .garment_pen import Mark
from .garment_sleeves import KEY, hung_sleeves

Groups = list[tuple[str, Sequence[Mark]]]


def upper_marks(parts: Parts, *, behind: bool) -> Groups:
    """Return what is drawn of a garment by piece and band, what lies lowest first."""
    body = body_of(parts)
    band = neckband_of(parts, body)
    groups: Groups = []
    sleeves = hung_sleeves(parts, body.back)
    if sleeves:
        groups.append((KEY, sleeves))
    if behind:
        groups += body_marks(parts, body.back, ("back",)).items()
        if band:
            groups.append((f"band {band.plan.band.key}", neckband_marks(band, behind=True)))
        return groups
    groups.append(("back", far_side(body, band)))
    keys = ("right_front", "left_front") if parts.opens else ("front",)
    groups += body_marks(parts, body.front, keys).items()
    if band:
        groups.append((f"band {band.plan.band.key}", neckband_marks(band, behind=False)))
    groups += ((f"band {key}", marks) for key, marks in front_bands(parts.plans).items())
    return groups
