"""The fabric that a garment's hem or rib is knitted in, where it was swatched."""

from __future__ import annotations

from ..pattern.fabrics import Fabric
from ..pattern.model import HemSpec, Pattern, RibSpec


def hem_fabric(pattern: Pattern) -> Fabric | None:
    """Return the fabric of the garment's hem; None where there is no hem, or no swatch of it.

    A rib names its fabric. A hung hem is plain rows on the needles of its piece: its fabric is
    the first of the garment's yarn at the hem's dial, with the same needles in work.
    """
    garment = pattern.garment
    if garment is None or garment.hem is None:
        return None
    if isinstance(garment.hem, RibSpec):
        return pattern.fabrics.get(garment.hem.fabric)
    return next((fabric for fabric in pattern.fabrics.values()
                 if _is_of(pattern, garment.hem, fabric)), None)


def _is_of(pattern: Pattern, hem: HemSpec, fabric: Fabric) -> bool:
    """True for a fabric that is the plain rows of a hung hem."""
    assert pattern.garment is not None
    body = pattern.fabrics[pattern.garment.fabric]
    chart = pattern.stitch_charts.get(body.chart)
    if fabric.chart or (chart is not None and chart.leaves_out):
        return False
    same = body.repeat.works if body.repeat else None
    return (fabric.yarn, fabric.dial) == (body.yarn, hem.dial) and \
        (fabric.repeat.works if fabric.repeat else None) == same
