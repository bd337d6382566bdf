"""The record of a published version, and what is found of it: counts that moved under a version."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace
from hashlib import sha256
from typing import Any

from ..compare.compared_facts import ComparedSide, Fact, FactKey, FactKind
from ..compare.differences import (
    FactDifference,
    declared_names,
    differences,
    renamed_sizes,
    with_sizes,
)
from ..compare.versions import has_risen, next_version, numbers, part_that_rises
from ..core.problems import Place, Problem, Severity, error, note
from ..machine.records import dataclass
from ..pattern.corrections import Correction
from ..proof.proof import Proof
from ..source.source import parse_source, plain
from ..words import record_text as words
from .shown_counts import counts_and_shapings, titles_of

FORM = 1  # of the record; a change that a reader must know of raises it
_KINDS = {"counts": FactKind.COUNT, "schedules": FactKind.SCHEDULE}
# Keys of a source that no count depends on.
_TEXTS = ("title", "version", "date", "designer", "licence", "summary", "status", "publish",
          "skills", "pictures", "corrections", "withdrawn_sizes", "accepted", "contact")


@dataclass(frozen=True, slots=True)
class Moved:
    """What differs between a published version, `before`, and a proof.

    `likely_names` has the new label of each size that looks renamed, and is not said to be.
    """

    before: str
    after: str
    found: tuple[FactDifference, ...]
    side: ComparedSide
    sources_moved: bool
    likely_names: Mapping[str, str]

    @property
    def wanted(self) -> str:
        """The version that what moved takes, the least one."""
        return next_version(self.before, part_that_rises(self.found))

    @property
    def has_risen(self) -> bool:
        """True where the version rose as far as what moved takes, or nothing moved."""
        return (numbers(self.after) >= numbers(self.before) and not self.found) or has_risen(
            self.before, self.after, part_that_rises(self.found))

    @property
    def concerned(self) -> tuple[str, ...]:
        """The sizes there are whose counts moved; one that came or went as a whole is none."""
        moved = {one.key.size for one in self.found if one.key.place or not one.is_whole}
        return tuple(size for size in self.side.sizes if size in moved)

    def since(self, corrections: Iterable[Correction]) -> tuple[Correction, ...]:
        """The corrections that name a version since the published one."""
        return tuple(one for one in corrections if one.version
                     and numbers(self.before) < numbers(one.version) <= numbers(self.after))

    def uncorrected(self, corrections: Iterable[Correction]) -> tuple[str, ...]:
        """The sizes whose counts moved, and that no correction since the published version has."""
        named = self.since(corrections)
        return tuple(size for size in self.concerned
                     if not any(one.concerns(size) for one in named))

    def as_before(self, corrections: Iterable[Correction]) -> tuple[str, ...]:
        """The sizes whose counts are those of the published version, where corrections since then
        are of all sizes and none names the sizes that moved."""
        if any(one.sizes for one in self.since(corrections)):
            return ()
        new = {one.key.size for one in self.found if one.is_whole and not one.key.place}
        return tuple(size for size in self.side.sizes if size not in {*self.concerned, *new}) \
            if self.concerned else ()

    @property
    def draft(self) -> tuple[Correction, ...]:
        """The draft of the correction, in as many as its texts take; none where nothing moved."""
        if not self.found:
            return ()
        every, moved = self.side.sizes, {one.key.size for one in self.found}
        sizes = () if moved >= set(every) else tuple(size for size in every if size in moved)
        one = Correction(date="", text="", version=self.after if self.has_risen else self.wanted,
                         sizes=sizes)
        return tuple(replace(one, text=text) for text in
                     words.corrections_text(every, self.found, self.side.titles))


def sources_digest(source: str, shared: str, others: Mapping[str, str]) -> str:
    """Return the digest of what a pattern's counts come from: its source without the texts of its
    head, the file it shares, and the digests of `others` by their names."""
    tree = plain(parse_source(source, name="")[0])
    kept = {key: value for key, value in tree.items() if key not in _TEXTS} \
        if isinstance(tree, dict) else tree
    return _digest([kept, shared, dict(others)])


def record_of(proof: Proof, sources: str) -> str:
    """Return the record of a version: every count and schedule as it is shown, a line a part."""
    side, facts = _shown(proof), {}
    for group, kind in _KINDS.items():
        facts[group] = {size: _places(side, size, kind) for size in side.sizes}
    record = {"record_version": FORM, "pattern": side.slug, "version": side.version,
              "sources": sources, "sizes": list(side.sizes), **facts}
    lines = [f'{_json(key)}: {_laid_out(value)}' for key, value in record.items()]
    return "{" + ",\n".join((*lines, f'"digest": "{_digest(record)}"')) + "}\n"


def _places(side: ComparedSide, size: str, kind: FactKind) -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = {}
    for key, fact in side.facts.items():
        if (key.size, key.kind) == (size, kind):
            found.setdefault(key.place, {})[key.name] = fact.shown
    return found


def _laid_out(value: Any) -> str:
    """A size's pieces and bands on a line each, so that a change is seen line by line."""
    if not isinstance(value, dict):
        return _json(value)
    sizes = (",\n".join(f"{_json(place)}: {_json(named)}" for place, named in places.items())
             for places in value.values())
    return "{\n" + ",\n".join(f"{_json(size)}: {{{each}}}"
                              for size, each in zip(value, sizes, strict=True)) + "}"


