"""The page about pattern sources names every declared key, and the codes every finding."""

from __future__ import annotations

import ast
import importlib.util
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from walebook.core.codes import CODES
from walebook.core.ranges import Measured
from walebook.core.unit_table import LENGTHS, MASSES
from walebook.forms.registry import FORMS
from walebook.pages import source_page
from walebook.pages.source_page import (
    END,
    FINDINGS_MARKER,
    FORMS_MARKER,
    fill_lists,
    without_lists,
)
from walebook.source.keys.hole_keys import HoleKeys
from walebook.source.keys.whole import TABLES
from walebook.source.values import YES_NO, Figure, Word
from walebook.words.keys import explained

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "site_src" / "source.md").read_text(encoding="utf-8")
# Where the code of a finding stands among the arguments of what makes it.
CODE_AT = {"error": 0, "note": 1, "fault": 0, "warn": 0, "Fault": 0}

IN_OTHER_UNITS = {"PackageKeys.mass", "PackageKeys.length", "SwatchKeys.mass", "MultipleKeys.plus",
                  "RoundingKeys.plus", "PocketKeys.number", "BandRowsKeys.fold_to_holes",
                  "BandRowsKeys.to_finish"}
LISTED_ELSEWHERE = {"GarmentKeys.cast_on", "GarmentKeys.bind_off", "BandKeys.bind_off",
                    "BandKeys.kind"}  # under ways, and under collars


def with_lists(markdown: str) -> str:
    """The page as the command in `.ci` writes it."""
    spec = importlib.util.spec_from_file_location("lists", ROOT / ".ci" / "lists.py")
    assert spec is not None and spec.loader is not None
    command = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(command)
    return str(command.with_lists(markdown))


def test_every_spelling_of_a_unit_and_of_a_label_that_is_read_is_on_the_page() -> None:
    values = PAGE.partition("## How values are written")[2].partition("\n## ")[0]
    for heading, units in (("A length\n", [*LENGTHS, "24L"]), ("A mass\n", MASSES)):
        named = re.split(r"[^\w\"″”]+", values.partition(heading)[2].partition("\n\n")[0])
        assert not {unit for unit in units if unit not in named}, heading
    assert "letters A to Z or a to z" in PAGE.partition("\n`sizes`\n")[2].partition("\n\n")[0]


def test_every_link_between_fixed_pages_leads_to_a_file_on_a_git_host_too() -> None:
    """What a build alone makes is not there."""
    site, lost = ROOT / "site_src", []
    for page in site.rglob("*.md"):
        text = re.sub(r"^```.*?^```|`[^`\n]*`", "", page.read_text(encoding="utf-8"),
                      flags=re.DOTALL | re.MULTILINE)
        for target in re.findall(r"\]\(([^)\s#]+)", text):
            if not re.match(r"[a-z]+:", target) and not (page.parent / target).exists():
                lost.append(f"{page.relative_to(site)}: {target}")
    assert not lost


def calls(path: Path) -> Iterator[tuple[str, ast.Call]]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and not ast.unparse(node.func).startswith("parser."):
            yield getattr(node.func, "attr", getattr(node.func, "id", "")), node


def terms(page: str) -> Iterator[str]:
    """The keys that the page explains: those in the lines that a definition follows."""
    lines = page.splitlines()
    for line, after in pairwise(lines):
        if after.startswith(":   ") and line.startswith("`"):
            yield from line.replace("`", "").split(", ")


def test_every_key_is_explained_once_for_each_mapping_that_has_it() -> None:
    declared = Counter(name for table in TABLES.values() for name in table.keys)
    assert len(declared) > 70
    assert Counter(terms(fill_lists(PAGE))) == declared


def test_the_page_says_the_limits_and_the_words_of_every_key() -> None:
    """Of dials and dates once for all; what is not said by {range} or {words} is listed above."""
    keys = [(table, key) for table in TABLES.values() for key in table.keys.values()]
    figures = {f"{table.__name__}.{key.name}" for table, key in keys if isinstance(key.read, Figure)
               and key.read.range.measured not in (Measured.DIAL, Measured.DATE)
               and "{range}" not in key.meaning}
    assert figures == IN_OTHER_UNITS
    elsewhere = {f"{table.__name__}.{key.name}" for table, key in keys if isinstance(key.read, Word)
                 and key.read != YES_NO
                 and not all(f"`{word}`" in explained(key, table) for word in key.read.choices)}
    assert elsewhere == LISTED_ELSEWHERE


def test_the_page_says_what_a_key_was_called_and_since_when_it_is_there() -> None:
    lean = HoleKeys.lean
    said = explained(replace(lean, former=("slope",), since="2.1"), HoleKeys)
    assert said == explained(lean, HoleKeys).replace(
        " Example:", " Before: `slope`. Example:") + " Since version 2.1."


def test_every_finding_has_its_code_in_the_list() -> None:
    paths = [*sorted((ROOT / "engine").rglob("*.py")), *sorted((ROOT / "hooks").glob("*.py"))]
    used = {call.args[CODE_AT[name]].value: path for path in paths for name, call in calls(path)
            if name in CODE_AT and len(call.args) > CODE_AT[name]
            and isinstance(call.args[CODE_AT[name]], ast.Constant)}
    assert len(used) > 100
    assert {code: path for code, path in used.items() if code not in CODES} == {}


def test_the_page_lists_every_finding_and_every_form() -> None:
    assert PAGE.count(FINDINGS_MARKER) == PAGE.count(FORMS_MARKER) == 1
    page = fill_lists(PAGE)
    assert all(f"\n- `{code}`: {meaning}" in page for code, meaning in CODES.items())
    assert all(f"<summary>{form}</summary>\n\n" in page for form in FORMS)


def test_the_page_is_read_by_its_heads_and_its_long_lists_are_shut() -> None:
    """Its keys, forms, figures and findings took 79,000 px on a phone; the page must not again."""
    page = fill_lists(PAGE)
    open_ = re.sub(r"<details.*?</details>", "", page, flags=re.S)
    assert len(open_) < len(page) / 2


@pytest.mark.parametrize("path", [ROOT / "site_src" / "source.md",
                                  ROOT / "site_src" / "guides" / "measures.md"],
                         ids=lambda path: path.stem)
def test_the_lists_are_written_for_those_who_read_the_markdown(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert with_lists(text) == text, "run: .venv/bin/python .ci/lists.py"
    assert text.count("<!-- walebook:") == 2 * text.count(END) > 0


def test_a_build_makes_the_lists_anew_whatever_is_written() -> None:
    stale = PAGE.replace(":   The pattern's name.", ":   An old text.")
    assert stale != PAGE and with_lists(stale) == PAGE
    assert fill_lists(stale) == fill_lists(without_lists(PAGE)) == fill_lists(PAGE)
    assert END not in fill_lists(PAGE) and len(without_lists(PAGE)) < len(PAGE) / 3


def test_a_page_without_a_list_makes_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each made all of them, and loaded every form: a fifth of what a small site took to build."""
    made: list[str] = []
    for name in ("_form", "_ranges", "_listed"):
        monkeypatch.setattr(source_page, name, lambda *_, name=name: made.append(name) or "")
    assert fill_lists("# About\n") == "# About\n" and made == []
    fill_lists(without_lists(PAGE))
    assert set(made) == {"_form", "_ranges", "_listed"}
