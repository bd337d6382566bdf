"""The record of a published version: written once, and no count moves under it unseen.

The counts of the README's band are worked out by hand in test_compare.py. Which part of a version
rises for what is common practice, without a source.
"""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
import yaml
from harbour_store import BAND, SLUG, begun, commit, git, write
from hypothesis import given
from hypothesis import strategies as st
from walebook.compare.compared_facts import Fact, FactKey, FactKind
from walebook.compare.differences import FactDifference
from walebook.compare.versions import has_risen, next_version, numbers
from walebook.pages import recorded as records
from walebook.words.record_text import moved_text
from walebook_site.command import main

from tests.whole_collection import ROOT

CORRECTED = 'corrections:\n  - {{date: 2026-11-20, version: "{}", text: Longer.}}\n'
LONGER = ("M: 208", "M: 216")
SECOND = """\
  plain:
    title: Plain band
    edge: front
    pick_up: 3/4
    rows: {to_holes: 4, holes_to_fold: 4, fold_to_holes: 4, to_finish: 4}
"""


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
          ) -> Path:
    """A pattern whose version 1.0.0 is recorded."""
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    write(tmp_path, BAND)
    assert main(["record", SLUG, "--root", str(tmp_path)]) == 0
    assert capsys.readouterr().out == f"patterns/{SLUG}/published.json has version 1.0.0.\n"
    return tmp_path


def changed(*pairs: tuple[str, str], text: str = BAND) -> str:
    for old, new in pairs:
        assert text.count(old) == 1
        text = text.replace(old, new)
    return text


def raised(version: str) -> tuple[str, str]:
    return "version: 1.0.0", f"version: {version}"


def found(root: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, dict]:
    """The findings of a check about versions, by their codes."""
    capsys.readouterr()
    main(["check", "--json", "--root", str(root)])
    return {one["code"]: one for one in json.loads(capsys.readouterr().out)["findings"]
            if one["code"] in ("count-moved", "version-rise", "bad-record", "no-correction",
                               "correction-sizes")}


def drafted(root: Path, capsys: pytest.CaptureFixture[str]) -> list[dict]:
    capsys.readouterr()
    assert main(["record", SLUG, "--draft", "--root", str(root)]) == 0
    return yaml.load(capsys.readouterr().out, yaml.BaseLoader)["corrections"]


def test_a_renamed_folder_of_a_published_pattern_is_to_be_named(store, capsys):
    """Its address, and what knitters saved there, are those of the old name."""
    def said() -> str:
        capsys.readouterr()
        main(["check", "--root", str(store)])
        return capsys.readouterr().out

    assert "renamed-folder" not in said()
    (store / "patterns" / SLUG).rename(store / "patterns" / "quay-band")
    assert (f"patterns/quay-band/published.json:1:1: warning, renamed-folder: found the record of "
            f"{SLUG}, which was published under that name; expected an address that stays. Write "
            "it under former in patterns/collection.yaml, with its title and the day: - {folder: "
            f"{SLUG}, title: …, date: …, now: quay-band}}.") in said()
    (store / "patterns" / "collection.yaml").write_text(
        f"title: Quay\nformer: [{{folder: {SLUG}, title: Band, date: 2026-11-20, "
        "now: quay-band}]\n", encoding="utf-8")
    assert "renamed-folder" not in said()
    (store / "patterns" / "collection.yaml").unlink()
    shutil.copytree(store / "patterns" / "quay-band", store / "patterns" / SLUG)
    assert f"This is a copy of {SLUG}: delete published.json here." in said()


