"""Every sentence that a reader of the site sees is made in engine/words/.

Pages say what stands where, drawings draw: a string of three words or more in either is a sentence
that a translator, or whoever rewords a step, would look for in vain.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ENGINE = Path(__file__).parents[2] / "engine"
FOLDERS = ("pages", "drawings")
TAG = re.compile(r"<[^>]*>")
SPOKEN = re.compile(r'(?:aria-label|alt|title)="([^"]*)"')
WORD = re.compile(r"[A-Za-z][a-z'’-]*")
# What no reader of a page sees, by module and function: why an argument cannot be, what JSON is
# written with, and what a schema says of itself.
UNSEEN = {
    ("pages/counts_json.py", "counts_json"),
    ("pages/counts_schema.py", "counts_schema"),
    ("pages/expression_json.py", ""),
    ("pages/expression_kinds.py", ""),
    ("pages/page_facts.py", "facts_schema"),
    ("pages/page_facts.py", "_part_schema"),
    ("drawings/dimensions.py", "px"),
    ("drawings/two_beds.py", "two_bed_diagram"),
}

def sentences(text: str) -> Iterator[tuple[str, str]]:
    """The function, or "" outside any, and the text of every string of three words or more."""
    tree = ast.parse(text)
    notes = {node.value for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    yield from _found(tree, "", notes)


def _found(node: ast.AST, within: str, notes: set[ast.expr]) -> Iterator[tuple[str, str]]:
    for child in ast.iter_child_nodes(node):
        name = child.name if isinstance(child, ast.FunctionDef) and not within else within
        if child not in notes and len(words_of(said := string(child))) >= 3:
            yield name, said
        yield from _found(child, name, notes)


def string(node: ast.AST) -> str:
    """A string's text; of one with values in it, all but the values."""
    if isinstance(node, ast.JoinedStr):
        return " ".join(string(part) for part in node.values if isinstance(part, ast.Constant))
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def words_of(text: str) -> list[str]:
    """The words between the tags and in labels; keys, addresses and paths of drawings are none."""
    bare = (token.strip(".,:;!?()“”‘’\"'")
            for token in " ".join((TAG.sub(" ", text), *SPOKEN.findall(text))).split())
    return [token for token in bare if (WORD.fullmatch(token) and len(token) > 1) or token == "a"]


def outside() -> set[tuple[str, str]]:
    return {(path.relative_to(ENGINE).as_posix(), name)
            for folder in FOLDERS for path in sorted((ENGINE / folder).rglob("*.py"))
            for name, _ in sentences(path.read_text(encoding="utf-8"))}


def test_every_sentence_is_made_in_words() -> None:
    assert outside() == UNSEEN


@pytest.mark.parametrize("line", [
    'return f"<p>Bands are not {drawn}.</p>"',
    'return "<b>Knit one more</b>"',
    'said = {1: ", from the waste yarn"}',
    'title = f"The needles after step {number}"',
    'return f\'<a aria-label="Page {number} of the patterns">{number}</a>\'',
])
def test_a_sentence_is_found(line: str) -> None:
    found = sentences(f"def at(number, drawn):\n    {line}\n")
    assert {name for name, _ in found} == {"at"}


@pytest.mark.parametrize("line", [
    'path = f"M{x} {y}V{foot}H{end - 2}"',
    'key = "rows_holes_to_fold"',
    'to = "../../techniques/swatch-and-gauge.html"',
    'shape = \'stroke-width="2.2" d="M2 10v6H14v-6"\'',
    'return f\'<p class="wb-on-paper">{said}</p>\'',
    '"""A function that says what it gives back."""',
])
def test_what_is_no_sentence_is_left(line: str) -> None:
    assert not list(sentences(f"def at(x, y, said):\n    {line}\n"))
