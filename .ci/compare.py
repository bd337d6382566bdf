"""Compares what two commits make of the same sources: counts, sentences, drawings and findings.

    .venv/bin/python .ci/compare.py BASE [--head COMMIT] [--drawn 1000] [--show 40]

Both engines read the collection of the working tree and `--drawn` sources drawn by seed from
tests/laws/random_sources.py. They are run by their command alone, so that a commit is compared
with any other, however its folders are named. Exits with 1 when anything differs, and with 2 where
no page was made that could differ.
"""

from __future__ import annotations

import argparse
import difflib
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).parents[1]
DRAWING = re.compile(r"<svg.*?</svg>", re.DOTALL)
TAG = re.compile(r"<[^>]*>")
KINDS = ("findings", "counts", "sentences", "drawings", "markup")
Made = dict[str, dict[str, str]]  # by kind of thing, then by its name


def main() -> int:
    """Compare, print what differs, and return 1 when something does."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("base", help="the commit to compare with")
    parser.add_argument("--head", help="the other commit (default: the working tree)")
    parser.add_argument("--drawn", type=int, default=1000, help="how many sources to draw")
    parser.add_argument("--show", type=int, default=40, help="how many differing lines to print")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="walebook-compare-") as folder:
        work = Path(folder)
        store = work / "store"
        shutil.copytree(ROOT / "patterns", store / "patterns")
        draw(store / "patterns", given.drawn)
        sides = [(work / "before", given.base), (work / "after", given.head)]
        with ThreadPoolExecutor(2) as pool:
            before, after = pool.map(lambda side: made(side[0], side[1], store), sides)
    return report(before, after, given.show)


def draw(patterns: Path, number: int) -> None:
    """Write so many drawn sources beside the collection, the same ones at every call."""
    if not number:
        return
    sys.path.insert(0, str(ROOT))
    from hypothesis import HealthCheck, Phase, given, settings

    from tests.laws.random_sources import sources

    drawn: list[str] = []

    @settings(max_examples=number, derandomize=True, database=None, deadline=None,
              phases=[Phase.generate], suppress_health_check=list(HealthCheck))
    @given(sources())
    def gather(source: str) -> None:
        drawn.append(source)

    gather()
    for place, text in enumerate(drawn):
        folder = patterns / f"drawn-{place:04}"
        folder.mkdir()
        (folder / "pattern.yaml").write_text(text, encoding="utf-8")


def made(place: Path, commit: str | None, store: Path) -> Made:
    """All that the engine of a commit makes of the store; of the working tree for None."""
    lay_out(place, commit)
    checked = call(place, "check", "--root", str(store))
    sound = place / "sound"
    shutil.copytree(store, sound)
    for slug in not_knitted(checked):
        shutil.rmtree(sound / "patterns" / slug)
    out = place / "pages"
    output = call(place, "pages", str(out), "--root", str(sound))
    if not any(out.rglob("*.html")) and not any(out.rglob("*.md")):
        sys.exit(f"{place.name}: no page was made.\n{output}")
    findings = {str(n): block for n, block in enumerate(checked.split("\n\n"))}
    return {"findings": findings, **apart(out)}


def lay_out(place: Path, commit: str | None) -> None:
    """Put an engine and its command where Python finds them by their installed names."""
    place.mkdir()
    if commit is None:
        for folder in ("engine", "hooks"):
            shutil.copytree(ROOT / folder, place / folder)
    else:
        packed = subprocess.run(["git", "archive", commit, "engine", "hooks"], cwd=ROOT,
                                capture_output=True, check=True).stdout
        subprocess.run(["tar", "-x", "-C", str(place)], input=packed, check=True)
    (place / "walebook").symlink_to("engine")
    (place / "walebook_site").symlink_to("hooks")


def call(place: Path, *words: str) -> str:
    """What the command of that engine prints."""
    shadow = "import sys; sys.path.insert(0, sys.argv.pop(1)); " \
             "from walebook_site.command import main; sys.exit(main())"
    done = subprocess.run([sys.executable, "-c", shadow, str(place), *words], cwd=place,
                          capture_output=True, text=True, check=False,
                          env={**os.environ, "PYTHONHASHSEED": "0"})
    if done.returncode not in (0, 1):
        sys.exit(f"{place.name}: {done.stderr}")
    return done.stdout


def not_knitted(checked: str) -> list[str]:
    """The patterns that the last line of a check names as not knitted."""
    named = re.search(r"Not knitted: ([^.]*)\.", checked)
    return named[1].split(", ") if named else []


def apart(out: Path) -> Made:
    """What was written, its counts, sentences, drawings and markup apart."""
    kinds: Made = {kind: {} for kind in KINDS[1:]}
    for path in sorted(p for p in out.rglob("*") if p.is_file()):
        name = path.relative_to(out).as_posix()
        if path.suffix == ".json":
            counts = json.loads(path.read_text(encoding="utf-8"))
            kinds["counts"][name] = json.dumps(counts, indent=1, ensure_ascii=False)
        elif path.suffix in (".md", ".html"):
            text = path.read_text(encoding="utf-8")
            kinds["drawings"][name] = "\n".join(DRAWING.findall(text))
            bare = DRAWING.sub("\n", text)
            kinds["markup"][name] = "\n".join(TAG.findall(bare))
            kinds["sentences"][name] = "\n".join(lines(TAG.sub("\n", bare)))
    return kinds


def lines(text: str) -> Iterator[str]:
    """The lines of a text that are not empty, without blanks around them."""
    return filter(None, (line.strip() for line in text.splitlines()))


def report(before: Made, after: Made, show: int) -> int:
    """Print what differs between two makings; return 1 when something does, and 2 when there is no
    page on either side."""
    if not any(side[kind] for side in (before, after) for kind in KINDS[1:]):
        print("No page was made on either side, so nothing was compared.")
        return 2
    differs = False
    for kind in KINDS:
        old, new = before[kind], after[kind]
        if kind == "findings":  # compared as one list: a new one moves the places of the rest
            old, new = ({"check": "\n\n".join(each.values())} for each in (old, new))
        changed = [name for name in sorted({*old, *new}) if old.get(name) != new.get(name)]
        print(f"{kind}: {len(changed)} of {len({*old, *new})} differ")
        differs |= bool(changed)
        print_lines(kind, [(name, old.get(name, ""), new.get(name, "")) for name in changed], show)
    return int(differs)


def print_lines(kind: str, changed: list[tuple[str, str, str]], show: int) -> None:
    """Print the lines that differ most often, each with how often it does and one place."""
    seen: Counter[str] = Counter()
    where: dict[str, str] = {}
    for name, old, new in changed:
        for line in difflib.unified_diff(old.splitlines(), new.splitlines(), n=0, lineterm=""):
            if line[0] in "+-" and not line.startswith(("+++", "---")):
                seen[line] += 1
                where.setdefault(line, name)
    for line, times in seen.most_common(show):
        print(f"  {times:5} {line[:160]}  ({where[line]})")
    if len(seen) > show:
        print(f"  and {len(seen) - show} more lines of {kind}")


if __name__ == "__main__":
    sys.exit(main())