def test_a_published_pattern_that_is_gone_is_to_be_named(tmp_path, capsys, monkeypatch):
    """Its record went with its folder; git has it."""
    def said(*names: str) -> str:
        capsys.readouterr()
        main(["check", *names, "--root", str(store)])
        return capsys.readouterr().out

    store = begun(tmp_path, monkeypatch)
    commit(store, BAND)
    commit(store, BAND, "quay-band")
    assert main(["record", SLUG, "--root", str(store)]) == 0
    commit(store, BAND)
    shutil.rmtree(store / "patterns" / SLUG)
    wanted = (f"patterns/collection.yaml:1:1: warning, gone-pattern: found no folder patterns/"
              f"{SLUG}, whose published version git has; expected a page at its address that says "
              f"what became of it. If it was published, write under former: - {{folder: {SLUG}, "
              "title: …, date: …}")
    assert wanted in said()
    assert "gone-pattern" not in said("quay-band")
    git(store, "add", "-A")
    git(store, "commit", "-q", "-m", "Gone")
    assert wanted in said()
    shutil.rmtree(store / "patterns" / "quay-band")
    commit(store, BAND, "quay-front")
    assert said().count("gone-pattern") == 1, "a pattern that was never recorded may go"
    (store / "patterns" / "collection.yaml").write_text(
        f"title: Quay\nformer: [{{folder: {SLUG}, title: Band, date: 2026-11-20}}]\n",
        encoding="utf-8")
    assert "gone-pattern" not in said()


def test_a_published_pattern_names_the_yarn_that_was_knitted(tmp_path, store, capsys):
    def said() -> str:
        capsys.readouterr()
        main(["check", "--root", str(store)])
        return capsys.readouterr().out

    assert ': the yarn "Your Wool" in a published pattern; expected the yarn' in said()
    write(store, changed(("Your Wool", "Quay Wool")))
    assert "placeholder" not in said()


def test_a_size_that_is_gone_is_to_be_withdrawn(store, capsys):
    gone = changed(("[S, M]", "[S]"), (", M: 208", ""))
    write(store, gone)
    assert "Name M under withdrawn_sizes: a page then says so." in \
        found(store, capsys)["count-moved"]["remedy"]
    write(store, gone + "withdrawn_sizes: [{label: M, date: 2026-11-20}]\n")
    assert "withdrawn_sizes" not in found(store, capsys)["count-moved"]["remedy"]


def test_a_size_that_has_another_label_is_to_name_its_former_one(store, capsys):
    """Withdrawn, its page said that it is gone, and its knitters lost their places."""
    def renamed(former: str) -> str:
        return changed(("[S, M]", "[S, {label: Mid, as: M" + former + "}]"), ("M: 208", "Mid: 208"))

    write(store, renamed(""))
    remedy = found(store, capsys)["count-moved"]["remedy"]
    assert remedy.startswith("Size M may be called Mid now: then write former: [M] beside that "
                             "label, and who knits it keeps her place. Otherwise raise the version")
    assert remedy.endswith("Name M under withdrawn_sizes: a page then says so.")
    write(store, renamed(", former: [M]"))
    assert not found(store, capsys)


def test_nothing_is_found_of_a_version_as_it_was_published(store, capsys):
    assert not found(store, capsys)
    write(store, changed(("title: Harbour", "title: Lantern"), ("16 mm", "1.6 cm")))
    assert not found(store, capsys)


def test_a_count_that_moves_under_its_version_is_an_error(store, capsys):
    write(store, changed(LONGER))
    one = found(store, capsys)["count-moved"]
    assert (one["severity"], one["line"], one["column"]) == ("error", 2, 10)
    assert one["found"].startswith(
        "other counts than version 1.0.0 was published with: size M, Front band, edge rows: 216, "
        "not 208; size M, Front band, band stitches: 162, not 156; size M, ")
    assert one["expected"] == "version 1.1.0 or above"
    assert f"walebook record {SLUG} --draft" in one["remedy"]
    assert main(["pages", str(store / "out"), "--root", str(store)]) == 1


def test_a_version_that_rose_is_enough(store, capsys):
    write(store, changed(LONGER, raised("1.1.0")) + CORRECTED.format("1.1.0"))
    assert set(found(store, capsys)) <= {"correction-sizes"}


@pytest.mark.parametrize(("version", "text", "wanted"), [
    ("1.0.1", changed(LONGER), "1.1.0"),
    ("1.1.0", BAND.replace("[S, M]", "[S]").replace(", M: 208", ""), "2.0.0"),
    ("1.0.1", BAND.replace("[S, M]", "[S, M, L]").replace("M: 208", "M: 208, L: 216"), "1.1.0")])
