"""The vertical darts of a body.

    darts: {inset: {S: 10 cm, M: 11 cm}, share: 60 %}

Their keys are declared in `keys.dart_keys`.
"""

from __future__ import annotations

from ..forms.registry import FORMS, Form
from ..pattern.darts import Darts
from .fields import Fields
from .keys.dart_keys import DartsKeys
from .keys.garment_keys import GarmentKeys


def read_darts(garment: Fields, form: Form | None, sizes: tuple[str, ...]) -> dict[str, Darts]:
    """What is asked, by size; nothing where nothing is."""
    own = garment.opened(GarmentKeys.darts, "the darts")
    if own is None:
        return {}
    if form is not None and not form.optional:
        able = ", ".join(name for name, one in FORMS.items() if one.optional)
        garment.findings.fault("not-of-form", garment.table.entries["darts"].place,
                               f"darts in a {form.name}", f"them in one of {able}",
                               "Delete them, or choose another form.")
    insets = own.sized(DartsKeys.inset, sizes) or {}
    share = own.get(DartsKeys.share)
    return {size: Darts(inset=insets.get(size), share=share) for size in sizes}
