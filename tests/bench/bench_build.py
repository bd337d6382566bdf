"""What a build of many cardigans takes: time, memory, bytes; beside a stock build, and the limit.

    python tests/bench/bench_build.py [--patterns 10 100 2000] [--single-files]

Never part of the tests: it prints, and asserts nothing about time. "10 patterns" are as many
cardigans as have 10 × 12 size pages: the charts have nine sizes. Each site is built four ways:
from nothing; with everything in the cache; by the site builder alone, from the same pages as plain
files; and by a bare template that writes the same bytes, which is the limit. The processor's
seconds are those of all processes; the wall's are of use on a machine that does nothing else.
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
HOOKED = "hooks:\n  - hooks/patterns.py\n"
SLUG, SIZES = "slack-tide-cardigan", 9
STOCK = 100  # patterns; the stock builder holds all pages, and takes 26 GB for 2,000
BUILD = ("import sys; from mkdocs.__main__ import cli\n"
         "sys.argv = ['mkdocs', 'build', '--quiet']\n"
         "try: cli()\n"
         "except SystemExit as end: code = end.code\n")
PLAIN = ("import sys; from walebook_site.command import main\n"
         "code = main(['pages', sys.argv[1]])\n")
TEXTS = ("from walebook.words.frame_text import FRAME_TEXTS\n"
         "def on_env(env, **_):\n"
         "    env.globals['texts'] = FRAME_TEXTS\n"
         "    return env\n")
# The same bytes: every page cut where its article begins and ends, and put together again.
LIMIT = """
import sys
from pathlib import Path
import jinja2
site, out = Path(sys.argv[1]), Path(sys.argv[2])
template = jinja2.Environment().from_string("{{ head }}{{ article }}{{ foot }}")
for path in site.rglob("*.html"):
    text = path.read_text(encoding="utf-8")
    at = text.find("<article")
    end = text.find("</article>", at)
    to = out / path.relative_to(site)
    to.parent.mkdir(parents=True, exist_ok=True)
    to.write_text(template.render(head=text[:at], article=text[at:end], foot=text[end:]))
code = 0
"""
MEASURED = """
import resource
own, others = map(resource.getrusage, (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
print(sum((each.ru_utime + each.ru_stime for each in (own, others))),
      own.ru_maxrss // 1024, others.ru_maxrss // 1024)
sys.exit(code)
"""


@dataclass(frozen=True, slots=True)
class Taken:
    """What a run took: processor and wall [s], the peak of the process and of its largest
    child [MB]."""

    processor: float
    wall: float
    peak: int
    child: int

    def __str__(self) -> str:
        return (f"{self.processor:.1f} s of processor, {self.wall:.1f} s by the wall, peak "
                f"{self.peak} MB" + (f" and {self.child} MB" if self.child else ""))


def run(code: str, cwd: Path, *args: str) -> Taken:
    """Run a program in a folder; raises when it fails."""
    start = time.perf_counter()
    done = subprocess.run([sys.executable, "-c", code + MEASURED, *args], cwd=cwd, text=True,
                          capture_output=True, check=False,
                          env={**os.environ, "NO_MKDOCS_2_WARNING": "1"})
    if done.returncode:
        raise RuntimeError(done.stdout + done.stderr)
    processor, peak, child = done.stdout.split()[-3:]
    return Taken(float(processor), time.perf_counter() - start, int(peak), int(child))


def project(root: Path, copies: int, *, single_files: bool) -> Path:
    """Copy the site's sources and so many copies of one cardigan into `root`."""
    for name in ("hooks", "site_src"):
        shutil.copytree(ROOT / name, root / name)
    settings = (ROOT / "site_src" / ".site.yml").read_text(encoding="utf-8") + HOOKED
    setting = f"extra:\n  walebook: {{single_files: {str(single_files).lower()}}}\n"
    (root / "mkdocs.yml").write_text(settings.replace("extra:\n", setting), encoding="utf-8")
    for folder in ROOT.glob("patterns/_*"):
        shutil.copytree(folder, root / "patterns" / folder.name)
    for number in range(copies):
        shutil.copytree(ROOT / "patterns" / SLUG, root / "patterns" / f"{SLUG}-{number}")
    return root


def stock(root: Path, hooked: Path) -> Path:
    """The same site with its pages as plain files, and no hook but the texts of the templates."""
    shutil.copytree(hooked / "site_src", root / "site_src")
    run(PLAIN, hooked, str(root / "site_src"))
    settings = (hooked / "mkdocs.yml").read_text(encoding="utf-8")
    settings = settings.replace(HOOKED, "not_in_nav: /patterns/\nhooks: [texts.py]\n")
    (root / "texts.py").write_text(TEXTS, encoding="utf-8")
    (root / "mkdocs.yml").write_text(settings, encoding="utf-8")
    return root


def weight(folder: Path) -> float:
    """What the files of a folder come to [MB]."""
    return sum(path.stat().st_size for path in folder.rglob("*") if path.is_file()) / 1e6


def measured(root: Path, patterns: int, *, single_files: bool) -> Iterator[str]:
    """The lines of one size of site."""
    copies = -(-patterns * 12 // SIZES)
    whole = project(root / "whole", copies, single_files=single_files)
    cold = run(BUILD, whole)
    warm = run(BUILD, whole)
    yield f"{patterns} patterns x 12 sizes ({copies} x {SIZES}): {weight(whole / 'site'):.0f} MB"
    yield f"  from nothing: {cold}; {cold.processor * 1000 / copies / SIZES:.0f} ms a size page"
    yield f"  from the cache ({weight(whole / '.walebook-cache'):.0f} MB): {warm}"
    limit = run(LIMIT, root, str(whole / "site"), str(root / "limit"))
    yield f"  a bare template, same bytes: {limit}; {cold.processor / limit.processor:.1f} times it"
    if patterns > STOCK:
        return
    theirs = run(BUILD, stock(root / "stock", whole))
    yield (f"  stock builder: {theirs}; ratio {cold.processor / theirs.processor:.2f} of its "
           f"processor (aim 0.6), {cold.wall / theirs.wall:.2f} of its wall (aim 0.5)")


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--patterns", type=int, nargs="+", default=[10])
    parser.add_argument("--single-files", action="store_true")
    given = parser.parse_args()
    for patterns in given.patterns:
        with tempfile.TemporaryDirectory() as folder:
            for line in measured(Path(folder), patterns, single_files=given.single_files):
                print(line, flush=True)


if __name__ == "__main__":
    main()
