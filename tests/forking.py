"""Runs the tests in forks of one process, which has collected them and proved the collection.

    pytest --forks 3

Processes that are started anew (xdist) each compile, import and collect all tests, and each proves
the collection that many of them look at: here that is done once. A fork asks for the next part, a
file as a rule, when it begins the last test of its part.
"""

from __future__ import annotations

import contextlib
import gc
import io
import os
import signal
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from multiprocessing import Pipe
from multiprocessing.connection import Connection, wait
from typing import Any, NoReturn

import pytest
from _pytest.config import create_terminal_writer
from xdist.remote import serialize_warning_message
from xdist.workermanage import unserialize_warning_message

SELDOM = 200_000
"""New objects between two looks of the collector for rings of them, as a build has it
(`hooks/proving.py`): the usual 700 take an eighth of the processor."""
Parts = list[list[pytest.Item]]


def add_option(parser: pytest.Parser) -> None:
    """Name the option."""
    parser.addoption("--forks", type=int, default=0, metavar="NUMBER",
                     help="run the tests in so many forks of this process")


def parts_of(items: list[pytest.Item], part_of: Callable[[str], str]) -> Parts:
    """The tests in parts, each run by one fork, in the order of the first of each."""
    parts: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        parts[part_of(item.nodeid)].append(item)
    return list(parts.values())


@dataclass
class Fork:
    """A fork, as the process that began it sees it."""

    number: int
    pid: int
    line: Connection
    running: str = ""
    done: int = 0


def run_in_forks(session: pytest.Session, parts: Parts, many: int) -> None:
    """Run all parts. Raises Failed or Interrupted where the session is to stop, as pytest does."""
    session.config._tmp_path_factory.getbasetemp()  # type: ignore[attr-defined]
    gc.collect()
    gc.freeze()  # what the forks share stays, and no collector looks at it, and so copies it
    forks: list[Fork] = []
    left = iter(range(len(parts)))
    try:
        for number in range(many):
            forks.append(begun(session, parts, number, forks))
        at_work = list(forks)
        while at_work:
            for ready in wait([fork.line for fork in at_work]):
                fork = next(one for one in at_work if one.line is ready)
                if not heard(session, fork, left):
                    at_work.remove(fork)
            if not at_work and sum(fork.done for fork in forks) < sum(map(len, parts)):
                session.shouldfail = session.shouldfail or "Some tests were not run to their end."
            if session.shouldfail:
                raise session.Failed(session.shouldfail)
            if session.shouldstop:
                raise session.Interrupted(session.shouldstop)
    finally:  # all stays frozen: pytest has the collector look at everything five times at its end
        for fork in forks:
            fork.line.close()  # a fork that is still at work ends when it says something
            with contextlib.suppress(ChildProcessError, ProcessLookupError):
                if os.waitpid(fork.pid, os.WNOHANG) == (0, 0):
                    os.kill(fork.pid, signal.SIGTERM)
                    os.waitpid(fork.pid, 0)


def begun(session: pytest.Session, parts: Parts, number: int, others: list[Fork]) -> Fork:
    """A fork that runs parts until there is none."""
    ours, theirs = Pipe()
    pid = os.fork()
    if not pid:
        ours.close()
        for other in others:
            other.line.close()  # or nobody would see that the first process has ended
        work(session, parts, number, theirs)
    theirs.close()
    return Fork(number, pid, ours)


def heard(session: pytest.Session, fork: Fork, left: Iterator[int]) -> bool:
    """Do what a fork asks for; False when it has ended. A fork that is killed fails its test."""
    hook = session.config.hook
    try:
        kind, said = fork.line.recv()
    except (EOFError, ConnectionResetError):
        if fork.running:
            session.shouldfail = f"The fork that ran {fork.running} ended in the middle of it."
        return False
    if kind == "next":
        fork.line.send(next(left, None))
    elif kind == "begin":
        fork.running = said[0]
        hook.pytest_runtest_logstart(nodeid=said[0], location=said[1])
    elif kind == "end":
        fork.running, fork.done = "", fork.done + 1
        hook.pytest_runtest_logfinish(nodeid=said[0], location=said[1])
    elif kind == "report":
        report = hook.pytest_report_from_serializable(config=session.config, data=said)
        hook.pytest_runtest_logreport(report=report)
    elif kind == "warning":
        said["warning_message"] = unserialize_warning_message(said["warning_message"])
        hook.pytest_warning_recorded.call_historic(kwargs=said)
    else:
        session.shouldfail = said
    return True


# -- in a fork -------------------------------------------------------------------------------------


class Told:
    """Tells the first process what pytest reports in a fork."""

    def __init__(self, config: pytest.Config, line: Connection) -> None:
        self.config = config
        self.line = line

    def pytest_runtest_logstart(self, nodeid: str, location: tuple[str, int | None, str]) -> None:
        self.line.send(("begin", (nodeid, location)))

    def pytest_runtest_logfinish(self, nodeid: str, location: tuple[str, int | None, str]) -> None:
        self.line.send(("end", (nodeid, location)))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        data = self.config.hook.pytest_report_to_serializable(config=self.config, report=report)
        self.line.send(("report", data))

    def pytest_warning_recorded(self, warning_message: Any, when: str, nodeid: str,
                                location: tuple[str, int, str] | None) -> None:
        self.line.send(("warning", {
            "warning_message": serialize_warning_message(warning_message), "when": when,
            "nodeid": nodeid, "location": location}))


class Silent:
    """Stands for what prints, which a test out of time asks for: the report says why it failed."""

    def __init__(self, config: pytest.Config) -> None:
        self._tw = create_terminal_writer(config, io.StringIO())


def work(session: pytest.Session, parts: Parts, number: int, line: Connection) -> NoReturn:
    """Run parts as long as there are any, and end this process."""
    try:
        take_apart(session, number)
        told = Told(session.config, line)
        session.config.pluginmanager.register(told)
        run(session, parts, lambda: asked(line))
        session._setupstate.teardown_exact(None)  # where it was stopped before the last test
        code = 0
    except BaseException as fault:
        with contextlib.suppress(OSError):
            line.send(("fault", f"Fork {number}: {type(fault).__name__}: {fault}"))
        code = 1
    finally:
        line.close()
    os._exit(code)


def asked(line: Connection) -> int | None:
    """The number of the next part; None where there is none."""
    line.send(("next", None))
    number: int | None = line.recv()
    return number


def run(session: pytest.Session, parts: Parts, following: Callable[[], int | None]) -> None:
    """Run parts, each test knowing which comes after it: what both share is kept."""
    place = following()
    while place is not None:
        part = parts[place]
        place = None
        for at, item in enumerate(part):
            last = at + 1 == len(part)
            if last:
                place = following()
            after = part[at + 1] if not last else parts[place][0] if place is not None else None
            session.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
            if session.shouldfail or session.shouldstop:
                return


def take_apart(session: pytest.Session, number: int) -> None:
    """Give a fork what it must not share: the folder of its temporary files, and what is printed.
    """
    plugins, config = session.config.pluginmanager, session.config
    os.environ["PYTEST_XDIST_WORKER"] = f"gw{number}"
    factory = config._tmp_path_factory  # type: ignore[attr-defined]
    own = factory.getbasetemp() / f"popen-gw{number}"
    own.mkdir(mode=0o700)
    factory._basetemp = own
    plugins.unregister(name="terminalreporter")
    plugins.register(Silent(config), "terminalreporter")
    capture = plugins.getplugin("capturemanager")
    capture.stop_global_capturing()
    capture.start_global_capturing()
    capture.suspend_global_capture(in_=False)
