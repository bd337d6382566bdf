"""Chooses the tests of a mutant by what cover_by_test.py measured."""

from __future__ import annotations

import ast
import json
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from cover_by_test import TEXT
from mutant_drawing import ROOT, Mutant

# Seconds of tests for one mutant, as they took while they were measured: first, and altogether.
FIRST, AT_MOST = 8.0, 40.0
LETTERS = re.compile(r"[a-z]{4,}")  # a word that is long enough to tell
OWN_FUNCTION = 4  # how many times as much a line of the mutant's function counts as one beside it
Stages = tuple[list[str], list[str], list[str]]
Test = tuple[str, float, list[str]]  # name, seconds, the fixtures it shares


@dataclass(frozen=True, slots=True)
class Found:
    """The tests that were found for a mutant: the nearer ones are tried first."""

    running: list[Test] = field(default_factory=list)  # they run its statement
    alike: list[Test] = field(default_factory=list)  # not measured, of functions that run it
    beside: list[Test] = field(default_factory=list)  # others of their files
    of_module: list[Test] = field(default_factory=list)  # they run any of its module
    of_folder: list[Test] = field(default_factory=list)  # they run any of its folder
    of_text: list[Test] = field(default_factory=list)  # they read its text
    shares: dict[str, float] = field(default_factory=dict)  # how much of its lines each test has
    words: frozenset[str] = frozenset()  # of its module's name

    def ranked(self, about: range | None) -> list[Test]:
        """All of them in order.

        What runs once, when the module is imported, has the tests that run any of the module, or
        of its folder where the module only declares. So has what no measured test runs: an import
        may run it, or a test of a function that has many. The ones beside are there because tests
        of one file may keep for each other what they made. First come files and cases that are
        called as the module is: of a law on every form, the case of the form.
        """
        if about is None or not self.running:
            return ranks(self.of_module or self.of_folder)
        nearer = ranks(self.running, self.shares) + ranks(self.alike) + ranks(self.beside)
        called = [test for test in nearer if self.words & words_of(test)]
        return called + [test for test in nearer if test not in called]


def lines_about(text: str, line: int) -> range | None:
    """The lines of the statement that a line is in, without its body; None outside of functions."""
    about, is_inside = range(line, line + 1), False
    for node in ast.walk(ast.parse(text)):  # from the outside in
        if isinstance(node, ast.stmt) and node.lineno <= line <= (node.end_lineno or 0):
            body = getattr(node, "body", None)
            end = body[0].lineno if isinstance(body, list) else (node.end_lineno or 0) + 1
            if isinstance(node, ast.FunctionDef) and line >= node.body[0].lineno:
                is_inside = True
            if line < max(end, node.lineno + 1):
                about = range(node.lineno, max(end, node.lineno + 1))
    return about if is_inside else None


def function_about(text: str, line: int) -> range:
    """The lines of the innermost function that a line is in; none outside of functions."""
    about = range(0)
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef) and node.lineno <= line <= (node.end_lineno or 0):
            about = range(node.lineno, (node.end_lineno or 0) + 1)
    return about


def shares(files: Iterable[dict[str, Any]], mutant: Mutant) -> dict[str, float]:
    """How much of the lines of a mutant's module each test has: a line that many tests run counts
    little for each of them, and one of the mutant's function more than another."""
    text = (ROOT / mutant.path).read_text(encoding="utf-8")
    own = function_about(text, mutant.line)
    found: dict[int, list[str]] = defaultdict(list)
    for one in files:
        for line, numbers in one["lines"].get(mutant.path, {}).items():
            if int(line) != TEXT:
                found[int(line)] += [one["tests"][number][0] for number in numbers]
    share: dict[str, float] = defaultdict(float)
    for line, names in found.items():
        for name in names:
            share[name] += (OWN_FUNCTION if line in own else 1) / len(names)
    return share


