"""The enclosing band: knitted sideways on waste yarn, folded, closed around the edge."""

from __future__ import annotations

from ..band import BandPlan
from ..ledger import Ledger
from ..model import Closing
from ..program import (
    Layout,
    close_around,
    close_holes,
    finish,
    first_layer,
    fold,
    hole_spans,
    last_rows,
    second_layer,
    waste_start,
)
from ..steps import Dial
from .kind import Kind, Made


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> Made:
    """Return the steps as its makers work it: common practice, no source; loops D04 and D09."""
    book = Ledger(side=layout.hem.other)
    waste_start(book, plan, layout, garment_dial)
    holes = hole_spans(plan, layout) if with_holes else ()
    first_layer(book, plan, holes)
    fold(book, plan, layout)
    second_layer(book, plan, layout, bool(holes))
    if holes:
        close_holes(book, plan, layout, holes)
        last_rows(book, plan)
    close_around(book, plan, layout)
    finish(book, plan, bool(holes))
    return Made(sections=tuple(book.sections), totals=book.totals, on_waste=True)


KIND = Kind(name="enclosing", layers=2, closings=(Closing.ENCLOSED,), page="bands/enclosing.html",
            stands=True, grades=True,
            summary="knitted apart, folded, and closed around the edge", make=make)
