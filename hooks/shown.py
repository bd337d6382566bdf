"""What a preview knows of one pattern: what came of its texts last, and its last good pages."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from walebook_site.cache import Cache, CacheEntry, UnfitEntry, unpack
from walebook_site.former import gone_size_kept
from walebook_site.provers import ProverAnswer


@dataclass
class ShownPattern:
    """What is known of one pattern.

    `now` is what came of its texts last; `good` is the last entry without errors, `pages` are
    single pages (title, text) that are newer than it, and `missing` those that are gone. `kept`
    looks for an entry from earlier. `requested` counts changes: after so many is `done` what is
    known, `whole` what is known of all its pages, and `single` the pages in `pages`.
    """

    kept: Callable[[], CacheEntry | None]
    now: ProverAnswer = field(default_factory=ProverAnswer)
    good: CacheEntry | None = None
    pages: dict[str, tuple[str, str]] = field(default_factory=dict)
    missing: set[str] = field(default_factory=set)
    requested: int = 1
    done: int = 0
    whole: int = 0
    single: int = 0
    fault: str = ""
    version: int = 0

    def take(self, proved: ProverAnswer, requested: int) -> None:
        """Take what came of the texts after so many changes."""
        self.version += 1
        self.fault = proved.fault
        self.done = requested
        if proved.entry is not None or proved.has_errors or proved.fault:
            self.whole = requested
        if proved.fault:
            return
        self.now = proved
        if proved.has_errors:
            self.good = _held(self.good or self.kept())
        elif proved.entry is not None:
            self.good = proved.entry
            self.pages, self.missing = {}, set()
        else:
            self._take_page(proved, requested)

    def _take_page(self, proved: ProverAnswer, requested: int) -> None:
        if self.single != requested:
            self.pages, self.missing, self.single = {}, set(), requested
        if proved.missing:
            self.missing.add(proved.missing)
        else:
            self.pages[proved.page] = proved.title, proved.text

    def page(self, path: str) -> tuple[str, str] | None:
        """Return a page's title and text; None where the pattern, as it was last good, has none.

        Where a size stood that is gone, the page says so.
        """
        if path in self.pages:
            return self.pages[path]
        if path in self.missing or self.good is None:
            return None
        facts = self.good.found["pattern"]
        if path not in self.good:
            return gone_size_kept(facts, path)
        titles = {each[0]: each[1] for each in facts["pages"]}
        try:
            return titles[path], self.good.text(path)
        except UnfitEntry:
            return None

    def is_as_new(self, path: str) -> bool:
        """True when a page is as new as the texts, or cannot become so; without a path, any."""
        return self.done >= self.requested and (
            not path or self.whole >= self.requested or bool(self.fault)
            or (self.single >= self.requested and (path in self.pages or path in self.missing)))

    def leads_to(self, page: str) -> bool:
        """True where the pattern's texts lead to a page of the site."""
        return self.good is None or f"page {page}" in self.good.found["depends"]


def kept_entry(root: Path, slug: str) -> CacheEntry | None:
    """Return the last good entry that an earlier preview or build has left of a pattern."""
    folder = Cache.beside(root).folder / slug
    for path in sorted(folder.glob("*.pages"), key=lambda each: each.stat().st_mtime, reverse=True):
        try:
            entry = unpack(path.read_bytes(), path)
        except (OSError, UnfitEntry):
            continue
        if entry.found["pattern"]:
            return entry
    return None


def _held(entry: CacheEntry | None) -> CacheEntry | None:
    """The entry in memory: its file goes when others are written."""
    try:
        return unpack(entry.file.read_bytes()) if entry and entry.file else entry
    except (OSError, UnfitEntry):
        return entry
