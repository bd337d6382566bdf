"""A renamed or withdrawn pattern leaves pages that say so, and nothing that could be taken for it.

The project is a small site of a pattern in one size; addresses and words are read from its HTML.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import jsonschema
import pytest
from walebook.pages import facts_schema
from walebook.pages.former_page import former_pages
from walebook.pattern.former_patterns import FormerPattern
from walebook.proof.texts import collection_of
from walebook_site.command import main
from walebook_site.reading import COLLECTION
from walebook_site.sources import collect

from tests.site.builds import Commands, commands, make_project

RENAMED = """\
title: Lantern Lane
former:
  - {folder: quay-front, title: Quay <front>, date: 2026-11-20, now: harbour-front, sizes: [%s, XL]}
  - {folder: gone-hat, title: Gone hat, date: 2026-11-21, why: Its crown did not close.}
"""


@pytest.fixture(scope="module")
def loaded() -> Iterator[Commands]:
    with commands() as made:
        yield made


def said(page: Path) -> str:
    text = page.read_text(encoding="utf-8")
    article = text.partition("<article>")[2].partition("</article>")[0]
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", article)).split())


def test_a_page_stays_where_a_pattern_stood(loaded: Commands, tmp_path: Path) -> None:
    root = make_project(tmp_path / "lane")
    proof, = collect(root).proofs
    size = proof.pattern.sizes[0]
    (root / COLLECTION).write_text(RENAMED % size, encoding="utf-8")
    done = loaded.run(root, "mkdocs", "build")
    assert done.code == 0, done.printed
    site = root / "site" / "patterns"
    name = re.sub(r"[^a-z0-9]+", "-", size.lower())
    for page, there in (("index", "index"), (name, name), ("xl", "index")):
        file = site / "quay-front" / f"{page}.html"
        assert said(file).startswith(
            "Quay <front> This pattern has had another name since 2026-11-20. It is now ")
        address = f"../harbour-front/{there}.html"
        assert f'href="{address}"' in file.read_text(encoding="utf-8")
        assert (file.parent / address).resolve().is_file()
    gone = site / "gone-hat" / "index.html"
    assert "The designer withdrew this pattern on 2026-11-21. Its crown did not close. See " \
        "all patterns" in said(gone)
    assert (gone.parent / "../../index.html").resolve().is_file()
    assert list((site / "harbour-front").glob("*-single-file.html"))
    assert not list((site / "quay-front").glob("*-single-file.html"))
    worker = (root / "site" / "sw.js").read_text(encoding="utf-8")
    assert '"harbour-front":{' in worker and '"quay-front":{' not in worker
    home = root / "site" / "index.html"
    assert "quay-front" not in said(home)
    assert 'data-pattern="harbour-front" data-former="quay-front"' in home.read_text("utf-8")


def test_a_pattern_that_is_handed_over_as_files_takes_over_no_place() -> None:
    """It has no page of a size, and the page before it said that this takes over the notes."""
    one = FormerPattern("quay-front", "Quay", "2026-11-20", now="harbour-front", sizes=["S"])
    for files_only in (True, False):
        for page in former_pages(one, {"index": "Harbour front"}, files_only=files_only):
            assert ("takes over" in page.text) is not files_only, page.path
            assert ("in files that the designer hands over" in page.text) is files_only


def test_a_reader_without_the_site_has_the_pages_too(
        tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`walebook pages` writes them, and its pages of the pattern now know its names before."""
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    root = make_project(tmp_path / "lane")
    size = collect(root).proofs[0].pattern.sizes[0]
    (root / COLLECTION).write_text(RENAMED % size, encoding="utf-8")
    assert main(["pages", str(tmp_path / "out"), "--root", str(root)]) == 0
    pages = tmp_path / "out" / "patterns"
    name = re.sub(r"[^a-z0-9]+", "-", size.lower())
    there = {path.relative_to(pages).as_posix() for path in pages.rglob("*.md")}
    assert {"quay-front/index.md", f"quay-front/{name}.md", "quay-front/xl.md",
            "gone-hat/index.md"} <= there
    assert "The designer withdrew this pattern on 2026-11-21." in (
        pages / "gone-hat" / "index.md").read_text(encoding="utf-8")
    text = (pages / "harbour-front" / f"{name}.md").read_text(encoding="utf-8")
    facts = json.loads(text.partition('id="wb-facts">')[2].partition("</script>")[0])
    assert facts["former"] == ["quay-front"]
    jsonschema.validate(facts, facts_schema())


