"""A designer's notes, names of pieces and own technique pages: on the pages, or refused in words.

Where a note stands is read from the published HTML by a parser that knows only headings and lists.
"""

from __future__ import annotations

import json
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from reading import BASE, HERE, changed, messages
from walebook.catalogue.techniques import TECHNIQUES
from walebook.markup.units_shown import in_units
from walebook.pages.from_texts import MadePages, make, prove_made
from walebook.pattern.collection import CM_FIRST, CM_ONLY, INCHES_FIRST
from walebook.proof.texts import Texts

from tests.laws.texts import read_folder

ROOT = Path(__file__).parents[2]
PLAIN = (HERE / "codes" / "note-nowhere.yaml").read_text(encoding="utf-8").partition("notes:\n")[0]


@cache
def made(more: str, slug: str = "noted", source: str = PLAIN) -> MadePages:
    beds, charts = ({path.stem: path.read_text(encoding="utf-8") for path in
                     (ROOT / "patterns" / folder).glob("*.yaml")} for folder in ("_beds", "_sizes"))
    return make(Texts(slug=slug, source=source + more), beds=beds, charts=charts)


def page(more: str) -> str:
    found = made(more)
    assert found.pages, found.findings
    return next(each.text for each in found.pages if each.path.endswith("/s.md"))


def told(more: str) -> list[str]:
    return [str(each).partition("yaml:")[2] for each in made(more).findings
            if each.severity.value == "error"]


