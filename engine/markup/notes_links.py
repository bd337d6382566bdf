"""What a designer's notes and own technique pages lead to: pictures that are not listed, links to
nowhere."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from ..core.problems import Place, Problem, Severity, error, note
from ..core.text import clip
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..pattern.pictures import Picture
from ..pattern.places import Places
from .notes import references, shown_file

OUTSIDE = re.compile(r"https?://[^/\s]+|mailto:[^@\s]+@[^@\s]+")
NOWHERE = "nowhere"
GO: FindingText = ("Links are written from this pattern's page, such as "
                   "../../techniques/index.html.")
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")


@dataclass(frozen=True, slots=True)
class LinkTargets:
    """What links may lead to.

    `is_page` says whether a path from the site's root is there, for a page that is no pattern's
    with the # of a place on it; `has_anchor` whether the pattern's own page has such an id;
    `instead` whether a path that is no page is a draft, and which page is most like it.
    """

    is_page: Callable[[str], bool]
    has_anchor: Callable[[str], bool]
    instead: Callable[[str], tuple[bool, str]]


def notes_findings(notes: str, pictures: tuple[Picture, ...], slug: str, file: str,
                   leads: LinkTargets) -> tuple[Problem, ...]:
    """Return what is wrong with the pictures and links of a pattern's notes, read from `file`."""
    return tuple(_findings(notes, pictures, slug, file, leads))


def technique_findings(places: Places, slug: str, techniques: Mapping[str, str],
                       leads: LinkTargets) -> tuple[Problem, ...]:
    """Return what is wrong with the addresses of the designer's own technique pages."""
    home = f"patterns/{slug}"
    own = f"{home}/index.html"

    within = replace(leads, is_page=lambda path: path == own or leads.is_page(path))
    return tuple(found for name, target in techniques.items()
                 for found in _link(places.of(f"techniques.{name}"),
                                    target.removeprefix("index.html") if "#" in target else target,
                                    target, home, within))


def _findings(notes: str, pictures: tuple[Picture, ...], slug: str, file: str, leads: LinkTargets
              ) -> Iterator[Problem]:
    home, at = f"patterns/{slug}", 0
    for tag, target in references(notes):
        found = notes.find(target, at)
        at = found + 1 if found >= 0 else at
        place = _place(file, notes, max(found, 0))
        if tag == "img" and shown_file(target, pictures) is None:
            yield _unlisted(place, target)
        elif tag == "a":
            yield from _link(place, target, target, home, leads)


def _link(place: Place, target: str, written: str, home: str, leads: LinkTargets
          ) -> Iterator[Problem]:
    """What is wrong with a link to `target`, which is `written` so."""
    if wrong := _wrong(target, home, leads):
        draft, remedy = _instead(target, home, leads) if wrong == NOWHERE else (False, GO)
        wrong = "to a draft, which is not published" if draft else wrong
        yield error("bad-link", place, found=f'a link to "{clip(written)}", which leads {wrong}',
                    expected="a page of this site, or an address that begins with https://",
                    remedy=remedy)
    elif target.startswith("http"):
        yield note(Severity.REMARK, "link-outside", place, found=f'a link to "{clip(written)}", '
                   "another site: it cannot be read without a signal")


def _unlisted(place: Place, target: str) -> Problem:
    beside = not re.search(r"[/\\:]", target)
    return error("picture-not-listed", place, expected="one of its pictures",
                 found=f'the picture "{clip(target)}", which the pattern does not list',
                 remedy=f"Add {{file: {clip(target)}, alt: what it shows}} to its pictures."
                 if beside else "Put it into the pattern's folder and list it.")


def _instead(target: str, home: str, leads: LinkTargets) -> tuple[bool, FindingText]:
    """Whether a link that leads nowhere leads to a draft, and what to write."""
    path, _, anchor = target.partition("#")
    if not path or _SCHEME.match(target):
        return False, GO
    whole = posixpath.normpath(posixpath.join(home, path))
    draft, like = leads.instead(whole)
    if draft:
        return True, "Take the link out until that pattern is published."
    page = f"{whole[:-3]}.html"
    like = page if whole.endswith(".md") and leads.is_page(page) else like
    mended = posixpath.relpath(like, home) + (anchor and f"#{anchor}") if like else ""
    return False, f"Write {mended}." if mended else GO


def _wrong(target: str, home: str, leads: LinkTargets) -> str:
    """Where a link leads that it should not, "" for a good one."""
    if OUTSIDE.match(target):
        return ""
    if _SCHEME.match(target):
        return NOWHERE
    path, _, anchor = target.partition("#")
    if target.startswith(("/", "\\")):
        return "out of the site"
    if not path:
        return "" if leads.has_anchor(anchor) else NOWHERE
    whole = posixpath.normpath(posixpath.join(home, path.partition("?")[0]))
    if whole == ".." or whole.startswith("../"):
        return "out of the site"
    if not leads.is_page(whole):
        return NOWHERE
    if not anchor or whole.startswith("patterns/"):  # whose pages are not knitted for this
        return ""
    return "" if leads.is_page(f"{whole}#{anchor}") else "to no place on that page"


def _place(file: str, text: str, index: int) -> Place:
    before = text[:index]
    return Place(file, before.count("\n") + 1, index - before.rfind("\n"))
