"""How the last stitches of a piece come off: bound off, drawn up, or on waste yarn.

Source: University of Brighton, "Short row or holding technique 1" (S06).
"""

from __future__ import annotations

from ..catalogue.methods import BIND_OFFS, DRAWN, STITCH_OVER, TOGETHER, Method
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..shape.openings import Ending
from ..shape.piece import Piece
from . import method_steps
from .part import ShapedStitches
from .waiting import end_apart, stands_apart


def end_piece(part: ShapedStitches, piece: Piece, half: int, *, stays: bool = False) -> None:
    """A row over all if any are held, then off: bound off, drawn up, or on waste yarn.

    What is held at a neck, at the part's left, `stays` in hold. Of decreases on the last row both
    loops of a needle come off together where the piece has no row over them, as published: "V-neck
    baby cardigan" (W3-058).
    """
    book, kept = part.book, part.idle_left if stays else 0
    if part.idle_left - kept or part.idle_right:
        _knit_over_held(part, kept)
    elif book.loops > book.stitches and not piece.no_row_over:
        book.knit(1, Reason.OVER_LAST_DECREASES)
    if stands_apart(piece):
        end_apart(book, piece, part.stitches)
        return
    waits = piece.waits[half] if piece.waits else ""
    method_steps.bind_off(book, part.span(part.first + kept, part.last) & part.stitches,
                     bind_off_method(piece), waits)


def bind_off_method(piece: Piece) -> Method:
    """The way in which a piece's last stitches come off: its own, else what its ending asks for."""
    if piece.bind_off_method:
        return BIND_OFFS[piece.bind_off_method]
    if piece.ends is Ending.BIND_OFF:
        return STITCH_OVER
    return DRAWN if piece.ends is Ending.DRAWN_UP else TOGETHER


def _knit_over_held(part: ShapedStitches, kept: int) -> None:
    """Held stitches back in work, those away from the carriage first, a row over each (S06), but
    for those that are `kept` in hold at the part's left."""
    far = part.side(part.book.side).other  # the part's own side, away from the carriage
    for side in (far, far.other):
        if side is Side.RIGHT:
            held, part.idle_right = part.idle_right, 0
        else:
            held, part.idle_left = part.idle_left - kept, kept
        if held:
            needles = part.span(part.last - held + 1, part.last) if side is Side.RIGHT else \
                part.span(part.first, part.first + held - 1)
            waits = part.idle_left - kept or part.idle_right
            part.book.resume(needles, Reason.FOR_LAST_ROW_BUT_ONE if waits else Reason.FOR_LAST_ROW)
            part.book.knit(1, Reason.OVER_THESE_TOO if part.book.held else Reason.OVER_ALL)
