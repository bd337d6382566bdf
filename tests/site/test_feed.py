"""The feed of corrections and new patterns: Atom, by the rules of RFC 4287.

Outside the project: RFC 4287 (its elements, which of them must be there, and the form of dates, RFC
3339), read with the XML parser of Python's library.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree

import pytest
from walebook.pattern.collection import CollectionSettings
from walebook_site.feed import feed

from tests.site.builds import Commands, commands, make_project, tree

ATOM = "{http://www.w3.org/2005/Atom}"
ADDRESS = "https://lantern-lane.example/knits/"
NEWS = {"title": "Harbour & Co <front>", "version": "1.1.0", "designer": "Wren Ashdown",
        "summary": "A front.", "corrections": [
            ["2026-11-03", "Second of the day.", "1.1.0", ["S", "M"]],
            ["2026-11-03", "First of the day.", "", []]], "withdrawn": []}


@pytest.fixture(scope="module")
def loaded() -> Iterator[Commands]:
    with commands() as process:
        yield process


def entries(text: str) -> list[ElementTree.Element]:
    return ElementTree.fromstring(text).findall(f"{ATOM}entry")


def said(entry: ElementTree.Element, name: str) -> str:
    (found,) = entry.findall(f"{ATOM}{name}")
    return found.text or ""


def test_it_is_an_atom_feed() -> None:
    """RFC 4287, 4.1.1 and 4.1.2: one id, title and updated each; an author; ids never twice."""
    text = feed("Lantern Lane", ADDRESS, [("front", "2026-11-04", NEWS), (
        "back", "2026-10-01", NEWS | {"corrections": []})])
    root = ElementTree.fromstring(text)
    assert root.tag == f"{ATOM}feed" and said(root, "title") == "Lantern Lane"
    ids = [said(one, "id") for one in [root, *entries(text)]]
    assert len(ids) == 5 == len(set(ids)) and all(one.startswith(ADDRESS) for one in ids)
    days = [said(one, "updated") for one in entries(text)]
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\dT00:00:00Z", day) for day in days)
    assert days == sorted(days, reverse=True) and said(root, "updated") == days[0]
    assert all(one.find(f"{ATOM}author/{ATOM}name") is not None for one in entries(text))
    assert all(one.find(f"{ATOM}link").attrib["href"].startswith(ADDRESS) for one in entries(text))


def test_a_correction_says_whom_it_concerns() -> None:
    told = {said(one, "summary"): said(one, "title") for one in
            entries(feed("Lantern Lane", ADDRESS, [("front", "2026-11-04", NEWS)]))}
    assert told["Second of the day."] == "Harbour & Co <front>: corrected, version 1.1.0 (S, M)"
    assert told["First of the day."] == "Harbour & Co <front>: corrected"


def former(*rows: tuple[str, ...]) -> CollectionSettings:
    return CollectionSettings(title="Lane", former=rows)


def test_who_reads_the_feed_alone_learns_of_a_renamed_and_a_withdrawn_pattern() -> None:
    """Each is an entry of its day, with an author and a link to the page that says so."""
    text = feed("Lantern Lane", ADDRESS, [("front", "2026-11-04", NEWS)], former(
        ("quay-front", "Quay <front>", "2026-11-20", "front"),
        ("gone-hat", "Gone hat", "2026-11-21", "", "Its crown did not close.")))
    found = {said(one, "title"): one for one in entries(text)}
    hat, front = found["Gone hat was withdrawn"], found["Quay <front> has another name now"]
    assert said(hat, "updated") == "2026-11-21T00:00:00Z" == said(ElementTree.fromstring(text),
                                                                  "updated")
    assert said(hat, "summary").endswith("on 2026-11-21. Its crown did not close.")
    for one, folder in ((hat, "gone-hat"), (front, "quay-front")):
        assert one.find(f"{ATOM}link").attrib["href"] == f"{ADDRESS}patterns/{folder}/index.html"
        assert said(one.find(f"{ATOM}author"), "name") == "Lantern Lane"
    ids = [said(one, "id") for one in entries(text)]
    assert len(ids) == 5 == len(set(ids))


def test_who_reads_the_feed_alone_learns_of_a_withdrawn_size() -> None:
    gone = ["24 months", "2026-11-20", "Too short."]
    patterns = [("front", "2026-12-04", NEWS | {"corrections": [], "withdrawn": [gone]})]
    found = {said(one, "title"): one for one in entries(feed("Lane", ADDRESS, patterns))}
    one = found["Harbour & Co <front>: the size 24 months was withdrawn"]
    assert said(one, "updated") == "2026-11-20T00:00:00Z"
    assert said(one, "summary") == (
        "The designer withdrew the size 24 months on 2026-11-20. Too short.")
    assert one.find(f"{ATOM}link").attrib["href"] == f"{ADDRESS}patterns/front/24-months.html"
    assert said(one.find(f"{ATOM}author"), "name") == "Wren Ashdown"
    assert said(found["Harbour & Co <front>"], "updated") == "2026-11-20T00:00:00Z", "not later"
    ids = [said(each, "id") for each in found.values()]
    assert len(set(ids)) == 2


def test_entries_of_a_renamed_pattern_keep_their_names() -> None:
    """RFC 4287, 4.2.6: an id is never another one, wherever what it names has gone."""
    def told(slug: str, settings: CollectionSettings) -> dict[str, tuple[str, str]]:
        return {said(one, "summary"): (said(one, "id"), one.find(f"{ATOM}link").attrib["href"])
                for one in entries(feed("Lane", ADDRESS, [(slug, "2026-11-09", NEWS)], settings))}
    before = told("quay-front", former())
    after = told("front", former(("quay-front", "Quay", "2026-11-20", "lane-front"),
                                 ("quay-front", "Quay", "2026-11-20", "front")))
    for summary, (name, link) in before.items():
        assert after[summary] == (name, link.replace("quay-front", "front"))


def test_a_new_correction_takes_no_other_ones_name() -> None:
    """Corrections stand newest first: what was read already keeps its id (RFC 4287, 4.2.6)."""
    def ids(corrections: list[object]) -> dict[str, str]:
        text = feed("Lane", ADDRESS, [("front", "2026-11-09", NEWS | {"corrections": corrections})])
        return {said(one, "summary"): said(one, "id") for one in entries(text)}
    before = ids(NEWS["corrections"])
    after = ids([["2026-11-03", "A third.", "", []], *NEWS["corrections"]])
    assert all(after[summary] == name for summary, name in before.items())


def test_a_site_with_an_address_has_it_and_names_it(loaded: Commands, tmp_path: Path) -> None:
    root = make_project(tmp_path / "lane")
    assert loaded.run(root, "mkdocs", "build").code == 0
    assert "corrections.xml" not in tree(root / "site")
    with (root / "mkdocs.yml").open("a") as settings:
        settings.write(f"site_url: {ADDRESS}\n")
    assert loaded.run(root, "mkdocs", "build").code == 0
    text = (root / "site" / "corrections.xml").read_text()
    assert said(ElementTree.fromstring(text), "id") == f"{ADDRESS}corrections.xml"
    assert len(entries(text)) >= 1


def test_the_demo_has_a_feed(site: Path) -> None:
    """Its address is nobody's (RFC 2606, 2)."""
    text = (site / "corrections.xml").read_text(encoding="utf-8")
    assert said(ElementTree.fromstring(text), "id") == "https://lantern-quay.example/corrections.xml"
    assert len(entries(text)) > 48  # each pattern, and corrections
