"""Makes one file of a page and all it needs, to keep, hand over or sell: it asks for nothing."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from html import escape, unescape
from mimetypes import guess_type
from pathlib import Path
from posixpath import dirname, join, normpath, splitext
from urllib.parse import unquote, urldefrag, urlparse

from walebook.words.site_files import about_file
from walebook_site.facts import BuiltPageFacts, facts_in
from walebook_site.policy import guard
from walebook_site.running_head import running_head

FileReader = Callable[[str], bytes]
"""Returns what is in a file of the built site; raises OSError where there is none."""

READING = re.compile(r"(techniques|bands|closings)/(?!index\b)[^/]+\.html|abbreviations\.html"
                     r"|cautions\.html|reading\.html")
"""The pages that go into the file when a page links to them."""

_ARTICLE = re.compile(r"<article\b[^>]*>")
_BODY = re.compile(r"<body\b[^>]*>")
_TITLE = re.compile(r"<h1\b[^>]*>(.*?)</h1>", re.DOTALL)
_FOR_DESIGNERS = re.compile(r'<h2\b[^>]* id="source"')
_ENDS = re.compile(r"<h2\b|</article>")
_LEVEL = re.compile(r"(</?h)([2-6])\b")
_ANCHORS = re.compile(r'<a class="headerlink".*?</a>', re.DOTALL)
_LINK = re.compile(r'<a\b([^>]*?)\shref="([^"]*)"([^>]*)>(.*?)</a>', re.DOTALL)
_IDS = re.compile(
    r'(\s(?:id|for|headers|aria-labelledby|aria-describedby|aria-controls)=")([^"]+)"')
_STEPS = re.compile(r"(?<=<li id=)([\w-]+)")  # a built page leaves the quotes out
_WITHIN = re.compile(r'(url\(#|<use[^>]* href="#)')
_SOURCE = re.compile(r'(<img\b[^>]*?\ssrc=")([^"]+)"')
_FACE = re.compile(r'url\("(fonts/[^"]+)"\)')
_STYLE = re.compile(r'<link rel="stylesheet" href="([^"]+)"')
_SCRIPT = re.compile(r'<script src="([^"]+)"')
_NOT_FOR_ONE_FILE = re.compile(
    r"assets/(keep|keep-worker|search|my-gauge)\.([0-9a-f]+\.)?(js|css)$")
_THERE = re.compile(r'<span class="?wb-there"?>(.*?)</span>', re.DOTALL)
_EMPTY = re.compile(r"<li>\s*</li>\s*")
_OUTSIDE = ("http", "https", "mailto", "data")


@dataclass(frozen=True)
class Page:
    """A built page: its path in the site and its HTML."""

    path: str
    html: str

    @cached_property
    def article(self) -> str:
        """The text of the page, without the frame of the site around it."""
        found = _ARTICLE.search(self.html)
        if not found:
            return ""
        end = self.html.find("</article>", found.end())
        return _ANCHORS.sub("", self.html[found.end():end]) if end >= 0 else ""

    @cached_property
    def links(self) -> tuple[str, ...]:
        """The paths of the site that the page's text links to, in its order, each once."""
        targets = dict.fromkeys(target for _, target, _, _ in _LINK.findall(self.article))
        return tuple(dict.fromkeys(self.at(target) for target in targets
                                   if urlparse(target).scheme not in _OUTSIDE))

    @cached_property
    def own_techniques(self) -> tuple[str, ...]:
        """The sections of other pages, as path#id, that steps link to for how a thing is done,
        where the designer tells it: each once."""
        found = ((self.at(target), urldefrag(target)[1]) for before, target, after, _ in
                 _LINK.findall(self.article) if "wb-how" in before + after
                 and urlparse(target).scheme not in _OUTSIDE)
        return tuple(dict.fromkeys(f"{path}#{anchor}" for path, anchor in found if anchor
                                   and path != self.path and not READING.fullmatch(path)))

    def section(self, anchor: str) -> Page:
        """Return the section under the heading with this id, up to the next of its level, as a
        page. Raises ValueError where the page has no such heading."""
        start = self.article.index(f' id="{anchor}"')
        start = self.article.rindex("<h", 0, start)
        level = self.article[start:start + 3]
        end = self.article.find(level, start + 3)
        text = self.article[start:end if end >= 0 else None]
        higher = int(level[2]) - 1
        return Page(f"{self.path}#{anchor}", "<article>" + _LEVEL.sub(
            lambda one: f"{one[1]}{int(one[2]) - higher}", text) + "</article>")

    def for_knitters(self) -> Page:
        """Return the page without the section on how designers write it in a source."""
        found = _FOR_DESIGNERS.search(self.html)
        if not found:
            return self
        end = _ENDS.search(self.html, found.end())
        return Page(self.path, self.html[:found.start()] + self.html[end.start() if end else len(
            self.html):])

    @cached_property
    def facts(self) -> BuiltPageFacts | None:
        """The facts of a pattern's page."""
        return facts_in(self.html)

    @cached_property
    def title(self) -> str:
        """The page's first heading, as text."""
        if self.facts:
            return self.facts.heading
        found = _TITLE.search(self.article)
        return unescape(re.sub(r"<[^>]+>", "", found[1])).strip() if found else self.path

    def at(self, target: str) -> str:
        """Return the path in the site that a link of this page leads to."""
        address = unquote(urldefrag(target.split("?")[0])[0])
        return normpath(join(dirname(self.path), address)) if address else self.path

    def assets(self, kind: re.Pattern[str]) -> list[str]:
        """Return the paths of the styles or scripts of our own that the page names."""
        named = (self.at(target) for target in kind.findall(self.html))
        return [path for path in named if not _NOT_FOR_ONE_FILE.match(path)]


