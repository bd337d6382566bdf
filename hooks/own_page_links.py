"""Bad links in a collection's own pages, as findings with their places.

They are those that the site builder warns of, in its words and without a line.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import markdown
from markdown.treeprocessors import Treeprocessor
from mkdocs.utils.meta import get_data
from walebook.core.problems import Place, Problem, Severity, error, note
from walebook.core.text import clip, nearest
from walebook_site.reading import Reading
from walebook_site.shipped import OWN_PAGES, SITE

_PATTERNS = "patterns/"  # pages that are made: of these only the first of each pattern is known
_ID = re.compile(r"""\b(?:id|name)=["']?([^"'\s>]+)""")
_GO = "Links are written from this file to another one, such as techniques/index.md."
PageParser = markdown.Markdown


class _Links(Treeprocessor):
    """Gathers what links and pictures lead to, in order; HTML of the page's own is not among it."""

    def run(self, root: Any) -> None:
        """Note the address of every link and picture."""
        self.found = [url for each in root.iter() for url in [
            each.get({"a": "href", "img": "src"}.get(each.tag, ""))] if url]


def page_link_findings(root: Path, extensions: list[str], settings: Mapping[str, Any], *,
                       strict: bool) -> Iterator[Problem]:
    """Yield what is wrong with the links of a root's own pages: errors where the build is `strict`.

    `extensions` are those of the Markdown of its pages, with their `settings` by name. Raises what
    they raise where they cannot be loaded.
    """
    own, reading = root / OWN_PAGES, Reading(root)
    for path in sorted(own.rglob("*.md")):
        text, _ = reading.apart(path)
        parts = path.relative_to(own).parts
        if text is None or any(part.startswith(".") for part in parts):
            continue
        body, _ = get_data(text)
        parser = PageParser(extensions=extensions, extension_configs=dict(settings))
        links = _Links(parser)
        parser.treeprocessors.register(links, "walebook-links", 0)
        parser.convert(body)
        at = text.find(body)
        for target in links.found:
            place = text.find(target, at)
            at = place + len(target) if place >= 0 else at
            wrong, instead = _wrong(target, "/".join(parts), reading)
            if wrong:
                *before, last = text[:max(place, 0)].split("\n")
                yield _finding(Place(reading.name(path), len(before) + 1, len(last) + 1), target,
                               wrong, f"Write {instead}." if instead else _GO, strict=strict)


def _finding(place: Place, target: str, wrong: str, remedy: str, *, strict: bool) -> Problem:
    found = f'a link to "{clip(target)}", which leads {wrong}'
    expected = "a page or file of this site, or an address that begins with https://"
    if strict:
        return error("bad-link", place, found=found, expected=expected, remedy=remedy)
    return note(Severity.WARNING, "bad-link", place, found=found, expected=expected, remedy=remedy)


def _wrong(target: str, page: str, reading: Reading) -> tuple[str, str]:
    """Where a link of a page leads that it should not, "" for a good one, and what to write."""
    scheme, host, path, _, anchor = urlsplit(target)
    if scheme or host or not path or "\2amp\3" in target:
        return "", ""
    if target.startswith(("/", "\\")):
        return "out of the site", ""
    whole = posixpath.normpath(posixpath.join(posixpath.dirname(page), unquote(path)))
    if whole.startswith(_PATTERNS):
        slug, _, name = whole.removeprefix(_PATTERNS).partition("/")
        known = slug in reading.names() or "/" not in whole.removeprefix(_PATTERNS)
        return ("", "") if known and not name.endswith(".html") else ("nowhere", "")
    file = _file(whole, reading.root)
    if file is None:
        return "nowhere", _instead(whole, page, anchor, reading.root)
    lacks = anchor and file.suffix == ".md" and not _has_place(file, anchor, reading)
    return ("to no place on that page" if lacks else ""), ""


def _file(path: str, root: Path) -> Path | None:
    return next((each / path for each in (root / OWN_PAGES, SITE) if (each / path).is_file()), None)


def _instead(path: str, page: str, anchor: str, root: Path) -> str:
    """The page that is most like one that is not there, as the link has to name it."""
    stem, folder = posixpath.splitext(path)[0], posixpath.dirname(path)
    there = {each.stem: posixpath.join(folder, each.name) for pages in (SITE, root / OWN_PAGES)
             for each in sorted((pages / folder).glob("*.md"))}
    like = there.get(nearest(posixpath.basename(stem), there) or "")
    if like is None:
        return ""
    whole = posixpath.relpath(like, posixpath.dirname(page) or ".")
    return f"{whole}#{anchor}" if anchor else whole


def _has_place(file: Path, anchor: str, reading: Reading) -> bool:
    """True where a page may have that place: what is filled in later may have any."""
    text = reading.apart(file)[0] or "" if file.is_relative_to(reading.root) else \
        file.read_text(encoding="utf-8")
    html = PageParser(extensions=["toc", "attr_list", "md_in_html", "def_list", "tables"]).convert(
        text)
    return anchor == "top" or "<!-- walebook:" in text or anchor in _ID.findall(html)
