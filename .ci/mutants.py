"""Changes the engine in one place at a time, and looks whether a test notices.

    .venv/bin/python .ci/mutants.py [--number 150] [--seed 1] [--only N ...] [--measured FOLDER]

Draws so many mutants by seed, a quarter of them from plan/ and a quarter from words/. Each is
tried in a copy of the tree with the tests that run its line, for some time, and stops at the first
that fails: first in forks of one process that has collected the tests, also with tests that only
read the module's text. What survives there, or cannot be changed there, is tried in a new process,
which imports the changed module. Which tests run which line is kept in FOLDER while the engine does
not change, of each file of tests while that does not; what became of a mutant, while neither the
engine nor any test changes. So the same call goes on where it was broken off. Prints every survivor
that tests/equivalent_mutants.txt does not argue for, then the shares killed, and exits with 1 where
they are under what is wanted. Where no test runs one of the mutants, none is tried.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from hashlib import sha256
from itertools import chain
from pathlib import Path
from queue import Queue
from random import Random
from typing import Any

from cover_by_test import name_of
from mutant_drawing import ROOT, Mutant, drawn
from mutant_tests import Stages, choose
from tried_by_forking import OUT_OF_TIME, PROCESSES

ARGUED = ROOT / "tests" / "equivalent_mutants.txt"
MEASURED = ROOT / ".walebook-mutants"
TESTS = ("tests/against", "tests/laws", "tests/reader", "tests/sources")
WANTED = {"all": 85, "plan": 75, "words": 75}  # per cent
NO_TESTS_LEFT = 5  # what pytest returns then
PASSED = (0, NO_TESTS_LEFT)
KILLED = ("killed", "out of time")


def main() -> int:
    """Draw, choose tests, try, print; return 1 when too few are killed."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--number", type=int, default=150, help="how many mutants to draw")
    parser.add_argument("--seed", type=int, default=1, help="the seed by which they are drawn")
    parser.add_argument("--only", type=int, nargs="+", help="try these of the drawn ones alone")
    parser.add_argument("--measured", type=Path, default=MEASURED, metavar="FOLDER",
                        help="where it is kept which test runs which line")
    given = parser.parse_args()
    mutants = {mutant: number for number, mutant in
               enumerate(drawn(Random(given.seed), given.number), 1)
               if number in (given.only or [number])}
    with tempfile.TemporaryDirectory(prefix="walebook-mutants-") as folder:
        copies = [lay_out(Path(folder) / str(number)) for number in range(PROCESSES)]
        measured = given.measured.resolve()
        measure(copies, measured)
        chosen = choose(mutants, measured)
        refuse_untested(chosen)
        kept = Kept(measured / f"tried-{digest_of('engine', 'tests')[:16]}")
        results = try_all(copies, mutants, chosen, kept)
    return report(results, argued())


def lay_out(folder: Path) -> Path:
    """A copy of the working tree, all that is under version control."""
    folder.mkdir()
    files = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True)
    tar = subprocess.run(["tar", "c", "--null", "-T", "-"], cwd=ROOT, input=files.stdout,
                         check=True, capture_output=True)
    subprocess.run(["tar", "x"], cwd=folder, input=tar.stdout, check=True)
    return folder


def started(copy: Path, *arguments: str, limit: str = "unlimited") -> subprocess.Popen[str]:
    """Start pytest in the copy; the packages are the copy's, by the links in .ci/types.

    Its settings are named, for pytest would look for them beside every path among the arguments,
    and call each test by where it lies from there. Options from outside are left out. It gives way
    to other work as far as the tool was started to, or else by ten.
    """
    niceness = 0 if os.nice(0) else 10
    path = os.pathsep.join(str(copy / ".ci" / each) for each in ("types", ""))
    return subprocess.Popen(
        ["sh", "-c", f'ulimit -t {limit}; exec nice -n {niceness} "$@"', "sh", sys.executable, "-m",
         "pytest", "-q", "-n", "0", "-c", "pyproject.toml", "-p", "no:cacheprovider", "--timeout",
         "0", "-m", "not long", *arguments],
        cwd=copy, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        env={**os.environ, "PYTHONPATH": path, "PYTEST_ADDOPTS": ""})


