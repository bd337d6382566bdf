"""Whole garments on their pages: every step told, checkpoints from the bed, nothing left to guess.

What is checked are laws between a page and the bed's own states; no figure is copied from a page.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import replace
from functools import cache
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import jsonschema
import jsonschema_rs
import pytest
from walebook.catalogue.bands import KINDS
from walebook.forms.registry import FORMS
from walebook.machine import edge_steps, steps
from walebook.pages import write_pages
from walebook.pages.counts_schema import counts_schema
from walebook.pages.pieces import piece_anchor
from walebook.pages.program import numbered
from walebook.pattern.edges import Offer
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.model import Fold, Neck
from walebook.proof.proof import KnittedPiece, Proof, SizeProof, prove
from walebook.words.shaped_edges import ShapingBlock

from tests.needle_names import needle
from tests.site.garments import SIZES, assembled, garment, made_up, steps_under
from tests.site.quay_lamp import Reader, body_html, built

SITE = Path(__file__).parents[2] / "site_src"
WAYS = [(form, Neck.ROUND, Fold.LOOSE) for form in FORMS] + [
    ("set-in cardigan", Neck.V, None), ("set-in pullover", Neck.SQUARE, Fold.PICOT),
    ("drop-shoulder pullover", Neck.BOAT, None), ("raglan pullover", Neck.V, None)]


@pytest.fixture(scope="module", params=WAYS, ids=lambda w: "-".join(
    str(getattr(x, "value", x)).replace(" ", "-") for x in w))
def proof(request) -> Proof:
    return assembled(*request.param)


def size_pages(proof: Proof) -> list[tuple[SizeProof, str]]:
    files = built(proof)
    return [(size, files[f"patterns/harbour/{size.size.lower()}.md"]) for size in proof.sizes]


def pieces_told(proof: Proof) -> list[tuple[KnittedPiece, list[str]]]:
    return [(piece, list(steps_under(page, piece_anchor(piece))))
            for size, page in size_pages(proof) for piece in size.pieces]


def plain(told: str) -> str:
    return unescape(re.sub(r"<[^>]+>", " ", told))


# Every step, every row


def test_every_step_of_every_piece_is_told_once_and_in_order(proof):
    for size in proof.sizes:
        for piece in size.pieces:
            at = 0
            for _, group in numbered(piece, proof.pattern):
                for told in group:
                    upto = told.upto if isinstance(told, ShapingBlock) else at + len(told.steps)
                    assert not isinstance(told, ShapingBlock) or told.first == at
                    assert upto > at
                    at = upto
            assert at == len(piece.program.steps)


def test_every_numbered_step_stands_on_the_page(proof):
    for piece, told in pieces_told(proof):
        numbers = sum(len(group) for _, group in numbered(piece, proof.pattern))
        assert len(told) == numbers > 5


def rows_told(told: list[str]) -> int:
    """The rows a knitter knits who follows the row counter, setting it as she is told."""
    rows = counter = 0
    for step in told:
        text = plain(step)
        if match := re.search(r"(?:Set the row counter to|Turn the row counter back to) +(\d+)",
                              text):
            counter = int(match[1])
        elif "free pass" in text:
            counter += 1
        elif match := re.search(r"The row counter counts the (\d+) rows and this pass too", text):
            counter += int(match[1]) + 1  # of waste yarn, and of the pass that drops what hung on
        elif match := re.search(r"Check .* row counter +(\d+)", text):
            assert int(match[1]) >= counter, text
            rows, counter = rows + int(match[1]) - counter, int(match[1])
    return rows


def test_the_rows_told_are_those_of_the_program(proof):
    for piece, told in pieces_told(proof):
        knitted = sum(s.rows for s in piece.program.steps if isinstance(s, steps.Knit))
        assert rows_told(told) == knitted, piece.piece.title


def test_every_row_at_which_an_edge_changes_is_named(proof):
    """Read off the page: all counters of a step that tells shaping, against the bed's."""
    kinds = (steps.Transfer, steps.Increase, edge_steps.BindOff, steps.Hold)
    for piece, told in pieces_told(proof):
        at = 0
        texts = iter(told)
        for _, group in numbered(piece, proof.pattern):
            for each in group:
                text = next(texts)
                upto = each.upto if isinstance(each, ShapingBlock) else at + len(each.steps)
                shaped = {piece.trace.states[n].counter for n in range(at, upto)
                          if isinstance(piece.program.steps[n], kinds)}
                named = set(map(int, re.findall(r"\d+", plain(text))))
                assert not isinstance(each, ShapingBlock) or shaped <= named, (shaped, plain(text))
                at = upto


