"""No function of the engine stands for the tests alone, but those that wait for a key by name."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.laws.calls import Calls, calls_of, files_of
from tests.waiting import KEYS, WAITING

FILES = files_of("engine", "hooks")


@pytest.fixture(scope="module")
def calls() -> Calls:
    return calls_of(FILES)


def waiting(calls: Calls) -> set[str]:
    """The public functions that no source reaches."""
    return {str(name) for name in calls.unreached & calls.functions if name.public}


def test_what_no_source_reaches_waits_by_name(calls):
    """A new function needs a caller; one that has got a caller leaves the list."""
    assert waiting(calls) == set(WAITING)


def test_nothing_else_lies_idle(calls):
    """A table, class or private function that neither a source nor a waiting function needs."""
    needed = calls.from_these(n for n in calls.functions if str(n) in WAITING)
    assert not {str(name) for name in calls.unreached - needed}


def test_each_waits_for_a_kind_of_key():
    assert set(WAITING.values()) == set(KEYS)
    assert all(said.strip() for said in KEYS.values())


def test_each_is_tested_while_it_waits(calls):
    """By name in the tests, or by another that waits: else nothing holds it at all."""
    tests = "\n".join(text for _, text in files_of("tests") if "WAITING: dict" not in text)
    named = {n for n in calls.functions if str(n) in WAITING
             and (n.name.rpartition(".")[2] in tests)}
    assert {str(n) for n in calls.from_these(named)} >= set(WAITING)


ADDED = "\n\ndef idle_in_the_hold() -> int:\n    \"\"\"Nothing calls it.\"\"\"\n    return 1\n"


@pytest.mark.parametrize("module", ["engine/markup/html.py"])
def test_an_idle_function_is_found(module):
    spoiled = [(p, t + ADDED if p == Path(module) else t) for p, t in FILES]
    name = f"walebook.{module[7:-3].replace('/', '.')}.idle_in_the_hold"
    assert waiting(calls_of(spoiled)) - set(WAITING) == {name}


@pytest.mark.parametrize("caller", [
    "\n\n_TABLE = {1: charts.advise}\n\n\ndef built() -> object:\n    return _TABLE\n",
    "\n\ndef built() -> object:\n    return charts.advise({}, 1, ())\n"])
def test_a_caller_in_the_hook_ends_the_wait(caller):
    """Directly or through a table."""
    of = Path("hooks/policy.py")
    added = "\nfrom walebook.sizing import charts\n" + caller
    spoiled = [(p, t + added if p == of else t) for p, t in FILES]
    assert set(WAITING) - waiting(calls_of(spoiled)) == {"walebook.sizing.charts.advise"}
