"""A plugin for pytest: which lines of the engine each test runs, and how long it takes.

    pytest -n 0 -p cover_by_test --cover-by-test FOLDER [FILE ...]

mutants.py chooses the tests of a mutant by it. To be cheap, it runs at most FEW tests of a function
that has many (but all that are marked "single"), and at most FEW examples of a law. For each file
of tests it writes a file of JSON as soon as the last of them has run, so that a run that is broken
off is not lost: "tests" has names, seconds of processor and shared fixtures of those that passed,
and of those that were left out, whose seconds are guessed; "fixtures" the seconds of those; "lines"
by module and line the numbers of the tests that run it. What a shared fixture runs counts for every
test that has it. Under line TEXT of a module stand the tests that read its text: they run no line
of it, and may notice a change for all that.
"""

from __future__ import annotations

import json
import os
import sys
from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from coverage import Coverage
from hypothesis import settings

FIXTURE = "fixture "
FEW = 2
TEXT = 0
ENGINE = Path("engine").resolve()
Lines = dict[str, dict[int, set[str]]]  # module, line, contexts


def pytest_addoption(parser: pytest.Parser) -> None:
    """Name the option."""
    parser.addoption("--cover-by-test", type=Path, required=True)


class ByTest:
    """Switches the context of the measuring with each test and each shared fixture."""

    def __init__(self, out: Path) -> None:
        self.out = out
        self.file = ""
        self.tests: dict[str, tuple[float, list[str]]] = {}
        self.left_out: dict[str, list[tuple[str, list[str]]]] = defaultdict(list)
        self.failed: set[str] = set()
        self.fixtures: dict[str, float] = {}
        self.of_fixtures: dict[str, dict[int, set[str]]] = {}
        self.context, self.shared = "", 0.0
        self.read: dict[str, set[str]] = defaultdict(set)
        self.coverage = self.begun()
        sys.addaudithook(self.opened)

    def opened(self, event: str, arguments: tuple[Any, ...]) -> None:
        """Note which test opens a module of the engine."""
        if event == "open" and self.context and str(arguments[0]).endswith(".py"):
            path = Path(arguments[0])
            if ENGINE in path.parents or ENGINE in path.resolve().parents:
                self.read[path.resolve().relative_to(ENGINE.parent).as_posix()].add(self.context)

    def begun(self) -> Coverage:
        """Begin to measure, with nothing found yet."""
        coverage = Coverage(data_file=None, include=[f"{ENGINE}/*"], config_file=False)
        coverage.start()
        coverage.switch_context(self.context)
        return coverage

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Keep at most FEW tests of a function, the first and the last among them.

        The longest files, which come first elsewhere, come last: what is measured by then is kept.
        """
        by_function: dict[str, list[pytest.Item]] = defaultdict(list)
        for item in items:
            by_function[function_of(item.nodeid)].append(item)
        kept: set[pytest.Item] = set()
        for function, alike in by_function.items():
            step = max(len(alike) - 1, 1)
            is_whole = any(item.get_closest_marker("single") for item in alike)
            chosen = alike if is_whole else alike[::step][:FEW]
            kept.update(chosen)
            self.left_out[function] = [(item.nodeid, names_of(item))
                                       for item in alike if item not in chosen]
        files = list(dict.fromkeys(file_of(item.nodeid) for item in items))
        items[:] = sorted((item for item in items if item in kept),
                          key=lambda item: -files.index(file_of(item.nodeid)))

    @contextmanager
    def within(self, context: str) -> Iterator[None]:
        """Give to a context what runs in the meantime."""
        outer, self.context = self.context, context
        self.coverage.switch_context(context)
        yield
        self.context = outer
        self.coverage.switch_context(outer)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Measure a test."""
        if file_of(item.nodeid) != self.file:
            self.write()
            self.file = file_of(item.nodeid)
        more = fewer_examples(item)
        before, self.shared = seconds_used(), 0.0
        with self.within(item.nodeid):
            yield
        used = seconds_used() - before - self.shared
        self.tests[item.nodeid] = (used * more, names_of(item))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Remember what fails: it tells nothing about a mutant."""
        if not report.passed:
            self.failed.add(report.nodeid)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_fixture_setup(self, fixturedef: pytest.FixtureDef[object]) -> Iterator[None]:
        """Measure a fixture that several tests share."""
        if fixturedef.scope == "function":
            yield
            return
        before, inner = seconds_used(), self.shared
        with self.within(FIXTURE + fixturedef.argname):
            yield
        seconds = seconds_used() - before
        self.fixtures[fixturedef.argname] = seconds - (self.shared - inner)
        self.shared = inner + seconds

    def pytest_sessionfinish(self) -> None:
        """Write what was found last."""
        self.write()
        self.coverage.stop()

    def write(self) -> None:
        """Write what was found in a file of tests, and forget it."""
        if not self.file:
            return
        lines = self.lines()
        tests = [(name, round(seconds, 3), [each for each in fixtures if each in self.fixtures])
                 for name, (seconds, fixtures) in self.tests.items() if name not in self.failed]
        number: dict[str, list[int]] = defaultdict(list)
        for at, (test, _, fixtures) in enumerate(tests):
            for context in [test, *(FIXTURE + each for each in fixtures)]:
                number[context].append(at)
        mean = {function_of(name): seconds for name, seconds, _ in tests}
        tests += [(name, mean[function], [each for each in fixtures if each in self.fixtures])
                  for function in mean for name, fixtures in self.left_out[function]]
        found = {"tests": tests, "fixtures": self.fixtures, "lines": {
            path: {line: sorted({at for context in contexts for at in number[context]})
                   for line, contexts in by_line.items()} for path, by_line in lines.items()}}
        partly = self.out / "partly"
        partly.write_text(json.dumps(found, separators=(",", ":")), encoding="utf-8")
        partly.rename(self.out / name_of(self.file))
        self.tests = {}

    def lines(self) -> Lines:
        """Which contexts run which line; those of fixtures stay for the files that follow."""
        self.coverage.stop()
        data = self.coverage.get_data()
        self.coverage = self.begun()
        found: Lines = {}
        for name in data.measured_files():
            path = Path(name).relative_to(ENGINE.parent).as_posix()
            kept = self.of_fixtures.setdefault(path, {})
            found[path] = {}
            for line, contexts in data.contexts_by_lineno(name).items():
                shared = {each for each in contexts if each.startswith(FIXTURE)}
                if shared:
                    kept.setdefault(line, set()).update(shared)
                found[path][line] = set(contexts)
        for path, contexts in self.read.items():
            found.setdefault(path, {})[TEXT] = contexts
        self.read = defaultdict(set)
        for path, by_line in self.of_fixtures.items():
            for line, shared in by_line.items():
                found.setdefault(path, {}).setdefault(line, set()).update(shared)
        return found


def fewer_examples(item: pytest.Item) -> float:
    """Have a law take at most FEW examples; return how many times as many it has."""
    law: Any = getattr(item, "obj", None)
    law = getattr(law, "__func__", law)
    if not getattr(law, "is_hypothesis_test", False):
        return 1.0
    own: settings = law._hypothesis_internal_use_settings
    few = min(own.max_examples, FEW)
    law._hypothesis_internal_use_settings = settings(own, max_examples=few)
    return own.max_examples / few


def function_of(nodeid: str) -> str:
    """The function of a test, without its parameters."""
    return nodeid.partition("[")[0]


def file_of(nodeid: str) -> str:
    """The file of a test."""
    return nodeid.partition("::")[0]


def name_of(file: str) -> str:
    """Where the findings of a file of tests are written."""
    return file.replace("/", ".") + ".json"


def names_of(item: pytest.Item) -> list[str]:
    """The fixtures of a test."""
    names: list[str] = getattr(item, "fixturenames", [])
    return names


def seconds_used() -> float:
    """The seconds of processor so far: other work on the machine lengthens none of them."""
    return sum(os.times()[:4])


def pytest_configure(config: pytest.Config) -> None:
    """Begin before the tests are collected, so that what runs at an import is measured too."""
    config.pluginmanager.register(ByTest(config.getoption("--cover-by-test")))
