"""The slopes that a garment's designer schedules.

    slopes:
      sleeve: {rates: "every 6th row 5 times, then every 8th row", plain_end: 2 cm}
      raglan_body: {order: slow first}
      v_neck: {rates: {S: every 3rd row, M: every 4th row}, first_row: 2}
"""

from __future__ import annotations

from ..forms.registry import FORMS, Form
from ..pattern.model import Neck
from ..pattern.slope_specs import Slope, SlopeSpec
from .fields import Fields
from .keys.garment_keys import GarmentKeys
from .keys.slope_keys import SlopeKeys, SlopesKeys


def read_slopes(garment: Fields, form: Form | None, neck: Neck, sizes: tuple[str, ...]
                ) -> tuple[SlopeSpec, ...]:
    """The slopes under `slopes`, but for those at fault."""
    own = garment.opened(GarmentKeys.slopes, "the slopes")
    if own is None:
        return ()
    return tuple(spec for slope in Slope if SlopesKeys.keys[slope.value].name in own.table.entries
                 and (spec := _slope(own, slope, form, neck, sizes)) is not None)


def _slope(own: Fields, slope: Slope, form: Form | None, neck: Neck, sizes: tuple[str, ...]
           ) -> SlopeSpec | None:
    fields = own.opened(SlopesKeys.keys[slope.value], f"the slope {slope.value}")
    if fields is None:
        return None
    if form is not None and slope not in form.slopes(neck):
        _no_such(own, slope, form, neck)
        return None
    return slope_spec(fields, sizes, slope)


def slope_spec(fields: Fields, sizes: tuple[str, ...], slope: Slope | None = None) -> SlopeSpec:
    """The keys of one slope as they are asked; of an own piece's edge where it has no name."""
    _refuse_both(fields)
    return SlopeSpec(
        slope=slope, order=fields.get(SlopeKeys.order), rates=fields.sized(SlopeKeys.rates, sizes),
        first_row=fields.sized(SlopeKeys.first_row, sizes),
        plain_start=fields.sized(SlopeKeys.plain_start, sizes),
        plain_end=fields.sized(SlopeKeys.plain_end, sizes))


def _refuse_both(fields: Fields) -> None:
    """Record two keys of a slope that answer one question."""
    for first, second in ((SlopeKeys.order, SlopeKeys.rates),
                          (SlopeKeys.first_row, SlopeKeys.plain_start)):
        if first.name in fields and second.name in fields:
            fields.refuse_both(first, second)


def _no_such(own: Fields, slope: Slope, form: Form, neck: Neck) -> None:
    """Record a slope that the garment has not."""
    has = [one.value for one in form.slopes(neck)]
    other_neck = slope is Slope.V_NECK and slope in form.slopes(Neck.V)
    able = [name for name, one in FORMS.items() if slope in one.slopes(Neck.V)]
    own.findings.fault(
        "no-such-slope", own.table.entries[slope.value].place,
        f'the slope "{slope.value}" in a {form.name}{f" with a {neck.value} neck" * other_neck}',
        f"one of {', '.join(has)}" if has else "no slopes: it has none to schedule",
        "Write neck: v, or delete it." if other_neck else
        f"Delete it, or use one of {', '.join(able)}.")
