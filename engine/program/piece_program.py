"""The row-by-row program of a shaped piece: both edges merged, both halves written out in full."""

from __future__ import annotations

from ..catalogue.methods import CAST_ONS, WASTE_ON
from ..fabric.chart_on_bed import Placed
from ..machine.headings import Heading
from ..machine.needles import NONE, bed_of
from ..machine.programs import Program
from ..machine.reasons import Reason
from ..machine.step_keys import StepYarn
from ..machine.steps import Dial, Side
from ..pattern.cells import Cell
from ..shape.piece import Piece
from ..shape.ribs import Rib
from . import method_steps
from . import piece_parts as parts
from .chart_actions import ChartRows, make_ready
from .ledger import Ledger
from .part import ShapedStitches
from .piece_ends import end_piece
from .shaped_rows import shape_rows
from .waiting import strips_of


def piece_program(piece: Piece, *, dial: Dial, bed_needles: int, second_needles: int = 0
                  ) -> Program:
    """Return the program of `piece` at `dial`, from an empty bed to an empty bed.

    `second_needles` are those of a second bed that can face it [needles], 0 without one.
    What waits on waste yarn is named in the program's `leaves`. Raises ValueError when the
    piece is wider than the bed: the plan must refuse that with a message first.
    """
    if piece.widest > bed_needles:
        raise ValueError(f"{piece.title}: {piece.widest} needles of a bed of {bed_needles}")
    foot = piece.row_one_ends.other
    opens = CAST_ONS[piece.cast_on_method] is WASTE_ON
    begins = foot.other if opens or (piece.hem and piece.hem.turns_carriage) else foot
    book = Ledger(side=begins, striped=None if piece.hem else piece.striped)
    _begin(book, piece, dial, inner=foot.other)
    book.striped = piece.striped
    _work(_part_of(book, piece), piece)
    lower = piece.lower_edge if opens else ""
    folds = piece.hem is not None and piece.hem.fold is not None
    corded = folds or opens
    return Program(name=piece.title, bed=bed_of(bed_needles), starts=begins,
                   sections=tuple(book.sections),
                   first_row=parts.folded_row(piece.hem) if folds else lower,
                   cord_yarn=StepYarn.RAVEL_CORD if corded else StepYarn.NONE,
                   waste_yarn=StepYarn.WASTE if corded else StepYarn.NONE,
                   edges=_hung_edges(piece), leaves=_left_waiting(piece, lower),
                   totals=book.totals, crossed=book.crossed, latched=book.latched,
                   second=bed_of(second_needles) if second_needles else NONE)


def _hung_edges(piece: Piece) -> tuple[tuple[str, int], ...]:
    """The edge of a finished piece that this one begins on, with its loops."""
    return ((piece.hung_on, piece.stitches.value),) if piece.hung_on else ()


def _begin(book: Ledger, piece: Piece, dial: Dial, *, inner: Side) -> None:
    """Onto the needles: an edge that is hung, a hem or a rib, or a cast-on."""
    needles, method = piece.needles, CAST_ONS[piece.cast_on_method]
    if piece.hung_on:
        parts.hang_on(book, needles, piece.hung_on, dial)
    elif isinstance(piece.hem, Rib):
        parts.knit_rib(book, piece.rib_needles or needles, piece.hem, dial, inner=inner,
                       method=method, above=needles)
    elif piece.hem:
        parts.knit_hem(book, needles, piece.hem, dial, inner=inner)
    else:
        method_steps.cast_on(book, needles, dial, method)
        book.section(Heading.CAST_ON)
        method_steps.weigh_edge(book, needles, method)


def _part_of(book: Ledger, piece: Piece) -> ShapedStitches:
    """All needles of the piece as the part to be knitted; of a mirrored piece, their mirror."""
    first, last = piece.needles.first.place, piece.needles.last.place
    pivot = -1 if piece.mirrored else None
    if pivot is not None:
        first, last = pivot - last, pivot - first
    return ShapedStitches(book, first, last, piece.moved, pivot,
                          works=piece.needles if piece.leaves_out else None,
                          chart=ChartRows(piece.placed) if piece.placed else None)


def _work(part: ShapedStitches, piece: Piece) -> None:
    """All rows above the foot, then what ends the piece, in halves above an opening."""
    book = part.book
    if piece.placed and piece.is_straight:
        _knit_chart(book, piece.placed, piece.rows)
    else:
        shape_rows(part, piece.left, piece.right, top=piece.narrowing, pockets=piece.pockets,
                   marks=tuple(m for m in piece.marks if m <= piece.left.rows),
                   inside_left=not piece.marks_left, neck=piece.neck_mark,
                   short=piece.short_rows,
                   above=piece.opening.outer if piece.opening else None)
        if not piece.quarters:
            book.section(Heading.BODY if piece.opening else Heading.TO_TOP)
    if piece.opening:
        (parts.divide_held if piece.opening.held else parts.divide)(part, piece)
    elif piece.quarters:
        parts.knit_quarters(part, piece)
    else:
        end_piece(part, piece, 0)
        book.section(Heading.ENDING)


def _left_waiting(piece: Piece, lower: str) -> tuple[str, ...]:
    """The edges that wait on waste yarn in the end, `lower` among them where it is one."""
    waits = (*piece.waits, piece.centre_waits, lower,
             *(parts.pocket_edges(piece) if piece.pockets else ()))
    return tuple(strip for w in waits if w for strip in strips_of(piece, w))


def _knit_chart(book: Ledger, placed: Placed, rows: int) -> None:
    """Every row from the chart, over and over; a last row that would leave a tuck or slip is plain.

    Stitches can only be bound off or taken off once a row is knitted over their laid loops.
    """
    chart = ChartRows(placed)
    make_ready(chart, book)
    for row in range(1, rows):
        chart.knit(book, row)
    if placed.on(rows, Cell.TUCK, Cell.SLIP):
        book.section(Heading.CHART)
        book.cut_contrast()
        book.knit(1, Reason.PLAIN_OVER_ALL)
        book.section(Heading.LAST_ROW)
    else:
        chart.knit(book, rows)
        book.section(Heading.CHART)
        book.cut_contrast()
    book.tuck_by_holding(False)
