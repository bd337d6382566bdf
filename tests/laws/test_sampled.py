"""The test command takes a sample of the cases that are many: which, is the same everywhere."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from tests import turns
from tests.conftest import left_to_the_long_run


class Case:
    """A case of a test, with or without the mark."""

    def __init__(self, nodeid: str, kept: int | None, **params: str) -> None:
        self.nodeid = nodeid
        self.callspec = SimpleNamespace(params=params)
        self.mark = None if kept is None else pytest.mark.sampled(kept, each=tuple(params)).mark

    def get_closest_marker(self, name: str) -> pytest.Mark | None:
        return self.mark if name == "sampled" else None


def left(cases: list[Any]) -> set[str]:
    return {case.nodeid for case in left_to_the_long_run(cases)}


def test_so_many_cases_are_kept_of_each_test_with_the_mark() -> None:
    one = [Case(f"tests/a.py::test_one[{n}]", 3) for n in range(20)]
    two = [Case(f"tests/a.py::test_two[{n}]", 5) for n in range(4)]
    rest = [Case(f"tests/a.py::test_all[{n}]", None) for n in range(20)]
    out = left([*one, *two, *rest])
    assert len(out) == 17
    assert out <= {case.nodeid for case in one}
    assert out == left([*rest, *reversed(one), *two])
    kept = [n for n, case in enumerate(one) if case.nodeid not in out]
    assert kept != [0, 1, 2]


def test_every_value_of_the_parameters_that_the_mark_names_is_kept() -> None:
    cases = [Case(f"tests/a.py::test_all[{form}-{rows}]", 12, form=form, rows=rows)
             for form in "abcdefghij" for rows in "uvwx"]
    out = left(cases)
    kept = [case for case in cases if case.nodeid not in out]
    assert len(kept) == 12
    assert {case.callspec.params["form"] for case in kept} == set("abcdefghij")
    assert {case.callspec.params["rows"] for case in kept} == set("uvwx")
    few = [Case(case.nodeid, 3, form=case.callspec.params["form"]) for case in cases]
    assert len(few) - len(left(few)) == 10


def test_each_commit_runs_an_eighth_of_the_longest_files_and_all_others() -> None:
    heavy, light = sorted(turns.FILES)[0], "tests/laws/test_sampled.py"
    cases = [Case(f"{file}::test_it[{n}]", None) for file in (heavy, light) for n in range(9)]
    runs = [{case.nodeid for case in cases} - {case.nodeid for case in turns.not_now(cases, at)}
            for at in ("a" * 40, "b" * 40)]
    for kept in runs:
        assert {case.nodeid for case in cases if case.nodeid.startswith(light)} <= kept
        assert len(kept) == 9 + 2
    assert runs[0] != runs[1]
    assert [case.nodeid for case in turns.not_now(cases, "a" * 40)] == [
        case.nodeid for case in turns.not_now(list(reversed(cases)), "a" * 40)]


def test_every_test_of_the_longest_files_has_its_turn() -> None:
    cases = [Case(f"{sorted(turns.FILES)[0]}::test_it[{n}]", None) for n in range(9)]
    had = {case.nodeid for at in range(60) for case in cases
           if case not in turns.not_now(cases, str(at))}
    assert had == {case.nodeid for case in cases}


def test_the_longest_files_are_there_and_builds_are_killed_at_every_commit() -> None:
    root = Path(__file__).parents[2]
    assert not {file for file in turns.FILES if not (root / file).is_file()}
    for begun in turns.EVERY_TIME:
        file, _, name = begun.partition("::")
        names = re.findall(rf"^def ({name}\w+)", (root / file).read_text("utf-8"), re.MULTILINE)
        cases = [Case(f"{file}::{one}", None) for one in (*names, *(f"test_{n}" for n in range(9)))]
        left = {case.nodeid for case in turns.not_now(cases, "a" * 40)}
        assert names and len(left) == 7 and not {f"{file}::{one}" for one in names} & left


def test_the_long_run_multiplies_the_examples_of_every_law() -> None:
    """A number that stands at a law by itself would hold in the long run too."""
    tests = Path(__file__).parents[1]
    bare = [f"{path.relative_to(tests)}:{node.value.lineno}"
            for path in sorted(tests.rglob("*.py")) if path.name != "conftest.py"
            for node in ast.walk(ast.parse(path.read_text("utf-8")))
            if isinstance(node, ast.keyword) and node.arg == "max_examples"
            and isinstance(node.value, ast.Constant)]
    assert not bare, bare
