"""Every declared key is read, and its example is read, in a small source for it."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from declared import ALL, Declared, in_place, value_of, written
from walebook.catalogue.bands import KINDS
from walebook.core.problems import Place, Problem, has_errors
from walebook.pattern.fabrics import NeedleBed
from walebook.sizing.charts import Chart
from walebook.source.collection_reading import read_collection
from walebook.source.fields import Fields, Findings
from walebook.source.keys.band_keys import BandKeys
from walebook.source.keys.collection_keys import CollectionKeys
from walebook.source.keys.fabric_keys import YarnKeys
from walebook.source.keys.pattern_keys import BedFileKeys, PatternKeys
from walebook.source.keys.size_chart_keys import ChartFileKeys
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import Table, parse_source
from walebook.words.keys import explained

FILE = "patterns/trial/pattern.yaml"
SHELF = Path(__file__).parents[2] / "patterns"
SPOILED = [["no value of any key"]]
IDS = [str(one) for one in ALL]


@cache
def beds() -> dict[str, NeedleBed]:
    node, _ = parse_source((SHELF / "_beds" / "bulky.yaml").read_text(encoding="utf-8"), name="bed")
    assert node is not None
    bed, _ = read_bed(node, name="bulky")
    assert bed is not None
    return {"bulky": bed}


@cache
def charts() -> dict[str, Chart | None]:
    text = (SHELF / "_sizes" / "women.yaml").read_text(encoding="utf-8")
    node, _ = parse_source(text, name="chart")
    assert node is not None
    return {"women": read_chart(node, key="women")[0]}


def found(one: Declared, value: object) -> list[Problem]:
    """What reading the whole file with that value under the key finds."""
    text = written(in_place(one, value))
    node, faults = parse_source(text, name=FILE)
    assert node is not None, faults
    if one.root is BedFileKeys:
        return [*faults, *read_bed(node, name="own")[1]]
    if one.root is CollectionKeys:
        return [*faults, *read_collection(node)[1]]
    if one.root is ChartFileKeys:
        return [*faults, *read_chart(node, key="own")[1]]
    return [*faults, *read_pattern(node, slug="trial", beds=beds(), charts=charts(),
                                   pictures=frozenset({"front.png"}))[1]]


def errors(problems: list[Problem]) -> list[str]:
    return [str(p) for p in problems if has_errors([p])]


@pytest.mark.parametrize("one", ALL, ids=IDS)
def test_the_example_of_a_key_is_read(one: Declared) -> None:
    """That it is knitted too is held by test_keys_heard, which compares its pages."""
    assert errors(found(one, value_of(one.key.example))) == []


@pytest.mark.parametrize("one", [one for one in ALL if one.key.likely], ids=str)
def test_a_likely_value_of_a_key_is_read(one: Declared) -> None:
    for likely in one.key.likely:
        value = likely if "\n" in likely else value_of(likely)
        assert errors(found(one, value)) == [], likely


@pytest.mark.parametrize("one", ALL, ids=IDS)
def test_a_declared_key_is_read(one: Declared) -> None:
    """A value that no key takes is found: a key that nothing reads would pass with it."""
    assert errors(found(one, SPOILED)), (
        f"nothing reads {one}: where its mapping is read, take its value by "
        f"{one.table.__name__}.{one.key.name}")


def test_the_meaning_of_a_key_is_written_out() -> None:
    """{range} and {words} stand for what the reader of the key takes."""
    left = [str(one) for one in ALL
            if re.search(r"[{](range|words)[}]", explained(one.key, one.table))]
    assert not left


def test_what_a_kind_of_band_asks_for_is_declared() -> None:
    asked = {name for kind in KINDS.values() for name in (*kind.asks, *kind.needs)}
    assert asked <= BandKeys.keys.keys()


def test_a_key_that_is_not_declared_cannot_be_read() -> None:
    here = Place(FILE, 1, 1)
    fields = Fields(Findings(), Table({}, here), "", here, "the pattern", PatternKeys)
    assert fields.entry(PatternKeys.title) is None
    for strange in (BandKeys.pick_up, YarnKeys.fibre):
        with pytest.raises(KeyError):
            fields.entry(strange)
