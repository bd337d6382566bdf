"""The steps that each way on and off the bed is made of."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ..catalogue.methods import (
    BIND_OFF_STEPS,
    CAST_ON_STEPS,
    CHAIN_OFF,
    DRAWN,
    GRAFT,
    SEWN,
    TOGETHER,
    WASTE_ON,
    WASTE_ROWS,
    Method,
)
from ..machine.needles import Needles
from ..machine.reasons import Reason
from ..machine.set_up_steps import Weight
from ..machine.step_keys import BindOffMethod, CastOnMethod, StepYarn
from ..machine.steps import Dial, Position
from .band_steps import LOOSER, LOOSEST
from .ledger import Ledger


def waste_start(book: Ledger, needles: Needles, dial: Dial, rows: int = WASTE_ROWS) -> None:
    """Write a start on waste yarn with one row of ravel cord; the feeder is empty after it."""
    book.set_counter(0)
    book.bring(needles)
    book.thread(StepYarn.WASTE, fresh=True)
    book.set_dial(dial)
    book.cast_on(needles, CastOnMethod.WASTE_START)
    book.hang_weights(Weight.EVEN, needles)
    book.knit(rows, Reason.OF_WASTE_YARN)
    book.unthread(cut=True)
    book.thread(StepYarn.RAVEL_CORD, fresh=True)
    book.knit(1, Reason.OF_RAVEL_CORD)


def cast_on(book: Ledger, needles: Needles, dial: Dial, method: Method) -> None:
    """Write the beginning of a piece by one of `CAST_ONS`, the row counter then at 0. Weights hang
    only where rows are knitted here: else they follow, with the first rows of what comes next."""
    if method is WASTE_ON:
        waste_start(book, needles, dial)
        book.unthread(cut=False)
        book.thread(book.next_yarn, fresh=True)
    else:
        book.set_counter(0)
        book.bring(needles)
        book.thread(book.next_yarn, fresh=True)
        book.set_dial(dial)
        book.cast_on(needles, CAST_ON_STEPS[method])
    book.set_counter(0)


def weigh_edge(book: Ledger, needles: Needles, method: Method) -> None:
    """Write the weights below an edge cast on by one of `CAST_ONS`, where none hang yet."""
    if method is not WASTE_ON:
        book.hang_weights(Weight.EVEN, needles)


def bind_off(book: Ledger, needles: Needles, method: Method, edge: str) -> None:
    """Write the end of all stitches in work by a way off, the main yarn in the feeder before it.

    `edge` names what waits on waste yarn, where the way leaves it so.
    """
    _OFF.get(method, _bind_off_with_yarn)(book, needles, method, edge)


def _bind_off_with_yarn(book: Ledger, needles: Needles, method: Method, edge: str) -> None:
    book.bind_off(needles, book.yarn, toward=book.side.other, keep_last=False,
                  method=BIND_OFF_STEPS[method], rest=True)
    book.unthread(cut=True)


def _chain(book: Ledger, needles: Needles, method: Method, edge: str) -> None:
    """A loose row, then its stitches through each other, ending where the yarn hangs."""
    assert book.dial is not None
    book.set_dial(min(LOOSEST, Dial(book.dial.thirds + LOOSER.thirds)), Reason.FOR_LAST_ROW_ONLY)
    book.knit(1, Reason.LOOSE_FOR_CHAIN)
    yarn = book.yarn
    book.unthread(cut=True)
    book.bind_off(needles, yarn, toward=book.side, keep_last=False, method=BindOffMethod.CHAINED,
                  rest=True)


def _take_off(book: Ledger, needles: Needles, method: Method, edge: str) -> None:
    book.unthread(cut=True, reason=Reason.TO_SEW_OFF if method is SEWN else Reason.NONE)
    book.take_off(needles, edge)
    book.bring(needles, Position.NON_WORKING)


def _draw_up(book: Ledger, needles: Needles, method: Method, edge: str) -> None:
    book.unthread(cut=True, reason=Reason.TO_DRAW_THROUGH)
    book.weights_off()
    book.take_off(needles, edge, Reason.DRAWN_UP, by_needle=True)
    book.bring(needles, Position.NON_WORKING)


_OFF: Mapping[Method, Callable[[Ledger, Needles, Method, str], None]] = {
    CHAIN_OFF: _chain, DRAWN: _draw_up,
    **dict.fromkeys((SEWN, GRAFT, TOGETHER), _take_off)}
