"""A reader's own gauge: her page is what the engine makes of a source that has her swatch.

The engine from outside is `make` and `write_pages`, which know of no reader: they are given the
pattern's source with her figures written into it.
"""

from __future__ import annotations

import json
import os
import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from walebook.core.problems import has_errors
from walebook.pages import own_gauge_door, page_names, write_page
from walebook.pages.from_texts import read_beds, read_charts
from walebook.pages.own_gauge_door import answer, offered
from walebook.pages.page_facts import BLOCK
from walebook.pattern.model import Pattern
from walebook.proof import own_gauge
from walebook.proof.proof import Proof, prove, prove_alone
from walebook.proof.texts import Texts, read_texts
from walebook.source.fabric_reading import size_slug
from walebook.source.keys.pattern_keys import PatternKeys
from walebook_site.reading import Reading

from tests.laws.texts import read_folder
from tests.whole_collection import collection, files

ROOT = Path(__file__).parents[2]
SHELF = read_folder(ROOT)
SLUGS = Reading(ROOT).folders()
SEED = int(os.environ.get("WALEBOOK_SEED", "16"))
HAT, CARDIGAN, MIXED = "tideline-hat", "slack-tide-cardigan", "dinghy-slipover"
REFUSED = 4 if os.environ.get("WALEBOOK_LONG_RUN") else 1  # each may try some tens of gauges
MOVES = 12 if os.environ.get("WALEBOOK_LONG_RUN") else 2  # swatches at which holes are moved
Swatch = dict[str, str]


@cache
def texts_of(slug: str) -> Texts:
    folder = Reading(ROOT).folder(slug)
    assert folder.source is not None
    return Texts(slug=slug, source=folder.source, pictures=folder.pictures,
                 picture_sizes=folder.picture_sizes, shared=folder.shared)


def read(texts: Texts) -> Pattern:
    pattern, found = read_texts(texts, beds=read_beds(SHELF["beds"], []),
                                charts=read_charts(SHELF["charts"], texts, []))
    assert pattern is not None, found
    return pattern


@cache
def pattern_of(slug: str) -> Pattern:
    return read(texts_of(slug))


@cache
def asked_of(slug: str) -> dict[str, Any]:
    said: dict[str, Any] = json.loads(offered(pattern_of(slug), texts_of(slug), **SHELF,
                                              units="cm first"))
    return said


def ask(slug: str, size: str, swatches: dict[str, Swatch], **more: Any) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(answer(json.dumps(
        {**asked_of(slug)["asked"], "size": size_slug(size), "swatches": swatches, **more})))
    return made


def page_text(proof: Proof, size: str) -> str:
    return write_page(proof, f"patterns/{proof.pattern.slug}/{size_slug(size)}.md").text


def body(text: str) -> str:
    """A page as the site writes it, without its head and its title."""
    return text.partition(" { #size }\n\n")[2].strip()


def hers(html: str) -> str:
    """Her page without its title and what says whose it is."""
    return html.partition("</section>\n")[2].strip()


def cases(many: int) -> list[Any]:
    """Sizes of the collection: some by a seed, the rest when all is run."""
    every = [(slug, size) for slug in SLUGS for size in pattern_of(slug).sizes]
    # The chart of the dinghy slipover has heads by age for some of its sizes alone.
    some = {*Random(SEED).sample(every, many), *(one for one in every if one[0] == MIXED)}
    return [pytest.param(*one, marks=() if one in some else pytest.mark.long) for one in every]


@pytest.mark.parametrize("slug, size", cases(8))
def test_a_size_proved_alone_has_the_page_that_it_has_among_all(slug: str, size: str) -> None:
    proof = next(each for each in collection().proofs if each.pattern.slug == slug)
    one, _ = prove_alone(proof.pattern, size)
    assert one is not None
    assert [each.size for each in one.sizes] == [size]
    assert page_text(one, size) == files()[f"patterns/{slug}/{size_slug(size)}.md"]
    counts = page_names(proof)[-1]
    own = json.loads(write_page(one, counts).text)["counts"]
    assert own == {size: json.loads(files()[counts])["counts"][size]}


