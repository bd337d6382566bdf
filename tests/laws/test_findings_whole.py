"""What a finding says is whole: what was found, what was expected, and sentences with a way out.

The rule is the project's promise to designers: a finding says what is wrong, what was expected and
what to write instead. It is held to every text of the engine that goes into a finding.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

import pytest

from tests.laws.calls import parsed

ENGINE = Path(__file__).parents[2] / "engine"
FIELDS = ("found", "expected", "remedy")
Ends = tuple[str | None, str | None]  # how a text begins and ends; None where a value stands there


def ends(node: ast.expr, named: Mapping[str, ast.expr]) -> Iterator[Ends]:
    """How each text that an expression may come to begins and ends, by the constants' names too."""
    match node:
        case ast.Name(id=name) if name in named:
            yield from ends(named[name], {})
        case ast.Constant(value=str(text)):
            yield text, text
        case ast.JoinedStr(values=parts):
            texts = [part.value if isinstance(part, ast.Constant) else None for part in parts]
            yield (str(texts[0]) if texts[0] is not None else None,
                   str(texts[-1]) if texts[-1] is not None else None) if texts else ("", "")
        case ast.IfExp(body=one, orelse=other):
            yield from ends(one, named)
            yield from ends(other, named)
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            yield from ((begins, stops) for begins, _ in ends(left, named)
                        for _, stops in ends(right, named))
        case _:
            yield None, None


def takers(sources: Iterable[str]) -> dict[str, list[str]]:
    """The parameters, in order, of each function that takes parts of a finding, by its name.

    A class has those of its `__init__`; of a name with two meanings nothing is known.
    """
    found: dict[str, list[str]] = {}
    twice = set()
    for tree in map(parsed, sources):
        made = {id(each): of.name for of in ast.walk(tree) if isinstance(of, ast.ClassDef)
                for each in of.body}
        for each in ast.walk(tree):
            if isinstance(each, ast.FunctionDef) and {a.arg for a in each.args.args} & {*FIELDS}:
                names = [a.arg for a in each.args.args if a.arg != "self"]
                name = made[id(each)] if each.name == "__init__" else each.name
                twice |= {name} if found.setdefault(name, names) != names else set()
    return {name: names for name, names in found.items() if name not in twice}


def constants(sources: Iterable[str]) -> dict[str, ast.expr]:
    """The texts that modules have a name for; none of a name with two meanings."""
    found: dict[str, ast.expr] = {}
    twice = set()
    for tree in map(parsed, sources):
        for each in tree.body:
            match each:
                case ast.Assign(targets=[ast.Name(id=name)], value=value) if name.isupper():
                    twice |= {name} if name in found else set()
                    found[name] = value
    return {name: value for name, value in found.items() if name not in twice}


def amiss(source: str, known: Mapping[str, list[str]] = {},
          named: Mapping[str, ast.expr] = {}) -> Iterator[str]:
    """What is no whole text in the findings that a module makes, with its line.

    Where an argument has no name, an empty one says that nothing was expected, or that all is said.
    """
    named = {**named, **constants([source])}
    for call in ast.walk(parsed(source)):
        if not isinstance(call, ast.Call):
            continue
        name = ast.unparse(call.func).rpartition(".")[2]
        told = [(each.arg, each.value) for each in call.keywords]
        for field, value in [*told, *zip(known.get(name, ()), call.args, strict=False)]:
            for begins, stops in ends(value, named) if field in FIELDS else ():
                is_none = begins == stops == "" and field != "found" and (field, value) not in told
                if (fault := fault_of(field, begins, stops)) and not is_none:
                    yield f"{value.lineno}: {field} {fault}"


def fault_of(field: str, begins: str | None, stops: str | None) -> str:
    """What is wrong with how a text begins or ends: "" where nothing is."""
    if begins == "" or stops == "":
        return "is empty"
    if (begins and begins[0] in " ,;:.") or (stops and stops[-1] in " ,;:"):
        return "is a part of a sentence"
    is_sentence = stops is None or stops[-1] in '.)"'
    if field == "remedy" and ((begins and begins[0].islower()) or not is_sentence):
        return "is no sentence"
    return "ends like a sentence" if field != "remedy" and stops and stops[-1] == "." else ""


def test_each_finding_of_the_engine_says_all_that_it_should() -> None:
    modules = {path: path.read_text(encoding="utf-8") for path in sorted(ENGINE.glob("*/**/*.py"))}
    known, named = takers(modules.values()), constants(modules.values())
    assert known["fault"] == ["code", "place", "found", "expected", "remedy"]
    wrong = [f"{path.relative_to(ENGINE)}:{each}" for path, text in modules.items()
             for each in amiss(text, known, named)]
    assert not wrong, "\n".join(wrong)


def test_a_text_that_has_a_name_is_looked_at() -> None:
    line = 'note(at, found="a slip", remedy=CHECK)'
    assert not list(amiss(line, named=constants(['CHECK = "Check the figure."'])))
    assert list(amiss(line, named=constants(['CHECK = ""']))) == ["1: remedy is empty"]
    other = constants(['CHECK = "Check the figure."'])
    assert [each.partition(": ")[2] for each in amiss(f'CHECK = ""\n{line}', named=other)] == [
        "remedy is empty"]


@pytest.mark.parametrize(("line", "fault"), [
    ('error("a", at, found="a cord", expected="", remedy="Leave it out.")', "expected is empty"),
    ('error("a", at, found="a cord", remedy="" if fronts else "Leave it out.")', "remedy is empty"),
    ('note(at, found=f"{n} rows", expected="as many after, ", remedy="Write 2.")',
     "expected is a part of a sentence"),
    ('note(at, found=f" where {n} lie inside")', "found is a part of a sentence"),
    ('note(at, found="a slip", remedy="" "of them.")', "remedy is no sentence"),
    ('note(at, found="a slip", remedy="Write 2")', "remedy is no sentence"),
    ('note(at, found="a slip.")', "found ends like a sentence"),
    ('findings.warn("a", at, "", "")', "found is empty"),
    ('findings.warn("a", at, "rows", "2, ", "Write 2.")', "expected is a part of a sentence"),
])
def test_a_part_that_is_lost_is_seen(line: str, fault: str) -> None:
    known = {"warn": ["code", "place", "found", "expected", "remedy"]}
    assert [each.partition(": ")[2] for each in amiss(line, known)] == [fault]
    assert not list(amiss('note(at, found=f"{n} rows", expected="an even number of rows", '
                          'remedy=f"Write {n + 1}, or " + other)'))
