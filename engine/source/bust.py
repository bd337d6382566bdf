"""Bust darts by short rows.

    bust_darts: {extra: {M: 2 cm, L: 3 cm}, below: 3 cm, reach: 11 cm}

Their keys are declared in `keys.darts`.
"""

from __future__ import annotations

from ..forms.registry import FORMS, Form
from ..pattern.short_rows import BustDarts
from .fields import Fields
from .keys.darts import BustKeys
from .keys.garment import GarmentKeys


def read_bust(garment: Fields, form: Form | None, sizes: tuple[str, ...]) -> dict[str, BustDarts]:
    """What is asked, by size; nothing where nothing is."""
    own = garment.opened(GarmentKeys.bust_darts, "the bust darts")
    if own is None:
        return {}
    if form is not None and (form.opens or not form.optional):
        able = ", ".join(n for n, one in FORMS.items() if one.optional and not one.opens)
        garment.findings.fault("not-of-form", garment.table.entries["bust_darts"].place,
                               f"bust darts in a {form.name}", f"them in one of {able}",
                               "Delete them, or choose another form.")
    extra = own.sized(BustKeys.extra, sizes) or {}
    below = own.sized(BustKeys.below, sizes) or dict.fromkeys(sizes, BustKeys.below.fallback)
    first = own.sized(BustKeys.from_side, sizes) or dict.fromkeys(
        sizes, BustKeys.from_side.fallback)
    reach = own.sized(BustKeys.reach, sizes) or {}
    return {size: BustDarts(extra=extra[size], below=below[size], from_side=first[size],
                            reach=reach.get(size)) for size in sizes if size in extra}
