"""Changes the engine in one place at a time, and looks whether a test notices.

    .venv/bin/python .ci/mutants.py [--number 150] [--seed 1] [--from FILE]

Draws so many mutants by seed, a quarter of them from plan/ and a quarter from words/. Each is
tried in a copy of the tree with the quickest of the tests that run its line, up to a minute of
them, and stops at the first that fails. Prints every survivor that tests/equivalent_mutants.txt
does not argue for, then the shares killed, and exits with 1 where they are under what is wanted.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path
from random import Random

from mutant_drawing import ROOT, Mutant, drawn
from mutant_tests import tests_of

ARGUED = ROOT / "tests" / "equivalent_mutants.txt"
TESTS = ("tests/against", "tests/laws", "tests/reader", "tests/sources")
WANTED = {"all": 85, "plan": 75, "words": 75}  # per cent
OUT_OF_TIME = 300.0


def main() -> int:
    """Draw, try, print; return 1 when too few are killed."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--number", type=int, default=150, help="how many mutants to draw")
    parser.add_argument("--seed", type=int, default=1, help="the seed by which they are drawn")
    parser.add_argument("--from", dest="measured", type=Path,
                        help="what an earlier run measured (written there where it is not)")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="walebook-mutants-") as folder:
        copy = lay_out(Path(folder))
        measured = given.measured or Path(folder) / "measured.json"
        if not measured.exists():
            measure(copy, measured.resolve())
        found = json.loads(measured.read_text(encoding="utf-8"))
        results = {mutant: tried(copy, mutant, tests_of(mutant, found))
                   for mutant in drawn(Random(given.seed), given.number)}
    return report(results, argued())


def lay_out(folder: Path) -> Path:
    """A copy of the working tree, all that is under version control."""
    files = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True)
    tar = subprocess.run(["tar", "c", "--null", "-T", "-"], cwd=ROOT, input=files.stdout,
                         check=True, capture_output=True)
    subprocess.run(["tar", "x"], cwd=folder, input=tar.stdout, check=True)
    return folder


def run(copy: Path, *arguments: str, seconds: float | None = None) -> int:
    """What pytest returns in the copy; the packages are the copy's, by the links in .ci/types."""
    path = os.pathsep.join(str(copy / ".ci" / each) for each in ("types", ""))
    done = subprocess.run(
        ["nice", sys.executable, "-m", "pytest", "-q", "-n", "0", "-p", "no:cacheprovider",
         *arguments], cwd=copy, check=False, timeout=seconds, stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": path, "PYTHONDONTWRITEBYTECODE": "1"})
    return done.returncode


def measure(copy: Path, out: Path) -> None:
    """Write which test runs which line, by one run of them all."""
    if run(copy, "-p", "cover_by_test", "--cover-by-test", str(out), *TESTS):
        raise SystemExit("The tests fail without any change: mend that first.")


def tried(copy: Path, mutant: Mutant, tests: list[str]) -> str:
    """"killed", "out of time" (killed too) or "survived", also where no test runs it."""
    file = copy / mutant.path
    before = file.read_text(encoding="utf-8")
    file.write_text(mutant.code, encoding="utf-8")
    try:
        noticed = tests and run(copy, "-x", *tests, seconds=OUT_OF_TIME)
        came = "killed" if noticed else "survived"
    except subprocess.TimeoutExpired:
        came = "out of time"
    finally:
        file.write_text(before, encoding="utf-8")
    print(f"{came:12}{mutant.path}:{mutant.line} {mutant.kind}: {mutant.changed}"
          f" ({len(tests)} tests)", flush=True)
    return came


def argued() -> set[str]:
    """The names of mutants that change nothing; above each stands the reason."""
    lines = ARGUED.read_text(encoding="utf-8").splitlines()
    return {line for line in lines if line.startswith("engine/")}


def report(results: dict[Mutant, str], equivalents: set[str]) -> int:
    """Print what survived and the shares killed; return 1 where one is too small."""
    counted = {mutant: came for mutant, came in results.items() if mutant.name not in equivalents}
    for mutant in [mutant for mutant, came in counted.items() if came == "survived"]:
        print(f"\nSurvived, line {mutant.line}:\n{mutant.name}")
    print(f"\n{len(results) - len(counted)} of {len(results)} are argued to change nothing.")
    code = 0
    for group, wanted in WANTED.items():
        among = [came for mutant, came in counted.items() if group in ("all", mutant.folder)]
        killed = sum(came != "survived" for came in among)
        print(f"{group}: {killed} of {len(among)} killed, {wanted} % wanted")
        code |= killed * 100 < wanted * len(among)
    return int(code)


if __name__ == "__main__":
    sys.exit(main())
