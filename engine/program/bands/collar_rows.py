"""The rows of collars: a graded dial, stitches that come at both ends and go, one layer or two.

Source: Dorcas Pilfold, "Perfect machine-knit neckband" (D05).
"""

from __future__ import annotations

from dataclasses import replace

from ...machine.headings import Heading
from ...machine.needles import Needles, between
from ...machine.reasons import Reason
from ...machine.steps import Dial
from ...pattern.model import Fold
from ...plan.band import BandPlan
from ...shape.even_gaps import Finish
from ...shape.schedule import spread_events
from ..band_steps import fold, picots
from ..layout import Layout
from ..ledger import Ledger
from .hung import SEAM_LINE, bind_off_all, close_inside, ends, first_row, hang_edge
from .kind import MadeBand


def one_layer(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return a collar of one layer, from the neck outward, its outer edge bound off."""
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    wide = _outward(book, plan, layout, first_row(book, plan, layout))
    book.section(Heading.COLLAR)
    leaves = bind_off_all(book, plan, wide)
    ends(book, plan, False, folded=False)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves)


def two_layers(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return a collar of two layers: outward, the fold at its outer edge, and back to the neck.

    What came at the ends goes again and the dial is graded back, so that the layers match row
    for row (D05).
    """
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    wide = _outward(book, plan, layout, first_row(book, plan, layout))
    book.section(Heading.FIRST_LAYER)
    fold(book, _at_outer_dial(plan), wide)
    _inward(book, plan, wide, picots(wide) if plan.band.fold is Fold.PICOT else Needles(0))
    book.section(Heading.SECOND_LAYER)
    leaves = close_inside(book, plan, layout)
    ends(book, plan, False, folded=True)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves,
                    seams=() if leaves else ((SEAM_LINE, plan.stitches.value),))


def _at_outer_dial(plan: BandPlan) -> BandPlan:
    """The fold is made, and the second layer begun, at the setting of the outer edge."""
    return replace(plan, band=replace(plan.band, dial=plan.collar.outer))


def increase_rows(plan: BandPlan) -> tuple[int, ...]:
    """The rows after which a stitch comes to each end, spread over the layer."""
    spread = spread_events(plan.collar.points, plan.depth.value - 1, finish=Finish.PLAIN)
    return spread.event_rows


def _outward(book: Ledger, plan: BandPlan, layout: Layout, done: int) -> Layout:
    wide, dials = layout, _changes(plan)
    comes = increase_rows(plan)
    for row in sorted({*dials, *comes}):
        book.knit(row - done)
        done = row
        if row in comes:
            wide = _wider(book, wide)
        if row in dials:
            book.set_dial(dials[row][1], Reason.TOWARDS_OUTER_EDGE)
    book.knit(plan.depth.value - done, Reason.TO_OUTER_EDGE)
    return wide


def _inward(book: Ledger, plan: BandPlan, wide: Layout, fills: Needles) -> Layout:
    """Row for row the first layer backwards; a fold of picots fills its needles at once."""
    rows, dials, done = plan.depth.value, _changes(plan), 0
    goes = increase_rows(plan)
    for row in sorted({*dials, *goes}, reverse=True):
        book.knit(rows - row - done, fills=fills)
        done, fills = rows - row, Needles(0)
        if row in goes:
            wide = _narrower(book, wide)
        if row in dials:
            book.set_dial(dials[row][0], Reason.TOWARDS_NECK)
    book.knit(rows - done, Reason.TO_END_OF_SECOND_LAYER, fills=fills)
    return wide


def _changes(plan: BandPlan) -> dict[int, tuple[Dial, Dial]]:
    """The rows after which the dial changes, outward: from and to which setting."""
    at, out = 0, {}
    for (rows, dial), (_, after) in zip(plan.collar.grades, plan.collar.grades[1:], strict=False):
        at += rows
        out[at] = dial, after
    return out


def _wider(book: Ledger, layout: Layout) -> Layout:
    first, last = layout.needles.first, layout.needles.last
    for needle in (between(first, first).shifted(-1), between(last, last).shifted(1)):
        book.increase(needle)
    return Layout(layout.needles | layout.needles.shifted(-1) | layout.needles.shifted(1),
                  layout.hem)


def _narrower(book: Ledger, layout: Layout) -> Layout:
    first, last = layout.needles.leftmost(1), layout.needles.rightmost(1)
    book.transfer(first, 1, fewer=1, rest=True)
    book.transfer(last, -1, fewer=1, rest=True)
    return Layout(layout.needles - first - last, layout.hem)
