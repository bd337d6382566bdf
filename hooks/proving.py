"""Proves the patterns of a folder: those that changed, in several processes, and no others."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable, Iterator, Mapping
from collections.abc import Collection as Group
from dataclasses import asdict, dataclass
from functools import cached_property, partial
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

from walebook.core.problems import Place, Problem, fold_remarks, fold_sizes, has_errors, in_order
from walebook_site.cache import FINDINGS, PAGES, Cache, CacheEntry, UnfitEntry, pack, unpack
from walebook_site.dependencies import code_digest, digest_of
from walebook_site.news import news_of
from walebook_site.reading import COLLECTION, Folder, Reading
from walebook_site.results import Results, as_json, from_json, result_of
from walebook_site.same_titles import same_titles

if TYPE_CHECKING:
    from walebook_site.sources import Prover

JOBS = "WALEBOOK_JOBS"
"""The environment's name of how many processes may prove patterns; as many as processors."""
_SHARED = "_shared"
# New objects between two looks of the collector for rings of them: a proof is of lasting values
# without rings. The usual 700 took a twelfth of the processor more than 20,000; these, a tenth more
# where what was loaded is looked at again each time (measured; 3 MB more memory).
COLLECT_AFTER = 200_000
_WORTH = 4  # so many patterns to prove are worth a second process (measured: 0.1 s to start it)
Watch = Callable[[int, int, int], None]
"""Is called with patterns done, of all patterns, and of the sizes knitted so far."""


@dataclass
class Workshop:
    """Makes the entries of one root's patterns; what all of them need is read once."""

    reading: Reading
    cache: Cache
    pages: bool
    _prover: Prover | None = None

    @property
    def prover(self) -> Prover:
        """What proves; loaded only when something is to be proved."""
        if self._prover is None:
            gc.set_threshold(COLLECT_AFTER)
            from walebook_site.sources import Prover
            self._prover = Prover.of(self.reading)
        return self._prover

    def find(self, folder: Folder) -> CacheEntry | None:
        """Return a pattern's entry from the cache, if one fits."""
        if folder.source is None or folder.problems:
            return None
        return self.cache.find(folder.slug, folder.own, partial(self._fit, folder),
                               pages=self.pages)

    def _fit(self, folder: Folder, depends: Mapping[str, str]) -> bool:
        return all(self.reading.dependency(folder, name, self.collection()) == digest
                   for name, digest in depends.items())

    def make(self, folder: Folder) -> CacheEntry:
        """Prove a pattern and return its entry, kept in the cache where the texts could be read."""
        made = self.prover.prove(folder)
        found: dict[str, Any] = {"depends": dict(made.depends), "pattern": None,
                                 "problems": [as_json(each) for each in made.problems]}
        texts: dict[str, str] = {}
        if made.proof is not None:
            pattern = made.proof.pattern
            place = pattern.places.of("title")
            found["pattern"] = {"sizes": len(made.proof.sizes), "date": pattern.date,
                                "titled": [place.file, place.line, place.column],
                                "files_only": pattern.files_only, "news": news_of(pattern),
                                "pictures": [picture.file for picture in pattern.pictures]}
            if self.pages:
                from walebook_site.page_texts import pages_of
                more, texts = pages_of(made.proof)
                found["pattern"] |= more
        data = pack(found, texts)
        if folder.source is None or folder.problems:
            return unpack(data)
        kind = PAGES if self.pages else FINDINGS
        return self.cache.put(
            folder.slug, f"{folder.own}-{digest_of(*made.depends.items())[:16]}{kind}", data)

    def shared_problems(self) -> tuple[Problem, ...]:
        """Return what is wrong with the files that all patterns share."""
        return tuple(map(from_json, self._shared.found["problems"]))

    def collection(self) -> Mapping[str, Any]:
        """Return what the designer says of her whole collection, by the fields of its settings."""
        facts: Mapping[str, Any] = self._shared.found["collection"]
        return facts

    @cached_property
    def _shared(self) -> CacheEntry:
        """What came of the files that all patterns share: beds, and the collection's settings."""
        paths = [*self.reading.beds(), self.reading.root / COLLECTION]
        own = digest_of(code_digest(), self.reading.names(), self.reading.renamed,
                        *((p.stem, self.reading.digest(p)) for p in paths))
        entry = self.cache.find(_SHARED, own, lambda depends: True, pages=False)
        if entry is None:
            problems = [as_json(each) for each in self.prover.shared_problems]
            entry = self.cache.put(_SHARED, f"{own}-{FINDINGS}", pack(
                {"depends": {}, "problems": problems,
                 "collection": asdict(self.prover.collection)}, {}))
        return entry


