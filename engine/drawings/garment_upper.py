"""Garments for the upper body: what lies over what, from the front and from behind."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..plan.band import BandPlan
from ..plan.band_order import AROUND
from .garment_bands import ARMHOLE, armhole_band, front_bands, hem_band, pocket_marks
from .garment_body import Body, body_marks, body_of
from .garment_collars import Collar, collar_before, collar_behind, collar_of
from .garment_neck import Neckband, far_side, neckband_marks, neckband_of, takes_band_ends
from .garment_parts import DrawnParts
from .garment_pen import Groups, Line
from .garment_sleeves import KEY, hung_sleeves
from .garment_worn import shows_body, worn_marks


def upper_marks(parts: DrawnParts, *, behind: bool) -> Groups:
    """Return what is drawn of a garment by piece and band, what lies lowest first."""
    body = body_of(parts)
    sleeves = hung_sleeves(parts, body.back)
    groups: Groups = [(KEY, sleeves)] if sleeves else []
    groups += _from_behind(parts, body) if behind else _from_before(parts, body)
    return groups


def _from_behind(parts: DrawnParts, body: Body) -> Groups:
    groups: Groups = [*_edge_bands(parts, body, behind=True)]
    groups += body_marks(parts, body.back, ("back",)).items()
    band, collar = neckband_of(parts, body), collar_of(parts, body)
    if band:
        groups.append((_key(band.plan), neckband_marks(band, behind=True)))
    if collar:
        groups.append((_key(collar.plan), collar_behind(collar, body)))
    return groups


def _from_before(parts: DrawnParts, body: Body) -> Groups:
    band, collar = neckband_of(parts, body), collar_of(parts, body)
    groups: Groups = [*_edge_bands(parts, body, behind=False),
                      ("back", far_side(body, _behind(band, collar)))]
    keys = ("right_front", "left_front") if parts.opens else ("front",)
    groups += body_marks(parts, body.front, keys).items()
    for key in keys:
        groups += ((f"band {name}", marks) for name, marks in pocket_marks(parts, key, body.front))
    neck: Groups = []
    if band and band.plan.band.garment_edge != AROUND:
        neck.append((_key(band.plan), neckband_marks(band, behind=False)))
    fronts: Groups = [(f"band {name}", marks) for name, marks in front_bands(parts, body)]
    over_ends = any(takes_band_ends(plan) for plan in parts.plans)
    groups += (*neck, *fronts) if over_ends else (*fronts, *neck)
    if collar:
        groups.append((_key(collar.plan), collar_before(collar, body)))
    if shows_body(parts.pattern.garment):
        groups.append(("body", worn_marks(parts, body)))
    return groups


def _behind(band: Neckband | None, collar: Collar | None) -> Line:
    """The highest line behind the neck that is seen over its near side."""
    return band.behind_inner if band else collar.behind if collar else ()


def _edge_bands(parts: DrawnParts, body: Body, *, behind: bool) -> Groups:
    """Bands of armholes and of the lower edge."""
    half = body.back if behind else body.front
    made: Groups = []
    for plan in parts.plans:
        if not KINDS[plan.band.kind].stands:
            continue
        if plan.band.garment_edge == ARMHOLE:
            made.append((_key(plan), armhole_band(plan, half)))
        elif plan.band.garment_edge == "hem":
            made.append((_key(plan), hem_band(plan, half)))
    return made


def _key(plan: BandPlan) -> str:
    return f"band {plan.band.key}"

