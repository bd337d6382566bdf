"""What came of the patterns: all findings, and of each pattern what lists and the site need."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from walebook.core.problems import Place, Problem, Severity, has_errors, render
from walebook_site.cache import CacheEntry, UnfitEntry

if TYPE_CHECKING:
    from walebook.pages import Card

AS_WRITTEN = "cm first"  # the units in which pages are written


@dataclass(frozen=True, slots=True, kw_only=True)
class AllFindings:
    """What was found in all patterns, the authors' own lines by file.

    `unproved` names the folders of the patterns that have errors.
    """

    problems: tuple[Problem, ...]
    lines: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    unproved: tuple[str, ...] = ()

    @property
    def is_sound(self) -> bool:
        """True when nothing stops publication."""
        return not has_errors(self.problems)

    def rendered(self) -> tuple[str, ...]:
        """Every finding as text, with its line of the source."""
        return tuple(render(p, self.lines.get(p.place.file, ())) for p in self.problems)


@dataclass(frozen=True, slots=True)
class PublishedFile:
    """A page or count file of a pattern: its path in the site's sources, its head."""

    path: str
    title: str
    searchable: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What came of one pattern that was knitted in all sizes, but for the text of its pages.

    `card` is what lists of patterns show of it, `search` what the search finds it by, as HTML,
    `news` what a feed tells of it. With `files_only` the site has no page of its sizes. Its pages
    have these `units`; its folder had the `former` names. `gone_sizes` are those that were renamed
    or withdrawn: label and page then, the label now, or else why it is gone.
    """

    slug: str
    date: str
    sizes: int
    pictures: tuple[str, ...]
    card: Mapping[str, Any] = field(default_factory=dict)
    search: str = ""
    pages: tuple[PublishedFile, ...] = ()
    files_only: bool = False
    units: str = AS_WRITTEN
    news: Mapping[str, Any] = field(default_factory=dict)
    former: tuple[str, ...] = ()
    gone_sizes: tuple[tuple[str, str, str, str], ...] = ()
    entry: CacheEntry
    again: Callable[[], CacheEntry]

    @property
    def published(self) -> tuple[PublishedFile, ...]:
        """The pages and files that the site has of it."""
        return tuple(page for page in self.pages
                     if not self.files_only or page.path.endswith(("/index.md", ".svg")))

    @property
    def sketched(self) -> bool:
        """True where the garment's sketch lies beside the pages."""
        return any(page.path.endswith(".svg") for page in self.pages)

    def text(self, path: str) -> str:
        """Return the text of a page; where the cache no longer has it, the pattern is made again.

        Raises Unfit when its sources were changed since they were read.
        """
        try:
            text = self.entry.text(path)
        except UnfitEntry:
            text = self.again().text(path)
        if not path.endswith(".md"):
            return text
        if self.former:
            from walebook.pages.page_facts import with_former  # a check writes no page
            text = with_former(text, self.former)
        if self.units == AS_WRITTEN:
            return text
        from walebook.markup.units_shown import in_units
        return in_units(text, self.units)


@dataclass(frozen=True, slots=True, kw_only=True)
class Results(AllFindings):
    """The patterns to be published, in order; the texts of their pages are read one by one.

    `collection` is what the designer says of all of them, by the fields of its settings. `drafts`
    names the folders of those that are not published. Their findings are among the `problems`, and
    stop nothing: `publishable` is True where no other pattern has an error.
    """

    root: Path
    collection: Mapping[str, Any] = field(default_factory=dict)
    patterns: tuple[Result, ...]
    drafts: tuple[str, ...] = ()
    publishable: bool

    @property
    def is_sound(self) -> bool:
        """True when nothing stops publication."""
        return self.publishable

    @property
    def pictures(self) -> tuple[tuple[str, Path], ...]:
        """The files to be published: path in the site's sources, file on disk."""
        return tuple((f"patterns/{each.slug}/{name}", self.root / "patterns" / each.slug / name)
                     for each in self.patterns for name in each.pictures)

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every page and count file that is published: its path in the site's sources, its text."""
        return ((page.path, each.text(page.path)) for each in self.patterns
                for page in each.published)

    def cards(self) -> tuple[Card, ...]:
        """What the list of patterns has of each."""
        from walebook.pages import Card  # whoever only looks for findings needs no pages
        return tuple(Card.from_json(each.card).called_before(each.former)
                     for each in self.patterns)


def as_json(problem: Problem) -> list[Any]:
    """Return a finding as JSON can hold it."""
    place = problem.place
    return [problem.severity.value, problem.code, place.file, place.line, place.column,
            problem.found, problem.expected, problem.remedy, problem.size, problem.more_sizes,
            problem.facts, problem.elsewhere, problem.of_first]


def from_json(data: list[Any]) -> Problem:
    """Return the finding that `as_json` wrote."""
    severity, code, file, line, column, found, expected, remedy, size, more, *rest = data
    facts, also, of_first = rest
    return Problem(severity=Severity(severity), code=code, place=Place(file, line, column),
                   found=found, expected=expected, remedy=remedy, size=size,
                   more_sizes=tuple(more), facts=facts, elsewhere=tuple(also), of_first=of_first)


def result_of(slug: str, entry: CacheEntry, again: Callable[[], CacheEntry],
              collection: Mapping[str, Any]) -> Result | None:
    """Return what an entry says of a pattern; None where it was not knitted.

    `collection` is what the designer says of all patterns, by the fields of its settings.
    """
    data = entry.found["pattern"]
    if data is None:
        return None
    return Result(slug=slug, date=data["date"], sizes=data["sizes"],
                  pictures=tuple(data["pictures"]), card=data.get("card", {}),
                  search=data.get("search", ""),
                  pages=tuple(PublishedFile(*page) for page in data.get("pages", ())),
                  files_only=data["files_only"], units=str(collection["units"]), news=data["news"],
                  former=names_before(collection["former"], slug),
                  gone_sizes=tuple((label, page, now, why)
                                   for label, page, now, why in data.get("gone_sizes", ())),
                  entry=entry, again=again)


def names_before(former: Iterable[Sequence[Any]], slug: str) -> tuple[str, ...]:
    """Return the names that a pattern's folder had before, the oldest first.

    `former` has the rows of a collection's former patterns: folder, title, date, the folder now.
    """
    return tuple(name for _, name in sorted((row[2], row[0]) for row in former if row[3] == slug))
