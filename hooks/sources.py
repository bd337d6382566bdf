"""Pattern sources on disk: which there are, what is in them, and every finding about them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from walebook.core.problems import (
    Place,
    Problem,
    error,
    fold_remarks,
    fold_sizes,
    has_errors,
    in_order,
    render,
)
from walebook.markup.notes_links import notes_findings
from walebook.pattern.model import Bed
from walebook.proof.proof import Proof
from walebook.proof.verdict import judge, without_accepted
from walebook.sizing.charts import Chart
from walebook.source.garment import OWN_CHART
from walebook.source.materials import size_slug
from walebook.source.page_names import folder_flaw
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source
from walebook_site.text_files import TextFiles, is_there, pictures_beside

_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Collection:
    """All patterns of a folder: those proved, what was found, the authors' own lines by file.

    `pictures` are files to be published: (path in the site's sources, file on disk). `unproved`
    names the folders of the patterns that have errors.
    """

    proofs: tuple[Proof, ...]
    problems: tuple[Problem, ...]
    lines: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    pictures: tuple[tuple[str, Path], ...] = ()
    unproved: tuple[str, ...] = ()

    @property
    def is_sound(self) -> bool:
        """True when nothing stops publication."""
        return not has_errors(self.problems)

    def rendered(self) -> tuple[str, ...]:
        """Every finding as text, with its line of the source."""
        return tuple(render(p, self.lines.get(p.place.file, ())) for p in self.problems)


@dataclass
class _Reading(TextFiles):
    """What has been read so far."""

    charts: dict[Path, Chart | None] = field(default_factory=dict)

    def chart(self, path: Path) -> Chart | None:
        """Return the size chart in a file, read once; None where it has an error."""
        if path not in self.charts:
            self.charts[path] = self._read_chart(path)
        return self.charts[path]

    def _read_chart(self, path: Path) -> Chart | None:
        text = self.text(path)
        if text is None:
            return None
        node, found = parse_source(text, name=path.relative_to(self.root).as_posix())
        self.problems += found
        if node is None or has_errors(found):
            return None
        key = path.stem if path.parent.name == "_sizes" else OWN_CHART
        chart, found = read_chart(node, key=key)
        self.problems += found
        return chart


@dataclass(frozen=True)
class _Charts(Mapping[str, Chart | None]):
    """The size charts a pattern can name; one that no pattern names is never read."""

    reading: _Reading
    files: Mapping[str, Path]

    def __getitem__(self, name: str) -> Chart | None:
        return self.reading.chart(self.files[name])

    def __contains__(self, name: object) -> bool:
        return name in self.files

    def __iter__(self) -> Iterator[str]:
        return iter(self.files)

    def __len__(self) -> int:
        return len(self.files)

    def beside(self, folder: Path) -> _Charts:
        """Return these charts and the one of a pattern's own folder, if it has one."""
        own = folder / "chart.yaml"
        return _Charts(self.reading, {**self.files, OWN_CHART: own}) if is_there(own) else self


def _charts(reading: _Reading) -> _Charts:
    files = sorted((reading.root / "patterns" / "_sizes").glob("*.yaml"))
    return _Charts(reading, {p.stem: p for p in files if p.stem != OWN_CHART})


def collect(root: Path) -> Collection:
    """Return every pattern under `root`/patterns, read, planned and knitted, with all findings.

    One broken pattern does not hide another's faults.
    """
    reading = _Reading(root)
    beds, charts = _beds(reading), _charts(reading)
    proofs: list[Proof] = []
    pictures: list[tuple[str, Path]] = []
    unproved: list[str] = []
    folders = sorted(p for p in (root / "patterns").glob("*")
                     if p.is_dir() and not p.name.startswith(("_", ".")))
    if not folders:
        reading.problems.append(error(
            "no-patterns", Place("patterns", 1, 1), found="no pattern in the folder patterns",
            expected="a folder with a pattern.yaml in it",
            remedy="Write one, such as patterns/slack-tide/pattern.yaml."))
    for folder in folders:
        proof = _prove_folder(reading, folder, beds, charts)
        if proof is None:
            unproved.append(folder.name)
        else:
            proofs.append(proof)
            pictures += [(f"patterns/{folder.name}/{p.file}", folder / p.file)
                         for p in proof.pattern.pictures]
    found = fold_remarks(fold_sizes(in_order(reading.problems)))
    return Collection(proofs=tuple(proofs), problems=found,
                      lines=reading.lines, pictures=tuple(pictures), unproved=tuple(unproved))


def _prove_folder(reading: _Reading, folder: Path, beds: Mapping[str, Bed],
                  charts: _Charts) -> Proof | None:
    source = folder / "pattern.yaml"
    name = source.relative_to(reading.root).as_posix()
    if not _SLUG.fullmatch(folder.name):
        reading.problems.append(error(
            "folder-name", Place(name, 1, 1), found=f'the folder name "{folder.name}"',
            expected="small letters, digits and single hyphens, such as slack-tide",
            remedy="Rename the folder: its name becomes the page's address."))
        return None
    if flaw := folder_flaw(folder.name):
        reading.problems.append(error(
            "folder-name", Place(name, 1, 1), found=f'the folder name "{folder.name}"',
            expected=flaw, remedy="Rename the folder: its name becomes the page's address."))
        return None
    if not is_there(source):
        reading.problems.append(error(
            "no-source", Place(name, 1, 1), found=f"the folder {folder.name} without a source",
            expected="a pattern.yaml in it",
            remedy="Write one, or start the folder's name with _ to leave it out."))
        return None
    before, text = len(reading.problems), reading.text(source)
    if text is None:
        return None
    node, found = parse_source(text, name=name)
    reading.problems += found
    if node is None:
        return None
    notes, beside = folder / "notes.md", pictures_beside(folder)
    pattern, found = read_pattern(
        node, slug=folder.name, beds=beds, pictures=frozenset(beside), flawed=beside,
        charts=charts.beside(folder),
        notes=(reading.text(notes) or "") if is_there(notes) else "")
    reading.problems += found
    if pattern is None:
        return None
    proof, found = judge(pattern)
    reading.problems += found
    if proof is not None:
        reading.problems += _notes(reading, proof, notes)
    reading.problems[before:] = without_accepted(pattern, reading.problems[before:],
                                                 proved=proof is not None)
    return proof


def _notes(reading: _Reading, proof: Proof, notes: Path) -> tuple[Problem, ...]:
    """What is wrong with the links and pictures of a pattern's notes."""
    pattern = proof.pattern
    own = {f"patterns/{pattern.slug}/{name}.html" for name in
           ("index", *(size_slug(size) for size in pattern.sizes))}
    pages, patterns = reading.root / "site_src", reading.root / "patterns"

    def is_page(path: str) -> bool:
        folder, _, name = path.rpartition("/")
        if path.startswith("patterns/"):
            other = (patterns / folder.removeprefix("patterns/") / "pattern.yaml").is_file()
            return path in own or (other and name == "index.html")
        if not pages.is_dir():
            return True  # the pages are another site builder's
        source = pages / folder / name.replace(".html", ".md")
        return source.is_file() and not name.endswith(".md")

    def has_anchor(name: str) -> bool:
        from walebook.pages import write_pages  # for links into the own page alone
        page = write_pages(proof)[0].text
        return f'id="{name}"' in page or f"{{ #{name} }}" in page

    return notes_findings(pattern, notes.relative_to(reading.root).as_posix(), is_page, has_anchor)


def _beds(reading: _Reading) -> dict[str, Bed]:
    beds: dict[str, Bed] = {}
    for path in sorted((reading.root / "patterns" / "_beds").glob("*.yaml")):
        text = reading.text(path)
        if text is None:
            continue
        node, found = parse_source(text, name=path.relative_to(reading.root).as_posix())
        reading.problems += found
        if node is None:
            continue
        bed, found = read_bed(node, name=path.stem)
        reading.problems += found
        if bed is not None:
            beds[path.stem] = bed
    return beds
