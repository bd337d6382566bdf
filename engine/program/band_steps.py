"""The parts that programs of bands are put together from: ways on, layers, holes, ways off.

Source: a web lesson, "Hems" (D02).
"""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..machine.edge_steps import lower, upper
from ..machine.headings import Heading
from ..machine.needles import NONE, Needle, Needles, every_other
from ..machine.reasons import Because, Reason
from ..machine.set_up_steps import Weight
from ..machine.step_keys import BindOffMethod, CastOnMethod, StepYarn, Topic
from ..machine.steps import Dial, Side
from ..pattern.model import Fold
from ..plan.band import BandPlan
from ..words.terms.waiting_names import BAND_FIRST_ROW, FOLD_STITCHES
from ..words.terms.yarn_names import cord_of_hole
from . import marks
from .layout import Layout, all_of, lean_of
from .ledger import Ledger
from .tension import knit_graded
from .waiting import hang_edges

AT_FOLD, FIRST_ROW = FOLD_STITCHES, BAND_FIRST_ROW
LOOSEST = Dial(30)
LOOSER = Dial(12)  # a very loose row: four numbers up; common practice, no source


def begins(plan: BandPlan, layout: Layout) -> Side:
    """The side of the carriage before a waste start whose main yarn begins where loops lean to.

    Its first row then ends at the other end, which gives the half loop that moves all loops of
    that row the same way (half a stitch, as those of the openings).
    """
    lean = lean_of(plan, layout)
    corded = plan.band.waste_rows + 1  # rows before the first of main yarn
    return lean.other if corded % 2 else lean


def waste_start(book: Ledger, plan: BandPlan, layout: Layout, garment_dial: Dial) -> None:
    book.set_counter(0)
    book.bring(layout.needles)
    book.thread(StepYarn.WASTE, fresh=True)
    book.set_dial(garment_dial)
    book.cast_on(layout.needles, CastOnMethod.WASTE_START)
    book.hang_weights(Weight.EVEN, layout.needles)
    book.knit(plan.band.waste_rows, Reason.OF_WASTE_YARN)
    book.unthread(cut=True)
    book.thread(StepYarn.RAVEL_CORD, fresh=True)
    book.knit(1, Reason.OF_RAVEL_CORD)
    book.unthread(cut=False)
    book.section(Heading.WASTE_START)


def begin_layer(book: Ledger, plan: BandPlan) -> None:
    """The band's own yarn, dial and count, above the ravel cord."""
    book.thread(StepYarn.MAIN, fresh=True)
    book.set_dial(plan.row_dials[0])
    book.set_counter(0)


def first_layer(book: Ledger, plan: BandPlan, holes: tuple[Needles, ...]) -> None:
    begin_layer(book, plan)
    rows = plan.rows
    if not holes:
        knit_rows(book, plan, rows.to_holes + rows.holes_to_fold, Reason.TO_FOLD)
        book.section(Heading.FIRST_LAYER)
        return
    knit_rows(book, plan, rows.to_holes, Reason.TO_BUTTONHOLES)
    hand_holes(book, plan, holes)


def hand_holes(book: Ledger, plan: BandPlan, holes: tuple[Needles, ...]) -> None:
    """Knit every hole by hand with a cord, and the rest of the first layer."""
    book.attend(Topic.CHOOSE_HOLES, all_of(holes))
    for number, span in enumerate(holes, 1):
        book.hand_knit(span, StepYarn.HOLE_CORD, (Reason.BUTTONHOLE, number),
                       cord=cord_of_hole(number))
    book.attend(Topic.CLIP_ENDS, all_of(holes))
    knit_rows(book, plan, plan.rows.holes_to_fold, Reason.TO_FOLD, done=plan.rows.to_holes)
    book.section(Heading.FIRST_LAYER)


def knit_rows(book: Ledger, plan: BandPlan, rows: int, reason: Because, *, done: int = 0,
              back: bool = False, fills: Needles = NONE) -> None:
    """Knit `rows` of a layer of which some are `done`, each at its dial [rows].

    A layer that comes `back` from the fold has the dials of the first in their reverse order.
    """
    if not plan.band.dials:
        book.knit(rows, reason, fills=fills)
        return
    dials = plan.row_dials[::-1] if back else plan.row_dials
    knit_graded(book, dials[done:done + rows], reason, fills=fills)