SWATCH = re.compile(r"swatch: \{[^}]*\}")


def drawn(random: Random, key: str, pattern: Pattern) -> Swatch:
    """A swatch up to a quarter narrower or wider, lower or higher, than the designer's."""
    return near(random, key, pattern, .25)


def near(random: Random, key: str, pattern: Pattern, most: float) -> Swatch:
    """A swatch that differs from the designer's by so much at most."""
    swatch = pattern.fabrics[key].swatches[0]
    width, height = (round(float(side.mm) * (1 + random.uniform(-most, most)))
                     for side in (swatch.width, swatch.height))
    return {"stitches": str(swatch.stitches), "width": f"{width} mm", "rows": str(swatch.rows),
            "height": f"{height} mm"}


def written_in(slug: str, swatches: dict[str, Swatch]) -> Texts:
    """The source with these swatches in it, one for each fabric, in their order."""
    left = [f"swatch: {{{', '.join(f'{k}: {v}' for k, v in swatches[key].items())}}}"
            for key in pattern_of(slug).fabrics]
    source = texts_of(slug).source
    assert len(SWATCH.findall(source)) == len(left)
    return replace(texts_of(slug), source=SWATCH.sub(lambda _: left.pop(0), source))


PLAIN = [slug for slug in SLUGS if len(SWATCH.findall(texts_of(slug).source))
         == len(pattern_of(slug).fabrics) and "shared" not in texts_of(slug).source]


@pytest.mark.parametrize("number", [pytest.param(n, marks=() if n < 8 else pytest.mark.long)
                                    for n in range(400)])
def test_her_page_is_that_of_a_source_with_her_swatches(number: int) -> None:
    random = Random(f"{SEED} {number}")
    slug = random.choice(PLAIN)
    pattern = pattern_of(slug)
    size = random.choice(pattern.sizes)
    swatches = {key: drawn(random, key, pattern) for key in pattern.fabrics}
    allowed = written_in(slug, swatches)
    proof, found = prove(read(allowed), size)
    # Whatever the designer allows: how far a gauge may be from hers has its own test.
    source = re.sub(r"(?m)^reader_may_change: .*\n", "", texts_of(slug).source)
    made = ask(slug, size, swatches, source=source)
    if proof is not None:
        assert hers(made["page"]["html"]) == body(page_text(proof, size))
    elif any(size in (each.size, *each.more_sizes) for each in found if has_errors([each])):
        assert "page" not in made or MOVED in made["page"]["html"]
        assert "page" in made or made["refused"]["said"]
    else:  # other sizes are refused at this gauge, and hers is not
        assert made["page"]


MOVED = "The uppermost buttonhole lies "


def test_holes_that_would_lie_on_a_seam_are_moved_as_her_page_says() -> None:
    """Swatches of Slack Tide off by 6 % at most: a source with that distance has the same page."""
    texts, pattern, moved = texts_of(CARDIGAN), pattern_of(CARDIGAN), 0
    for number in range(12):
        random = Random(f"holes {SEED} {number}")
        swatches = {key: near(random, key, pattern, .06) for key in pattern.fabrics}
        made = ask(CARDIGAN, "m", swatches)
        html = made["page"]["html"] if "page" in made else ""
        if MOVED not in html:
            continue
        moved += 1
        if moved > MOVES:
            break
        (further,) = re.findall(MOVED + r"(\d+) stitch", html)
        assert not re.search(r"yaml|upper:", html)
        source = texts.source.replace("upper: 5 stitches", f"upper: {5 + int(further)} stitches")
        assert source != texts.source
        own = ask(CARDIGAN, "m", swatches, source=source)["page"]["html"]
        assert MOVED not in own and hers(own) == hers(html)
    assert moved


def test_most_of_the_collection_is_drawn() -> None:
    assert len(PLAIN) > len(SLUGS) // 2


