"""A state of a collection that is compared: its texts, and the digest of what patterns share."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from walebook_site.dependencies import digest_of
from walebook_site.reading import Folder, Reading
from walebook_site.shipped import OWN_PAGES


@dataclass
class Standing:
    """The patterns of a root, in the state that is compared."""

    reading: Reading
    _folders: dict[str, Folder] = field(default_factory=dict)

    @cached_property
    def slugs(self) -> tuple[str, ...]:
        """The names of its patterns' folders."""
        return tuple(self.reading.folders())

    @cached_property
    def around(self) -> str:
        """The digest of all that patterns share: beds, charts, the pages that notes may lead to."""
        root = self.reading.root
        shared = {*self.reading.beds(), *self.reading.charts(root / "no chart").values()}
        return digest_of(sorted((path.name, path.parent.name, self.reading.digest(path))
                                for path in shared), self.pages)

    @cached_property
    def pages(self) -> tuple[str, ...]:
        """The names of the pages and patterns that notes may lead to."""
        root = self.reading.root
        pages = (path.relative_to(root).as_posix() for folder in ("site_src", OWN_PAGES)
                 for path in (root / folder).rglob("*.md"))
        return (*sorted(pages), *self.slugs)

    def folder(self, slug: str) -> Folder:
        """Return the texts of a pattern."""
        if slug not in self._folders:
            self._folders[slug] = self.reading.folder(slug)
        return self._folders[slug]
