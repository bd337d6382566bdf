"""No function, class or table of the engine stands for the tests alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.laws.calls import ENTRIES, calls_of, files_of

FILES = files_of("engine", "hooks")
OF = "engine/markup/html.py"
ADDED = "\n\ndef idle_in_the_hold() -> int:\n    \"\"\"Nothing calls it.\"\"\"\n    return 1\n"
IDLE = "walebook.markup.html.idle_in_the_hold"


def idle(**added: str) -> set[str]:
    """What no source reaches, by name, with some texts added to the modules `html` and `policy`."""
    of = {Path(OF): added.get("html", ""), Path("hooks/policy.py"): added.get("policy", "")}
    return {str(name) for name in calls_of([(p, t + of.get(p, "")) for p, t in FILES]).unreached}


def test_nothing_lies_idle():
    """A new function needs a caller that a source reaches."""
    assert not idle()


def test_each_entry_is_there_and_has_no_caller_of_ours():
    """One that has got a caller is no entry any more."""
    calls = calls_of(FILES)
    assert calls.functions >= ENTRIES
    assert not {inner for name in calls.bodies for inner in calls.named_by(name)} & ENTRIES


def test_an_idle_function_is_found():
    assert idle(html=ADDED) == {IDLE}


@pytest.mark.parametrize("caller", [
    "\n\n_TABLE = {1: html.idle_in_the_hold}\n\n\ndef built() -> object:\n    return _TABLE\n",
    "\n\ndef built() -> object:\n    return html.idle_in_the_hold()\n"])
def test_what_the_hook_calls_is_not_idle(caller):
    """Directly or through a table."""
    assert not idle(html=ADDED, policy="\nfrom walebook.markup import html\n" + caller)
