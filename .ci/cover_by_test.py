"""A plugin for pytest: which lines of the engine each test runs, and how long it takes.

    pytest -n 0 -p cover_by_test --cover-by-test FILE

mutants.py chooses the tests of a mutant by it. FILE is written as JSON: "lines" has by module and
line the numbers of the tests that run it; "tests" their names, seconds of processor (those of
processes that they start too) and shared fixtures; "fixtures" the seconds of those. What a shared
fixture runs counts for every test that has it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from coverage import Coverage, CoverageData

FIXTURE = "fixture "


def pytest_addoption(parser: pytest.Parser) -> None:
    """Name the option."""
    parser.addoption("--cover-by-test", type=Path, required=True)


class ByTest:
    """Switches the context of the measuring with each test and each shared fixture."""

    def __init__(self, out: Path) -> None:
        self.out = out
        self.tests: dict[str, tuple[float, list[str]]] = {}
        self.fixtures: dict[str, float] = {}
        engine = Path("engine").resolve()
        self.coverage = Coverage(data_file=None, include=[f"{engine}/*"], config_file=False)
        self.coverage.start()
        self.context, self.shared = "", 0.0

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
        before, self.shared = seconds_used(), 0.0
        with self.within(item.nodeid):
            yield
        names: list[str] = getattr(item, "fixturenames", [])
        self.tests[item.nodeid] = (seconds_used() - before - self.shared, names)

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
        """Write what was found."""
        self.coverage.stop()
        data = self.coverage.get_data()
        tests = [(name, round(seconds, 3), [each for each in fixtures if each in self.fixtures])
                 for name, (seconds, fixtures) in self.tests.items()]
        number: dict[str, list[int]] = {}
        for at, (test, _, fixtures) in enumerate(tests):
            for context in [test, *(FIXTURE + each for each in fixtures)]:
                number.setdefault(context, []).append(at)
        lines = {Path(name).relative_to(Path.cwd()).as_posix(): by_line(data, name, number)
                 for name in data.measured_files()}
        self.out.write_text(json.dumps(
            {"tests": tests, "fixtures": self.fixtures, "lines": lines}), encoding="utf-8")


def seconds_used() -> float:
    """The seconds of processor so far: other work on the machine lengthens none of them."""
    return sum(os.times()[:4])


def by_line(data: CoverageData, name: str, number: dict[str, list[int]]) -> dict[int, list[int]]:
    """The numbers of the tests that run each line of a file; none for what runs at its import."""
    return {line: sorted({at for context in contexts for at in number.get(context, [])})
            for line, contexts in data.contexts_by_lineno(name).items()}


def pytest_configure(config: pytest.Config) -> None:
    """Begin before the tests are collected, so that what runs at an import is measured too."""
    config.pluginmanager.register(ByTest(config.getoption("--cover-by-test")))