def fold(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    if plan.band.fold is Fold.TURNED:
        _turn(book, layout)
        book.knit(1, Reason.FOLD_ROW)
        _turn(book, layout)
    elif plan.band.fold is Fold.LOOSE:
        loose = max(plan.row_dials).thirds + LOOSER.thirds
        book.set_dial(min(LOOSEST, Dial(loose)), Reason.FOR_FOLD_ROW)
        book.knit(1, Reason.LOOSE_FOLD_ROW)
        if not plan.band.dials:
            book.set_dial(plan.band.dial, Reason.FOR_FACING if KINDS[plan.band.kind].faces
                          else Reason.FOR_SECOND_LAYER)
    else:
        moved = picots(layout)
        book.transfer(moved, _inward(layout), Reason.FOR_PICOTS, fewer=len(moved))
    book.section(Heading.FOLD)


def _turn(book: Ledger, layout: Layout) -> None:
    rows = book.counter
    book.unthread(cut=False)
    book.free_pass(Reason.TO_SIDE_OF_YARN)
    book.set_counter(rows, Reason.NO_ROW)
    book.weights_off()
    book.turn_work()
    book.hang_weights(Weight.EVEN, layout.needles, Reason.AGAIN)
    book.thread(StepYarn.MAIN, fresh=False)
    book.ready()


def picots(layout: Layout) -> Needles:
    """Every other stitch from the second, the last stitch staying (D02)."""
    first, last = sorted((layout.at(2), layout.at(len(layout.needles) - 1)))
    if layout.hem is Side.LEFT or len(layout.needles) % 2:
        return every_other(first, last)
    return every_other(Needle(first.place + 1), last)


def _inward(layout: Layout) -> int:
    """Each picot stitch moves onto its neighbour away from the hem."""
    return 1 if layout.hem is Side.LEFT else -1


def second_layer(book: Ledger, plan: BandPlan, layout: Layout, holes: bool) -> None:
    fills = picots(layout) if plan.band.fold is Fold.PICOT else Needles(0)
    rows = plan.rows
    if holes:
        knit_rows(book, plan, rows.fold_to_holes, Reason.FROM_FOLD_TO_BUTTONHOLES,
                  back=True, fills=fills)
    else:
        knit_rows(book, plan, rows.fold_to_holes + rows.to_finish,
                  Reason.TO_END_OF_SECOND_LAYER, back=True, fills=fills)
        book.unthread(cut=True)
    book.section(Heading.SECOND_LAYER)


def close_holes(book: Ledger, plan: BandPlan, layout: Layout,
                 holes: tuple[Needles, ...]) -> None:
    lean = lean_of(plan, layout)
    hung = tuple(span | span.shifted(1 if lean is Side.RIGHT else -1) for span in holes)
    book.weights_off()
    book.attend(Topic.FOLD_UP, all_of(holes))
    for number, span in enumerate(hung, 1):
        book.hang(upper(cord_of_hole(number)), span, (Reason.BUTTONHOLE, number), onto_empty=False,
                  lean=lean)
    in_order = list(enumerate(hung, 1))
    for number, span in in_order if lean is layout.hem.other else in_order[::-1]:
        book.bind_off(span, StepYarn.MAIN, (Reason.BUTTONHOLE, number), toward=lean, keep_last=True,
                      method=BindOffMethod.GATE_PEGS, layers=2)
    for number, span in enumerate(holes, 1):
        book.hang(lower(cord_of_hole(number)), span, (Reason.BUTTONHOLE, number), onto_empty=True)
    for number in range(1, len(holes) + 1):
        book.draw_cord(cord_of_hole(number))
    book.attend(Topic.WASTE_END, layout.needles)
    book.hang_weights(Weight.EVEN, layout.needles, Reason.AGAIN_ALONG_FOLD)
    book.section(Heading.CLOSING_BUTTONHOLES)


def last_rows(book: Ledger, plan: BandPlan) -> None:
    knit_rows(book, plan, plan.rows.to_finish, Reason.TO_END_OF_SECOND_LAYER, back=True,
              done=plan.rows.fold_to_holes)
    book.attend(Topic.LOOK_AT_HOLES)
    book.unthread(cut=True)
    book.section(Heading.LAST_ROWS)


def close_around(book: Ledger, plan: BandPlan, layout: Layout) -> None:
    book.weights_off()
    book.attend(Topic.CLOTH, layout.needles)
    hang_edges(book, plan, layout, onto_empty=False)
    book.hang(FIRST_ROW, layout.needles, onto_empty=False,
              half_at=lean_of(plan, layout).other)
    book.hand_knit(layout.needles, StepYarn.MAIN, loose=True)
    book.draw_cord(FIRST_ROW)
    book.bind_off(layout.needles, StepYarn.MAIN, toward=book.side.other,
                  keep_last=False, method=BindOffMethod.CHAINED, rest=True)
    book.section(Heading.CLOSING_AROUND)


def finish(book: Ledger, plan: BandPlan, holes: bool) -> None:
    """By hand, off the bed; buttons are sewn onto the other band once this one has its holes."""
    book.attend(Topic.SEW_ENDS)
    finish_ends(book, plan, holes)
    book.section(Heading.BY_HAND)


def finish_ends(book: Ledger, plan: BandPlan, holes: bool) -> None:
    """The part before sewn on, ends darned in, and the buttons onto the front without holes.

    A band from hem to hem has both, and its last part is that with the buttons. A facing in parts
    is sewn down when the last is joined: a seam in it cannot be turned in afterwards.
    """
    opens = bool(plan.part) and KINDS[plan.band.kind].faces
    if plan.joins[0]:
        book.attend(Topic.JOIN_PARTS)
    if opens:
        book.attend(Topic.LEAVE_FACING if plan.joins[1] else Topic.SEW_FACING)
    if not (opens and plan.joins[1]):
        book.attend(Topic.DARN_IN)
    if wants_buttons(plan, holes):
        book.attend(Topic.SEW_BUTTONS)
    if marks.are_in(book, FIRST_ROW):
        book.attend(Topic.COUNT_BACK)


def wants_buttons(plan: BandPlan, holes: bool) -> bool:
    """True for the strip after which the buttons are sewn on: the one with the holes, which is
    knitted last. A lengthwise band has a thread at each button, and takes them by itself."""
    if plan.band.buttonholes is None:
        return False
    if plan.edge_path.fronts:
        return not plan.joins[1]
    return plan.placing is not None and holes is not plan.is_lengthwise
