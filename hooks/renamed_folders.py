"""Which folder of a pattern is which, between two states of a collection."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from walebook_site.reading import COLLECTION

if TYPE_CHECKING:
    from walebook_site.standing import Standing

_ALIKE = 0.75  # of the lines of two sources, from which one is the other with changes


def pairs_of(before: Standing, after: Standing) -> list[tuple[str, str]]:
    """Return the names of each pattern's folder before and after, "" where there is none.

    A folder that is gone and a new one are one pattern that was renamed where the collection says
    so under `former`, where their sources are the same, or where three lines of four are.
    """
    old, new = before.slugs, after.slugs
    gone = [slug for slug in old if slug not in new]
    came = [slug for slug in new if slug not in old]
    names = dict(_renamed(before, after, gone, came)) if gone and came else {}
    pairs = [(slug if slug in old else names.get(slug, ""), slug) for slug in new]
    return pairs + [(slug, "") for slug in gone if slug not in names.values()]


def _renamed(before: Standing, after: Standing, gone: list[str], came: list[str]
             ) -> Iterator[tuple[str, str]]:
    """The new name and the old one of each folder that was renamed, the surest first."""
    pairs = [(2.0, now, then) for now, then in _declared(after) if now in came and then in gone]
    likely = [(_alike(before.folder(then).source or "", after.folder(now).source or ""), now, then)
              for now in came for then in gone]
    taken: set[str] = set()
    for share, now, then in sorted((*pairs, *likely), key=lambda one: -one[0]):
        if share >= _ALIKE and not taken & {f"now {now}", f"then {then}"}:
            taken |= {f"now {now}", f"then {then}"}
            yield now, then


def _declared(after: Standing) -> Iterator[tuple[str, str]]:
    """What the collection's settings say: the folder now, and one that it had before."""
    from walebook.proof.texts import collection_of
    text = after.reading.apart(after.reading.root / COLLECTION)[0]
    settings = collection_of(text, file=COLLECTION)[0] if text else None
    for one in settings.former_patterns if settings else ():
        yield one.now, one.folder


def _alike(one: str, other: str) -> float:
    """The share of the lines of the longer source that the other has too."""
    lines = [Counter(text.splitlines()) for text in (one, other)]
    return (lines[0] & lines[1]).total() / max(1, *(each.total() for each in lines))
