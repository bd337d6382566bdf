"""What a knitter compares when a pattern has changed: the counts of a size by their names."""

from __future__ import annotations

from collections.abc import Mapping

from ..proof.proof import SizeProof
from ..words.count_names import count_named
from .figures import ShownFigure


def compared(size: SizeProof, figures: Mapping[tuple[str, str], tuple[ShownFigure, ...]]
             ) -> dict[str, str]:
    """Return every count of the size's pieces and bands with its unit, by a name that does not
    change with it. `figures` are those of all bands, by size and key."""
    found: dict[str, str] = {}
    if size.assembled:
        garment = size.assembled.garment
        titles = {piece.key: piece.title for piece in garment.pieces}
        found |= {count_named(titles.get(key, key), name.replace("_", " ")): str(count)
                  for key, name, count in garment.counts}
    for plan in size.plans:
        found |= {count_named(plan.band.title, figure.label): figure.counted
                  for figure in figures[size.size, plan.band.key] if figure.value}
    return found
