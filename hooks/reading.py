"""What is read of a folder of patterns: which there are, their texts, beds, charts and pictures."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from walebook.core.problems import Place, Problem, Severity, error, note
from walebook.source.page_names import COLLECTION as COLLECTION
from walebook.source.page_names import OWN_CHART, SHARED, folder_flaw
from walebook_site.dependencies import code_digest, digest_of
from walebook_site.shipped import BEDS, CHARTS, OWN_PAGES, SITE, is_collection, layered
from walebook_site.text_files import TextFiles, is_there, pictures_beside, sizes_beside

RECORD = "published.json"
"""The counts and schedules of a pattern's published version, beside its source."""
_RECORDED = re.compile(rb'"pattern": "([a-z0-9-]+)"')
_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Folder:
    """The texts of a pattern's folder, and every finding of reading them.

    `source` is None where there is nothing to prove, `record` where no version is recorded. `own`
    is the digest of all that its pages depend on whatever the texts name: these texts and our code.
    """

    slug: str
    source: str | None = None
    notes: str = ""
    shared: str = ""
    pictures: Mapping[str, str] = field(default_factory=dict)
    picture_sizes: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    charts: Mapping[str, Path] = field(default_factory=dict)
    own: str = ""
    problems: tuple[Problem, ...] = ()
    record: str | None = None

    @property
    def is_draft(self) -> bool:
        """True where the source says that it is a draft, whatever else is wrong with it."""
        return self.source is not None and _is_draft(self.source)


