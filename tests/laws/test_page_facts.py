"""The facts of a page: they are the engine's, no text of a source closes them, and hooks read them.

The elements are read by the parser of Python's library, which shares nothing with the hooks.
"""

from __future__ import annotations

import ast
import json
import re
import zlib
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from random import Random
from typing import Any
from xml.etree.ElementTree import tostring

import jsonschema_rs
import pytest
import tinyhtml5
import yaml
from walebook.pages import facts_schema, write_pages
from walebook.pages.compared import compared
from walebook.pages.page_facts import pattern_facts, size_facts
from walebook.pages.shared_by_pages import shared
from walebook.proof.proof import Proof
from walebook.source.fabric_reading import size_slug
from walebook_site.facts import facts_in
from walebook_site.finishing import Settings, finish
from walebook_site.slimming import slim_html

from tests import whole_collection
from tests.whole_collection import files_of

ROOT = Path(__file__).parents[2]
# Each of these could end the element, begin a comment in it, or end a string of JSON.
SPOILED = ("</script><script>alert(1)</script>", 'Band "A" & \'B\'', "<!--<script>", "\\u003c \\ /",
           "&lt;/script&gt;", "line\u2028paragraph\u2029end", "]]></SCRIPT >")
WEIGHT = 12_000  # bytes compressed: the project's own budget of the facts of a page


class Page(HTMLParser):
    """The scripts of a page by their attributes, and the text of its headings by their id."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.data: list[str] = []
        self.rows: list[str] = []  # of stitch charts, for the bench: data too, which nothing runs
        self.run: list[str] = []
        self.steps: set[str] = set()
        self.open = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.open = ""
        if tag == "script":
            self.open = "run"
            if given.get("type") == "application/json":
                self.open = "data" if given.get("id") == "wb-facts" else "rows"
            self.into().append("")
        elif tag == "li" and "-" in (given.get("id") or ""):
            self.steps.add(str(given["id"]).rpartition("-")[0])

    def handle_data(self, data: str) -> None:
        if self.open:
            self.into()[-1] += data

    def into(self) -> list[str]:
        """The list that an open script belongs to."""
        return {"data": self.data, "rows": self.rows, "run": self.run}[self.open]

    def handle_endtag(self, tag: str) -> None:
        self.open = ""


def collection() -> tuple[Proof, ...]:
    return whole_collection.collection().proofs


def pages_of(slug: str) -> dict[str, str]:
    return {Path(path).stem: text for path, text in files_of(slug).items()
            if path.endswith(".md")}


def written(proof: Proof) -> dict[str, str]:
    """The pages of a pattern by their names."""
    return pages_of(proof.pattern.slug)


def facts_of(text: str) -> dict[str, Any]:
    """The facts, which stand once in a page, above its second heading."""
    page = Page(text.partition("\n## ")[0])
    assert text.count("wb-facts\">{") == 1
    assert len(page.data) == 1 and page.run == []
    for rows in page.rows:
        assert set(json.loads(rows)) == {"title", "rows", "texts"}
    facts: dict[str, Any] = json.loads(page.data[0])
    return facts


@pytest.fixture(scope="module")
def band() -> Proof:
    return next(proof for proof in collection() if proof.pattern.slug == "practice-band")


def test_the_files_that_the_tests_share_are_those_that_a_proof_makes() -> None:
    """Of three patterns, drawn by seed: they may come from a cache."""
    for proof in Random(3).sample(collection(), 3):
        assert files_of(proof.pattern.slug) == {
            page.path: page.text for page in write_pages(proof)}


def test_the_block_of_every_page_has_the_engines_facts() -> None:
    schema = jsonschema_rs.Draft202012Validator(facts_schema())
    for proof in collection():
        pages, pattern = written(proof), proof.pattern
        source = yaml.safe_load((ROOT / "patterns" / pattern.slug / "pattern.yaml").read_text())
        common = shared(proof)
        wanted = {"index": pattern_facts(pattern)} | {
            size_slug(size.size): size_facts(
                pattern, size, compared(size, common.figures)) for size in proof.sizes}
        assert set(pages) == set(wanted)
        for name, facts in wanted.items():
            given = facts_of(pages[name])
            schema.validate(given)
            assert given == json.loads(json.dumps(facts.as_json())), (pattern.slug, name)
            assert len(zlib.compress(json.dumps(given).encode())) < WEIGHT
            for key in ("title", "version", "designer", "licence"):
                assert given[key] == str(source[key]).strip(), (pattern.slug, name, key)
            assert list(given["sizes"]) == [
                str(size["label"] if isinstance(size, dict) else size) for size in source["sizes"]]
            assert given["sizes"].get(given.get("size"), "index") == name


def test_every_list_of_steps_belongs_to_a_part_of_the_facts() -> None:
    for proof in collection():
        for name in (size_slug(proof.sizes[-1].size), "index"):
            text = written(proof)[name]
            facts = facts_of(text)
            parts = [*facts.get("pieces", ()), *facts.get("bands", ()),
                     *facts.get("making_up", ())]
            ids = [part["id"] for part in parts]
            assert set(ids) == Page(text).steps, (proof.pattern.slug, name)
            assert len(ids) == len(set(ids))


def test_the_counts_of_the_facts_are_those_of_counts_json() -> None:
    """Every count of a piece or band that is not 0, as a number in the facts of its size's page."""
    for proof in collection():
        files = files_of(proof.pattern.slug)
        counts = json.loads(next(text for path, text in files.items() if path.endswith(".json")))
        for size in proof.sizes:
            facts = facts_of(written(proof)[size_slug(size.size)])
            bands = {plan.band.key: plan.band.title for plan in size.plans}
            for key, title in bands.items():
                named = [said for name, said in facts["counts"].items()
                         if name.startswith(f"{title}: ")]
                given = [one["value"] for one in counts["counts"][size.size][key].values()]
                assert [value for value in given if value] and len(named) == len(
                    [value for value in given if value])
                for said, value in zip(named, filter(None, given), strict=True):
                    assert isinstance(value, list) or said.split(" ")[0] == str(value), said


