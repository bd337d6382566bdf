"""The band whose rows run along the edge: cast on, marked and holed by the row counter, sewn on.

Source: Yateley Machine Knitting Club, "February 2013: buttonholes and bands" (P05).
"""

from __future__ import annotations

from ...catalogue.bands import KINDS
from ...catalogue.methods import BIND_OFFS, BY_HAND, LATCH_OFF, SEWN
from ...machine.headings import Heading
from ...machine.needles import NONE, Needles, of
from ...machine.reasons import Because, Reason
from ...machine.step_keys import BindOffMethod, CastOnMethod, StepYarn, Topic
from ...machine.steps import Dial, Side
from ...pattern.holes import ButtonholeKind
from ...plan.band import BandPlan
from ...plan.sewn_on import marked_rows
from .. import method_steps
from ..band_steps import FIRST_ROW, wants_buttons
from ..layout import Layout, all_of
from ..ledger import Ledger
from ..marks import are_in, second_needles
from .buttonhole_steps import buttonhole_kind
from .hung import LAST_ROW
from .kind import MadeBand

ROUND = (ButtonholeKind.ONE_STITCH, ButtonholeKind.TWO_STITCHES)


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps: its stitches by hand, its rows by the counter, and what is sewn.

    Quarters are marked as it is knitted, and on the band for the buttons their rows: such places
    are counted in rows (tincanknits, "Button band: knit and sewn-on method", 2022).
    """
    book = Ledger(side=layout.hem.other)
    method_steps.cast_on(book, layout.needles, plan.band.dial, BY_HAND)
    book.section(Heading.CAST_ON)
    method_steps.weigh_edge(book, layout.needles, BY_HAND)
    _rows(book, plan, layout, with_holes)
    book.section(Heading.BAND)
    method = BIND_OFFS[plan.band.bind_off or LATCH_OFF.name]
    method_steps.bind_off(book, layout.needles, method, LAST_ROW)
    if method is SEWN:
        book.attend(Topic.SEW_OFF)
    book.section(Heading.BINDING_OFF)
    _by_hand(book, plan, with_holes)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, starts=layout.hem.other,
                    leaves=(LAST_ROW,) if method is SEWN else ())


def hole_needles(plan: BandPlan, layout: Layout) -> tuple[Needles, ...]:
    """Return the needles of a hole across the band: in two layers one of each, which meet.

    Counted from the edge that is sewn, whose first stitch the seam takes.
    """
    assert plan.hole is not None
    first = 2 + (plan.depth.value - plan.hole.value) // 2
    last = first + plan.hole.value - 1
    total = plan.needles
    near = layout.span(total - last + 1, total - first + 1)
    if KINDS[plan.band.kind].doubled:
        return (near, layout.span(first, last))
    return (near,)


def sewn_edge(plan: BandPlan, layout: Layout) -> Needles:
    """Return the needle at the edge that is sewn to the garment first: its hem lies away from it.

    A band is seen from its purl side on the bed: on the wearer's right front, whose hem lies at the
    left when it is hung, the garment is at the right (geometry).
    """
    return layout.span(plan.needles, plan.needles)


def _rows(book: Ledger, plan: BandPlan, layout: Layout, with_holes: bool) -> None:
    """All rows, with a stop at every mark and every hole."""
    placing = plan.placing
    holes = {start - 1: n for n, start in enumerate(placing.starts, 1)} if placing else {}
    marks = marked_rows(plan)
    fills = NONE
    at = 0
    for row in sorted({*marks, *holes}):
        fills = _knit_to(book, plan, row - at, fills, (Reason.TO_BUTTONHOLE, holes[row])
                         if with_holes and row in holes else Reason.TO_MARK)
        at = row
        if row in marks:
            book.attend(Topic.MARK_QUARTER, sewn_edge(plan, layout))
        if row in holes:
            if with_holes:
                fills = _hole(book, plan, layout, holes[row])
            else:
                book.attend(Topic.MARK_BUTTON, _button_needle(plan, layout),
                            (Reason.BUTTONHOLE, holes[row]))
    _knit_to(book, plan, plan.stitches.value - at, fills, Reason.TO_END_OF_BAND)


def _button_needle(plan: BandPlan, layout: Layout) -> Needles:
    """Where the thread of a button is tied: at the edge, or where a fold shuts that in, in the
    middle of the layer outside."""
    if not KINDS[plan.band.kind].doubled:
        return sewn_edge(plan, layout)
    outside = list(hole_needles(plan, layout)[0])
    return of(outside[len(outside) // 2])


def _knit_to(book: Ledger, plan: BandPlan, rows: int, fills: Needles, reason: Because) -> Needles:
    """Knit so many rows, the first of which fills the empty needles of a hole."""
    if not rows:
        return fills
    if fills and buttonhole_kind(plan) is ButtonholeKind.TWO_STITCHES:
        book.knit(1, Reason.OVER_EMPTY_NEEDLES, fills=fills)
        book.turn_loops(second_needles(fills, book.side))
        rows, fills = rows - 1, NONE
    if rows:
        book.knit(rows, reason, fills=fills)
    return NONE


def _hole(book: Ledger, plan: BandPlan, layout: Layout, number: int) -> Needles:
    """Make a hole after this row; return the needles that the next row fills.

    One stitch is moved onto its neighbour, two one each way (P05); more are bound off with a spare
    end and cast on again by hand (common practice, no source).
    """
    spans, why = hole_needles(plan, layout), (Reason.BUTTONHOLE, number)
    book.attend(Topic.CHOOSE_HOLES, all_of(spans), why)
    away = 1 if layout.hem is Side.LEFT else -1
    kind = buttonhole_kind(plan)
    if kind is ButtonholeKind.BOUND_OFF:
        for span in spans:
            book.bind_off(span | span.shifted(away), StepYarn.MAIN, why, toward=layout.hem.other,
                          keep_last=True, method=BindOffMethod.GATE_PEGS, layers=1)
        for span in spans:
            book.cast_on(span, CastOnMethod.BY_HAND, why)
        return NONE
    if kind is ButtonholeKind.ONE_STITCH:
        moved = all_of(spans)
        book.transfer(moved, away, Reason.FOR_BUTTONHOLES, fewer=len(moved))
        return moved
    lower = all_of(tuple(of(span.first) for span in spans))
    upper = all_of(spans) - lower
    first, second = (lower, upper) if layout.hem is Side.LEFT else (upper, lower)
    book.transfer(first, -away, Reason.FOR_BUTTONHOLES, fewer=len(first))
    book.transfer(second, away, Reason.FOR_BUTTONHOLES, fewer=len(second))
    return lower | upper


def _by_hand(book: Ledger, plan: BandPlan, with_holes: bool) -> None:
    """What is sewn once the band is off the bed, and what marked its rows."""
    holes = with_holes and plan.placing is not None
    book.attend(Topic.SEW_ON_BAND)
    if holes and buttonhole_kind(plan) in ROUND:
        book.attend(Topic.SEW_ROUND_HOLES)
    elif holes and KINDS[plan.band.kind].doubled:
        book.attend(Topic.JOIN_HOLES)
    book.attend(Topic.DARN_IN)
    if wants_buttons(plan, holes):
        book.attend(Topic.SEW_BUTTONS)
    if are_in(book, FIRST_ROW):
        book.attend(Topic.COUNT_BACK)
    book.section(Heading.BY_HAND)