class _Notes(HTMLParser):
    """Each note with the heading it stands under, the step it stands in, and the words after it."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.notes: list[tuple[str, str, str]] = []
        self._title = self._step = ""
        self._into = ""
        html = re.sub(r"^#+ (.*?)(?: \{.*\})?$", r"<h3>\1</h3>", html, flags=re.M)
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        if tag in ("h2", "h3", "aside"):
            self._into = tag
            self._title = self._title if tag == "aside" else ""
            if tag == "aside":
                assert named == {"class": "wb-says"}
                self.notes.append(("", self._title.strip(), self._step))
        if tag == "li" and "id" in named:
            self._step = str(named["id"])
        if tag == "ol":
            self._step = ""

    def handle_endtag(self, tag: str) -> None:
        if tag == self._into:
            self._into = ""
        if tag in ("ol", "details"):
            self._step = ""

    def handle_data(self, data: str) -> None:
        if self._into == "aside":
            said, title, step = self.notes[-1]
            self.notes[-1] = said + data, title, step
        elif self._into:
            self._title += data


def noted(*lines: str) -> list[tuple[str, str, str]]:
    return _Notes(page("notes:\n" + "".join(f"  - {line}\n" for line in lines))).notes


def test_a_note_stands_where_it_is_put_and_says_whose_it_is() -> None:
    found = noted("{text: All of it.}", "{at: back, section: hem, text: The hem.}",
                  "{at: making up, section: tops, text: The tops.}",
                  "{at: sleeve, stands: after, text: Both.}", "{text: The end., stands: after}")
    assert [(said.removeprefix("Designer’s note: "), title, bool(step)) for said, title, step
            in found] == [
        ("All of it.", "Noted pullover, size S", False), ("The hem.", "Hem", False),
        ("Both.", "Ending", False), ("The tops.", "Making up", True),
        ("The end.", "Making up", False)]
    assert all(said.startswith("Designer’s note: ") for said, _, _ in found)


def test_a_note_at_a_row_stands_in_the_step_that_knits_it() -> None:
    """The numbers of rows are read from what the step says to its reader."""
    html = page("notes:\n  - {at: back, row: 40, text: Look.}\n")
    step = re.search(r'<li id="p-back-\d+"><aside[^>]*><b>Designer’s note:</b> Look\.</aside>\n<p>'
                     r"<b>Knit (\d+) rows</b><i>, until the row counter shows <b>(\d+)</b>", html)
    assert step is not None
    rows, upto = int(step[1]), int(step[2])
    assert upto - rows < 40 <= upto


def test_a_note_is_words_and_no_markup() -> None:
    assert "<script>" not in page('notes:\n  - {text: "<script>x</script> & *more*"}\n')
    assert "&lt;script&gt;x&lt;/script&gt; &amp; *more*" in page(
        'notes:\n  - {text: "<script>x</script> & *more*"}\n')


def test_a_note_changes_no_other_word() -> None:
    plain, other = page(""), page("notes:\n  - {at: front, text: Ours.}\n")
    assert re.sub(r"<aside.*?</aside>\n", "", other) == plain


@pytest.mark.parametrize(("line", "expected"), [
    ("{at: slevee, text: Ours.}", '34:5: error, note-nowhere: size S: found a note at "slevee", '
     'which is no piece or band; expected "sleeve". Write sleeve.'),
    ("{at: back, section: fold, text: Ours.}", '34:5: error, note-nowhere: size S: found a note at '
     '"fold" of the back, which is not there; expected'),
    ("{at: back, row: 900, text: Ours.}", "34:5: error, note-nowhere: size S: found a note at row "
     "900 of the back; expected a row from 1 to "),
    ("{at: making up, row: 3, text: Ours.}", "34:5: error, note-nowhere: size S: found row 3 of "
     "the making up; expected a section of it. Write a section."),
    ("{at: making up, section: raglans, text: Ours.}", "34:5: error, note-nowhere: size S: found a "
     'note at "raglans" of the making up, which is not there; expected')])
def test_a_place_that_is_not_there_is_an_error(line: str, expected: str) -> None:
    (found,) = told(f"notes:\n  - {line}\n")
    assert found.startswith(expected)
    proof, _ = prove_made(Texts(slug="noted", source=f"{PLAIN}notes:\n  - {line}\n"),
                          **read_folder(ROOT))
    assert proof is None


@pytest.mark.parametrize(("line", "expected"), [
    ("{row: 3, text: Ours.}", 'missing-key: found a row, and no "at" in a note. Add a line such as '
     '"at: front".'),
    ("{at: front, row: 3, section: fold, text: Ours.}", 'two-answers: found both "section" and '
     '"row" in a note; expected one of the two. Delete one of them.'),
    ("{text: Ours., sizes: [4X]}", 'unknown-size: found the unknown size "4X"'),
    ("{at: front}", 'missing-key: found no "text" in a note.')])
def test_a_note_that_cannot_be_read_is_an_error(line: str, expected: str) -> None:
    found = messages(changed("yarns:\n", f"notes:\n  - {line}\nyarns:\n"))
    assert any(expected in one for one in found), found
    assert BASE.count("yarns:\n") == 1


def test_a_piece_is_called_as_the_designer_calls_it() -> None:
    named = made("", source=PLAIN.replace("  hem:", "  names: {sleeve: Arm}\n  hem:"))
    html = next(each.text for each in named.pages if each.path.endswith("/s.md"))
    seen = re.sub(r"<script.*?</script>|<[^>]+>", "", html, flags=re.DOTALL)
    assert "Arm, knitted twice" in seen and "Sleeve, knitted" not in seen
    assert "Arm top and armhole" in seen and "Sleeve top and armhole" not in seen
    # The name adds a line above what else the source says.
    def counts(of: MadePages) -> str:
        return re.sub(r'"line": \d+', "", json.dumps(of.counts))
    assert counts(named) == counts(made(""))


def test_a_name_of_the_designer_changes_no_seam() -> None:
    """What was sewn to what is the same, under the other name."""
    def seams(source: str) -> list[tuple[str, ...]]:
        proof, found = prove_made(Texts(slug="noted", source=source), **read_folder(ROOT))
        assert proof is not None, found
        garments = [size.assembled.garment for size in proof.sizes if size.assembled]
        return [sides for garment in garments for sides in (
            *(join.sides for join in garment.joins), *(task.edges for task in garment.tasks))]

    plain, named = seams(PLAIN), seams(PLAIN.replace("  hem:", "  names: {sleeve: Arm}\n  hem:"))
    assert any("leeve" in side for sides in plain for side in sides)
    assert named == [tuple(re.sub("[Ss]leeve", lambda found: {
        "Sleeve": "Arm", "sleeve": "arm"}[found[0]], side) for side in sides) for sides in plain]


def test_a_name_for_no_piece_is_an_error() -> None:
    found = made("", source=PLAIN.replace("  hem:", "  names: {hood: Cowl}\n  hem:")).findings
    assert any('unknown-name: size S: found no piece called "hood" in a drop-shoulder pullover; '
               "expected one of back, front, sleeve. Write one of these." in str(each)
               for each in found)


def test_a_step_links_to_the_page_of_the_designer() -> None:
    mine = page("techniques: {hung-hem: ../../techniques/increase.html}\n")
    assert 'href="../../techniques/hung-hem.html' in page("")
    assert 'href="../../techniques/hung-hem.html' not in mine
    assert mine.replace("increase.html", "hung-hem.html") == re.sub(
        r"(hung-hem\.html)#[a-z-]+", r"\1", page("")).replace("increase.html", "hung-hem.html")


@pytest.mark.parametrize(("said", "expected"), [
    ("{hung-hems: ../../index.html}", 'unknown-name: found no technique page called "hung-hems"; '
     'expected "hung-hem". Write hung-hem.'),
    ("{hung-hem: index.html#mine}", 'bad-link: found a link to "index.html#mine", which leads '
     "nowhere; expected a page of this site"),
    ("{hung-hem: javascript:x}", 'bad-link: found a link to "javascript:x", which leads nowhere')])
def test_an_address_that_leads_nowhere_is_an_error(said: str, expected: str) -> None:
    found = told(f"techniques: {said}\n")
    assert any(expected in one for one in found), found


def test_the_technique_pages_that_can_be_named_are_those_of_the_site() -> None:
    there = {path.stem for path in (ROOT / "site_src" / "techniques").glob("*.md")} - {"index"}
    assert set(TECHNIQUES) == there


def test_centimetres_alone_are_the_same_pages_without_inches() -> None:
    for each in made("").pages:
        if each.path.endswith(".md"):
            alone = in_units(each.text, CM_ONLY)
            seen = re.sub(r"<script.*?</script>|<[^>]+>", "", alone, flags=re.DOTALL)
            assert " cm" in seen
            pair = r"[\d½¼¾⅛⅜⅝⅞][ \u00a0]in\)"
            assert re.findall(pair, each.text) and not re.findall(pair, seen), each.path
            assert "wb-in" not in alone and 'class="wb-cm"' not in alone
            assert in_units(each.text, CM_FIRST) == each.text
            assert in_units(in_units(each.text, INCHES_FIRST), CM_ONLY) != alone or \
                "wb-cm" not in each.text
