"""The fabrics of a garment's pieces, and those of their hems, ribs and cuffs, where swatched."""

from __future__ import annotations

from collections.abc import Mapping

from ..pattern.fabrics import Fabric
from ..pattern.model import GarmentSpec, HemSpec, Pattern
from ..pattern.rib_specs import RibSpec
from ..pattern.stitch_chart import StitchChart

FootSpec = HemSpec | RibSpec
SLEEVE = "sleeve"
"""The key of the piece that begins with a cuff."""


def piece_fabric(pattern: Pattern, piece: str = "") -> Fabric:
    """Return the fabric of the piece with that key, without one the garment's own."""
    assert pattern.garment is not None
    return pattern.fabrics[pattern.garment.fabric_of(piece)]


def piece_fabrics(pattern: Pattern) -> tuple[Fabric, ...]:
    """Return every fabric of the garment's pieces, its own first; none without a garment."""
    return tuple(pattern.fabrics[key] for key in pattern.garment.fabrics) \
        if pattern.garment else ()


def feet_of(spec: GarmentSpec | None) -> tuple[FootSpec, ...]:
    """Return the hem or rib of a garment's pieces, and that of its sleeves where it is another."""
    return tuple(foot for foot in (hem_spec(spec), cuff_spec(spec)) if foot is not None)


def hem_spec(spec: GarmentSpec | None) -> FootSpec | None:
    """Return the hem or rib that pieces begin with, as in the first size; None without one."""
    return spec.hem if spec else None


def cuff_spec(spec: GarmentSpec | None) -> FootSpec | None:
    """Return the hem or rib of sleeves that have another one, as in the first size; else None."""
    return next(iter(spec.cuffs.values()), None) if spec else None


def hem_fabric(pattern: Pattern, piece: str = "") -> Fabric | None:
    """Return the fabric of the garment's hem below a piece; None where there is no hem, or no
    swatch of it."""
    return foot_fabric(pattern, hem_spec(pattern.garment), piece)


def cuff_fabric(pattern: Pattern) -> Fabric | None:
    """Return the fabric of cuffs apart; None where there are none, or no swatch of them."""
    return foot_fabric(pattern, cuff_spec(pattern.garment), SLEEVE)


def own_foot_fabric(pattern: Pattern, piece: str) -> Fabric | None:
    """Return the fabric of what a piece begins with: a sleeve's cuff apart, else its hem or rib."""
    if piece == SLEEVE and cuff_spec(pattern.garment) is not None:
        return cuff_fabric(pattern)
    return hem_fabric(pattern, piece)


def foot_fabrics(pattern: Pattern) -> tuple[Fabric, ...]:
    """Return every fabric of hems, ribs and cuffs that was swatched, each once."""
    pieces = ("", *(pattern.garment.piece_fabrics if pattern.garment else ()))
    found = (*(own_foot_fabric(pattern, piece) for piece in pieces), cuff_fabric(pattern))
    return tuple({fabric.key: fabric for fabric in found if fabric}.values())


def foot_fabric(pattern: Pattern, foot: FootSpec | None, piece: str = "") -> Fabric | None:
    """Return the fabric of a hem or rib below a piece, None where it was not swatched.

    A rib names its fabric. A hung hem is plain rows on the needles of its piece: its fabric is
    the first of the piece's yarn at the hem's dial, with the same needles in work.
    """
    if foot is None:
        return None
    if isinstance(foot, RibSpec):
        return pattern.fabrics.get(foot.fabric)
    above = piece_fabric(pattern, piece)
    return next((fabric for fabric in pattern.fabrics.values()
                 if _is_of(pattern.stitch_charts, foot, fabric, above)), None)


def _is_of(charts: Mapping[str, StitchChart], hem: HemSpec, fabric: Fabric, above: Fabric) -> bool:
    """True for a fabric that is the plain rows of a hung hem below a piece of another."""
    chart = charts.get(above.chart)
    if fabric.chart or (chart is not None and chart.leaves_out):
        return False
    same = above.repeat.works if above.repeat else None
    return (fabric.yarn, fabric.dial) == (above.yarn, hem.dial) and \
        (fabric.repeat.works if fabric.repeat else None) == same