def page_at(site: Path, path: str) -> Page:
    """Return a page of the built site."""
    return Page(path, (site / path).read_text(encoding="utf-8"))


def linked(page: Page) -> list[str]:
    """Return the pages of the site that tell how to do what this page names, in its order."""
    return [path for path in page.links if READING.fullmatch(path)]


def article_within(page: Page, prefixes: Mapping[str, str], read: FileReader | None) -> str:
    """Return the article of a page as a part of one file.

    `prefixes` has, for every page that is in the file, what its ids begin with, so that none
    stands twice. A link to one of them leads within the file; a link to any other page is left as
    its text. Pictures are put into the text when `read` is given.
    """
    own = prefixes[page.path]
    within = {path: prefixes[path] for path in (page.path, *page.links, *page.own_techniques)
              if path in prefixes}
    return _made(page, own, tuple(within.items()), read) if own else _linked(page, within, read)


@lru_cache(maxsize=256)
def _made(page: Page, own: str, within: tuple[tuple[str, str], ...],
          read: FileReader | None) -> str:
    """A page with `own` before its ids: reading, which is alike in the files of many sizes."""
    article = _linked(page, dict(within), read)
    article = _IDS.sub(lambda ids: ids[1] + " ".join(own + i for i in ids[2].split()) + '"',
                       _STEPS.sub(r'"\1"', article))
    return _WITHIN.sub(lambda start: start[1] + own, article)


def _linked(page: Page, prefixes: Mapping[str, str], read: FileReader | None) -> str:
    article = _LINK.sub(lambda link: _within(page, link, prefixes),
                        _EMPTY.sub("", _THERE.sub(lambda some: _there(page, some, prefixes),
                                                  page.article)))
    if read:
        article = _SOURCE.sub(lambda img: f'{img[1]}{_as_data(page.at(img[2]), read)}"', article)
    return article


def _there(page: Page, some: re.Match[str], prefixes: Mapping[str, str]) -> str:
    """Words that only lead on: "" where none of their links leads to a part of the file."""
    leads = any(page.at(target) in prefixes for _, target, _, _ in _LINK.findall(some[1]))
    return some[1] if leads else ""


def _within(page: Page, link: re.Match[str], prefixes: Mapping[str, str]) -> str:
    before, target, after, text = link.groups()
    if urlparse(target).scheme in _OUTSIDE:
        return link[0]
    path, anchor = page.at(target), urldefrag(target)[1]
    if path not in prefixes and f"{path}#{anchor}" in prefixes:
        path = f"{path}#{anchor}"
    if path not in prefixes:
        kind = re.search(r'\bclass=(?:"([^"]*)"|([\w-]+))', before + after)
        looks = f" {kind[1] or kind[2]}" if kind else ""
        return f'<span class="wb-elsewhere{looks}">{text}</span>'
    place = f"{prefixes[path]}{anchor}" if anchor else section_id(path)
    return f'<a{before} href="#{place}"{after}>{text}</a>'