def test_a_page_stays_where_a_size_stood(loaded: Commands, tmp_path: Path) -> None:
    """A size was called XL, and its pattern quay-front: both pages lead to the size's page now."""
    root = make_project(tmp_path / "lane")
    proof, = collect(root).proofs
    size = proof.pattern.sizes[0]
    source = root / "patterns" / "harbour-front" / "pattern.yaml"
    text = source.read_text(encoding="utf-8")
    assert text.count(f"sizes: [{size}]") == 1
    source.write_text(text.replace(f"sizes: [{size}]",
                                   f"sizes: [{{label: {size}, former: [XL, 5/6]}}]"), "utf-8")
    (root / COLLECTION).write_text(RENAMED % size, encoding="utf-8")
    done = loaded.run(root, "mkdocs", "build", "--strict")
    assert done.code == 0, done.printed
    site = root / "site" / "patterns"
    name = re.sub(r"[^a-z0-9]+", "-", size.lower())
    title = proof.pattern.title
    for label, page in (("XL", "xl"), ("5/6", "5-6")):
        file = site / "harbour-front" / f"{page}.html"
        assert said(file).startswith(
            f"{title}, size {label} The size that was called {label} has another name now. "
            f"It is now {title}, size {size} . ")
        assert "Its page now takes over your place and your notes." in said(file)
        assert f'href="{name}.html"' in file.read_text(encoding="utf-8")
        assert 'id="wb-facts"' not in file.read_text(encoding="utf-8")
        assert not (file.parent / f"{page}-single-file.html").exists()
    assert f'href="../harbour-front/{name}.html"' in (
        site / "quay-front" / "xl.html").read_text(encoding="utf-8")
    files = json.loads((site / "harbour-front" / "files.json").read_text(encoding="utf-8"))
    assert "patterns/harbour-front/xl.html" in str(files), "a pattern kept offline has it too"


def test_a_page_stays_where_a_size_was_withdrawn(loaded: Commands, tmp_path: Path) -> None:
    root = make_project(tmp_path / "lane")
    proof, = collect(root).proofs
    title = proof.pattern.title
    source = root / "patterns" / "harbour-front" / "pattern.yaml"
    source.write_text(source.read_text(encoding="utf-8") + "withdrawn_sizes:\n"
                      "  - {label: 5X, date: 2026-11-20, why: Too <wide> for the bed.}\n", "utf-8")
    done = loaded.run(root, "mkdocs", "build", "--strict")
    assert done.code == 0, done.printed
    site = root / "site" / "patterns" / "harbour-front"
    assert said(site / "5x.html").startswith(
        f"{title}, size 5X The designer withdrew the size 5X on 2026-11-20. Too <wide> for the "
        f"bed. See the other sizes of {title} . What you saved of it, as a file or offline, stays")
    text = (site / "5x.html").read_text(encoding="utf-8")
    assert 'href="index.html"' in text and 'id="wb-facts"' not in text
    assert not (site / "5x-single-file.html").exists()
    overview = said(site / "index.html")
    assert "The designer withdrew the size 5X on 2026-11-20. Too <wide> for the bed." in overview
    with (root / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("site_url: https://lantern-lane.example/\n")
    assert loaded.run(root, "mkdocs", "build", "--strict").code == 0
    feed = (root / "site" / "corrections.xml").read_text(encoding="utf-8")
    assert f"{title}: the size 5X was withdrawn" in feed
    files = json.loads((site / "files.json").read_text(encoding="utf-8"))
    assert "patterns/harbour-front/5x.html" not in str(files), "it would cover a saved size"
    assert 'href="5x.html' not in (site / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(("entry", "code", "text"), [
    ("folder: harbour-front, title: A, date: 2026-11-20", "two-answers", "is still there"),
    ("folder: a, title: A, date: 2026-11-20, now: harbour-frnt", "unknown-name",
     'expected "harbour-front". Write harbour-front.'),
    ("folder: A/b, title: A, date: 2026-11-20", "bad-name", "small letters, digits"),
    ("folder: a, title: A", "missing-key", 'no "date"')])
def test_a_slip_is_a_finding(tmp_path: Path, entry: str, code: str, text: str) -> None:
    root = make_project(tmp_path / "lane")
    (root / COLLECTION).write_text(f"title: Lane\nformer:\n  - {{{entry}}}\n", encoding="utf-8")
    one, = (each for each in collect(root).problems if each.place.file == COLLECTION)
    assert (one.code, one.place.line) == (code, 3) and text in str(one)


def test_a_link_to_a_former_pattern_is_an_error(tmp_path: Path) -> None:
    root = make_project(tmp_path / "lane")
    (root / COLLECTION).write_text(RENAMED % "S", encoding="utf-8")
    notes = root / "patterns" / "harbour-front" / "notes.md"
    notes.write_text("[the hat](../gone-hat/index.html)\n", encoding="utf-8")
    assert "bad-link" in {each.code for each in collect(root).problems}


def test_where_the_folders_are_not_known_none_is_missed() -> None:
    settings, found = collection_of(RENAMED % "S", file=COLLECTION)
    assert settings is not None and found == ()
    assert [one.now for one in settings.former_patterns] == ["harbour-front", ""]
