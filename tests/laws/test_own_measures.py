"""A reader's own measures: her page is what the engine makes of a source that has her figures.

The engine from outside is given the source with the figures written into it as a designer would
write them: under `body` what a chart has, under `measures` the rest, for her size alone.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from random import Random
from typing import Any

import pytest
import yaml
from walebook.core.problems import has_errors
from walebook.forms.registry import FORMS
from walebook.pages.own_gauge_door import answer, offered
from walebook.pattern.model import Pattern
from walebook.proof.own_measures import near_measures
from walebook.proof.proof import prove_alone
from walebook.proof.texts import Texts
from walebook.source.fabric_reading import size_slug

from tests.laws.test_own_gauge import (
    CARDIGAN,
    HAT,
    SEED,
    SHELF,
    SLUGS,
    body,
    hers,
    page_text,
    pattern_of,
    read,
    swatch,
    texts_of,
)

MAY = "reader_may_change"


def allowing(slug: str, may: str, *keeps: str) -> Texts:
    """A pattern of the collection whose reader may change so much."""
    source = re.sub(r"(?m)^reader_\w+: .*\n", "", texts_of(slug).source)
    kept = f"reader_must_keep: [{', '.join(keeps)}]\n" if keeps else ""
    return replace(texts_of(slug), source=f"{MAY}: {may}\n{kept}{source}")


@cache
def offer(texts_slug: str, may: str, *keeps: str) -> dict[str, Any]:
    texts = allowing(texts_slug, may, *keeps)
    made: dict[str, Any] = json.loads(offered(read(texts), texts, **SHELF, units="cm first"))
    return made


def ask(slug: str, size: str, measures: dict[str, str], *keeps: str, may: str = "gauge, measures",
        swatches: dict[str, dict[str, str]] | None = None) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(answer(json.dumps(
        {**offer(slug, may, *keeps)["asked"], "size": size_slug(size), "swatches": swatches or {},
         "measures": measures})))
    return made


def written_in(slug: str, size: str, figures: dict[str, str]) -> Pattern:
    """The pattern whose source has these figures for one size, by an ordinary YAML library."""
    pattern = pattern_of(slug)
    spec = pattern.garment
    assert spec is not None
    tree = yaml.load(texts_of(slug).source, yaml.BaseLoader)
    garment = tree["garment"]
    rows = {name.replace(" ", "_").replace("-", "_"): name for name in spec.chart.rows}
    for name, text in figures.items():
        if name in rows:
            there = garment.setdefault("body", {}).get(rows[name], {})
            by_size = there if isinstance(there, dict) else dict.fromkeys(pattern.sizes, there)
            garment["body"][rows[name]] = {**by_size, size: text}
        else:
            usual = FORMS[spec.form].measures.get(name)
            there = garment.setdefault("measures", {}).get(name, usual)
            by_size = there if isinstance(there, dict) else dict.fromkeys(pattern.sizes, there)
            garment["measures"][name] = {**by_size, size: text}
    # Written as JSON, which is YAML, so that no text becomes a number.
    return read(replace(texts_of(slug), source=json.dumps(tree, ensure_ascii=False)))


GARMENTS = [slug for slug in SLUGS if pattern_of(slug).garment is not None
            and "shared" not in texts_of(slug).source]


@pytest.mark.parametrize("number", [pytest.param(n, marks=() if n < 8 else pytest.mark.long)
                                    for n in range(200)])
def test_her_page_is_that_of_a_source_with_her_measures(number: int) -> None:
    random = Random(f"measures {SEED} {number}")
    able: list[dict[str, str]] = []
    while not able:  # a size that is cut by no measure that a reader could have is drawn again
        slug = random.choice(GARMENTS)
        size = random.choice(pattern_of(slug).sizes)
        able = offer(slug, "gauge, measures")["measures"][size_slug(size)]
    figures = {}
    for one in random.sample(able, min(2, len(able))):
        centimetres = Fraction(one["theirs"].removesuffix(" cm").replace("−", "-"))
        figures[one["name"]] = f"{float(centimetres + random.randint(-6, 6) / Fraction(2)):g} cm"
    made = ask(slug, size, figures)
    if "unread" in made:  # a figure below nothing, beyond what any garment has
        assert any(text.startswith("-") or text.startswith("0") for text in figures.values())
        return
    proof, found = prove_alone(written_in(slug, size, figures), size)
    if proof is None:
        assert has_errors(found) and made["refused"]["said"]
        return
    # What a page calls a figure of the chart: printed there and mended, or given beside it.
    theirs, own = (re.sub(r", (?:mended to|yours|filled in)\b[^,\]]*", "", text) for text in (
        body(page_text(proof, size)), hers(made["page"]["html"])))
    places = re.compile(r'"(?:line|column)":[0-9]+')
    assert places.sub("", own) == places.sub("", theirs)


def test_a_chest_is_counted_as_the_sum_in_the_source_says() -> None:
    """Slack Tide is (chest + 8 cm) / 2 wide. Its body has 20 stitches over 15.4 cm, and the mean
    of its three swatches is 15.4: 97 + 8 = 105, 52.5 cm are 68.2 stitches, and 2 for the seams."""
    html = ask(CARDIGAN, "M", {"chest": "97 cm"})["page"]["html"]
    assert "Back: cast on: 68 stitches → 70 stitches" in html
    assert "yours 97 cm" in html
    assert "Chest: 97 cm. The designer’s page has 94 cm" in html


def test_only_what_the_designer_allows_can_be_entered() -> None:
    named = {one["name"] for one in offer(CARDIGAN, "measures", "chest")["measures"]["m"]}
    assert "ease" in named and "sleeve_length" in named and "chest" not in named
    assert offer(CARDIGAN, "measures")["fabrics"] == []
    assert not any(offer(CARDIGAN, "gauge")["measures"].values())
    (wrong,) = ask(CARDIGAN, "M", {"chest": "97 cm"}, "chest")["unread"]
    assert wrong["measure"] == "chest" and "stay" in wrong["said"]


@pytest.mark.parametrize("text, is_far", [("100 cm", False), ("100.1 cm", True), ("88 cm", False),
                                          ("87.9 cm", True), ("39.5 in", True)])
def test_a_measure_further_off_than_she_allows_is_refused(text: str, is_far: bool) -> None:
    """The chart's chest of size M is 91.5 to 96.5 cm, 94 in the middle; 39.5 in are 100.3 cm."""
    made = ask(CARDIGAN, "M", {"chest": text}, may="measures within 6 cm")
    assert ("refused" in made and "at most 6 cm" in made["refused"]["said"][0]) is is_far


