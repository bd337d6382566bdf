"""A history of small patterns with known changes: what `walebook compare` says of each commit.

The pattern is that of the README. Its counts are worked out here by hand: 3 stitches for every
4 rows, holes of 4 stitches, 4 stitches at each end, the rest shared out between the holes.
"""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from harbour_store import (
    BAND,
    NUMBER_KEY,
    ROWS_KEY,
    SLUG,
    begun,
    causes,
    commit,
    counts,
    git,
    head,
    write,
)
from walebook.compare.report import Changed
from walebook.words.comparison_text import values_text
from walebook.words.terms import working as terms
from walebook_site import compared_sides
from walebook_site.command import main
from walebook_site.compared_sides import Knitted
from walebook_site.comparing import what_if

ROOT = Path(__file__).parents[2]
SECOND = """\
  plain:
    edge: front
    pick_up: 3/4
    rows: {to_holes: 4, holes_to_fold: 4, fold_to_holes: 4, to_finish: 4}
"""
OTHER = "\n".join(f"{line}  # another pattern" if line else "" for line in BAND.splitlines()) + "\n"
LONGER = ("M: 208", "M: 216")
DATED = ("date: 2026-11-20", "date: 2026-11-28")
FEWER = ("number: 7", "number: 4")


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository whose first commit has the pattern."""
    root = begun(tmp_path, monkeypatch)
    commit(root, BAND)
    return root


def compared(capsys: pytest.CaptureFixture[str], root: Path, *words: str) -> tuple[int, dict]:
    """The exit code, and the report of the pattern."""
    code = main(["compare", *words, "--json", "--root", str(root)])
    reports = json.loads(capsys.readouterr().out)["patterns"]
    return code, next(each for each in reports if each["slug"] == SLUG)


def changed(*pairs: tuple[str, str]) -> str:
    text = BAND
    for old, new in pairs:
        assert text.count(old) == 1
        text = text.replace(old, new)
    return text


def test_nothing_differs_from_the_last_commit(store, capsys):
    code, report = compared(capsys, store)
    assert (code, report["state"], report["changes"]) == (0, "same", [])


def test_a_longer_edge_moves_its_band_and_nothing_else(store, capsys):
    """216 × 3/4 = 162; 162 − 2 × 4 − 7 × 4 = 126 = 6 × 21; one less at the closing."""
    write(store, changed(LONGER))
    code, report = compared(capsys, store)
    found = counts(report)
    assert code == 1
    assert set(found) == {("M", "edge_rows"), ("M", "band_stitches"), ("M", "gaps"),
                                      ("M", "closing_gaps")}
    assert found["M", "edge_rows"] == ("208 rows", "216 rows", (ROWS_KEY,))
    assert found["M", "band_stitches"] == ("156 stitches", "162 stitches", (ROWS_KEY,))
    assert {one[2] for one in found.values()} == {(ROWS_KEY,)}
    assert found["M", "gaps"][:2] == ("20, 20, 20, 20, 20, 20 stitches",
                                      "21, 21, 21, 21, 21, 21 stitches")
    assert found["M", "closing_gaps"][:2] == ("19, 19, 19, 19, 19, 19 needles",
                                              "20, 20, 20, 20, 20, 20 needles")
    assert {c["size"] for c in report["changes"]} == {"M"}


def test_the_input_is_named_with_its_place(store, capsys):
    write(store, changed(LONGER))
    _, report = compared(capsys, store)
    line = next(n for n, text in enumerate(BAND.splitlines(), 1) if "M: 208" in text)
    column = BAND.splitlines()[line - 1].index("208") + 1
    assert report["inputs"] == [{"file": f"patterns/{SLUG}/pattern.yaml", "key": ROWS_KEY,
                                 "line": line, "column": column, "before": "208", "after": "216"}]


def test_fewer_holes_move_the_holes_in_every_size(store, capsys):
    """150 − 2 × 4 − 4 × 4 = 126 = 3 × 42; 156 − 24 = 132 = 3 × 44."""
    write(store, changed(FEWER))
    _, report = compared(capsys, store)
    found = counts(report)
    assert set(found) == {(size, name) for size in "SM"
                          for name in ("buttonholes", "gaps", "closing_gaps")}
    assert found["S", "buttonholes"][:2] == ("7 buttonholes", "4 buttonholes")
    assert found["S", "gaps"][1] == "42, 42, 42 stitches"
    assert found["M", "gaps"][1] == "44, 44, 44 stitches"
    assert found["S", "closing_gaps"][1] == "41, 41, 41 needles"
    assert {one[2] for one in found.values()} == {(NUMBER_KEY,)}


def test_each_of_two_changes_has_its_own_counts(store, capsys):
    """162 − 24 = 138 = 3 × 46: that takes both; the other counts take one."""
    write(store, changed(LONGER, FEWER, ("version: 1.0.0", "version: 1.1.0")))
    _, report = compared(capsys, store)
    found = counts(report)
    assert found["M", "edge_rows"][2] == found["M", "band_stitches"][2] == (ROWS_KEY,)
    assert {found[size, "buttonholes"][2] for size in "SM"} == {(NUMBER_KEY,)}
    assert found["S", "gaps"][2] == (NUMBER_KEY,)
    assert found["M", "gaps"] == ("20, 20, 20, 20, 20, 20 stitches", "46, 46, 46 stitches",
                                  (ROWS_KEY, NUMBER_KEY))
    assert len(found) == 8
    used = {n for change in report["changes"] for n in change["causes"]}
    assert [one["key"] for n, one in enumerate(report["inputs"]) if n not in used] == ["version"]


def test_a_version_and_a_date_that_are_raised_too_take_one_proof_more(store, capsys, monkeypatch):
    """Three inputs moved; the first that is set back gives every fact its former value."""
    write(store, changed(LONGER, ("version: 1.0.0", "version: 1.1.0"), DATED))
    knitted, plain = [], Knitted.as_if
    monkeypatch.setattr(Knitted, "as_if", lambda *given: knitted.append(given) or plain(*given))
    _, report = compared(capsys, store)
    assert {one["key"] for one in report["inputs"]} == {ROWS_KEY, "version", "date"}
    assert {one[2] for one in counts(report).values()} == {(ROWS_KEY,)}
    assert len(knitted) == 1


def test_each_side_is_gathered_once_and_no_sentence_of_a_count_is_written(
        store, capsys, monkeypatch):
    """What is not shown is not written: a report names a count by its value and its way."""
    write(store, changed(LONGER))
    gathered, written = [], []
    plain, worked = compared_sides.side_of, terms.working
    monkeypatch.setattr(compared_sides, "side_of",
                        lambda *given: gathered.append(given) or plain(*given))
    monkeypatch.setattr(terms, "working", lambda *given: written.append(given) or worked(*given))
    code, report = compared(capsys, store)
    assert (code, len(report["changes"]) > 4) == (1, True)
    assert (len(gathered), written) == (2, [])


def test_a_step_is_named_that_is_told_otherwise(store, capsys):
    write(store, changed(LONGER))
    _, report = compared(capsys, store)
    steps = [step for c in report["changes"] if c["kind"] == "steps" for step in c["steps"]]
    assert steps
    assert all(step["before"] != step["after"] for step in steps)
    assert any("156" in step["before"] and "162" in step["after"] for step in steps)


def test_the_way_goes_through_the_expressions(store, capsys):
    write(store, changed(LONGER))
    _, report = compared(capsys, store)
    ways = {c["name"]: c["way"] for c in report["changes"] if c["kind"] == "count"}
    assert ways["band_stitches"] == ["208 → 216 rows, as the designer gives it"]
    assert "band stitches 156 → 162" in ways["gaps"]


def test_a_gauge_is_compared_and_so_is_what_a_band_measures(store, capsys):
    """40 stitches over 14.6 cm in place of 14.2 are 3.65 mm each, 3.55 before; 60 rows over 16 cm
    in place of 15 are 2.667 mm each, 2.5 before. By a rule of 3 stitches for 4 rows a band stitch
    is 4/3 of a row wide: 156 of them are 520 mm long, and then 554.667 mm (arithmetic)."""
    write(store, changed(("width: 14.2 cm", "width: 14.6 cm"), ("height: 15 cm", "height: 16 cm")))
    _, report = compared(capsys, store)
    gauge = {(c["place"], c["name"]): c for c in report["changes"] if c["kind"] == "gauge"}
    assert [(gauge["body", one]["before"], gauge["body", one]["after"])
            for one in ("stitch", "row")] == [("3.55 mm", "3.65 mm"), ("2.5 mm", "2.667 mm")]
    assert gauge["body", "row"]["way"] == ["15 → 16 cm"]
    (long,) = [c for c in report["changes"] if (c["kind"], c["name"], c["size"]) == (
        "band measure", "length", "M")]
    assert (long["before"], long["after"]) == ("520 mm", "554.667 mm")
    assert long["way"] == ["3.333 → 3.556 mm a stitch"]  # its own, by the rule: of no swatch
    assert causes(report, long) == ("fabrics.body.swatch.height",)


GARMENT = head("Harbour slipover", "A slipover.") + """\
sizes: [M]
garment: {form: set-in slipover, chart: women, fabric: body, neck: v,
          measures: {body_length: 55 cm}}
