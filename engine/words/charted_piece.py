"""Words for the stitch chart of a piece: how it is used, where it lies, and its rows."""

from __future__ import annotations

from ..fabric.chart_on_bed import Placed
from ..markup.html import esc, items, link
from ..shape.piece import Piece
from .chart_text import rows_text
from .lying import free

_HOW = f"{link('../../techniques/stitch-chart.html', 'How to knit from a stitch chart')}."
HOW = f"<p>{_HOW}</p>"


def rules_before(piece: Piece, anchor: str) -> str:
    """Where what is knitted plain was told: at the chart of that `piece`, at the `anchor`; HTML."""
    at = link(f"#{anchor}", f"the chart of the {esc(piece.title.lower())}")
    return f"<p>What is knitted plain, whatever the chart shows, stands at {at}.</p>"


def chart_title(chart: str) -> str:
    """The heading of a piece's stitch chart."""
    return f"Stitch pattern: {chart}"


def straight_lead(piece: Piece) -> str:
    """How a straight piece is knitted from its chart, as HTML."""
    return (f"<p>{esc(piece.title)}: the rows that the steps call rows of the stitch "
            "pattern are knitted from this chart. All other rows are plain. The row counter is "
            "set to 0 before its row 1. Drawing and words say the same. "
            f"{_HOW}</p>")


def other_needles(piece: Piece, size: str) -> str:
    """Of which size a drawing is, where the others have other needles; HTML."""
    return (f"<p>{esc(piece.title)} in size {esc(size)}: the other sizes have "
            "other needles, as their pages say.</p>")


def part_of(piece: Piece, size: str) -> str:
    """Of which piece and size a part is drawn, and where the rest stands; HTML."""
    return (f"<p>A part of the {esc(piece.title.lower())} in size {esc(size)}. Where the repeats "
            "lie on each piece and size, and every row in words, their pages say.</p>")


def row_by_row(placed: Placed) -> str:
    """Every row of a shaped piece's chart, as HTML."""
    rows = (f"<b>{numbers}:</b> {text}." for numbers, text in rows_text(placed, free(placed)))
    return (f'<div class="wb-chart-rows"><p><b>{esc(placed.chart.title)}, row by row,</b> as far '
            "as the piece has stitches. Before each row do what it says, then knit it.</p>"
            f"{items(rows)}</div>")
