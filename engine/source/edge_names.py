"""Edges of pieces as joins name them: "bag.left", "front.right.armhole + back.left.armhole"."""

from __future__ import annotations

import re

from ..core.text import clip, suggest
from ..pattern.outlines import EdgeOf, EdgeSide
from .values import Entry, Fault, Text

EXPECTED = "an edge such as front.left, or several with + between them"
REMEDY = "Write the piece, a point, and left, right, top or bottom."
MOST_EDGES = 12
NAME = r"[a-z][a-z0-9]*(?:[ _-][a-z0-9]+)*"
_EDGE = re.compile(rf"({NAME})\.([a-z]+)(?:\.({NAME}))?")
_TEXT = Text(400, EXPECTED, REMEDY)
UNNAMED = "corner"  # what a corner without a name is called in the counts, with its number


def outline_edges(entry: Entry) -> tuple[EdgeOf, ...]:
    """Read edges that follow one another. Raises Fault."""
    parts = [part.strip() for part in _TEXT(entry).split("+")]
    if len(parts) > MOST_EDGES:
        raise Fault("too-many", entry.place, f"{len(parts)} edges", f"at most {MOST_EDGES}",
                    "Leave some out.")
    return tuple(_edge(entry, part) for part in parts)


def _edge(entry: Entry, text: str) -> EdgeOf:
    match = _EDGE.fullmatch(text)
    if match is None:
        raise Fault("wrong-shape", entry.place, f'"{clip(text)}"', EXPECTED, REMEDY)
    sides = {side.value: side for side in EdgeSide}
    if match[2] not in sides:
        expected, remedy = suggest(match[2], sides, REMEDY)
        raise Fault("unknown-word", entry.place, f'"{clip(match[2])}"', expected, remedy)
    piece, stretch = (re.sub("[ -]", "_", match[n] or "") for n in (1, 3))
    return EdgeOf(piece, sides[match[2]], stretch)


def corner_name(entry: Entry) -> str:
    """Read the name of the part of an edge that ends at a corner. Raises Fault."""
    name = Text(30, "a name such as armhole", "Write it in small letters.")(entry)
    if not re.fullmatch(NAME, name) or name.startswith(UNNAMED):
        raise Fault("bad-name", entry.place, f'the name "{clip(name)}"',
                    f"small letters and digits, and another name than {UNNAMED}", "Rename it.")
    return name
