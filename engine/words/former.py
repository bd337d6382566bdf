"""Words for the page of a pattern that was renamed or withdrawn."""

from __future__ import annotations

from ..markup.html import esc, link
from ..pattern.former import FormerPattern

KEPT = ("What you saved of it, as a file or offline, stays as it is on your device. So do your "
        "place and your notes.")


def summary(one: FormerPattern) -> str:
    """What the page is, for lists and search engines."""
    return f"{one.title} {'has another name now' if one.now else 'was withdrawn'}."


def gone(one: FormerPattern) -> str:
    """What became of a pattern, and why, as HTML."""
    what = "This pattern has had another name since" if one.now else \
        "The designer withdrew this pattern on"
    return f"{what} {esc(one.date)}. {esc(one.why)}".rstrip()


def where_now(address: str, title: str) -> str:
    """Where the pattern is now, as HTML."""
    return f"It is now {link(address, esc(title))}."


def all_patterns(address: str) -> str:
    """The way to all patterns, as HTML."""
    return f"See {link(address, 'all patterns')}."
