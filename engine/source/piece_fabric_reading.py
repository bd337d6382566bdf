"""The fabrics of single pieces of a garment.

    piece_fabrics: {sleeve: plain}
"""

from __future__ import annotations

from collections.abc import Mapping

from ..core.text import clip, suggest
from ..fabric.piece_fabrics import SLEEVE
from ..forms.registry import FORMS, Form
from ..pattern.fabrics import Fabric
from ..pattern.model import HemSpec
from ..pattern.rib_specs import RibSpec
from .fabric_reading import named
from .fields import Fields
from .keys.garment_keys import GarmentKeys
from .measure_reading import plain
from .values import Entry


def read_piece_fabrics(garment: Fields, form: Form | None, own: Fabric | None,
                       fabrics: Mapping[str, Fabric | None]) -> dict[str, Fabric]:
    """Return the fabrics of single pieces by their keys; `own` is that of all others.

    A piece that the form has not, or not in a fabric apart, has its fault recorded.
    """
    entry = garment.entry(GarmentKeys.piece_fabrics)
    if entry is None:
        return {}
    if form is not None and not form.apart:
        able = ", ".join(name for name, one in FORMS.items() if one.apart)
        garment.findings.fault("not-of-form", entry.place, f"fabrics of pieces in a {form.name}",
                               f"them in one of {able}", "Delete them, or choose another form.")
        return {}
    found: dict[str, Fabric] = {}
    for item in garment.each(GarmentKeys.piece_fabrics):
        fabric = garment.findings.read(item, named("fabric", fabrics))
        if form is None or not _is_apart(garment, form, item) or fabric is None:
            continue
        if own is not None and fabric.key == own.key:
            garment.findings.warn("unused", item.place, f'the fabric "{clip(fabric.key)}" of the '
                                  f"{item.label}, which all pieces are knitted in",
                                  remedy="Delete it.")
        else:
            found[plain(item.label)] = fabric
    return found


def _is_apart(garment: Fields, form: Form, item: Entry) -> bool:
    """True for a piece that can be of a fabric apart; else it is recorded that it cannot."""
    if plain(item.label) in form.apart:
        return True
    expected, remedy = suggest(plain(item.label), form.apart, "Use one of these.")
    garment.findings.fault("unknown-name", item.place,
                           f'no piece called "{clip(item.label)}" that can be of a fabric apart',
                           expected, remedy)
    return False


def check_feet(garment: Fields, own: Fabric | None, apart: Mapping[str, Fabric],
               hem: HemSpec | RibSpec | None, *, cuffs: bool) -> None:
    """Record a piece of another yarn whose rib was swatched in the garment's."""
    for piece, fabric in apart.items():
        if not (isinstance(hem, RibSpec) and hem.fabric) or (piece == SLEEVE and cuffs):
            continue
        if own is not None and fabric.yarn != own.yarn:
            remedy = "Give the sleeves a cuff that was swatched in their yarn" if piece == SLEEVE \
                else "Use a fabric of the same yarn, or leave the rib's fabric out"
            garment.findings.fault(
                "rib-yarn", garment.at(GarmentKeys.piece_fabrics),
                f'a rib of the yarn "{own.yarn}" below a {piece.replace("_", " ")} of '
                f'"{fabric.yarn}"', "the same yarn", f"{remedy}.")
