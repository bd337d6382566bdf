"""Texts in, findings, counts and pages out: the same as from files, and nothing half made."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from walebook.pages import write_pages
from walebook.pages.from_texts import make
from walebook.proof.texts import Texts
from walebook_site.sources import collect

from tests.laws.test_light import collection
from tests.laws.texts import read_folder, texts_of

ROOT = Path(__file__).parents[2]
SHELF = read_folder(ROOT)
HAT = texts_of(ROOT, "tideline-hat")


@pytest.mark.parametrize("notes", ["", "See [sizes](#sizes), [none](#nowhere), [a](size-9.html), "
                                   "![x](x.png) and [the first](../../index.html).\n"])
def test_texts_come_to_what_files_come_to(tmp_path, notes):
    """Read from a folder by the hooks, and given as texts: the same findings and pages."""
    root = collection(tmp_path, "tideline-hat", notes)
    read = collect(root)
    made = make(texts_of(root, "tideline-hat"), **read_folder(root))
    assert made.findings == read.problems
    assert made.pages == (write_pages(read.proofs[0]) if read.is_sound else ())
    assert bool(made.pages) is not bool(notes)


@pytest.mark.parametrize(("target", "is_good"), [
    ("#sizes", True), ("#nowhere", False), ("index.html#sizes", True), ("size-9.html", False),
    ("counts.json", False), ("../another/index.html", True), ("../../techniques/index.html", True),
])
def test_links_in_notes_are_followed_to_the_patterns_own_pages(target, is_good):
    """What lies outside it is not known from texts, and may be there."""
    made = make(replace(HAT, notes=f"Notes with [a link]({target}).\n"), **SHELF)
    assert ("bad-link" in {p.code for p in made.findings}) is not is_good


def test_links_in_notes_may_lead_to_each_size():
    pages = [page.path.rpartition("/")[2] for page in make(HAT, **SHELF).pages[1:]
             if page.path.endswith(".md")]
    links = " ".join(f"[one]({name.replace('.md', '.html')})" for name in pages)
    assert links and make(replace(HAT, notes=links), **SHELF).pages


def test_one_size_has_its_own_page_and_counts_alone():
    whole = make(HAT, **SHELF)
    size = list(whole.counts)[1]
    one = make(HAT, **SHELF, size=size)
    assert one.findings == whole.findings
    assert one.counts == {size: whole.counts[size]}
    first, *pages, last = (page for page in whole.pages if not page.path.endswith(".svg"))
    assert [page for page in one.pages if not page.path.endswith(".svg")] == [first, pages[1], last]
    assert json.loads(last.text)["counts"] == whole.counts


def test_a_size_that_is_not_there_is_refused():
    with pytest.raises(KeyError, match="Enormous"):
        make(HAT, **SHELF, size="Enormous")


@pytest.mark.parametrize(("old", "new", "code"), [
    ("title:", "tilte:", "unknown-key"),
    ("\n", "\n\t", "tab"),
])
def test_a_fault_is_told_and_nothing_is_made(old, new, code):
    made = make(replace(HAT, source=HAT.source.replace(old, new, 1)), **SHELF)
    assert code in {p.code for p in made.findings}
    assert (made.counts, made.pages) == ({}, ())
    assert {p.place.file for p in made.findings} == {"patterns/tideline-hat/pattern.yaml"}


def test_a_charts_fault_is_told_where_it_is_named_and_only_there():
    spoiled = {name: text.replace("title:", "tilte:", 1) for name, text in SHELF["charts"].items()}
    made = make(HAT, beds=SHELF["beds"], charts=spoiled)
    files = {p.place.file for p in made.findings if p.code == "unknown-key"}
    assert len(files) == 1 and next(iter(files)).startswith("patterns/_sizes/")
    assert not made.pages


def test_any_text_gets_findings():
    for text in ("", "x", "[", "sizes: [M]\n", "\0", "a: &b 1\n"):
        made = make(Texts(slug="x", source=text), beds={"x": text}, charts={"x": text})
        assert made.findings and not made.pages
