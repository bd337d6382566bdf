"""The patterns of a preview: which are known, which were changed, and which page comes first."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from walebook.core.problems import Problem
from walebook.source.page_names import SHARED
from walebook_site.provers import ProverAnswer, ProverProcess
from walebook_site.reading import Reading
from walebook_site.shown import ShownPattern, kept_entry

LOOKED = 5.0  # seconds that a page is taken to be looked at after its browser was heard of
SOON = 0.2  # seconds until changed code is asked again: it is being loaded
PATIENCE = 120.0  # seconds that a page is waited for
PreviewFindings = tuple[tuple[Problem, ...], Mapping[str, str]]
"""Findings, and the author's line of each by "file:line"."""


class Patterns:
    """All patterns of a root, proved in two processes: what is looked at first, then the rest."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.fault = ""
        self._known: dict[str, ShownPattern] = {}
        self._looked: dict[str, float] = {}
        self._open: dict[str, int] = {}
        self.changed_or_done = threading.Condition()
        self.count = 0
        """Grows whenever something is shown otherwise than before."""
        self._changes = self._shared_at = 0
        self._shared = ProverAnswer()
        self._first, self._rest = ProverProcess(root, kindly=False), ProverProcess(root,
                                                                                   kindly=True)
        self._shown_at = 0.0
        self._ended = False

    def start(self) -> None:
        """Begin to prove."""
        self.look_for_folders()
        for work in (self._prove_looked_at, self._prove_rest):
            threading.Thread(target=work, daemon=True).start()

    def stop(self) -> None:
        """End."""
        with self.changed_or_done:
            self._ended = True
            self.changed_or_done.notify_all()
        for prover in (self._first, self._rest):
            prover.stop()

    def wake(self) -> None:
        """Wake up whoever waits for something new."""
        with self.changed_or_done:
            self.count += 1
            self.changed_or_done.notify_all()

    # -- what the watcher says

    def look_for_folders(self) -> None:
        """Take note of the folders there are."""
        slugs = Reading(self.root).folders()
        with self.changed_or_done:
            for slug in self._known.keys() - set(slugs):
                del self._known[slug]
            for slug in slugs:
                if slug not in self._known:
                    self._known[slug] = ShownPattern(partial(kept_entry, self.root, slug))
            self._known = {slug: self._known[slug] for slug in slugs}
            self.changed_or_done.notify_all()

    def changed(self, slugs: Iterable[str] | None) -> None:
        """Prove these patterns again, with those that lead to them; or all."""
        with self.changed_or_done:
            self._changes += 1
            changed = set(self._known if slugs is None else slugs)
            pages = [f"patterns/{slug}/index.html" for slug in changed]
            for slug, each in self._known.items():
                if slug in changed or any(map(each.leads_to, pages)):
                    each.requested += 1
            self.changed_or_done.notify_all()

    def code_changed(self) -> None:
        """Prove all patterns again, by the changed code."""
        self._rest.stop()  # what it is at is out of date; the next one loads what is new
        self.fault = self._first.reload()
        if not self.fault:
            self.changed(None)
        self.wake()

    # -- what pages are looked at

    @contextmanager
    def looked_at(self, path: str) -> Iterator[None]:
        """A page of a pattern, by its address or its source, is open in a browser meanwhile."""
        path = source_of(path)
        with self.changed_or_done:
            self._open[path] = self._open.get(path, 0) + 1
            self._looked[path] = time.monotonic()
            self.changed_or_done.notify_all()
        try:
            yield
        finally:
            with self.changed_or_done:
                self._open[path] -= 1
                self._looked[path] = time.monotonic()

    def shown(self, slug: str, path: str = "") -> ShownPattern | None:
        """Return what is known of a pattern after its last change, a page waited for; None if none.
        """
        with self.looked_at(path), self.changed_or_done:
            self.changed_or_done.wait_for(
                lambda: self._ended or self._is_there(slug, path), PATIENCE)
            return self._known.get(slug)

    def known(self) -> Mapping[str, ShownPattern]:
        """What is known of every pattern, in the order of their names."""
        with self.changed_or_done:
            return dict(self._known)

    def shared(self) -> PreviewFindings:
        """What is wrong with files that patterns share, each finding once, and the lines of these.

        What they take from the shared file is as good as the patterns that take it say.
        """
        with self.changed_or_done:
            common = self._shared
            new = [each.now for each in self._known.values() if each.done >= each.requested]
        found, lines = dict.fromkeys(common.shared), dict(common.lines)
        for each in new:
            found |= dict.fromkeys(p for p in each.problems if p.place.file == SHARED)
            lines |= each.lines
        places = {f"{each.place.file}:{each.place.line}" for each in found}
        return tuple(found), {place: lines[place] for place in places & lines.keys()}

    @property
    def left(self) -> int:
        """How many patterns are still to be proved."""
        with self.changed_or_done:
            return sum(each.done < each.requested for each in self._known.values())

    def calm_since(self) -> float | None:
        """When the last page that is looked at became as new as its texts; None while one is not.
        """
        with self.changed_or_done:
            return None if self._wanted() else self._shown_at

    @property
    def is_idle(self) -> bool:
        """True when all there is to do is done."""
        with self.changed_or_done:
            return all(each.whole >= each.requested for each in self._known.values())

    def _is_there(self, slug: str, path: str) -> bool:
        each = self._known.get(slug)
        return each is None or bool(self.fault) or each.is_as_new(path)

    # -- the work

    def _prove_looked_at(self) -> None:
        while wanted := self._next(self._wanted):
            slug, path = wanted
            self._prove(self._first, "page", slug, path)
            self._shown_at = time.monotonic()

    def _prove_rest(self) -> None:
        while wanted := self._next(self._left_over):
            if not self._prove(self._rest, "whole", wanted[0]):
                time.sleep(SOON)

    def _next(self, choose: Callable[[], tuple[str, str] | None]) -> tuple[str, str] | None:
        with self.changed_or_done:
            found: list[tuple[str, str]] = []

            def ready() -> bool:
                one = choose()
                found[:] = [one] if one else []
                return self._ended or bool(found)

            self.changed_or_done.wait_for(ready)
            return None if self._ended else found[0]

    def _wanted(self) -> tuple[str, str] | None:
        """The page that was looked at last, of those that are not as new as their texts."""
        since = time.monotonic() - LOOKED
        for path in sorted(self._looked, key=self._looked.__getitem__, reverse=True):
            if self._open.get(path) or self._looked[path] > since:
                slug = slug_of(path)
                if slug in self._known and path and not self._is_there(slug, path):
                    return slug, path
        return None

    def _left_over(self) -> tuple[str, str] | None:
        """A pattern to be proved whole: one that is looked at, or the next; none while a page is
        waited for."""
        if self.fault or self._wanted():
            return None
        looked = [slug_of(path) for path, many in self._open.items() if many]
        for slug in [*looked, *self._known]:
            each = self._known.get(slug)
            if each is not None and each.whole < each.requested:
                return slug, ""
        return None

    def _prove(self, prover: ProverProcess, do: str, slug: str, path: str = "") -> bool:
        """Take what comes of a pattern; return False where nothing came of it."""
        with self.changed_or_done:
            known = self._known.get(slug)
            requested, changes = known.requested if known else 0, self._changes
        proved = prover.ask(do, slug, path)
        with self.changed_or_done:
            if (known is None or proved is None or self._known.get(slug) is not known
                    or self._ended):
                return False
            if not proved.fault and changes >= self._shared_at:
                self._shared, self._shared_at = proved, changes
            if requested >= known.done:  # else something newer is shown
                known.take(proved, requested)
            self.changed_or_done.notify_all()
        self.wake()
        return True


def slug_of(path: str) -> str:
    """Return the folder of the pattern that a path of the site belongs to, "" if to none."""
    parts = path.split("/")
    return parts[1] if len(parts) == 3 and parts[0] == "patterns" else ""


def source_of(path: str) -> str:
    """Return the path of the source of a page of the site; of any other file, its own."""
    return f"{path.removesuffix('.html')}.md" if path.endswith(".html") else path


def findings_of(known: Mapping[str, ShownPattern], but: str) -> dict[str, PreviewFindings]:
    """Return the findings of all patterns but one."""
    return {slug: (each.now.problems, each.now.lines) for slug, each in known.items()
            if slug != but and each.now.problems}
