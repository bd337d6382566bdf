"""The test command's forks run every test once, and a test that fails or ends a fork fails the run.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
CONFTEST = """
from tests import forking

def pytest_addoption(parser):
    forking.add_option(parser)

def pytest_runtestloop(session):
    parts = forking.parts_of(session.items, lambda name: name.partition("::")[0])
    forking.run_in_forks(session, parts, session.config.getoption("--forks"))
    return True
"""
PART = """
import os, time, warnings
from pathlib import Path
import pytest

@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    with Path("shared").open("a") as file:
        file.write(f"{__name__} made by {os.getpid()} in {tmp_path_factory.getbasetemp().name}\\n")
    yield
    with Path("shared").open("a") as file:
        file.write(f"{__name__} left by {os.getpid()}\\n")

@pytest.mark.parametrize("number", range(5))
def test_passes(number, shared):
    with Path("ran").open("a") as file:
        file.write(f"{__name__} {number} {os.getpid()}\\n")
    time.sleep(0.05)
"""
# Tests of each way to end, for the run in a test: what is skipped must be counted as skipped.
ENDS = {
    "test_bad.py": """
import os, time, warnings
import pytest

def test_fails():
    print("words that it printed")
    assert 1 == 2

def test_warns():
    warnings.warn("a warning of a test")

@pytest.mark.skip(reason="a sample of a skip")
def test_is_skipped(): pass

@pytest.mark.timeout(0.2)
def test_is_out_of_time(): time.sleep(20)
""",
    "test_killed.py": "import os\n\ndef test_ends_its_process(): os.kill(os.getpid(), 9)\n",
    "test_gone.py": "import os\n\ndef test_leaves(): os._exit(0)\n",
}


def run(folder: Path, files: dict[str, str], *more: str) -> tuple[int, str]:
    """The exit code and what was printed of such tests in two forks."""
    for name, text in {"conftest.py": CONFTEST, "pytest.ini": "[pytest]\n", **files}.items():
        (folder / name).write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-c", "import sys; sys.path.insert(0, sys.argv.pop(1)); "
         "from pytest import main; sys.exit(main())", str(ROOT), "--forks", "2", "-rs", *more],
        cwd=folder, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout + done.stderr


def test_each_test_is_run_once_and_a_part_by_one_fork(tmp_path: Path) -> None:
    code, said = run(tmp_path, {f"test_part_{name}.py": PART for name in "abc"})
    assert code == 0 and "15 passed" in said, said
    ran = [line.split() for line in (tmp_path / "ran").read_text().splitlines()]
    assert sorted((part, number) for part, number, _ in ran) == [
        (f"test_part_{name}", str(number)) for name in "abc" for number in range(5)]
    forks = {part: {fork for name, _, fork in ran if name == part} for part, _, _ in ran}
    assert all(len(each) == 1 for each in forks.values())
    assert len(set.union(*forks.values())) == 2
    shared = [line.split() for line in (tmp_path / "shared").read_text().splitlines()]
    assert sorted((line[0], line[1]) for line in shared) == [
        (f"test_part_{name}", what) for name in "abc" for what in ("left", "made")]
    assert {line[-1] for line in shared if line[1] == "made"} == {"popen-gw0", "popen-gw1"}


def test_what_becomes_of_a_test_in_a_fork_is_said(tmp_path: Path) -> None:
    code, said = run(tmp_path, {"test_bad.py": ENDS["test_bad.py"], "test_part_a.py": PART})
    assert code == 1
    for words in ("2 failed, 6 passed, 1 skipped, 1 warning", "words that it printed",
                  "assert 1 == 2", "a warning of a test", "a sample of a skip", "Timeout (>0.2s)"):
        assert words in said, said


def test_a_fork_that_ends_before_its_tests_do_fails_the_run(tmp_path: Path) -> None:
    for name, test in (("test_killed.py", "test_ends_its_process"),
                       ("test_gone.py", "test_leaves")):
        folder = tmp_path / test
        folder.mkdir()
        code, said = run(folder, {name: ENDS[name]})
        assert code != 0 and f"The fork that ran {name}::{test} ended" in said, said