def test_stitches_told_as_changed_are_those_that_change(proof):
    """A single change told with its needles names as many needles as it changes stitches."""
    for _, told in pieces_told(proof):
        for step in told:
            for number, a, b in re.findall(
                    r"(?:decrease|increase|hold|bind off) (\d+) ?(?:stitch(?:es)? at the \w+ "
                    r"\(|: )([LR]\d+)(?: to ([LR]\d+))?", plain(step), re.I):
                count = abs(needle(a).place - needle(b or a).place) + 1
                assert count == int(number), plain(step)


# Checkpoints


def test_checkpoints_are_the_bed_s_own_states_in_their_order(proof):
    for piece, told in pieces_told(proof):
        after = iter(piece.trace.states)
        checks = 0
        for step in told:
            for stitches, where, counter, side in re.findall(
                    r"Check +(\d+|no) +stitch(?:es)?\b(.*?) +row counter +(\d+) +"
                    r"carriage on the +(\w+)", plain(step).replace("  ", " ")):
                checks += 1
                wanted = (int(stitches.replace("no", "0")), int(counter), side)
                state = next((s for s in after if (len(s.loaded), s.counter, s.side.value)
                              == wanted and _lies(s, where)), None)
                assert state is not None, plain(step)
        assert checks == sum(step.count("wb-check") for step in told)


def _lies(state, where: str) -> bool:
    """True where the needles a checkpoint names first and last are those of the state."""
    if held := re.search(r"(\d+) in work, (\w+)(?: to (\w+))?, and (\d+) held", where):
        work = state.loaded - state.holding
        return (held[1], held[2], held[3] or held[2], held[4]) == (
            str(len(work)), work.first.name, work.last.name, str(len(state.holding)))
    found = re.findall(r"[LR]\d+", where)
    return not found or [found[0], found[-1]] == [state.loaded.first.name,
                                                  state.loaded.last.name]


def test_halves_and_fronts_are_told_in_full(proof):
    """The right and the left half of a neck, and both fronts, have as many steps each."""
    for _, page in size_pages(proof):
        words = plain(page).lower()
        for said in ("at the same time", "reverse", "reversing", "mirror image", "as for the"):
            assert said not in words
    for size in proof.sizes:
        by_key = {p.piece.key: p for p in size.pieces}
        if "right_front" in by_key:
            right, left = (sum(len(g) for _, g in numbered(by_key[k], proof.pattern))
                           for k in ("right_front", "left_front"))
            assert right == left


def test_what_waits_is_named_where_it_is_put_on_waste_yarn(proof):
    for piece, told in pieces_told(proof):
        text = plain(" ".join(told))
        for edge in piece.program.leaves:
            assert f"Label them “{edge}”".replace(": ", ": ") in re.sub(r"\s+", " ", text) or \
                "draw them up" in text


# Making up and bands


def test_every_join_is_told_with_its_figures(proof):
    for size, page in size_pages(proof):
        section = page[page.index('<h2 id="making-up">'):page.index('<h2 id="counted">')]
        joins = "".join(re.findall(r'<li id="make-up-[\d-]+">.*?</li>\n', section, re.S))
        items = [plain(item) for item in re.findall(r"<li>(.*?)</li>", joins)]
        joined = [item for item in items if not item.startswith("Top of the cap: ")]
        assert len(joined) == len(size.assembled.garment.joins)
        for sentence in made_up(size.assembled.garment):
            assert sentence.rstrip(".") in unescape(re.sub(r"</?b>", "", section))


