"""What each piece of a garment is cut by: the fabric that it is knitted in, and that of its hem."""

from __future__ import annotations

from collections.abc import Mapping

from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import cuff_fabric, hem_fabric, piece_fabric
from ..pattern.fabrics import Fabric
from ..pattern.model import Pattern
from ..shape.cloth import Cloth


def cloths(pattern: Pattern) -> Mapping[str, Cloth]:
    """Return what pieces in fabrics apart are cut by, by their keys, and under "" all others."""
    apart = pattern.garment.piece_fabrics if pattern.garment else ()
    return {key: _cloth(pattern, key) for key in ("", *apart)}


def _cloth(pattern: Pattern, piece: str) -> Cloth:
    fabric = piece_fabric(pattern, piece)
    return Cloth(key=fabric.key, gauge=measure(fabric.swatches), dial=fabric.dial,
                 hem_gauge=_gauge(hem_fabric(pattern, piece)),
                 cuff_gauge=_gauge(cuff_fabric(pattern)), repeat=fabric.repeat,
                 chart=pattern.stitch_charts.get(fabric.chart))


def _gauge(own: Fabric | None) -> Gauge | None:
    """The gauge of a hem's own fabric, where it was swatched."""
    return measure(own.swatches) if own else None
