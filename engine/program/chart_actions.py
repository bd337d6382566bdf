"""What hands and carriage do in each row of a stitch chart that lies on the bed.

Stitches that move or cross, tucks, slips and needles picked for a contrast yarn are steps of a
program. The contrast yarn is in the second feeder only for rows that take it, or it would float
across the whole work; over a few rows without it its end is left hanging, if the carriage comes
back to that side (common practice, no source).
"""

from __future__ import annotations

from dataclasses import replace
from enum import Enum

from ..fabric.chart_on_bed import Placed
from ..machine.needles import NONE, Needle, Needles, between
from ..machine.records import dataclass
from ..machine.step_keys import StepYarn
from ..machine.steps import Side
from ..pattern.cells import Cell, Crossing, crossings
from .ledger import Ledger

MOST_HANGING = 6  # rows over which its end is left hanging; beyond, it is cut


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


class ChartRows:
    """The actions of every row of a chart, over all needles that it lies on."""

    __slots__ = ("_rows", "chooses_first", "edge", "tucks")

    def __init__(self, placed: Placed) -> None:
        self.edge = placed.chart.edge
        self.tucks = Cell.TUCK in placed.chart.cells
        self.chooses_first = bool(placed.on(1, Cell.SLIP, Cell.SECOND))
        self._rows = tuple(row_actions(placed, row) for row in range(1, placed.chart.height + 1))

    def actions(self, row: int) -> tuple[Action, ...]:
        """The actions of the piece's row `row`, counted from 1."""
        return self._rows[(row - 1) % len(self._rows)]

    def without_contrast(self, row: int) -> int:
        """How many rows from `row` on take no contrast yarn, 0 where none of the chart does."""
        ahead = range(row, row + len(self._rows))
        return next((to - row for to in ahead if _picks(self.actions(to))), 0)

    def knit(self, ledger: Ledger, row: int, actions: tuple[Action, ...] | None = None) -> None:
        """Write the piece's row `row`; only `actions` of it where some are cut away.

        Every moved stitch leaves the bed as many needles in work; the row fills those left empty.
        A contrast yarn that hangs for this row, of which too few stitches are left, is cut.
        """
        actions = self.actions(row) if actions is None else actions
        empty, picks = left_empty(actions), _picks(actions)
        if picks and not ledger.contrast:
            ledger.thread_contrast(StepYarn.CONTRAST)
        elif not picks:
            rows = self.without_contrast(row)
            if ledger.contrast or rows:
                cut = not rows or is_cut(rows)
                ledger.unthread_contrast(cut=cut, before_held=not cut and ledger.held_over(rows))
            else:
                ledger.cut_contrast()
        for action in actions:
            _make_ready(ledger, action, empty)
        if picks:
            ledger.knit_two(fills=empty)
        else:
            ledger.knit(1, fills=empty)


def make_ready(chart: ChartRows | None, ledger: Ledger) -> None:
    """Write what comes before the rows that are knitted from a chart, or from none."""
    ledger.tuck_by_holding(chart is not None and chart.tucks)
    if chart is not None and chart.chooses_first:
        ledger.put_back_cast_on()


def is_cut(rows: int) -> bool:
    """True where the contrast yarn is cut before so many rows without it."""
    return rows % 2 == 1 or rows > MOST_HANGING


def _picks(actions: tuple[Action, ...]) -> Needles:
    """The needles that take the contrast yarn."""
    picks = NONE
    for action in actions:
        if action.doing is Doing.SECOND:
            picks |= action.needles
    return picks


def row_actions(placed: Placed, row: int) -> tuple[Action, ...]:
    """Return what is done before or in the piece's row `row`, counted from 1; nothing if plain.

    In a mirrored piece it is done in the mirror's order too.
    """
    moves = ((Doing.MOVE, Cell.LEFT, -1), (Doing.MOVE, Cell.RIGHT, 1))
    if placed.mirror:
        moves = moves[::-1]
    chosen = ((Doing.TUCK, Cell.TUCK, 0), (Doing.SLIP, Cell.SLIP, 0),
              (Doing.SECOND, Cell.SECOND, 0))
    moved, rest = ([Action(doing, needles, by) for doing, cell, by in kinds
                    if (needles := placed.on(row, cell))] for kinds in (moves, chosen))
    return (*moved, *_crossed(placed, row), *rest)


def _crossed(placed: Placed, row: int) -> list[Action]:
    """The crossings of a row, those alike together."""
    alike: dict[tuple[int, int, bool], list[Crossing]] = {}
    found = crossings(placed.row(row))
    for crossing in found[::-1] if placed.mirror else found:
        shape = (crossing.left, crossing.right, crossing.left_in_front)
        alike.setdefault(shape, []).append(crossing)
    return [
        Action(Doing.CROSS,
               placed.at(at for c in same for at in range(c.at, c.at + c.width)),
               left=left, right=right, first=Side.RIGHT if left_in_front else Side.LEFT)
        for (left, right, left_in_front), same in alike.items()]


def cut_to(actions: tuple[Action, ...], free: Needles) -> tuple[Action, ...]:
    """Return what is left of a row's `actions` where only `free` needles may take part.

    A stitch that would move onto another needle stays, and a crossing of which one stitch is
    missing is left out whole: those stitches are knitted plain (common practice, no source).
    """
    return tuple(replace(action, needles=here) for action in actions
                 if (here := _free_for(action, free)))


def _free_for(action: Action, free: Needles) -> Needles:
    if action.doing is Doing.MOVE:
        return action.needles & free & free.shifted(-action.by)
    if action.doing is Doing.CROSS:
        return _whole_groups(action, free)
    return action.needles & free


def _whole_groups(action: Action, free: Needles) -> Needles:
    """The needles of those crossings that have all their stitches."""
    size, whole = action.left + action.right, NONE
    for a, b in action.needles.spans():
        for at in range(a.place, b.place + 1, size):
            group = between(Needle(at), Needle(at + size - 1))
            if group <= free:
                whole |= group
    return whole


def left_empty(actions: tuple[Action, ...]) -> Needles:
    """Return the needles whose stitch moves away while none comes: the row fills them."""
    moves = [action for action in actions if action.doing is Doing.MOVE]
    away = landed = NONE
    for move in moves:
        away |= move.needles
        landed |= move.needles.shifted(move.by)
    return away - landed


def _make_ready(ledger: Ledger, action: Action, empty: Needles) -> None:
    match action:
        case Action(doing=Doing.MOVE):
            ledger.transfer(action.needles, action.by,
                            fewer=len(action.needles & empty))
        case Action(doing=Doing.CROSS, first=Side() as first):
            ledger.cross(action.needles, action.left, action.right, first)
        case Action(doing=Doing.TUCK):
            ledger.tuck(action.needles)
        case Action(doing=Doing.SLIP):
            ledger.slip(action.needles)
        case Action(doing=Doing.SECOND):
            ledger.pick(action.needles)
