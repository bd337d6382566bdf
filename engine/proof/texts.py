"""The one way in: the texts of a pattern become its proof, wherever they were written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from ..core.problems import Problem, has_errors
from ..machine.records import dataclass
from ..pattern.collection import CollectionSettings
from ..pattern.fabrics import NeedleBed
from ..pattern.model import Pattern
from ..sizing.charts import Chart
from ..source import section_readers as sections
from ..source.fabric_reading import size_slug
from ..source.hard_spaces import with_plain_spaces
from ..source.page_names import SHARED
from ..source.pattern import read_bed, read_pattern
from ..source.source import parse_source
from .proof import Proof
from .verdict import judge, without_accepted

if TYPE_CHECKING:
    from ..source.own_swatch import TypedSwatch


@dataclass(frozen=True, slots=True, kw_only=True)
class Texts:
    """What a designer wrote of a pattern, and what lies beside it.

    `slug` is the last part of its address: small letters, digits and single hyphens. `notes` is
    Markdown, `pictures` the names of the picture files, each with what is wrong with it or "",
    `picture_sizes` their widths and heights [pixels] where they are known.
    `shared` is the file from which patterns of a collection take entries, "" where it has none.
    `collection` has, by key, what holds for a source without that key: a licence.
    """

    slug: str
    source: str
    notes: str = ""
    pictures: Mapping[str, str] = field(default_factory=dict)
    picture_sizes: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    shared: str = ""
    collection: Mapping[str, str] = field(default_factory=dict)

    @property
    def folder(self) -> str:
        """The pattern's folder, from the site's root."""
        return f"patterns/{self.slug}"

    @property
    def file(self) -> str:
        """What findings call the source."""
        return f"{self.folder}/pattern.yaml"


@dataclass(frozen=True, slots=True)
class Charts(Mapping[str, Chart | None]):
    """The size charts a pattern can name; one that no pattern names is never read."""

    texts: Mapping[str, object]
    read: Callable[[str], Chart | None]

    def __getitem__(self, name: str) -> Chart | None:
        return self.read(name)

    def __contains__(self, name: object) -> bool:
        return name in self.texts

    def __iter__(self) -> Iterator[str]:
        return iter(self.texts)

    def __len__(self) -> int:
        return len(self.texts)


@dataclass(frozen=True, slots=True)
class Site:
    """What the notes of a pattern may lead to.

    `is_page` says whether a path from the site's root is there that is none of the pattern's own
    pages, also one with the # of a place on it; `has_anchor` whether the proved pattern's overview
    has such an id; `instead` whether a path that is no page is a draft, and which page is most like
    it, "" for none.
    """

    is_page: Callable[[str], bool]
    has_anchor: Callable[[Proof, str], bool]
    instead: Callable[[str], tuple[bool, str]] = field(default=lambda _: (False, ""))


def prove_texts(texts: Texts, *, beds: Mapping[str, NeedleBed], charts: Mapping[str, Chart | None],
                site: Site, look: str = "") -> tuple[Proof | None, tuple[Problem, ...]]:
    """Return the proof of a pattern, None where it has an error, and every finding about it.

    `look` may be the name of a size's page: for a first look at it only this size is knitted, the
    notes are not followed, and a remark that is accepted and not found is no finding.

    Findings about `beds` and `charts` are those of whoever read them. The remarks that the source
    accepts are left out.
    """
    pattern, found = read_texts(texts, beds=beds, charts=charts)
    if pattern is None:
        return None, found
    only = next((size for size in pattern.sizes if size_slug(size) == look), None)
    proof, more = judge(pattern, only)
    found += more
    whole = proof is not None and only is None
    if proof is not None and whole:
        found += _notes(proof, texts.folder, site)
    return proof, without_accepted(pattern.places, pattern.accepted, found, proved=whole)


def read_texts(texts: Texts, *, beds: Mapping[str, NeedleBed], charts: Mapping[str, Chart | None],
               swatches: Mapping[str, TypedSwatch] = MappingProxyType({}),
               ) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """Return the pattern that the texts say, None with an error, and the findings of reading it.

    `swatches` are a reader's, by the names of fabrics: they stand in the place of the designer's.
    """
    def read(sources: Mapping[str, str]) -> tuple[Pattern | None, tuple[Problem, ...]]:
        own = replace(texts, source=sources[texts.file], shared=sources[SHARED])
        return _read(own, beds=beds, charts=charts, swatches=swatches)
    return with_plain_spaces({texts.file: texts.source, SHARED: texts.shared}, read)


def _read(texts: Texts, *, beds: Mapping[str, NeedleBed], charts: Mapping[str, Chart | None],
          swatches: Mapping[str, TypedSwatch]) -> tuple[Pattern | None, tuple[Problem, ...]]:
    node, found = parse_source(texts.source, name=texts.file)
    if node is None:
        return None, found
    notes = texts.notes
    if texts.shared or "shared" in texts.source or "shared" in notes:
        node, more = sections.with_shared(node, texts.shared)
        notes, also = sections.with_shared_texts(notes, texts.shared,
                                                 file=f"{texts.folder}/notes.md")
        found += more + also
    if node is None or has_errors(found):
        return None, found
    if swatches:
        node = sections.with_swatches(node, swatches)
    pattern, more = read_pattern(node, slug=texts.slug, beds=beds,
                                 charts=charts, notes=notes, pictures=frozenset(texts.pictures),
                                 flawed=texts.pictures, large=texts.picture_sizes,
                                 collection=texts.collection)
    return pattern, found + more


def _notes(proof: Proof, folder: str, site: Site) -> tuple[Problem, ...]:
    """What is wrong with the links and pictures of a pattern's notes and own technique pages."""
    pattern = proof.pattern
    led = "[" in pattern.notes or "<" in pattern.notes  # as Markdown or HTML has links and pictures
    if not led and not pattern.techniques:
        return ()
    from ..markup.notes_links import (  # loads what reads notes
        LinkTargets,
        notes_findings,
        technique_findings,
    )
    sizes = () if pattern.files_only else map(size_slug, pattern.sizes)
    own = {f"{folder}/{name}.html" for name in ("index", *sizes)}

    def is_page(path: str) -> bool:
        return path in own or site.is_page(path)

    def has_anchor(name: str) -> bool:
        return site.has_anchor(proof, name)

    leads = LinkTargets(is_page, has_anchor, site.instead)
    return (*(notes_findings(pattern.notes, pattern.pictures, pattern.slug, f"{folder}/notes.md",
                             leads) if led else ()),
            *technique_findings(pattern.places, pattern.slug, pattern.techniques, leads))


