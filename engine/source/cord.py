"""The cord through a garment's hem.

    cord: {width: 6 mm, ties: 25 cm}

`ties` hang out at either side when the garment lies at its full width; left out 25 cm, on
children's garments 7 cm. A casing's has these, its openings and a section of its edge:

    cord: {width: 6 mm, openings: slits, at: front neck}
"""

from __future__ import annotations

from ..catalogue.bands import BandKind
from ..core.units import length_cm
from ..pattern.model import Wearer
from ..pattern.wishes import BandCord, CordWish, Openings
from .fields import Fields, open_fields
from .values import length, text, word

CORD_KEYS = ("width", "ties")
CASING_KEYS = ("width", "ties", "openings", "at")
CORD_EXAMPLE = "{width: 6 mm}"


def read_cord(garment: Fields, wearer: Wearer | None) -> CordWish | None:
    """The cord under `cord`; None where there is none, or it has a fault."""
    entry = garment.entry("cord")
    own = None if entry is None else open_fields(garment.findings, entry, "the cord", CORD_KEYS,
                                                 CORD_EXAMPLE)
    if own is None:
        return None
    return _cord(own, wearer)


def read_band_cord(band: Fields, kind: BandKind, wearer: Wearer | None) -> BandCord | None:
    """The cord of a casing; None where there is none, or it has a fault."""
    entry = band.entry("cord")
    if entry is None:
        return None
    if "cord" not in kind.asks:
        band.findings.fault("not-this-kind", entry.place,
                            f"cord in a band of the kind {kind.name}", "it only in a casing",
                            "Delete it, or write kind: casing.")
        return None
    own = open_fields(band.findings, entry, f"the cord of {band.what}", CASING_KEYS, CORD_EXAMPLE)
    if own is None:
        return None
    openings = own.get("openings", word({o.value: o for o in Openings}), Openings.EYELETS)
    at = own.get("at", text(80), "")
    if at and openings is Openings.ENDS:
        own.one_of("openings", "at", "at: back")
    cord = _cord(own, wearer)
    return None if cord is None else BandCord(width=cord.width, ties=cord.ties, openings=openings,
                                              at=at)


def _cord(own: Fields, wearer: Wearer | None) -> CordWish | None:
    width = own.need("width", length("width of a cord"), "6 mm")
    child = wearer is not None and wearer.is_child
    ties = own.get("ties", length("end of a cord"), length_cm(7 if child else 25))
    return None if width is None else CordWish(width=width, ties=ties)