def choose(mutants: Iterable[Mutant], measured: Path) -> dict[Mutant, Stages]:
    """The tests of each mutant, in the order to try them: first some, then the rest of those that
    run it, and then those that read its text, for which the text has to be changed."""
    about = {mutant: lines_about((ROOT / mutant.path).read_text(encoding="utf-8"), mutant.line)
             for mutant in mutants}
    found = {mutant: Found(words=frozenset(LETTERS.findall(Path(mutant.path).stem)))
             for mutant in about}
    fixtures: dict[str, float] = {}
    files = [json.loads(path.read_text(encoding="utf-8"))
             for path in sorted(measured.glob("*.json"))]
    for one in files:
        for name, seconds in one["fixtures"].items():
            fixtures[name] = max(seconds, fixtures.get(name, 0.0))
        for mutant, its in found.items():
            add(its, one, mutant, about[mutant])
    for mutant, its in found.items():
        its.shares.update(shares(files, mutant) if its.running else {})
        for one in [] if its.running else files:
            add_around(its, one, mutant)
    return {mutant: (*in_two(its.ranked(about[mutant]), fixtures),
                     in_time(ranks(its.of_text), fixtures, AT_MOST))
            for mutant, its in found.items()}


def add(found: Found, measured: dict[str, Any], mutant: Mutant, about: range | None) -> None:
    """Add what one file of tests has for a mutant."""
    tests: list[Test] = measured["tests"]
    found.of_text.extend(tests[number] for number in
                         measured["lines"].get(mutant.path, {}).get(str(TEXT), []))
    if about is None:
        return
    numbers = running(measured["lines"], mutant.path, about)
    functions = {function_of(tests[number]) for number in numbers}
    for number, test in enumerate(tests if numbers else []):
        is_alike = number not in numbers and function_of(test) in functions
        to = (found.running if number in numbers else found.alike if is_alike else found.beside)
        to.append(test)


def add_around(found: Found, measured: dict[str, Any], mutant: Mutant) -> None:
    """Add what one file of tests has for the module of a mutant, and for its folder."""
    for start, to in ((mutant.path, found.of_module),
                      (f"engine/{mutant.folder}/", found.of_folder)):
        numbers = running(measured["lines"], start, None)
        functions = {function_of(measured["tests"][number]) for number in numbers}
        to += [test for number, test in enumerate(measured["tests"])
               if number in numbers or function_of(test) in functions]


def running(lines: dict[str, dict[str, list[int]]], start: str, about: range | None) -> list[int]:
    """The numbers of the tests that run some lines, or any, of the modules that begin so."""
    return sorted({number for path, tests_by_line in lines.items() if path.startswith(start)
                   for line, tests in tests_by_line.items()
                   if int(line) != TEXT and (about is None or int(line) in about)
                   for number in tests})


def words_of(test: Test) -> set[str]:
    """The words that a test's file is called by, and its case where it has one."""
    file, _, name = test[0].partition("::")
    return set(LETTERS.findall(Path(file).stem) + LETTERS.findall(name.partition("[")[2]))


def function_of(test: Test) -> str:
    """The function of a test."""
    return test[0].partition("[")[0]


def ranks(tests: list[Test], shares: Mapping[str, float] | None = None) -> list[Test]:
    """Tests in the order to try them: one of each function before a second, and first what takes
    the least time for its share, or the least time alone where no shares are known.

    By time alone, a line that every garment runs was never tried by the one test that is about it,
    where some hundred quicker ones run it too.
    """
    before: Counter[str] = Counter()
    ranked: dict[int, list[Test]] = defaultdict(list)
    for test in sorted(tests, key=lambda test: test[1] / (shares or {}).get(test[0], 1.0)):
        ranked[before[function_of(test)]].append(test)
        before[function_of(test)] += 1
    return [test for turn in sorted(ranked) for test in ranked[turn]]


def in_two(tests: list[Test], fixtures: dict[str, float]) -> tuple[list[str], list[str]]:
    """The names of the tests that are tried first, and of those that are tried after them."""
    first = in_time(tests, fixtures, FIRST)
    return first, [name for name in in_time(tests, fixtures, AT_MOST) if name not in first]


def in_time(tests: list[Test], fixtures: dict[str, float], at_most: float) -> list[str]:
    """The names of the first tests that take at most so many seconds, with their fixtures."""
    chosen: list[str] = []
    made: set[str] = set()
    total = 0.0
    for name, seconds, needed in tests:
        more = seconds + sum(fixtures[each] for each in set(needed) - made)
        if total + more <= at_most or not chosen:
            total += more
            made.update(needed)
            chosen.append(name)
    return chosen