def test_a_version_that_rose_too_little_is_a_warning(store, capsys, version, text, wanted):
    write(store, changed(raised(version), text=text))
    one = found(store, capsys)["version-rise"]
    assert (one["severity"], one["expected"]) == ("warning", f"version {wanted} or above")


def test_a_version_that_rose_too_little_is_not_recorded(store, capsys):
    record = store / "patterns" / SLUG / "published.json"
    before = record.read_bytes()
    write(store, changed(LONGER, raised("1.0.1")))
    capsys.readouterr()
    assert main(["record", SLUG, "--root", str(store)]) == 1
    assert capsys.readouterr().out == (
        f"patterns/{SLUG}/published.json was not written: version 1.0.1 has other counts than "
        "version 1.0.0 was published with. Raise it to 1.1.0 or above first.\n")
    assert record.read_bytes() == before
    assert found(store, capsys)["version-rise"]["severity"] == "warning", "it is said again"
    write(store, changed(LONGER, raised("1.1.0")) + CORRECTED.format("1.1.0"))
    assert main(["record", SLUG, "--root", str(store)]) == 0


@pytest.mark.parametrize("version", ["0.9.0", "0.9"])
def test_a_version_below_the_recorded_one_is_not_recorded(store, capsys, version):
    write(store, changed(raised(version)))
    assert main(["record", SLUG, "--root", str(store)]) == 1
    assert "Raise it to 1.0.0 or above first." in capsys.readouterr().out


def test_moved_counts_without_a_correction_are_a_caution_with_the_draft(store, capsys):
    write(store, changed(LONGER, raised("1.1.0")))
    one = found(store, capsys)["no-correction"]
    assert (one["severity"], one["line"], one["column"]) == ("caution", 2, 10)
    assert one["expected"] == "a correction that names version 1.1.0"
    (entry,) = drafted(store, capsys)
    assert entry["text"] in one["remedy"] and "sizes: [M]" in one["remedy"]


def test_moved_counts_without_a_correction_are_not_recorded(store, capsys):
    """They were, and after that neither the check nor the draft knew of them."""
    record = store / "patterns" / SLUG / "published.json"
    before = record.read_bytes()
    write(store, changed(LONGER, raised("1.1.0")))
    assert main(["record", SLUG, "--root", str(store)]) == 1
    assert capsys.readouterr().out == (
        f"patterns/{SLUG}/published.json was not written: version 1.1.0 has other counts than "
        "version 1.0.0, and no correction names it. Write one first: walebook record "
        f"{SLUG} --draft drafts it.\n")
    assert record.read_bytes() == before
    assert "no-correction" in found(store, capsys)
    write(store, changed(LONGER, raised("1.1.0")) + CORRECTED.format("1.1.0"))
    assert main(["record", SLUG, "--root", str(store)]) == 0
    assert "no-correction" not in found(store, capsys)


def test_a_correction_is_of_the_sizes_whose_counts_moved(store, capsys):
    """Size M moved; a knitter of S that reads the correction looks for what is not there."""
    def sized(*sizes: str, version: str = "1.1.0") -> str:
        return f'  - {{date: 2026-11-20, version: "{version}", text: Longer., ' \
            f"sizes: [{', '.join(sizes)}]}}\n"

    raised_text = changed(LONGER, raised("1.1.0")) + "corrections:\n"
    write(store, raised_text + sized("S"))
    one = found(store, capsys)["no-correction"]
    assert one["expected"] == "a correction that names version 1.1.0 and has the size M"
    assert main(["record", SLUG, "--root", str(store)]) == 1
    assert "and no correction that names it has the size M. Write" in capsys.readouterr().out
    write(store, raised_text + sized("M", version="1.0.0") + sized("S"))
    assert "no-correction" in found(store, capsys)
    for enough in (sized("M"), sized("S") + sized("M"), sized("S", "M")):
        write(store, raised_text + enough)
        assert not found(store, capsys)
    write(store, changed(LONGER, raised("1.1.0")) + CORRECTED.format("1.1.0"))
    one = found(store, capsys)["correction-sizes"]
    assert (one["severity"], one["line"], one["column"]) == ("remark", 2, 10)
    assert one["found"] == (
        "a correction of version 1.1.0 for all sizes, where the counts and the shaping of size S "
        "are those of version 1.0.0")
    assert "sizes: [M]" in one["remedy"]
    assert main(["record", SLUG, "--root", str(store)]) == 0, "yarn is not recorded"
    assert not found(store, capsys)