def test_no_script_reads_a_fact_from_the_text_of_a_list() -> None:
    """It did so of the counts: from <dt>, <dd> and the labels of the calculations."""
    scripts = sorted((ROOT / "site_src").rglob("*.js"))
    assert len(scripts) > 20
    assert not [path.name for path in scripts
                if re.search(r'Selector(?:All)?\("(?:dt|dd|details\.wb-working|summary)',
                             path.read_text(encoding="utf-8"))]


def test_what_is_knitted_twice_and_at_once_is_in_the_facts() -> None:
    """Two sleeves make a cardigan: the collection's own source says so of no other number."""
    cardigan = next(p for p in collection() if p.pattern.slug == "slack-tide-cardigan")
    pieces = facts_of(written(cardigan)["m"])["pieces"]
    assert {p["title"]: p.get("times", 1) for p in pieces} == {
        "Back": 1, "Right front": 1, "Left front": 1, "Sleeve": 2}


def test_no_text_of_a_source_closes_the_block_or_runs(band: Proof) -> None:
    """HTML, 4.12.1.3: what would end a script, or begin a comment in it, must not stand there."""
    for text in SPOILED:
        pattern = replace(band.pattern, title=text, designer=text, licence=text)
        html = size_facts(pattern, band.sizes[0], {}).in_page()
        facts = facts_of(html)
        assert facts["title"] == facts["designer"] == facts["licence"] == text
        inner = html.partition(">")[2].rpartition("<")[0]
        assert not set(inner) & set("<>&\u2028\u2029")


def test_hooks_read_what_the_engine_wrote_whatever_its_title_is(band: Proof) -> None:
    for text in SPOILED:
        pattern = replace(band.pattern, title=text, designer=text)
        first, size = pattern_facts(pattern), size_facts(pattern, band.sizes[0], {})
        page = ('<html><head><meta charset="utf-8"></head><body><article>{}<p>Steps</p>'
                "</article></body></html>")
        read = facts_in(page.format(size.in_page()))
        assert read and (read.heading, read.designer) == (size.heading, text)
        assert (read.page, list(read.sizes)) == (size_slug(band.sizes[0].size), list(first.sizes))
        done = finish(page.format(size.in_page()), Settings())
        assert facts_in(done) == read and done.count("wb-hand-over") == 1
        assert done.index("</script>") < done.index("wb-hand-over") < done.index("<p>Steps")
        assert "wb-hand-over" not in finish(page.format(first.in_page()), Settings())
    assert facts_in("<article><h1>Ravel cord</h1></article>") is None


def test_a_parser_of_html_reads_the_same_page_without_the_end_tags_left_out() -> None:
    """HTML, 13.1.2.4 (optional tags), as tinyhtml5, the parser of the library of PDFs, reads it."""
    page = ("<!doctype html><table><thead><tr><th>Row</th><th>L</th></tr></thead><tbody><tr>"
            "<th>1</th><td></td></tr><tr><th>2</th><td>a<b>b</b></td></tr></tbody></table>"
            "<ul><li>one</li><li><p>two</p><ul><li>in</li><li>ner</li></ul></li></ul>"
            "<div><dl><div><dt>a</dt><dd>b</dd></div></dl><p>c</p><p>d</p></div>"
            '<ol><li><p>e</p></li><li><p class="wb-check">f</p><figure class="wb-needles">'
            "<p>g</p></figure><p>h</p></li></ol>"
            "<dl><dt>i</dt><dd>j</dd><dt>k</dt><dd>l</dd></dl><p>m</p><h3>n</h3><p>o</p>\n<ol><li>"
            '<svg><text x="8.5" y="12">5</text><text x="3" y="12" class="q">6</text></svg></li>'
            "\n</ol><pre></td><td></pre>")
    slim = slim_html(page)
    assert len(slim) < len(page) - 40
    on_one_line = page.replace(">\n<", "><")  # between blocks a line's end shows as nothing
    assert tostring(tinyhtml5.parse(slim)) == tostring(tinyhtml5.parse(on_one_line))
    assert tostring(tinyhtml5.parse(slim.replace("<th>2", "2"))) != tostring(
        tinyhtml5.parse(on_one_line))


