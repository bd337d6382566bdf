"""The site around the patterns in a preview: built once, it renders a pattern's page when asked."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

import click
from jinja2 import Environment
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.utils import CountHandler
from walebook.pattern.collection import CM_FIRST
from walebook_site.finishing import BESIDE, WHOLE, Settings
from walebook_site.paper import paper
from walebook_site.pattern_pages import PatternFile, PatternPage
from walebook_site.results import PublishedFile
from walebook_site.single_file import FileReader, Page, one_file

NOT_SEARCHED = {"search": {"exclude": True}}


@dataclass(frozen=True, slots=True)
class PageText:
    """The text of one page, where the site builder looks for it."""

    body: str
    search: str = ""
    date: str = ""
    files_only: bool = False
    sketched: bool = False

    def text(self, path: str) -> str:
        """Return the text."""
        return self.body


@dataclass
class SiteFrame:
    """What the site builder has made of all that is no pattern: the fixed pages and files.

    Pages of patterns have these `units`, and files beside them this `language`.
    """

    config: MkDocsConfig
    files: Files
    nav: Navigation
    env: Environment
    units: str = CM_FIRST
    language: str = "en"
    _turn: threading.RLock = field(default_factory=threading.RLock)

    @property
    def site(self) -> Path:
        """The folder with the built files."""
        return Path(self.config.site_dir)

    @cached_property
    def settings(self) -> Settings:
        """What lies beside the pages."""
        return Settings.read(self.config.extra)

    def render(self, path: str, title: str, text: str, *, files_only: bool = False) -> str:
        """Return a pattern's page as it is published; `path` is that of its source.

        With `files_only` it names no files beside it.
        """
        file = PatternFile(PageText(text, files_only=files_only), PublishedFile(path, title, False),
                           self.config)
        page = PatternPage(file, self.config)
        page.meta = dict(NOT_SEARCHED)
        page.content = ""
        with self._turn:  # the site builder does one page at a time
            context = get_context(self.nav, self.files, self.config, page)
            page.active = True
            context = self.config.plugins.on_page_context(
                context, page=page, config=self.config, nav=self.nav)
            html = self.env.get_template("main.html").render(context)
            return str(self.config.plugins.on_post_page(html, page=page, config=self.config))

    def beside(self, path: str, html: Callable[[str], str | None],
               read: FileReader) -> bytes | None:
        """Return what lies beside a pattern's page, made when it is asked for; None if nothing.

        That is one page as one file, or as a PDF, or the whole pattern, as the settings have it.
        `html` gives a page of the site, `read` any of its files. Raises NoPaper.
        """
        single = self.settings.single_files and path.endswith(BESIDE)
        if not single and not (self.settings.pdf and path.endswith(".pdf")):
            return None
        folder, _, name = path.removesuffix(BESIDE if single else ".pdf").rpartition("/")
        whole = name == WHOLE and self.settings.whole_pattern

        def page(at: str) -> Page:
            return Page(at, html(at) or "")

        first = page(f"{folder}/{'index' if whole else name}.html")
        if first.facts is None:
            return None
        sizes = first.facts.sizes.values() if whole else ()
        chosen = [first, *(page(f"{folder}/{size}.html") for size in sizes)]
        return one_file(chosen, page, read, self.language).encode() if single \
            else paper(chosen, read, self.language)


def reloads() -> bool:
    """True unless the site builder's command was told not to reload pages."""
    context = click.get_current_context(silent=True)
    return context is None or context.params.get("livereload") is not False


def make_room(config: MkDocsConfig, number: int) -> None:
    """Let the site builder write this frame beside the one that is shown, and count no warnings.

    A preview is not published: a warning is printed, and stops nothing.
    """
    config.site_dir = str(Path(config.site_dir) / f"{number}")
    logger = logging.getLogger("mkdocs")
    for handler in [each for each in logger.handlers if isinstance(each, CountHandler)]:
        logger.removeHandler(handler)
