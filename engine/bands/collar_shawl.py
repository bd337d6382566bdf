"""The shawl collar: a band along neck and fronts, deeper behind the neck by short rows."""

from __future__ import annotations

from ..band import BandPlan
from ..ledger import Ledger
from ..needles import Needles, between
from ..program import Layout
from ..steps import Dial, Side
from ..ways import SINGLES
from .hung import bind_off_all, ends, first_row, hang_edge
from .kind import Kind, Made

LAST_ROWS = 2


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> Made:
    """Return the steps: the rows at its ends less the last two, the short rows, two over all."""
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    done = first_row(book, plan)
    short = plan.collar.short_rows is not None
    over_all = plan.depth.value - (LAST_ROWS if short else 0)
    book.knit(over_all - done, "over all stitches")
    book.section("Rows over all stitches")
    if short:
        _last_rows(book, layout, _hold_by_steps(book, plan, layout))
    leaves = bind_off_all(book, plan, layout)
    ends(book, plan, False, folded=False)
    return Made(sections=tuple(book.sections), totals=book.totals, leaves=leaves)


def _hold_by_steps(book: Ledger, plan: BandPlan, layout: Layout) -> Needles:
    """Hold step by step at the side the carriage goes to; return what then is not held.

    A step of n goes as n − 1 before the row towards it, its last needle when the carriage has
    come, so that the yarn goes round it (S07).
    """
    short = plan.collar.short_rows
    assert short is not None
    steps = {layout.hem: short.first, layout.hem.other: short.last}
    work, arrived = layout.needles, Needles(0)
    for pair in range(short.pairs):
        for side in (book.side.other, book.side):
            before = _outermost(work - arrived, side, steps[side][pair] - 1)
            _hold(book, arrived)
            _hold(book, before)
            work -= arrived | before
            book.knit(1)
            arrived = _outermost(work, side, 1)
    _hold(book, arrived)
    book.section("Short rows")
    return work - arrived


def _hold(book: Ledger, needles: Needles) -> None:
    if needles:
        book.hold(needles, "for the short rows")


def _outermost(needles: Needles, side: Side, count: int) -> Needles:
    return needles.leftmost(count) if side is Side.LEFT else needles.rightmost(count)


def _last_rows(book: Ledger, layout: Layout, middle: Needles) -> None:
    """Held needles back in work, those away from the carriage first, a row over each side."""
    for said in ("over these as well", "over all stitches"):
        away = layout.needles - between(
            middle.first if book.side is Side.RIGHT else layout.needles.first,
            layout.needles.last if book.side is Side.RIGHT else middle.last)
        book.resume(away, "away from the carriage")
        book.knit(1, said)
        middle |= away
    book.section("Last rows")


KIND = Kind(name="shawl collar", layers=1, closings=(), page="bands/shawl-collar.html",
            stands=True, ways_off=SINGLES, asks=("back_depth", "shows"), needs=("back_depth",),
            falls=True,
            summary="falls over from fronts and neck, deeper behind the neck", make=make)
