"""The list of contents at the top of a size page: plain links, for the theme hides its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..markup.html import anchor, esc, items, link
from ..proof.proof import SizeProof, Strip
from ..words import page_headings as headings
from ..words.band_ends import strip_title
from ..words.pieces import piece_title
from .casing_section import casing_entries
from .making_up import own_bands, stretches
from .pieces import piece_anchor, times_of
from .zip_section import zip_entries


def strip_anchor(strip: Strip) -> str:
    """The id of a strip's section; its steps' ids begin with it."""
    part = f"-{strip.plan.part.number}" if strip.plan.part else ""
    return f"{anchor(strip.plan.band.key)}-{strip.front.value}{part}"


def contents(size: SizeProof) -> str:
    """Return the links to everything on the page of one size, in the order of the work."""
    entries = [("#materials", headings.TOOLS), ("#gauge", headings.GAUGE)]
    if size.assembled:
        entries.insert(0, ("#drawing", headings.MEASURES))
    entries += [(f"#{piece_anchor(p)}", piece_title(p.piece, times_of(size, p)))
                for p in size.pieces]
    entries += [entry for key in own_bands(size) for entry in _band(size, key)]
    for part in stretches(size):
        entries.append((f"#{part.anchor}", part.title))
        entries += [entry for key in part.bands for entry in _band(size, key)]
    entries.append(("#counted", headings.COUNTED))
    return f'<nav class="wb-contents" aria-label="{headings.ON_THIS_PAGE}">{_links(entries)}</nav>'


def _band(size: SizeProof, key: str) -> Iterator[tuple[str, str]]:
    """The sections of one band, in the page's order."""
    plans = [plan for plan in size.plans if plan.band.key == key]
    yield from ((f"#{strip_anchor(s)}", strip_title(s)) for s in size.strips
                if s.plan.band.key == key)
    yield from zip_entries(plans)
    yield from casing_entries(plans)


def _links(entries: Iterable[tuple[str, str]]) -> str:
    return items(link(href, esc(label)) for href, label in entries)
