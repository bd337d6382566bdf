"""What stands around every page of a site: its running head, its foot, the ways between its pages.

The templates in `site_src/.overrides/` have no texts: they name these.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

FRAME_TEXTS: Mapping[str, str] = MappingProxyType({
    "skip": "Skip to the text", "you_are_in": "You are in", "on_this_page": "On this page",
    "site": "Site", "patterns": "Patterns", "techniques": "Techniques", "cautions": "Cautions",
    "search": "Search", "settings": "Settings", "all_pages": "All pages",
    "previous": "Previous", "next": "Next", "news": "corrections and new patterns",
    "not_found": "Not found", "not_here": "This page is not here",
    "go_back": "The page may have moved. Go back. Or open the first page of",
    "choose_there": "and choose your pattern there."})
"""Each text by the name that the templates call it."""