def chart_of(text: str, *, file: str, key: str) -> tuple[Chart | None, tuple[Problem, ...]]:
    """Return the size chart that a text says, called `key`, and all findings about `file`."""
    def read(texts: Mapping[str, str]) -> tuple[Chart | None, tuple[Problem, ...]]:
        node, found = parse_source(texts[file], name=file, example="sizes: [S, M, L]")
        if node is None or has_errors(found):
            return None, found
        chart, more = sections.read_chart(node, key=key)
        return chart, found + more
    return with_plain_spaces({file: text}, read)


def bed_of(text: str, *, file: str, name: str) -> tuple[NeedleBed | None, tuple[Problem, ...]]:
    """Return the bed that a text says, called `name`, and all findings about `file`."""
    def read(texts: Mapping[str, str]) -> tuple[NeedleBed | None, tuple[Problem, ...]]:
        node, found = parse_source(texts[file], name=file, example="pitch: 6.5 mm")
        if node is None:
            return None, found
        bed, more = read_bed(node, name=name)
        return bed, found + more
    return with_plain_spaces({file: text}, read)


def collection_of(text: str, *, file: str, folders: frozenset[str] | None = None
                  ) -> tuple[CollectionSettings | None, tuple[Problem, ...]]:
    """Return the settings of a collection that a text says, and all findings about `file`.

    `folders` are the names of its patterns' folders, None where they are not known.
    """
    def read(texts: Mapping[str, str]) -> tuple[CollectionSettings | None, tuple[Problem, ...]]:
        node, found = parse_source(texts[file], name=file, example="title: Lantern Lane")
        if node is None:
            return None, found
        settings, more = sections.read_collection(node, folders)
        return settings, found + more
    return with_plain_spaces({file: text}, read)
