"""A plugin for pytest: collects tests once, and tries many mutants with them in forks of itself.

    pytest -n 0 -p tried_by_forking --mutants FILE --results FILE TESTS...

The mutants are JSON, one a line: "mark", "path", "code", "tests" in the order to run them, and
"reading", the tests that only read the module's text: they are given the changed one. Of
each, a line of JSON is written as soon as it is known: "mark", "came" and "by", the test that
failed. "came" is "killed", "out of time", "survived", or "not here" for a change of what runs when
a module is imported.
"""

from __future__ import annotations

import builtins
import gc
import io
import json
import os
import resource
import time
from collections.abc import Mapping
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from typing import Any

import pytest
import walebook
from changed_code import Functions, change, functions_of

PROCESSES = 2
OUT_OF_TIME = 240  # seconds of processor for the tests of one mutant
KILLED, NOT_HERE = 1, 2


def pytest_addoption(parser: pytest.Parser) -> None:
    """Name the options."""
    parser.addoption("--mutants", type=Path, required=True)
    parser.addoption("--results", type=Path, required=True)


@pytest.hookimpl(tryfirst=True)
def pytest_runtestloop(session: pytest.Session) -> bool:
    """Try the mutants, and run no test besides."""
    mutants = [json.loads(line) for line
               in session.config.getoption("--mutants").read_text(encoding="utf-8").splitlines()]
    items = {item.nodeid: item for item in session.items}
    engine = Path(walebook.__path__[0])
    for module in walk_packages(walebook.__path__, "walebook."):  # some are loaded when used first
        import_module(module.name)
    functions = functions_of(f"{engine}{os.sep}")
    gc.collect()
    gc.freeze()  # what the forks share stays, and no collector looks at it, and so copies it
    out = session.config.getoption("--results")
    children: dict[int, dict[str, Any]] = {}
    while mutants or children:
        if mutants and len(children) < PROCESSES:
            mutant = mutants.pop(0)
            mutant["by"] = out.parent / f"by-{mutant['mark']}"
            child = os.fork()
            if not child:
                try_one(session, mutant, items, functions, engine)
            children[child] = mutant
            continue
        child, status = os.wait()
        if child in children:
            write(out, children.pop(child), status)
    return True


def write(out: Path, mutant: Mapping[str, Any], status: int) -> None:
    """Add what became of a mutant."""
    by = mutant["by"].read_text(encoding="utf-8") if mutant["by"].exists() else ""
    mutant["by"].unlink(missing_ok=True)
    other_text(mutant).unlink(missing_ok=True)
    came = ("out of time" if os.WIFSIGNALED(status) else
            {0: "survived", NOT_HERE: "not here"}.get(os.WEXITSTATUS(status), "killed"))
    with out.open("a", encoding="utf-8") as file:
        print(json.dumps({"mark": mutant["mark"], "came": came, "by": by}), file=file)


def try_one(session: pytest.Session, mutant: Mapping[str, Any], items: Mapping[str, pytest.Item],
            functions: Functions, engine: Path) -> None:
    """Change the engine, run the tests, and end this process with what came of it."""
    code = NOT_HERE  # also where this very function fails
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        used = int(time.process_time())
        resource.setrlimit(resource.RLIMIT_CPU, (used + OUT_OF_TIME, used + OUT_OF_TIME))
        path = engine / Path(mutant["path"]).relative_to("engine")
        before = path.read_text(encoding="utf-8")
        other_text(mutant).write_text(mutant["code"], encoding="utf-8")
        is_changed = change(functions, str(path), before, mutant["code"])
        give_instead(path, other_text(mutant))
        names = [*mutant["tests"] * is_changed, *mutant["reading"]]
        came = first_failing(session, [items[name] for name in names], mutant["by"])
        code = came if came or is_changed else NOT_HERE
    finally:
        os._exit(code)


def other_text(mutant: Mapping[str, Any]) -> Path:
    """Where the text of the changed module stands while the mutant is tried."""
    path: Path = mutant["by"]
    return path.with_suffix(".py")


def give_instead(path: Path, other: Path) -> None:
    """Give another file from now on to whoever opens one to read it."""
    real, opened = path.resolve(), io.open

    def instead(file: Any, *arguments: Any, **named: Any) -> Any:
        is_it = isinstance(file, str | Path) and Path(file).resolve() == real
        return opened(other if is_it else file, *arguments, **named)

    io.open = builtins.open = instead  # pathlib looks it up in io


def first_failing(session: pytest.Session, items: list[pytest.Item], by: Path) -> int:
    """Run tests to the first that fails, and write its name."""
    for item, following in zip(items, [*items[1:], None], strict=False):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        if session.testsfailed:
            by.write_text(item.nodeid, encoding="utf-8")
            return KILLED
    return 0
