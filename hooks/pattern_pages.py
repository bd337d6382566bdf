"""Pages of patterns in the site builder: read when their template is rendered, then dropped.

The site builder reads all pages before it renders the first, and keeps them to its end. A page of
a pattern is therefore empty until its turn comes, and empty again once it is written.
"""

from __future__ import annotations

from base64 import b64decode
from collections.abc import Iterator, Mapping, MutableMapping
from pathlib import Path
from typing import Any, Protocol

import markdown
import yaml
from markdown.extensions.toc import nest_toc_tokens
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import TableOfContents, get_toc
from walebook.pages import BINARY
from walebook_site.photographs import published
from walebook_site.preview_picture import preview_tags
from walebook_site.results import PublishedFile, Results
from walebook_site.whole_blocks import take_out

_EMPTY = TableOfContents([])
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Source(Protocol):
    """What the texts of a pattern's pages are read from."""

    @property
    def search(self) -> str:
        """What the search finds the pattern by."""

    @property
    def date(self) -> str:
        """The day of the pattern's version."""

    @property
    def files_only(self) -> bool:
        """True where the site has no page of the pattern's sizes, and so nothing beside them."""

    @property
    def sketched(self) -> bool:
        """True where the garment's sketch lies beside the pages."""

    def text(self, path: str) -> str:
        """Return the text of a page."""


class PatternFile(File):
    """A file that a pattern brings to the site, read from its entry whenever it is asked for."""

    def __init__(self, result: Source, facts: PublishedFile, config: MkDocsConfig) -> None:
        super().__init__(facts.path, None, config.site_dir, config.use_directory_urls,
                         inclusion=InclusionLevel.NOT_IN_NAV)
        self.generated_by = "walebook"
        self.abs_src_path = None
        self.result = result
        self.facts = facts

    @property
    def _content(self) -> str | bytes:  # type: ignore[override]
        """The text, where the site builder looks for what is in memory; of a picture its bytes."""
        text = self.result.text(self.src_uri)
        return b64decode(text) if self.src_uri.endswith(BINARY) else text


class PictureFile(File):
    """A picture of a pattern, read and made small when the site builder writes it."""

    def __init__(self, path: str, picture: Path, config: MkDocsConfig) -> None:
        super().__init__(path, None, config.site_dir, config.use_directory_urls,
                         inclusion=InclusionLevel.NOT_IN_NAV)
        self.generated_by = "walebook"
        self.abs_src_path = None
        self.picture = picture

    @property
    def _content(self) -> bytes:  # type: ignore[override]
        return published(self.picture)


class PatternPage(Page):
    """A page of a pattern: its title is known, all else of it only while it is rendered."""

    file: PatternFile

    def __init__(self, file: PatternFile, config: MkDocsConfig) -> None:
        super().__init__(file.facts.title, file, config)
        self.update_date = file.result.date
        self.present_anchor_ids = _Anchors(file)

    def read_source(self, config: MkDocsConfig) -> None:
        """Leave the page empty: it is read when its template is rendered."""
        self.markdown = ""
        self.meta = {} if self.file.facts.searchable else {"search": {"exclude": True}}

    def render(self, config: MkDocsConfig, files: Files) -> None:
        """Take as content what the search finds the page by: its index is made from this."""
        self.content = self.file.result.search if self.file.facts.searchable else ""
        self.toc = _EMPTY

    def fill(self, headings: Headings) -> None:
        """Read the page, for its template."""
        self.meta, self.content, self.toc = headings.read(self.file.content_string)

    def tags(self) -> str:
        """Return what the page says of itself to whoever shows a link to it."""
        return preview_tags(str(self.title), str(self.meta["description"]),
                            self.canonical_url or "", self.file.result.sketched)

    def drop(self) -> None:
        """Let go of what was read."""
        self.meta, self.content, self.toc = {}, "", _EMPTY


class Headings:
    """Turns an engine's page into HTML: its headings as the site's own Markdown has them.

    The same headings stand on most pages. Each is read once, by itself, as long as that gives what
    reading a whole page gives: the first page of a build is read both ways. An extension that
    counts headings, or looks at more than one, so still has its way.
    """

    def __init__(self, config: Mapping[str, Any]) -> None:
        self._markdown = markdown.Markdown(extensions=config["markdown_extensions"],
                                           extension_configs=config["mdx_configs"] or {})
        self._known: dict[str, tuple[str, list[Any]]] = {}
        self.by_themselves: bool | None = None

    def read(self, text: str) -> tuple[MutableMapping[str, Any], str, TableOfContents]:
        """Return a page's head, its content as HTML, and its table of contents."""
        body, head = _head(text)
        blocks = take_out(body)
        html, tokens = self._convert(blocks.markdown)
        return head, blocks.put_back(html), get_toc(tokens)

    def _convert(self, text: str) -> tuple[str, list[Any]]:
        if self.by_themselves is None:
            self.by_themselves = self._whole(text) == self._by_parts(text)
        return self._by_parts(text) if self.by_themselves else self._whole(text)

    def _whole(self, text: str) -> tuple[str, list[Any]]:
        self._markdown.reset()
        html = self._markdown.convert(text)
        return html, getattr(self._markdown, "toc_tokens", [])

    def _by_parts(self, text: str) -> tuple[str, list[Any]]:
        made = [(part, self._made(part)) for part in text.split("\n\n") if part.strip()]
        tokens: list[Any] = [dict(token) for _, (_, found) in made for token in found]
        html = "".join(html + ("\n\n" if part.startswith("<") else "\n")
                       for part, (html, _) in made)
        return html.rstrip("\n"), nest_toc_tokens(tokens)

    def _made(self, part: str) -> tuple[str, list[Any]]:
        if part.startswith("# "):  # a title, which no other page has
            return self._whole(part)
        if part not in self._known:
            self._known[part] = self._whole(part)
        return self._known[part]


def _head(text: str) -> tuple[str, MutableMapping[str, Any]]:
    """The text behind a page's front matter, and what that says."""
    head, end, body = text.removeprefix("---\n").partition("\n---\n")
    return (body.lstrip("\n"), yaml.load(head, LOADER)) if end else (text, {})


class _Anchors(set[str]):
    """The ids of a page that can be linked to, found when a link to one is looked up."""

    def __init__(self, file: PatternFile) -> None:
        super().__init__()
        self._file = file

    def __contains__(self, name: object) -> bool:
        blocks = take_out(self._file.content_string)
        return name in blocks.anchors or f"{{ #{name} }}" in blocks.markdown


def pattern_files(results: Results, config: MkDocsConfig) -> Iterator[File]:
    """Yield the pages, counts and pictures of every pattern, each page with its `PatternPage`."""
    for result in results.patterns:
        for facts in result.published:
            file = PatternFile(result, facts, config)
            if file.is_documentation_page():
                PatternPage(file, config)
            yield file
    for path, picture in results.pictures:
        yield PictureFile(path, picture, config)
