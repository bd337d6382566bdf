"""A stitch chart as it falls on a piece: one repeat, laid over and over on the chart's own grid."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from ..machine.step_keys import STRIPE_YARNS, StepYarn
from ..pattern.cells import MOVES, PASSED, Cell, Cells, crossings
from ..shape.heights import rows_to_join
from ..shape.piece import Piece
from .garment_colour import OTHER_TONES
from .garment_parts import DrawnParts
from .garment_pen import HUNDREDTHS, DrawnMark, Laid, Line, PenPoint, Shape, Tile, hundredths

CellPlace = Callable[[Fraction | int, Fraction | int, Cells], PenPoint]
ACROSS = Fraction(HUNDREDTHS)  # hundredths to the millimetre
PLAIN_ROWS = 10  # of a tile whose rows are all alike
RING = Fraction(3, 10)  # half of an eyelet, of the stitch it lies in


def laid(parts: DrawnParts, key: str, rings: Sequence[Line],
         shift: int = 0) -> tuple[DrawnMark, ...]:
    """Return the chart of a piece within `rings`, as it is seen on the knit side; () without one.

    It begins above the hem or the rib.
    `shift` is how far the middle of the piece lies to the right of the drawing's.
    """
    tile = tile_of(parts, key)
    if tile is None:
        return ()
    at = PenPoint(tile.at.x + shift, tile.at.y)
    foot = hundredths(parts.outlines[key].hem)
    return tuple(Laid(Tile(tile.wide, tile.high, tile.marks, at),
                      (tuple(PenPoint(n.x, max(n.y, foot), n.reach) for n in ring),))
                 for ring in rings)


def tile_of(parts: DrawnParts, key: str) -> Tile | None:
    """One repeat of a piece's chart, or of its needles out of work; None where it is plain.

    It lies as seen on the knit side: what is left on the bed is at the right.
    """
    if key not in parts.tiles:
        parts.tiles[key] = _tile(parts, key)
    return parts.tiles[key]


def _tile(parts: DrawnParts, key: str) -> Tile | None:
    piece = parts.pieces[key]
    g = parts.gauges[key]
    if piece.striped:
        return _stripes(piece, parts, hundredths(
            parts.outlines[key].hem + rows_to_join(piece) * g.row))
    rows = _rows(piece)
    if rows is None:
        return None
    first, cells = rows
    wide = sum(cell is not Cell.OUT for cell in cells[0]) * g.stitch
    up = parts.outlines[key].hem + rows_to_join(piece) * g.row
    marks = tuple(_marks(cells, g.stitch, g.row, wide))
    left = (Fraction(piece.stitches.value, 2) - first) * g.stitch - wide
    return Tile(wide * ACROSS, len(cells) * g.row * ACROSS, marks,
                PenPoint(hundredths(left), hundredths(up)))


def _stripes(piece: Piece, parts: DrawnParts, up: int) -> Tile:
    """The stripes of a piece, all its rows high, in the tones of their yarns."""
    assert piece.striped is not None
    striped, g = piece.striped, parts.gauges[piece.key]
    row, wide = g.row, ACROSS * piece.widest * g.stitch
    boxes: dict[StepYarn, list[Line]] = {}
    for stripe in striped.stripes:
        if stripe.yarn in STRIPE_YARNS:
            low, high = (hundredths((at - 1) * row)
                         for at in (stripe.first, stripe.first + striped.rows(stripe.first)))
            boxes.setdefault(stripe.yarn, []).append(
                tuple(PenPoint(x, y) for x, y in ((0, low), (hundredths(wide / ACROSS), low),
                                                  (hundredths(wide / ACROSS), high), (0, high))))
    marks = tuple(Shape(f"wb-{OTHER_TONES[STRIPE_YARNS.index(yarn)]}", tuple(lines), closed=True)
                  for yarn, lines in boxes.items())
    return Tile(wide, striped.last * row * ACROSS, marks,
                PenPoint(-hundredths(wide / ACROSS) // 2, up))


def _rows(piece: Piece) -> tuple[int, tuple[Cells, ...]] | None:
    """The first stitch of a whole repeat from the piece's left on the bed, and the repeat."""
    placed = piece.placed
    if placed:
        before = placed.rows[0][:placed.start]
        stitches = sum(cell is not Cell.OUT for cell in before)
        return (placed.first.place - piece.needles.first.place + stitches), placed.chart.rows
    if piece.repeat:
        row = tuple(Cell.KNIT if works else Cell.OUT for works in piece.repeat.works)
        return piece.repeat.edge, (row,) * PLAIN_ROWS
    return None


def _marks(cells: tuple[Cells, ...], stitch: Fraction, row: Fraction, wide: Fraction
           ) -> Iterator[Shape]:
    """What is seen of a repeat: its second colour, and lines for whatever is no plain stitch."""
    def at(column: Fraction | int, up: Fraction | int, of: Cells) -> PenPoint:
        """A place, columns counted from the left on the bed, which is seen at the right."""
        whole = int(column)
        before = sum(cell is not Cell.OUT for cell in of[:whole]) + (column - whole)
        return PenPoint(hundredths(wide - before * stitch), hundredths(up * row))

    boxes: list[Line] = []
    lines: list[Line] = []
    for up, one in enumerate(cells):
        boxes += _second(one, up, at)
        lines += _lines(one, up, at)
    last = len(cells)
    lines += [(at(i, 0, cells[0]), at(i, last, cells[0]))
              for i, cell in enumerate(cells[0]) if cell is Cell.OUT]
    twists = {c for one in cells for c in crossings(one)}
    for edge in sorted({e for c in twists for e in (c.at, c.at + c.width)}):
        lines.append((at(edge, 0, cells[0]), at(edge, last, cells[0])))
    if boxes:
        yield Shape("wb-second", tuple(boxes), closed=True)
    if lines:
        yield Shape("wb-mark", tuple(lines))


def _second(row: Cells, up: int, at: CellPlace) -> Iterator[Line]:
    place = 0
    for second, run in groupby(row, lambda cell: cell is Cell.SECOND):
        many = len(list(run))
        if second:
            yield (at(place, up, row), at(place + many, up, row), at(place + many, up + 1, row),
                   at(place, up + 1, row))
        place += many


def _lines(row: Cells, up: int, at: CellPlace) -> Iterator[Line]:
    for crossing in crossings(row):
        a, b = crossing.at, crossing.at + crossing.width
        low, high = up - Fraction(1, 2), up + crossing.width - Fraction(1, 2)
        near = (at(a, low, row), at(b, high, row))
        yield near if crossing.left_in_front else (at(b, low, row), at(a, high, row))
    for i, cell in enumerate(row):
        middle = up + Fraction(1, 2)
        if cell in PASSED:
            yield at(i, middle, row), at(i + 1, middle, row)
        elif cell in MOVES:
            x = i + Fraction(1, 2)
            yield (at(x - RING, middle, row), at(x, middle + RING, row), at(x + RING, middle, row),
                   at(x, middle - RING, row), at(x - RING, middle, row))
