"""Pattern sources on disk: which there are, what is in them, and every finding about them."""

from __future__ import annotations

import re
from collections.abc import Mapping
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
from walebook.pattern.fabrics import Bed
from walebook.proof.proof import Proof
from walebook.proof.texts import Charts, Site, Texts, bed_of, chart_of, prove_texts
from walebook.sizing.charts import Chart
from walebook.source.garment import OWN_CHART
from walebook.source.page_names import folder_flaw
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
        key = path.stem if path.parent.name == "_sizes" else OWN_CHART
        chart, found = chart_of(text, file=path.relative_to(self.root).as_posix(), key=key)
        self.problems += found
        return chart


def _charts(reading: _Reading) -> dict[str, Path]:
    files = sorted((reading.root / "patterns" / "_sizes").glob("*.yaml"))
    return {p.stem: p for p in files if p.stem != OWN_CHART}


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
                  charts: Mapping[str, Path]) -> Proof | None:
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
    text = reading.text(source)
    if text is None:
        return None
    notes, own = folder / "notes.md", folder / "chart.yaml"
    files = {**charts, OWN_CHART: own} if is_there(own) else charts
    proof, found = prove_texts(
        Texts(slug=folder.name, source=text, pictures=pictures_beside(folder),
              notes=(reading.text(notes) or "") if is_there(notes) else ""),
        beds=beds, charts=Charts(files, lambda key: reading.chart(files[key])),
        site=Site(lambda path: _is_page(reading.root, path), _has_anchor))
    reading.problems += found
    return proof


def _is_page(root: Path, path: str) -> bool:
    """True for the overview of any pattern, and for a page of the site's own."""
    folder, _, name = path.rpartition("/")
    if path.startswith("patterns/"):
        source = root / "patterns" / folder.removeprefix("patterns/") / "pattern.yaml"
        return name == "index.html" and source.is_file()
    pages = root / "site_src"
    if not pages.is_dir():
        return True  # the pages are another site builder's
    return (pages / folder / name.replace(".html", ".md")).is_file() and not name.endswith(".md")


def _has_anchor(proof: Proof, name: str) -> bool:
    from walebook.pages import has_anchor  # for links into the own page alone
    return has_anchor(proof, name)


def _beds(reading: _Reading) -> dict[str, Bed]:
    beds: dict[str, Bed] = {}
    for path in sorted((reading.root / "patterns" / "_beds").glob("*.yaml")):
        text = reading.text(path)
        if text is None:
            continue
        bed, found = bed_of(text, file=path.relative_to(reading.root).as_posix(), name=path.stem)
        reading.problems += found
        if bed is not None:
            beds[path.stem] = bed
    return beds
