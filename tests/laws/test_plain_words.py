"""No text of the engine or its hooks has a turn of phrase that makes a reader stumble."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.laws.test_house import nodes_of, written

# Each has a plain word: "a separate line", "uses", "is named", "depends on".
TURNS = re.compile(r"\b(of its[ ]own|leans?[ ]on|is[ ]told|is[ ]come[ ]by|is[ ]what[ ]is)\b")


def turns(nodes: tuple[ast.AST, ...]) -> Iterator[str]:
    """The turns in texts of a module, but for docstrings, which stand alone in their line."""
    alone = {id(node.value) for node in nodes if isinstance(node, ast.Expr)}
    for node in nodes:
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in alone:
            yield from TURNS.findall(node.value)


@pytest.mark.parametrize("text", ["'a line of its ' 'own'", "f'{count} leans ' 'on it'",
                                  "'it is ' 'told'"])
def test_a_turn_is_found(text: str) -> None:
    assert list(turns(tuple(ast.walk(ast.parse(f"found = {text}")))))


def test_no_text_has_such_a_turn() -> None:
    assert not {(name, turn) for name, path in written().items() for turn in turns(nodes_of(path))}
