"""Names of counts, where those of two versions of a pattern are compared."""

from __future__ import annotations


def count_named(whose: str, name: str) -> str:
    """Return "Back: cast on", for a count of a piece or a band."""
    return f"{whose}: {name[:1].lower()}{name[1:]}"
