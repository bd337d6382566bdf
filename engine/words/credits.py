"""Which version of a pattern a page is of, and who made it: on the page and on printed sheets."""

from __future__ import annotations


def version_text(version: str, date: str) -> str:
    """Return the version with its date, without a full stop."""
    return f"Version {version}, {date}"


def made_by(designer: str, licence: str) -> str:
    """Return the designer and the licence as two sentences."""
    return f"Designer: {designer}. Licence: {licence}."
