"""The ribbed band: one layer on one bed, its columns dropped and latched up before it comes off."""

from __future__ import annotations

from ...machine.headings import Heading
from ...machine.reasons import Reason
from ...machine.steps import Dial, Side
from ...pattern.rib_specs import RibMake
from ...plan.band import BandPlan
from ...shape.ribs import standing_out
from ..layout import Layout
from ..ledger import Ledger
from ..rib import FOOT
from .hung import bind_off_all, ends, first_row, hang_edge
from .kind import MadeBand


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps: its first row, at the garment's dial, stops the columns.

    It has no buttonholes: a hole would break a column.
    """
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    done = first_row(book, plan, layout)
    book.knit(plan.depth.value - done, Reason.TO_END_OF_BAND)
    back = layout.needles - standing_out(layout.needles, plan.band.rib, RibMake.LATCHED,
                                         mirrored=layout.hem is Side.RIGHT)
    if back:
        book.latch(back, plan.depth.value - FOOT)
    book.section(Heading.BAND)
    leaves = bind_off_all(book, plan, layout)
    ends(book, plan, False, folded=False)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves,
                    latched=book.latched)
