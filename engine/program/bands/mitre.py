"""The layers of a band mitred at the point of a V: stitches go at both sides of it, and come again.

Both layers have their changes on the same rows from the fold, so that they lie on one another.
"""

from __future__ import annotations

from ...machine.needles import NONE, Needles, of
from ...machine.reasons import Reason
from ...machine.set_up_steps import Weight
from ...plan.band import BandPlan
from ..band import knit_rows
from ..layout import Layout
from ..ledger import Ledger


def inward(book: Ledger, plan: BandPlan, layout: Layout, *, done: int = 0) -> Layout:
    """Knit the first layer, a pair fewer after each of the mitre's rows; return what is left."""
    assert plan.mitre is not None
    corner = layout.at(plan.mitre.corner)
    for row in plan.mitre.rows:
        knit_rows(book, plan, row - done,
                  Reason.TO_MITRE_PAIR if done else Reason.TO_FIRST_MITRE_PAIR, done=done)
        done = row
        left, right = _sides(layout.needles, of(corner))
        book.weights_off(Reason.FOR_MITRE)
        book.transfer(left, 1, Reason.FOR_MITRE, fewer=1, rest=True)
        book.transfer(right, -1, Reason.FOR_MITRE, fewer=1, rest=True)
        book.hang_weights(Weight.EVEN, layout.needles - left.leftmost(1) - right.rightmost(1),
                          Reason.FOR_MITRE)
        layout = Layout(layout.needles - left.leftmost(1) - right.rightmost(1), layout.hem)
    knit_rows(book, plan, plan.depth.value - done, Reason.TO_FOLD, done=done)
    return layout


def outward(book: Ledger, plan: BandPlan, layout: Layout, fills: Needles) -> None:
    """Knit the second layer from the fold, a pair more on the rows on which one went."""
    assert plan.mitre is not None
    gone = len(plan.mitre.rows)
    corner = layout.at(plan.mitre.corner - gone)
    done = 0
    for row in plan.mitre.rows[::-1]:
        now = plan.depth.value - row
        knit_rows(book, plan, now - done, Reason.TO_MITRE_PAIR, done=done, back=True,
                  fills=fills)
        done, fills = now, NONE
        left, right = _sides(layout.needles, of(corner))
        outer = left.leftmost(1).shifted(-1) | right.rightmost(1).shifted(1)
        book.weights_off(Reason.FOR_MITRE)
        book.bring(outer, reason=Reason.FOR_MITRE)
        book.transfer(left, -1, Reason.FOR_MITRE, fewer=0)
        book.transfer(right, 1, Reason.FOR_MITRE, fewer=0)
        book.increase(left.rightmost(1) | right.leftmost(1), Reason.FOR_MITRE)
        book.hang_weights(Weight.EVEN, layout.needles | outer, Reason.FOR_MITRE)
        layout = Layout(layout.needles | outer, layout.hem)
    knit_rows(book, plan, plan.depth.value - done, Reason.TO_END_OF_SECOND_LAYER, done=done,
              back=True, fills=fills)


def _sides(needles: Needles, corner: Needles) -> tuple[Needles, Needles]:
    """The needles at the left of the corner, and those at its right."""
    place = corner.first.place
    ordered = [n for a, b in needles.spans() for n in range(a.place, b.place + 1)]
    left = sum(n < place for n in ordered)
    return needles.leftmost(left), needles.rightmost(len(ordered) - left - 1)

