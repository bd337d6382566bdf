"""What a sketch of a garment is called."""

from __future__ import annotations


def title(name: str, size: str, seen: str) -> str:
    """The title of a sketch, seen from the "front" or the "back"."""
    return f"{name}, size {size}: {seen} view"
