"""Which strings of the engine are no words for a reader, by the type that their place declares."""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from tests.laws.calls import parsed

ENGINE = Path(__file__).parents[2] / "engine"
KINDS = ENGINE / "core" / "text_kinds.py"
Parameters = dict[str, str]  # the annotation of each parameter or field by its name, in order
Homes = dict[str, str]  # the module of a name, by the last part of the module's name


def declared(text: str) -> set[str]:
    """The names that a module of types assigns."""
    return {target.id for node in parsed(text).body if isinstance(node, ast.Assign)
            for target in node.targets if isinstance(target, ast.Name)}


class TypedTexts:
    """What modules declare of the kinds of text: the aliases of these, and who takes one.

    `texts` are the modules by the last part of their names.
    """

    def __init__(self, texts: list[tuple[str, str]], kinds: set[str]) -> None:
        trees = [(name, parsed(text)) for name, text in texts]
        self.kinds = set(kinds)
        while more := {target.id for _, tree in trees for node in tree.body
                       if isinstance(node, ast.Assign) and isinstance(node.value, ast.Subscript)
                       and self.names(ast.unparse(node.value))
                       for target in node.targets
                       if isinstance(target, ast.Name)} - self.kinds:
            self.kinds |= more
        self._takes: dict[str, list[tuple[str, Parameters]]] = defaultdict(list)
        self._methods: dict[str, list[Parameters]] = defaultdict(list)
        for name, tree in trees:
            for node in ast.walk(tree):
                if isinstance(node, ast.FunctionDef):
                    self._takes[node.name].append((name, _parameters(node)))
                elif isinstance(node, ast.ClassDef):
                    self._takes[node.name].append((name, _fields(node)))
                    for one in node.body:
                        if isinstance(one, ast.FunctionDef):
                            self._methods[one.name].append(_parameters(one))

    def names(self, annotation: str) -> bool:
        """True where an annotation names a kind of text."""
        return not self.kinds.isdisjoint(re.findall(r"\w+", annotation))

    def apart(self, call: ast.Call, homes: Homes) -> Iterator[ast.AST]:
        """Yield the arguments of a call that go where what it calls takes such a text: what its
        module has of that name or imports, else everything of that name; what is called of a
        value, which is no module, all methods of that name."""
        of, _, name = ast.unparse(call.func).rpartition(".")
        found = self._takes.get(name, [])
        takes = (self._methods.get(name, []) if of and of not in homes else []) or \
            [one for home, one in found if home == homes.get(name)] or [one for _, one in found]
        for place, given in enumerate(call.args):
            if takes and all(place < len(one) and self.names([*one.values()][place])
                             for one in takes):
                yield given
        for keyword in call.keywords:
            if takes and all(self.names(one.get(keyword.arg or "", "")) for one in takes):
                yield keyword


def homes_of(tree: ast.Module, own: str = "") -> Homes:
    """The module, by the last part of its name, of what a module defines or imports by name."""
    found = {node.name: own for node in tree.body
             if isinstance(node, ast.FunctionDef | ast.ClassDef)}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            found |= {each.asname or each.name: (node.module or "").rpartition(".")[2]
                      for each in node.names}
    return found


def _parameters(node: ast.FunctionDef) -> Parameters:
    given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    return {one.arg: ast.unparse(one.annotation) if one.annotation else "" for one in given
            if one.arg not in ("self", "cls")}


def _fields(node: ast.ClassDef) -> Parameters:
    for one in node.body:
        if isinstance(one, ast.FunctionDef) and one.name == "__init__":
            return _parameters(one)
    return {one.target.id: ast.unparse(one.annotation) for one in node.body
            if isinstance(one, ast.AnnAssign) and isinstance(one.target, ast.Name)}


@cache
def of_engine() -> TypedTexts:
    """What the engine declares."""
    texts = [(path.stem, path.read_text(encoding="utf-8")) for path in sorted(ENGINE.rglob("*.py"))]
    return TypedTexts(texts, declared(KINDS.read_text(encoding="utf-8")))