def prove_all(root: Path, *, pages: bool, only: Group[str] = (), watch: Watch | None = None
              ) -> Results:
    """Return what came of every pattern under `root`/patterns, with `pages` their pages too.

    Where `only` names folders, no other pattern is looked at.

    A pattern whose texts, and all that they lead to, are as they were is taken from the cache.
    The others are proved one after another, or several at a time in processes of their own:
    findings and pages are the same, in the same order. One broken pattern hides no other's faults.
    """
    reading = Reading(root)
    shop = Workshop(reading, Cache.beside(root), pages)
    slugs = [slug for slug in reading.folders() if not only or slug in only]
    folders = {slug: reading.folder(slug) for slug in slugs}
    entries = {slug: entry for slug, folder in folders.items() if (entry := shop.find(folder))}
    missing = [folder for slug, folder in folders.items() if slug not in entries]
    reading.lines.clear()  # of a few files with findings they are read again
    sizes = sum(map(_sizes, entries.values()))
    for slug, entry in _made(shop, missing):
        entries[slug] = entry
        sizes += _sizes(entry)
        if watch:
            watch(len(entries), len(slugs), sizes)
    return _gathered(shop, folders, [(slug, entries[slug]) for slug in slugs])


def _sizes(entry: CacheEntry) -> int:
    pattern = entry.found["pattern"]
    return int(pattern["sizes"]) if pattern else 0


def _gathered(shop: Workshop, folders: Mapping[str, Folder],
              entries: list[tuple[str, CacheEntry]]) -> Results:
    reading = shop.reading
    drafts = tuple(slug for slug, folder in folders.items() if folder.is_draft)
    common = [*reading.problems, *shop.shared_problems(), *same_titles(
        (made["news"]["title"], Place(*made["titled"])) for slug, entry in entries
        for made in [entry.found["pattern"]] if made and slug not in drafts)]
    found = {slug: [from_json(data) for data in entry.found["problems"]] for slug, entry in entries}
    problems = fold_remarks(fold_sizes(in_order([*common, *chain(*found.values())])))
    for file in {problem.place.file for problem in problems} - reading.lines.keys():
        if (reading.root / file).is_file():
            reading.apart(reading.root / file)
    collection = shop.collection()
    made = [(slug, result_of(slug, entry, partial(_again, shop.reading.root, folders[slug]),
                             collection)) for slug, entry in entries]
    return Results(root=reading.root, collection=collection, problems=problems,
                   lines=reading.lines, drafts=drafts,
                   patterns=tuple(result for slug, result in made
                                  if result is not None and slug not in drafts),
                   publishable=not has_errors([*common, *chain(*(
                       each for slug, each in found.items() if slug not in drafts))]),
                   unproved=tuple(slug for slug, result in made if result is None))


def _again(root: Path, folder: Folder) -> CacheEntry:
    """Make an entry with pages anew, its file having been lost."""
    reading = Reading(root)
    now = reading.folder(folder.slug)
    if now.own != folder.own:
        raise UnfitEntry(f"patterns/{folder.slug} was changed while its pages were being written")
    return Workshop(reading, Cache.beside(root), True).make(now)


def jobs() -> int:
    """Return how many processes may work at a time."""
    given = os.environ.get(JOBS, "")
    if given.isdecimal() and int(given):
        return int(given)
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not every system can bind a process to some of its processors
        return os.cpu_count() or 1


def _made(shop: Workshop, missing: list[Folder]) -> Iterator[tuple[str, CacheEntry]]:
    """The entries of these patterns, each as soon as it is made."""
    if min(jobs(), len(missing)) < 2 or len(missing) < _WORTH:
        yield from ((folder.slug, shop.make(folder)) for folder in missing)
    else:
        from walebook_site.processes import made_in_processes
        yield from made_in_processes(shop, missing, min(jobs(), len(missing)))
