"""The parts of a pattern that each of its fabrics is knitted for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..catalogue.forms import FORM_KINDS, Construction
from ..core.piece_roles import FabricPart, FabricRole, PieceRole
from ..fabric.piece_fabrics import SLEEVE, cuff_fabric, own_foot_fabric
from ..pattern.model import GarmentSpec, HemSpec, Pattern
from ..pattern.rib_specs import RibSpec
from ..plan.arranged import edge_fabric
from ..words.terms.piece_names import piece_name

# What all pieces of a form are swatched for together.
_WHOLE: Mapping[Construction, FabricRole] = {
    Construction.DROP_SHOULDER: FabricRole.GARMENT, Construction.SET_IN: FabricRole.GARMENT,
    Construction.RAGLAN: FabricRole.GARMENT, Construction.SADDLE_RAGLAN: FabricRole.GARMENT,
    Construction.SIDEWAYS: FabricRole.GARMENT, Construction.HAT: FabricRole.HAT,
    Construction.SHAWL: FabricRole.SHAWL, Construction.BLANKET: FabricRole.PANEL,
    Construction.MITTEN: FabricRole.MITTEN, Construction.OUTLINE: FabricRole.GARMENT}
Parts = tuple[FabricPart, ...]


def whole_part(spec: GarmentSpec | None) -> FabricPart:
    """Return what all that is knitted is: its only piece, where it has one, what the designer
    calls it, a mitten or the like, or a garment."""
    if spec is None:
        return FabricPart(FabricRole.GARMENT)
    if len(spec.outline.pieces) == 1:
        return _named(spec.outline.pieces[0].title)
    role = _WHOLE[FORM_KINDS[spec.form].construction]
    own = spec.names.get(role.value) if role is not FabricRole.GARMENT else None
    return _named(own) if own else FabricPart(role)


def parts_of_fabrics(pattern: Pattern) -> dict[str, Parts]:
    """Return by a fabric's key the parts that it is swatched for. Pieces in several fabrics stand
    by themselves, and else for the whole."""
    found: dict[str, Parts] = {}
    whole = whole_part(pattern.garment)
    for fabric, part in _pieces(pattern.garment, whole) if pattern.garment else ():
        _add(found, fabric, part, whole)
    if pattern.garment is not None:
        for piece in ("", *pattern.garment.piece_fabrics):
            hem = own_foot_fabric(pattern.garment, pattern.materials, piece)
            if hem and hem.key not in found:
                found[hem.key] = (_foot(pattern.garment, piece),)
        if cuff := cuff_fabric(pattern.garment, pattern.materials):
            _add(found, cuff.key, FabricPart(FabricRole.CUFF), whole)
    for band in pattern.bands.values():
        found.setdefault(edge_fabric(pattern.garment, pattern.edges, band), (whole,))
        if band.fabric is not None:
            _add(found, band.fabric, _named(band.title), whole)
        if band.facing_fabric:
            found.setdefault(band.facing_fabric,
                             (FabricPart(FabricRole.BEHIND_FOLD, band.title),))
    return found


def parts_of(parts: Mapping[str, Parts], key: str) -> Parts:
    """Return which of a pattern's `parts` one fabric is swatched for; one that no part is knitted
    in has its key alone."""
    return parts.get(key, (_named(key),))


def _add(found: dict[str, Parts], fabric: str, part: FabricPart, whole: FabricPart) -> None:
    """Add a part that is knitted in a fabric; one of the `whole` is of that alone."""
    parts = found.get(fabric, ())
    if parts != (whole,):
        found[fabric] = (*parts, part)


def _pieces(spec: GarmentSpec, whole: FabricPart) -> Iterator[tuple[str, FabricPart]]:
    """The fabrics of the pieces with these, or that of them all with the whole."""
    if len(spec.fabrics) == 1:
        yield spec.fabric, whole
        return
    for key in FORM_KINDS[spec.form].pieces:
        yield spec.fabric_of(key), _named(spec.names.get(key) or piece_name(PieceRole(key)))


def _named(title: str) -> FabricPart:
    return FabricPart(FabricRole.NAMED, title)


def _foot(spec: GarmentSpec, piece: str) -> FabricPart:
    """A hem or rib; that of sleeves in another fabric is a cuff."""
    foot: HemSpec | RibSpec | None = spec.hem
    if piece == SLEEVE:
        return FabricPart(FabricRole.CUFF)
    return FabricPart(FabricRole.RIB if isinstance(foot, RibSpec) else FabricRole.HEM)
