"""The zip that a band along a front asks for.

    zip: 5 cm       # as zips are sold: every so many whole centimetres
    zip: cut        # one that is cut to its length
"""

from __future__ import annotations

from ..core.text import clip
from ..pattern.edges import Shape
from ..pattern.wishes import ZipWish
from .fields import Fields
from .garment import OpenEdge
from .values import Entry, Fault, length, text

NOT_FRONTS = ("neck", "front_and_neck", "armhole", "brim", "cuff", "placket", "pocket",
              "right_pocket", "left_pocket", "front_pocket")
_CUT = "cut"


def read_zip(band: Fields, edge: OpenEdge | None) -> ZipWish | None:
    """The zip under `zip`; None where there is none, or it has a fault."""
    entry = band.entry("zip")
    if entry is None:
        return None
    if "buttonholes" in band:
        band.one_of("zip", "buttonholes", "zip: 1 cm")
    if edge is not None and not _is_front(edge):
        band.findings.fault("zip-nowhere", entry.place, f"a zip along the {clip(edge.key)}",
                            "a band along both fronts", "Give the zip to the front band.")
    return band.findings.read(entry, _zip)


def _is_front(edge: OpenEdge) -> bool:
    """True for one of a pair of fronts, of the garment or as the source says."""
    return edge.key not in NOT_FRONTS if edge.shape is None else edge.shape is Shape.FRONT


def _zip(entry: Entry) -> ZipWish:
    expected = "how zips are sold, such as 5 cm, or cut"
    if text(40, expected, "Write 1 cm, or cut.")(entry) == _CUT:
        return ZipWish(cut=True)
    every = length("step of zips")(entry)
    if every.cm.denominator != 1:
        raise Fault("bad-length", entry.place, every.in_cm(), "whole centimetres",
                    "Zips are sold so: write 1 cm or 5 cm.")
    return ZipWish(every=int(every.cm))
