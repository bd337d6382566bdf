"""The pockets that a garment asks for.

    pockets:
      width: 13 cm
      height: 20 cm        # of the opening, from the garment's lower edge
      depth: 14 cm         # of the lining; may be left out
      from_side: 5 cm      # from the side seam to the pocket; may be left out
      number: 2            # or 1

Left out, a lining reaches down to the hem, a pocket lies in the middle of its front, and there
are two.
"""

from __future__ import annotations

from ..pattern.wishes import PocketWish
from .fields import Fields, open_fields
from .materials import by_size
from .values import length, whole_number

POCKET_KEYS = ("width", "height", "depth", "from_side", "number")
POCKET_EXAMPLE = "{width: 13 cm, height: 20 cm}"
_SPAN, _RISE = length("side of a pocket"), length("height of a pocket")


def read_pockets(garment: Fields, sizes: tuple[str, ...]) -> PocketWish | None:
    """The pockets under `pockets`; None where there are none, or they have a fault."""
    entry = garment.entry("pockets")
    own = None if entry is None else open_fields(garment.findings, entry, "the pockets",
                                                 POCKET_KEYS, POCKET_EXAMPLE)
    if own is None:
        return None
    own.required("width", "13 cm")
    own.required("height", "20 cm")
    width, height = by_size(own, "width", _SPAN, sizes), by_size(own, "height", _RISE, sizes)
    depth, from_side = by_size(own, "depth", _SPAN, sizes), by_size(own, "from_side", _SPAN, sizes)
    number = own.get("number", whole_number("number of pockets"), 2)
    if width is None or height is None:
        return None
    return PocketWish(width=width, height=height, depth=depth, from_side=from_side, number=number)
