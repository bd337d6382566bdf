"""The four quarters of a crown, one after the other while the others are held."""

from __future__ import annotations

from ..machine.headings import Heading
from ..machine.reasons import Reason
from ..machine.set_up_steps import Weight
from ..machine.step_keys import StepYarn
from ..machine.steps import Side
from ..shape.crowns import QUARTERS
from ..shape.piece import Piece
from .part import ShapedStitches
from .piece_ends import end_piece
from .shaped_rows import shape_rows

_HEADINGS = (Heading.FIRST_QUARTER, Heading.SECOND_QUARTER, Heading.THIRD_QUARTER,
             Heading.LAST_QUARTER)


def knit_quarters(part: ShapedStitches, piece: Piece) -> None:
    """Each quarter with its own end of yarn, from the side of the carriage to the other.

    All of them are plain, whatever the rows below were knitted from.
    """
    edge, book = piece.quarters, part.book
    assert edge is not None
    row, side, each = book.counter, book.side, (part.last - part.first + 1) // QUARTERS
    from_right = part.side(side) is Side.RIGHT
    for number, heading in enumerate(_HEADINGS):
        place = QUARTERS - 1 - number if from_right else number
        first = part.first + place * each
        own = ShapedStitches(book, first, first + each - 1, part.moved, part.pivot)
        if number == 0:
            book.section(Heading.BODY)
            book.hold(part.stitches - own.stitches, Reason.ALL_BUT_FIRST_QUARTER)
        else:
            waits = part.span(part.first, first + each - 1) if from_right else \
                part.span(first, part.last)
            if book.side is not side:
                book.free_pass(Reason.TO_SIDE_OF_QUARTER)
            book.set_counter(row, Reason.WHERE_DIVIDED)
            book.resume(own.stitches, Reason.NEXT_QUARTER)
            book.hang_weights(Weight.EVEN, waits, Reason.AGAIN)
            book.thread(StepYarn.MAIN, fresh=True)
        if number < QUARTERS - 1:
            own.hang_claws()
        if number == 0:
            book.section(Heading.QUARTERS)
        shape_rows(own, edge, edge, start=row)
        end_piece(own, piece, number)
        book.section(heading)
