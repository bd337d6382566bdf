"""The random sources have every declared key: none is passed over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy
from walebook.source.keys.bands import BandKeys
from walebook.source.keys.edges import EdgeKeys
from walebook.source.keys.fabrics import ChartKeys
from walebook.source.keys.garment import GarmentKeys, RoundingKeys
from walebook.source.keys.head import PatternKeys
from walebook.source.keys.holes import HoleKeys
from walebook.source.keys.key import Keys, Several

from tests.laws import wishes

SIZES = ("S", "M")
# What is drawn with other keys around it, or not at all, and why.
APART = {
    "pictures": "no file lies beside a source that is drawn",
    "contrast": "drawn where the chart has a second colour",
    "needles": "drawn for a fabric without a chart", "edge_stitches": "drawn with needles",
    "chart": "drawn for the fabric of the body", "front": "drawn in patterns for anyone",
    "closing": "drawn for the kind of band",
}


def keys_in(table: type[Keys], mapping: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Each key of a mapping with the name of its table, and those of the mappings under it."""
    for name in mapping.keys() & table.keys.keys():
        yield table.__name__, name
        key, said = table.keys[name], mapping[name]
        if isinstance(key.read, Several):
            said = list(said.values()) if isinstance(said, dict) else said
        for one in said if isinstance(said, list) else [said]:
            if key.table is not None and isinstance(one, dict):
                yield from keys_in(key.table, one)


def drawn(table: type[Keys], strategy: SearchStrategy[Any], times: int) -> set[tuple[str, str]]:
    """The keys that so many draws have."""
    found: set[tuple[str, str]] = set()

    @settings(max_examples=times, derandomize=True, database=None, deadline=None,
              phases=[Phase.generate], suppress_health_check=list(HealthCheck))
    @given(strategy)
    def gather(mapping: Any) -> None:
        found.update(keys_in(table, mapping))

    gather()
    return found


def within(table: type[Keys]) -> Iterator[tuple[str, str]]:
    """Every key of a table and of those under it."""
    for key in table.keys.values():
        yield table.__name__, key.name
        if key.table is not None:
            yield from within(key.table)


PARTS: dict[type[Keys], SearchStrategy[Any]] = {
    BandKeys: st.sampled_from(("neck", "front_edge", "cuff")).flatmap(
        lambda edge: wishes.bands(edge, SIZES, "women")),
    HoleKeys: wishes.holes(SIZES, "anyone"), EdgeKeys: wishes.edges(SIZES),
    ChartKeys: wishes.charts(),
    RoundingKeys: wishes.roundings(("back_cast_on",)).filter(lambda made: isinstance(made, dict)),
    GarmentKeys: st.sampled_from(("set-in cardigan", "set-in pullover")).flatmap(
        lambda form: wishes.garments(form, SIZES, "women")),
}


@pytest.mark.parametrize("table", PARTS, ids=lambda table: table.__name__)
def test_a_part_of_a_source_has_every_key_of_its_table(table: type[Keys]) -> None:
    own = {key for key in within(table) if key[0] == table.__name__ and key[1] not in APART}
    assert own - drawn(table, PARTS[table], 250) == set()


def test_a_key_that_is_new_in_a_table_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(HoleKeys.keys, "washed", replace(HoleKeys.tolerance, name="washed"))
    assert ("HoleKeys", "washed") in drawn(HoleKeys, PARTS[HoleKeys], 60)


@pytest.mark.long
def test_a_whole_source_has_every_key() -> None:
    texts = wishes.sources().map(lambda text: yaml.load(text, yaml.CBaseLoader))
    lacking = set(within(PatternKeys)) - drawn(PatternKeys, texts, 6000)
    assert {name for table, name in lacking if table != "PictureKeys"} <= {"pictures"}