def test_every_section_of_a_band_is_hung_and_every_stitch_has_its_needle(proof):
    for size, page in size_pages(proof):
        for strip in size.strips:
            anchor = f"{strip.plan.band.key}-{strip.front.value}"
            told = [plain(step) for step in steps_under(page, anchor)]
            hung = [t for t in told
                    if re.search(r"\bHang (the|section)", t)
                    and re.search(r"one loop on each|off the waste yarn", t)]
            assert len(hung) == len(strip.plan.meetings)
            table = page.split(f'id="{anchor}-hanging"')[1].split("<h2")[0].split("\n## ")[0]
            alone = len(strip.plan.meetings) == 1  # a single section has no number where it is rows
            by_rows = alone and strip.plan.meetings[0].section.offer is Offer.ROWS
            assert table.count("Section ") == (0 if by_rows else len(strip.plan.meetings))
            for named, row, stitch in re.findall(
                    r'<th>([LR]\d+)</th><td>[^<]*</td><td>(\d+)</td><td>(\d+)</td>',
                    table):
                assert any(strip.layout.at(start + int(stitch)).name == named
                           and m.pick_up.rows[int(stitch) - 1] == int(row)
                           for start, m in _starts(strip.plan.meetings)
                           if int(stitch) <= m.stitches.value)


def _starts(meetings):
    at = 0
    for meeting in meetings:
        yield at, meeting
        at += meeting.stitches.value


def as_the_bed_has_it(told, strip):
    """Each check of the steps is a state of the bed, in their order."""
    after = iter(strip.trace.states)
    for stitches, counter, side in re.findall(
            r"Check +(\d+|no) +stitch(?:es)?\b.*? +row counter +(\d+) +carriage on the +(\w+)",
            " ".join(told)):
        assert any((str(len(s.loaded) or "no"), str(s.counter), s.side.value)
                   == (stitches, counter, side) for s in after)


@pytest.mark.parametrize("closing", [ButtonholeKind.TWO_STITCHES, ButtonholeKind.BOUND_OFF])
@pytest.mark.parametrize("kind", [kind for kind in KINDS if KINDS[kind].lengthwise])
def test_lengthwise_bands_are_told_with_the_bed_s_own_states(kind, closing):
    pattern = garment("set-in cardigan")
    front = pattern.bands["front"]
    band = replace(front, kind=kind, buttonholes=replace(front.buttonholes, kind=closing))
    proof, findings = prove(replace(pattern, bands={"front": band}))
    assert proof is not None, [str(f) for f in findings]
    for size, page in size_pages(proof):
        told = [plain(step) for step in steps_under(page, "front-right")]
        assert any("Check" in step for step in told)
        as_the_bed_has_it(told, size.strips[-1])  # that with the holes
        assert not any("Hang section" in step for step in told)  # it is sewn on
        assert f'href="../../{KINDS[kind].page}"' in page
        assert (SITE / KINDS[kind].page.replace(".html", ".md")).exists()


@pytest.mark.parametrize("kind", [kind for kind in KINDS if not KINDS[kind].lengthwise])
def test_bands_of_every_kind_are_told_with_the_bed_s_own_states(kind):
    pattern = garment("set-in cardigan" if KINDS[kind].falls else "set-in pullover")
    band = replace(pattern.bands["neck"], kind=kind)
    proof, findings = prove(replace(pattern, bands={"neck": band}))
    assert proof is not None, [str(f) for f in findings]
    for size, page in size_pages(proof):
        strip = size.strips[0]
        told = [plain(step) for step in steps_under(page, "neck-right")]
        as_the_bed_has_it(told, strip)
        hung = [t for t in told if re.search(r"\bHang section \d", t)]
        assert len(hung) == len(strip.plan.meetings)
        lies = "wrong side towards you" if kind != "enclosing" else "right side up"
        assert lies in hung[0]
        assert f'href="../../{KINDS[kind].page}"' in page
        assert (SITE / KINDS[kind].page.replace(".html", ".md")).exists()


def test_hem_and_top_are_said_of_fronts_only():
    pages = size_pages(assembled("set-in slipover"))
    for _, page in pages:
        bands = page[page.index('<h2 id="neck-right">'):page.index('<h2 id="making-up-3">')]
        assert "The hem is at the" not in bands and "hem end" not in bands
        assert "underarm is at the left" in bands and "underarm is at the right" in bands
        assert "Armhole band, right armhole" in page and "Armhole band, left armhole" in page


# The page as a document


def test_the_order_of_work_leads_into_every_part_in_the_order_of_the_page(proof):
    """Going to a place inside a closed section opens it (HTML, 7.4.6.4: revealing details)."""
    for size, page in size_pages(proof):
        listed = re.search(r'<ol class="wb-order">.*?</ol>', page, re.S)[0]
        targets = re.findall(r'href="#([^"]+)"', listed)
        inside = re.findall(r'<details class="wb-task[^"]*"><summary>.*?</summary>'
                            r'<div id="([^"]+)">', page)
        assert targets == inside
        assert len(targets) >= len(size.pieces) + len(size.strips) + 1
        for target in targets:
            assert f'<h2 id="{target.removesuffix("-steps")}">' in page


