"""Compares what two engines make of the same sources, each run by its command in a process."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Collection, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from walebook.compare.compared_facts import ComparedSide
from walebook.compare.report import Report
from walebook.core.problems import Problem
from walebook.pages.comparison import report_of
from walebook.pages.pattern_facts import NotCounts
from walebook.pages.published_side import findings_read, side_published
from walebook_site.dependencies import folder_of
from walebook_site.git_reading import NotRead, lay_out
from walebook_site.reading import COLLECTION, RECORD
from walebook_site.shipped import BEDS, CHARTS, PARTS, layered

_NAMES = (("engine", "walebook"), ("hooks", "walebook_site"))
_CALL = ("import sys; sys.path.insert(0, sys.argv.pop(1)); "
         "from walebook_site.command import main; sys.exit(main())")


@dataclass(frozen=True, slots=True)
class Published:
    """What an engine made of a store: findings by pattern, and the folder of its pages."""

    findings: dict[str, tuple[Problem, ...]]
    pages: Path

    def side(self, slug: str) -> ComparedSide:
        """Return a pattern as a side of a comparison."""
        files = {path.stem: path.read_text(encoding="utf-8")
                 for path in (self.pages / "patterns" / slug).glob("*.md")}
        counts = self.pages / "patterns" / slug / "counts.json"
        text = counts.read_text(encoding="utf-8") if counts.is_file() else ""
        return side_published(slug, text, files, self.findings.get(slug, ()))


def compare_engines(root: Path, old: str, only: Collection[str] = ()) -> tuple[Report, ...]:
    """Return the reports of the patterns of `root`, from an older engine to the one that is loaded.

    `old` is a commit of Walebook's repository, or a folder with its packages. Both engines read a
    copy of the sources, with the beds and charts that the one that is loaded has. Raises NotRead.
    """
    with ExitStack() as stack:
        work = Path(stack.enter_context(TemporaryDirectory(prefix="walebook-compare-")))
        slugs = _copied(root, work / "store", only)
        before, after = work / "before", work / "after"
        _linked(before, _folders_of(old, work))
        _linked(after, (folder_of("walebook"), folder_of("walebook_site")))
        with ThreadPoolExecutor(2) as pool:
            made = list(pool.map(lambda engine: _made(engine, work / "store"), (before, after)))
        return tuple(_reports(slugs, *made))


def _reports(slugs: Collection[str], before: Published, after: Published) -> Iterator[Report]:
    for slug in slugs:
        try:
            old, new = before.side(slug), after.side(slug)
        except NotCounts as fault:
            raise NotRead(f"the counts of {slug} cannot be read ({fault}).") from fault
        yield replace(report_of(old, new, (), lambda _: ComparedSide(slug="")), by_engine=True)


def _copied(root: Path, store: Path, only: Collection[str]) -> list[str]:
    """Copy the sources into a store, and return the names of its patterns' folders.

    The records of published versions stay behind, as in a comparison of two states: they have one
    engine's counts, and would make those of the other an error.
    """
    slugs = sorted(path.name for path in (root / "patterns").iterdir() if path.is_dir()
                   and path.name[0] not in "_." and (not only or path.name in only))
    for slug in slugs:
        shutil.copytree(root / "patterns" / slug, store / "patterns" / slug,
                        ignore=shutil.ignore_patterns(RECORD))
    for folder in (BEDS, CHARTS):
        (store / folder).mkdir(parents=True)
        for path in layered(root, folder).values():
            shutil.copy(path, store / folder / path.name)
    for name in (COLLECTION, "patterns/_shared.yaml"):
        if (root / name).is_file():
            shutil.copy(root / name, store / name)
    return slugs


def _folders_of(old: str, work: Path) -> tuple[Path, Path]:
    """The folders of an engine's two packages."""
    home = Path(old)
    if not home.is_dir():
        home = work / "old"
        home.mkdir()
        try:
            lay_out(PARTS, old, home, read=("engine", "hooks"), named=())
        except NotRead as fault:
            raise NotRead(f"{fault} The engine is sought in {PARTS}, where Walebook lies; "
                          "or name a folder that holds one.") from fault
    for names in zip(*_NAMES, strict=True):
        if all((home / name).is_dir() for name in names):
            return home / names[0], home / names[1]
    raise NotRead(f"there is no engine in {old}: it holds neither engine/ and hooks/ nor "
                  "walebook/ and walebook_site/.")


def _linked(place: Path, folders: tuple[Path, Path]) -> None:
    """Copy an engine to where Python finds it by its installed names.

    What lies beside it in a clone, and is looked for there, is ours for both.
    """
    place.mkdir()
    for (_, name), folder in zip(_NAMES, folders, strict=True):
        shutil.copytree(folder.resolve(), place / name,
                        ignore=shutil.ignore_patterns("parts"))  # what is compiled as well
    for name in ("site_src", "patterns"):
        (place / name).symlink_to(PARTS / name)


def _made(engine: Path, store: Path) -> Published:
    """All that an engine makes of the store; patterns with errors are left out of its pages."""
    try:
        data = json.loads(_call(engine, "check", "--json", "--root", str(store)))
        findings, unknit = findings_read(data), data["not_knitted"]
    except (KeyError, TypeError, ValueError) as fault:
        raise NotRead("the other engine prints no findings as JSON that can be read "
                      f"({type(fault).__name__}). Name a later commit.") from fault
    sound, pages = engine / "sound", engine / "pages"
    shutil.copytree(store, sound)
    for slug in unknit:
        shutil.rmtree(sound / "patterns" / slug)
    if any(path.name[0] not in "_." for path in (sound / "patterns").iterdir() if path.is_dir()):
        _call(engine, "pages", str(pages), "--root", str(sound))
    return Published(findings, pages)


def _call(engine: Path, *words: str) -> str:
    """What the command of an engine prints."""
    done = subprocess.run(
        [sys.executable, "-c", _CALL, str(engine), *words], cwd=engine, check=False,
        capture_output=True, text=True, encoding="utf-8",
        env={**os.environ, "WALEBOOK_CACHE": str(engine / "cache"), "PYTHONIOENCODING": "utf-8"})
    if done.returncode not in (0, 1):
        last = (done.stderr.strip() or "no reason given").splitlines()[-1]
        raise NotRead(f"the engine does not run: {last}")
    return done.stdout