@dataclass
class Reading(TextFiles):
    """What has been read so far of the patterns in a root.

    What entries of the cache depend on is looked up once: while it is read, files may change.
    """

    _pages: dict[tuple[str, bool], bool] = field(default_factory=dict)
    _drafts: dict[Path, bool] = field(default_factory=dict)

    def folders(self) -> list[str]:
        """The names of the patterns' folders, in order; with none, that is a finding.

        A source that lies beside the folders is one too.
        """
        self.problems += [_loose(path) for path in sorted((self.root / "patterns").glob("*.y*ml"))
                          if path.name != Path(COLLECTION).name and path.name[0] not in "_."]
        self.problems += [_unread(path, self.root) for folder in (BEDS, CHARTS)
                          for path in sorted((self.root / folder).glob("*.y*ml*"))
                          if path.suffix != ".yaml" and not path.name.startswith(".")]
        found = self.names()
        if not found:
            self.problems.append(error(
                "no-patterns", Place("patterns", 1, 1), found="no pattern in the folder patterns",
                expected="a folder with a pattern.yaml in it",
                remedy="Write one, such as patterns/slack-tide/pattern.yaml."))
        return found

    def names(self) -> list[str]:
        """The names of the patterns' folders, in order."""
        return list(self._names)

    @cached_property
    def _names(self) -> list[str]:
        return sorted(p.name for p in (self.root / "patterns").glob("*")
                      if p.is_dir() and not p.name.startswith(("_", ".")))

    @cached_property
    def renamed(self) -> Mapping[str, str]:
        """The names under which patterns were published, by those that their folders have."""
        found = {}
        for slug in self.names():
            record = self.root / "patterns" / slug / RECORD
            try:
                text = record.read_bytes() if record.is_file() else b""
            except OSError:  # which is found where the pattern is read
                continue
            if (name := _RECORDED.search(text)) and name[1].decode() != slug:
                found[slug] = name[1].decode()
        return found

    def folder(self, slug: str) -> Folder:
        """Return the texts of a pattern's folder."""
        folder = self.root / "patterns" / slug
        source = folder / "pattern.yaml"
        if fault := _folder_fault(slug, source, source.relative_to(self.root).as_posix()):
            return Folder(slug, problems=(fault,))
        text, found = self.apart(source)
        if text is None:
            return Folder(slug, problems=found)
        notes, own = folder / "notes.md", folder / "chart.yaml"
        notes_text, more = self.apart(notes) if is_there(notes) else ("", ())
        shared, also = self._shared(text, notes_text or "")
        record, again = self.apart(folder / RECORD) if is_there(folder / RECORD) else (None, ())
        pictures = pictures_beside(folder)
        large = sizes_beside(folder, pictures)
        depends = digest_of(code_digest(), slug, text, notes_text, shared, record,
                            sorted(pictures.items()), sorted(large.items()),
                            self.digest(own) if is_there(own) else None)
        return Folder(slug, text, notes_text or "", shared or "", pictures, large, self.charts(own),
                      depends, found + more + also + again, record)

    def _shared(self, source: str, notes: str) -> tuple[str | None, tuple[Problem, ...]]:
        """The file that patterns share, "" where this one can take nothing from it."""
        path = self.root / SHARED
        needed = "shared" in source or "<!-- shared" in notes
        return self.apart(path) if needed and is_there(path) else ("", ())

    def charts(self, own: Path) -> dict[str, Path]:
        """The files of the size charts that a pattern can name, its own among them."""
        files = layered(self.root, CHARTS)
        charts = {name: path for name, path in files.items() if name != OWN_CHART}
        return {**charts, OWN_CHART: own} if is_there(own) else charts

    def beds(self) -> list[Path]:
        """The files of the needle beds, in order."""
        return list(self._beds.values())

    @cached_property
    def _beds(self) -> Mapping[str, Path]:
        return layered(self.root, BEDS)

    def apart(self, path: Path) -> tuple[str | None, tuple[Problem, ...]]:
        """Return a file's text, None where it cannot be read, and the findings of reading it."""
        before = len(self.problems)
        text = self.text(path)
        found = tuple(self.problems[before:])
        del self.problems[before:]
        return text, found

    def dependency(self, folder: Folder, name: str, collection: Mapping[str, Any]) -> str:
        """Return the digest of what a pattern's texts can lead to, "" where it is not there.

        The names are those of `Recorded`, and "page x" for a page that notes may lead to.
        `collection` has the settings of the collection, by key: "collection x" is one of them.
        """
        kind, _, which = name.partition(" ")
        if kind == "collection":
            return str(collection.get(which, ""))
        if kind == "page":
            return f"{self.is_page(which, folder)} {self.leads_to_draft(which)}"
        if kind == "charts":
            return digest_of(*sorted(folder.charts))
        if kind == "beds":
            return digest_of(*map(self.digest, self.beds()), *self._beds)
        path = (self._beds if kind == "bed" else folder.charts).get(which)
        return self.digest(path) if path else ""

    def is_page(self, path: str, within: Folder) -> bool:
        """True for the overview of any pattern, and for a page of the site's own, where a # of a
        place behind it is on it.

        The overview of a draft is a page only for another draft: it is not published.
        """
        key = path, within.is_draft
        if key not in self._pages:
            self._pages[key] = self._is_page(path, within)
        return self._pages[key]

    def _is_page(self, path: str, within: Folder) -> bool:
        path, _, anchor = path.partition("#")
        folder, _, name = path.rpartition("/")
        if path.startswith("patterns/"):
            source = self.root / "patterns" / folder.removeprefix("patterns/") / "pattern.yaml"
            return name == "index.html" and source.is_file() and (
                within.is_draft or not self._is_draft(source))
        own = self.root / "site_src"
        if own.is_dir():
            pages = [own]
        elif is_collection(self.root):
            pages = [self.root / OWN_PAGES, SITE]
        else:
            return True  # the pages are another site builder's
        file = next((each for own in pages for each in [
            own / folder / name.replace(".html", ".md")] if each.is_file()), None)
        return file is not None and not name.endswith(".md") and (
            not anchor or has_place(self.apart(file)[0] or "", anchor))

    def leads_to_draft(self, path: str) -> bool:
        """True for a page of a draft."""
        source = (self.root / path).parent / "pattern.yaml"
        return path.startswith("patterns/") and self._is_draft(source)

    def instead_of(self, path: str) -> tuple[bool, str]:
        """Return whether a path leads to a draft, and the page whose name is most like it."""
        from walebook.core.text import nearest  # for links that lead nowhere alone
        if self.leads_to_draft(path):
            return True, ""
        folder, _, name = path.rpartition("/")
        if folder.startswith("patterns"):
            there = {slug: f"patterns/{slug}/index.html" for slug in self.folders()}
            name = folder.removeprefix("patterns/")
        else:
            own = self.root / "site_src"
            pages = [own] if own.is_dir() else [self.root / OWN_PAGES, SITE]
            there = {page.stem: f"{page.relative_to(each).as_posix()[:-3]}.html" for each in pages
                     for page in sorted((each / folder).glob("*.md"))}
            name = name.rpartition(".")[0]
        like = "" if name in there else there.get(nearest(name, there) or "", "")
        return False, "" if self.leads_to_draft(like) else like

    def _is_draft(self, source: Path) -> bool:
        if source not in self._drafts:
            self._drafts[source] = _is_draft(self.apart(source)[0] or "")
        return self._drafts[source]