def test_ids_are_unique_links_lead_somewhere_and_drawings_are_xml(proof):
    files = built(proof)
    known = {path.rpartition("/")[2].replace(".md", ".html") for path in files}
    for path, text in files.items():
        if not path.endswith(".md"):
            continue
        html = body_html(text)
        read = Reader(html).found
        ids = Counter(a["id"] for _, a in read if a.get("id"))
        assert [i for i, n in ids.items() if n > 1] == [], path
        for tag, attributes in read:
            href = attributes.get("href") or ""
            if tag not in ("a", "use"):
                continue
            page, _, anchor = href.partition("#")
            if not page:
                assert anchor in ids, f"{path}: {href}"
            elif page.startswith("../../"):
                assert (SITE / page[6:].replace(".html", ".md")).exists(), href
            else:
                assert page in known, href
        assert html.count("<li") == text.count("<li")
        for drawn in re.findall(r"<svg.*?</svg>", html, re.S):
            ElementTree.fromstring(drawn)


@pytest.mark.parametrize("hostile", ['<script>alert(1)</script>', '"><img src=x onerror=y>'])
def test_no_text_of_a_source_becomes_markup(hostile):
    proof, _ = prove(garment("set-in waistcoat", title=hostile))
    for path, text in built(proof).items():
        if path.endswith(".md"):
            found = Reader(body_html(text)).found
            assert "img" not in {tag for tag, _ in found}, path
            scripts = [attributes for tag, attributes in found if tag == "script"]
            assert scripts == [{"type": "application/json", "id": "wb-facts"}], path


def test_a_size_page_of_the_largest_garment_stays_small():
    """150,000 bytes with the site's own 4,000 around it: a budget of ours."""
    proof = assembled("set-in cardigan")
    for _, page in size_pages(proof):
        assert len(body_html(page).encode()) < 146_000


# All sizes, and the data


def test_the_overview_has_every_count_and_finished_measure(proof):
    page = unescape(built(proof)["patterns/harbour/index.md"])
    garments = [size.assembled.garment for size in proof.sizes]
    for name in garments[0].finished:
        row = "".join(f"<td>{g.finished[name].in_cm().rpartition(' ')[0]}</td>" for g in garments)
        assert row in page, name
    for at, (key, name, _) in enumerate(garments[0].counts):
        row = "".join(f"<td>{g.counts[at][2].value}</td>" for g in garments)
        assert row in page, (key, name)


@cache
def schema() -> jsonschema_rs.Draft202012Validator:
    """The schema of the counts."""
    made = counts_schema()
    jsonschema.Draft202012Validator.check_schema(made)
    return jsonschema_rs.Draft202012Validator(made)


def test_the_data_meets_its_schema_and_the_bed(proof):
    data = json.loads(built(proof)["patterns/harbour/counts.json"])
    schema().validate(data)
    for size in proof.sizes:
        places = data["counts"][size.size]
        assert set(places) == {p.band.key for p in size.plans} | {
            k.piece.key for k in size.pieces}
        for knitted in size.pieces:
            most = max(len(state.loaded) for state in knitted.trace.states)
            assert places[knitted.piece.key]["widest"]["value"] >= most
            assert places[knitted.piece.key]["rows"]["value"] == max(
                state.counter for step, state in zip(
                    knitted.program.steps, knitted.trace.states, strict=True)
                if isinstance(step, steps.Knit))
        lengths = data["lengths"][size.size]
        for name, length in size.assembled.garment.finished.items():
            assert abs(float(lengths[name]["mm"]) - float(length.mm)) <= 0.005
    assert list(data["counts"]) == list(SIZES) == list(data["lengths"]) == list(data["yarn"])


def test_pages_are_the_same_every_time():
    proof = assembled("raglan cardigan")
    assert write_pages(proof) == write_pages(proof)


def test_every_table_that_scrolls_has_a_name_of_its_own(proof):
    """A rule of axe-core 4: landmarks of a kind have different names."""
    for text in built(proof).values():
        labels = Counter(re.findall(r'role="region" aria-label="([^"]+)"', text))
        assert [label for label, times in labels.items() if times > 1] == []
