"""A stitch chart as a picture of one pixel a stitch, for whatever selects the needles."""

from __future__ import annotations

import zlib
from collections.abc import Mapping, Sequence

from ..core.colours import Colour
from ..pattern.cells import Cell
from ..pattern.stitch_chart import StitchChart

WHITE, BLACK = (255, 255, 255), (0, 0, 0)
MARKED: Mapping[Cell, Colour] = {
    Cell.KNIT: WHITE, Cell.SECOND: BLACK, Cell.OUT: (189, 189, 189), Cell.LEFT: (27, 108, 168),
    Cell.RIGHT: (200, 85, 61), Cell.FRONT_RIGHT: (47, 125, 79), Cell.FRONT_LEFT: (122, 78, 158),
    Cell.BEHIND_LEFT: (156, 207, 176), Cell.BEHIND_RIGHT: (201, 179, 220),
    Cell.TUCK: (224, 161, 0), Cell.SLIP: (77, 77, 77)}
"""The colour of each mark, in a chart that has several beside plain stitches."""
SIGNATURE = b"\x89PNG\r\n\x1a\n"


def colours(chart: StitchChart) -> dict[Cell, Colour]:
    """Return the colour of each mark that a chart has: one mark beside plain stitches is black."""
    used = [cell for cell in Cell if cell in chart.cells]
    others = [cell for cell in used if cell is not Cell.KNIT]
    if len(others) == 1:
        return {cell: WHITE if cell is Cell.KNIT else BLACK for cell in used}
    return {cell: MARKED[cell] for cell in used}


def chart_png(chart: StitchChart) -> bytes:
    """Return one repeat as a PNG: a pixel a stitch, row 1 at the bottom.

    PNG, third edition (W3C, 2025), sections 5 and 11: indexed colours, eight bits a pixel, no
    filter. The pixels are stored as they are, so that every library writes the same bytes.
    """
    shown = colours(chart)
    places = {cell: at for at, cell in enumerate(shown)}
    lines = [[places[cell] for cell in row] for row in reversed(chart.rows)]
    return _png(lines, list(shown.values()))


def _png(lines: Sequence[Sequence[int]], palette: Sequence[Colour]) -> bytes:
    size = len(lines[0]).to_bytes(4) + len(lines).to_bytes(4)
    pixels = b"".join(b"\0" + bytes(line) for line in lines)
    return (SIGNATURE + _chunk(b"IHDR", size + bytes((8, 3, 0, 0, 0)))
            + _chunk(b"PLTE", bytes(part for colour in palette for part in colour))
            + _chunk(b"IDAT", zlib.compress(pixels, 0)) + _chunk(b"IEND", b""))


def _chunk(kind: bytes, data: bytes) -> bytes:
    return len(data).to_bytes(4) + kind + data + zlib.crc32(kind + data).to_bytes(4)
