"""The stitch chart of a piece on its page: the drawing, where it lies, and every row in words."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawings.chart import chart_drawing, chart_figure
from ..fabric.chart_on_bed import Placed
from ..markup.html import block, esc, items, link, part
from ..proof.proof import KnittedPiece
from ..shape.piece import Piece
from ..words.chart import how_said, rows_said
from ..words.lying import cuts, every_row, free, middle, where, which_row

HOW = "../../techniques/stitch-chart.html"


def chart_section(piece: KnittedPiece, prefix: str, *, first: bool) -> str:
    """Return the piece's stitch chart on its own needles, and every row in words; "" without.

    At the `first` piece of a garment with a chart the rules are told that hold for all of them.
    """
    placed = piece.piece.placed
    if placed is None:
        return ""
    title = placed.chart.title
    how = f"{link(HOW, 'How to knit from a stitch chart')}."
    if piece.piece.is_straight:
        told = (f"<p>{esc(piece.piece.title)}: every row is knitted from this chart. Row 1 is the "
                "row that takes the row counter from 0 to 1. Drawing and words say the same. "
                f"{how}</p>" + chart_figure(placed, prefix=f"{prefix}-chart", title=title))
    else:
        told = lying_section(piece.piece, placed, prefix=f"{prefix}-chart", first=first, how=how)
    return part("Stitch pattern: " + title, f"{prefix}-chart") + block(told)


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
            out.append(f"<p>{esc(piece.piece.title)} in size {esc(size)}: the other sizes have "
                       "other needles, as their pages say.</p>"
                       + chart_figure(placed, prefix=prefix, title=placed.chart.title))
    return "\n".join(out)


def _drawn_once(piece: Piece, placed: Placed, size: str) -> str:
    prefix = f"chart-{piece.key.replace('_', '-')}"
    return (f"<p>A part of the {esc(piece.title.lower())} in size {esc(size)}. Where the repeats "
            "lie on each piece and size, and every row in words, their pages say.</p>"
            + chart_drawing(placed, prefix=prefix, title=placed.chart.title, only=middle(placed)))


def lying_section(piece: Piece, placed: Placed, *, prefix: str, first: bool, how: str) -> str:
    """Return drawing and words as HTML; the rules that hold for all pieces only at the `first`."""
    title = placed.chart.title
    rows = (f"<b>{numbers}:</b> {said}." for numbers, said in rows_said(placed, free(placed)))
    rules = f"<p>{how}</p>{how_said(placed)}{cuts(piece, placed)}" if first else (
        "<p>What is knitted plain at edges and after a decrease is told at the first piece.</p>")
    return (f"<p>{every_row(piece)} {which_row(piece, placed)}</p>"
            f"<p>{where(piece, placed)}</p>{rules}"
            f'<div class="wb-chart-both">'
            f"{chart_drawing(placed, prefix=prefix, title=title, only=middle(placed))}"
            f'<div class="wb-chart-rows"><p><b>{esc(title)}, row by row,</b> as far as the piece '
            f"has stitches. Before each row do what it says, then knit it.</p>{items(rows)}</div>"
            "</div>")
