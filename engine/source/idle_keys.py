"""Keys of a garment that its form makes nothing of: a warning, so that none is believed."""

from __future__ import annotations

from collections.abc import Mapping

from ..catalogue.forms import Construction
from ..forms.registry import Form
from ..pattern.model import Neck
from ..pattern.specs import CrownShape, CrownSpec
from .fields import Fields

_SHAPED_NECKS = (Construction.DROP_SHOULDER, Construction.SET_IN, Construction.RAGLAN,
                 Construction.SADDLE_RAGLAN)
# Whether a piece of a form can narrow by decreases at its edges: a hat with some crowns.
_DECREASED: Mapping[Construction, bool] = {
    Construction.DROP_SHOULDER: True, Construction.SET_IN: True, Construction.RAGLAN: True,
    Construction.SADDLE_RAGLAN: True, Construction.SIDEWAYS: False, Construction.HAT: True,
    Construction.SHAWL: False, Construction.BLANKET: False, Construction.MITTEN: False,
    Construction.OUTLINE: True}
_NARROWED = (CrownShape.SIDES, CrownShape.QUARTERS)


def warn_of_idle(garment: Fields, form: Form | None, neck: Neck, crown: CrownSpec) -> None:
    """Record the keys that do nothing in a garment of this form."""
    if form is None:
        return
    kind = form.construction
    boat = kind is Construction.SIDEWAYS and neck is Neck.BOAT  # which it has
    if kind not in _SHAPED_NECKS and not boat:
        what = "whose neck is a boat neck" if kind is Construction.SIDEWAYS else \
            "which has no neck to shape"
        _warn(garment, "neck", f"neck: {neck.value} in a {form.name}, {what}")
    hat = kind is Construction.HAT and crown.shape not in _NARROWED
    if hat or not _DECREASED[kind]:
        _warn(garment, "moved", f"moved in a {form.name}, which has no decreases at its edges")


def _warn(garment: Fields, key: str, found: str) -> None:
    if key in garment.table.entries:
        garment.findings.warn("unused", garment.table.entries[key].place, found,
                              remedy="Delete it.")
