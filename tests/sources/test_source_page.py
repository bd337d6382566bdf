"""The page about pattern sources names every key that is read, and the codes every finding."""

from __future__ import annotations

import ast
import importlib
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from walebook.core.codes import CODES
from walebook.forms.registry import FORMS
from walebook.pages.source_page import FINDINGS_MARKER, FORMS_MARKER, fill_lists

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "site_src" / "source.md").read_text(encoding="utf-8")
READERS = sorted(path.stem for path in (ROOT / "engine" / "source").glob("[!_]*.py"))
# Where the code of a finding stands among the arguments of what makes it.
CODE_AT = {"error": 0, "note": 1, "fault": 0, "warn": 0, "Fault": 0}


def calls(path: Path) -> Iterator[tuple[str, ast.Call]]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            yield getattr(node.func, "attr", getattr(node.func, "id", "")), node


def tables_of(reader: str) -> Iterator[tuple[str, ...]]:
    """The keys of every mapping that a reader opens, save those that the designer names."""
    module = importlib.import_module(f"walebook.source.{reader}")
    for name, call in calls(ROOT / "engine" / "source" / f"{reader}.py"):
        if name == "open_fields":
            known = call.args[3]
            if isinstance(known, ast.Name):
                yield getattr(module, known.id)
            elif isinstance(known, ast.Tuple):
                yield ast.literal_eval(known)


def terms(page: str) -> Iterator[str]:
    """The keys that the page explains: those in the lines that a definition follows."""
    lines = page.splitlines()
    for line, after in pairwise(lines):
        if after.startswith(":   ") and line.startswith("`"):
            yield from line.replace("`", "").split(", ")


def test_every_key_is_explained_as_often_as_there_are_mappings_that_have_it() -> None:
    read = Counter(key for reader in READERS for table in tables_of(reader) for key in table)
    assert len(read) > 70
    assert Counter(terms(PAGE)) == read


@pytest.mark.parametrize("path", [*sorted((ROOT / "engine").rglob("*.py")),
                                  *sorted((ROOT / "hooks").glob("*.py"))], ids=lambda p: p.stem)
def test_every_finding_has_its_code_in_the_list(path: Path) -> None:
    used = {call.args[CODE_AT[name]].value for name, call in calls(path)
            if name in CODE_AT and len(call.args) > CODE_AT[name]
            and isinstance(call.args[CODE_AT[name]], ast.Constant)}
    assert used <= set(CODES)


def test_the_page_lists_every_finding_and_every_form() -> None:
    assert PAGE.count(FINDINGS_MARKER) == PAGE.count(FORMS_MARKER) == 1
    page = fill_lists(PAGE)
    assert all(f"\n- `{code}`: {meaning}" in page for code, meaning in CODES.items())
    assert all(f"\n{form}\n:   " in page for form in FORMS)
