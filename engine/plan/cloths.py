"""What each piece of a garment is cut by: the fabric that it is knitted in, and that of its hem."""

from __future__ import annotations

from collections.abc import Mapping

from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import cuff_fabric, hem_fabric, piece_fabric
from ..pattern.fabrics import Fabric, Materials
from ..pattern.model import GarmentSpec
from ..shape.cloth import Cloth


def cloths(spec: GarmentSpec | None, materials: Materials) -> Mapping[str, Cloth]:
    """Return what pieces in fabrics apart are cut by, by their keys, and under "" all others."""
    apart = spec.piece_fabrics if spec else ()
    return {key: _cloth(spec, materials, key) for key in ("", *apart)}


def _cloth(spec: GarmentSpec | None, materials: Materials, piece: str) -> Cloth:
    fabric = piece_fabric(spec, materials.fabrics, piece)
    return Cloth(key=fabric.key, gauge=measure(fabric.swatches), dial=fabric.dial,
                 hem_gauge=_gauge(hem_fabric(spec, materials, piece)),
                 cuff_gauge=_gauge(cuff_fabric(spec, materials)), repeat=fabric.repeat,
                 chart=materials.stitch_charts.get(fabric.chart))


def _gauge(own: Fabric | None) -> Gauge | None:
    """The gauge of a hem's own fabric, where it was swatched."""
    return measure(own.swatches) if own else None
