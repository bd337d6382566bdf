"""Bands knitted onto a hung edge: the way on, the holes of a single layer, the ways off."""

from __future__ import annotations

from ..band import BandPlan
from ..ledger import Ledger
from ..model import Closing
from ..needles import Needles, of
from ..program import MAIN, Layout, all_of, sections
from ..steps import Dial, Side
from .closings import by_hand, eyelets

SEAM_LINE = "the line where band and garment meet"


def hang_edge(book: Ledger, plan: BandPlan, layout: Layout, garment_dial: Dial) -> None:
    """The edge on bare needles, the garment hanging below with its wrong side towards the
    knitter, and one row at the garment's dial (D04), already one of the band's."""
    book.bring(layout.needles)
    for name, meeting, needles in sections(plan, layout):
        book.hang(name, needles, "the garment's edge, wrong side facing you", onto_empty=True,
                  picks=meeting.pick_up.rows, from_side=layout.hem)
    book.attend("weights", layout.needles)
    book.thread(MAIN, fresh=True)
    book.set_dial(garment_dial, "for the first row")
    book.set_counter(0)
    book.section("Hanging the edge")


def first_row(book: Ledger, plan: BandPlan) -> int:
    """Knit the row at the garment's dial; return how many rows have been knitted (1)."""
    book.knit(1, "at the garment's dial")
    book.set_dial(plan.band.dial, "for the band")
    return 1


def single_holes(book: Ledger, closing: Closing, holes: tuple[Needles, ...], layout: Layout
                 ) -> Needles:
    """Make the holes of a single layer; return the needles that the next row fills.

    One stitch: moved onto its neighbour; two: one each way (P05). More are bound off with a
    spare end and cast on again by hand over the bare needles (common practice, no source).
    """
    book.attend("choose holes", all_of(holes))
    away = 1 if layout.hem is Side.LEFT else -1
    if closing is Closing.EYELET:
        return eyelets(book, layout, holes)
    if closing is Closing.ONE_STITCH:
        moved = all_of(holes)
        book.transfer(moved, away, "for the buttonholes", fewer=len(moved))
        return moved
    if closing is Closing.TWO_STITCHES:
        ends = [all_of(tuple(of(h.first) for h in holes)), all_of(tuple(of(h.last) for h in holes))]
        lower, upper = ends if layout.hem is Side.LEFT else ends[::-1]
        book.transfer(lower, -away, "for the buttonholes", fewer=len(lower))
        book.transfer(upper, away, "for the buttonholes", fewer=len(upper))
        return lower | upper
    toward = layout.hem.other
    for number, span in enumerate(holes, 1):
        book.bind_off(span | span.shifted(away), MAIN, f"buttonhole {number}", toward=toward,
                      keep_last=True, method="around the gate pegs", layers=1)
    for number, span in enumerate(holes, 1):
        book.cast_on(span, "by hand", f"buttonhole {number}")
    return Needles(0)


def close_inside(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    """Fold the band inward: the line where it began on the needles, a loose row, chained off."""
    book.unthread(cut=True)
    book.attend("weights off", layout.needles)
    book.attend("fold up", layout.needles)
    book.hang(SEAM_LINE, layout.needles, "where the band began", onto_empty=False,
              picks=tuple(range(1, plan.stitches.value + 1)), from_side=layout.hem)
    book.hand_knit(layout.needles, MAIN, "to join both layers", loose=True)
    _chain_off(book, layout)
    book.section("Closing the band inside")


def bind_off_all(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    """A loose last row by hand, then the stitches chained through each other."""
    book.unthread(cut=True)
    book.attend("weights off", layout.needles)
    book.hand_knit(layout.needles, MAIN, "the last row", loose=True)
    _chain_off(book, layout)
    book.section("Binding off")


def _chain_off(book: Ledger, layout: Layout) -> None:
    book.bind_off(layout.needles, MAIN, "all stitches", toward=book.side.other, keep_last=False,
                  method="chained through each other", layers=1, rest=True)


def ends(book: Ledger, plan: BandPlan, holes: bool, *, folded: bool) -> None:
    """By hand, off the bed."""
    if folded:
        book.attend("sew ends")
    by_hand(book, plan, holes)
    book.attend("darn in")
    if plan.placing is not None and not holes:
        book.attend("sew buttons")
    book.section("Finishing by hand")
