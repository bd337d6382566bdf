"""Lays a fabric's stitch chart on a garment's pieces, each from the line that was asked for."""

from __future__ import annotations

from dataclasses import replace

from ..core.text_kinds import FindingText
from ..fabric.chart_on_bed import Align
from ..pattern.stitch_chart import Alignment
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.piece import Piece

FRONTS = ("right_front", "left_front")  # the front edge at the left of one that is not mirrored
BODY = (*FRONTS, "front", "back")


def with_chart(cut: Cut, garment: Garment, plain: tuple[str, ...]) -> Garment:
    """Return the garment, each piece but the `plain` ones knitted from the chart of its fabric.

    Raises CannotShape where a piece is narrower than a repeat, where the asked-for line is none
    of the garment's, or where a shaped piece would leave needles out of work.
    """
    charted = {piece.key for piece in garment.pieces if cut.of(piece.key).chart}
    if not charted:
        return garment
    pieces = tuple(piece if piece.chart or piece.key in plain or piece.key not in charted
                   else _laid(cut.of(piece.key), piece) for piece in garment.pieces)
    if cut.align is Alignment.FRONT_EDGE and not any(p.key in FRONTS for p in pieces):
        raise CannotShape(f"repeats from the front edge of a {garment.form.value}, which has none",
                          "Write align: centre, or use a form that is open at the front.")
    return replace(garment, pieces=pieces)


def _laid(cut: Cut, piece: Piece) -> Piece:
    chart = cut.chart
    assert chart is not None
    if chart.leaves_out:
        raise CannotShape(
            f"{piece.title.lower()}, {shaping_text(piece)}, of a fabric with the chart "
            f'"{chart.title}", which leaves {chart.width - chart.stitches} of {chart.width} '
            "needles out of work",
            "Use a chart of every needle, or a form of straight pieces: a panelled blanket.")
    try:
        return replace(piece, chart=chart, align=_line(cut.align, piece))
    except ValueError as fault:
        raise CannotShape(f"{piece.title.lower()} of {fault}",
                          "Use a chart with a narrower repeat, or make the piece wider.") from fault


def _line(align: Alignment, piece: Piece) -> Align:
    """Where a piece that is not mirrored has its whole repeats begin.

    A side seam is at the right of a front; a back or a whole front, which has two, takes the
    one at the right of the bed. Other pieces have the repeats at their centre (common practice,
    no source).
    """
    if align is Alignment.FRONT_EDGE and piece.key in FRONTS:
        return Align.LEFT
    if align is Alignment.SIDE_SEAM and piece.key in BODY:
        return Align.RIGHT
    return Align.CENTRE


def shaping_text(piece: Piece) -> FindingText:
    """What shapes a piece, in figures: "shaped with 24 stitches to come and go at its edges"."""
    edges = [piece.left, piece.right]
    if piece.opening:
        edges += 2 * [piece.opening.outer, piece.opening.inner]
    changed = sum(change.stitches for edge in edges for change in edge.changes)
    if changed:
        return f"shaped with {changed} stitches that come and go at its edges"
    return f"gathered at {len(piece.gathers)} rows" if piece.gathers else "with a seam left open"