def swatch(width: str, height: str, **more: str) -> Swatch:
    return {"stitches": "30", "width": width, "rows": "40", "height": height, **more}


def test_her_page_is_marked_as_hers_and_leads_to_the_designers() -> None:
    html = ask(HAT, "woman", {"plain": swatch("14 cm", "14.4 cm")})["page"]["html"]
    mine = html.partition('<section class="wb-mine"')[2].partition("</section>")[0]
    assert "30 stitches over 14 cm, 40 rows over 14.4 cm" in mine
    assert 'href="woman.html"' in mine
    assert "as the designer measured it" in mine  # the brim, of which she said nothing
    assert html.index("wb-mine") < html.index(BLOCK)


def test_what_differs_from_the_designers_page_is_told_and_nothing_else() -> None:
    """30 stitches over 15.2 cm are the designer's swatch: there nothing differs."""
    same = ask(HAT, "woman", {"plain": swatch("15.2 cm", "14.4 cm")})["page"]["html"]
    assert "No count differs" in same
    other = ask(HAT, "woman", {"plain": swatch("13.8 cm", "14.4 cm")})["page"]["html"]
    listed = re.findall(r"<li>Hat: cast on: (\d+) stitches → (\d+) stitches</li>", other)
    assert len(listed) == 1 and int(listed[0][0]) < int(listed[0][1])


def test_one_gauge_has_one_name_in_whatever_units_it_was_measured() -> None:
    def name(width: str, version: str = "1.0.1", **more: str) -> str:
        source = texts_of(HAT).source.replace("version: 1.0.1", f"version: {version}", 1)
        made = ask(HAT, "woman", {"plain": swatch(width, "14.4 cm", **more)}, source=source)
        return str(made["page"]["name"])
    assert name("12.7 cm") == name("127 mm") == name("5 in")
    assert len({name("12.7 cm"), name("12.8 cm"), name("12.7 cm", mass="8 g"),
                name("12.7 cm", version="1.0.2")}) == 4
    assert re.fullmatch(r"my-[0-9.]+-[0-9a-f]{12}", name("12.7 cm"))


def test_a_mass_that_she_did_not_weigh_is_not_known() -> None:
    weighed = ask(HAT, "woman", {"plain": swatch("15 cm", "14.4 cm", mass="8.4 g")})
    unweighed = ask(HAT, "woman", {"plain": swatch("15 cm", "14.4 cm")})
    assert weighed["page"]["html"] != unweighed["page"]["html"]


@pytest.mark.parametrize("field, text", [
    ("stitches", ""), ("stitches", "many"), ("stitches", "0"), ("width", "15"), ("width", "15 g"),
    ("width", ""), ("rows", "1.5"), ("height", "300 cm"), ("mass", "heavy"), ("width", "<b>")])
def test_a_figure_that_cannot_be_read_is_named(field: str, text: str) -> None:
    made = ask(HAT, "woman", {"plain": {**swatch("15 cm", "14 cm"), field: text}})
    ((fabric, name, said),) = [each.values() for each in made["unread"]]
    assert (fabric, name) == ("plain", field) and said.lower().startswith(field)


@cache
def refusals() -> list[tuple[str, str, dict[str, Swatch], dict[str, Any]]]:
    """Some gauges at which a size cannot be knitted, with what is said of it."""
    found = []
    number = 0
    while len(found) < REFUSED:
        number += 1
        random = Random(f"refused {SEED} {number}")
        slug = random.choice(SLUGS)
        pattern = pattern_of(slug)
        size, key = random.choice(pattern.sizes), next(iter(pattern.fabrics))
        swatches = {key: drawn(random, key, pattern)}
        made = ask(slug, size, swatches)
        if "refused" in made and made["refused"]["gauges"]:
            found.append((slug, size, swatches, made["refused"]))
    return found


