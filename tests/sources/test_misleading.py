"""Errors that misled: each says now what was written, where, and what to write instead."""

from __future__ import annotations

import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from reading import BASE, changed, messages
from test_garment_sources import GARMENT
from test_garment_sources import messages as of_garment
from walebook.core.problems import Place, error, render
from walebook.core.units import UnitError, read_dial, read_length, read_mass, read_number
from walebook.sizing.expression_tree import Number
from walebook.sizing.expressions import parse_expression
from walebook.sizing.printed_figures import read_span

INCH = Fraction(254, 10)
# One length, however it is written: in a value of its own, and in a sum of measures.
WRITTEN = {
    '3"': 3 * INCH, "3 ″": 3 * INCH, "22-1/2 in": Fraction(45, 2) * INCH,
    "22 1/2 in": Fraction(45, 2) * INCH, "22½ in": Fraction(45, 2) * INCH,
    "½ in": INCH / 2, "2 yd": 72 * INCH, "24 ligne": Fraction(24, 40) * INCH,
    "1.23456789 cm": Fraction(123456789, 10**7), "0.1234567 m": Fraction(1234567, 10**4),
}


@pytest.mark.parametrize("text", WRITTEN)
def test_a_length_is_read_alike_in_a_value_and_in_a_sum(text: str) -> None:
    assert read_length(text).mm == WRITTEN[text]
    tree = parse_expression(text)
    assert isinstance(tree, Number)
    assert (tree.value, tree.is_length) == (WRITTEN[text], True)


def test_a_mixed_number_is_no_range_in_a_chart() -> None:
    assert read_span("22-1/2") == (Fraction(45, 2), Fraction(45, 2))
    assert read_span("22-1/2–24 1/4") == (Fraction(45, 2), Fraction(97, 4))
    assert read_span("28-30") == (28, 30)


def test_a_difference_of_plain_numbers_is_a_difference_still() -> None:
    assert not isinstance(parse_expression("22-1/2"), Number)
    assert not isinstance(parse_expression("chest - 22-1/2 in"), Number)


@pytest.mark.parametrize("digits", ["٣", "３", "३"])
def test_only_the_digits_0_to_9_are_read_anywhere(digits: str) -> None:
    for read, text in ((read_length, f"{digits} cm"), (read_mass, f"{digits} g"),
                       (read_number, digits), (read_dial, digits)):
        with pytest.raises(UnitError):
            read(text)
    told = "Write the digits 0 to 9."
    assert messages(changed("depth: 3 cm", f"depth: {digits} cm")) == [
        f'45:12: error, bad-length: found "{digits} cm"; expected a length such as 3 cm, or 9 '
        f"rows. {told}"]
    assert messages(changed("rows: 52", f"rows: {digits}2")) == [
        f'37:11: error, bad-number: found "{digits}2"; expected a whole number from 1 to 2000. '
        f"{told}"]
    assert of_garment(changed("ease: 10 cm", f"ease: {digits} cm", GARMENT)) == [
        f'28:11: error, bad-measure: found "{digits}"; expected names, numbers, lengths, + - * / '
        f"and brackets. {told}"]


def test_where_nothing_can_be_named_nothing_is_offered() -> None:
    text = BASE.replace("  - {file: front.png, alt: The front band}",
                        "  - {file: side.png, alt: The side}")
    assert "Use one of these" not in " ".join(messages(text))
    assert of_garment(changed("chart: women", "chart: womem", GARMENT), charts={}) == [
        '19:10: error, unknown-name: found no size chart called "womem". Write own and put the '
        "pattern's own chart.yaml into its folder."]


@pytest.mark.parametrize(("key", "meant"), [
    ("price", None), ("cost", None), ("author", None), ("difficulty", None), ("colour", None),
    ("titel", "title"), ("desinger", "designer"), ("sizs", "sizes"), ("wearers", "wearer"),
    ("license", "licence"), ("fabric", "fabrics")])
def test_a_key_is_offered_only_where_it_is_like_what_was_written(key: str, meant: str | None
                                                                  ) -> None:
    [said] = [m for m in messages(f"{BASE}{key}: 12\n") if f'"{key}"' in m]
    assert said.endswith(f"Write {meant}." if meant else "Delete it, or put it where it belongs.")


CUT = ("expected a value in quotes, or a space after the #. YAML takes it for a remark: put the "
       "value in quotes to keep it.")
CUTS = {
    "a title": ("title: Slack Tide cardigan bands", "title: Slack Tide #1", [
        f'1:19: warning, cut-by-remark: found "#1" behind "Slack Tide", which is left out; {CUT}']),
    "in a list": ("skills: [knit rows, hang an edge]", "skills:\n  - knit #2 rows", [
        f'10:10: warning, cut-by-remark: found "#2 rows" behind "knit", which is left out; {CUT}']),
    "a remark": ("title: Slack Tide cardigan bands", "title: Slack Tide # the first", []),
    "in quotes": ("title: Slack Tide cardigan bands", 'title: "Slack Tide #1"', []),
    "behind a value in quotes": ("title: Slack Tide cardigan bands", 'title: "Slack Tide" #1', []),
    "a line of remarks": ("title: Slack Tide cardigan bands", "#1 of 2\ntitle: Bands", []),
}


@pytest.mark.parametrize("name", CUTS)
def test_a_value_cut_off_by_a_remark_is_told(name: str) -> None:
    old, new, expected = CUTS[name]
    assert messages(changed(old, new)) == expected


def test_the_authors_line_is_shown_without_its_control_characters() -> None:
    place = Place("patterns/slack-tide/pattern.yaml", 1, 10)
    shown = render(error("control-character", place, found="x"), ["ab\x1b[2J\u202ecd\x07ef\n"])
    assert shown.splitlines()[1:] == ["    ab\\u001b[2J\\u202ecd\\u0007ef",
                                      "    " + " " * 19 + "^"]
    # the caret stands under the tenth character of the line, "c" being the eighth


def test_a_file_name_cannot_write_to_the_terminal() -> None:
    assert "\x1b" not in render(error("x", Place("patterns/\x1b[2J/pattern.yaml", 1, 1), found="y"))


BAD = "titel: Sl\u00e4ck Tide \u2033 \U0001f9f6\n"


@pytest.mark.parametrize("environment", [
    {"PYTHONIOENCODING": "cp1252"},
    {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}], ids=["cp1252", "C"])
@pytest.mark.parametrize("command", [["check"], ["pages", "out"], ["build"]],
                         ids=lambda command: command[0])
def test_findings_are_printed_in_whatever_the_terminal_can_show(
        tmp_path: Path, command: list[str], environment: dict[str, str]) -> None:
    folder = tmp_path / "patterns" / "slack-tide"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(BAD, encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: Quay\ndocs_dir: patterns\nplugins:\n  - walebook\n", encoding="utf-8")
    plain = {k: v for k, v in os.environ.items() if k not in ("LC_ALL", "LANG", "PYTHONUTF8")}
    run = subprocess.run([sys.executable, "-m", "walebook_site.command", *command, "--root",
                          str(tmp_path)], env=plain | environment, capture_output=True, check=False,
                         cwd=tmp_path)
    assert run.returncode == 1
    assert b"Traceback" not in run.stderr
    said = run.stderr if command == ["build"] else run.stdout  # as the site builder's own faults
    assert b"patterns/slack-tide/pattern.yaml:1:1: error, unknown-key" in said
    assert b"\\U0001f9f6" in said
