"""Bands knitted onto a hung edge: the way on, the holes of a single layer, the ways off.

Sources: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04); Yateley
Machine Knitting Club, "February 2013: buttonholes and bands" (P05); It's All About the Color,
"Faced Band" (P09).
"""

from __future__ import annotations

from ...catalogue.methods import BIND_OFFS, CHAIN_OFF, SEWN, Method
from ...machine.headings import Heading
from ...machine.needles import Needles, of
from ...machine.reasons import Reason
from ...machine.set_up_steps import Weight
from ...machine.step_keys import BindOffMethod, CastOnMethod, StepYarn, Topic
from ...machine.steps import Dial, Side
from ...pattern.holes import ButtonholeKind
from ...plan.band import BandPlan
from ...plan.pickup import pick_up
from ...words.terms.waiting_names import BAND_LAST_ROW, BAND_SEAM_LINE
from ..band_steps import finish_ends
from ..layout import Layout, all_of, join_needles
from ..ledger import Ledger
from ..method_steps import bind_off
from ..waiting import hang_edges
from .buttonhole_steps import by_hand, eyelets

LAST_ROW, SEAM_LINE = BAND_LAST_ROW, BAND_SEAM_LINE


def hang_edge(book: Ledger, plan: BandPlan, layout: Layout, garment_dial: Dial) -> None:
    """The edge on bare needles, and one row at the garment's dial (D04), already one of the
    band's. The garment hangs below, its wrong side towards the knitter, or its right side for a
    collar whose knit side is to show."""
    book.set_counter(0)
    book.bring(layout.needles)
    hang_edges(book, plan, layout, onto_empty=True)
    if any(plan.joins):
        book.increase(join_needles(plan, layout), Reason.FOR_JOIN)
    book.thread(StepYarn.MAIN, fresh=True)
    alike = not plan.band.dials and plan.band.dial == garment_dial
    book.set_dial(garment_dial, Reason.NONE if alike else Reason.FOR_FIRST_ROW)
    book.section(Heading.HANGING)


def first_row(book: Ledger, plan: BandPlan, layout: Layout) -> int:
    """Knit the row at the garment's dial, hang the weights once it holds, and set the band's dial
    where it is another; return how many rows have been knitted (1)."""
    alike = not plan.band.dials and book.dial == plan.band.dial
    book.knit(1, Reason.FIRST_OF_BAND if alike else Reason.AT_GARMENT_DIAL)
    book.hang_weights(Weight.EVEN, layout.needles)
    if not plan.band.dials:
        book.set_dial(plan.band.dial, Reason.FOR_BAND)
    return 1


def single_holes(book: Ledger, kind: ButtonholeKind, holes: tuple[Needles, ...], layout: Layout
                 ) -> Needles:
    """Make the holes of a single layer; return the needles that the next row fills.

    One stitch: moved onto its neighbour; two: one each way (P05). More are bound off with a
    spare end and cast on again by hand over the bare needles (common practice, no source).
    """
    book.attend(Topic.CHOOSE_HOLES, all_of(holes))
    away = 1 if layout.hem is Side.LEFT else -1
    if kind is ButtonholeKind.EYELET:
        return eyelets(book, layout, holes)
    if kind is ButtonholeKind.ONE_STITCH:
        moved = all_of(holes)
        book.transfer(moved, away, Reason.FOR_BUTTONHOLES, fewer=len(moved))
        return moved
    if kind is ButtonholeKind.TWO_STITCHES:
        ends = [all_of(tuple(of(h.first) for h in holes)), all_of(tuple(of(h.last) for h in holes))]
        lower, upper = ends if layout.hem is Side.LEFT else ends[::-1]
        book.transfer(lower, -away, Reason.FOR_BUTTONHOLES, fewer=len(lower))
        book.transfer(upper, away, Reason.FOR_BUTTONHOLES, fewer=len(upper))
        return lower | upper
    toward = layout.hem.other
    for number, span in enumerate(holes, 1):
        book.bind_off(span | span.shifted(away), StepYarn.MAIN, (Reason.BUTTONHOLE, number),
                      toward=toward, keep_last=True, method=BindOffMethod.GATE_PEGS, layers=1)
    for number, span in enumerate(holes, 1):
        book.cast_on(span, CastOnMethod.BY_HAND, (Reason.BUTTONHOLE, number))
    return Needles(0)


def bind_off_method(plan: BandPlan) -> Method:
    """The way in which the band comes off: the one that was asked for, else chained off."""
    return BIND_OFFS[plan.band.bind_off or CHAIN_OFF.name]


def close_inside(book: Ledger, plan: BandPlan, layout: Layout, yarn: StepYarn = StepYarn.MAIN, *,
                 first: Topic | None = None) -> tuple[str, ...]:
    """Fold the band inward: the line where it began on the needles, a loose row, chained off.

    Or off on waste yarn, to be sewn down by hand. Returns the edges that are left waiting.
    A layer with another count takes the line evenly, a stitch missed or taken twice (P09).
    `first` is what must be sewn before the layers shut it in.
    """
    if bind_off_method(plan) is SEWN:
        return _sew_off(book, layout, Topic.SEW_FACING, Reason.BAND, Heading.CLOSING_INSIDE, first)
    book.unthread(cut=True)
    book.weights_off()
    if first:
        book.attend(first)
    book.attend(Topic.FOLD_UP, layout.needles)
    book.hang(SEAM_LINE, layout.needles, onto_empty=False,
              picks=pick_up(len(layout.needles), plan.stitches.value).rows, from_side=layout.hem)
    book.hand_knit(layout.needles, yarn, loose=True)
    _chain_off(book, layout, yarn)
    book.section(Heading.CLOSING_INSIDE)
    return ()


def _sew_off(book: Ledger, layout: Layout, topic: Topic, reason: Reason, heading: Heading,
             first: Topic | None = None) -> tuple[str, ...]:
    bind_off(book, layout.needles, SEWN, LAST_ROW)
    if first:
        book.attend(first)
    book.attend(topic, reason=reason)
    book.section(heading)
    return (LAST_ROW,)


def bind_off_all(book: Ledger, plan: BandPlan, layout: Layout) -> tuple[str, ...]:
    """The band's way off: a loose last row by hand, its stitches chained through each other; or
    bound off with the yarn, or sewn off waste yarn. Returns the edges that are left waiting."""
    method = bind_off_method(plan)
    if method is SEWN:
        return _sew_off(book, layout, Topic.SEW_OFF, Reason.NONE, Heading.BINDING_OFF)
    if method is not CHAIN_OFF:
        bind_off(book, layout.needles, method, LAST_ROW)
        book.section(Heading.BINDING_OFF)
        return ()
    book.unthread(cut=True)
    book.weights_off()
    book.hand_knit(layout.needles, StepYarn.MAIN, loose=True)
    _chain_off(book, layout)
    book.section(Heading.BINDING_OFF)
    return ()


def _chain_off(book: Ledger, layout: Layout, yarn: StepYarn = StepYarn.MAIN) -> None:
    book.bind_off(layout.needles, yarn, toward=book.side.other, keep_last=False,
                  method=BindOffMethod.CHAINED, layers=1, rest=True)


def ends(book: Ledger, plan: BandPlan, holes: bool, *, folded: bool) -> None:
    """By hand, off the bed."""
    if folded:
        book.attend(Topic.SEW_ENDS)
    by_hand(book, plan, holes)
    finish_ends(book, plan, holes)
    book.section(Heading.BY_HAND)
