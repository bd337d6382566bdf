"""How property tests draw their examples, the same every time, and which files are run first."""

from __future__ import annotations

import gc
import os
import re
from collections import defaultdict
from hashlib import sha256
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadFileScheduling

from tests import forking, turns, whole_collection

# A fixed sample keeps a run's verdict the same on every machine; WALEBOOK_LONG_RUN draws anew.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None,
                          max_examples=50)
settings.register_profile("long", deadline=None, max_examples=2000)
gc.set_threshold(forking.SELDOM)
settings.load_profile("long" if os.environ.get("WALEBOOK_LONG_RUN") else "fixed")

# Files of tests/reader that look at what was read of every page: one part, so that it is read once.
READ_ONCE = frozenset(f"tests/reader/test_{name}.py" for name in (
    "pages", "printed_sums", "trial_pieces", "ways"))

# Files of tests/laws that look at the syntax trees of all modules: these are parsed once.
PARSED_ONCE = frozenset(f"tests/laws/test_{name}.py" for name in (
    "findings_whole", "house", "kinds_declared", "light", "reached", "reading_decides_nothing",
    "said_once", "sentences_in_words"))

# What takes longest (2026-12-01, by the part, with turns), the longest first:
# a process that begins one of them when the others have ended is waited for. Files that wait for a
# browser stand between those that compute.
LONGEST = [f"tests/{name}" for name in (
    "reader", "site/test_whole_site.py", "laws/test_keys_drawn.py", "site/test_preview.py", "laws",
    "site/test_built_site.py", "laws/test_sheets.py", "site/test_offline.py",
    "reader/test_spoiled.py", "site/test_garment_pages.py", "laws/test_own_gauge.py",
    "site/test_paper.py", "laws/test_schedules.py", "laws/test_mutants.py",
    "site/test_at_the_bench.py", "sources/test_page_examples.py", "site/test_bench_screens.py",
    "sources/test_every_code.py", "site/test_whole_pages.py", "sources/test_keys_heard.py",
    "site/test_cache.py", "laws/test_named_if_had.py", "site/test_same_bytes.py",
    "laws/test_expressions.py", "site/test_places_kept.py", "laws/test_texts_steer_nothing.py",
    "site/test_offline_failures.py", "laws/test_given_counts.py", "sources/test_compare_engines.py",
    "laws/test_forking.py")]


def part_of(nodeid: str) -> str:
    """The tests that one process runs together: a file's, or those of several."""
    name = nodeid.split("::")[0]
    return ("tests/reader" if name in READ_ONCE else "tests/laws" if name in PARSED_ONCE
            else name)


def pytest_addoption(parser: pytest.Parser) -> None:
    """Name the options."""
    forking.add_option(parser)
    parser.addoption("--no-turns", action="store_true",
                     help=f"run all, not one in {turns.ONE_IN} tests of the longest files")


@pytest.hookimpl(tryfirst=True)
def pytest_runtestloop(session: pytest.Session) -> bool | None:
    """Run the tests in forks where the option asks for them."""
    forks = session.config.getoption("--forks")
    if not forks or session.testsfailed or session.config.option.collectonly:
        return None
    whole_collection.prove_beforehand()
    forking.run_in_forks(session, forking.parts_of(session.items, part_of), forks)
    return True


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> LoadFileScheduling | None:
    """Share out whole parts between processes."""
    return Parts(config, log) if config.getvalue("dist") == "loadfile" else None


class Parts(LoadFileScheduling):
    """Shares out parts instead of files."""

    def _split_scope(self, nodeid: str) -> str:
        return part_of(nodeid)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter,
                            config: pytest.Config) -> None:
    """Say what was drawn, so that it can be drawn again."""
    if config.args_source is pytest.Config.ArgsSource.TESTPATHS and not config.option.no_turns:
        terminalreporter.write_line(
            f"One in {turns.ONE_IN} tests of the {len(turns.FILES)} files that take longest, "
            f"drawn by commit {turns.commit()[:12] or '(none)'}; all of them: --no-turns")


def left_to_the_long_run(items: list[pytest.Item]) -> list[pytest.Item]:
    """What the marks `sampled` leave out: of each test with such a mark all but so many cases.

    Which cases are kept is drawn by their names, so that it is the same on every machine. Where the
    mark names parameters (`each`), every value of these is kept with one case at least.
    """
    cases: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        if item.get_closest_marker("sampled"):
            cases[item.nodeid.partition("[")[0]].append(item)
    left = []
    for of_a_test in cases.values():
        mark = of_a_test[0].get_closest_marker("sampled")
        assert mark is not None
        of_a_test.sort(key=lambda item: sha256(item.nodeid.encode()).digest())
        first, rest = firsts(of_a_test, mark.kwargs.get("each", ()))
        left += rest[max(mark.args[0] - len(first), 0):]
    return left


def firsts(cases: list[Any], each: tuple[str, ...]) -> tuple[list[Any], list[Any]]:
    """The cases that have a value of one of these parameters first, and the rest."""
    seen: set[tuple[str, str]] = set()
    parted: tuple[list[Any], list[Any]] = [], []
    for case in cases:
        values = {(name, str(case.callspec.params[name])) for name in each}
        parted[values <= seen].append(case)
        seen |= values
    return parted


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Keep a sample of the cases that are many, and put the longest parts first. Refuse a test
    whose name has an address in it: each process would give it another name."""
    every = {"WALEBOOK_LONG_RUN", "WALEBOOK_EVERY_CASE"} & os.environ.keys()
    if not every and not any("::" in one for one in config.args):
        left = set(left_to_the_long_run(items))
        if config.args_source is pytest.Config.ArgsSource.TESTPATHS and not config.option.no_turns:
            left.update(turns.not_now([item for item in items if item not in left],
                                      turns.commit()))
        config.hook.pytest_deselected(items=[item for item in items if item in left])
        items[:] = [item for item in items if item not in left]
    first = {name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: first.get(part_of(item.nodeid), len(first)))
    wrong = [item.nodeid for item in items if re.search(r" at 0x[0-9a-f]+", item.nodeid)]
    if wrong:
        raise pytest.UsageError(f"Give these tests ids that are always the same: {wrong[:3]}")
