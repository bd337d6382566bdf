"""A corner of the designer's own outline, as a drawing shows it."""

from __future__ import annotations

from typing import NamedTuple


class OwnCorner(NamedTuple):
    """A corner by its name: its row, and how far outward of the cast-on edge the piece is there at
    the left and at the right [stitches]; None where that is of one side alone. `counts` are the
    keys of its width and of the rows up to it."""

    name: str
    row: int
    out: tuple[int, int] | None
    counts: tuple[str, str]
