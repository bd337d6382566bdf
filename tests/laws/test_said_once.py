"""What stands twice in the code, and what stands there for nobody, is found by its name or body."""

from __future__ import annotations

import ast
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest

from tests.laws.calls import files_of, parsed

# Functions with one body, and why there are two.
ALIKE = {
    "_counted": "the command and the notices of a preview load neither each other nor words",
    "builder": "each names `build` and `ROUNDS` of the form's module",
}
# Types of one name, and why there are two.
NAMED_ALIKE: dict[str, str] = {}
ENUMS = {"Enum", "StrEnum", "IntEnum"}
HOLDERS = {"dict", "frozenset", "list", "set", "tuple", "Callable", "Iterable", "Iterator",
           "Mapping", "Sequence"}


@cache
def code() -> tuple[tuple[Path, ast.Module], ...]:
    """Every module of engine and hooks with its syntax tree."""
    return tuple((path, parsed(text)) for path, text in files_of("engine", "hooks"))


def twins(trees: Iterable[ast.Module]) -> set[str]:
    """The names of functions of modules that have another's arguments and body."""
    found = defaultdict(list)
    for tree in trees:
        for node in tree.body:
            if isinstance(node, ast.FunctionDef):
                body = node.body[ast.get_docstring(node) is not None:]
                found[ast.dump(node.args) + "".join(map(ast.dump, body))].append(node.name)
    return {name for names in found.values() if len(names) > 1 for name in names}


def test_no_two_functions_have_one_body():
    assert twins(tree for _, tree in code()) == set(ALIKE)


def test_a_second_function_of_one_body_is_noticed():
    one = 'def root(side):\n    """Root."""\n    return side * side\n'
    other = "def _root(side):\n    return side * side\n"
    assert twins([ast.parse(one), ast.parse(other)]) == {"root", "_root"}
    assert not twins([ast.parse(one), ast.parse(other.replace("* side", "+ side"))])


# Methods with one body, each pair with what keeps it apart; the list only shrinks.
METHODS_ALIKE = {
    "Term._work_out", "Noted._work_out",  # the value of what is inside: expressions have no base
    "PickUp.ratio", "Quantity.value",  # the value of `made`: a rate, and a measure
    "Hem.height", "Rib.height", "Hem.depth", "Rib.depth",  # feet of other fields
    "HeldRows.held", "HeldShoulder.stitches",  # the sum of `steps`: of a neck, of a shoulder
}


def twin_methods(trees: Iterable[ast.Module]) -> set[str]:
    """The methods, as "Class.method", that have another's arguments and body."""
    found = defaultdict(list)
    for node in (each for tree in trees for each in ast.walk(tree)):
        for part in node.body if isinstance(node, ast.ClassDef) else ():
            if isinstance(part, ast.FunctionDef) and (
                    body := part.body[ast.get_docstring(part) is not None:]):
                found[ast.dump(part.args) + "".join(map(ast.dump, body))].append(
                    f"{node.name}.{part.name}")
    return {name for names in found.values() if len(names) > 1 for name in names}


def test_no_more_methods_have_one_body():
    assert twin_methods(tree for _, tree in code()) == METHODS_ALIKE


def test_a_second_method_of_one_body_is_noticed():
    one = ast.parse("class Raglan:\n    def slopes(self):\n        return self.body, self.arm\n")
    other = ast.parse("class Saddle:\n    def slopes(self):\n        return self.body, self.arm\n")
    base = ast.parse("class Saddle(Raglan):\n    top = 1\n")
    assert twin_methods([one, other]) == {"Raglan.slopes", "Saddle.slopes"}
    assert not twin_methods([one, base])


def called(node: ast.expr) -> str:
    """The last name of `Position` or `steps.Position`."""
    return node.id if isinstance(node, ast.Name) else getattr(node, "attr", "")


