"""Where a piece is folded for a seam."""

from __future__ import annotations

from ..machine.records import dataclass


@dataclass(frozen=True, slots=True)
class Folded:
    """A piece, by its key, that is folded before two parts of one edge are sewn: at what row
    counter, and at which the upper part ends; whether the marks there are called by it. The lower
    part begins `at_hem` or plain; `sides` are the places, in the join, of the lower part and of the
    upper. `again`: it is folded already."""

    piece: str
    title: str
    row: int
    top: int
    marked: bool
    top_marked: bool
    at_hem: bool
    sides: tuple[int, int]
    again: bool = False
