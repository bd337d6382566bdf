"""Compares two states of a collection, pattern by pattern; what was compared before is kept."""

from __future__ import annotations

import gc
from collections.abc import Collection, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from walebook.compare.report import PatternState, Report, as_json, from_json
from walebook.source.edited import with_value
from walebook_site.cache import FINDINGS, Cache, pack
from walebook_site.dependencies import digest_of
from walebook_site.git_reading import NotRead, lay_out
from walebook_site.processes import end_with_parent, import_all, process_context
from walebook_site.proving import COLLECT_AFTER, jobs
from walebook_site.reading import Reading
from walebook_site.renamed_folders import pairs_of
from walebook_site.standing import Standing, is_of_page

if TYPE_CHECKING:
    from walebook.compare.compared_facts import ComparedSide
    from walebook.compare.inputs import Input
    from walebook_site.compared_sides import Knitted

COMMIT = "HEAD"
"""What the working tree is compared with where nothing else is named."""
_COMPARED = "_compared"
_WORTH = 4  # so many patterns to compare are worth a second process, as in proving
_LARGEST_COUNTS = 64 * 1024 * 1024  # bytes of a counts.json; one of fifty sizes is a tenth of it

# In a process that compares: both states, kept from one pattern to the next.
_states: list[Comparing] = []


@dataclass
class Comparing:
    """Two states of a collection; `cache` keeps the reports, which have `steps` or not."""

    before: Standing
    after: Standing
    cache: Cache
    steps: bool

    @classmethod
    def of(cls, before: Path, after: Path, cache: Path, steps: bool) -> Comparing:
        """Return the comparison of two roots."""
        return cls(Standing(Reading(before)), Standing(Reading(after)), Cache(cache), steps)

    @cached_property
    def knitted(self) -> tuple[Knitted, Knitted]:
        """Both states with their patterns; loaded only when something is to be knitted."""
        from walebook_site.compared_sides import Knitted
        return Knitted.of(self.before), Knitted.of(self.after)

    def pairs(self, only: Collection[str]) -> list[tuple[str, str]]:
        """The names of each pattern's folder before and after, "" where there is none."""
        return [pair for pair in pairs_of(self.before, self.after)
                if not only or set(pair) & set(only)]

    def kept(self, pair: tuple[str, str]) -> Report | None:
        """The report of a pattern that is known without knitting, None where there is none."""
        if self._is_untouched(pair):
            return Report(slug=pair[1], title="", state=PatternState.SAME)
        entry = self.cache.find(_slug(pair), self._name(pair), lambda depends: True, pages=False)
        return from_json(entry.found["report"]) if entry else None

    def _is_untouched(self, pair: tuple[str, str]) -> bool:
        """True where both sides have the same texts, and what these can lead to is the same."""
        former, slug = pair
        return former == slug and self.before.own(slug) == self.after.own(slug) \
            and not self._reaches(slug, self.moved)

    def _reaches(self, slug: str, moved: Collection[str]) -> bool:
        """True where the texts of a pattern before can lead to anything that moved."""
        return self.before.links_are_checked != self.after.links_are_checked \
            or bool(self.before.named(slug, moved))

    @cached_property
    def moved(self) -> frozenset[str]:
        """The names of shared beds, charts and pages that are not the same on both sides."""
        old, new = self.before.shared, self.after.shared
        return frozenset(name for name in {*old, *new} if old.get(name) != new.get(name))

    def work(self, pair: tuple[str, str]) -> int:
        """How long a pattern takes, as far as its source tells; the longest are begun first."""
        return max(len(side.folder(name).source or "") if name else 0
                   for side, name in zip((self.before, self.after), pair, strict=True))

    def _sides(self, pair: tuple[str, str]) -> list[tuple[Standing, str]]:
        """The sides that have the pattern, each with the name of its folder there."""
        return [(side, name) for side, name in zip((self.before, self.after), pair, strict=True)
                if name]

    def _name(self, pair: tuple[str, str]) -> str:
        return digest_of(pair, self.steps, [(side.own(name), side.around(name))
                                            for side, name in self._sides(pair)])

    def report(self, pair: tuple[str, str]) -> Report:
        """Return the report of a pattern, and keep it where its sources could be read."""
        made = self._made(*pair)
        for side, name in zip(self.knitted, pair, strict=True):
            side.forget(name)
        if all(side.folder(name).source is not None for side, name in self._sides(pair)):
            self.cache.put(_slug(pair), f"{self._name(pair)}-{FINDINGS}",
                           pack({"depends": {}, "report": as_json(made)}, {}))
        return made

    def _made(self, former: str, slug: str) -> Report:
        from walebook.pages.comparison import came_or_went
        before, after = self.knitted
        if not former:
            return came_or_went(after.side(slug), PatternState.NEW)
        if not slug:
            return came_or_went(before.side(former), PatternState.GONE)
        return self._compared(former, slug)

    def _compared(self, former: str, slug: str) -> Report:
        from walebook.compare.differences import renamed_sizes
        from walebook.pages.comparison import report_of
        from walebook_site.compared_sides import inputs_between, with_inputs_back
        before, after = self.knitted
        old, new = before.side(former), after.side(slug)
        names = renamed_sizes(old, new)
        inputs, files = inputs_between(before, former, after, slug, names)
        known = former == slug and not self._reaches(slug, set(filter(is_of_page, self.moved)))

        def knit(back: frozenset[Input]) -> ComparedSide:
            """The side after the change with some inputs set back; with all of them it is known."""
            return old if known and len(back) == len(inputs) else \
                with_inputs_back(after, slug, files, back)
        made = report_of(old, new, inputs, knit, steps=self.steps)
        return made if former == slug else replace(made, former=former)


