"""What a reader may change, as a source says it, and what is found in other words."""

from __future__ import annotations

import pytest
from walebook.pages.from_texts import read_beds, read_charts
from walebook.pattern.publishing import ReaderChange
from walebook.proof.texts import read_texts

from tests.laws.test_own_gauge import CARDIGAN, SHELF
from tests.laws.test_own_measures import allowing

EXPECTED = "nothing, gauge within 10 %, measures within 6 cm, or the last two with a comma"


def read(may: str, *keeps: str) -> tuple[ReaderChange | None, list[str]]:
    texts = allowing(CARDIGAN, may, *keeps)
    pattern, found = read_texts(texts, beds=read_beds(SHELF["beds"], []),
                                charts=read_charts(SHELF["charts"], texts, []))
    return pattern and pattern.reader_change, [f"{p.code}: found {p.found}; expected {p.expected}"
                                               for p in found]


@pytest.mark.parametrize("said, gauge, within, measures, by", [
    ("gauge", True, None, False, None), ("gauge within 10 %", True, 10, False, None),
    ("measures", False, None, True, None), ("measures within 6 cm", False, None, True, 60),
    ("gauge, measures", True, None, True, None), ("measures, gauge", True, None, True, None),
    ("gauge within 8 %, measures within 2 in", True, 8, True, 50.8)])
def test_what_she_may_change_is_read(said: str, gauge: bool, within: int | None, measures: bool,
                                     by: float | None) -> None:
    change, found = read(f'"{said}"')
    assert change is not None and not found
    assert (change.gauge, change.within, change.measures) == (gauge, within, measures)
    assert (change.measures_within and float(change.measures_within.mm)) == by


@pytest.mark.parametrize("said", ["all", "gauge, gauge", "gauge measures", "gauge,", ", measures",
                                  "nothing, gauge", "gauge within 6 cm"])
def test_other_words_are_refused(said: str) -> None:
    assert read(f'"{said}"') == (None, [f'unknown-word: found "{said}"; expected {EXPECTED}'])


def test_a_limit_has_its_range() -> None:
    assert read("measures within 80 cm")[1] == [
        'out-of-range: found "80 cm"; expected a length from 5 mm to 60 cm']
    assert read("measures within 6")[1][0].startswith("bad-length: ")


def test_what_must_stay_is_named() -> None:
    (found,) = read("measures", "buttons", "chest", "sleeve_length", "chset")[1]
    assert found.startswith('unknown-name: found nothing called "chset" that a reader could change')
    assert "chest" in found.partition("expected")[2]


def test_something_that_must_stay_where_nothing_may_change_is_told_of() -> None:
    (found,) = read("nothing", "buttons")[1]
    assert found.startswith("unused: found reader_must_keep where a reader may change nothing")
