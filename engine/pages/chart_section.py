"""The stitch chart of a piece on its page: the drawing, where it lies, and every row in words."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawings.chart import chart_drawing, chart_figure
from ..fabric.chart_on_bed import Placed
from ..markup.html import block, part
from ..proof.proof import KnittedPiece
from ..shape.piece import Piece
from ..words import charted_piece as words
from ..words.chart_text import how_text
from ..words.lying import cuts, every_row, middle, where, which_row


def chart_section(piece: KnittedPiece, prefix: str, *, rules: tuple[str, Piece],
                  holds: bool) -> str:
    """Return the piece's stitch chart on its own needles, and every row in words; "" without.

    The `rules` that hold for it stand at the piece that they name with its section's id; with
    `holds`, the carriage is set to hold in some piece.
    """
    placed = piece.piece.placed
    if placed is None:
        return ""
    title = placed.chart.title
    if piece.piece.is_straight:
        body = (words.straight_lead(piece.piece)
                + chart_figure(placed, prefix=f"{prefix}-chart", title=title))
    else:
        body = lying_section(piece.piece, placed, prefix=f"{prefix}-chart", rules=rules,
                             holds=holds)
    return part(words.chart_title(title), f"{prefix}-chart") + block(body)


def chart_drawings(pieces: Sequence[KnittedPiece], size: str) -> str:
    """Return the charts of a size's pieces for the page of all sizes.

    Of shaped pieces the first is enough: the others have the same chart on other needles.
    """
    out: list[str] = []
    for piece in pieces:
        placed = piece.piece.placed
        if placed and not piece.piece.is_straight:
            return "\n".join((*out, _drawn_once(piece.piece, placed, size)))
        if placed:
            prefix = f"chart-{piece.piece.key.replace('_', '-')}"
            out.append(words.other_needles(piece.piece, size)
                       + chart_figure(placed, prefix=prefix, title=placed.chart.title))
    return "\n".join(out)


def _drawn_once(piece: Piece, placed: Placed, size: str) -> str:
    prefix = f"chart-{piece.key.replace('_', '-')}"
    return (words.part_of(piece, size)
            + chart_drawing(placed, prefix=prefix, title=placed.chart.title, only=middle(placed)))


def lying_section(piece: Piece, placed: Placed, *, prefix: str, rules: tuple[str, Piece],
                  holds: bool) -> str:
    """Return drawing and words as HTML; the rules only at the first piece that has the same."""
    title, (section, first) = placed.chart.title, rules
    plain = f"{section}-plain"
    how = f"{words.HOW}{how_text(placed, holds=holds)}" if piece is first else ""
    alike = piece is not first and cuts(piece, placed, plain) == cuts(first, placed, plain)
    lead = words.rules_before(first, plain) if alike else \
        how + cuts(piece, placed, plain if piece is first else f"{prefix}-plain")
    return (f"<p>{every_row(piece)} {which_row(piece, placed)}</p>"
            f"<p>{where(piece, placed)}</p>{lead}"
            f'<div class="wb-chart-both">'
            f"{chart_drawing(placed, prefix=prefix, title=title, only=middle(placed))}"
            f"{words.row_by_row(placed)}</div>")
