"""Words for lists of patterns that take several pages."""

from __future__ import annotations

PAGES = "Pages of patterns"


def page_title(number: int, many: int) -> str:
    """The title of a further page of the list."""
    return f"Patterns, page {number} of {many}"


def page_named(number: int) -> str:
    """What a link to a page of the list is called, where only its number is seen."""
    return f"Page {number} of the patterns"
