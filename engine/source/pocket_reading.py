"""The pockets that a garment asks for."""

from __future__ import annotations

from ..pattern.specs import PocketSpec
from .fields import Fields
from .keys.garment_keys import GarmentKeys, PocketKeys


def read_pockets(garment: Fields, sizes: tuple[str, ...]) -> PocketSpec | None:
    """The pockets under `pockets`; None where there are none, or they have a fault."""
    own = garment.opened(GarmentKeys.pockets, "the pockets")
    if own is None:
        return None
    width, height, depth, from_side = (own.sized(key, sizes) for key in (
        PocketKeys.width, PocketKeys.height, PocketKeys.depth, PocketKeys.from_side))
    number = own.get(PocketKeys.number)
    if width is None or height is None:
        return None
    return PocketSpec(width=width, height=height, depth=depth, from_side=from_side, number=number)
