"""Draws changes of the engine by chance: where, of which kind, and what comes of it."""

from __future__ import annotations

import ast
import difflib
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from random import Random

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.operator import Operator
from cosmic_ray.plugins import get_operator, operator_names
from own_operators import OWN

ROOT = Path(__file__).parents[1]
LEFT_OUT = ("VariableInserter", "VariableReplacer", "ExceptionReplacer", "RemoveDecorator")
SAME = ("_Is_Eq", "_Eq_Is", "_IsNot_NotEq", "_NotEq_IsNot")  # of enumerations and None
VAST = ("_Pow", "_LShift")  # numbers so large that the tests run out of time
QUARTERS = ("plan", "words")
OTHERS = tuple(folder.name for folder in sorted((ROOT / "engine").iterdir())
               if folder.is_dir() and folder.name not in QUARTERS)
Place = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One change: of which module, at which line, and what it makes of it."""

    path: str
    line: int
    kind: str
    changed: str
    code: str

    @property
    def name(self) -> str:
        """How a list names it: it survives other changes of the module."""
        return f"{self.path} {self.kind}: {self.changed}"

    @property
    def mark(self) -> str:
        """A digest of the module as it is changed: no two mutants have the same."""
        return sha256(f"{self.path}\n{self.code}".encode()).hexdigest()[:16]

    @property
    def folder(self) -> str:
        """The folder of the engine that it is in."""
        return self.path.split("/")[1]


def operators() -> dict[str, Operator]:
    """The operators by name, without those that mostly make what no test could tell apart."""
    names = [name for name in operator_names()
             if not name.rpartition("/")[2].startswith(LEFT_OUT) and not name.endswith(SAME + VAST)]
    theirs = {name.rpartition("/")[2]: get_operator(name)() for name in sorted(names)}
    return {**theirs, **{own.__name__: own() for own in OWN}}


def drawn(chance: Random, number: int) -> Iterator[Mutant]:
    """So many mutants: a quarter in each folder of QUARTERS, by the length of the modules."""
    kinds = operators()
    texts = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8")
             for path in sorted((ROOT / "engine").glob("*/**/*.py"))}
    for turn in range(number):
        folders = QUARTERS[turn % 4:turn % 4 + 1] or OTHERS
        among = {path: text for path, text in texts.items() if path.split("/")[1] in folders}
        yield draw(chance, among, kinds)


def draw(chance: Random, texts: dict[str, str], kinds: dict[str, Operator]) -> Mutant:
    """One mutant: a line and a kind of change by chance, then one of these changes."""
    while True:
        (path,) = chance.choices(list(texts), [text.count("\n") for text in texts.values()])
        places: dict[tuple[int, str], list[tuple[str, int]]] = {}
        for line, kind, occurrence in changes(texts[path], kinds):
            places.setdefault((line, kind.partition("_")[0]), []).append((kind, occurrence))
        if not places:
            continue
        line, _ = place = chance.choice(sorted(places))
        kind, occurrence = chance.choice(places[place])
        code = mutate_code(texts[path], kinds[kind], occurrence)
        if code and code != texts[path] and compiles(code):
            return Mutant(path=path, line=line, kind=kind, code=code,
                          changed=difference(texts[path], code))


def changes(text: str, kinds: dict[str, Operator]) -> Iterator[tuple[int, str, int]]:
    """Each change of a module but of annotations and docstrings: line, kind, which of its kind."""
    spared = spared_places(ast.parse(text))
    nodes = list(ast_nodes(get_ast(text)))
    for kind, operator in kinds.items():
        places = [place for node in nodes for place in operator.mutation_positions(node)]
        for occurrence, (start, end) in enumerate(places):
            if not any(first <= start and end <= last for first, last in spared):
                yield start[0], kind, occurrence


def spared_places(tree: ast.Module) -> list[tuple[Place, Place]]:
    """What no reader meets: annotations, docstrings, decorators, words of a broken promise."""
    found: list[ast.expr] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.AnnAssign | ast.arg) and node.annotation:
            found.append(node.annotation)
        if isinstance(node, ast.FunctionDef) and node.returns:
            found.append(node.returns)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            found.append(node.value)
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "cast":
            found.append(node.args[0])
        if isinstance(node, ast.Raise) and node.exc:  # for whoever changes the engine
            found.append(node.exc)
        if isinstance(node, ast.ClassDef | ast.FunctionDef):
            found.extend(node.decorator_list)
    return [((node.lineno, node.col_offset),
             (node.end_lineno or 0, node.end_col_offset or 0)) for node in found]


def compiles(code: str) -> bool:
    """True for what Python reads: an operator may write a star that no list has a place for."""
    try:
        ast.parse(code)
    except SyntaxError:
        return False
    return True


def difference(text: str, code: str) -> str:
    """The changed lines, as `before => after`."""
    pairs = [line for line in difflib.unified_diff(text.splitlines(), code.splitlines(), n=0)
             if line[:1] in "+-" and line[:3] not in ("+++", "---")]
    sides = [" ".join(line[1:].strip() for line in pairs if line[0] == sign) for sign in "-+"]
    return " => ".join(sides)
