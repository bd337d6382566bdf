"""The cord through a garment's hem, or through a casing.

    cord: {width: 6 mm, ties: 25 cm}
    cord: {width: 6 mm, openings: slits, at: front neck}
    cord: {width: 6 mm, below_neck: yes}

`ties` hang out at either side when the garment lies at its full width.
"""

from __future__ import annotations

from ..catalogue.bands import BandKind
from ..core.units import length_cm
from ..pattern.model import Wearer
from ..pattern.specs import BandCord, CordSpec, Openings
from .fields import Fields
from .keys.band_keys import BandKeys, CasingCordKeys
from .keys.garment_keys import CordKeys, GarmentKeys


def read_cord(garment: Fields, wearer: Wearer | None) -> CordSpec | None:
    """The cord under `cord`; None where there is none, or it has a fault."""
    own = garment.opened(GarmentKeys.cord, "the cord")
    return None if own is None else _cord(own, wearer)


def read_band_cord(band: Fields, kind: BandKind, wearer: Wearer | None) -> BandCord | None:
    """The cord of a casing; None where there is none, or it has a fault."""
    own = band.opened(BandKeys.cord, f"the cord of {band.what}")
    if own is None or BandKeys.cord.name not in kind.asks:
        return None
    openings, at = own.get(CasingCordKeys.openings), own.get(CasingCordKeys.at)
    if at and openings is Openings.ENDS:
        own.one_of(CasingCordKeys.openings, CasingCordKeys.at)
    cord = _cord(own, wearer)
    return None if cord is None else BandCord(width=cord.width, ties=cord.ties, openings=openings,
                                              at=at, below_neck=own.get(CasingCordKeys.below_neck))


def _cord(own: Fields, wearer: Wearer | None) -> CordSpec | None:
    width = own.need(CordKeys.width)
    child = wearer is not None and wearer.is_child
    ties = own.get(CordKeys.ties) or length_cm(7 if child else 25)
    return None if width is None else CordSpec(width=width, ties=ties)
