"""The fabrics of a garment's pieces, and those of their hems, ribs and cuffs, where swatched."""

from __future__ import annotations

from collections.abc import Mapping

from ..pattern.fabrics import Fabric, Materials
from ..pattern.model import GarmentSpec, HemSpec
from ..pattern.rib_specs import RibSpec
from ..pattern.stitch_chart import StitchChart

FootSpec = HemSpec | RibSpec
SLEEVE = "sleeve"
"""The key of the piece that begins with a cuff."""


def piece_fabric(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], piece: str = ""
                ) -> Fabric:
    """Return the fabric of the piece with that key, without one the garment's own."""
    assert spec is not None
    return fabrics[spec.fabric_of(piece)]


def piece_fabrics(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric]) -> tuple[Fabric, ...]:
    """Return every fabric of the garment's pieces, its own first; none without a garment."""
    return tuple(fabrics[key] for key in spec.fabrics) \
        if spec else ()


def feet_of(spec: GarmentSpec | None) -> tuple[FootSpec, ...]:
    """Return the hem or rib of a garment's pieces, and that of its sleeves where it is another."""
    return tuple(foot for foot in (hem_spec(spec), cuff_spec(spec)) if foot is not None)


def hem_spec(spec: GarmentSpec | None) -> FootSpec | None:
    """Return the hem or rib that pieces begin with, as in the first size; None without one."""
    return spec.hem if spec else None


def cuff_spec(spec: GarmentSpec | None) -> FootSpec | None:
    """Return the hem or rib of sleeves that have another one, as in the first size; else None."""
    return next(iter(spec.cuffs.values()), None) if spec else None


def hem_fabric(spec: GarmentSpec | None, materials: Materials, piece: str = "") -> Fabric | None:
    """Return the fabric of the garment's hem below a piece; None where there is no hem, or no
    swatch of it."""
    return foot_fabric(spec, materials, hem_spec(spec), piece)


def cuff_fabric(spec: GarmentSpec | None, materials: Materials) -> Fabric | None:
    """Return the fabric of cuffs apart; None where there are none, or no swatch of them."""
    return foot_fabric(spec, materials, cuff_spec(spec), SLEEVE)


def own_foot_fabric(spec: GarmentSpec | None, materials: Materials, piece: str) -> Fabric | None:
    """Return the fabric of what a piece begins with: a sleeve's cuff apart, else its hem or rib."""
    if piece == SLEEVE and cuff_spec(spec) is not None:
        return cuff_fabric(spec, materials)
    return hem_fabric(spec, materials, piece)


def foot_fabrics(spec: GarmentSpec | None, materials: Materials) -> tuple[Fabric, ...]:
    """Return every fabric of hems, ribs and cuffs that was swatched, each once."""
    pieces = ("", *(spec.piece_fabrics if spec else ()))
    found = (*(own_foot_fabric(spec, materials, piece) for piece in pieces),
             cuff_fabric(spec, materials))
    return tuple({fabric.key: fabric for fabric in found if fabric}.values())


def foot_fabric(spec: GarmentSpec | None, materials: Materials, foot: FootSpec | None,
                piece: str = "") -> Fabric | None:
    """Return the fabric of a hem or rib below a piece, None where it was not swatched.

    A rib names its fabric. A hung hem is plain rows on the needles of its piece: its fabric is
    the first of the piece's yarn at the hem's dial, with the same needles in work.
    """
    if foot is None:
        return None
    if isinstance(foot, RibSpec):
        return materials.fabrics.get(foot.fabric)
    above = piece_fabric(spec, materials.fabrics, piece)
    return next((fabric for fabric in materials.fabrics.values()
                 if _is_of(materials.stitch_charts, foot, fabric, above)), None)


def _is_of(charts: Mapping[str, StitchChart], hem: HemSpec, fabric: Fabric, above: Fabric) -> bool:
    """True for a fabric that is the plain rows of a hung hem below a piece of another."""
    chart = charts.get(above.chart)
    if fabric.chart or (chart is not None and chart.leaves_out):
        return False
    same = above.repeat.works if above.repeat else None
    return (fabric.yarn, fabric.dial) == (above.yarn, hem.dial) and \
        (fabric.repeat.works if fabric.repeat else None) == same
