"""Keys of a garment that its form makes nothing of: a warning, so that none is believed."""

from __future__ import annotations

from ..catalogue.forms import Construction
from ..forms.registry import Form
from ..pattern.model import Neck
from ..pattern.specs import CrownShape, CrownSpec
from .fields import Fields

_SHAPED_NECKS = (Construction.DROP_SHOULDER, Construction.SET_IN, Construction.RAGLAN,
                 Construction.SADDLE_RAGLAN)
# Forms none of whose pieces narrows by decreases at its edges, whatever else the garment says.
_NO_DECREASES = (Construction.SIDEWAYS, Construction.SHAWL, Construction.BLANKET,
                 Construction.MITTEN)
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
    if hat or kind in _NO_DECREASES:
        _warn(garment, "moved", f"moved in a {form.name}, which has no decreases at its edges")


def _warn(garment: Fields, key: str, found: str) -> None:
    if key in garment.table.entries:
        garment.findings.warn("unused", garment.table.entries[key].place, found,
                              remedy="Delete it.")