@pytest.mark.parametrize(("version", "is_enough"), [
    ("1.1.0", True), ("1.1", True), ("1.0.0", False)])
def test_a_correction_that_names_the_version_is_enough(store, capsys, version, is_enough):
    write(store, changed(LONGER, raised("1.1.0")) + CORRECTED.format(version))
    assert ("no-correction" not in found(store, capsys)) is is_enough


def test_a_new_or_withdrawn_size_alone_takes_no_correction(store, capsys):
    """Nothing moved for who knits another size."""
    more = BAND.replace("[S, M]", "[S, M, L]").replace("M: 208", "M: 208, L: 216")
    write(store, changed(raised("1.1.0"), text=more))
    assert not found(store, capsys)
    assert main(["record", SLUG, "--root", str(store)]) == 0
    write(store, changed(raised("2.0.0")) + "withdrawn_sizes: [{label: L, date: 2026-11-27}]\n")
    assert not found(store, capsys)


def test_a_version_below_the_published_one_is_an_error(store, capsys):
    write(store, changed(raised("0.9.0")))
    one = found(store, capsys)["version-rise"]
    assert (one["severity"], one["found"]) == ("error", "version 0.9.0, below the published 1.0.0")


def test_a_band_that_is_gone_raises_the_first_part(store, capsys):
    write(store, changed(raised("1.1.0"), text=BAND + SECOND) + CORRECTED.format("1.1.0"))
    assert main(["record", SLUG, "--root", str(store)]) == 0
    write(store, changed(raised("1.1.0")))
    assert found(store, capsys)["count-moved"]["expected"] == "version 2.0.0 or above"


def test_counts_that_walebook_alone_moved_are_a_caution(store, capsys, monkeypatch):
    """The record has what an engine made that found one row fewer: the source is as it was."""
    record = store / "patterns" / SLUG / "published.json"
    said = json.loads(record.read_text(encoding="utf-8"))
    del said["digest"]
    said["counts"]["M"]["front"]["edge_rows"] = "207 rows"
    record.write_text(json.dumps(said | {"digest": records._digest(said)}), encoding="utf-8")
    one = found(store, capsys)["count-moved"]
    assert one["severity"] == "caution"
    assert "size M, Front band, edge rows: 208, not 207" in one["found"]
    assert "Walebook itself counts otherwise now" in one["remedy"]
    write(store, changed(("title: Harbour", "title: Lantern")))
    assert found(store, capsys)["count-moved"]["severity"] == "caution"
    write(store, changed(("16 mm", "18 mm")))  # another source, with the same counts
    assert found(store, capsys)["count-moved"]["severity"] == "error"


def test_a_count_that_walebook_names_since_the_record_is_no_move(store, capsys):
    """The record is of an engine that did not name it; then it is added under the same version."""
    record = store / "patterns" / SLUG / "published.json"
    whole = record.read_text(encoding="utf-8")
    said = json.loads(whole)
    del said["digest"]
    del said["counts"]["M"]["front"]["edge_rows"]
    record.write_text(json.dumps(said | {"digest": records._digest(said)}), encoding="utf-8")
    assert "count-moved" not in found(store, capsys)
    assert main(["record", SLUG, "--root", str(store)]) == 0
    assert record.read_text(encoding="utf-8") == whole
    write(store, changed(("16 mm", "18 mm")))
    assert "count-moved" not in found(store, capsys)


@pytest.mark.parametrize("spoiled", [
    "", "{", "[]", "{}", "null", '{"digest": "x"}',
    lambda text: text.replace("156", "157", 1), lambda text: text.replace("1.0.0", "1.1.0", 1)])
