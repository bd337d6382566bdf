"""The cord through a garment's hem.

    cord: {width: 6 mm, ties: 25 cm}

`ties` hang out at either side when the garment lies at its full width; left out 25 cm, on
children's garments 7 cm.
"""

from __future__ import annotations

from ..model import Wearer
from ..units import length_cm
from ..wishes import CordWish
from .fields import Fields, open_fields
from .values import length

CORD_KEYS = ("width", "ties")
CORD_EXAMPLE = "{width: 6 mm}"


def read_cord(garment: Fields, wearer: Wearer | None) -> CordWish | None:
    """The cord under `cord`; None where there is none, or it has a fault."""
    entry = garment.entry("cord")
    own = None if entry is None else open_fields(garment.findings, entry, "the cord", CORD_KEYS,
                                                 CORD_EXAMPLE)
    if own is None:
        return None
    width = own.need("width", length("2 mm", "60 mm"), "6 mm")
    child = wearer is not None and wearer.is_child
    ties = own.get("ties", length("2 cm", "60 cm"), length_cm(7 if child else 25))
    return None if width is None else CordWish(width=width, ties=ties)
