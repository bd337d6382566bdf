"""The shawl collar: a band along neck and fronts, deeper behind the neck by short rows."""

from __future__ import annotations

from ...machine.headings import Heading
from ...machine.needles import NONE, Needles
from ...machine.reasons import Reason
from ...machine.steps import Dial
from ...pattern.model import Fold
from ...plan.band import BandPlan
from ...plan.collar_plan import ShortRows
from ..band_steps import fold, picots
from ..layout import Layout
from ..ledger import Ledger
from ..short_row_steps import back_by_steps, back_over_all, hold_by_steps
from .hung import SEAM_LINE, bind_off_all, close_inside, ends, first_row, hang_edge
from .kind import MadeBand

LAST_ROWS = 2


def one_layer(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return a shawl collar of one layer, its outer edge bound off."""
    return _make(plan, layout, garment_dial, layers=1)


def two_layers(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return a shawl collar whose second layer does the same backwards from the fold, row for row,
    and is closed inside."""
    return _make(plan, layout, garment_dial, layers=2)


def _make(plan: BandPlan, layout: Layout, garment_dial: Dial, *, layers: int) -> MadeBand:
    """The steps: the rows at its ends less the last two, the short rows, two over all."""
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    done = first_row(book, plan, layout)
    short = plan.collar.short_rows is not None
    over_all = plan.depth.value - (LAST_ROWS if short else 0)
    book.knit(over_all - done, Reason.OVER_ALL)
    book.section(Heading.OVER_ALL)
    if short:
        _last_rows(book, layout, _hold_by_steps(book, plan, layout))
    if layers == 1:
        leaves = bind_off_all(book, plan, layout)
    else:
        _second_layer(book, plan, layout)
        leaves = close_inside(book, plan, layout)
    ends(book, plan, False, folded=layers == 2)
    seam = ((SEAM_LINE, plan.stitches.value),) if layers == 2 and not leaves else ()
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves, seams=seam)


def _second_layer(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    """From the fold: a row over all, both sides into hold, and step by step back into work."""
    book.claws_off()
    fold(book, plan, layout)
    fills = picots(layout) if plan.band.fold is Fold.PICOT else NONE
    short, rows = plan.collar.short_rows, plan.depth.value
    if short is None:
        book.knit(rows, Reason.TO_END_OF_SECOND_LAYER, fills=fills)
        book.section(Heading.SECOND_LAYER)
        return
    book.knit(1, Reason.OVER_ALL, fills=fills)
    book.section(Heading.SECOND_LAYER)
    _back_by_steps(book, short, layout)
    if left := rows - LAST_ROWS - 1:
        book.claws_off()
        book.knit(left, Reason.TO_END_OF_SECOND_LAYER)
        book.section(Heading.LAST_ROWS_BEHIND)


def _back_by_steps(book: Ledger, short: ShortRows, layout: Layout) -> None:
    """All but the middle into hold, and back step by step."""
    back_by_steps(book, layout.needles, {layout.hem: short.first, layout.hem.other: short.last})
    book.section(Heading.SHORT_ROWS_BEHIND)


def _hold_by_steps(book: Ledger, plan: BandPlan, layout: Layout) -> Needles:
    """Hold all steps of a collar; return what then is not held."""
    short = plan.collar.short_rows
    assert short is not None
    work = hold_by_steps(book, layout.needles,
                         {layout.hem: short.first, layout.hem.other: short.last})
    book.section(Heading.SHORT_ROWS)
    return work


def _last_rows(book: Ledger, layout: Layout, middle: Needles) -> None:
    """Held needles back in work, a row over each side."""
    back_over_all(book, layout.needles, middle)
    book.section(Heading.LAST_ROWS)
