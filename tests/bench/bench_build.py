"""Whole build against a stock build of the very pages it made: ratio, memory, growth, in one run.

    python tests/bench/bench_build.py [--patterns 20] [--slug practice-band slack-tide-cardigan]

Never part of the tests: it prints, and asserts nothing about time. Each of the patterns is built
three ways: with everything, without what is done after the pages, and by the site builder alone
from the same pages as plain files.

Ten copies gave 1.18 for bands and 1.01 for a cardigan in ten sizes: the HTML that is kept from
Markdown there saves about as much as reading, knitting and telling cost. What is left for a small
site is half a second to load the units library, once a build; a registry of our own few units
would take most of it away. A size of a cardigan takes about 20 ms to read, plan and knit.
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
from contextlib import ExitStack
from pathlib import Path

from walebook_site.plain_pages import write_out
from walebook_site.sources import collect

ROOT = Path(__file__).parents[2]
RUNNER = ("import resource, sys; from mkdocs.__main__ import cli; "
          "sys.argv = ['mkdocs', 'build', '--quiet'];\n"
          "try: cli()\n"
          "except SystemExit as end: code = end.code\n"
          "used = resource.getrusage(resource.RUSAGE_SELF)\n"
          "print(used.ru_utime + used.ru_stime, used.ru_maxrss // 1024); sys.exit(code)")


AFTER = ("on_config", "on_post_page", "on_post_template", "on_post_build")
AIMS = {"practice-band": "1.15", "slack-tide-cardigan": "1.3"}


def project(root: Path, slug: str, patterns: int, *, after: bool) -> Path:
    """Copy the site's sources and `patterns` copies of one pattern into `root`.

    Without `after`, the hooks that work on the built pages are left out.
    """
    for name in ("hooks", "site_src"):
        shutil.copytree(ROOT / name, root / name)
    if not after:
        with (root / "hooks" / "patterns.py").open("a", encoding="utf-8") as hooks:
            hooks.write(f"\ndel {', '.join(AFTER)}\n")
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
    """Build once; return the processor's seconds, which others hardly change, and peak [MB]."""
    done = subprocess.run([sys.executable, "-c", RUNNER], cwd=root, capture_output=True, text=True,
                          check=True)
    seconds, peak = done.stdout.split()[-2:]
    return float(seconds), int(peak)


def measure(slug: str, patterns: int, rounds: int) -> float:
    """Print the figures of so many copies of one pattern; return the seconds of a whole build."""
    with ExitStack() as stack:
        whole, bare, plain = (Path(stack.enter_context(tempfile.TemporaryDirectory()))
                              for _ in range(3))
        project(whole, slug, patterns, after=True)
        project(bare, slug, patterns, after=False)
        stock(plain, whole)
        built = [[build(root) for root in (whole, bare, plain)] for _ in range(rounds)]
        start = time.process_time()
        collect(whole)
        engine = time.process_time() - start
    ours, without, theirs = (statistics.median(took[way][0] for took in built) for way in range(3))
    memory = [max(took[way][1] for took in built) for way in (0, 2)]
    print(f"{slug}, {patterns} times: {ours:.2f} s whole, {without:.2f} s without what is done "
          f"after the pages, {theirs:.2f} s stock")
    print(f"  ratio {ours / theirs:.2f} (aim {AIMS.get(slug, '1.3')}), {without / theirs:.2f} "
          f"without what is done after the pages; peak {memory[0]} and {memory[1]} MB; read, plan "
          f"and knit alone {engine * 1000 / patterns:.1f} ms a pattern")
    return ours


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--patterns", type=int, default=20)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--slug", nargs="+", default=list(AIMS))
    given = parser.parse_args()
    for slug in given.slug:
        small = measure(slug, max(1, given.patterns // 10), given.rounds)
        large = measure(slug, given.patterns, given.rounds)
        print(f"  growth for ten times the patterns: {large / small:.2f} times the time")
    print(f"this process peaked at {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB")


if __name__ == "__main__":
    main()