@pytest.mark.parametrize("number", range(REFUSED))
def test_a_refusal_is_a_knitters_and_what_it_proposes_works(number: int) -> None:
    slug, size, swatches, refused = refusals()[number]
    told = " ".join((*refused["said"], *(each["said"] for each in refused["gauges"])))
    assert not re.search(r"\.yaml|\bline \d|_|[{}<>]", told)
    keys = {key for key in PatternKeys.keys if "_" in key}
    assert not any(key in told for key in keys)
    for each in refused["gauges"]:
        assert "page" in ask(slug, size, {**swatches, **each["swatches"]})
    for other in refused["sizes"]:
        assert other != size and "page" in ask(slug, other, swatches)
    others = [each for each in pattern_of(slug).sizes if each != size]
    assert sorted(refused["sizes"]) == sorted(
        each for each in others if "page" in ask(slug, each, swatches))


def test_a_refusal_far_from_all_that_works_tries_few_gauges_and_finds_one(
        monkeypatch: pytest.MonkeyPatch) -> None:
    """Size L at stitches a sixth narrower takes more needles than the bed has, and 6 mm more of a
    swatch do not help. A slow phone takes a quarter of a second for each gauge (DEVELOPERS.md)."""
    slug, size = "harbour-bell-slipover", "L"
    one = pattern_of(slug).fabrics["body"].swatches[0]
    swatches = {"body": {"stitches": str(one.stitches), "rows": str(one.rows),
                         "width": f"{round(one.width.mm * 84 / 100) / 10} cm",
                         "height": f"{round(one.height.mm * 117 / 100) / 10} cm"}}
    tried, plain = [], own_gauge.make
    monkeypatch.setattr(own_gauge, "make", lambda *given: tried.append(given) or plain(*given))
    refused = ask(slug, size, swatches)["refused"]
    others = len(pattern_of(slug).sizes) - 1
    assert 0 < len(tried) <= 32 + 8 * len(swatches) + others
    assert refused["gauges"]
    for each in refused["gauges"]:
        assert "page" in ask(slug, size, {**swatches, **each["swatches"]})


def test_her_page_takes_two_proofs_hers_and_the_designers(
        monkeypatch: pytest.MonkeyPatch) -> None:
    """Slack Tide's bands must keep their depths, and the page names what differs: one proof does
    for both. A slow phone takes a quarter of a second for each."""
    proved, plain = [], prove_alone

    def counted(pattern: Pattern, size: str) -> Any:
        proved.append(pattern)
        return plain(pattern, size)
    for module in (own_gauge, own_gauge_door):
        monkeypatch.setattr(module, "prove_alone", counted)
    body = {"stitches": "20", "width": "15.6 cm", "rows": "30", "height": "16.8 cm"}
    assert "page" in ask(CARDIGAN, "M", {"body": body})
    assert pattern_of(CARDIGAN).reader_keeps and len(proved) == 2


# Off in all fabrics, drawn up to a quarter: with any one of them at the designer's gauge the first
# two sizes cannot be knitted; the stitches of the others are wider than they are near what works.
OFF = [("harbour-master-pullover", "2X", {"body": ("135", "165"), "band": ("107", "129")}, 2),
       ("watch-below-robe", "2X", {"body": ("166", "164"), "band": ("131", "139")}, 2),
       ("skerry-smock", "M", {"body": ("175", "119"), "band": ("114", "159")}, 1),
       ("mudlark-pullover", "10", {"body": ("166", "111"), "band": ("131", "137")}, 1)]


@pytest.mark.parametrize("slug, size, sides, together", OFF)
def test_a_refusal_with_several_fabrics_off_names_a_gauge_that_works(
        slug: str, size: str, sides: dict[str, tuple[str, str]], together: int) -> None:
    fabrics = pattern_of(slug).fabrics
    swatches = {key: {"stitches": str(fabrics[key].swatches[0].stitches), "width": f"{width} mm",
                      "rows": str(fabrics[key].swatches[0].rows), "height": f"{height} mm"}
                for key, (width, height) in sides.items()}
    source = re.sub(r"(?m)^reader_may_change: .*\n", "", texts_of(slug).source)
    refused = ask(slug, size, swatches, source=source)["refused"]
    assert refused["gauges"] and {len(each["swatches"]) for each in refused["gauges"]} == {together}
    for each in refused["gauges"]:
        assert "page" in ask(slug, size, {**swatches, **each["swatches"]}, source=source)


