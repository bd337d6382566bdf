"""The zip that a band along a front asks for."""

from __future__ import annotations

from ..core.text import clip
from ..pattern.edges import EdgeShape
from ..pattern.specs import ZipSpec
from .fields import Fields
from .keys.band_keys import BandKeys
from .open_edges import OpenEdge

NOT_FRONTS = ("neck", "front_and_neck", "armhole", "brim", "cuff", "placket", "pocket",
              "right_pocket", "left_pocket", "front_pocket")


def read_zip(band: Fields, edge: OpenEdge | None) -> ZipSpec | None:
    """The zip under `zip`; None where there is none, or it has a fault."""
    entry = band.entry(BandKeys.zip)
    if entry is None:
        return None
    if "buttonholes" in band:
        band.refuse_both(BandKeys.zip, BandKeys.buttonholes)
    if edge is not None and not _is_front(edge):
        band.findings.fault("zip-nowhere", entry.place, f"a zip along the {clip(edge.key)}",
                            "a band along both fronts", "Give the zip to the front band.")
    return band.get(BandKeys.zip)


def _is_front(edge: OpenEdge) -> bool:
    """True for one of a pair of fronts, of the garment or as the source says."""
    return edge.key not in NOT_FRONTS if edge.shape is None else edge.shape is EdgeShape.FRONT
