"""How large the things are that are bought for a size, where no count or step follows from it."""

from __future__ import annotations

from collections.abc import Iterator

from ..core.units import Length
from ..pattern.model import GarmentSpec
from ..proof.proof import SizeProof
from .zip_section import zip_of


def notion_sizes(spec: GarmentSpec | None, size: SizeProof) -> Iterator[tuple[str, str, Length]]:
    """Yield the key of a band ("" for the garment), what is bought for it, and how large that is.

    Of buttons and cords it is the width, of a zip the length. How many there are, and how long a
    cord is, are counts. The list of materials names the same (`materials.py`).
    """
    for plan in size.plans:
        band = plan.band
        if band.buttonholes and plan.placing:
            yield band.key, "button", band.buttonholes.button
        if found := zip_of(plan):
            yield band.key, "zip", found.length
        if band.cord:
            yield band.key, "cord_width", band.cord.width
    if spec and spec.cord:
        yield "", "hem_cord_width", spec.cord.width