def section_id(path: str) -> str:
    """Return the id of the part of the file that holds a page."""
    return "in-" + splitext(path)[0].replace("/", "-")


def parts(pages: Iterable[Page], read_page: Callable[[str], Page]) -> list[Page]:
    """Return the pages themselves and, behind them, those that they link to for reading."""
    chosen = list(pages)
    more = dict.fromkeys(path for page in chosen for path in (*linked(page), *page.own_techniques))
    own = {p.path for p in chosen}
    return chosen + [_read(path, read_page) for path in more if path.partition("#")[0] not in own]


def _read(path: str, read_page: Callable[[str], Page]) -> Page:
    whole, _, anchor = path.partition("#")
    return read_page(whole).section(anchor) if anchor else read_page(path).for_knitters()


def one_file(pages: Sequence[Page], read_page: Callable[[str], Page], read: FileReader,
             language: str = "en") -> str:
    """Return pages, and the reading they link to, as one HTML document with its policy.

    The ids of a page alone stay as they are, so that what is kept about a step is found again; of
    several pages, a script gives them back to the one that is shown. `language` is that of the
    collection, as HTML names it.
    """
    first = pages[0]
    together = parts(pages, read_page)
    prefixes = {page.path: f"{section_id(page.path)}--" for page in together}
    if len(pages) == 1:
        prefixes[first.path] = ""
    sections = "\n".join(
        f'<section class="wb-part{" wb-size-part" if page in pages[1:] else ""}" '
        f'id="{section_id(page.path)}">\n{article_within(page, prefixes, read)}\n</section>'
        for page in together)
    body = _BODY.search(first.html)
    return guard(
        f'<!doctype html>\n<html lang="{language}" class="wb-alone">\n'
        '<head><meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width,initial-scale=1">\n'
        f"<title>{escape(first.title, quote=False)}</title>\n{_icon(read)}\n"
        f"{_styles(pages, read)}\n</head>\n"
        f'{body[0] if body else "<body>"}\n<main class="md-typeset">\n'
        f"{_about(together, len(pages))}\n{sections}\n</main>\n{_scripts(pages, read)}\n"
        "</body>\n</html>\n", alone=True)


def _about(together: Sequence[Page], own: int) -> str:
    """What this file is and what is behind the steps: told once, at its head."""
    facts = together[0].facts
    return about_file((facts.version, facts.date) if facts else None,
                      ((section_id(page.path), page.title) for page in together[own:]))


def styles(pages: Sequence[Page], read: FileReader) -> str:
    """Return all of our own styles that pages name as one text, the typefaces within it."""
    text = "\n".join(_text(path, read) for path in ("assets/alone.css", *_named(pages, _STYLE)))
    return _FACE.sub(lambda face: f'url("{_as_data(f"assets/{face[1]}", read)}")', text)


def _named(pages: Sequence[Page], kind: re.Pattern[str]) -> list[str]:
    """What pages name, in its order: the second has all that the first has, and the bench."""
    return list(dict.fromkeys(path for page in pages[:2] for path in page.assets(kind)))


def _styles(pages: Sequence[Page], read: FileReader) -> str:
    return f"<style>{styles(pages, read)}</style>{running_head(pages[0].facts)}"


def _scripts(pages: Sequence[Page], read: FileReader) -> str:
    """Scripts as text; an end tag within one would end it too soon."""
    paths = (["assets/one-size.js"] if len(pages) > 1 else []) + _named(pages, _SCRIPT)
    return "\n".join("<script>" + _text(path, read).replace("</script", "<\\/script") + "</script>"
                     for path in paths)


def _icon(read: FileReader) -> str:
    return f'<link rel="icon" href="{_as_data("assets/walebook-mark.svg", read)}">'


def _text(path: str, read: FileReader) -> str:
    return read(path).decode("utf-8").strip()


def _as_data(path: str, read: FileReader) -> str:
    kind = guess_type(path)[0] or "application/octet-stream"
    return f"data:{kind};base64,{b64encode(read(path)).decode()}"
