"""What a change beside a pattern costs it: `walebook compare` knits what the change can reach.

A pattern whose texts are the same, and all that these name, is passed over. A name stands in the
text as it is: of a bed, a size chart, a page, another pattern.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from harbour_store import BAND, SLUG, begun, commit, write
from walebook_site.command import main
from walebook_site.compared_sides import Knitted
from walebook_site.reading import Reading
from walebook_site.standing import Standing

from tests.whole_collection import ROOT

OURS = ROOT / "patterns"
OTHER = "second-band"


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with two patterns, a page, and beds and charts of which one bed is named."""
    root = begun(tmp_path, monkeypatch)
    for folder in ("_beds", "_sizes"):
        shutil.copytree(OURS / folder, root / "patterns" / folder)
    (root / "site_src").mkdir()
    (root / "site_src" / "yarn-shop.md").write_text("# Shop\n", encoding="utf-8")
    other = root / "patterns" / OTHER
    other.mkdir()
    (other / "pattern.yaml").write_text(f"{BAND}# a second\n", encoding="utf-8")
    commit(root, BAND)
    return root


@pytest.fixture
def knitted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the patterns that are knitted from now on."""
    found: list[str] = []
    proved = Knitted.proved
    monkeypatch.setattr(Knitted, "proved",
                        lambda self, slug: (found.append(slug), proved(self, slug))[1])
    return found


def reports(root: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, dict]:
    """The report of each pattern since the last commit."""
    main(["compare", "--json", "--root", str(root)])
    return {one["slug"]: one for one in json.loads(capsys.readouterr().out)["patterns"]}


def _comes(root: Path) -> None:
    shutil.copytree(root / "patterns" / OTHER, root / "patterns" / "third-band")


def _goes(root: Path) -> None:
    shutil.rmtree(root / "patterns" / OTHER)


def _page(root: Path) -> None:
    (root / "site_src" / "more.md").write_text("# More\n", encoding="utf-8")


def _more(folder: str, name: str) -> Callable[[Path], None]:
    def does(root: Path) -> None:
        path = root / "patterns" / folder / name
        path.write_text(f"{path.read_text(encoding='utf-8')}# longer\n", encoding="utf-8")
    return does


def _record(root: Path) -> None:
    main(["record", SLUG, "--root", str(root)])


@pytest.mark.parametrize("does", [
    _comes, _goes, _page, _more("_beds", "bulky.yaml"), _more("_sizes", "women.yaml"), _record],
    ids=["a pattern comes", "a pattern goes", "a page comes", "another bed", "a size chart",
         "its record"])
def test_what_it_does_not_name_knits_no_pattern(store, capsys, knitted, does):
    does(store)
    knitted.clear()
    capsys.readouterr()
    assert reports(store, capsys)[SLUG]["state"] == "same"
    assert SLUG not in knitted


def test_a_pattern_that_came_is_knitted_once_and_kept(store, capsys, knitted):
    _comes(store)
    first = reports(store, capsys)
    assert first["third-band"]["state"] == "new"
    assert set(knitted) == {"third-band"}
    knitted.clear()
    assert reports(store, capsys) == first
    assert knitted == []


def test_a_bed_that_is_named_knits_it(store, capsys, knitted):
    _more("_beds", "standard.yaml")(store)
    assert reports(store, capsys)[SLUG]["state"] == "same"
    assert SLUG in knitted


def test_a_name_that_is_written_with_an_escape_is_seen(store, capsys, knitted):
    commit(store, BAND.replace("bed: standard", 'bed: "st\\x61ndard"'))
    _more("_beds", "standard.yaml")(store)
    assert reports(store, capsys)[SLUG]["state"] == "same"
    assert SLUG in knitted


@pytest.mark.parametrize(("link", "does"), [
    ("../../yarn-shop.html", lambda root: (root / "site_src" / "yarn-shop.md").unlink()),
    (f"../{OTHER}/index.html", _goes),
    ("../../yarn&#45;shop.html", lambda root: (root / "site_src" / "yarn-shop.md").unlink())])
def test_a_page_that_its_notes_lead_to_and_that_went_is_a_finding(store, capsys, link, does):
    (store / "patterns" / SLUG / "notes.md").write_text(f"See [this]({link}).\n", encoding="utf-8")
    commit(store, BAND)
    does(store)
    report = reports(store, capsys)[SLUG]
    assert [one["name"] for one in report["changes"] if one["kind"] == "finding"], report


def test_a_pattern_that_its_notes_lead_to_and_that_became_a_draft_is_a_finding(store, capsys):
    """The overview of a draft is not published, so that the link leads nowhere."""
    (store / "patterns" / SLUG / "notes.md").write_text(f"See [it](../{OTHER}/index.html).\n",
                                                        encoding="utf-8")
    commit(store, BAND)
    path = store / "patterns" / OTHER / "pattern.yaml"
    path.write_text(f"status: draft\n{path.read_text(encoding='utf-8')}", encoding="utf-8")
    report = reports(store, capsys)[SLUG]
    assert [one["name"] for one in report["changes"] if one["kind"] == "finding"], report


def test_what_another_pattern_of_the_store_is_called_moves_no_report_that_is_kept(
        store, capsys, knitted):
    write(store, BAND.replace("M: 208", "M: 216"))
    first = reports(store, capsys)[SLUG]
    _page(store)
    knitted.clear()
    assert reports(store, capsys)[SLUG] == first
    assert knitted == []


@pytest.mark.sampled(4)
@pytest.mark.parametrize("slug", Reading(ROOT).folders())
def test_all_that_a_proof_led_to_stands_in_the_texts(slug, tmp_path):
    """What a pattern of the collection asked for while it was knitted, by its names."""
    standing = Standing(Reading(ROOT))
    asked = Knitted.of(standing).proved(slug).depends
    named = set(standing.named(slug))
    for name in asked:
        kind, _, which = name.partition(" ")
        if kind == "page":
            folder, _, file = which.rpartition("/")
            which = folder.rpartition("/")[2] if folder.startswith("patterns/") \
                else file.removesuffix(".html")
        if which == "chart" and kind == "chart":  # the pattern's own, which is one of its texts
            continue
        there = standing.shared.keys()
        assert f"{kind} {which}" in named or f"{kind} {which}" not in there, name
