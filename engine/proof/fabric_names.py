"""What the fabrics of a pattern are called by those who read it: by the parts knitted in them."""

from __future__ import annotations

from collections.abc import Iterator

from ..catalogue.forms import FORM_KINDS, Construction
from ..fabric.piece_fabrics import SLEEVE, cuff_fabric, own_foot_fabric
from ..pattern.model import Band, GarmentSpec, HemSpec, Pattern
from ..pattern.rib_specs import RibSpec
from ..plan.arranged import edge_fabric

GARMENT = "Garment"
# What is made of pieces that are all alike, or of a few, by the key of the piece or by its name.
_CALLED = {Construction.HAT: "hat", Construction.SHAWL: "shawl", Construction.BLANKET: "panel",
           Construction.MITTEN: "mitten"}


def whole_called(spec: GarmentSpec | None) -> str:
    """Return what all that is knitted is called, with a capital letter: as its only piece, where it
    has one, or as the designer calls that, "Mitten", or "Garment"."""
    if spec is None:
        return GARMENT
    if len(spec.outline.pieces) == 1:
        return spec.outline.pieces[0].title
    called = _CALLED.get(FORM_KINDS[spec.form].construction)
    return (spec.names.get(called) or called.capitalize()) if called else GARMENT


def fabric_names(pattern: Pattern) -> dict[str, list[str]]:
    """Return by a fabric's key the names of the parts that it is swatched for, the first as a
    heading has it: "Hem", "collar", "front band". Pieces in several fabrics are named by these."""
    found: dict[str, list[str]] = {}
    whole = whole_called(pattern.garment)
    for fabric, title in _pieces(pattern.garment, whole) if pattern.garment else ():
        _add(found, fabric, title, whole)
    if pattern.garment is not None:
        for piece in ("", *pattern.garment.piece_fabrics):
            hem = own_foot_fabric(pattern.garment, pattern.materials, piece)
            if hem and hem.key not in found:
                found[hem.key] = [_foot_called(pattern.garment, piece)]
        if cuff := cuff_fabric(pattern.garment, pattern.materials):
            _add(found, cuff.key, "Cuff", whole)
    for band in pattern.bands.values():
        found.setdefault(edge_fabric(pattern.garment, pattern.edges, band), [whole])
        if band.fabric is not None:
            _add(found, band.fabric, band.title, whole)
        if band.facing_fabric:
            found.setdefault(band.facing_fabric, [_behind_fold(band)])
    return found


def _add(found: dict[str, list[str]], fabric: str, title: str, whole: str) -> None:
    """Name a part that is knitted in a fabric; one of the `whole` is called that alone."""
    names = found.setdefault(fabric, [])
    if names != [whole]:
        names.append(title.lower() if names else title)


def _pieces(spec: GarmentSpec, whole: str) -> Iterator[tuple[str, str]]:
    """The fabrics of the pieces with their names, or that of them all."""
    if len(spec.fabrics) == 1:
        yield spec.fabric, whole
        return
    for key in FORM_KINDS[spec.form].pieces:
        yield spec.fabric_of(key), spec.names.get(key) or key.replace("_", " ").capitalize()


def fabric_called(pattern: Pattern, key: str) -> str:
    """Return what a fabric is called inside a sentence: "the hem, collar and front band"; one that
    no part is knitted in has its key alone."""
    *most, last = fabric_names(pattern).get(key, [key])
    said = f"{', '.join(most)} and {last}" if most else last
    return f"the {said[:1].lower()}{said[1:]}"


def _foot_called(spec: GarmentSpec, piece: str) -> str:
    """What a hem or rib is called: that of sleeves in another fabric by where it is."""
    foot: HemSpec | RibSpec | None = spec.hem
    if piece == SLEEVE:
        return "Cuff"
    return "Rib" if isinstance(foot, RibSpec) else "Hem"


def _behind_fold(band: Band) -> str:
    return f"{band.title}, behind its fold"
