"""The stitches of a piece that are being shaped: where they lie, and their rows."""

from __future__ import annotations

from ..machine.needles import NONE, Needles, stretch_of
from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.steps import Side
from .chart_actions import Action, ChartRows, Doing, cut_to
from .ledger import Ledger

CHOSEN = (Doing.TUCK, Doing.SLIP)  # a needle so chosen keeps its loops for the rows above


@dataclass(slots=True)
class ShapedStitches:
    """Stitches being shaped, as on the right of the bed; `pivot` mirrors them to where they are.

    `first` and `last` are the places of its outermost stitches, held ones included; `idle_left`
    and `idle_right` how many of them are held at either side. `works` are the bed's needles
    with stitches, where others between them are left out of work, else None. `chart` is what its
    rows are knitted from; `laid` are stitches that lie elsewhere since the last row: they are
    knitted plain. `reason` is that of rows without a chart.
    """

    book: Ledger
    first: int
    last: int
    moved: int
    pivot: int | None = None
    idle_left: int = 0
    idle_right: int = 0
    works: Needles | None = None
    chart: ChartRows | None = None
    laid: Needles = NONE
    reason: Reason = Reason.NONE

    def side(self, side: Side) -> Side:
        """The bed's side for a side of the part."""
        return side if self.pivot is None else side.other

    def span(self, first: int, last: int) -> Needles:
        """The bed's needles for places of the part."""
        if self.pivot is not None:
            first, last = self.pivot - last, self.pivot - first
        return stretch_of(first, last)

    def edge(self, side: Side, count: int) -> Needles:
        """The `count` outermost working needles at a side."""
        if side is Side.RIGHT:
            end = self.last - self.idle_right
            return self.span(end - count + 1, end)
        start = self.first + self.idle_left
        return self.span(start, start + count - 1)

    @property
    def stitches(self) -> Needles:
        """The bed's needles with stitches of this part, held ones included."""
        whole = self.span(self.first, self.last)
        return whole if self.works is None else whole & self.works

    @property
    def working(self) -> int:
        """How many stitches are not held."""
        return self.last - self.first + 1 - self.idle_left - self.idle_right

    @property
    def free(self) -> Needles:
        """The needles that the chart may have: those in work, but for the edges and what moved."""
        edge = self.chart.edge if self.chart else 0
        start, end = self.first + self.idle_left + edge, self.last - self.idle_right - edge
        return self.span(start, end) - self.laid if start <= end else NONE

    def knit(self, rows: int, calm: Needles = NONE) -> None:
        """Rows over what is in work; after the last of them `calm` needles hold one loop each."""
        if self.chart is None:
            self.book.cut_contrast()
            self.book.knit(rows, self.reason)
            return
        for left in range(rows, 0, -1):
            row = self.book.counter + 1
            actions = _of_two(cut_to(self.chart.actions(row), self.free), self.working)
            self.chart.knit(self.book, row, actions if left > 1 else _calmed(actions, calm))
            self.laid = NONE

    def hang_claws(self) -> None:
        """Claw weights under the part's stitches that are not held."""
        start, end = self.first + self.idle_left, self.last - self.idle_right
        self.book.hang_claws(self.span(start, end))

    def narrow(self, side: Side, by: int) -> None:
        """Note that the part ends `by` stitches further in (further out below 0)."""
        if side is Side.RIGHT:
            self.last -= by
        else:
            self.first += by


def _of_two(actions: tuple[Action, ...], working: int) -> tuple[Action, ...]:
    """The actions of a row, without those for a contrast yarn that would leave the other none."""
    return tuple(action for action in actions
                 if action.doing is not Doing.SECOND or len(action.needles) < working)


def _calmed(actions: tuple[Action, ...], calm: Needles) -> tuple[Action, ...]:
    """The actions of a row after which `calm` needles must hold one loop each."""
    return tuple(cut for action in actions for cut in (
        cut_to((action,), action.needles - calm) if action.doing in CHOSEN else (action,)))
