"""The licence of a collection is that of its patterns without one, and changes nothing else."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
import yaml
from harbour_store import BAND, SLUG, begun, commit, git, write
from walebook.core.problems import Severity
from walebook.pages import try_door
from walebook.pages.own_gauge_door import answer
from walebook.pages.source_schema import source_schema
from walebook.proof.texts import collection_of
from walebook.source.keys.pattern_keys import PatternKeys
from walebook_site.command import main
from walebook_site.new_collection import Beginning
from walebook_site.offered_texts import texts_offered
from walebook_site.reading import COLLECTION, Reading
from walebook_site.sources import collect

LINE = "licence: CC BY-NC 4.0\n"
WITHOUT = BAND.replace(LINE, "")
MISSING = (f'patterns/{SLUG}/pattern.yaml:1:1: error, missing-key: found no "licence" in the '
           f'pattern, and none in {COLLECTION}. Add a line such as "licence: CC BY-NC 4.0" to one '
           "of them.")


def settle(root: Path, text: str = "") -> None:
    """Write the settings of a collection."""
    (root / COLLECTION).write_text(f"title: Quay\n{text}", encoding="utf-8")


def stand(root: Path, source: str, settings: str = "") -> dict[str, str]:
    """Write a pattern and its collection, and return every page and count file by its path."""
    write(root, source)
    settle(root, settings)
    made = collect(root)
    assert not [each for each in made.problems if each.severity is Severity.ERROR]
    return dict(made.texts())


def test_a_pattern_without_a_licence_has_the_collections_on_every_page(tmp_path: Path) -> None:
    pages = stand(tmp_path, WITHOUT, "licence: For private use\n")
    shown = {path.rpartition("/")[2] for path, text in pages.items() if "For private use" in text}
    assert {"index.md", "s.md", "m.md"} <= shown
    assert "Licence: For private use." in pages[f"patterns/{SLUG}/m.md"]


def test_a_patterns_own_licence_goes_before_the_collections(tmp_path: Path) -> None:
    pages = stand(tmp_path, BAND, "licence: For private use\n")
    assert not any("For private use" in text for text in pages.values())
    assert "Licence: CC BY-NC 4.0." in pages[f"patterns/{SLUG}/m.md"]


@pytest.mark.parametrize("settings", ["", "about: Bands.\n"])
def test_a_licence_in_neither_place_is_a_finding_that_names_both(
        tmp_path: Path, settings: str) -> None:
    write(tmp_path, WITHOUT)
    if settings:
        settle(tmp_path, settings)
    found = [str(each) for each in collect(tmp_path).problems if each.code == "missing-key"]
    assert found == [MISSING]


@pytest.mark.parametrize(("line", "codes"), [
    ("licence:\n", {"empty-value"}), ("license: CC0\n", {"unknown-key"})])
def test_a_slip_in_a_patterns_own_licence_is_not_passed_over(
        tmp_path: Path, line: str, codes: set[str]) -> None:
    write(tmp_path, BAND.replace(LINE, line))
    settle(tmp_path, "licence: For private use\n")
    found = collect(tmp_path).problems
    assert {each.code for each in found if each.severity is Severity.ERROR} == codes


def test_an_empty_licence_of_a_collection_is_a_finding_at_its_place() -> None:
    settings, (one,) = collection_of("title: Quay\nlicence:\n", file=COLLECTION)
    assert settings is None
    assert (one.code, one.place.line, one.place.column) == ("empty-value", 2, 1)


def test_a_licence_that_moves_to_the_collection_changes_no_page_and_no_record(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = stand(tmp_path, BAND)
    record = tmp_path / "patterns" / SLUG / "published.json"
    assert main(["record", SLUG, "--root", str(tmp_path)]) == 0
    kept = record.read_bytes()
    after = stand(tmp_path, BAND.replace(LINE, "# it is the collection's\n"), LINE)
    assert after == before and f"patterns/{SLUG}/counts.json" in after
    stand(tmp_path, WITHOUT, LINE)  # counts.json has the lines of the source, which move up by one
    assert main(["record", SLUG, "--root", str(tmp_path)]) == 0
    assert record.read_bytes() == kept
    assert f"patterns/{SLUG}/published.json is as it was: version 1.0.0." in capsys.readouterr().out


def test_the_schema_takes_a_pattern_without_a_licence() -> None:
    judge = jsonschema.Draft202012Validator(source_schema(PatternKeys))
    assert judge.is_valid(yaml.load(WITHOUT, yaml.BaseLoader))
    assert not judge.is_valid(yaml.load(BAND.replace(LINE, "licence:\n"), yaml.SafeLoader))


def test_a_new_collection_has_the_licence_in_its_settings_alone(tmp_path: Path) -> None:
    root = tmp_path / "lane"
    assert main(["new", str(root), "--licence", "For private use: ask me"]) == 0
    settings = yaml.safe_load((root / COLLECTION).read_text(encoding="utf-8"))
    assert settings["licence"] == "For private use: ask me"
    source, = (root / "patterns").glob("*/pattern.yaml")
    assert "licence" not in source.read_text(encoding="utf-8")
    proof, = collect(root).proofs
    assert proof.pattern.licence == "For private use: ask me"


def test_the_source_that_is_begun_with_on_a_page_has_a_licence_itself() -> None:
    """There is no collection beside it."""
    source = Beginning(licence="For private use: ask me").source_alone()
    assert yaml.safe_load(source)["licence"] == "For private use: ask me"
    assert source.startswith("title:")


def test_what_is_tried_has_the_licence_of_the_collection_that_goes_with_it() -> None:
    beds = {"standard": "pitch: 4.5 mm\nneedles: 200\nsource: measured\n"}
    given = {"slug": SLUG, "source": WITHOUT, "beds": beds, "charts": {}, "units": "cm first"}
    with_it = json.loads(try_door.answer(json.dumps(
        {**given, "collection": {"licence": "For private use"}})))
    assert "For private use" in with_it["page"]["html"]
    without = json.loads(try_door.answer(json.dumps(given)))
    assert without["page"] is None
    assert [each["code"] for each in without["findings"] if each["severity"] == "error"] == [
        "missing-key"]


def test_a_page_at_a_readers_own_gauge_has_the_collections_licence(tmp_path: Path) -> None:
    stand(tmp_path, f"{WITHOUT}reader_may_change: gauge\n", "licence: For private use\n")
    settings, _ = collection_of((tmp_path / COLLECTION).read_text(encoding="utf-8"),
                                file=COLLECTION)
    reading = Reading(tmp_path)
    assert settings is not None
    text = texts_offered(reading, reading.folder(SLUG), settings)
    assert text is not None
    offer = json.loads(text)
    swatches = {each["key"]: each["swatch"] for each in offer["fabrics"]}
    made = json.loads(answer(json.dumps({**offer["asked"], "size": "m", "swatches": swatches})))
    assert "For private use" in made["page"]["html"]


def test_a_comparison_sees_that_the_collections_licence_is_gone(
        tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
        ) -> None:
    """The pattern's own texts are the same, and it can no longer be published."""
    def state() -> str:
        capsys.readouterr()
        main(["compare", "--json", "--root", str(root)])
        one, = json.loads(capsys.readouterr().out)["patterns"]
        return str(one["state"])

    root = begun(tmp_path, monkeypatch)
    write(root, WITHOUT)
    settle(root, LINE)
    commit(root, WITHOUT)
    settle(root, "licence: For private use\n")
    assert state() == "same"
    settle(root)
    assert state() != "same"
    settle(root, LINE)
    write(root, BAND)
    assert state() == "same"
    assert git(root, "status", "--porcelain")
