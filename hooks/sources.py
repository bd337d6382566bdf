"""Pattern sources on disk become proofs, with every finding about them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from walebook.core.problems import (
    Place,
    Problem,
    Severity,
    fold_remarks,
    fold_sizes,
    in_order,
    note,
)
from walebook.pattern.collection import CollectionSettings
from walebook.pattern.fabrics import NeedleBed
from walebook.pattern.publishing import Status
from walebook.proof.proof import Proof
from walebook.proof.texts import Charts, Site, Texts, bed_of, chart_of, collection_of, prove_texts
from walebook.sizing.charts import Chart
from walebook.source.page_names import OWN_CHART
from walebook_site.dependencies import Recorded
from walebook_site.reading import COLLECTION, RECORD, Folder, Reading
from walebook_site.results import AllFindings
from walebook_site.same_titles import same_titles

if TYPE_CHECKING:
    from walebook.pages import Card


YARN = "Your Wool"  # in the first pattern of a new collection


@dataclass(frozen=True, slots=True, kw_only=True)
class Collection(AllFindings):
    """All patterns of a folder in memory, for whoever looks at their proofs."""

    proofs: tuple[Proof, ...]
    pictures: tuple[tuple[str, Path], ...] = ()

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every page and count file of the patterns: its path in the site's sources, its text."""
        from walebook.pages import write_pages  # whoever looks at proofs needs no pages
        for proof in self.proofs:
            yield from ((page.path, page.text) for page in write_pages(proof))

    def cards(self) -> tuple[Card, ...]:
        """What the list of patterns has of each."""
        from walebook.pages import pattern_card
        return tuple(map(pattern_card, self.proofs))


@dataclass(frozen=True, slots=True)
class Proved:
    """What came of a pattern's texts: `depends` names what they led to, each with its digest."""

    proof: Proof | None
    problems: tuple[Problem, ...]
    depends: Mapping[str, str]


@dataclass
class Prover:
    """Proves patterns of one root; their beds and charts are read once."""

    reading: Reading
    beds: Mapping[str, NeedleBed] = field(default_factory=dict)
    collection: CollectionSettings = field(default_factory=CollectionSettings)
    shared_problems: tuple[Problem, ...] = ()
    _charts: dict[Path, tuple[Chart | None, tuple[Problem, ...]]] = field(default_factory=dict)

    @classmethod
    def of(cls, reading: Reading) -> Prover:
        """Return a prover that has read what all patterns share: beds, and the collection's words.
        """
        beds: dict[str, NeedleBed] = {}
        problems: list[Problem] = []
        for path in reading.beds():
            text, found = reading.apart(path)
            problems += found
            if text is None:
                continue
            bed, found = bed_of(text, file=reading.name(path), name=path.stem)
            problems += found
            if bed is not None:
                beds[path.stem] = bed
        settings, found = _collection(reading)
        return cls(reading, beds, settings, (*problems, *found, *_renamed(reading, settings)))

    def prove(self, folder: Folder, look: str = "") -> Proved:
        """Return what comes of a folder's texts, with the findings of reading them.

        `look` may be the name of one size's page, for a first look at that.
        """
        if folder.source is None:
            return Proved(None, folder.problems, {})
        noted: set[str] = set()
        found = list(folder.problems)
        charts = Charts(folder.charts, lambda key: self._chart(folder.charts[key], found))
        proof, more = prove_texts(
            Texts(slug=folder.slug, source=folder.source, notes=folder.notes,
                  pictures=folder.pictures, picture_sizes=folder.picture_sizes,
                  shared=folder.shared,
                  collection=Recorded("collection", self.collection.for_patterns, noted)),
            beds=Recorded("bed", self.beds, noted), charts=Recorded("chart", charts, noted),
            site=Site(lambda path: self._is_page(path, folder, noted), _has_anchor,
                      self.reading.instead_of), look=look)
        depends = {name: self.reading.dependency(folder, name, self.collection.for_patterns)
                   for name in sorted(noted)}
        if proof is not None and not look:
            more += _misplaced(proof)
        if proof is not None and folder.record is not None and not look:
            more += self._recorded(proof, folder, folder.record, depends)
        return Proved(proof, (*found, *more), depends)

    def _recorded(self, proof: Proof, folder: Folder, record: str, depends: Mapping[str, str]
                  ) -> tuple[Problem, ...]:
        """What is found of the record of the published version."""
        from walebook.pages.recorded import recorded_findings  # only who publishes has a record
        file = f"patterns/{folder.slug}/{RECORD}"
        return (*_placeholders(proof), *recorded_findings(
            proof, record, file, self.sources_digest(folder, depends)))

    def sources_digest(self, folder: Folder, depends: Mapping[str, str]) -> str:
        """Return the digest of what the counts of a folder come from, but for Walebook and the
        beds and charts that are Walebook's."""
        from walebook.pages.recorded import sources_digest
        beds = {path.stem: path for path in self.reading.beds()}
        own = {name: digest for name, digest in depends.items()
               for kind, _, which in [name.partition(" ")]
               for path in [{"bed": beds, "chart": folder.charts}.get(kind, {}).get(which)]
               if path and path.is_relative_to(self.reading.root)}
        return sources_digest(folder.source or "", folder.shared, own)

    def _is_page(self, path: str, within: Folder, noted: set[str]) -> bool:
        noted.add(f"page {path}")
        return self.reading.is_page(path, within)

    def _chart(self, path: Path, found: list[Problem]) -> Chart | None:
        """The size chart in a file, None where it has an error; what is wrong goes to `found`."""
        if path not in self._charts:
            self._charts[path] = self._read_chart(path)
        chart, problems = self._charts[path]
        found += problems
        return chart

    def _read_chart(self, path: Path) -> tuple[Chart | None, tuple[Problem, ...]]:
        text, found = self.reading.apart(path)
        if text is None:
            return None, found
        key = path.stem if path.parent.name == "_sizes" else OWN_CHART
        chart, more = chart_of(text, file=self.reading.name(path), key=key)
        return chart, found + more