@pytest.mark.parametrize("text", ["", "97", "many", "97 cm + 1 cm", "chest", "401 cm", "0 cm",
                                  "97 kg", "1/0 cm", "<b>"])
def test_a_figure_that_is_no_length_is_named(text: str) -> None:
    ((name, said),) = [each.values() for each in ask(CARDIGAN, "M", {"chest": text})["unread"]]
    assert name == "chest" and said.startswith("Chest: write a length from")


def test_a_number_of_buttons_that_must_stay_stays_or_is_refused_with_what_works() -> None:
    """The front band of Slack Tide has a button every 8.5 cm: 12 cm more are one more button."""
    longer = {"body_length": "70.5 cm"}
    assert "page" in ask(CARDIGAN, "M", longer)
    refused = ask(CARDIGAN, "M", longer, "buttons")["refused"]
    assert any(re.search(r"Front band: .* buttonholes\. The designer wants it to keep \d", text)
               for text in refused["said"])
    tried = [each["text"] for each in refused["gauges"]]
    assert all("page" in ask(CARDIGAN, "M", {"body_length": text}, "buttons") for text in tried)
    works = ask(CARDIGAN, "M", {"body_length": "60 cm"}, "buttons")
    assert "page" in works


def test_a_band_keeps_its_depth_within_a_row() -> None:
    """A band of 5 cm is whole rows at any gauge: within half a row of 5 cm."""
    slack = {"band": swatch("20 cm", "19 cm")}
    assert "page" in ask(CARDIGAN, "M", {}, "band depths", swatches=slack)


def test_gauge_and_measures_make_one_page_with_one_name() -> None:
    plain = {"plain": swatch("14.3 cm", "14.4 cm")}

    def made(**more: Any) -> dict[str, str]:
        page: dict[str, str] = ask(HAT, "woman", **more)["page"]
        return page
    gauge, both = made(measures={}, swatches=plain), made(measures={"head": "58 cm"},
                                                          swatches=plain)
    alone, inches = made(measures={"head": "58.42 cm"}), made(measures={"head": "23 in"})
    assert alone["name"] == inches["name"]
    assert len({gauge["name"], both["name"], alone["name"]}) == 3
    assert gauge["mark"].startswith("My gauge: ") and "measures" not in gauge["mark"]
    assert both["mark"] == f"{gauge['mark']}. My measures" and alone["mark"] == "My measures"
    assert "made for your gauge and measures." in both["html"]


def test_near_none_there_are_no_measures() -> None:
    """A refusal of a gauge with no measure of hers looked for ever for a measure that works."""
    assert not list(near_measures({}))