"""


def test_joins_are_compared_and_followed(store, capsys):
    """2 cm more of the body are 8 rows of 2.5 mm (arithmetic), at both edges of each seam."""
    write(store, GARMENT)
    git(store, "add", "-A")
    git(store, "commit", "-q", "-m", "A garment")
    write(store, GARMENT.replace("55 cm", "57 cm"))
    _, report = compared(capsys, store)
    joins = [c for c in report["changes"] if c["kind"] == "join"]
    assert joins and all("side seam" in c["name"] for c in joins)
    for one in joins:
        old, new = ([int(n) for n in one[when].removesuffix(" rows").split(" and ")]
                    for when in ("before", "after"))
        assert [b - a for a, b in zip(old, new, strict=True)] == [8, 8]
        assert causes(report, one) == ("garment.measures.body_length",)


def test_a_count_is_followed_through_its_gauge_into_the_swatch(store, capsys):
    write(store, GARMENT)
    git(store, "add", "-A")
    git(store, "commit", "-q", "-m", "A garment")
    write(store, GARMENT.replace("14.2 cm", "14.6 cm"))
    _, report = compared(capsys, store)
    (cast_on,) = [c for c in report["changes"] if (c["kind"], c["place"], c["name"]) == (
        "count", "back", "cast_on")]
    assert cast_on["way"] == ["28.17 → 27.4 stitches to 10 cm", "14.2 → 14.6 cm"]


@pytest.mark.parametrize("pair", [("14.2 cm", "142 mm"), ("button: 16 mm", "button: 1.6 cm"),
                                  ("button: 16 mm", "button: 18 mm")])
def test_another_unit_and_what_is_rounded_away_move_nothing(store, capsys, pair):
    """18 mm ÷ 3 1/3 mm = 5.4, which is 5 as 4.8 is; the stitches of a hole are one fewer."""
    write(store, changed(pair))
    code, report = compared(capsys, store)
    assert not counts(report)
    assert len(report["inputs"]) == 1
    if pair[1] != "button: 18 mm":  # the page names the button
        assert (code, report["changes"]) == (0, [])


def test_a_renamed_size_is_compared_with_itself(store, capsys):
    write(store, BAND.replace("[S, M]", "[S, Medium]").replace("M: 208", "Medium: 208"))
    code, report = compared(capsys, store)
    assert report["renamed"] == [["M", "Medium"]]
    assert (code, counts(report)) == (1, {})


def test_a_size_that_is_renamed_and_corrected_is_still_the_same_size(store, capsys):
    """156 − 2 × 4 − 4 × 4 = 132 = 3 × 44; the edge and its stitches are as they were."""
    write(store, changed(FEWER).replace("[S, M]", "[S, Medium]").replace("M: 208", "Medium: 208"))
    _, report = compared(capsys, store)
    assert report["renamed"] == [["M", "Medium"]]
    assert counts(report)["Medium", "gaps"] == (
        "20, 20, 20, 20, 20, 20 stitches", "44, 44, 44 stitches", (NUMBER_KEY,))
    assert [(one["before"], one["after"]) for one in report["inputs"]] == [("7", "4")]


def test_another_size_in_the_same_place_is_not_the_one_that_stood_there(store, capsys):
    write(store, BAND.replace("[S, M]", "[S, XL]").replace("M: 208", "XL: 240"))
    _, report = compared(capsys, store)
    assert report["renamed"] == []
    whole = {(c["size"], c["after"]) for c in report["changes"] if not c["name"]}
    assert whole == {("M", ""), ("XL", "there")}


def test_a_size_renamed_together_with_its_pattern_is_compared_with_itself(store, capsys):
    git(store, "mv", f"patterns/{SLUG}", "patterns/quay-front")
    write(store, BAND.replace("[S, M]", "[S, Medium]").replace("M: 208", "Medium: 208"),
          "quay-front")
    main(["compare", "--json", "--root", str(store)])
    report, = json.loads(capsys.readouterr().out)["patterns"]
    assert (report["former"], report["renamed"]) == (SLUG, [["M", "Medium"]])
    assert counts(report) == {} and report["inputs"] == []


def test_a_size_that_is_new_is_one_change(store, capsys):
    write(store, BAND.replace("[S, M]", "[S, M, L]").replace("M: 208", "M: 208, L: 216"))
    _, report = compared(capsys, store)
    whole = [(c["size"], c["name"], c["before"], c["after"]) for c in report["changes"]]
    assert whole == [("L", "", "", "there")]


def test_a_band_that_is_removed_is_one_change_a_size(store, capsys):
    commit(store, BAND + SECOND)
    write(store, BAND)
    _, report = compared(capsys, store)
    gone = [c for c in report["changes"] if c["place"] == "plain" and c["kind"] == "count"]
    assert [(c["size"], c["name"], c["before"], c["after"]) for c in gone] == [
        ("S", "", "there", ""), ("M", "", "there", "")]
    assert {causes(report, c) for c in gone} == {("bands.plain",)}
    assert not [c for c in report["changes"] if c["place"] == "front"]


def test_what_is_gone_as_a_whole_is_said_as_that(store, capsys):
    commit(store, BAND + SECOND)
    write(store, BAND)
    main(["compare", "--root", str(store)])
    assert "1.0.0: 1 piece or band gone; " in capsys.readouterr().out
    commit(store, BAND)
    write(store, changed(("sizes: [S, M]", "sizes: [M]"), ("S: 200, M: 208", "M: 208")))
    main(["compare", "--root", str(store)])
    said = capsys.readouterr().out
    assert "1.0.0: 1 size gone" in said
    assert "The whole size: gone, with " in said


def test_a_source_that_was_broken_before_is_said(store, capsys):
    commit(store, BAND.replace("pick_up: 3/4", "pick_up: many"))
    write(store, BAND)
    code, report = compared(capsys, store)
    assert (code, report["state"]) == (3, "not knitted before")
    assert '"many"' in " ".join(report["errors"])
    assert {c["kind"] for c in report["changes"]} == {"finding"}
    assert {causes(report, c) for c in report["changes"]} == {("bands.front.pick_up",)}


def test_a_source_that_is_no_yaml_is_said(store, capsys):
    write(store, BAND + "bands: [\n")
    code, report = compared(capsys, store)
    assert (code, report["state"]) == (3, "not knitted after")
    assert report["errors"]


@pytest.mark.parametrize("broken_before", [True, False])
def test_a_source_that_was_no_yaml_is_the_cause_and_not_its_bed_or_chart(
        store, capsys, broken_before):
    """Neither moved, although nothing leads to them from a source that cannot be read."""
    texts = BAND + "bands: [\n", BAND
    commit(store, texts[not broken_before])
    write(store, texts[broken_before])
    _, report = compared(capsys, store)
    unread, read = "a text that is no YAML", "{title: "
    values = (unread, read) if broken_before else (read, unread)
    (one,) = report["inputs"]
    assert (one["file"], one["key"]) == (f"patterns/{SLUG}/pattern.yaml", "")
    assert one["before"].startswith(values[0]) and one["after"].startswith(values[1])
    assert {causes(report, c) for c in report["changes"]} == {("",)}


def test_another_bed_is_the_cause_and_not_the_two_beds(store, capsys):
    """Both lie there before and after; the key that names one moved."""
    write(store, changed(("bed: standard", "bed: bulky")))
    _, report = compared(capsys, store)
    assert [(one["file"], one["key"]) for one in report["inputs"]] == [
        (f"patterns/{SLUG}/pattern.yaml", "bed")]


def test_a_file_that_cannot_be_read_is_the_cause_of_that_finding_alone(store, capsys):
    """Beside it a longer edge, of which the file knows nothing."""
    notes = store / "patterns" / SLUG / "notes.md"
    notes.write_text("Block it.\n", encoding="utf-8")
    commit(store, BAND)
    notes.write_bytes(b"\xff\xfe")
    write(store, changed(LONGER))
    _, report = compared(capsys, store)
    found = {c["name"]: causes(report, c) for c in report["changes"] if c["kind"] == "finding"}
    assert [cause for name, cause in found.items() if "not-utf-8" in name] == [("",)]
    inputs = {one["key"]: one["file"] for one in report["inputs"]}
    assert inputs[""] == f"patterns/{SLUG}/notes.md"
    assert {causes(report, c) for c in report["changes"] if c["kind"] == "count"} == {(ROWS_KEY,)}


def test_a_source_that_is_gone_is_the_cause_and_not_the_notes_that_went_with_it(store, capsys):
    folder = store / "patterns" / SLUG
    (folder / "notes.md").write_text("Block it.\n", encoding="utf-8")
    commit(store, BAND)
    (folder / "pattern.yaml").unlink()
    code, report = compared(capsys, store)
    assert (code, report["state"]) == (3, "not knitted after")
    (one,) = report["changes"]
    assert "no-source" in one["name"]
    assert [report["inputs"][n]["file"] for n in one["causes"]] == [f"patterns/{SLUG}/pattern.yaml"]


def test_a_renamed_folder_is_the_same_pattern(store, capsys):
    git(store, "mv", f"patterns/{SLUG}", "patterns/quay-front")
    code = main(["compare", "--json", "--root", str(store)])
    report, = json.loads(capsys.readouterr().out)["patterns"]
    assert (code, report["slug"], report["former"], report["changes"]) == (
        1, "quay-front", SLUG, [])


def test_a_folder_that_is_renamed_and_changed_is_the_same_pattern(store, capsys):
    git(store, "mv", f"patterns/{SLUG}", "patterns/quay-front")
    write(store, changed(LONGER), "quay-front")
    main(["compare", "--json", "--root", str(store)])
    report, = json.loads(capsys.readouterr().out)["patterns"]
    assert (report["slug"], report["former"]) == ("quay-front", SLUG)
    assert counts(report)["M", "band_stitches"] == ("156 stitches", "162 stitches", (ROWS_KEY,))


def test_a_folder_is_what_the_collection_says_it_was(store, capsys):
    """Of two folders that are gone, the one that is named, although its source is less alike."""
    commit(store, OTHER, "other-band")
    shutil.rmtree(store / "patterns" / SLUG)
    shutil.rmtree(store / "patterns" / "other-band")
    write(store, BAND, "quay-front")
    (store / "patterns" / "collection.yaml").write_text(
        "title: Lantern Lane\nformer:\n  - {folder: other-band, title: Other band, "
        "date: 2026-11-20, now: quay-front}\n", encoding="utf-8")
    main(["compare", "--json", "--root", str(store)])
    found = {r["slug"]: r["former"] for r in json.loads(capsys.readouterr().out)["patterns"]}
    assert found == {"quay-front": "other-band", SLUG: ""}


def test_a_new_pattern_and_one_that_is_gone(store, capsys):
    write(store, OTHER, "quay-front")
    shutil.rmtree(store / "patterns" / SLUG)
    main(["compare", "--json", "--root", str(store)])
    states = {r["slug"]: r["state"] for r in json.loads(capsys.readouterr().out)["patterns"]}
    assert states == {"quay-front": "new", SLUG: "gone"}


def test_any_two_states_are_compared(store, capsys):
    """Commits, tags, folders: the same change seen by each."""
    git(store, "tag", "first")
    commit(store, changed(LONGER))
    aside = store.parent / "aside"
    shutil.copytree(store / "patterns", aside / "patterns")
    commit(store, BAND)
    wanted = None
    for states in (("first", "HEAD~1"), ("HEAD", "HEAD~1"), (str(store), str(aside)),
                   ("first", str(aside))):
        found = counts(compared(capsys, store, *states)[1])
        assert len(found) == 4
        wanted = wanted or found
        assert found == wanted


def test_a_published_file_of_counts_is_compared(store, capsys):
    """It has no schedules, steps, findings and widths of buttons, and that is said."""
    assert main(["pages", str(store / "out"), "--root", str(store)]) == 0
    capsys.readouterr()
    published = str(store / "out" / "patterns" / SLUG / "counts.json")
    assert not compared(capsys, store, published)[1]["changes"]
    write(store, changed(LONGER))
    code, report = compared(capsys, store, published)
    assert code == 1
    assert set(counts(report)) == {("M", "edge_rows"), ("M", "band_stitches"), ("M", "gaps"),
                                   ("M", "closing_gaps")}
    assert report["unknown"] == ["measure", "finished length", "schedule", "yarn", "join",
                                 "finding", "steps", "material"]
    assert "208 → 216 rows, as the designer gives it" in next(
        c["way"] for c in report["changes"] if c["name"] == "band_stitches")


@pytest.mark.parametrize("text", ["[]", "{", '{"pattern": 1}', '{"pattern": "x", "version": "1", '
                                  '"sizes": [], "counts": {"S": {"b": {"c": 1}}}}'])
def test_a_file_that_is_no_counts_json_is_said(store, capsys, text):
    (store / "some.json").write_text(text)
    assert main(["compare", str(store / "some.json"), "--root", str(store)]) == 3
    assert "is no counts.json" in capsys.readouterr().out


def test_the_text_is_short_and_names_the_cause(store, capsys):
    write(store, changed(LONGER))
    assert main(["compare", "--root", str(store)]) == 1
    said = capsys.readouterr().out
    assert f"Because of {ROWS_KEY}: 208 → 216" in said
    assert "Front band, band stitches: 156 → 162 stitches in size M" in said
    assert "Front band, steps, right front: with other text in size M" in said
    assert said.endswith("1 pattern compared: 1 differs.\n")
    main(["compare", "--all", "--root", str(store)])
    assert len(capsys.readouterr().out) > 2 * len(said)


def test_a_size_with_a_label_keeps_its_size_in_the_chart(store, capsys):
    """The chart has no new names, so that no value of it is an input."""
    commit(store, GARMENT)
    write(store, GARMENT.replace("sizes: [M]", "sizes: [{label: Quay, as: M}]"))
    _, report = compared(capsys, store)
    assert report["renamed"] == [["M", "Quay"]]
    assert [one["key"] for one in report["inputs"]] == ["sizes.1"]


def test_a_changed_unit_is_shown_although_nothing_follows_it(store, capsys):
    """16 mm are 1.6 cm: the same length to any reader, but not the same text."""
    write(store, changed(("button: 16 mm", "button: 1.6 cm")))
    main(["compare", "--root", str(store)])
    said = capsys.readouterr().out
    assert "bands.front.buttonholes.button: 16 mm → 1.6 cm" in said
    assert "without effect on what is compared" in said


def test_a_button_of_another_width_is_a_change_where_no_count_follows(store, capsys):
    """The hole is of 4 stitches for either, and the knitter buys other buttons (the page's list of
    materials names their width)."""
    write(store, changed(("button: 16 mm", "button: 17 mm")))
    code, report = compared(capsys, store)
    assert code == 1
    found = [each for each in report["changes"] if each["kind"] == "material"]
    assert {each["size"] for each in found} == {"S", "M"}
    for one in found:
        assert (one["name"], one["before"], one["after"]) == ("button", "16 mm", "17 mm")
        assert [report["inputs"][at]["key"] for at in one["causes"]] == [
            "bands.front.buttonholes.button"]
    main(["compare", "--root", str(store)])
    assert "Front band, button: 16 → 17 mm" in capsys.readouterr().out


@pytest.mark.parametrize(("before", "after", "shown"), [
    ("0.75 stitches per row", "0.8 stitches per row", "0.75 → 0.8 stitches per row"),
    ("66 and 65 rows", "67 and 65 rows", "66 and 65 → 67 and 65 rows"),
    ("20, 20 stitches", "21, 21 stitches", "20, 20 → 21, 21 stitches"),
    ("1 stitch", "2 stitches", "1 stitch → 2 stitches"),
    ("no stitches", "3 stitches", "no stitches → 3 stitches"), ("0.5", "0.6", "0.5 → 0.6")])
def test_a_unit_that_both_values_have_stands_once_and_whole(before, after, shown):
    one = Changed("M", "count", "front", "Front band", "figure", before, after)
    assert values_text(one) == shown


def test_a_count_that_a_search_found_names_what_the_search_was_given():
    """A narrower button has a narrower hole, and the search for the holes has that hole."""
    report = what_if(ROOT, "slack-tide-cardigan", [("bands.front.buttonholes.button", "20 mm")],
                     steps=False)
    found = {c.name: c for c in report.changes if (c.size, c.place) == ("M", "front")}
    assert found["band_stitches"].path == ("hole stitches 3 → 2",)
    assert found["hole_stitches"].path == ("button 25.4 → 20 mm",)


def test_a_sum_of_lengths_that_is_calculated_otherwise_has_their_unit():
    """42 cm of the back waist and 16 cm are 58 cm."""
    report = what_if(ROOT, "slack-tide-cardigan", [("garment.measures.body_length", "54 cm")],
                     steps=False)
    (one,) = [c for c in report.changes if (c.size, c.name) == ("XS", "body_length")]
    assert one.path == ("calculated otherwise: back waist length 42 cm + 16 cm = 58 cm → 54 cm",)


def test_a_finding_says_what_was_found_and_expected(store, capsys):
    write(store, changed(("kind: folded", "kind: foldedd")) if "kind: folded" in BAND
          else BAND.replace("    pick_up: 3/4", "    kind: foldedd\n    pick_up: 3/4"))
    main(["compare", "--root", str(store)])
    said = capsys.readouterr().out
    assert 'error, unknown-word: found "foldedd", expected "folded": new' in said


def test_a_step_is_shown_where_its_text_differs(store, capsys):
    """From the first word that differs to the last, with a few on either side."""
    write(store, changed(FEWER))
    main(["compare", "--all", "--pattern", SLUG, "--root", str(store)])
    clips = next(line for line in capsys.readouterr().out.splitlines() if " clips on " in line)
    old, new = clips.partition("step ")[2].split(" → ")
    assert "14 clips on 7 cords" in old and "8 clips on 4 cords" in new
    assert len(old) < 100 and old.endswith("…") and new.startswith("…")


def test_what_holes_are_asked_for_has_its_unit(store, capsys):
    write(store, changed(FEWER))
    main(["compare", "--root", str(store)])
    assert "buttonholes: 7 → 4 buttonholes in all sizes (by 7 → 4 holes" in capsys.readouterr().out


def test_a_size_that_is_a_number_is_called_a_size(store, capsys):
    """Children's and men's sizes are numbers, which stand beside counts: 98 is a size here."""
    commit(store, BAND.replace("[S, M]", "[92, 98]").replace("S: 200, M: 208", "92: 200, 98: 208"))
    write(store, changed(LONGER, ("[S, M]", "[92, 98]")).replace("S: 200, M:", "92: 200, 98:"))
    assert main(["compare", "--all", "--root", str(store)]) == 1
    said = capsys.readouterr().out
    assert "Front band, band stitches: 156 → 162 stitches in size 98 (by" in said
    assert "size 98, step" in said
    assert not re.search(r"(?<!size )\b98 (?:\d|with|step)", said), said
    main(["compare", "--markdown", "--root", str(store)])
    assert "| What | size 98 | By |" in capsys.readouterr().out


def test_markdown_shows_what_a_source_says_as_it_is(store, capsys):
    write(store, changed(LONGER, ("title: Harbour front band", "title: 'Harbour | *front* <b>'")))
    main(["compare", "--markdown", "--root", str(store)])
    said = capsys.readouterr().out
    assert r"Harbour \| \*front\* \<b\>" in said
    assert "| Front band, band stitches | 156 → 162 stitches |" in said


def test_the_sources_and_the_repository_stay_as_they_are(store, capsys):
    write(store, changed(LONGER))
    before = {p: (p.stat().st_mtime_ns, p.read_bytes()) for p in store.rglob("*") if p.is_file()}
    compared(capsys, store)
    assert {p: (p.stat().st_mtime_ns, p.read_bytes())
            for p in store.rglob("*") if p.is_file()} == before
    assert git(store, "status", "--porcelain").split() == ["M", f"patterns/{SLUG}/pattern.yaml"]


def test_what_was_compared_before_is_kept(store, capsys, monkeypatch):
    write(store, changed(LONGER))
    first = compared(capsys, store)
    monkeypatch.setattr("walebook_site.comparing.Comparing.report", None)
    assert compared(capsys, store) == first


def test_a_shallow_clone_is_named(store, capsys):
    commit(store, changed(LONGER))
    clone = store.parent / "clone"
    git(store.parent, "clone", "-q", "--depth", "1", f"file://{store}", str(clone))
    assert main(["compare", "HEAD~1", "--root", str(clone)]) == 3
    said = capsys.readouterr().out
    assert "shallow" in said
    assert "git fetch --unshallow" in said
    assert main(["compare", "--root", str(clone)]) == 0


def test_without_a_repository_two_folders_are_asked_for(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    write(tmp_path / "here", BAND)
    write(tmp_path / "there", changed(LONGER))
    assert main(["compare", "--root", str(tmp_path / "here")]) == 3
    assert "is in no git repository. Name two folders" in capsys.readouterr().out
    code, report = compared(capsys, tmp_path / "here", str(tmp_path / "here"),
                            str(tmp_path / "there"))
    assert (code, len(counts(report))) == (1, 4)


def test_without_git_two_folders_are_asked_for(store, capsys, monkeypatch):
    monkeypatch.setenv("PATH", "")
    assert main(["compare", "--root", str(store)]) == 3
    assert "git is not installed here. Name two folders" in capsys.readouterr().out


def test_a_repository_without_a_commit_is_named(tmp_path, capsys):
    git(tmp_path, "init", "-q")
    write(tmp_path, BAND)
    assert main(["compare", "--root", str(tmp_path)]) == 3
    assert "no commit yet" in capsys.readouterr().out


@pytest.mark.parametrize("state", ["nowhere", "--help-me", "HEAD:patterns", "a b", ""])
def test_a_state_that_is_not_there_is_named(store, capsys, state):
    assert main(["compare", "--root", str(store), "--", state or " "]) == 3
    assert "Nothing was compared" in capsys.readouterr().out


def test_a_collection_in_a_folder_of_the_repository(store, capsys):
    inner = store / "knitting"
    inner.mkdir()
    git(store, "mv", "patterns", "knitting/patterns")
    commit(inner, BAND)
    write(inner, changed(LONGER))
    assert len(counts(compared(capsys, inner)[1])) == 4


def test_a_chart_that_patterns_share_is_an_input(store, capsys):
    """A bed that the collection describes itself: the file is named, and its key."""
    beds = store / "patterns" / "_beds"
    beds.mkdir()
    ours = Path(__file__).parents[2] / "patterns" / "_beds" / "standard.yaml"
    text = ours.read_text(encoding="utf-8")
    (beds / "standard.yaml").write_text(text, encoding="utf-8")
    commit(store, BAND)
    needles = next(line for line in text.splitlines() if line.startswith("needles:"))
    (beds / "standard.yaml").write_text(text.replace(needles, "needles: 100"), encoding="utf-8")
    _, report = compared(capsys, store)
    assert [(one["file"], one["key"]) for one in report["inputs"]] == [
        ("patterns/_beds/standard.yaml", "needles")]
    assert report["changes"]
    assert {causes(report, c) for c in report["changes"]} == {("needles",)}


def test_what_patterns_share_is_an_input(store, capsys):
    """18 cm of 60 rows: 3 mm a row, 4 mm a stitch at 3/4; 16 mm ÷ 4 = 4, less one: 3."""
    fabric = BAND[BAND.index("  body:\n"):BAND.index("sizes:")]
    shared = store / "patterns" / "_shared.yaml"
    shared.write_text(f"fabrics:\n{fabric}", encoding="utf-8")
    commit(store, BAND.replace(fabric, "  body: shared\n"))
    shared.write_text(f"fabrics:\n{fabric.replace('15 cm', '18 cm')}", encoding="utf-8")
    _, report = compared(capsys, store)
    assert [(one["file"], one["key"]) for one in report["inputs"]] == [
        ("patterns/_shared.yaml", "fabrics.body.swatch.height")]
    assert counts(report)["S", "hole_stitches"] == (
        "4 stitches", "3 stitches", ("fabrics.body.swatch.height",))
    assert not {(size, name) for size in "SM" for name in ("edge_rows", "band_stitches")} & set(
        counts(report))
