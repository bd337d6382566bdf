"""Which functions of the engine take a whole pattern: ever fewer, and none that reads one part.

A function takes what it needs, so that its head says what its result rests on. Types are read by
annotation. What a function hands on is what the other reads of it; what keeps the pattern, copies
it or returns it has all of it.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from tests.laws.calls import Calls, Name, calls_of, files_of

PATTERN = Name("walebook.pattern.model", "Pattern")
WHOLE = 101
"""How many functions of the engine take a pattern. It only shrinks: write the new number."""


class Taker(NamedTuple):
    """A function, by its module and line, and the name of its parameter."""

    module: str
    name: str
    line: int
    parameter: str

    def __str__(self) -> str:
        return f"{self.module}.{self.name}, line {self.line}: {self.parameter}"


class Given(NamedTuple):
    """A call that is given the pattern, and its place or name among the arguments."""

    call: ast.Call
    at: int | str


def named(annotation: ast.expr | None, module: str, calls: Calls) -> bool:
    """True where an annotation names the pattern's class."""
    return annotation is not None and any(
        isinstance(node, ast.Name) and calls.resolved(module, node.id) == PATTERN
        for node in ast.walk(annotation))


def parameters(node: ast.FunctionDef) -> list[ast.arg]:
    return [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]


def takers(calls: Calls) -> dict[Taker, ast.FunctionDef]:
    """Every function of some modules that takes a pattern, once for each that it takes."""
    return {Taker(module, node.name, node.lineno, one.arg): node
            for module, tree in calls.trees.items() for node in ast.walk(tree)
            if isinstance(node, ast.FunctionDef)
            for one in parameters(node) if named(one.annotation, module, calls)}


def functions(found: dict[Taker, ast.FunctionDef]) -> int:
    """How many functions they are."""
    return len({taker[:3] for taker in found})


def uses(node: ast.FunctionDef, parameter: str) -> Iterator[str | Given | None]:
    """What a function does with its pattern: the names it reads, the calls it hands it on to, and
    None where it keeps or copies it."""
    above = {child: outer for outer in ast.walk(node) for child in ast.iter_child_nodes(outer)}
    for one, outer in above.items():
        if not isinstance(one, ast.Name) or one.id != parameter:
            continue
        if isinstance(outer, ast.Attribute):
            yield outer.attr
        elif isinstance(outer, ast.Call) and one in outer.args:
            yield Given(outer, outer.args.index(one))
        elif isinstance(outer, ast.keyword) and isinstance(call := above[outer], ast.Call):
            yield Given(call, outer.arg or "")
        else:
            yield None


def handed(module: str, given: Given, found: dict[Taker, ast.FunctionDef], calls: Calls
           ) -> Taker | None:
    """Which function gets what a call is given; None for one that is not known to take it."""
    func = given.call.func
    if isinstance(func, ast.Name):
        whom = calls.resolved(module, func.id)
    elif isinstance(func, ast.Attribute) and isinstance(func.value, ast.Name):
        start, inner = calls.imports[module].get(func.value.id, ("", None))
        whom = calls.resolved(f"{start}.{inner}", func.attr)
    else:
        whom = None
    if whom is None:
        return None
    return next((taker for taker, node in found.items() if taker[:2] == whom and given.at in (
        taker.parameter, [one.arg for one in parameters(node)].index(taker.parameter))), None)


def read(calls: Calls) -> dict[Taker, set[str | None]]:
    """What each function reads of the pattern that it takes, itself or by what it hands it to; with
    None where all of it is kept or copied."""
    found = takers(calls)
    reads: dict[Taker, set[str | None]] = {}
    onward: dict[Taker, set[Taker]] = {}
    for taker, node in found.items():
        reads[taker], onward[taker] = set(), set()
        for use in uses(node, taker.parameter):
            if not isinstance(use, Given):
                reads[taker].add(use)
            elif (whom := handed(taker.module, use, found, calls)) is None:
                reads[taker].add(None)
            else:
                onward[taker].add(whom)
    for _ in found:
        before = sum(map(len, reads.values()))
        for taker, others in onward.items():
            reads[taker] |= {part for other in others for part in reads[other]}
        if before == sum(map(len, reads.values())):
            break
    return reads


def of_one_part(calls: Calls) -> list[str]:
    """The functions that read one part of the pattern that they take, or none."""
    return [f"{taker}: {', '.join(sorted(filter(None, parts))) or 'nothing'}"
            for taker, parts in read(calls).items() if None not in parts and len(parts) < 2]


@cache
def engine() -> Calls:
    return calls_of(files_of("engine"))


def test_no_more_functions_take_a_whole_pattern():
    many = functions(takers(engine()))
    assert many == WHOLE


def test_no_function_takes_a_pattern_for_one_part_of_it():
    assert of_one_part(engine()) == []


MODEL = "class Pattern:\n    garment: str\n    bed: str\n"
HEAD = "from ..pattern.model import Pattern\n\n"
KEPT = "class Sheet:\n    def __init__(self, pattern: Pattern) -> None:\n        " \
    "self.pattern = pattern\n\n"


def spoiled(*modules: str) -> Calls:
    """The calls of modules a0, a1 ... of a folder beside the pattern's."""
    return calls_of([(Path("engine/pattern/model.py"), MODEL),
                     *((Path(f"engine/plan/a{n}.py"), HEAD + text)
                       for n, text in enumerate(modules))])


def test_a_function_that_reads_one_part_is_noticed():
    one = "def wide(size: str, pattern: Pattern) -> str:\n    return pattern.bed + size\n"
    assert of_one_part(spoiled(one)) == ["walebook.plan.a0.wide, line 3: pattern: bed"]
    assert not of_one_part(spoiled(one.replace("+ size", "+ pattern.garment")))
    assert not of_one_part(spoiled(one.replace("pattern: Pattern", "pattern: object")))


def test_a_function_that_hands_a_pattern_on_for_one_part_is_noticed():
    one = "def wide(size: str, pattern: Pattern | None) -> str:\n    return pattern.bed + size\n"
    more = ("from .a0 import wide\n\ndef wider(pattern: Pattern) -> str:\n"
            "    return wide('S', pattern) + wide(size='M', pattern=pattern)\n")
    assert len(of_one_part(spoiled(one, more))) == 2
    assert len(of_one_part(spoiled(one, more.replace("+ wide(", "+ pattern.garment + wide(")))) == 1
    module = more.replace("from .a0 import wide", "from . import a0").replace("wide(", "a0.wide(")
    assert len(of_one_part(spoiled(one, module))) == 2


def test_what_keeps_a_pattern_takes_all_of_it():
    assert not of_one_part(spoiled(KEPT + "def made(pattern: Pattern) -> Sheet:\n"
                                          "    return Sheet(pattern)\n"))


def test_functions_are_counted_once_within_others_and_in_classes():
    both = "def whole(one: Pattern, other: Pattern) -> None:\n    def part(own: Pattern): ...\n"
    assert functions(takers(spoiled(both, KEPT))) == 3
    assert functions(takers(spoiled("import re\n\ndef found(by: re.Pattern[str]): ...\n"))) == 0
