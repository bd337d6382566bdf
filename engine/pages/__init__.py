"""Pages: a proof becomes page text, tables, needle diagrams and counts.json; nothing is written.

What others ask of it is imported when it is asked for: a check needs few of its modules.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table

DOORS: Mapping[str, str] = {
    "BINARY": "chart_files.BINARY", "BLOCK": "page_facts.BLOCK", "Card": "card.Card",
    "PageFile": "pattern_files.PageFile", "SCHEMAS": "schemas.SCHEMAS",
    "facts_schema": "page_facts.facts_schema",
    "first_list": "lists.first_list", "further_lists": "lists.further_lists",
    "has_anchor": "pattern_files.has_anchor", "opening": "lists.opening",
    "page_names": "pattern_files.page_names", "pattern_card": "card.pattern_card",
    "pattern_cards": "lists.pattern_cards", "search_text": "card.search_text",
    "write_page": "pattern_files.write_page", "write_pages": "pattern_files.write_pages"}
"""What this package hands out, by its name: its module, and what it is called there."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what DOORS names
    from .card import Card, pattern_card, search_text
    from .chart_files import BINARY
    from .lists import first_list, further_lists, opening, pattern_cards
    from .page_facts import BLOCK, facts_schema
    from .pattern_files import PageFile, has_anchor, page_names, write_page, write_pages
    from .schemas import SCHEMAS
else:
    __getattr__ = by_table(__name__, DOORS)

__all__ = [
    "BINARY",
    "BLOCK",
    "SCHEMAS",
    "Card",
    "PageFile",
    "facts_schema",
    "first_list",
    "further_lists",
    "has_anchor",
    "opening",
    "page_names",
    "pattern_card",
    "pattern_cards",
    "search_text",
    "write_page",
    "write_pages",
]
