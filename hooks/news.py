"""What a feed tells of a pattern, kept with its findings: reading it loads no site builder."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from walebook.pattern.model import Pattern


def news_of(pattern: Pattern) -> dict[str, Any]:
    """Return what a feed tells of a pattern, as JSON can hold it."""
    return {"title": pattern.title, "version": pattern.version, "designer": pattern.designer,
            "summary": pattern.summary,
            "corrections": [[one.date, one.text, one.version, list(one.sizes)]
                            for one in pattern.corrections],
            "withdrawn": [list(one) for one in pattern.withdrawn_sizes]}