@pytest.mark.parametrize("unit, widths", [("cm", ("13.4 cm", "18.1 cm")),
                                          ("in", ("5.3125 in", "7.125 in"))])
def test_the_limit_is_told_in_her_own_stitches_and_unit(unit: str, widths: tuple[str, str]) -> None:
    """Slack Tide: 20 stitches are 154 mm, and 15 % of it either way is from 154 / 1.15 = 133.9 mm
    (5.27 in) to 154 / 0.85 = 181.2 mm (7.13 in). A sixteenth of an inch is 0.0625 in. To 10 cm they
    are 2000 / 154 = 12.99 stitches and 3000 / 166 = 18.07 rows: 0.85 and 1.15 of them are 11.04 and
    14.94, 15.36 and 20.78."""
    def at(width: str, height: str = "16.6 cm") -> dict[str, Any]:
        return ask(CARDIGAN, "L", {"body": {"stitches": "20", "width": width, "rows": "30",
                                            "height": height}})
    far = "12 cm" if unit == "cm" else "4.75 in"
    _, limit, said = at(far)["refused"]["said"]
    assert limit == "Within this limit are 11.1 to 14.9 stitches and 15.4 to 20.7 rows to 10 cm."
    assert f"20 stitches are {widths[0]} to {widths[1]} wide" in said
    assert all("most 15 %" not in json.dumps(at(width)) for width in widths)
    lowest, highest = re.findall(r"30 rows are (\S+ cm) to (\S+ cm) high", said)[0]
    assert all("most 15 %" not in json.dumps(at(widths[0], side)) for side in (lowest, highest))


def test_a_gauge_further_off_than_the_designer_allows_is_refused() -> None:
    """Slack Tide allows 15 %: 20 stitches over 15.4 cm are 7.7 mm each, and 7.7 / 1.15 is 6.70."""
    pattern = pattern_of(CARDIGAN)
    assert pattern.reader_change is not None and pattern.reader_change.within == 15

    def at(width: str) -> dict[str, Any]:
        return ask(CARDIGAN, "L", {"body": {"stitches": "20", "width": width, "rows": "30",
                                            "height": "16.6 cm"}})
    refused = at("13.3 cm")["refused"]
    assert "15 %" in refused["said"][0]
    assert refused["gauges"] is None  # none was tried, and nothing is said of others
    assert "page" in at("13.5 cm")


def test_a_bed_with_the_needles_that_are_told_is_enough_and_a_smaller_one_is_not() -> None:
    """Its bed is made so short that size L is knitted at the designer's gauge, and not at hers."""
    swatches = {"body": {"stitches": "20", "width": "13.5 cm", "rows": "30", "height": "16.6 cm"}}

    def on(needles: int) -> dict[str, Any]:
        # What must stay is that of the designer's own page, which other sizes have not on this bed.
        source = re.sub(r"(?m)^reader_must_keep: .*\n", "", texts_of(CARDIGAN).source).replace(
            "bed: bulky", f"bed: {{pitch: 9 mm, needles: {needles}}}")
        return ask(CARDIGAN, "L", swatches, source=source)
    said = " ".join(on(80)["refused"]["said"])
    (needles,) = map(int, re.findall(r"a bed of (\d+) needles", said))
    assert needles > 80 and "page" in on(needles) and "refused" in on(needles - 2)


def test_what_is_offered_holds_no_notes() -> None:
    texts = replace(texts_of(HAT), notes="For my sister alone.")
    assert "sister" not in offered(pattern_of(HAT), texts, **SHELF, units="cm first")
