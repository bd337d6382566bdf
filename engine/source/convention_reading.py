"""How a garment asks for its armholes, caps, necks and shoulders to be shaped.

    armhole: {bind_off: [4, 2, 1, 1]}
    cap: {curve: bell, every_row: [9, 7]}
    neckline: {front_centre: 12, front_steps: {S: [3, 2, 1, 1], M: [3, 2, 2, 1]}}
    shoulders: {steps: [8, 7, 7]}

Their keys are declared in `keys.convention_keys`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from ..catalogue.forms import ROUND_NECKS, Construction
from ..core.problems import Place
from ..forms.registry import FORMS, Form
from ..pattern.conventions import (
    ArmholeSpec,
    CapCurve,
    CapSpec,
    Conventions,
    NeckCurve,
    NeckSides,
    NeckSpec,
    ShoulderSpec,
)
from ..pattern.model import Neck
from .fields import Fields
from .keys.convention_keys import ArmholeKeys, CapKeys, NecklineKeys, ShoulderKeys
from .keys.garment_keys import GarmentKeys
from .keys.key import Key
from .source import Table

T = TypeVar("T")
DROP = "shoulder_drop"
_WITH_SHOULDERS = (Construction.SET_IN, Construction.DROP_SHOULDER)
_FRONT = (NecklineKeys.front_centre, NecklineKeys.front_steps, NecklineKeys.front_sides)
_BACK = (NecklineKeys.back_centre, NecklineKeys.back_steps, NecklineKeys.back_sides)
_NECKS = (*_WITH_SHOULDERS, Construction.SADDLE_RAGLAN, Construction.RAGLAN)


def read_conventions(garment: Fields, form: Form | None, neck: Neck, sizes: tuple[str, ...]
                     ) -> dict[str, Conventions]:
    """What is asked, by size; nothing where nothing is."""
    armholes, caps = _armholes(garment, sizes), _caps(garment, sizes)
    fronts, backs = _necks(garment, neck, sizes)
    shoulders = _shoulders(garment, sizes)
    if form is not None:
        _check_form(garment, form)
    found = {size: Conventions(armhole=armholes[size], cap=caps[size], front_neck=fronts[size],
                               back_neck=backs[size], shoulders=shoulders[size])
             for size in sizes}
    return {size: one for size, one in found.items() if one != Conventions()}


def _by_size(own: Fields, key: Key[T], sizes: tuple[str, ...]) -> Mapping[str, T]:
    """The values under a key, by size; its default where it is left out or at fault."""
    return own.sized(key, sizes) or dict.fromkeys(sizes, key.fallback)


def _armholes(garment: Fields, sizes: tuple[str, ...]) -> dict[str, ArmholeSpec]:
    own = garment.opened(GarmentKeys.armhole, "the armhole")
    if own is None:
        return dict.fromkeys(sizes, ArmholeSpec())
    curve, bound = own.get(ArmholeKeys.curve), _by_size(own, ArmholeKeys.bind_off, sizes)
    return {size: ArmholeSpec(curve=curve, bind_off=bound[size]) for size in sizes}


def _caps(garment: Fields, sizes: tuple[str, ...]) -> dict[str, CapSpec]:
    own = garment.opened(GarmentKeys.cap, "the cap")
    if own is None:
        return dict.fromkeys(sizes, CapSpec())
    curve = own.get(CapKeys.curve)
    tops, rows = (_by_size(own, key, sizes) for key in (CapKeys.top_bind_offs, CapKeys.every_row))
    if CapKeys.every_row.name in own and curve is not CapCurve.BELL:
        own.findings.fault("not-of-form", own.at(CapKeys.every_row),
                           f"every_row in a cap whose curve is {curve.value}",
                           "it in a cap that is a bell", "Write curve: bell, or delete it.")
    return {size: CapSpec(curve=curve, top_bind_offs=tops[size], every_row=rows[size])
            for size in sizes}


def _necks(garment: Fields, neck: Neck, sizes: tuple[str, ...]
           ) -> tuple[dict[str, NeckSpec], dict[str, NeckSpec]]:
    """The front and the back neck; a fault for a front that is not round."""
    own = garment.opened(GarmentKeys.neckline, "the neckline")
    if own is None:
        return dict.fromkeys(sizes, NeckSpec()), dict.fromkeys(sizes, NeckSpec())
    curve = own.get(NecklineKeys.curve)
    front, back = (_neck(own, curve, keys, sizes) for keys in (_FRONT, _BACK))
    lost = [key.name for key in _FRONT if key.name in own and neck not in ROUND_NECKS]
    if neck is Neck.BOAT:
        lost = [name for name in own.keys.keys if name in own]
    if lost:
        own.findings.fault("not-of-form", own.findings.places[f"{own.path}.{lost[0]}"],
                           f"{lost[0]} of a {neck.value} neck", "it in a round or high neck",
                           "Delete it, or choose another neck.")
    return front, back


def _neck(own: Fields, curve: NeckCurve, keys: tuple[Key[Any], Key[Any], Key[NeckSides]],
          sizes: tuple[str, ...]) -> dict[str, NeckSpec]:
    *by_size, one_key = keys
    centre, steps = (_by_size(own, key, sizes) for key in by_size)
    middle, beside = ({size: _place(own, key, size) for size in sizes} for key in by_size)
    sides = own.get(one_key)
    return {size: NeckSpec(curve=curve, centre=centre[size], steps=steps[size], sides=sides,
                           centre_place=middle[size], steps_place=beside[size])
            for size in sizes}


def _place(own: Fields, key: Key[Any], size: str) -> Place:
    """Where the value of a key stands for a size."""
    return own.findings.places.get(f"{own.path}.{key.name}.{size}", own.at(key))


def _shoulders(garment: Fields, sizes: tuple[str, ...]) -> dict[str, ShoulderSpec]:
    own = garment.opened(GarmentKeys.shoulders, "the shoulders")
    if own is None:
        return dict.fromkeys(sizes, ShoulderSpec())
    steps, remainder = _by_size(own, ShoulderKeys.steps, sizes), own.get(ShoulderKeys.remainder)
    given = garment.entry(GarmentKeys.measures)
    drop = given.node.entries.get(DROP) if given and isinstance(given.node, Table) else None
    if ShoulderKeys.steps.name in own and drop:
        own.findings.fault("two-answers", drop.place,
                           f"both {DROP} and the steps of the shoulders", "one of the two",
                           f"Delete {DROP}: every held step takes 2 rows.")
    return {size: ShoulderSpec(steps=steps[size], remainder=remainder) for size in sizes}


def _check_form(garment: Fields, form: Form) -> None:
    """Record shaping that the form has not."""
    for key, those in ((GarmentKeys.armhole, (Construction.SET_IN,)),
                       (GarmentKeys.cap, (Construction.SET_IN,)),
                       (GarmentKeys.neckline, _NECKS), (GarmentKeys.shoulders, _WITH_SHOULDERS)):
        able = [name for name, one in FORMS.items() if one.construction in those
                and (key is not GarmentKeys.cap or one.sleeved)]
        if key.name in garment and form.name not in able:
            garment.findings.fault(
                "not-of-form", garment.table.entries[key.name].place,
                f"{key.name} in a {form.name}", f"it in one of {', '.join(able)}",
                "Delete it, or choose another form.")
    if form.construction is Construction.RAGLAN:
        _refuse_back(garment, form)
    _refuse_held(garment, form)


def _refuse_back(garment: Fields, form: Form) -> None:
    """Record a back neck that is shaped where it is the raglan's top, straight across."""
    entry = garment.entry(GarmentKeys.neckline)
    given = entry.node.entries if entry and isinstance(entry.node, Table) else {}
    for key in (NecklineKeys.back_centre, NecklineKeys.back_steps):
        if key.name in given:
            garment.findings.fault("not-of-form", given[key.name].place,
                                   f"{key.name} in a {form.name}, whose back is straight at the "
                                   "neck", "the front's centre, steps or curve",
                                   "Delete it, or choose another form.")


def _refuse_held(garment: Fields, form: Form) -> None:
    """Record a neck that is to be held where its stitches have no shoulders beside them, or where
    a front edge begins it."""
    entry = garment.entry(GarmentKeys.neckline)
    given = entry.node.entries if entry and isinstance(entry.node, Table) else {}
    shoulders = form.construction in _WITH_SHOULDERS
    for key, able, why in (
            (NecklineKeys.front_sides, shoulders and not form.opens, "front in one piece"),
            (NecklineKeys.back_sides, shoulders, "back")):
        if key.name in given and not able:
            garment.findings.fault(
                "not-of-form", given[key.name].place, f"{key.name} in a {form.name}",
                f"it of a {why} that has shoulders",
                "Delete it: what is bound off there is taken by the band as well.")
