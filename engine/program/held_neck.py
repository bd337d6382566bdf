"""A piece above its neck where that is held: both halves, then a row over the whole neck.

Sources: a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07); Mary Anne Oger,
"Backtracking: V neck by short rows", 2020 (W3-039).
"""

from __future__ import annotations

from ..catalogue.methods import TOGETHER
from ..machine.headings import Heading
from ..machine.needles import Needles
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile
from . import method_steps
from .halves import second_half, to_side
from .ledger import Ledger
from .part import ShapedStitches
from .piece_ends import end_piece
from .shaped_rows import shape_rows
from .waiting import put_by, strips_of

BESIDE = 1  # the held needle next to a half: its first row goes over it, so that no hole is left


def divide_held(part: ShapedStitches, piece: Piece) -> None:
    """Both halves above a held neck, the right one first, then the neck's own row."""
    opening, book = piece.opening, part.book
    assert opening is not None
    row, wide = book.counter, piece.half + BESIDE
    marks = tuple(m - row for m in piece.marks if m > row)
    whole = part.stitches
    right = ShapedStitches(book, part.last - wide + 1, part.last, part.moved, part.pivot)
    book.change_yarn()
    book.hold(whole - right.stitches, Reason.ALL_BUT_HALF_OF_NECK)
    right.hang_claws()
    book.cut_resting(part.side(Side.LEFT))
    book.section(Heading.NECK_OPENING)
    _knit_half(right, piece, marks, row, 0)
    book.section(Heading.HALF, part.side(Side.RIGHT))
    to_side(book, part.side(Side.LEFT), row)
    left = second_half(part, wide)
    book.resume(left.stitches, Reason.SECOND_HALF_OF_NECK)
    left.hang_claws()
    book.thread(book.next_yarn, fresh=True)
    _knit_half(left, piece, marks, row, 1)
    book.section(Heading.HALF, part.side(Side.LEFT))
    shoulder = piece.half + opening.inner.net
    book.set_counter(row, Reason.WHERE_NECK_BEGAN)
    _over_neck(book, piece, part.span(part.first + shoulder, part.last - shoulder))
    book.section(Heading.NECK)


def _knit_half(half: ShapedStitches, piece: Piece, marks: tuple[int, ...], row: int, number: int
               ) -> None:
    """A half up to its shoulder, which comes off; what is held at the neck stays."""
    assert piece.opening is not None
    inner, outer = piece.opening.inner, piece.opening.outer
    beside = Change(1, BESIDE, How.HOLD)
    shape_rows(half, Profile(inner.rows, (beside, *inner.changes)), outer, start=row, marks=marks,
               inside_left=True)
    end_piece(half, piece, number, stays=True)


def _over_neck(book: Ledger, piece: Piece, neck: Needles) -> None:
    """All of a neck back in work, a row over it, and off onto waste yarn."""
    book.resume(neck, Reason.FOR_NECK_ROW)
    book.thread(book.next_yarn, fresh=True)
    book.knit(1, Reason.OVER_ALL)
    if len(strips_of(piece, piece.centre_waits)) == 1:
        method_steps.bind_off(book, neck, TOGETHER, piece.centre_waits)
        return
    book.unthread(cut=True)
    book.weights_off()
    put_by(book, piece, neck, piece.centre_waits)
