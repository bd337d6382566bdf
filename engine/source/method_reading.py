"""The ways on and off that a garment asks for: one for all its pieces, or one for a piece.

    cast_on: latch-tool chain
    bind_off: {sleeve: back-stitched, shoulders: grafted}
    bind_off_stretch: {around the gate pegs: 20 %}
"""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.bands import BandKind
from ..catalogue.methods import BIND_OFFS
from ..core.text import clip, suggest
from .fields import Fields, named_entries
from .keys.band_keys import BandKeys
from .keys.garment_keys import STRETCH, GarmentKeys
from .keys.key import Key
from .source import Table


def read_methods(garment: Fields, key: Key[str]) -> dict[str, str]:
    """The ways under `key` (cast_on or bind_off) by piece; under "" that of all pieces."""
    entry = garment.entry(key)
    if entry is None:
        return {}
    if not isinstance(entry.node, Table):
        value = garment.findings.read(entry, key.read)
        return {"": value} if value else {}
    methods = "ways to cast on" if key is GarmentKeys.cast_on else "ways to bind off"
    found = {item.label: garment.findings.read(item, key.read)
             for item in named_entries(garment.findings, entry, methods, key.likely[0], 40)}
    return {piece: value for piece, value in found.items() if value}


def read_stretch(garment: Fields) -> dict[str, Fraction]:
    """How far edges stretch beyond their length, as a share, by the names of ways off."""
    entry = garment.entry(GarmentKeys.bind_off_stretch)
    found: dict[str, Fraction] = {}
    for item in garment.each(GarmentKeys.bind_off_stretch):
        if item.label not in BIND_OFFS:
            expected, remedy = suggest(item.label, BIND_OFFS, "Use one of these words.")
            place = entry.node.entries[item.label].place \
                if entry and isinstance(entry.node, Table) else item.place
            garment.findings.fault("unknown-word", place, f'"{clip(item.label)}"', expected, remedy)
        elif (value := garment.findings.read(item, STRETCH)) is not None:
            found[item.label] = value
    return found


def read_band_method(band: Fields, kind: BandKind) -> str:
    """The name of a band's way off; "" for the kind's own, and for one with a recorded fault."""
    name = band.get(BandKeys.bind_off)
    able = [method.name for method in kind.bind_offs]
    if not name or name in able:
        return name
    band.findings.fault(
        "no-such-way", band.at(BandKeys.bind_off),
        f"{name} in {band.what}, whose kind is {kind.name}", " or ".join(able),
        "Write one of these." if able else "Leave the line out: such a band ends in one way only.")
    return ""
