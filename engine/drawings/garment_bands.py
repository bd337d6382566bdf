"""Bands at the fronts with their buttons or their zip, bands of armholes, pockets, plackets."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.bands import KINDS
from ..plan.band import BandPlan
from ..plan.band_order import FRONT_EDGES
from .garment_conventions import BAND_HAIRS, CLOSEST
from .garment_neck import depth_of
from .garment_pen import Disc, Mark, Node, Shape, hundredths

FILLED = "wb-fill wb-outline"


def front_bands(plans: tuple[BandPlan, ...]) -> dict[str, tuple[Mark, ...]]:
    """Return the front bands closed, by the band's key: they lap over the middle, or meet there."""
    return {plan.band.key: _front_band(plan) for plan in plans
            if plan.band.garment_edge in FRONT_EDGES and KINDS[plan.band.kind].stands}


def _front_band(plan: BandPlan) -> tuple[Mark, ...]:
    deep, top = depth_of(plan), hundredths(plan.run.length)
    if plan.band.zip:
        return _zipped(deep, top)
    half = deep // 2
    ring = (Node(-half, 0), Node(half, 0), Node(half, top), Node(-half, top))
    return (Shape(FILLED, (ring,), closed=True), *_hairs(plan, half, 0, top),
            *buttons(plan, 0, top))


def _zipped(deep: int, top: int) -> tuple[Mark, ...]:
    """Two bands that meet at a zip, its teeth between them."""
    rings = tuple((Node(0, 0), Node(side * deep, 0), Node(side * deep, top), Node(0, top))
                  for side in (-1, 1))
    return Shape(FILLED, rings, closed=True), Shape("wb-outline wb-teeth",
                                                    ((Node(0, 0), Node(0, top)),))


def _hairs(plan: BandPlan, half: int, low: int, top: int) -> tuple[Mark, ...]:
    """Hairlines across an upright band, for every fourth of its stitches."""
    step = hundredths(BAND_HAIRS * plan.gauge.stitch)
    while step < CLOSEST:
        step *= 2
    lines = tuple((Node(-half, y), Node(-half * 3 // 5, y)) for y in range(low + step, top, step))
    return (Shape("wb-texture", lines),) if lines else ()


def buttons(plan: BandPlan, low: int, top: int) -> tuple[Mark, ...]:
    """The buttons over the middles of the planned holes, along a band that lies from low to top.

    A stitch of the band is as long there as its share of the edge it is sewn to.
    """
    placing, asked = plan.placing, plan.band.buttonholes
    if placing is None or asked is None:
        return ()
    radius = hundredths(asked.button.mm) // 2
    places = (Fraction(2 * (start - 1) + placing.hole, 2 * placing.stitches)
              for start in placing.starts)
    return tuple(Disc("wb-button", Node(0, low + (top - low) * p.numerator // p.denominator),
                      radius) for p in places)
