"""The enclosing band: knitted sideways on waste yarn, folded, closed around the edge.

Sources: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04);
TECHknitter, "Provisional cast on: knitting up vs. knitting down" (D09).
"""

from __future__ import annotations

from ...machine.headings import Heading
from ...machine.needles import NONE
from ...machine.reasons import Reason
from ...machine.steps import Dial
from ...pattern.model import Fold
from ...plan.band import BandPlan
from ..band_steps import (
    begin_layer,
    begins,
    close_around,
    close_holes,
    finish,
    first_layer,
    fold,
    last_rows,
    picots,
    second_layer,
    waste_start,
)
from ..layout import Layout, hole_spans
from ..ledger import Ledger
from . import layer_parts
from .kind import MadeBand


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps as its makers work it: common practice, no source; loops D04 and D09."""
    book = Ledger(side=begins(plan, layout))
    waste_start(book, plan, layout, garment_dial)
    if plan.mitre is not None:
        return _mitred(book, plan, layout)
    holes = hole_spans(plan, layout) if with_holes else ()
    first_layer(book, plan, holes)
    fold(book, plan, layout)
    second_layer(book, plan, layout, bool(holes))
    if holes:
        close_holes(book, plan, layout, holes)
        last_rows(book, plan)
    close_around(book, plan, layout)
    finish(book, plan, bool(holes))
    return MadeBand(sections=tuple(book.sections), totals=book.totals, on_waste=True,
                    starts=begins(plan, layout))


def _mitred(book: Ledger, plan: BandPlan, layout: Layout) -> MadeBand:
    """A band without holes that turns at corners."""
    begin_layer(book, plan)
    changed = layer_parts.mitred_first_layer(book, plan, layout, Reason.TO_FOLD)
    book.section(Heading.FIRST_LAYER)
    fold(book, plan, changed)
    layer_parts.mitred_second_layer(book, plan, changed,
                       picots(changed) if plan.band.fold is Fold.PICOT else NONE)
    book.unthread(cut=True)
    book.section(Heading.SECOND_LAYER)
    close_around(book, plan, layout)
    finish(book, plan, False)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, on_waste=True,
                    starts=begins(plan, layout))