def collect(root: Path) -> Collection:
    """Return every pattern under `root`/patterns, read, planned and knitted, with all findings.

    One broken pattern does not hide another's faults. All proofs are in memory at once: a site is
    built from `proving.prove_all`, which is flat.
    """
    reading = Reading(root)
    prover = Prover.of(reading)
    slugs = reading.folders()
    made = {slug: prover.prove(reading.folder(slug)) for slug in slugs}
    titles = [(each.proof.pattern.title, each.proof.pattern.places.of("title"))
              for each in made.values() if each.proof is not None
              and each.proof.pattern.status is not Status.DRAFT]
    problems = [*reading.problems, *prover.shared_problems, *same_titles(titles),
                *(problem for each in made.values() for problem in each.problems)]
    proofs = tuple(each.proof for each in made.values() if each.proof is not None)
    return Collection(
        proofs=proofs, problems=fold_remarks(fold_sizes(in_order(problems))), lines=reading.lines,
        pictures=tuple((f"{folder}/{p.file}", root / folder / p.file) for proof in proofs
                       for folder in [f"patterns/{proof.pattern.slug}"]
                       for p in proof.pattern.pictures),
        unproved=tuple(slug for slug, each in made.items() if each.proof is None))


def _collection(reading: Reading) -> tuple[CollectionSettings, tuple[Problem, ...]]:
    """What the designer says of her whole collection, and what is wrong with it."""
    path = reading.root / COLLECTION
    if not reading.digest(path):
        return CollectionSettings(), ()
    text, found = reading.apart(path)
    if text is None:
        return CollectionSettings(), found
    settings, more = collection_of(text, file=COLLECTION, folders=frozenset(reading.names()))
    return settings or CollectionSettings(), found + more


def _placeholders(proof: Proof) -> Iterator[Problem]:
    """The yarns of a published pattern that have the name which a new collection gives."""
    for key, yarn in proof.pattern.yarns.items():
        if yarn.name == YARN:
            yield note(Severity.REMARK, "placeholder", proof.pattern.places.of(f"yarns.{key}.name"),
                       found=f'the yarn "{YARN}" in a published pattern',
                       expected="the yarn that was knitted", remedy="Write its name.")


def _renamed(reading: Reading, settings: CollectionSettings) -> Iterator[Problem]:
    """The published patterns whose folders have another name now, and no entry says so."""
    named = {one.folder for one in settings.former_patterns}
    for slug, old in reading.renamed.items():
        if old not in named:
            from walebook.words import record_text as words  # no other check needs these
            yield note(Severity.WARNING, "renamed-folder",
                       Place(f"patterns/{slug}/{RECORD}", 1, 1), found=words.renamed_folder(old),
                       expected="an address that stays",
                       remedy=words.no_copy(old) if old in reading.names()
                       else words.name_the_former(old, slug))


def _misplaced(proof: Proof) -> tuple[Problem, ...]:
    """What is found of corrections that name a place on the pages."""
    if not any(one.at for one in proof.pattern.corrections):
        return ()
    from walebook.pages.corrected_places import misplaced  # loads the pages
    return misplaced(proof)


def _has_anchor(proof: Proof, name: str) -> bool:
    from walebook.pages import has_anchor  # for links into the own page alone
    return has_anchor(proof, name)
