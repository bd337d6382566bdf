"""Finishes the built pages: what may be loaded, what lies beside a size's page, what is kept."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cache
from html import unescape
from pathlib import Path

from walebook.source import page_names
from walebook_site.paper import paper
from walebook_site.policy import guard
from walebook_site.single_file import Page, one_file
from walebook_site.slimming import slim_html

_SIZE = re.compile(r"(?P<folder>patterns/[^/]+)/(?!index\.html)(?P<size>[^/]+)\.html")
_FIRST = re.compile(r"patterns/[^/]+/index\.html")
_EDITION = re.compile(r'<p class="wb-edition"[^>]*>(Version [^,<]+, [^.<]+)\..*?</p>', re.DOTALL)
_BY = re.compile(r'<span class="wb-by">(.*?)</span>', re.DOTALL)
_SUMMARY = re.compile(r'<p class="wb-summary"[^>]*>.*?</p>', re.DOTALL)
BESIDE = f"{page_names.BESIDE}.html"
WHOLE = page_names.WHOLE


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What is published beside the pages: set under `extra: walebook:`."""

    single_files: bool = True
    whole_pattern: bool = False
    pdf: bool = False

    @classmethod
    def read(cls, extra: Mapping[str, object]) -> Settings:
        """Return the settings of a site; raises ValueError, saying what is wrong with them."""
        given = extra.get("walebook") or {}
        known = [field.name for field in fields(cls)]
        if not isinstance(given, Mapping) or not all(
                name in known and isinstance(value, bool) for name, value in given.items()):
            raise ValueError(f"extra: walebook: takes {', '.join(known)}, each true or false")
        return cls(**given)


def finish(html: str, path: str, settings: Settings) -> str:
    """Return a page as it is published: with its running head, its files to keep, its policy."""
    size = _SIZE.fullmatch(path)
    if size:
        html = _with_running_head(html)
        html = _EDITION.sub(lambda told: told[0] + _files(size["size"], settings), html, count=1)
    elif _FIRST.fullmatch(path) and settings.whole_pattern:
        html = _SUMMARY.sub(lambda told: told[0] + _files(WHOLE, settings), html, count=1)
    return guard(slim_html(html))


def as_preview(html: str) -> str:
    """Return a page that says that it is of a preview: it saves nothing on the reader's device."""
    return html.replace("</head>", '<meta name="walebook-preview" content="yes"></head>', 1)


def _files(name: str, settings: Settings) -> str:
    """The links to what lies beside a page; nothing where nothing does."""
    whose = "all sizes" if name == WHOLE else "this size"
    links = []
    if settings.single_files:
        links.append(f'<a href="{name}{BESIDE}" download>One file to keep or hand over</a>: '
                     f"{whose}, whole, opens without a connection.")
    if settings.pdf:
        links.append(f'<a href="{name}.pdf" download>PDF for printing</a>.')
    return f'<p class="wb-hand-over">{" ".join(links)}</p>' if links else ""


def _with_running_head(html: str) -> str:
    """What stands on every printed page: at its head pattern and size left, version right; at its
    foot the designer and the licence."""
    edition = _EDITION.search(html)
    by = _BY.search(edition[0]) if edition else None
    said = (Page("", html).title, unescape(edition[1]) if edition else "",
            unescape(by[1]) if by else "")
    left, right, foot = (_as_css(text) for text in said)
    style = (f'<style class="wb-running">@page{{@top-left{{content:{left}}}'
             f"@top-right{{content:{right}}}@bottom-left{{content:{foot}}}}}</style>")
    return html.replace("</head>", f"{style}</head>", 1)


def _as_css(text: str) -> str:
    """A string of a style sheet; whatever could end it, or the element it is in, is a code."""
    return '"' + re.sub(r'[^\w ,.;:()/+–-]', lambda sign: f"\\{ord(sign[0]):x} ", text) + '"'


def publish_beside(site: Path, settings: Settings) -> None:
    """Write one file, and a PDF, beside the page of each size, where the settings ask for them.

    Raises NoPaper when PDFs are asked for and cannot be made.
    """
    read = cache(lambda path: (site / path).read_bytes())

    @cache
    def page(path: str) -> Page:
        return Page(path, (site / path).read_text(encoding="utf-8"))

    for folder, names in _by_pattern(site):
        sizes = {name: [page(f"{folder}/{name}.html")] for name in names}
        if settings.whole_pattern:
            sizes[WHOLE] = [page(f"{folder}/index.html"), *(p for (p,) in sizes.values())]
        for name, pages in sizes.items():
            if settings.single_files:
                (site / folder / f"{name}{BESIDE}").write_text(one_file(pages, page, read),
                                                               encoding="utf-8")
            if settings.pdf:
                (site / folder / f"{name}.pdf").write_bytes(paper(pages, read))


def _by_pattern(site: Path) -> Iterator[tuple[str, list[str]]]:
    """Each pattern's folder in the site, and its sizes as the first page lists them."""
    for first in sorted(site.glob("patterns/*/index.html")):
        listed = re.search(r'<ul class="wb-sizes">(.*?)</ul>', first.read_text(encoding="utf-8"),
                           re.DOTALL)
        names = re.findall(r'href="([^"/]+)\.html"', listed[1]) if listed else []
        yield first.parent.relative_to(site).as_posix(), names