def digest_of(*folders: str) -> str:
    """A digest of the modules in these folders."""
    digest = sha256()
    for path in sorted(path for folder in folders for path in (ROOT / folder).glob("**/*.py")):
        digest.update(f"{path.relative_to(ROOT)}\n".encode() + path.read_bytes())
    return digest.hexdigest()


def measure(copies: Sequence[Path], out: Path) -> None:
    """Write which test runs which line, of the files of tests of which it is not known."""
    mark = out / "engine"
    engine = digest_of("engine")
    if not mark.exists() or mark.read_text(encoding="utf-8") != engine:
        shutil.rmtree(out, ignore_errors=True)
        out.mkdir(parents=True)
        mark.write_text(engine, encoding="utf-8")
    files = [path.relative_to(ROOT).as_posix() for folder in TESTS
             for path in sorted((ROOT / folder).glob("test_*.py"))]
    missing = [file for file in files if not is_measured(file, out)]
    if missing:
        print(f"Measuring the tests of {len(missing)} of {len(files)} files ...", flush=True)
    running = [(shared, started(copy, "-p", "cover_by_test", "--cover-by-test", str(out), *shared))
               for at, copy in enumerate(copies) if (shared := missing[at::len(copies)])]
    for shared, process in running:
        output, _ = process.communicate()
        came, unwritten = process.returncode, [
            file for file in shared if not is_measured(file, out)]
        if came != NO_TESTS_LEFT and (came not in (0, 1) or len(unwritten) == len(shared)):
            raise SystemExit(f"The tests could not be measured:\n{output[-3000:]}")
        for file in unwritten:  # no test of it is left
            (out / name_of(file)).write_text('{"tests":[],"fixtures":{},"lines":{}}')


def is_measured(file: str, out: Path) -> bool:
    """True where it is known which lines the tests of a file run, as the file is now."""
    found = out / name_of(file)
    return found.exists() and found.stat().st_mtime >= (ROOT / file).stat().st_mtime


@dataclass(frozen=True, slots=True)
class Kept:
    """A file of what became of mutants: a line of JSON each, and the last of a mutant holds.

    What survived in a fork, or could not be changed there, is not decided yet.
    """

    file: Path

    def known(self) -> dict[str, dict[str, Any]]:
        """What became of each mutant that was tried, by its mark."""
        lines = self.file.read_text(encoding="utf-8").splitlines() if self.file.exists() else []
        return {one["mark"]: one for one in map(json.loads, lines)}

    def decided(self) -> dict[str, tuple[str, str]]:
        """The same of mutants that need not be tried again: what became of each, and the test."""
        return {mark: (one["came"], one["by"]) for mark, one in self.known().items()
                if one.get("anew") or one["came"] in KILLED}

    def add(self, mark: str, came: str, by: str) -> None:
        """Write what became of a mutant in a process that was started anew for it."""
        with self.file.open("a", encoding="utf-8") as file:
            print(json.dumps({"mark": mark, "came": came, "by": by, "anew": True}), file=file)


def refuse_untested(chosen: Mapping[Mutant, Stages]) -> None:
    """Raise SystemExit where a mutant has no test: it would count as survived, and tell nothing."""
    untested = [mutant for mutant, stages in chosen.items() if not any(stages[:2])]
    if untested:
        lines = "\n".join(f"  {mutant.path}:{mutant.line} {mutant.kind}: {mutant.changed}"
                          for mutant in untested)
        raise SystemExit(f"Nothing was tried. No test in {', '.join(TESTS)} runs the lines of "
                         f"{len(untested)} of {len(chosen)} mutants:\n{lines}\n"
                         "Write a test that runs each of them, or take out what nothing needs.")


def try_all(copies: Sequence[Path], mutants: Mapping[Mutant, int],
            chosen: Mapping[Mutant, Stages], kept: Kept) -> dict[Mutant, str]:
    """What became of each mutant, by its number in the draw; as many at a time as copies."""
    try_together(copies[0], chosen, kept)
    known, decided = kept.known(), kept.decided()
    free: Queue[Path] = Queue()
    for copy in copies:
        free.put(copy)

    def one(mutant: Mutant) -> str:
        came, by = decided.get(mutant.mark, ("", ""))
        if not came:
            first, rest, reading = chosen[mutant]
            is_here = known.get(mutant.mark, {}).get("came") == "survived"  # these tests ran it
            copy = free.get()
            try:
                came, by = tried(copy, mutant, [[*first, *rest]] if is_here else
                                 [first, [*reading, *rest]])
                kept.add(mutant.mark, came, by)
            finally:
                free.put(copy)
        print(f"{mutants[mutant]:4} {came:12}{mutant.path}:{mutant.line} {mutant.kind}: "
              f"{mutant.changed} ({sum(map(len, chosen[mutant]))} tests) {by}", flush=True)
        return came

    with ThreadPoolExecutor(len(copies)) as pool:
        return dict(zip(mutants, pool.map(one, mutants), strict=True))


