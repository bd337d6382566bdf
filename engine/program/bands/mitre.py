"""The layers of a band mitred where it turns: at both sides of every corner stitches go, or come.

A second layer does the same backwards, on the same rows from the fold, so that both lie on one
another.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...machine.needles import NONE, Needle, Needles, between, of
from ...machine.reasons import Reason
from ...machine.records import dataclass
from ...machine.set_up_steps import Weight
from ...machine.steps import Position
from ...plan.band import BandPlan
from ...plan.mitres import MitrePlan
from ..band_steps import knit_rows
from ..layout import Layout
from ..ledger import Ledger


@dataclass(frozen=True, slots=True)
class _Move:
    """Neighbouring stitches that go so many needles to the right (less than 0: to the left)."""

    needles: Needles
    by: int


def mitred_first_layer(book: Ledger, plan: BandPlan, layout: Layout, reason: Reason, *,
                       done: int = 0, fills: Needles = NONE) -> Layout:
    """Knit the layer next to the garment, changed after each of the mitre's rows, to its end for
    `reason`; return where it lies then. Its next row `fills` bare needles."""
    assert plan.mitre is not None
    for pairs, row in enumerate(plan.mitre.rows):
        knit_rows(book, plan, row - done,
                  Reason.TO_MITRE_PAIR if pairs else Reason.TO_FIRST_MITRE_PAIR, done=done,
                  fills=fills)
        done, fills = row, NONE
        corners = _corners(plan.mitre, layout, pairs)
        layout = _open(book, layout, corners) if plan.mitre.turns.longer else \
            _close(book, layout, corners)
    knit_rows(book, plan, plan.depth.value - done, reason, done=done, fills=fills)
    return layout


def mitred_second_layer(book: Ledger, plan: BandPlan, layout: Layout, fills: Needles) -> None:
    """Knit the second layer from the fold, changed back on the rows on which the first was."""
    assert plan.mitre is not None
    pairs, done = len(plan.mitre.rows), 0
    for row in plan.mitre.rows[::-1]:
        now = plan.depth.value - row
        knit_rows(book, plan, now - done, Reason.TO_MITRE_PAIR, done=done, back=True,
                  fills=fills)
        done, fills = now, NONE
        corners = _corners(plan.mitre, layout, pairs)
        layout = _close(book, layout, corners) if plan.mitre.turns.longer else \
            _open(book, layout, corners)
        pairs -= 1
    knit_rows(book, plan, plan.depth.value - done, Reason.TO_END_OF_SECOND_LAYER, done=done,
              back=True, fills=fills)


def _corners(mitre: MitrePlan, layout: Layout, pairs: int) -> list[Needle]:
    """The needles of the corners' own stitches when so many pairs went or came, from the left."""
    more = pairs if mitre.turns.longer else -pairs
    return sorted(layout.at(stitch + more * (2 * number + 1))
                  for number, stitch in enumerate(mitre.turns.corners))


def _close(book: Ledger, layout: Layout, corners: Sequence[Needle]) -> Layout:
    """A pair fewer at every corner; the middle of the band stays where it is."""
    count, full = len(corners), layout.needles
    left = full - full.leftmost(count) - full.rightmost(count)
    book.weights_off(Reason.FOR_MITRE)
    moves = sorted(_moves(full, corners), key=lambda move: abs(move.by))
    for move in moves:
        lands, others = move.needles.shifted(move.by), full - move.needles
        full = others | lands
        book.transfer(move.needles, move.by, Reason.FOR_MITRE, fewer=len(lands & others),
                      rest=abs(move.by) == count)
    if idle := layout.needles - left - _outermost(moves, count):
        book.bring(idle, Position.NON_WORKING, Reason.FOR_MITRE)
    book.hang_weights(Weight.EVEN, left, Reason.FOR_MITRE)
    return Layout(left, layout.hem)


def _outermost(moves: Sequence[_Move], count: int) -> Needles:
    """The needles that are pushed back as they are emptied."""
    mask = 0
    for move in moves:
        if abs(move.by) == count:
            mask |= (move.needles - move.needles.shifted(move.by)).mask
    return Needles(mask)


def _open(book: Ledger, layout: Layout, corners: Sequence[Needle]) -> Layout:
    """A pair more at every corner, each stitch of it from the one beside it."""
    count, full = len(corners), layout.needles
    wide = full
    for by in range(1, count + 1):
        wide |= full.shifted(by) | full.shifted(-by)
    book.weights_off(Reason.FOR_MITRE)
    book.bring(wide - full, reason=Reason.FOR_MITRE)
    for move in sorted(_moves(full, corners), key=lambda move: -abs(move.by)):
        full = full - move.needles | move.needles.shifted(-move.by)
        book.transfer(move.needles, -move.by, Reason.FOR_MITRE, fewer=0)
    book.increase(wide - full, Reason.FOR_MITRE)
    book.hang_weights(Weight.EVEN, wide, Reason.FOR_MITRE)
    return Layout(wide, layout.hem)


def _moves(needles: Needles, corners: Sequence[Needle]) -> Iterator[_Move]:
    """What moves together towards the middle, from the left: the stretches and the corners.

    Each stitch moves by as many needles as stitches go between it and the middle.
    """
    by = len(corners)
    for corner in corners:
        before = between(needles.first, corner) - of(corner)
        yield from _moving(before, by)
        yield from _moving(of(corner), by - 1)
        needles = needles - before - of(corner)
        by -= 2
    yield from _moving(needles, by)


def _moving(needles: Needles, by: int) -> Iterator[_Move]:
    if needles and by:
        yield _Move(needles, by)