# -- What hooks still look for in HTML by regular expressions -------------------------------------

THEME = "the site builder's theme wrote it, around the engine's page"
WHOLE = "it changes links, ids and pictures of whole pages, the theme's and Markdown's among them"
MARKDOWN = "the title of a page that was written in Markdown and has no facts"
DRAWN = "it writes out for the library of PDFs what it does not read in drawings and lists"
OURS = "it finds what the hooks themselves put there, and ids for the site builder's check of links"
SPACE = "it finds where space counts, on every page"
LEFT_OUT = "it finds end tags and quotes that HTML leaves out; another test parses what stays"
INDEX = "it takes the tags out of the texts that the site builder's index of search has"
CELLS = "no HTML: cells of a workbook that its library wrote without their values"
NAMED = {
    ("sheet_file", "_FORMULA"): CELLS,
    ("policy", "_INLINE"): THEME, ("policy", "_CHARSET"): THEME,
    ("single_file", "_ARTICLE"): THEME, ("single_file", "_BODY"): THEME,
    ("single_file", "_ANCHORS"): THEME, ("single_file", "_STYLE"): THEME,
    ("single_file", "_SCRIPT"): THEME, ("single_file", "_LINK"): WHOLE,
    ("single_file", "_IDS"): WHOLE, ("single_file", "_WITHIN"): WHOLE,
    ("single_file", "_SOURCE"): WHOLE,
    ("single_file", "_THERE"): WHOLE, ("single_file", "_EMPTY"): WHOLE,
    ("single_file", "_TITLE"): MARKDOWN, ("single_file", "title"): MARKDOWN,
    ("single_file", "_LEVEL"): WHOLE, ("single_file", "_STEPS"): WHOLE,
    ("single_file", "_FOR_DESIGNERS"): WHOLE, ("single_file", "_ENDS"): WHOLE,
    ("paper", "_SCREEN_ONLY"): DRAWN, ("paper", "_SIGN"): DRAWN, ("paper", "_START"): DRAWN,
    ("paper", "_DRAWN"): DRAWN, ("paper", "_ID"): DRAWN, ("paper", "_USE"): DRAWN,
    **{("paper", name): DRAWN for name in ("_LABELLED", "_SCHEMATIC", "_ANCHORED", "_LABEL")},
    ("paper", "_LAST"): DRAWN,
    **{("printed_sketch", name): DRAWN for name in ("_DRAWING", "_TAG", "_WIDE")},
    **{("preview_picture", name): DRAWN for name in ("_ALONE", "preview_picture")},
    ("slimming", "_VERBATIM"): SPACE, ("slimming", "_ENDS"): LEFT_OUT,
    ("slimming", "_DRAWN"): LEFT_OUT, ("slimming", "_QUOTED"): LEFT_OUT,
    ("slimming", "_NAMED"): LEFT_OUT, ("slimming", "_LOOKS"): LEFT_OUT,
    ("slimming", "_STEP"): LEFT_OUT, ("slimming", "_START"): LEFT_OUT,
    ("slimming", "_PART"): LEFT_OUT, ("slimming", "_TITLED"): LEFT_OUT,
    ("slimming", "_BARE"): LEFT_OUT,
    ("search", "_END"): INDEX, ("search", "_TAG"): INDEX, ("preview_pages", "_ARTICLE"): THEME,
    ("whole_blocks", "_STAND_IN"): OURS, ("whole_blocks", "_ID"): OURS,
}
"""Every one by its module and its name, or the function that it stands in, and why it stays."""


def expressions(module: str, text: str) -> set[tuple[str, str]]:
    """The regular expressions of a module in which a tag or an attribute of HTML stands."""
    found = set()
    tree = ast.parse(text)
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
    for node in functions + [node for node in tree.body if isinstance(node, ast.Assign)]:
        name = node.name if isinstance(node, ast.FunctionDef) else ast.unparse(node.targets[0])
        for call in ast.walk(node):
            if isinstance(call, ast.Call) and re.fullmatch(r"re\.\w+", ast.unparse(call.func)):
                signs = ast.unparse(call.args[0]).replace("(?P<", "(").replace("?<", "?")
                if "<" in signs or '="' in signs:
                    found.add((module, name))
    return found


def test_hooks_look_for_nothing_in_html_but_what_is_named() -> None:
    """It fails in either way: for one that is not named, and for a name that nothing has."""
    found = set().union(*(expressions(path.stem, path.read_text(encoding="utf-8"))
                          for path in sorted((ROOT / "hooks").glob("*.py"))))
    assert found == set(NAMED)
    assert expressions("new", 'def size(html):\n    return re.search(r"<dt>Size</dt>", html)') \
        == {("new", "size")}