def test_a_record_that_was_changed_by_hand_is_an_error(store, capsys, spoiled):
    record = store / "patterns" / SLUG / "published.json"
    text = record.read_text(encoding="utf-8")
    record.write_text(spoiled(text) if callable(spoiled) else spoiled, encoding="utf-8")
    one = found(store, capsys)["bad-record"]
    assert (one["severity"], one["file"]) == ("error", f"patterns/{SLUG}/published.json")


def test_a_draft_says_which_sizes_which_numbers_and_who_is_not_concerned(store, capsys):
    write(store, changed(LONGER))
    one, = drafted(store, capsys)
    assert one == {"date": "2026-11-20", "version": "1.1.0", "sizes": ["M"], "text":
                   "Front band, edge rows: 216, not 208 in size M. Front "
                   "band, band stitches: 162, not 156 in size M. Front band, gaps: 21, 21, 21, 21, "
                   "21, 21, not 20, 20, 20, 20, 20, 20 in size M. Front band, closing gaps: 20, "
                   "20, 20, 20, 20, 20, not 19, 19, 19, 19, 19, 19 in size M. Front band: other "
                   "rows are taken in size M. Size S is as before."}


def test_a_draft_names_the_input_that_moved_where_git_has_the_recorded_source(store, capsys):
    """Its text is as it was: the cause stands above it, for the designer."""
    git(store, "init", "-q")
    git(store, "add", "patterns")
    git(store, "commit", "-q", "-m", "A version")
    write(store, changed(LONGER, ("summary: A folded", "summary: A long folded")))
    capsys.readouterr()
    main(["record", SLUG, "--draft", "--root", str(store)])
    line = next(n for n, text in enumerate(BAND.splitlines(), 1) if "M: 208" in text)
    head, cause, *_ = capsys.readouterr().out.splitlines()
    assert head.startswith("#")
    assert re.fullmatch(rf"# Because of edges\.front\.rows\.M: 208 → 216 \(patterns/{SLUG}/"
                        rf"pattern\.yaml:{line}:\d+\)", cause)
    assert len(drafted(store, capsys)) == 1


def test_a_draft_names_no_input_where_git_has_another_record(store, capsys):
    """The record was written anew and not committed: nobody knows its source."""
    record = store / "patterns" / SLUG / "published.json"
    now = record.read_text(encoding="utf-8")
    git(store, "init", "-q")
    record.write_text("{}", encoding="utf-8")
    git(store, "add", "patterns")
    git(store, "commit", "-q", "-m", "Another record")
    record.write_text(now, encoding="utf-8")
    write(store, changed(LONGER))
    capsys.readouterr()
    main(["record", SLUG, "--draft", "--root", str(store)])
    assert "Because of" not in capsys.readouterr().out


def test_a_draft_has_the_day_of_the_version_before_and_says_so(store, capsys):
    """Pasted as it was, the correction was dated to the day of the published version."""
    write(store, changed(LONGER))
    capsys.readouterr()
    main(["record", SLUG, "--draft", "--root", str(store)])
    dates = [line for line in capsys.readouterr().out.splitlines() if "date:" in line]
    assert dates == ["- date: '2026-11-20'  # write the day of the new version"]


def test_a_size_that_is_gone_is_said_in_plain_words(store, capsys):
    write(store, BAND.replace("[S, M]", "[S]").replace(", M: 208", ""))
    said = found(store, capsys)["count-moved"]["found"]
    assert said.endswith("was published with: size M is gone")


def test_rows_of_shaping_are_not_listed_in_a_finding() -> None:
    """It printed the numbers of fifty rows, and again for the other edge."""
    moved = [FactDifference(FactKey("M", FactKind.SCHEDULE, "back", edge), Fact("1", "1, 3, 5"),
                            Fact("2", "2, 4, 6")) for edge in ("left", "right")]
    said = moved_text("1.0.0", moved, {"back": "Back"})
    assert said.endswith("was published with: size M, Back: shaped on other rows")


