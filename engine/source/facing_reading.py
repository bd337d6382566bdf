"""The fabric of the layer behind a band's fold, where it is not the band's own.

    facing_fabric: lining
"""

from __future__ import annotations

from collections.abc import Mapping

from ..catalogue.bands import BandKind
from ..pattern.fabrics import Fabric
from ..pattern.holes import ButtonholeKind
from .fabric_reading import named
from .fields import Fields
from .keys.band_keys import BandKeys
from .source import Scalar, Table

KEY = BandKeys.facing_fabric


def read_facing_fabric(band: Fields, kind: BandKind, fabrics: Mapping[str, Fabric | None]
                       ) -> Fabric | None:
    """The facing's fabric; None where there is none, or it has a fault."""
    entry = band.entry(KEY)
    if entry is None or KEY.name not in kind.asks:
        return None
    _refuse_what_meets(band)
    fabric = band.get_as(KEY, named("fabric", fabrics), None)
    if fabric is not None and (fabric.chart or fabric.repeat):
        how = "a chart" if fabric.chart else "needles out of work"
        band.findings.fault("facing-not-plain", entry.place,
                            f'a facing of the fabric "{fabric.key}", knitted with {how}',
                            "a plain fabric", "Give the facing a separate fabric.")
    return fabric


def _refuse_what_meets(band: Fields) -> None:
    """Record what wants as many stitches in both layers, or a dial for every row of them."""
    for key in (BandKeys.dials, BandKeys.mitre, BandKeys.buttonholes):
        entry, holes = band.entry(key), key.name == "buttonholes"
        if entry is not None and not (holes and _are_loops(entry.node)):
            band.refuse_both(key, KEY, "one of the two: the layers have not as many stitches",
                             f"Delete one of them{', or write closing: loops' * holes}.")


def _are_loops(node: object) -> bool:
    if not isinstance(node, Table) or "closing" not in node.entries:
        return False
    closing = node.entries["closing"].node
    return isinstance(closing, Scalar) and closing.text == ButtonholeKind.LOOPS.value
