"""A refusal at a reader's own figures says how many others were tried, and how far from hers."""

from __future__ import annotations

import json
from typing import Any

import pytest
from walebook.pages import own_gauge_door as door
from walebook.proof import near_gauges, own_gauge
from walebook.proof.own_gauge import Wanted
from walebook.source.fabric_reading import size_slug
from walebook.words.own_gauge_text import searched

from tests.laws.test_own_gauge import asked_of

CARDIGAN = "slack-tide-cardigan"
BODY = {"stitches": "20", "width": "15.4 cm", "rows": "30", "height": "16.6 cm"}
BAND = {"stitches": "20", "width": "12 cm", "rows": "30", "height": "12 cm"}


@pytest.fixture
def tried(monkeypatch: pytest.MonkeyPatch) -> list[Wanted]:
    """Everything that is tried in turn, while nothing works."""
    found: list[Wanted] = []

    def works(ground: object, pattern: object, wanted: Wanted, theirs: object) -> bool:
        found.append(wanted)
        return False
    for module in (near_gauges, own_gauge):
        monkeypatch.setattr(module, "works", works)
    return found


def wanted_of(swatches: dict[str, dict[str, str]], measures: dict[str, str]) -> Wanted:
    return Wanted(size="M", swatches=swatches, measures=measures)


def mm(text: str) -> float:
    number, _, unit = text.partition(" ")
    return float(number) * {"cm": 10, "in": 25.4}[unit]


@pytest.mark.parametrize("keys", [("body",), ("body", "band")])
def test_as_many_gauges_are_tried_as_is_said_and_as_far_from_hers(
        tried: list[Wanted], keys: tuple[str, ...]) -> None:
    """Each is tried once; behind them come the designer's gauges, of each fabric and of all."""
    given = {"body": BODY, "band": BAND}
    wanted = wanted_of({key: given[key] for key in keys}, {})
    texts = asked_of(CARDIGAN)["asked"]
    ground, pattern = door._designers(json.dumps({key: texts[key] for key in door._TEXTS}))
    assert near_gauges.near_gauges(ground, pattern, wanted) == ()
    tries, steps = near_gauges.gauges_searched(wanted)
    around = [each.swatches for each in tried[:tries]]
    assert len({json.dumps(each, sort_keys=True) for each in around}) == tries
    assert len(tried) == tries + (1 if len(keys) == 1 else len(keys) + 1)
    off = {round(abs(mm(each[key][side]) - mm(given[key][side])))
           for each in around for key in keys for side in ("width", "height")}
    assert max(off) == steps


@pytest.mark.parametrize("measures", [{"chest": "94 cm"}, {"chest": "94 cm", "ease": "10 cm"}])
def test_as_many_measures_are_tried_as_is_said_and_as_far_from_hers(
        tried: list[Wanted], measures: dict[str, str]) -> None:
    """A step is half a centimetre."""
    wanted = wanted_of({}, measures)
    texts = asked_of(CARDIGAN)["asked"]
    ground, pattern = door._designers(json.dumps({key: texts[key] for key in door._TEXTS}))
    assert list(own_gauge.measures_near(ground, pattern, wanted)) == []
    tries, steps = own_gauge.measures_searched(wanted)
    assert len(tried) == tries
    assert max(abs(mm(each.measures[name]) - mm(text)) for each in tried
               for name, text in measures.items()) == steps * 5


def test_only_what_was_tried_is_named() -> None:
    assert near_gauges.gauges_searched(wanted_of({}, {"chest": "94 cm"})) == (0, 0)
    assert own_gauge.measures_searched(wanted_of({"body": BODY}, {})) == (0, 0)
    assert searched((32, 4), (0, 0)) == (
        "32 gauges near yours were tried, up to 4 mm (or 4/16 in) wider, narrower, higher or lower "
        "on a swatch, and then the designer’s gauge. None of them works.")
    assert searched((0, 0), (24, 12)) == (
        "24 measures near yours were tried, each up to 6 cm (or 3 in) more or less. None of them "
        "works.")


def test_the_designers_size_is_proved_once_for_all_gauges_of_a_reader(
        monkeypatch: pytest.MonkeyPatch) -> None:
    """And anew for another size, or another source."""
    sizes: list[str] = []

    def counted(pattern: Any, size: str) -> Any:
        sizes.append(size)
        return prove(pattern, size)
    prove = door.prove_alone
    monkeypatch.setattr(door, "prove_alone", counted)
    door._designers_size.cache_clear()
    texts = asked_of(CARDIGAN)["asked"]
    for width, size, more in (("15 cm", "M", ""), ("15.2 cm", "M", ""), ("15 cm", "L", ""),
                              ("15 cm", "L", "\n# changed\n")):
        asked = {**texts, "source": texts["source"] + more, "size": size_slug(size),
                 "swatches": {"body": {**BODY, "width": width}}, "measures": {}}
        assert "page" in json.loads(door.answer(json.dumps(asked)))
    assert sizes == ["M", "L", "L"]
