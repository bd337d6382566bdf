"""Short rows of a body: bust darts, and a shirt tail.

    bust_darts: {extra: {M: 2 cm, L: 3 cm}, below: 3 cm, reach: 11 cm}
    shirt_tail: {depth: 6 cm, reach: 14 cm, curve: straight}

Their keys are declared in `keys.dart_keys`.
"""

from __future__ import annotations

from ..forms.registry import FORMS, Form
from ..pattern.short_rows import BustDarts, ShirtTail
from .fields import Fields
from .keys.dart_keys import BustKeys, TailKeys
from .keys.garment_keys import GarmentKeys


def read_bust(garment: Fields, form: Form | None, sizes: tuple[str, ...]) -> dict[str, BustDarts]:
    """What is asked, by size; nothing where nothing is."""
    own = garment.opened(GarmentKeys.bust_darts, "the bust darts")
    if own is None:
        return {}
    _check_form(garment, form, GarmentKeys.bust_darts.name, "bust darts")
    extra = own.sized(BustKeys.extra, sizes) or {}
    below = own.sized(BustKeys.below, sizes) or dict.fromkeys(sizes, BustKeys.below.fallback)
    first = own.sized(BustKeys.from_side, sizes) or dict.fromkeys(
        sizes, BustKeys.from_side.fallback)
    reach = own.sized(BustKeys.reach, sizes) or {}
    return {size: BustDarts(extra=extra[size], below=below[size], from_side=first[size],
                            reach=reach.get(size)) for size in sizes if size in extra}


def read_tail(garment: Fields, form: Form | None, sizes: tuple[str, ...]) -> dict[str, ShirtTail]:
    """What is asked, by size; nothing where nothing is."""
    own = garment.opened(GarmentKeys.shirt_tail, "the shirt tail")
    if own is None:
        return {}
    _check_form(garment, form, GarmentKeys.shirt_tail.name, "a shirt tail")
    depth, reach = own.sized(TailKeys.depth, sizes) or {}, own.sized(TailKeys.reach, sizes) or {}
    curve = own.get(TailKeys.curve)
    return {size: ShirtTail(depth=depth[size], reach=reach.get(size), curve=curve)
            for size in sizes if size in depth}


def _check_form(garment: Fields, form: Form | None, name: str, what: str) -> None:
    """Record short rows that the form has no place for."""
    if form is not None and (form.opens or not form.optional):
        able = ", ".join(n for n, one in FORMS.items() if one.optional and not one.opens)
        garment.findings.fault("not-of-form", garment.table.entries[name].place,
                               f"{what} in a {form.name}", f"it in one of {able}",
                               "Delete it, or choose another form.")
