"""Words for the files of a stitch chart: what each is, and which colour is which mark."""

from __future__ import annotations

from collections.abc import Mapping

from ..markup.html import esc, link
from ..pattern.cells import Cell
from ..pattern.stitch_chart import StitchChart
from .words import counted

_SHOWN = {
    Cell.KNIT: "a plain stitch", Cell.OUT: "a needle out of work",
    Cell.LEFT: "a stitch moved to the left", Cell.RIGHT: "a stitch moved to the right",
    Cell.FRONT_RIGHT: "a stitch that crosses to the right, towards you",
    Cell.FRONT_LEFT: "a stitch that crosses to the left, towards you",
    Cell.BEHIND_LEFT: "a stitch that crosses to the left, behind",
    Cell.BEHIND_RIGHT: "a stitch that crosses to the right, behind",
    Cell.TUCK: "a tuck", Cell.SLIP: "a slipped stitch", Cell.SECOND: "the second colour"}


def files_text(chart: StitchChart, table: str, picture: str,
               colours: Mapping[Cell, tuple[int, int, int]]) -> str:
    """Return what the files of a chart are, each a link, and the key to colours and signs; HTML."""
    key = "; ".join(f"{_colour(colours[cell])} or <code>{esc(cell.value)}</code> is {_SHOWN[cell]}"
                    for cell in colours)
    return (f"<p>{esc(chart.title)} for whatever selects your needles, one repeat of "
            f"{counted(chart.width, 'needle')} and {counted(chart.height, 'row')}: "
            f"{link(table, 'as a table (CSV)')}, "
            f"{link(picture, 'as a picture of one pixel a stitch (PNG)')}. Both are as you see it "
            "at the machine, the purl side towards you, row 1 at the bottom. "
            f"{key[:1].upper()}{key[1:]}.</p>")


def _colour(colour: tuple[int, int, int]) -> str:
    named = {(255, 255, 255): "white", (0, 0, 0): "black"}
    return named.get(colour) or "#{:02x}{:02x}{:02x}".format(*colour)