def _slug(pair: tuple[str, str]) -> str:
    """The name under which a pattern is reported."""
    former, slug = pair
    return slug or former


def compare(root: Path, before: str, after: str, only: Collection[str] = (), *, steps: bool = True
            ) -> tuple[Report, ...]:
    """Return the reports of all patterns, or of those named, from one state to another.

    A state is a commit, a tag, a folder, a counts.json, or "" for the working tree of `root`.
    Without `steps` it is said whose steps moved, and not which. Raises NotRead where a state cannot
    be read.
    """
    with ExitStack() as stack:
        counts = [_counts(root, each) for each in (before, after)]
        roots = [root if each else _laid_out(root, name, stack)
                 for name, each in zip((before, after), counts, strict=True)]
        cache = Cache.beside(root).folder / _COMPARED
        if any(counts):
            made = Comparing.of(roots[0], roots[1], cache, steps)
            return (_against_counts(made, counts[0], counts[1]),)
        return tuple(_all(Comparing.of(roots[0], roots[1], cache, steps), only))


def _all(made: Comparing, only: Collection[str]) -> Iterator[Report]:
    """The reports, in the order of the patterns; several are made at a time."""
    pairs = made.pairs(only)
    kept = {pair: report for pair in pairs if (report := made.kept(pair))}
    left = sorted((pair for pair in pairs if pair not in kept), key=made.work, reverse=True)
    many = min(jobs(), len(left))
    gc.set_threshold(COLLECT_AFTER)
    if many < 2 or len(left) < _WORTH:
        kept |= {pair: made.report(pair) for pair in left}
    else:
        roots = (made.before.reading.root, made.after.reading.root, made.cache.folder,
                 made.steps)
        import_all()
        with ProcessPoolExecutor(many, process_context(), _begin, roots) as pool:
            kept |= dict(zip(left, pool.map(_report, left), strict=True))
    yield from (kept[pair] for pair in pairs)


def _begin(before: Path, after: Path, cache: Path, steps: bool) -> None:
    end_with_parent()
    _states[:] = [Comparing.of(before, after, cache, steps)]


def _report(pair: tuple[str, str]) -> Report:
    return _states[0].report(pair)


def what_if(root: Path, slug: str, values: Sequence[tuple[str, str]], *, steps: bool = True
            ) -> Report:
    """Return the report of a pattern as it is, and as it would be with other values at some keys.

    Nothing is written. Raises NotSet where a value cannot be put into the source.
    """
    from walebook.pages.comparison import report_of
    from walebook_site.compared_sides import Knitted, with_other_source
    gc.set_threshold(COLLECT_AFTER)
    now = Knitted.of(Standing(Reading(root)))
    text = now.standing.folder(slug).source or ""
    for key, value in values:
        text = with_value(text, key, value, name=f"patterns/{slug}/pattern.yaml")
    side, inputs, knit = with_other_source(now, slug, text)
    return report_of(now.side(slug), side, inputs, knit, steps=steps)


def _laid_out(root: Path, name: str, stack: ExitStack) -> Path:
    """The folder in which a state of the collection lies."""
    if not name:
        return root
    if Path(name).is_dir():
        if not (Path(name) / "patterns").is_dir():
            raise NotRead(f"there is no folder patterns/ in {name}. Name the folder that holds it.")
        return Path(name)
    into = Path(stack.enter_context(TemporaryDirectory(prefix="walebook-compare-")))
    lay_out(root, name, into)
    if not (into / "patterns").is_dir():
        raise NotRead(f"there is no folder patterns/ in {name}. Name a later commit.")
    return into


def _counts(root: Path, name: str) -> ComparedSide | None:
    """A published counts.json as a side; None for any other state."""
    path = Path(name)
    if path.suffix != ".json":
        return None
    from walebook.pages.pattern_facts import NotCounts, side_of_counts
    try:
        if path.stat().st_size > _LARGEST_COUNTS:
            raise NotRead(f"{name} is too large for a counts.json.")
        return side_of_counts(path.read_text(encoding="utf-8"))
    except OSError as fault:
        raise NotRead(f"{name} cannot be read ({fault.strerror}).") from fault
    except NotCounts as fault:
        raise NotRead(f"{name} is no counts.json of Walebook ({fault}). Name the file that is "
                      "beside the pages of a pattern.") from fault


def _against_counts(made: Comparing, before: ComparedSide | None,
                    after: ComparedSide | None) -> Report:
    """The report where a side is a counts.json: of its pattern alone, and without causes."""
    from walebook.pages.comparison import report_of
    counts = before or after
    assert counts is not None
    slug = counts.slug
    for standing, side in ((made.before, before), (made.after, after)):
        if side is None and slug not in standing.slugs:
            raise NotRead(f"there is no pattern {slug}, of which the counts are.")
    old = before or made.knitted[0].side(slug)
    new = after or made.knitted[1].side(slug)
    if old.slug != new.slug:
        raise NotRead(f"the counts are of two patterns, {old.slug} and {new.slug}.")
    return report_of(old, new, (), lambda inputs: new)
