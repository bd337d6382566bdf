"""The ways on and off that a garment asks for: one for all its pieces, or one for a piece.

    cast_on: latch-tool chain
    bind_off: {sleeve: back-stitched, shoulders: grafted}
    bind_off_stretch: {around the gate pegs: 20 %}
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..catalogue.bands import BandKind
from ..catalogue.ways import WAYS_OFF, WAYS_ON, Way
from ..core.text import clip, suggest
from .fields import Fields, named_entries
from .source import Table
from .values import share, word

EXAMPLES = {"cast_on": "{sleeve: latch-tool chain}", "bind_off": "{sleeve: back-stitched}"}
STRETCH_EXAMPLE = "{around the gate pegs: 20 %}"
_BY_KEY: Mapping[str, Mapping[str, Way]] = {"cast_on": WAYS_ON, "bind_off": WAYS_OFF}


def read_ways(garment: Fields, key: str) -> dict[str, str]:
    """The ways under `key` ("cast_on" or "bind_off") by piece; under "" that of all pieces."""
    entry = garment.entry(key)
    if entry is None:
        return {}
    way = word({name: name for name in _BY_KEY[key]})
    if not isinstance(entry.node, Table):
        value = garment.findings.read(entry, way)
        return {"": value} if value else {}
    said = "ways to cast on" if key == "cast_on" else "ways to bind off"
    found = {item.label: garment.findings.read(item, way)
             for item in named_entries(garment.findings, entry, said, EXAMPLES[key], 40)}
    return {piece: value for piece, value in found.items() if value}


def read_stretch(garment: Fields) -> dict[str, Fraction]:
    """How far edges stretch beyond their length, as a share, by the names of ways off."""
    entry = garment.entry("bind_off_stretch")
    if entry is None:
        return {}
    found: dict[str, Fraction] = {}
    for item in named_entries(garment.findings, entry, "ways to bind off", STRETCH_EXAMPLE, 40):
        if item.label not in WAYS_OFF:
            expected, remedy = suggest(item.label, WAYS_OFF, "Use one of these words.")
            place = entry.node.entries[item.label].place if isinstance(entry.node, Table) \
                else item.place
            garment.findings.fault("unknown-word", place, f'"{clip(item.label)}"', expected, remedy)
        elif (value := garment.findings.read(item, share("stretch of a bind-off"))) is not None:
            found[item.label] = value
    return found


def read_band_way(band: Fields, kind: BandKind) -> str:
    """The name of a band's way off; "" for the kind's own, and for one with a recorded fault."""
    name = band.get("bind_off", word({name: name for name in WAYS_OFF}), "")
    able = [way.name for way in kind.ways_off]
    if not name or name in able:
        return name
    band.findings.fault(
        "no-such-way", band.findings.places[f"{band.path}.bind_off"],
        f"{name} in {band.what}, whose kind is {kind.name}", " or ".join(able),
        "Write one of these." if able else "Leave the line out: such a band ends in one way only.")
    return ""
