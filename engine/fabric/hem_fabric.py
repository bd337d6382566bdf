"""The fabrics of a garment's hem or rib, and of its cuffs, where they were swatched."""

from __future__ import annotations

from ..pattern.fabrics import Fabric
from ..pattern.model import HemSpec, Pattern, RibSpec

FootSpec = HemSpec | RibSpec
SLEEVE = "sleeve"
"""The key of the piece that begins with a cuff."""


def feet_of(pattern: Pattern) -> tuple[FootSpec, ...]:
    """Return the hem or rib of a garment's pieces, and that of its sleeves where it is another."""
    return tuple(foot for foot in (hem_spec(pattern), cuff_spec(pattern)) if foot is not None)


def hem_spec(pattern: Pattern) -> FootSpec | None:
    """Return the hem or rib that pieces begin with, as in the first size; None without one."""
    return pattern.garment.hem if pattern.garment else None


def cuff_spec(pattern: Pattern) -> FootSpec | None:
    """Return the hem or rib of sleeves that have another one, as in the first size; else None."""
    return next(iter(pattern.garment.cuffs.values()), None) if pattern.garment else None


def hem_fabric(pattern: Pattern) -> Fabric | None:
    """Return the fabric of the garment's hem; None where there is no hem, or no swatch of it."""
    return foot_fabric(pattern, hem_spec(pattern))


def cuff_fabric(pattern: Pattern) -> Fabric | None:
    """Return the fabric of cuffs apart; None where there are none, or no swatch of them."""
    return foot_fabric(pattern, cuff_spec(pattern))


def foot_fabric(pattern: Pattern, foot: FootSpec | None) -> Fabric | None:
    """Return the fabric of a hem or rib of the garment, None where it was not swatched.

    A rib names its fabric. A hung hem is plain rows on the needles of its piece: its fabric is
    the first of the garment's yarn at the hem's dial, with the same needles in work.
    """
    if foot is None:
        return None
    if isinstance(foot, RibSpec):
        return pattern.fabrics.get(foot.fabric)
    return next((fabric for fabric in pattern.fabrics.values()
                 if _is_of(pattern, foot, fabric)), None)


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
