"""A mark of a published case, such as D04, stands beside the work that it comes from.

The marks are those of the cases in `tests/against/`, where each entry names author, title, date and
address. A developer who meets one in the engine reads the work's title in the same module.
"""

from __future__ import annotations

import re
import tokenize
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
MODULES = [path for folder in ("engine", "hooks") for path in sorted((ROOT / folder).rglob("*.py"))]
# Needles are called L12 and R3; a mark of such a look would be read as one.
MARK = re.compile(r"\b(?:W3-\d{3}|(?![LR][1-9]\d\b)[A-Z]\d\d)\b")


def titles() -> dict[str, str]:
    """The title of the work of every case, by its mark."""
    return {case["id"]: str(case["source"]["title"])
            for path in sorted((ROOT / "tests" / "against").glob("worked-examples*.yaml"))
            for case in yaml.load(path.read_text(encoding="utf-8"), yaml.CSafeLoader)}


TITLES = titles()


def remarks(text: str) -> str:
    """What a module says in comments and docstrings, with single spaces."""
    found, begins = [], True
    for token in tokenize.generate_tokens(iter(text.splitlines(keepends=True)).__next__):
        if token.type == tokenize.COMMENT:
            found.append(token.string.lstrip("#"))
        elif token.type == tokenize.STRING and begins:
            found.append(token.string)
        if token.type not in (tokenize.COMMENT, tokenize.NL):
            begins = token.type in (tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT)
    return " ".join(" ".join(found).split())


def unexplained(text: str) -> list[str]:
    """The marks in a module of whose work it does not give the title: three words or the whole."""
    said = remarks(text)
    return [mark for mark in sorted(set(MARK.findall(said)))
            if mark not in TITLES or not is_named(TITLES[mark], said)]


def is_named(title: str, said: str) -> bool:
    """True where a text has the beginning of a title between quotes."""
    words = title.partition(" (")[0].split()
    return any(found.startswith(f'"{" ".join(words[:3])}'.rstrip(",:"))
               for found in re.findall(r'"[^"]+', said))


def test_a_mark_has_its_work_named_beside_it():
    missing = {path.relative_to(ROOT).as_posix(): marks for path in MODULES
               if (marks := unexplained(path.read_text(encoding="utf-8")))}
    assert not missing, "name the author and the title of the work, or take the mark away"


def test_a_mark_alone_is_noticed():
    named = '"""Rows.\n\nSource: a page, "Buttonhole band, method 1\nrevised" (D04).\n"""\n'
    assert not unexplained(named + "ROWS = 4  # (D04), and needle R13\n")
    assert unexplained("ROWS = 4  # (D04)\n") == ["D04"]
    assert unexplained(named + 'def rows():\n    """Four (D05)."""\n') == ["D05"]
    assert unexplained(named + "NAME = 'D05'\n") == []
    assert unexplained('"""Of a work that no case is from, "A hem" (Q77)."""\n') == ["Q77"]