_json = json.JSONEncoder(ensure_ascii=False).encode


def _digest(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=False, sort_keys=True)
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def moved_since(proof: Proof, text: str, sources: str) -> Moved | None:
    """Return what moved since the version that a record is of; None for no sound record.

    A count that the record does not name, while the sources are as they were, is one that Walebook
    names since then: nothing moved.
    """
    try:
        record = json.loads(text)
        digest = record.pop("digest")
        if digest != _digest(record) or record["record_version"] != FORM:
            return None
        old = ComparedSide(slug=record["pattern"], version=record["version"],
                           sizes=tuple(record["sizes"]),
                           facts=dict(_facts(record)), kinds=frozenset(_KINDS.values()))
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError):
        return None
    side = _shown(proof)
    old = with_sizes(old, declared_names(old, side))
    found, again = differences(old, side), record["sources"] != sources
    if not again:
        found = tuple(one for one in found if one.before is not None or one.is_whole)
    return Moved(old.version, side.version, found, side, again, renamed_sizes(old, side))


def _facts(data: Mapping[str, Any]) -> list[tuple[FactKey, Fact]]:
    return [(FactKey(size, kind, place, name), Fact(shown, shown))
            for group, kind in _KINDS.items() for size, places in data[group].items()
            for place, named in places.items() for name, shown in named.items()]


def _shown(proof: Proof) -> ComparedSide:
    """The counts and schedules of a proof, each by what is shown of it."""
    pattern = proof.pattern
    facts = {key: Fact(fact.shown, fact.shown) for key, fact in counts_and_shapings(proof)}
    return ComparedSide(slug=pattern.slug, version=pattern.version,
                        sizes=tuple(size.size for size in proof.sizes), facts=facts,
                        titles=titles_of(proof), kinds=frozenset(_KINDS.values()),
                        former_sizes=pattern.former_sizes)


def _gone(moved: Moved, proof: Proof) -> list[str]:
    """The sizes that were published and are neither there nor withdrawn."""
    named = {one.label for one in proof.pattern.withdrawn_sizes}
    return [one.key.size for one in moved.found
            if one.is_whole and not one.key.place and one.after is None
            and one.key.size not in named]


def recorded_findings(proof: Proof, text: str, file: str, sources: str) -> tuple[Problem, ...]:
    """Return what is found where a published version has a record, the `text` of a `file`.

    Counts that moved under the same version are an error; where `sources` are as they were, and so
    an update of Walebook moved them, a caution.
    """
    moved = moved_since(proof, text, sources)
    if moved is None:
        return (error("bad-record", Place(file, 1, 1), found=words.NOT_AS_WRITTEN,
                      expected=words.AS_WRITTEN, remedy=words.TAKE_AGAIN),)
    place, slug = proof.pattern.places.of("version"), proof.pattern.slug
    if numbers(moved.after) < numbers(moved.before):
        return (error("version-rise", place, found=words.below_text(moved.before, moved.after),
                      expected=words.at_least(moved.before), remedy=words.RAISE_AGAIN),)
    if not moved.found:
        return ()
    gone = _gone(moved, proof)
    wanted, titles = words.at_least(moved.wanted), moved.side.titles
    if numbers(moved.after) > numbers(moved.before):
        if moved.has_risen:
            return _of_corrections(moved, proof)
        return (note(Severity.WARNING, "version-rise", place, expected=wanted,
                     found=words.rise_text(moved.before, moved.after, moved.found, titles),
                     remedy=words.write_correction(slug, gone, moved.likely_names)),)
    found = words.moved_text(moved.before, moved.found, titles)
    if not moved.sources_moved:
        return (note(Severity.CAUTION, "count-moved", place, found=found, expected=wanted,
                     remedy=words.tool_moved(slug)),)
    return (error("count-moved", place, found=found, expected=wanted,
                  remedy=words.write_correction(slug, gone, moved.likely_names)),)


def _of_corrections(moved: Moved, proof: Proof) -> tuple[Problem, ...]:
    """What is found of the corrections of a version that rose far enough."""
    given, place, slug = proof.pattern.corrections, proof.pattern.places.of("version"), \
        proof.pattern.slug
    if left := moved.uncorrected(given):
        of = left if moved.since(given) else ()
        return (note(Severity.CAUTION, "no-correction", place,
                     expected=words.named(moved.after, of),
                     found=words.moved_text(moved.before, moved.found, moved.side.titles),
                     remedy=words.write_this(slug, moved.draft[0])),)
    if same := moved.as_before(given):
        return (note(Severity.REMARK, "correction-sizes", place,
                     found=words.of_all_sizes(moved.before, moved.after, same),
                     expected=words.OF_SIZES, remedy=words.name_sizes(moved.concerned)),)
    return ()
