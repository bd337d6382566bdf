"""Both halves of a piece above its opening, one after the other."""

from __future__ import annotations

from ..machine.headings import Heading
from ..machine.needles import NONE
from ..machine.reasons import Reason
from ..machine.step_keys import BindOffMethod
from ..machine.steps import Side
from ..shape.openings import Ending
from ..shape.piece import Piece
from .ledger import Ledger
from .part import ShapedStitches
from .piece_ends import end_piece
from .shaped_rows import shape_rows
from .waiting import put_by


def divide(part: ShapedStitches, piece: Piece) -> None:
    """Both halves above the opening, the right one first while the left one is held."""
    opening, book = piece.opening, part.book
    assert opening is not None
    row, half = book.counter, piece.half
    outside = part.last - part.first + 1 - half
    rest = part.span(part.first, part.first + outside - 1)
    centre = part.span(part.first + half, part.last - half) if opening.centre else NONE
    if centre and opening.centre_ends is Ending.BIND_OFF:
        book.bind_off(centre, book.yarn, Reason.FOOT_OF_PLACKET, toward=book.side.other,
                      keep_last=False, method=BindOffMethod.STITCH_OVER, rest=True)
        rest -= centre
    right = ShapedStitches(book, part.last - half + 1, part.last, part.moved, part.pivot,
                           chart=part.chart)
    book.change_yarn()
    book.hold(rest, Reason.ALL_BUT_FIRST_HALF)
    if centre and opening.centre_ends is Ending.WASTE:
        book.lighten_held(centre)
        put_by(book, piece, centre, piece.centre_waits, held=True)
    right.hang_claws()
    book.cut_resting(part.side(Side.LEFT))
    marks = tuple(m - row for m in piece.marks if m > row)
    book.section(Heading.SLIT if opening.centre_ends is Ending.BIND_OFF else Heading.NECK_OPENING)
    shape_rows(right, opening.inner, opening.outer, start=row, marks=marks, inside_left=True)
    end_piece(right, piece, 0)
    book.section(Heading.HALF, part.side(Side.RIGHT))
    to_side(book, part.side(Side.LEFT), row)
    first_half = part.span(part.first, part.first + half - 1)
    book.resume(first_half, Reason.SECOND_HALF)
    left = second_half(part, half)
    left.hang_claws()
    book.thread(book.next_yarn, fresh=True)
    shape_rows(left, opening.inner, opening.outer, start=row, marks=marks, inside_left=True)
    end_piece(left, piece, 1)
    book.section(Heading.HALF, part.side(Side.LEFT))


def second_half(part: ShapedStitches, half: int) -> ShapedStitches:
    """Return the other half seen as if it were the first: mirrored about the piece's own middle."""
    if part.pivot is None:
        return ShapedStitches(part.book, part.last - half + 1, part.last, part.moved,
                              part.first + part.last, chart=part.chart)
    # A piece already mirrored: mirroring it twice moves it back to where the bed has it.
    shift = part.pivot - (part.first + part.last)
    return ShapedStitches(part.book, part.last - half + 1 + shift, part.last + shift, part.moved,
                          None, chart=part.chart)


def to_side(book: Ledger, side: Side, row: int) -> None:
    """Take the carriage to `side`, the counter to `row`, for a half that starts with a new end."""
    if book.side is not side:
        book.free_pass(Reason.TO_SIDE_OF_HALF)
    book.set_counter(row, Reason.WHERE_DIVIDED)