def try_together(copy: Path, chosen: Mapping[Mutant, Stages], kept: Kept) -> None:
    """Try in forks of one process what was not tried yet; of some, nothing may come of it."""
    known = kept.known()
    lists = {mutant: stages for mutant, stages in chosen.items() if mutant.mark not in known}
    if not lists:
        return
    requests = copy / "mutants-asked"
    requests.write_text("".join(json.dumps({
        "mark": mutant.mark, "path": mutant.path, "code": mutant.code, "tests": [*first, *rest],
        "reading": reading}) + "\n" for mutant, (first, rest, reading) in lists.items()),
        encoding="utf-8")
    files = {name.partition("::")[0] for stages in lists.values() for name in chain(*stages)}
    process = started(copy, "--capture=sys", "-p", "tried_by_forking", "--mutants", str(requests),
                      "--results", str(kept.file), *sorted(files))
    output, _ = process.communicate()
    if kept.known() == known:
        raise SystemExit(f"No mutant could be tried:\n{output[-3000:]}")


def tried(copy: Path, mutant: Mutant, stages: Sequence[Sequence[str]]) -> tuple[str, str]:
    """"killed" or "out of time" (killed too), with the test that noticed, or "survived"."""
    if not any(stages):
        raise ValueError(f"no test was chosen for {mutant.name}")
    file = copy / mutant.path
    before, times = file.read_text(encoding="utf-8"), file.stat()
    file.write_text(mutant.code, encoding="utf-8")
    try:
        for names in filter(None, stages):
            code, output = outcome(copy, names)
            if code not in PASSED:
                by = re.search(r"^(?:FAILED|ERROR) .*", output, re.MULTILINE)
                return "killed" if code > 0 else "out of time", by[0][:120] if by else ""
    finally:
        file.write_text(before, encoding="utf-8")
        os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))  # so what was compiled holds
    return "survived", ""


def outcome(copy: Path, names: Sequence[str]) -> tuple[int, str]:
    """What pytest returns and prints for some tests, in their order, to the first that fails."""
    order = copy / "in-this-order"
    order.write_text("\n".join(names), encoding="utf-8")
    files = dict.fromkeys(name.partition("::")[0] for name in names)
    process = started(copy, "-x", "-p", "in_this_order", "--in-this-order", str(order), *files,
                      limit=str(OUT_OF_TIME))
    output, _ = process.communicate()
    return process.returncode, output


def argued() -> set[str]:
    """The names of mutants that change nothing; above each stands the reason."""
    lines = ARGUED.read_text(encoding="utf-8").splitlines()
    return {line for line in lines if line.startswith("engine/")}


def report(results: Mapping[Mutant, str], equivalents: set[str]) -> int:
    """Print what survived and the shares killed; return 1 where one is too small."""
    counted = {mutant: came for mutant, came in results.items() if mutant.name not in equivalents}
    for mutant in [mutant for mutant, came in counted.items() if came == "survived"]:
        print(f"\nSurvived, line {mutant.line}:\n{mutant.name}")
    print(f"\n{len(results) - len(counted)} of {len(results)} are argued to change nothing.")
    of_folder = Counter(mutant.folder for mutant in counted)
    killed_of = Counter(mutant.folder for mutant, came in counted.items() if came != "survived")
    print(", ".join(f"{folder} {killed_of[folder]}/{of_folder[folder]}"
                    for folder in sorted(of_folder)))
    code = 0
    for group, wanted in WANTED.items():
        among = of_folder.total() if group == "all" else of_folder[group]
        killed = killed_of.total() if group == "all" else killed_of[group]
        print(f"{group}: {killed} of {among} killed, {wanted} % wanted")
        code |= killed * 100 < wanted * among
    return int(code)


if __name__ == "__main__":
    sys.exit(main())
