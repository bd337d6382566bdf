"""Every key of buttonholes is heard, however the holes are placed: it changes what is knitted or
found, or its declaration says that it does nothing there, and so does a finding."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from declared import around, value_of, written
from test_declared_keys import beds, charts
from walebook.machine.programs import Program
from walebook.proof.proof import prove
from walebook.source.keys.hole_keys import HoleKeys
from walebook.source.keys.key import Key
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source
from walebook.source.values import Word

Holes = dict[str, Any]
# Ends that give nothing, so that a band and its gaps must.
STIFF = {"end_give": "0"}
WAYS: dict[str, Holes] = {
    "by number": {"number": "5", **STIFF}, "by their distance": {"every": "8 cm", **STIFF},
    "one in the middle": {"every": "7 cm", "centre_hole": "yes", **STIFF},
    "at": {"at": ["2 cm", "9.3 cm", "-2.2 cm"]},
    "in the hem": {"in_hem": {"depth": "6 cm"}, "number": "4"},
    "through a measure": {"through": "16 cm", "every": "7.1 cm"},
}
PLACES = {"number", "every", "at", "in_hem", "through", "centre_hole"}
HEARD = [key for key in HoleKeys.keys.values() if key.name not in PLACES]
LENGTHS = (52, 54, 47, 57)


def others(key: Key[Any]) -> list[Any]:
    """Values of a key: its words, or its example, and others that pass."""
    words = list(key.read.choices) if isinstance(key.read, Word) else []
    more = {"tolerance": ["0 %"], "band_give": ["0"], "end_give": ["6"], "ends": ["9 stitches"],
            "button": ["35 mm"]}
    return [*words, *more.get(key.name, []), *map(value_of, (key.example, *key.likely))]


def knitted(holes: Holes, length: int) -> tuple[list[Program], list[str]]:
    """The programs of a band with those holes along an edge so long [cm], and what is found."""
    band = {"edge": "front", "fabric": "band", "depth": "4 cm", "buttonholes": holes}
    source = {**around()["PatternKeys"], "bands": {"front": band},
              "edges": {"front": {"kind": "pair of fronts", "fabric": "body",
                                  "length": f"{length} cm"}}}
    node, _ = parse_source(written(source), name="pattern.yaml")
    assert node is not None
    pattern, read = read_pattern(node, slug="trial", beds=beds(), charts=charts())
    proof, found = (None, ()) if pattern is None else prove(pattern)
    return ([strip.program for size in (proof.sizes if proof else ()) for strip in size.strips],
            [f"{p.code} {p.found}" for p in (*read, *found)])


@cache
def without(way: str, length: int) -> tuple[list[Program], list[str]]:
    return knitted({"button": "20 mm", **WAYS[way]}, length)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("key", HEARD, ids=lambda key: key.name)
def test_a_key_of_buttonholes_is_heard(way: str, key: Key[Any]) -> None:
    assert any(knitted({"button": "20 mm", **WAYS[way], key.name: value}, length)
               != without(way, length) for length in LENGTHS for value in others(key))


@pytest.mark.parametrize("way", WAYS)
def test_holes_are_knitted_however_they_are_placed(way: str) -> None:
    assert all(without(way, length)[0] for length in LENGTHS)
