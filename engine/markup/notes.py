"""A designer's notes: Markdown turned into HTML that can carry no script."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from html.parser import HTMLParser
from importlib.util import find_spec

from ..pattern.pictures import Picture
from ..source.page_names import normal
from .html import address, esc, file_at

_TAGS = {"p", "ul", "ol", "li", "strong", "em", "b", "i", "code", "pre", "blockquote", "h3", "h4",
         "h5", "h6", "a", "img", "table", "thead", "tbody", "tr", "th", "td", "hr", "br", "sub",
         "sup"}
_ATTRIBUTES = {"a": {"href"}, "img": {"src", "alt"}}
_SCHEMES = {"http", "https", "mailto"}
_HEADING = re.compile(r"<(/?)h([1-6])\b")


class _References(HTMLParser):
    """Gathers where links lead and which pictures are shown."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take a link's href and a picture's src."""
        self.found += [(tag, value or "") for name, value in attrs
                       if (tag, name) in (("a", "href"), ("img", "src"))]


def references(notes: str) -> tuple[tuple[str, str], ...]:
    """Return what the notes lead to and show, in order: ("a", address) and ("img", file)."""
    reader = _References()
    reader.feed(_raw(notes))
    reader.close()
    return tuple(reader.found)


def can_follow(notes: str) -> bool:
    """True where it can be seen here to what the notes lead: in a browser no Markdown is read."""
    return ("[" not in notes and "<" not in notes) or find_spec("markdown") is not None


@lru_cache(maxsize=64)
def _raw(notes: str) -> str:
    if not notes.strip():
        return ""
    # With the cleaner a tenth of a second, which only notes need. Extensions that are asked for by
    # name are sought among all packages of the machine.
    import markdown
    from markdown.extensions.sane_lists import SaneListExtension
    from markdown.extensions.tables import TableExtension
    return markdown.markdown(notes, extensions=[TableExtension(), SaneListExtension()])


def shown_file(source: str, pictures: Iterable[Picture]) -> str | None:
    """Return which of a pattern's pictures the notes show by `source`: its name as it is, or
    quoted as an address; None where it is none of them."""
    own = {normal(picture.file): picture.file for picture in pictures}
    return own.get(normal(source)) or own.get(normal(file_at(source)))


@lru_cache(maxsize=64)
def notes_html(notes: str, pictures: tuple[Picture, ...]) -> str:
    """Return the notes as clean HTML: headings two levels down, pictures only the pattern's own."""
    import nh3
    lower = _HEADING.sub(lambda m: f"<{m[1]}h{min(6, int(m[2]) + 2)}", _raw(notes))

    def keep(tag: str, attribute: str, value: str) -> str | None:
        if tag != "img" or attribute != "src":
            return value
        file = shown_file(value, pictures)
        return address(file) if file else None

    clean = nh3.clean(lower, tags=_TAGS, attributes=_ATTRIBUTES, url_schemes=_SCHEMES,
                      attribute_filter=keep, link_rel="noopener")
    clean = re.sub(r"<img(?![^>]*\bsrc=)[^>]*>", "", clean)  # a picture that is not ours
    return re.sub(r"\n\s*\n+", "\n", clean).strip()


def pictures_html(pictures: tuple[Picture, ...]) -> str:
    """The pattern's own pictures, each with its text, its place held by its size, its caption."""
    return "".join(f'<figure class="wb-picture">{picture(p)}{_caption(p)}</figure>'
                   for p in pictures)


def picture(shown: Picture, folder: str = "") -> str:
    """A picture with its text, its place held by its size; with a `folder`, of a page elsewhere,
    it is loaded when it comes into sight."""
    file = f"{folder}/{address(shown.file)}" if folder else address(shown.file)
    lazy = ' loading="lazy"' if folder else ""
    return f'<img src="{file}" alt="{esc(shown.alt)}"{_size(shown)}{lazy}>'


def _size(picture: Picture) -> str:
    return ' width="{}" height="{}"'.format(*picture.size) if picture.size else ""


def _caption(picture: Picture) -> str:
    return f"<figcaption>{esc(picture.caption)}</figcaption>" if picture.caption else ""