def has_place(page: str, name: str) -> bool:
    """True where a page's Markdown has a place called `name`; what is filled in later may have it.
    """
    if name == "top" or f"#{name} }}" in page or f'id="{name}"' in page or "<!-- walebook:" in page:
        return True
    plain = (re.sub(r"[^\w\s-]", "", heading).strip().lower()
             for heading in re.findall(r"^#+ (.*?)(?: \{.*\})?$", page, re.MULTILINE))
    return any(re.sub(r"[-\s]+", "-", heading) == name for heading in plain)


def _is_draft(text: str) -> bool:
    if "draft" not in text:
        return False
    from walebook.source.status import is_draft  # loads what reads a source
    return is_draft(text)


def _folder_fault(slug: str, source: Path, name: str) -> Problem | None:
    """What is wrong with the folder of a pattern itself."""
    flaw = folder_flaw(slug)
    if not _SLUG.fullmatch(slug):
        flaw = "small letters, digits and single hyphens, such as slack-tide"
    if flaw:
        return error("folder-name", Place(name, 1, 1), found=f'the folder name "{slug}"',
                     expected=flaw,
                     remedy="Rename the folder: its name becomes the page's address.")
    if not is_there(source):
        like = sorted(path.name for path in source.parent.glob("[Pp]attern.*") if path.is_file())
        deeper = sorted(source.parent.glob("*/pattern.yaml"))
        if deeper and not like:
            return _too_deep(slug, deeper[0].parent.name, name)
        return error("no-source", Place(name, 1, 1), found=f"the folder {slug} without a source",
                     expected="a pattern.yaml in it",
                     remedy=f"Rename {like[0]} to pattern.yaml." if like else
                     "Write one, or start the folder's name with _ to leave it out.")
    return None


def _too_deep(slug: str, within: str, name: str) -> Problem:
    """That the folder of a pattern lies in another folder than patterns/."""
    at = f"patterns/{slug}/{within}"
    return error("no-source", Place(name, 1, 1), found=f"the folder {slug} without a source, and "
                 f"{at}/pattern.yaml a folder deeper",
                 expected="each pattern's folder in patterns/ itself",
                 remedy=f"Move {at} to patterns/{within}.")


def _unread(path: Path, root: Path) -> Problem:
    """That a bed or a chart has another ending than those that are read."""
    return note(Severity.WARNING, "no-source", Place(path.relative_to(root).as_posix(), 1, 1),
                found="a file that nothing reads", expected="a name that ends in .yaml",
                remedy=f"Rename it to {path.name.partition('.')[0]}.yaml.")


def _loose(path: Path) -> Problem:
    """That a source lies beside the folders of patterns, where nothing reads it."""
    return note(Severity.WARNING, "no-source", Place(f"patterns/{path.name}", 1, 1),
                found="a source that is in no folder, which nothing reads",
                expected="a folder for each pattern",
                remedy=f"Move it to patterns/{path.stem}/pattern.yaml.")