def members(tree: ast.Module) -> Iterator[tuple[str, str]]:
    """Every enumeration of a module, member by member."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef) and ENUMS & {called(base) for base in node.bases}:
            for line in node.body:
                if isinstance(line, ast.Assign) and isinstance(line.targets[0], ast.Name):
                    yield node.name, line.targets[0].id


def not_values(tree: ast.Module) -> set[int]:
    """The expressions that name types: they read no member."""
    types: list[ast.AST] = []
    for node in ast.walk(tree):
        types += [found for field in ("annotation", "returns")
                  if isinstance(found := getattr(node, field, None), ast.AST)]
        if isinstance(node, ast.Subscript) and called(node.value) in HOLDERS:
            types.append(node.slice)
    return {id(inner) for outer in types for inner in ast.walk(outer)}


def idle(trees: Iterable[ast.Module]) -> set[str]:
    """The members that nothing names, of enumerations that nothing takes as a whole.

    One that is read by its value or gone through member by member is taken as a whole.
    """
    kept = list(trees)
    enums = {name for tree in kept for name, _ in members(tree)}
    named, whole = set(), set()
    for tree in kept:
        types, bases = not_values(tree), set()
        for node in ast.walk(tree):
            if isinstance(node, ast.Attribute) and called(node.value) in enums:
                named.add((called(node.value), node.attr))
                bases.add(id(node.value))
        whole |= {called(node) for node in ast.walk(tree)
                  if isinstance(node, ast.Name | ast.Attribute) and called(node) in enums
                  and id(node) not in bases | types}
    return {f"{enum}.{member}" for tree in kept for enum, member in members(tree)
            if enum not in whole and (enum, member) not in named}


def test_every_member_of_an_enumeration_is_used():
    assert not idle(tree for _, tree in code())


def test_an_idle_member_is_noticed():
    kept = "from enum import Enum\n\nclass Place(Enum):\n    BACK = 'back'\n    UPPER = 'upper'\n"
    asked = "def made(at: Place) -> bool:\n    return at is Place.BACK\n"
    assert idle([ast.parse(kept), ast.parse(asked)]) == {"Place.UPPER"}
    assert not idle([ast.parse(kept), ast.parse(asked + "\nread = Place('upper')\n")])
    assert not idle([ast.parse(kept), ast.parse(asked.replace("Place.BACK", "Place.UPPER")),
                     ast.parse(asked)])


def names_twice(paths: Iterable[Path]) -> set[str]:
    """The names that more than one module has."""
    names = Counter(path.stem for path in paths)
    return {name for name, times in names.items() if times > 1 and name != "__init__"}


def test_a_module_has_a_name_that_no_other_has():
    """A name says which thing is in a module, not only in which folder: `plan/pockets.py` counts
    pockets, and `words/pocket_instructions.py` has the words of their steps."""
    assert not names_twice(path for path, _ in code())


def test_a_second_module_of_one_name_is_noticed():
    paths = [Path("plan/zips.py"), Path("words/zips.py"), Path("plan/__init__.py"),
             Path("words/__init__.py"), Path("plan/band.py")]
    assert names_twice(paths) == {"zips"}
    assert not names_twice(paths[1:])


def types_of(tree: ast.Module) -> Iterator[str]:
    """The names that a module gives to types: its classes, aliases and new types."""
    for node in tree.body:
        name, value = "", None
        if isinstance(node, ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            name, value = node.targets[0].id, node.value
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            name, value = node.target.id, node.value
        of_variable = isinstance(value, ast.Call) and called(value.func) == "TypeVar"
        if re.fullmatch(r"[A-Z]\w*[a-z]\w*", name) and not of_variable:
            yield name


def shared_names(trees: Iterable[ast.Module]) -> set[str]:
    """The names that two modules give to types of theirs."""
    names = [name for tree in trees for name in types_of(tree)]
    return {name for name, times in Counter(names).items() if times > 1}


def test_a_type_has_a_name_that_no_other_has():
    """One name for one thing: a reader who meets it knows which type it is."""
    assert shared_names(tree for _, tree in code()) == set(NAMED_ALIKE)


@pytest.mark.parametrize("second", [
    "Part = tuple[int, int]", "Part: TypeAlias = tuple[int, int]", 'Part = NewType("Part", int)'])
def test_a_second_type_of_one_name_is_noticed(second: str):
    one = ast.parse("class Part:\n    of = 1\n")
    assert shared_names([one, ast.parse(second)]) == {"Part"}
    assert not shared_names([one, ast.parse(second.replace("Part", "BandPart"))])
    assert not shared_names([one, ast.parse('PARTS = 1\nPart = TypeVar("Part")\n')])


def test_a_second_class_of_one_name_is_noticed():
    one, other = ast.parse("class Part:\n    of = 1\n"), ast.parse("class Part:\n    book = 2\n")
    assert shared_names([one, other]) == {"Part"}
    assert not shared_names([one, ast.parse("class BandPart:\n    of = 1\n")])
