"""The marks of a stitch chart: what one needle does in one row, and what a whole row does."""

from __future__ import annotations

import re
from enum import Enum
from functools import lru_cache
from typing import TypeAlias

from ..machine.records import dataclass


class Cell(Enum):
    """What one needle does in one row, by its mark; left and right are those of the view."""

    KNIT = "|"
    OUT = "."
    LEFT = "<"
    RIGHT = ">"
    FRONT_RIGHT = "/"
    BEHIND_LEFT = "("
    BEHIND_RIGHT = ")"
    FRONT_LEFT = "\\"
    TUCK = "u"
    SLIP = "v"
    SECOND = "x"

    # A member is equal to itself alone; the library hashes its name, in Python.
    __hash__ = object.__hash__


Cells: TypeAlias = tuple[Cell, ...]

MARKS = " ".join(cell.value for cell in Cell)
MOVES = {Cell.LEFT: -1, Cell.RIGHT: 1}
PASSED = frozenset({Cell.TUCK, Cell.SLIP})
CROSSING = re.compile(r"(/+)(\(+)|(\)+)(\\+)")


@dataclass(frozen=True, slots=True)
class Crossing:
    """Neighbouring stitches that change places: `left` of them go right, `right` go left.

    `at` is the first of them, counted from 0 [stitches]; `left_in_front` as the view has it.
    """

    at: int
    left: int
    right: int
    left_in_front: bool

    @property
    def width(self) -> int:
        """All stitches that it takes [stitches]."""
        return self.left + self.right


def marks_of(row: Cells) -> str:
    """Return one row as it is written."""
    return "".join([cell._value_ for cell in row])


def part_of(row: Cells, columns: range) -> Cells:
    """Return the cells of a repeat in `columns` only; of a crossing cut through, plain stitches."""
    cells = list(row)
    for c in crossings(row):
        if not (c.at in columns and c.at + c.width - 1 in columns):
            cells[c.at:c.at + c.width] = [Cell.KNIT] * c.width
    return tuple(cells[columns.start:columns.stop])


@lru_cache(maxsize=4096)
def crossings(row: Cells) -> tuple[Crossing, ...]:
    """Return the crossings of a row, from the left."""
    return tuple(
        Crossing(match.start(), len(match[1] or match[3]), len(match[2] or match[4]),
                 left_in_front=match[1] is not None)
        for match in CROSSING.finditer(marks_of(row)))


def emptied(row: Cells) -> tuple[int, ...]:
    """Return the places of a row whose stitch moves away while none comes, from the left."""
    landings = {at + MOVES[cell] for at, cell in enumerate(row) if cell in MOVES}
    return tuple(at for at, cell in enumerate(row) if cell in MOVES and at not in landings)


def loops_taken(row: Cells) -> tuple[int, ...]:
    """Return how many stitches lie on each place of a row once all are moved [loops]."""
    loops = [int(cell is not Cell.OUT) for cell in row]
    for at, cell in enumerate(row):
        if cell in MOVES:
            loops[at] -= 1
            if 0 <= at + MOVES[cell] < len(row):
                loops[at + MOVES[cell]] += 1
    return tuple(loops)
