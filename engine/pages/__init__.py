"""Pages: a proof becomes page text, tables, needle diagrams and counts.json; nothing is written."""

from __future__ import annotations

from dataclasses import dataclass

from ..proof.advice import advise_all
from ..proof.proof import Proof
from ..source.materials import size_slug
from .counts_json import counts_json, counts_schema
from .lists import first_list, further_lists, pattern_card, pattern_cards, search_text
from .overview_page import overview_page
from .page_facts import BLOCK, facts_schema
from .shared import shared
from .size_page import size_page

__all__ = ["BLOCK", "PageFile", "counts_schema", "facts_schema", "first_list", "further_lists",
           "has_anchor", "pattern_card", "pattern_cards", "search_text", "size_slug", "write_pages"]


@dataclass(frozen=True, slots=True)
class PageFile:
    """A file of the site: its path under the site's source folder, its text, and whether the
    site's search may find it."""

    path: str
    text: str
    searchable: bool


def write_pages(proof: Proof, only: str | None = None) -> tuple[PageFile, ...]:
    """Return the overview, a page a size, and counts.json of a proved pattern.

    Of the sizes' pages it is that of `only`, where a size is given.
    """
    pattern, folder = proof.pattern, f"patterns/{proof.pattern.slug}"
    common = shared(proof)
    advice = advise_all(proof)
    by_size = {each.size: each for each in advice.sizes} if advice else {}
    sizes = (PageFile(f"{folder}/{size_slug(size.size)}.md",
                      size_page(pattern, size, common, by_size.get(size.size)),
                      searchable=False)
             for size in proof.sizes if only in (None, size.size))
    return (PageFile(f"{folder}/index.md", overview_page(proof, common, advice),
                     searchable=True),
            *sizes,
            PageFile(f"{folder}/counts.json", counts_json(proof, common, advice),
                     searchable=False))


def has_anchor(proof: Proof, name: str) -> bool:
    """True when the overview of a proved pattern has the id `name`."""
    page = write_pages(proof)[0].text
    return f'id="{name}"' in page or f"{{ #{name} }}" in page
