"""Chooses the tests of a mutant by what cover_by_test.py measured."""

from __future__ import annotations

import ast
from collections import Counter
from typing import Any

from mutant_drawing import ROOT, Mutant

AT_MOST = 60.0  # seconds of tests for one mutant, as they took while they were measured
Test = tuple[str, float, list[str]]  # name, seconds, the fixtures it shares


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


def tests_of(mutant: Mutant, measured: dict[str, Any]) -> list[str]:
    """The tests that run its statement, then others of their files, as far as the time goes.

    What runs once, when the module is imported, has the tests that run any of the module, or of its
    folder where the module only declares. The others are there because tests of one file may keep
    for each other what they made.
    """
    about = lines_about((ROOT / mutant.path).read_text(encoding="utf-8"), mutant.line)
    numbers = running(measured["lines"], mutant.path, about)
    if about is None and not numbers:
        numbers = running(measured["lines"], f"engine/{mutant.folder}/", None)
    tests = measured["tests"]
    files = {file_of(tests[number]) for number in numbers}
    others = [test for number, test in enumerate(tests)
              if number not in numbers and file_of(test) in files]
    ranked = ranks([tests[number] for number in sorted(numbers)]) + ranks(others)
    return in_time(ranked, measured["fixtures"])


def running(lines: dict[str, dict[str, list[int]]], start: str, about: range | None) -> set[int]:
    """The numbers of the tests that run some lines, or any, of the modules that begin so."""
    return {number for path, tests_by_line in lines.items() if path.startswith(start)
            for line, tests in tests_by_line.items() if about is None or int(line) in about
            for number in tests}


def file_of(test: Test) -> str:
    """The file of a test."""
    return test[0].partition("::")[0]


def ranks(tests: list[Test]) -> list[Test]:
    """Tests in the order to try them: one of each function before a second, the quickest first."""
    before: Counter[str] = Counter()
    ranked: list[tuple[int, float, Test]] = []
    for test in sorted(tests, key=lambda test: test[1]):
        function = test[0].partition("[")[0]
        ranked.append((before[function], test[1], test))
        before[function] += 1
    return [test for *_, test in sorted(ranked)]


def in_time(tests: list[Test], fixtures: dict[str, float]) -> list[str]:
    """The names of the first tests that take at most AT_MOST seconds, with their fixtures."""
    chosen: list[str] = []
    made: set[str] = set()
    total = 0.0
    for name, seconds, needed in tests:
        more = seconds + sum(fixtures[each] for each in set(needed) - made)
        if total + more <= AT_MOST or not chosen:
            total += more
            made.update(needed)
            chosen.append(name)
    return chosen
