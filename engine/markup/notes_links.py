"""What a designer's notes and own technique pages lead to: pictures that are not listed, links to
nowhere."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterator, Mapping

from ..core.problems import Place, Problem, Severity, error, note
from ..core.text import clip
from ..pattern.pictures import Picture
from ..pattern.places import Places
from .notes import references, shown_file

OUTSIDE = re.compile(r"https?://[^/\s]+|mailto:[^@\s]+@[^@\s]+")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")


def notes_findings(notes: str, pictures: tuple[Picture, ...], slug: str, file: str,
                   is_page: Callable[[str], bool], has_anchor: Callable[[str], bool]
                  ) -> tuple[Problem, ...]:
    """Return what is wrong with the pictures and links of a pattern's notes, read from `file`.

    `is_page` says whether a path from the site's root is there, for a page that is no pattern's
    with the # of a place on it; `has_anchor` whether the pattern's own page has such an id.
    """
    return tuple(_findings(notes, pictures, slug, file, is_page, has_anchor))


def technique_findings(places: Places, slug: str, techniques: Mapping[str, str],
                       is_page: Callable[[str], bool], has_anchor: Callable[[str], bool]
                      ) -> tuple[Problem, ...]:
    """Return what is wrong with the addresses of the designer's own technique pages."""
    home = f"patterns/{slug}"
    own = f"{home}/index.html"

    def leads(path: str) -> bool:
        return path == own or is_page(path)

    return tuple(found for name, target in techniques.items()
                 for found in _link(places.of(f"techniques.{name}"),
                                    target.removeprefix("index.html") if "#" in target else target,
                                    target, home, leads, has_anchor))


def _findings(notes: str, pictures: tuple[Picture, ...], slug: str, file: str,
              is_page: Callable[[str], bool], has_anchor: Callable[[str], bool]
             ) -> Iterator[Problem]:
    home, at = f"patterns/{slug}", 0
    for tag, target in references(notes):
        found = notes.find(target, at)
        at = found + 1 if found >= 0 else at
        place = _place(file, notes, max(found, 0))
        if tag == "img" and shown_file(target, pictures) is None:
            yield _unlisted(place, target)
        elif tag == "a":
            yield from _link(place, target, target, home, is_page, has_anchor)


def _link(place: Place, target: str, written: str, home: str, is_page: Callable[[str], bool],
          has_anchor: Callable[[str], bool]) -> Iterator[Problem]:
    """What is wrong with a link to `target`, which is `written` so."""
    if wrong := _wrong(target, home, is_page, has_anchor):
        yield error("bad-link", place, found=f'a link to "{clip(written)}", which leads {wrong}',
                    expected="a page of this site, or an address that begins with https://",
                    remedy="Links are written from this pattern's page, such as "
                           "../../techniques/index.html.")
    elif target.startswith("http"):
        yield note(Severity.REMARK, "link-outside", place, found=f'a link to "{clip(written)}", '
                   "another site: it cannot be read without a signal")


def _unlisted(place: Place, target: str) -> Problem:
    beside = not re.search(r"[/\\:]", target)
    return error("picture-not-listed", place, expected="one of its pictures",
                 found=f'the picture "{clip(target)}", which the pattern does not list',
                 remedy=f"Add {{file: {clip(target)}, alt: what it shows}} to its pictures."
                 if beside else "Put it beside the source and list it.")


def _wrong(target: str, home: str, is_page: Callable[[str], bool],
           has_anchor: Callable[[str], bool]) -> str:
    """Where a link leads that it should not, "" for a good one."""
    if OUTSIDE.match(target):
        return ""
    if _SCHEME.match(target):
        return "nowhere"
    path, _, anchor = target.partition("#")
    if target.startswith(("/", "\\")):
        return "out of the site"
    if not path:
        return "" if has_anchor(anchor) else "nowhere"
    whole = posixpath.normpath(posixpath.join(home, path.partition("?")[0]))
    if whole == ".." or whole.startswith("../"):
        return "out of the site"
    if not is_page(whole):
        return "nowhere"
    if not anchor or whole.startswith("patterns/"):  # whose pages are not knitted for this
        return ""
    return "" if is_page(f"{whole}#{anchor}") else "to no place on that page"


def _place(file: str, text: str, index: int) -> Place:
    before = text[:index]
    return Place(file, before.count("\n") + 1, index - before.rfind("\n"))
