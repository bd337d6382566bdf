"""Which pattern a word of a command line names: its folder, or a path as a shell completes it."""

from __future__ import annotations

from pathlib import PurePath


def folder_named(word: str) -> str:
    """Return the name of the folder that a word gives: skagen, patterns/skagen/ or a file there."""
    parts = PurePath(word).parts
    if "patterns" in parts[:-1]:
        return parts[parts.index("patterns") + 1]
    return parts[-2] if len(parts) == 2 and parts[1] == "pattern.yaml" else word.rstrip("/\\")
