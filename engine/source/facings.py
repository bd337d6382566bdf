"""The fabric of the layer behind a band's fold, where it is not the band's own.

    facing_fabric: lining
"""

from __future__ import annotations

from collections.abc import Mapping

from ..catalogue.bands import BandKind
from ..pattern.fabrics import Fabric
from ..pattern.holes import Closing
from .fields import Fields
from .materials import named
from .source import Scalar, Table

KEY = "facing_fabric"


def read_facing_fabric(band: Fields, kind: BandKind, fabrics: Mapping[str, Fabric | None]
                       ) -> Fabric | None:
    """The facing's fabric; None where there is none, or it has a fault."""
    entry = band.entry(KEY)
    if entry is None:
        return None
    if KEY not in kind.asks:
        band.findings.fault("not-this-kind", entry.place,
                            f"facing_fabric in a band of the kind {kind.name}",
                            "it only in a folded band or a facing",
                            "Delete it, or choose another kind of band.")
        return None
    _refuse_what_meets(band)
    fabric = band.get(KEY, named("fabric", fabrics), None)
    if fabric is not None and (fabric.chart or fabric.repeat):
        how = "a chart" if fabric.chart else "needles out of work"
        band.findings.fault("facing-not-plain", entry.place,
                            f'a facing of the fabric "{fabric.key}", knitted with {how}',
                            "a plain fabric", "Give the facing a fabric of its own.")
    return fabric


def _refuse_what_meets(band: Fields) -> None:
    """Record what wants as many stitches in both layers, or a dial for every row of them."""
    for key in ("dials", "mitre", "buttonholes"):
        entry = band.entry(key)
        if entry is None or (key == "buttonholes" and _are_loops(entry.node)):
            continue
        band.findings.fault("two-answers", band.place, f'both "{key}" and "{KEY}" in {band.what}',
                            "one of the two: the layers have not as many stitches",
                            "Delete one of them" + ("." if key != "buttonholes" else
                                                    ", or write closing: loops."))


def _are_loops(node: object) -> bool:
    if not isinstance(node, Table) or "closing" not in node.entries:
        return False
    said = node.entries["closing"].node
    return isinstance(said, Scalar) and said.text == Closing.LOOPS.value
