"""What stands on the generated pages, read back from their text and held against the bed.

Figures of the worked example are common practice, no source: 52 rows, three stitches for every
four rows, 39 stitches, five holes of three. Where a rule comes from elsewhere, it is named there.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import replace
from html import escape, unescape
from pathlib import Path
from xml.etree import ElementTree

import jsonschema
import jsonschema_rs
import pytest
import yaml
from walebook.machine.needles import every_other
from walebook.pages import pattern_card, write_pages
from walebook.pages.counts_schema import counts_schema
from walebook.pattern.corrections import Correction
from walebook.pattern.model import Fold, Wearer
from walebook.pattern.pictures import Picture
from walebook.proof.proof import Proof

from tests.needle_names import needle
from tests.site.quay_lamp import (
    PATTERNS,
    SIZES,
    Reader,
    body_html,
    built,
    pages,
    proved,
    with_band,
    worked,
)

SITE = Path(__file__).parents[2] / "site_src"
HOSTILE = ('<script>alert(1)</script>', '"><img src=x onerror=alert(1)>', "' onmouseover='x",
           "](javascript:alert(1))", "{ onclick=alert(1) }", "&lt;script&gt;", "`<b>` **x** _y_",
           "<!-- --><svg onload=alert(1)>")


@pytest.fixture(scope="module", params=PATTERNS, ids=lambda name: name.replace(" ", "-"))
def proof(request) -> Proof:
    return proved(PATTERNS[request.param])


# Nothing of a source can become markup or a script


@pytest.mark.parametrize("hostile", HOSTILE)
def test_no_text_of_a_source_becomes_markup(hostile):
    pattern = worked()
    nasty = replace(
        pattern, title=hostile, summary=hostile, designer=hostile, licence=hostile,
        skills=(hostile,), corrections=(Correction(date="2026-11-21", text=hostile),),
        notes=hostile, version=hostile,
        yarns={"wool": replace(pattern.yarns["wool"], name=hostile, fibre=hostile)},
        bed=replace(pattern.bed, name=hostile), wearer=Wearer.CHILDREN,
        pictures=(Picture(file="front.png", alt=hostile),),
        bands={"front": replace(pattern.bands["front"], title=hostile)})
    plain = {path: Counter(tag for tag, _ in Reader(text).found)
             for path, text in pages(proved(replace(
                 nasty, **{name: getattr(pattern, name) for name in (
                     "title", "summary", "designer", "licence", "version", "yarns", "bed",
                     "bands")}, skills=("x",), notes="x",
                 corrections=(Correction(date="2026-11-21", text="x"),),
                 pictures=(Picture(file="front.png", alt="x"),)))).items()}
    proof = proved(nasty)
    for path, text in pages(proof).items():
        read = Reader(text).found
        tags = Counter(tag for tag, _ in read)
        extra = set(tags) - set(plain[path]) - {"code", "strong", "em"}  # Markdown of the notes
        assert not extra, f"{path}: {extra}"
        for tag, attributes in read:
            assert not [a for a in attributes if a.startswith("on")], (tag, attributes)
            assert not (attributes.get("href") or "").lower().startswith(("javascript:", "data:"))
            assert tag != "img" or attributes["src"] == "front.png"
    assert "script" not in Counter(tag for tag, _ in Reader(pattern_card(proof).html).found)


@pytest.mark.parametrize("hostile", HOSTILE)
def test_front_matter_is_yaml_that_the_theme_may_print_as_it_is(hostile):
    for path, text in built(proved(worked(title=hostile, summary=hostile))).items():
        if path.endswith(".md"):
            matter = yaml.safe_load(text.split("---\n", 2)[1])
            assert "<" not in matter["title"] and '"' not in matter["title"]
            assert unescape(matter["title"]).startswith(hostile.strip())
            assert "<" not in matter["description"] and '"' not in matter["description"]


@pytest.mark.parametrize("notes", [
    "<script>alert(1)</script>", "[x](javascript:alert(1))", "![x](https://elsewhere/x.png)",
    '<img src="front.png" onerror="x">', '<a href="data:text/html,x">x</a>',
    '<iframe src="x"></iframe>', '<p style="x" class="md-typeset" id="size">x</p>',
    "<div markdown=1>\n\n<script>x</script>\n\n</div>"])
def test_notes_keep_no_script_no_strange_picture_and_no_style(notes):
    page = pages(proved(worked(notes=notes)))["patterns/quay-lamp/index.md"]
    inside = page.split('<div class="wb-notes">')[1].split("</div>")[0]
    for tag, attributes in Reader(inside).found:
        assert tag in {"p", "a", "img"}
        assert set(attributes) <= {"href", "rel", "src", "alt"}
        assert not (attributes.get("href") or "").startswith(("javascript", "data"))
        assert tag != "img" or attributes.get("src") == "front.png"


def test_notes_are_read_as_markdown_with_headings_under_the_page_own():
    notes = "# Hello\n\nSee [us](https://example.org) and ![front](front.png)."
    page = pages(proved(worked(notes=notes, pictures=(Picture(file="front.png", alt="x"),))))[
        "patterns/quay-lamp/index.md"]
    assert "<h3>Hello</h3>" in page
    assert '<a href="https://example.org" rel="noopener">us</a>' in page
    assert page.count('src="front.png"') == 2


# Links, ids, drawings


def anchors(text: str) -> set[str]:
    return {a["id"] for _, a in Reader(text).found if a.get("id")}


def fixed_pages() -> dict[str, set[str]]:
    return {str(p.relative_to(SITE).with_suffix(".html")):
            set(re.findall(r"\{:?\s*#([\w-]+)\s*\}", p.read_text(encoding="utf-8")))
            for p in SITE.rglob("*.md")}


def test_every_link_leads_to_a_page_and_an_anchor(proof):
    here = pages(proof)
    known = fixed_pages() | {path.replace(".md", ".html"): anchors(t) for path, t in here.items()}
    known["patterns/quay-lamp/counts.json"] = set()
    for path, text in here.items():
        for tag, attributes in Reader(text).found:
            if tag != "a":
                continue
            target, _, anchor = (attributes["href"] or "").partition("#")
            parts = path.split("/")[:-1] + target.split("/")
            while ".." in parts:
                at = parts.index("..")
                del parts[at - 1:at + 1]
            page = "/".join(parts) if target else path.replace(".md", ".html")
            assert page in known, f"{path}: {attributes['href']}"
            assert not anchor or anchor in known[page], f"{path}: {attributes['href']}"


def test_ids_are_unique_and_nothing_is_lost_on_the_way_through_markdown(proof):
    for path, text in built(proof).items():
        if path.endswith(".md"):
            html = body_html(text)
            ids = [a["id"] for _, a in Reader(html).found if a.get("id")]
            assert [i for i, n in Counter(ids).items() if n > 1] == [], path
            assert html.count("<svg") == text.count("<svg")
            assert html.count("<li") == text.count("<li")


def drawings(text: str):
    for drawn in re.findall(r"<svg.*?</svg>", text, re.S):
        yield ElementTree.fromstring(drawn)


def test_drawings_are_xml_named_and_large_enough(proof):
    """Text of 12 px at 360 px: the theme leaves 328 px of them for the text column."""
    for path, text in pages(proof).items():
        for svg in drawings(text):
            if svg.get("aria-hidden") == "true":
                continue
            title = svg.find("title")
            assert svg.get("aria-labelledby") == title.get("id") and title.text
            wide = float(svg.get("viewBox").split()[2])
            for size in (e.get("font-size") for e in svg.iter() if e.get("font-size")):
                assert float(size) * min(1.6, 328 / wide) >= 12, (path, wide)
            assert not [e for e in svg.iter() if "#" in (e.get("fill") or e.get("stroke") or "")]


# What the diagrams and checkpoints say is what the bed holds


def read_needles(said: str) -> set[int]:
    """Needles named in words, as places."""
    if match := re.match(r"every other needle from (\w+) to (\w+)", said):
        return {place for place, in every_other(needle(match[1]), needle(match[2]))}
    found: set[int] = set()
    for part in re.split(r", | and ", said):
        a, _, b = part.partition(" to ")
        found |= set(range(needle(a).place, needle(b or a).place + 1))
    return found


def loops_by_needle(state) -> Counter:
    return Counter(place for _, on in state.loops for place, in on)


def told_states(proof: Proof, path: str):
    """The size whose page `path` is, with the states of both strips in a row."""
    size = next(s for s in proof.sizes
                if path.endswith(f"/{s.size.lower().replace(' ', '-')}.md"))
    return size, [state for strip in size.strips for state in strip.trace.states]


def test_every_diagram_tells_in_words_what_is_on_every_needle(proof):
    for path, text in pages(proof).items():
        if path.endswith("index.md"):
            continue
        _, states = told_states(proof, path)
        seen = {(tuple(sorted(loops_by_needle(s).items())),
                 tuple(place for place, in s.working - s.loaded)) for s in states}
        for said in re.findall(r'class="wb-needles"><svg.*?<figcaption[^>]*>(.*?)</figcaption>',
                               text, re.S):
            loops, empty, out = {}, (), set()
            for sentence in said.rstrip(".").split(". "):
                what, _, where = sentence.partition(": ")
                match = re.match(r"(\d+) loops", what)
                number = int(match[1]) if match else 1
                if what.startswith("Empty"):
                    empty = tuple(sorted(read_needles(where)))
                elif where.startswith("all others from "):
                    others = read_needles(where.removeprefix("all others from "))
                    loops |= dict.fromkeys(set(others) - loops.keys() - {*empty} - out, number)
                elif what.startswith("In non-working"):
                    out |= {*read_needles(re.sub(",? and beyond", "", where))}
                else:
                    loops |= dict.fromkeys(read_needles(where), number)
            assert (tuple(sorted(loops.items())), empty) in seen, said


def test_every_drawing_is_described_by_its_own_caption_and_told_once(proof):
    for text in pages(proof).values():
        drawn = re.findall(r'<figure class="wb-(?:needles|drawing)">(.*?)</figure>', text, re.S)
        assert drawn
        for figure in drawn:
            if "<svg" not in figure:
                known = r'<figcaption>[^<]+<a href="#[^"]+">step \d+</a>\.</figcaption>'
                assert re.fullmatch(known, figure)
                continue
            described = re.search(r'<svg[^>]* aria-describedby="([^"]+)"', figure)
            caption = re.search(r'<figcaption id="([^"]+)">[^<]+</figcaption>', figure)
            assert described and caption and described[1] == caption[1]
            assert "<desc" not in figure


def test_what_several_diagrams_of_a_part_have_in_common_is_drawn_once(proof):
    for path, text in pages(proof).items():
        for part in text.split('class="wb-task"'):
            diagrams = re.findall(r'<figure class="wb-needles">.*?</svg>', part, re.S)
            drawn = Counter(re.findall(r' d="([^"]*v4[hH][^"]*)"', "".join(diagrams)))
            assert set(drawn.values()) <= {1}, path
            ids = re.findall(r' id="([^"]+)"', part)
            assert {known for one in diagrams for known in re.findall(r'href="#([^"]+)"', one)
                    } <= set(ids), path


def test_checkpoints_are_the_bed_own_states_in_their_order(proof):
    for path, text in pages(proof).items():
        if path.endswith("index.md"):
            continue
        _, states = told_states(proof, path)
        checks = re.findall(
            r"<b>Check</b> <i><b>(?:(\d+)</b> stitch(?:es)?|no</b> stitches on the needles)[^<]*"
            r"</i> <i>row counter <b>(\d+)</b></i> <i>carriage on the <b>(\w+)</b></i>", text)
        assert len(checks) == text.count("wb-check")
        after = iter(states)
        for stitches, counter, side in checks:  # each is found after the one before
            assert any(len(loops_by_needle(s)) == int(stitches or 0) and s.counter == int(counter)
                       and s.side.value == side for s in after), (path, stitches, counter, side)


def test_the_worked_example_is_told_step_by_step():
    page = pages(proved(worked()))["patterns/quay-lamp/m.md"]
    for said in ("L20 to R19", "52 × 3/4", "2 + (5 × 3) + (4 × 5) + 2 = 39 stitches",
                 "a hole of 3 stitches offers 3 + 1 = 4 loops", "Knit 4 rows</b> to the button",
                 "<b>39</b> stitches</i> <i>row counter <b>4</b></i> <i>carriage on the <b>right",
                 "<b>24</b> stitches, 15 needles empty in working position",
                 "<b>39</b> stitches, 3 loops on each", "<b>no</b> stitches on the needles"):
        assert said in page, said


def test_a_size_page_holds_its_own_size_only_and_stays_out_of_search(proof):
    for file in write_pages(proof):
        if file.path.endswith(".md") and not file.path.endswith("index.md"):
            matter = yaml.safe_load(file.text.split("---\n", 2)[1])
            assert matter["search"] == {"exclude": True} and not file.searchable
            others = {"s.html", "m.html", "3-months.html"}
            assert not others & set(re.findall(r'href="([^"]*)"', file.text))


def test_tools_are_those_the_steps_use():
    assert "Garter bar" in built(proved(worked()))["patterns/quay-lamp/m.md"]
    assert "Garter bar" not in built(proved(with_band(fold=Fold.LOOSE)))["patterns/quay-lamp/m.md"]
    plain = built(proved(with_band(buttonholes=None)))["patterns/quay-lamp/m.md"]
    assert "Clips" not in plain and "Buttons:" not in plain


def test_cautions_on_childrens_clothes_name_standards_and_promise_nothing():
    """The standards are those of the trade notes on children's clothing, for what the size has;
    those on cords are held by test_named_if_had."""
    page = unescape(built(proved(worked(wearer=Wearer.BABIES)))["patterns/quay-lamp/m.md"])
    for standard in ("EN 17394-2:2020", "CEN/TS 17394-1:2021", "16 CFR 1501"):
        assert standard in page
    assert "EN 14682" not in page
    bare = built(proved(with_band(buttonholes=None)))["patterns/quay-lamp/m.md"]
    assert "EN 17394" not in bare
    assert "does not claim to meet any standard" in page
    assert "EN 14682" not in built(proved(worked()))["patterns/quay-lamp/m.md"]


# The data


def test_counts_meet_their_schema_and_add_up(proof):
    schema = counts_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    document = json.loads(built(proof)["patterns/quay-lamp/counts.json"])
    jsonschema_rs.Draft202012Validator(schema).validate(document)
    assert list(document["counts"]) == document["sizes"] == list(SIZES)
    for places in document["counts"].values():
        n = {name: count["value"] for name, count in places["front"].items()}
        if n["buttonholes"]:
            assert (n["lower_end"] + n["buttonholes"] * n["hole_stitches"] + sum(n["gaps"])
                    + n["upper_end"]) == n["band_stitches"]
            assert n["closing_loops"] == n["hole_stitches"] + 1  # worked example D04
            assert n["closing_gaps"] == [gap - 1 for gap in n["gaps"]]
        assert n["rows_to_holes"] + n["rows_holes_to_fold"] == n["depth_rows"]
        assert n["rows_fold_to_holes"] == n["rows_holes_to_fold"]  # worked example D04
        assert n["rows_fold_to_holes"] + n["rows_to_finish"] == n["depth_rows"]


def test_the_overview_table_has_every_count_of_the_data(proof):
    files = built(proof)
    page = files["patterns/quay-lamp/index.md"]
    document = json.loads(files["patterns/quay-lamp/counts.json"])
    for size in SIZES:
        assert f"<th>{escape(size)}</th>" in page
    for name in ("edge_rows", "band_stitches"):
        row = "".join(f"<td>{document['counts'][s]['front'][name]['value']}</td>" for s in SIZES)
        assert row in page
