"""What the fabrics of a pattern are called by those who read it: by the parts knitted in them."""

from __future__ import annotations

from ..fabric.hem_fabric import cuff_fabric, hem_fabric
from ..pattern.model import Band, HemSpec, Pattern, RibSpec
from ..plan.arranged import edge_fabric

GARMENT = "Garment"


def fabric_names(pattern: Pattern) -> dict[str, list[str]]:
    """Return by a fabric's key the names of the parts that it is swatched for, the first as a
    heading has it: "Hem", "collar", "front band"."""
    found: dict[str, list[str]] = {}
    if pattern.garment is not None:
        found[pattern.garment.fabric] = [GARMENT]
        if hem := hem_fabric(pattern):
            found.setdefault(hem.key, [_hem_called(pattern.garment.hem)])
        if cuff := cuff_fabric(pattern):
            names = found.setdefault(cuff.key, [])
            if names != [GARMENT]:
                names.append("cuff" if names else "Cuff")
    for band in pattern.bands.values():
        found.setdefault(edge_fabric(pattern, band), [GARMENT])
        if band.fabric is not None:
            names = found.setdefault(band.fabric, [])
            if names != [GARMENT]:
                names.append(band.title.lower() if names else band.title)
        if band.facing_fabric:
            found.setdefault(band.facing_fabric, [_behind_fold(band)])
    return found


def fabric_called(pattern: Pattern, key: str) -> str:
    """Return what a fabric is called inside a sentence: "the hem, collar and front band"; one that
    no part is knitted in has its key alone."""
    *most, last = fabric_names(pattern).get(key, [key])
    said = f"{', '.join(most)} and {last}" if most else last
    return f"the {said[:1].lower()}{said[1:]}"


def _hem_called(hem: HemSpec | RibSpec | None) -> str:
    return "Rib" if isinstance(hem, RibSpec) else "Hem"


def _behind_fold(band: Band) -> str:
    return f"{band.title}, behind its fold"
