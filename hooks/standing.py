"""A state of a collection that is compared: its texts, and what of the shared files they name."""

from __future__ import annotations

import html
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from walebook.source.page_names import OWN_CHART
from walebook_site.dependencies import code_digest, digest_of
from walebook_site.reading import COLLECTION, Folder, Reading
from walebook_site.shipped import OWN_PAGES, is_collection

_ESCAPED = re.compile(r"\\[xuU\r\n]")  # in YAML: a letter by its number, or a line that goes on
_WEARER = re.compile(r"^wearer:[ ]*\w+[ ]*$", re.MULTILINE)  # not the chart of the same name
_LICENCE = "\nlicence:"  # a source without such a line takes the collection's


@dataclass
class Standing:
    """The patterns of a root, in the state that is compared."""

    reading: Reading
    _folders: dict[str, Folder] = field(default_factory=dict)
    _texts: dict[str, tuple[str, str]] = field(default_factory=dict)

    @cached_property
    def slugs(self) -> tuple[str, ...]:
        """The names of its patterns' folders."""
        return tuple(self.reading.folders())

    @cached_property
    def shared(self) -> Mapping[str, str]:
        """What patterns can lead to, each with its digest: "bed mid", "chart women", "page index".

        Of a page it counts that it is there, and of a pattern's page whether it is a draft.
        """
        beds = {path.stem: path for path in self.reading.beds()}
        charts = self.reading.charts(self.reading.root / "no chart")
        files = {f"{kind} {name}": self.reading.digest(path)
                 for kind, paths in (("bed", beds), ("chart", charts))
                 for name, path in paths.items()}
        pages = {f"page {slug}": f"draft {self.folder(slug).is_draft}" for slug in self.slugs}
        for folder in ("site_src", OWN_PAGES):
            there: dict[str, list[str]] = {}
            for path in sorted((self.reading.root / folder).rglob("*.md")):
                there.setdefault(path.stem, []).append(path.as_posix().removeprefix(
                    self.reading.root.as_posix()))
            for name, paths in there.items():
                pages[f"page {name}"] = digest_of(pages.get(f"page {name}", ""), *paths)
        return files | pages

    @cached_property
    def links_are_checked(self) -> tuple[bool, bool]:
        """Whether the root has fixed pages, and whether its site is made with ours."""
        root = self.reading.root
        return (root / "site_src").is_dir(), is_collection(root)

    def folder(self, slug: str) -> Folder:
        """Return the texts of a pattern."""
        if slug not in self._folders:
            self._folders[slug] = self.reading.folder(slug)
        return self._folders[slug]

    def own(self, slug: str) -> str:
        """Return the digest of a pattern's texts; its record is no part of what is compared."""
        folder = self.folder(slug)
        chart = folder.charts.get(OWN_CHART)
        around = "" if _LICENCE in f"\n{folder.source}" else self.reading.digest(
            self.reading.root / COLLECTION)
        return digest_of(folder.source, folder.notes, folder.shared, around,
                         sorted(folder.pictures.items()), sorted(folder.picture_sizes.items()),
                         self.reading.digest(chart) if chart else None,
                         [each.code for each in folder.problems])

    def named(self, slug: str, among: Collection[str] | None = None) -> tuple[str, ...]:
        """Return which of the names in `shared`, or among those given, a pattern's texts have.

        A pattern leads to nothing whose name does not stand in its texts. A source with an escape
        that could hide a name has all.
        """
        source, everything = self._text(slug)
        escaped = _ESCAPED.search(source)
        return tuple(name for name in (self.shared if among is None else among)
                     if escaped or _stands(name, everything if is_of_page(name) else source))

    def around(self, slug: str) -> str:
        """Return the digest of what a pattern's texts can lead to, beside these texts."""
        return digest_of(code_digest(), self.links_are_checked,
                         [(name, self.shared[name]) for name in sorted(self.named(slug))])

    def _text(self, slug: str) -> tuple[str, str]:
        """The source of a pattern, and that with its notes as they are shown."""
        if slug not in self._texts:
            folder = self.folder(slug)
            source = _WEARER.sub("", f"{folder.source}\n{folder.shared}").casefold()
            notes = html.unescape(folder.notes.replace("\\", "")).casefold()
            self._texts[slug] = source, f"{source}\n{notes}"
        return self._texts[slug]


def is_of_page(name: str) -> bool:
    """Return True for the name of a page, to which notes and techniques lead."""
    return name.startswith("page ")


def _stands(name: str, text: str) -> bool:
    """True where what is named stands in a text, and not only within another name."""
    word = name.partition(" ")[2].casefold()
    return word in text and \
        re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text) is not None
