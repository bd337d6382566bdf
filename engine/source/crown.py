"""The crown of a hat: how its top is shaped.

    crown: {shape: wedges, wedges: 8, every: 2}
    crown: {shape: halvings, halvings: [4, 1]}
    crown: {step: 1, step_rows: 2, rows_after: 2}
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..catalogue.forms import Construction
from ..forms.registry import FORMS, Form
from ..pattern.specs import PLAIN_CROWN, CrownShape, CrownSpec
from .fields import Fields
from .keys.garment_keys import CrownKeys, GarmentKeys
from .keys.key import Key

_OF: Mapping[CrownShape, tuple[Key[Any], ...]] = {
    CrownShape.GATHERED: (CrownKeys.step, CrownKeys.step_rows, CrownKeys.looser,
                          CrownKeys.rows_after),
    CrownShape.WEDGES: (CrownKeys.wedges, CrownKeys.beside, CrownKeys.every, CrownKeys.remain),
    CrownShape.HALVINGS: (CrownKeys.halvings,),
    CrownShape.SIDES: (CrownKeys.every, CrownKeys.remain),
    CrownShape.QUARTERS: (CrownKeys.every, CrownKeys.remain)}


def read_crown(garment: Fields, form: Form | None) -> CrownSpec:
    """The crown under `crown`; a gathered one where there is none, or it has a fault."""
    own = garment.opened(GarmentKeys.crown, "the crown")
    if own is None:
        return PLAIN_CROWN
    if form is not None and form.construction is not Construction.HAT:
        able = ", ".join(name for name, one in FORMS.items()
                         if one.construction is Construction.HAT)
        garment.findings.fault("no-such-crown", garment.table.entries["crown"].place,
                               f"a crown in a {form.name}", f"it in one of {able}",
                               "Delete it, or choose another form.")
    shape = own.get(CrownKeys.shape)
    _refuse_foreign(own, shape)
    step = own.get(CrownKeys.step)
    return CrownSpec(shape=shape, wedges=own.get(CrownKeys.wedges),
                     beside=own.get(CrownKeys.beside), every=own.get(CrownKeys.every),
                     remain=own.get(CrownKeys.remain),
                     halvings=own.listed(CrownKeys.halvings) or PLAIN_CROWN.halvings,
                     step=step.thirds if step else None, step_rows=own.get(CrownKeys.step_rows),
                     looser=own.get(CrownKeys.looser), rows_after=own.get(CrownKeys.rows_after),
                     both_ends=own.get(CrownKeys.both_ends))


def _refuse_foreign(own: Fields, shape: CrownShape) -> None:
    """Record entries that this shape of crown does not take."""
    taken = ("shape", *(key.name for key in (*_OF[shape], CrownKeys.both_ends)))
    for key in CrownKeys.keys.values():
        if key.name not in taken and (entry := own.entry(key)):
            own.findings.fault("not-of-kind", entry.place, f'"{key.name}" in a crown of the shape '
                               f"{shape.value}", f"only {', '.join(taken)}",
                               "Delete it, or change the shape.")
