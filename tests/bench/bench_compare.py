"""What `walebook compare` takes for a collection, from nothing and from the cache.

    python tests/bench/bench_compare.py [--patterns 50] [--goes 3]

Never part of the tests: it prints, and asserts nothing about time. The collection holds copies of
the demo's patterns, in a git repository. Each call is a whole process; the quickest of the goes
counts, by the clock and by its processor. Beside it stands the ratio of its processor to that of
`walebook check` of the same collection from nothing, which says more from machine to machine than
seconds do.
"""

from __future__ import annotations

import argparse
import os
import re
import resource
import shutil
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).parents[2]
WIDTH = re.compile(r"(stitches: \d+, width: )(\d+)")
DATE = re.compile(r"^(date: )\S+$", re.MULTILINE)


def collection(root: Path, number: int) -> list[Path]:
    """So many patterns in a repository with one commit, and their sources."""
    ours = sorted(path.parent for path in (ROOT / "patterns").glob("[a-z]*/pattern.yaml"))
    for n in range(number):
        folder = ours[n % len(ours)]
        shutil.copytree(folder, root / "patterns" / f"{folder.name}-{n}")
    shutil.copytree(ROOT / "site_src", root / "site_src")
    author = ("-c", "user.name=A", "-c", "user.email=a@b.c")
    for words in (("init", "-q"), ("add", "-A"), (*author, "commit", "-q", "-m", "All")):
        subprocess.run(["git", "-C", str(root), *words], check=True)
    return sorted((root / "patterns").glob("*/pattern.yaml"))


def call(root: Path, cache: Path, *words: str) -> tuple[float, float]:
    """Seconds by the clock and of processor that a call of the command takes."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "walebook_site.command", *words, "--root", str(root)], check=False,
        env={**os.environ, "WALEBOOK_CACHE": str(cache)}, stdout=subprocess.DEVNULL)
    assert done.returncode in (0, 1, 3), done.returncode
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.perf_counter() - start, sum(
        getattr(after, name) - getattr(before, name) for name in ("ru_utime", "ru_stime"))


def measured(root: Path, goes: int, *words: str) -> tuple[tuple[float, float], ...]:
    """The best of so many goes from nothing, and from the cache."""
    cold, kept = [], []
    for _ in range(goes):
        with TemporaryDirectory() as cache:
            cold.append(call(root, Path(cache), *words))
            kept.append(call(root, Path(cache), *words))
    return tuple((min(each[0] for each in runs), min(each[1] for each in runs))
                 for runs in (cold, kept))


def widen(source: Path) -> None:
    """Another width of a swatch: nearly every count of the pattern may move."""
    text = source.read_text(encoding="utf-8")
    source.write_text(WIDTH.sub(lambda found: f"{found[1]}{int(found[2]) + 1}", text, count=1),
                      encoding="utf-8")


def date(source: Path) -> None:
    """A second input that moved, which steers nothing: a day that no source has."""
    text = source.read_text(encoding="utf-8")
    source.write_text(DATE.sub(r"\g<1>2031-01-31", text), encoding="utf-8")


def add(source: Path) -> None:
    """A pattern more, and a page: what the others do not name reaches none of them."""
    shutil.copytree(source.parent, source.parent.with_name("one-more"))
    (source.parents[2] / "site_src" / "one-more-page.md").write_text("# More\n", encoding="utf-8")


def main() -> None:
    """Print a line for each kind of change."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--patterns", type=int, default=50)
    parser.add_argument("--goes", type=int, default=3)
    given = parser.parse_args()
    with TemporaryDirectory() as folder:
        root = Path(folder)
        sources = collection(root, given.patterns)
        (clock, processor), _ = measured(root, given.goes, "check")
        print(f"{'what was changed':34}{'from nothing':>26}{'from the cache':>26}")
        print(f"{f'check of {given.patterns} patterns':34}{clock:10.2f} s{processor:8.2f} s")
        changes = (("nothing", []), ("one pattern", [(widen, sources[:1])]),
                   ("and a pattern and a page more", [(add, sources[:1])]),
                   ("every pattern, one input", [(widen, sources[1:])]),
                   ("every pattern, two inputs", [(date, sources)]))
        for name, done in changes:
            for does, to in done:
                for source in to:
                    does(source)
            runs = measured(root, given.goes, "compare")
            print(f"{f'compare, {name}':34}" + "".join(
                f"{c:10.2f} s{p:8.2f} s ×{p / processor:4.2f}" for c, p in runs), flush=True)


if __name__ == "__main__":
    main()
