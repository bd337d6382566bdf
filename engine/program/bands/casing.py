"""The casing: a folded band whose outer layer, or whose ends, stay open for a cord or elastic."""

from __future__ import annotations

from ...machine.headings import Heading
from ...machine.needles import NONE, Needles
from ...machine.reasons import Reason
from ...machine.step_keys import Topic
from ...machine.steps import Dial
from ...pattern.model import Fold
from ...plan.band import BandPlan
from ..band_steps import finish_ends, fold, knit_rows, picots
from ..layout import Layout, all_of
from ..ledger import Ledger
from .buttonhole_steps import eyelets, slits
from .hung import SEAM_LINE, close_inside, first_row, hang_edge
from .kind import MadeBand


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps: openings in the layer next the garment, which is the outer one."""
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    _outer(book, plan, layout, first_row(book, plan, layout))
    book.section(Heading.OUTER_LAYER)
    fold(book, plan, layout)
    book.knit(plan.depth.value, Reason.TO_END_OF_INNER_LAYER,
              fills=picots(layout) if plan.band.fold is Fold.PICOT else NONE)
    book.section(Heading.INNER_LAYER)
    leaves = close_inside(book, plan, layout, first=_sewn_first(plan))
    _by_hand(book, plan)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves,
                    seams=() if leaves else ((SEAM_LINE, plan.stitches.value),))


def openings(plan: BandPlan, layout: Layout) -> tuple[Needles, ...]:
    """Return the two needles of every opening, from the band's first end."""
    return tuple(layout.span(first, first + 1) for first in plan.casing.openings)


def _outer(book: Ledger, plan: BandPlan, layout: Layout, done: int) -> None:
    """The outer layer, its openings about the middle row."""
    rows, holes = plan.rows, openings(plan, layout)
    if not holes:
        knit_rows(book, plan, plan.depth.value - done, Reason.TO_FOLD, done=done)
    elif plan.slit:
        slits(book, plan, layout, holes, rows.to_holes, rows.holes_to_fold, done=done)
    else:
        book.knit(rows.to_holes - done, Reason.TO_EYELETS)
        book.attend(Topic.CHOOSE_EYELETS, all_of(holes))
        book.knit(rows.holes_to_fold, Reason.TO_FOLD,
                  fills=eyelets(book, layout, holes, Reason.FOR_CORD))


def _sewn_first(plan: BandPlan) -> Topic | None:
    """What is sewn at the openings while the channel can be reached; None without openings."""
    if not plan.casing.openings:
        return None
    return Topic.SEW_SLITS if plan.casing.slit else Topic.OVERCAST_CORD_EYELETS


def _by_hand(book: Ledger, plan: BandPlan) -> None:
    """The ends; what goes through is drawn in when the seams are sewn. The openings were sewn
    before: their ends of yarn hang inside the channel, which is shut now."""
    casing = plan.casing
    book.attend(Topic.SEW_ENDS if casing.openings and casing.free else Topic.LEAVE_ENDS)
    finish_ends(book, plan, False)
    book.section(Heading.BY_HAND)
