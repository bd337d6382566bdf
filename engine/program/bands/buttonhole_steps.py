"""The buttonholes that bands are knitted with, besides those that are bound off: slits, eyelets,
and the feet of loops."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise

from ...catalogue.bands import KINDS
from ...machine.needles import NONE, Needles, between, of
from ...machine.reasons import Because, Reason
from ...machine.step_keys import StepYarn, Topic
from ...machine.steps import Side
from ...pattern.holes import ButtonholeKind
from ...plan.band import BandPlan
from ..band_steps import knit_rows
from ..layout import Layout, all_of
from ..ledger import Ledger


def buttonhole_kind(plan: BandPlan) -> ButtonholeKind | None:
    """The kind of buttonhole asked for, None where there is none."""
    return plan.band.buttonholes.kind if plan.band.buttonholes else None


def slits(book: Ledger, plan: BandPlan, layout: Layout, holes: tuple[Needles, ...], to_middle: int,
          after: int, *, done: int = 0, back: bool = False, fills: Needles = NONE) -> None:
    """Knit a layer with slits about its middle row: `to_middle` rows before, `after` behind it.

    The parts between the slits are knitted in turn, each with its own end while all others
    are held, first the one at the carriage. So many rows are `done` already; `fills` takes up the
    first of them. Common practice, no source.
    """
    assert plan.slit is not None
    half = plan.slit.value // 2
    before = to_middle - half
    knit_rows(book, plan, before - done, Reason.TO_SLITS, done=done, back=back, fills=fills)
    book.attend(Topic.CHOOSE_SLITS, all_of(holes))
    _in_turn(book, _parts(layout.needles, holes),
             partial(knit_rows, book, plan, plan.slit.value, done=before, back=back))
    knit_rows(book, plan, after - half, Reason.OVER_ALL_PARTS, done=before + plan.slit.value,
              back=back)


def _parts(needles: Needles, holes: tuple[Needles, ...]) -> list[Needles]:
    """The needles between the slits, from the left; a slit lies in the middle of its hole."""
    firsts = sorted(hole.last for hole in holes)
    lasts = sorted(hole.first for hole in holes)
    return [between(a, b) for a, b in zip([needles.first, *firsts], [*lasts, needles.last],
                                          strict=True)]


def _in_turn(book: Ledger, parts: list[Needles], knit: Callable[[Because], None]) -> None:
    row = book.counter
    if book.side is Side.RIGHT:
        parts = parts[::-1]
    book.hold(all_of(tuple(parts[1:])), Reason.ALL_BUT_FIRST_PART)
    book.hang_claws(parts[0])
    knit(Reason.OVER_FIRST_PART)
    for number, (before, part) in enumerate(pairwise(parts), 2):
        # The first part's end hangs at the band's own end; those after it begin and end at a slit.
        book.unthread(cut=True, reason=Reason.NONE if number == 2 else Reason.TO_SEW_SLIT)
        if number == 2:
            book.free_pass(Reason.TO_SIDE_OF_PARTS)
        book.set_counter(row, Reason.WHERE_SLITS_BEGAN)
        book.resume(part, (Reason.PART, number))
        book.hold(before, (Reason.PART, number - 1))
        book.hang_claws(part)
        book.thread(StepYarn.MAIN, fresh=True)
        knit((Reason.OVER_PART, number))
    book.claws_off()
    book.resume(all_of(tuple(parts[:-1])), Reason.FOR_ROWS_OVER_ALL)


def eyelets(book: Ledger, layout: Layout, holes: tuple[Needles, ...],
            reason: Reason = Reason.FOR_BUTTONHOLES) -> Needles:
    """Move the first stitch of every hole onto its second; return what the next row fills."""
    moved = all_of(tuple(of(hole.first if layout.hem is Side.LEFT else hole.last)
                         for hole in holes))
    book.transfer(moved, 1 if layout.hem is Side.LEFT else -1, reason, fewer=len(moved))
    return moved


def feet(book: Ledger, holes: tuple[Needles, ...]) -> None:
    """Mark the stitches between which every loop will stand, while they are on the needles."""
    book.attend(Topic.MARK_LOOPS, all_of(holes))


def by_hand(book: Ledger, plan: BandPlan, holes: bool) -> None:
    """What is still to do at the buttonholes once the band is off the bed.

    The slits of two layers were sewn before these were closed, while their ends could be reached.
    """
    after: dict[ButtonholeKind, Topic] = {
        ButtonholeKind.SLIT: Topic.JOIN_SLITS if KINDS[plan.band.kind].doubled else Topic.SEW_SLITS,
        ButtonholeKind.EYELET: Topic.OVERCAST_HOLES,
        ButtonholeKind.ONE_STITCH: Topic.SEW_ROUND_HOLES,
        ButtonholeKind.TWO_STITCHES: Topic.SEW_ROUND_HOLES, ButtonholeKind.LOOPS: Topic.MAKE_LOOPS}
    kind = buttonhole_kind(plan)
    if holes and kind in after:
        book.attend(after[kind])
