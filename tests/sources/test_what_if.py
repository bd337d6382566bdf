"""`walebook what-if`: the report of a value that is not written, and the source as it would be."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from harbour_store import BAND, ROWS_KEY, SLUG, counts, write
from hypothesis import given
from hypothesis import strategies as st
from walebook.source.edited import NotSet, with_value
from walebook.source.source import Listing, Table, parse_source, plain
from walebook_site.command import main
from walebook_site.comparing import what_if

from tests.whole_collection import ROOT

SOURCES = sorted((ROOT / "patterns").glob("[a-z]*/pattern.yaml"))


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    write(tmp_path, BAND)
    return tmp_path


def asked(capsys: pytest.CaptureFixture[str], root: Path, *pairs: str) -> tuple[int, dict]:
    words = [word for pair in pairs for word in ("--set", pair)]
    code = main(["what-if", SLUG, *words, "--json", "--root", str(root)])
    report, = json.loads(capsys.readouterr().out)["patterns"]
    return code, report


def test_a_longer_edge_would_move_its_band(store, capsys):
    """216 × 3/4 = 162, as in the history of test_compare.py."""
    before = (store / "patterns" / SLUG / "pattern.yaml").read_bytes()
    code, report = asked(capsys, store, f"{ROWS_KEY}=216")
    found = counts(report)
    assert code == 1
    assert found["M", "band_stitches"] == ("156 stitches", "162 stitches", (ROWS_KEY,))
    assert len(found) == 4
    assert (store / "patterns" / SLUG / "pattern.yaml").read_bytes() == before
    assert not (store / "cache").exists()


def test_several_values_have_causes_of_their_own(store, capsys):
    _, report = asked(capsys, store, f"{ROWS_KEY}=216", "bands.front.buttonholes.number = 4")
    found = counts(report)
    assert found["M", "band_stitches"][2] == (ROWS_KEY,)
    assert found["S", "gaps"][1:] == ("42, 42, 42 stitches", ("bands.front.buttonholes.number",))


def test_the_way_leads_on_where_the_bed_counted_a_figure_or_a_search_found_it():
    """A cardigan that is a centimetre longer: its rows are the bed's count, and what the ends of
    its front band take is a search."""
    report = what_if(ROOT, "slack-tide-cardigan", [
        ("garment.measures.body_length", "back_waist_length + 17 cm")], steps=False)
    ways = {(c.size, c.place, c.name): c.path for c in report.changes if c.path}
    rows, lower = ways["XS", "back", "rows"], ways["XS", "front", "lower_end"]
    assert rows[0] == "rows to armhole 58 → 60" and "body_length 58 → 59 cm" in rows
    assert "band stitches 73 → 74" in lower
    assert "body_length 58 → 59 cm" in ways["XS", "front", "band_stitches"]
    assert "rows 96 → 98" in ways["XS", "breakwater", "back_stitches"]
    for one in report.changes:
        figures = [text.partition(" ")[0] for text in (one.before, one.after)]
        assert " → ".join(figures) not in one.path, one


def test_the_same_value_moves_nothing(store, capsys):
    code, report = asked(capsys, store, f"{ROWS_KEY}=208")
    assert (code, report["inputs"], report["changes"]) == (0, [], [])


def test_a_key_that_is_not_written_is_added(store, capsys):
    _, report = asked(capsys, store, "bands.front.title=Left band")
    assert not counts(report)
    assert [(one["key"], one["before"], one["after"]) for one in report["inputs"]] == [
        ("bands.front.title", "", "Left band")]


@pytest.mark.parametrize(("pair", "said"), [
    ("edges.front.rows.M.x=1", 'found the key "x" under edges.front.rows.M, which is a single '
     "value. Set edges.front.rows.M itself."),
    ("edges.front=1", "found edges.front, which is no value on one line; expected the key of a "
     "single value. Change it in the file."),
    ("sizes.3=L", 'found no entry "3" of sizes; expected a number from 1 to 2. Write which entry '
     "of the list it is.")])
def test_a_key_that_cannot_be_set_is_a_finding_at_its_place(store, capsys, pair, said):
    assert main(["what-if", SLUG, "--set", pair, "--root", str(store)]) == 2
    printed = capsys.readouterr().out
    assert printed.startswith(f"patterns/{SLUG}/pattern.yaml:")
    assert said in printed


def test_a_key_that_yaml_takes_for_a_comment_is_refused():
    """The line would say nothing (YAML 1.2, 6.6), whatever value the mapping has already."""
    with pytest.raises(NotSet, match="expected a value that YAML can hold there"):
        with_value("title: A\nparts:\n  kept: 1\n", "parts.#more", "{kept: 1}", name="any")


def test_a_key_of_a_shared_entry_names_the_file_that_has_it(store, capsys):
    write(store, re.sub(r"(?m)^  body:\n(?:    .*\n)+", "  body: shared wool\n", BAND))
    assert main(["what-if", SLUG, "--set", "fabrics.body.dial=5", "--root", str(store)]) == 2
    assert ("found fabrics.body, whose dial stands in patterns/_shared.yaml; expected a value of "
            "this source. Change it in patterns/_shared.yaml, and run walebook compare; or write "
            "the entry out here in place of shared wool.") in capsys.readouterr().out


def test_a_key_that_means_nothing_is_the_finding_of_a_check(store, capsys):
    code, report = asked(capsys, store, "bands.front.colour=red")
    assert (code, report["state"]) == (3, "not knitted after")
    assert 'found the unknown key "colour"' in report["errors"][0]


@pytest.mark.parametrize("words", [["--set", "sizes"], ["--set", "=3"], []])
def test_a_call_that_sets_nothing_is_wrong(store, capsys, words):
    with pytest.raises(SystemExit) as ended:
        main(["what-if", SLUG, *words, "--root", str(store)])
    assert ended.value.code == 2


def test_a_pattern_that_is_not_there_is_a_wrong_call(store, capsys):
    with pytest.raises(SystemExit) as ended:
        main(["what-if", "harbour-frnt", "--set", "sizes.1=L", "--root", str(store)])
    assert ended.value.code == 2
    assert f"Did you mean {SLUG}?" in capsys.readouterr().err


def keys(value: object, path: tuple[str, ...] = ()) -> dict[str, str]:
    """Every text of a tree by its key."""
    if isinstance(value, dict):
        return {k: t for name, each in value.items() for k, t in keys(each, (*path, name)).items()}
    if isinstance(value, list):
        return {k: t for n, each in enumerate(value, 1)
                for k, t in keys(each, (*path, str(n))).items()}
    return {".".join(path): value}


@pytest.mark.sampled(8)
@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.parent.name)
def test_every_value_on_one_line_can_be_set_and_nothing_else_moves(path):
    """The text before and after the value stays letter for letter."""
    text = path.read_text(encoding="utf-8")
    was = keys(plain(parse_source(text, name="x")[0]))
    refused = []
    for key in was:
        try:
            new = with_value(text, key, "7 mm", name="x")
        except NotSet as fault:
            refused.append((key, fault.problem.code))
            continue
        assert keys(plain(parse_source(new, name="x")[0])) == was | {key: "7 mm"}
        lines = [n for n, pair in enumerate(zip(text.split("\n"), new.split("\n"), strict=True))
                 if pair[0] != pair[1]]
        assert len(lines) <= 1
    assert {code for _, code in refused} <= {"wrong-shape"}
    assert all(len(was[key].split()) > 5 or "\n" in was[key] for key, _ in refused), refused


@given(st.text(max_size=30), st.sampled_from(["title", "edges.front.rows.M", "yarns.wool.name",
                                              "bands.front.buttonholes.ends", "bands.front.new",
                                              "yarns.wool.new", "new"]))
def test_any_text_is_put_there_or_refused(value, key):
    try:
        new = with_value(BAND, key, value, name="x")
    except NotSet:
        return
    node, _ = parse_source(new, name="x")
    assert node is not None
    for part in key.split("."):
        assert isinstance(node, Table)
        node = node.entries[part].node
    if isinstance(node, Table | Listing):
        assert plain(node) == plain(parse_source(value, name="x")[0])
    else:
        assert node.text == value
