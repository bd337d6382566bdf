"""What hands and carriage do in each row of a stitch chart that lies on the bed.

Stitches that move or cross, tucks and slips are steps of a program; a second colour is told in
words alone, since the virtual bed has one feeder.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .chart_on_bed import Placed
from .ledger import Ledger
from .needles import Needles
from .steps import Side
from .stitch_chart import Cell, Crossing, crossings, emptied


class Doing(Enum):
    """The kinds of work in a row, in the order in which they are done."""

    MOVE = "move"
    CROSS = "cross"
    TUCK = "tuck"
    SLIP = "slip"
    SECOND = "second colour"


@dataclass(frozen=True, slots=True)
class Action:
    """One kind of work on some needles.

    A MOVE goes `by` needles to the right (negative: left). In a CROSS the needles are groups of
    `left` + `right` neighbours, and the stitches of side `first` go back first: they then lie
    away from the knitter, in front on the knit side.
    """

    doing: Doing
    needles: Needles
    by: int = 0
    left: int = 0
    right: int = 0
    first: Side | None = None


def row_actions(placed: Placed, row: int) -> tuple[Action, ...]:
    """Return what is done before or in the piece's row `row`, counted from 1; nothing if plain."""
    moves = ((Doing.MOVE, Cell.LEFT, -1), (Doing.MOVE, Cell.RIGHT, 1))
    chosen = ((Doing.TUCK, Cell.TUCK, 0), (Doing.SLIP, Cell.SLIP, 0),
              (Doing.SECOND, Cell.SECOND, 0))
    moved, rest = ([Action(doing, needles, by) for doing, cell, by in kinds
                    if (needles := placed.on(row, cell))] for kinds in (moves, chosen))
    return (*moved, *_crossed(placed, row), *rest)


def _crossed(placed: Placed, row: int) -> list[Action]:
    """The crossings of a row, those alike together."""
    alike: dict[tuple[int, int, bool], list[Crossing]] = {}
    for crossing in crossings(placed.row(row)):
        shape = (crossing.left, crossing.right, crossing.left_in_front)
        alike.setdefault(shape, []).append(crossing)
    return [
        Action(Doing.CROSS,
               placed.at(at for c in same for at in range(c.at, c.at + c.width)),
               left=left, right=right, first=Side.RIGHT if left_in_front else Side.LEFT)
        for (left, right, left_in_front), same in alike.items()]


def to_fill(placed: Placed, row: int) -> Needles:
    """Return the needles left empty in work, which the row then fills."""
    return placed.at(emptied(placed.row(row)))


def told_only(placed: Placed) -> tuple[Action, ...]:
    """Return the work of all rows for which a program has no steps: that of a second colour."""
    return tuple(action for row in range(1, placed.chart.height + 1)
                 for action in row_actions(placed, row) if action.doing is Doing.SECOND)


def knit_row(ledger: Ledger, placed: Placed, row: int, purpose: str = "") -> None:
    """Write the piece's row `row`, counted from 1: what is made ready, then the row itself.

    Every moved stitch leaves the bed as many needles in work; the row fills those left empty.
    Raises ValueError for a row with work that is told only.
    """
    actions = row_actions(placed, row)
    if any(action.doing is Doing.SECOND for action in actions):
        raise ValueError(f"row {row} has work for which a program has no steps")
    empty = to_fill(placed, row)
    for action in actions:
        _make_ready(ledger, action, empty, purpose)
    ledger.knit(1, purpose, fills=empty)


def _make_ready(ledger: Ledger, action: Action, empty: Needles, purpose: str) -> None:
    match action:
        case Action(doing=Doing.MOVE):
            ledger.transfer(action.needles, action.by, purpose,
                            fewer=len(action.needles & empty))
        case Action(doing=Doing.CROSS, first=Side() as first):
            ledger.cross(action.needles, action.left, action.right, first, purpose)
        case Action(doing=Doing.TUCK):
            ledger.tuck(action.needles, purpose)
        case Action(doing=Doing.SLIP):
            ledger.slip(action.needles, purpose)