def test_a_draft_for_all_sizes_names_none_and_one_of_a_gone_size_is_read(store, capsys):
    write(store, changed(LONGER, ("S: 200", "S: 208"), ("number: 7", "number: 6")))
    assert all("sizes" not in one for one in drafted(store, capsys))
    gone = BAND.replace("[S, M]", "[S]").replace(", M: 208", "")
    write(store, gone)
    draft = drafted(store, capsys)
    assert {one["version"] for one in draft} == {"2.0.0"}
    write(store, changed(raised("2.0.0"), text=gone) + yaml.safe_dump({"corrections": draft}))
    assert main(["check", "--quiet", "--root", str(store)]) == 0


def test_a_draft_can_be_put_into_the_source(store, capsys):
    """With the version raised to what it says; a long one is several corrections."""
    text = changed(LONGER, ("S: 200", "S: 208"), ("number: 7", "number: 4"))
    write(store, text)
    draft = drafted(store, capsys)
    assert all(len(one["text"]) <= 600 for one in draft)
    lines = yaml.safe_dump({"corrections": draft}, width=10_000)
    write(store, changed(raised("1.1.0"), text=text) + lines)
    assert main(["check", "--quiet", "--root", str(store)]) == 0
    capsys.readouterr()
    assert main(["record", SLUG, "--root", str(store)]) == 0
    assert "has version 1.1.0" in capsys.readouterr().out
    assert not found(store, capsys)


def test_a_version_is_not_recorded_twice_with_other_counts(store, capsys):
    record = store / "patterns" / SLUG / "published.json"
    before = record.read_bytes()
    write(store, changed(LONGER))
    assert main(["record", SLUG, "--root", str(store)]) == 1
    assert "Raise it to 1.1.0 or above first." in capsys.readouterr().out
    assert record.read_bytes() == before


def test_the_same_version_is_recorded_to_the_same_bytes(store, capsys):
    record = store / "patterns" / SLUG / "published.json"
    before = record.read_bytes()
    assert main(["record", "--root", str(store)]) == 0
    assert "is as it was" in capsys.readouterr().out
    record.unlink()
    main(["record", "--root", str(store)])
    assert record.read_bytes() == before


def test_drafts_and_broken_patterns_are_not_recorded(store, capsys):
    write(store, BAND.replace("bed: standard", "bed: standard\nstatus: draft"), "quay-draft")
    write(store, BAND.replace("pick_up: 3/4", "pick_up: many"), "quay-broken")
    assert main(["record", "--root", str(store)]) == 1
    assert "patterns/quay-broken has errors" in capsys.readouterr().out
    assert not list((store / "patterns").glob("quay-*/published.json"))


def test_a_draft_without_a_record_is_said(store, capsys):
    (store / "patterns" / SLUG / "published.json").unlink()
    assert main(["record", SLUG, "--draft", "--root", str(store)]) == 1
    assert f"walebook record {SLUG} writes one" in capsys.readouterr().out


def test_a_record_does_not_move_what_is_compared(store, capsys):
    write(store, changed(LONGER))
    assert main(["what-if", SLUG, "--set", "edges.front.rows.M=208", "--root", str(store)]) == 1
    said = capsys.readouterr().out
    assert "Front band, band stitches: 162 → 156 stitches in size M" in said
    assert "count-moved" not in said


def test_a_garment_is_recorded_in_all_its_sizes(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    folder = ROOT / "patterns" / "little-lamp-cardigan"
    shutil.copytree(folder, tmp_path / "patterns" / folder.name)
    assert main(["record", "--root", str(tmp_path)]) == 0
    said = json.loads((tmp_path / "patterns" / folder.name / "published.json").read_text())
    assert list(said["counts"]) == list(said["schedules"]) == said["sizes"]
    assert not found(tmp_path, capsys)


VERSIONS = st.lists(st.integers(0, 20), min_size=1, max_size=3).map(
    lambda parts: ".".join(map(str, parts)))


@given(VERSIONS, st.sampled_from([0, 1]))
def test_the_next_version_has_risen_in_its_part_and_by_one(version, part):
    after = next_version(version, part)
    assert has_risen(version, after, part)
    assert numbers(after)[part] == numbers(version)[part] + 1
    assert numbers(after)[part + 1:] == (0,) * (2 - part)
    assert not has_risen(version, version, part)
