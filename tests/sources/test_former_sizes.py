"""A size that had another label before: what the source says of it, and what follows it.

The band is that of test_compare.py: 240 rows of an edge are 240 × 3/4 = 180 stitches. That a page
stays where a size's page stood is looked at in tests/site/test_former_patterns.py, and what a
knitter keeps on her device in tests/site/test_places_kept.py.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from harbour_store import BAND, SLUG, commit, counts, git, write
from walebook.pages import facts_schema, pattern_card, write_pages
from walebook_site.command import main
from walebook_site.sources import collect

RENAMED = "[S, {label: Medium, former: [M]}]"
CORRECTED = "corrections:\n  - {date: 2026-11-20, text: A row more., version: 1.0.0, sizes: [M]}\n"


def renamed(rows: int = 208, sizes: str = RENAMED, label: str = "Medium") -> str:
    """The band with another label for M, and so many rows of its edge."""
    return BAND.replace("[S, M]", sizes).replace("M: 208", f"{label}: {rows}")


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository whose first commit has the pattern in sizes S and M."""
    monkeypatch.setenv("WALEBOOK_CACHE", str(tmp_path / "cache"))
    git(tmp_path, "init", "-q")
    commit(tmp_path, BAND)
    return tmp_path


def compared(root: Path, capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    capsys.readouterr()
    main(["compare", "--json", *words, "--root", str(root)])
    report, = json.loads(capsys.readouterr().out)["patterns"]
    return report


def found(root: Path, capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    capsys.readouterr()
    main(["check", "--json", "--root", str(root)])
    return list(json.loads(capsys.readouterr().out)["findings"])


def page_facts(text: str) -> dict[str, Any]:
    facts: dict[str, Any] = json.loads(
        text.partition('id="wb-facts">')[2].partition("</script>")[0])
    jsonschema.validate(facts, facts_schema())
    return facts


# In a comparison


@pytest.mark.parametrize("rows", [208, 240])
def test_it_is_renamed_and_neither_new_nor_gone(store, capsys, rows):
    """Also where so many of its counts moved that nobody could know it again."""
    write(store, renamed(rows))
    report = compared(store, capsys)
    assert report["renamed"] == [["M", "Medium"]]
    assert all(one["name"] for one in report["changes"])
    stitches = {rows: ("156 stitches", f"{rows * 3 // 4} stitches")} if rows != 208 else {}
    assert {rows: counts(report)["Medium", "band_stitches"][:2]} == stitches if stitches \
        else counts(report) == {}


def test_it_is_known_where_a_size_was_added_at_once(store, capsys):
    write(store, renamed(sizes="[S, {label: Medium, former: [M]}, L]").replace(
        "Medium: 208", "Medium: 208, L: 216"))
    report = compared(store, capsys)
    whole = [(one["size"], one["before"], one["after"]) for one in report["changes"]
             if not one["name"]]
    assert (report["renamed"], whole) == ([["M", "Medium"]], [("L", "", "there")])


def test_it_is_known_backwards_too(store, capsys):
    write(store, renamed(240))
    git(store, "add", "-A")
    commit(store, renamed(240))
    write(store, BAND)
    report = compared(store, capsys)
    assert report["renamed"] == [["Medium", "M"]]
    assert counts(report)["M", "band_stitches"][:2] == ("180 stitches", "156 stitches")


# In the record of a published version


def test_a_record_under_the_former_label_is_that_of_the_size(store, capsys):
    main(["record", SLUG, "--root", str(store)])
    write(store, renamed())
    assert not [each for each in found(store, capsys) if each["code"] == "count-moved"]
    write(store, renamed(240))
    one, = (each for each in found(store, capsys) if each["code"] == "count-moved")
    assert "size Medium, Front band, edge rows: 240, not 208" in one["found"]
    assert one["expected"] == "version 1.1.0 or above", "2.0.0 is for a size that is gone"


# On the pages


def test_a_correction_may_name_the_size_as_it_was_called(tmp_path):
    write(tmp_path, renamed() + CORRECTED)
    proof, = collect(tmp_path).proofs
    pages = {page.path.rpartition("/")[2]: page.text for page in write_pages(proof)}
    assert page_facts(pages["medium.md"])["corrections"] == [
        {"version": "1.0.0", "text": "A row more."}]
    assert "corrections" not in page_facts(pages["s.md"])
    assert "Medium:</strong> A row more." in pages["index.md"]


def test_the_facts_and_the_card_say_what_it_was_called(tmp_path):
    write(tmp_path, renamed(sizes="[S, {label: Medium, former: [M, 36/38]}]"))
    proof, = collect(tmp_path).proofs
    pages = {page.path.rpartition("/")[2]: page.text for page in write_pages(proof)}
    said = [{"label": "M", "page": "m", "now": "Medium"},
            {"label": "36/38", "page": "36-38", "now": "Medium"}]
    assert page_facts(pages["medium.md"])["former_sizes"] == said
    assert page_facts(pages["index.md"])["former_sizes"] == said
    card = pattern_card(proof).html
    assert 'data-sizes="s medium" data-former-sizes="m:medium 36-38:medium"' in card
    write(tmp_path, BAND)
    proof, = collect(tmp_path).proofs
    assert "former" not in "".join(page.text for page in write_pages(proof))
    assert "former" not in pattern_card(proof).html


# Slips


@pytest.mark.parametrize(("sizes", "code", "text"), [
    ("[S, {label: Medium, former: [S]}]", "same-page", 'the former label "S", whose page was '
     'called "s" like that of "S"'),
    ("[S, {label: Medium, former: [s.]}]", "same-page", 'whose page was called "s"'),
    ("[S, {label: Medium, former: [Medium]}]", "same-page", 'the former label "Medium"'),
    ("[{label: S, former: [M]}, {label: Medium, former: [M]}]", "same-page",
     'the former label "M" again'),
    ("[S, {label: Medium, former: [con]}]", "bad-size-name", 'the size "con"'),
    ("[S, {label: Medium, former: M}]", "wrong-shape", "former")])
def test_a_slip_is_a_finding(tmp_path, capsys, sizes, code, text):
    write(tmp_path, renamed(sizes=sizes))
    errors = [each for each in found(tmp_path, capsys) if each["severity"] == "error"]
    assert [each["code"] for each in errors] == [code] and text in str(errors[0])


def test_a_label_that_differs_in_signs_alone_has_the_same_page(tmp_path, capsys):
    """Nothing is to be taken over then: the page's address is as it was."""
    write(tmp_path, renamed(sizes="[S, {label: m., former: [M]}]", label="m."))
    assert not [each for each in found(tmp_path, capsys) if each["severity"] == "error"]
    proof, = collect(tmp_path).proofs
    assert 'data-former-sizes=' not in pattern_card(proof).html


def test_a_value_under_the_former_label_is_led_to_the_new_one(tmp_path, capsys):
    write(tmp_path, BAND.replace("[S, M]", RENAMED))
    one = next(each for each in found(tmp_path, capsys) if each["code"] == "unknown-size")
    assert (one["found"], one["remedy"]) == ('the unknown size "M"', "Write Medium.")


# Withdrawn sizes


@pytest.mark.parametrize(("entry", "code", "text"), [
    ("{label: M, date: 2026-11-20}", "same-page", 'the withdrawn size "M", whose page was called '
     '"m" like that of another size'),
    ("{label: m., date: 2026-11-20}", "same-page", 'the withdrawn size "m."'),
    ("{label: XL}", "missing-key", 'no "date"'),
    ("{label: index, date: 2026-11-20}", "bad-size-name", 'the size "index"'),
    ("{label: XL, date: 2026-11-20}, {label: xl, date: 2026-11-21}", "same-page",
     'the withdrawn size "xl"')])
def test_a_slip_in_a_withdrawn_size_is_a_finding(tmp_path, capsys, entry, code, text):
    write(tmp_path, f"{BAND}withdrawn_sizes: [{entry}]\n")
    errors = [each for each in found(tmp_path, capsys) if each["severity"] == "error"]
    assert [each["code"] for each in errors] == [code] and text in str(errors[0])


def test_a_correction_may_name_a_size_that_is_withdrawn(tmp_path, capsys):
    """It concerns no page that there is."""
    write(tmp_path, BAND + "withdrawn_sizes: [{label: XL, date: 2026-11-20}]\n"
          "corrections: [{date: 2026-11-20, text: Its edge was too short., sizes: [XL]}]\n")
    assert not [each for each in found(tmp_path, capsys) if each["severity"] == "error"]
    proof, = collect(tmp_path).proofs
    pages = {page.path.rpartition("/")[2]: page.text for page in write_pages(proof)}
    assert "Its edge was too short." in pages["index.md"]
    assert "Its edge was too short." not in pages["m.md"]


def test_a_size_that_is_withdrawn_moves_no_count_and_asks_for_no_new_record(store, capsys):
    main(["record", SLUG, "--root", str(store)])
    capsys.readouterr()
    write(store, f"{BAND}withdrawn_sizes: [{{label: XL, date: 2026-11-20}}]\n")
    assert not [each for each in found(store, capsys) if each["code"].startswith("version")]
    assert main(["compare", "--root", str(store)]) == 0
    assert "withdrawn_sizes" in capsys.readouterr().out
