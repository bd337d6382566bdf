"""Whole build against a stock build of the very pages it made: ratio, memory, growth, in one run.

    python tests/bench/bench_build.py [--patterns 100] [--slug slack-tide-cardigan]

Never part of the tests: it prints, and asserts nothing about time.
"""

from __future__ import annotations

import argparse
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from walebook_site.command import write_out
from walebook_site.sources import collect

ROOT = Path(__file__).parents[2]
RUNNER = ("import resource, sys; from mkdocs.__main__ import cli; "
          "sys.argv = ['mkdocs', 'build', '--quiet'];\n"
          "try: cli()\n"
          "except SystemExit as end: code = end.code\n"
          "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024); sys.exit(code)")


def project(root: Path, slug: str, patterns: int) -> Path:
    """Copy the site's sources and `patterns` copies of one pattern into `root`."""
    for name in ("hooks", "site_src"):
        shutil.copytree(ROOT / name, root / name)
    shutil.copy(ROOT / "mkdocs.yml", root)
    for folder in ROOT.glob("patterns/_*"):
        shutil.copytree(folder, root / "patterns" / folder.name)
    for number in range(patterns):
        shutil.copytree(ROOT / "patterns" / slug, root / "patterns" / f"{slug}-{number}")
    return root


def stock(root: Path, hooked: Path) -> Path:
    """The same site with its pages as plain files and no hook."""
    shutil.copytree(ROOT / "site_src", root / "site_src")
    written = write_out(collect(hooked), root / "site_src")
    settings = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    settings = settings.replace("hooks:\n  - hooks/patterns.py\n", "not_in_nav: /patterns/\n")
    settings = settings.replace("watch:\n  - patterns\n", "")
    (root / "mkdocs.yml").write_text(settings, encoding="utf-8")
    print(f"  {written} files written for the stock build")
    return root


def build(root: Path) -> tuple[float, int]:
    """Build once; return seconds and peak memory [MB]."""
    start = time.perf_counter()
    done = subprocess.run([sys.executable, "-c", RUNNER], cwd=root, capture_output=True, text=True,
                          check=True)
    return time.perf_counter() - start, int(done.stdout.split()[-1])


def measure(slug: str, patterns: int, rounds: int) -> tuple[float, float]:
    """Print one line of figures; return seconds with and without the engine."""
    with tempfile.TemporaryDirectory() as a, tempfile.TemporaryDirectory() as b:
        hooked = project(Path(a), slug, patterns)
        plain = stock(Path(b), hooked)
        pairs = [(build(hooked), build(plain)) for _ in range(rounds)]
        ours = statistics.median(p[0][0] for p in pairs)
        theirs = statistics.median(p[1][0] for p in pairs)
        memory = max(p[0][1] for p in pairs), max(p[1][1] for p in pairs)
        start = time.perf_counter()
        collect(hooked)
        engine = time.perf_counter() - start
    print(f"{patterns:>4} patterns: {ours:.2f} s with the engine, {theirs:.2f} s stock, "
          f"ratio {ours / theirs:.3f}; peak {memory[0]} and {memory[1]} MB; "
          f"read, plan and knit alone {engine * 1000 / patterns:.1f} ms a pattern")
    return ours, theirs


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--patterns", type=int, default=100)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--slug", default="slack-tide-cardigan")
    given = parser.parse_args()
    small, _ = measure(given.slug, max(1, given.patterns // 10), given.rounds)
    large, _ = measure(given.slug, given.patterns, given.rounds)
    print(f"growth for ten times the patterns: {large / small:.2f} times the time")
    print(f"this process peaked at {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB")


if __name__ == "__main__":
    main()
