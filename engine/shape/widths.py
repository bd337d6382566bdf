"""How wide a piece is in each of its rows, up to its top."""

from __future__ import annotations

from itertools import accumulate

from .outline import last_row
from .piece import Piece
from .profile import How


def widths_up(piece: Piece) -> tuple[int, ...]:
    """Return how wide a piece is in each row from the first, held stitches included [stitches].

    Where it divides, one half is counted, and its rows from the opening.
    """
    opening = piece.opening
    edges = (opening.outer, opening.line) if opening else (piece.left, piece.right)
    moves = [0] * (edges[0].rows + 1)
    for change in (c for edge in edges for c in edge.changes if c.how is not How.HOLD):
        moves[change.row] += change.outward
    *below, top = accumulate(moves, initial=piece.half if opening else piece.stitches.value)
    return (*below[1:], *[top] * last_row(piece))
