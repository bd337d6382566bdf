"""Draws the vertical darts of a piece and of a garment, and says what their lines are."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from ..core.units import Length
from ..shape.polygon import Outline
from ..shape.profile import Point
from ..words.schematic_text import bust_darts, short_rows, vertical_darts
from .dimensions import both, px
from .garment_pen import DrawnMark, PenPoint, Shape, hundredths
from .piece_frame import PieceFrame


def darts_path(frame: PieceFrame) -> str:
    """A thin line for the middle stitch of every vertical dart, and for how far short rows reach;
    nothing where there are none."""
    drawn = "".join("M" + "L".join(f"{px(frame.x(x))} {px(frame.y(y))}" for x, y in line)
                    for line in _lines(frame.outline))
    return f'<path stroke-width="1.5" d="{drawn}"/>' if drawn else ""


def darts_text(piece: Outline) -> str:
    """What the thin lines are, with their figures: from the lower edge's end as the dart begins."""
    line = piece.darts[-1]
    (x, low), (_, high) = line[0], line[-1]
    side = piece.corners[0][0] if x < 0 else piece.corners[1][0]
    if len(piece.darts) == 1:
        side = min((piece.corners[0][0], piece.corners[1][0]), key=lambda end: abs(end - x))
    return vertical_darts(len(piece.darts), both(Length(abs(side - x))), both(Length(low)),
                          both(Length(high)))


def dart_marks(outline: Outline, away: int = 0) -> tuple[DrawnMark, ...]:
    """The darts of a back or front as whoever looks at its knit side sees them, `away` to the right
    [hundredths of a mm]."""
    lines = tuple(tuple(PenPoint(away - hundredths(x), hundredths(y)) for x, y in line)
                  for line in _lines(outline))
    return (Shape("wb-texture", lines),) if lines else ()


def bust_text(piece: Outline) -> str:
    """What the lines of bust darts are, with their figures."""
    assert piece.bust_deep is not None
    (start, up), (end, _) = piece.bust[-1]
    return bust_darts(both(Length(abs(start - end))), both(Length(up)), both(piece.bust_deep))


def short_rows_texts(piece: Outline) -> Iterator[str]:
    """What the lines of other short rows are, with their figures; alike ones that follow one
    another are one text."""
    drawn = [(abs(start - end), deep, over, up) for ((start, up), (end, _)), deep, over in zip(
        piece.short[::2], piece.short_deep, piece.short_over, strict=True)]
    for (wide, deep, over), alike in groupby(drawn, key=lambda one: one[:3]):
        yield short_rows([both(Length(up)) for *_, up in alike], both(Length(wide)), both(deep),
                         both(over) if over.mm else "")


def _lines(piece: Outline) -> Iterator[tuple[Point, ...]]:
    """Every line; of a vertical dart with one change, which is a point, a centimetre is drawn."""
    for line in piece.darts:
        yield line if len(line) > 1 else (line[0], (line[0][0], line[0][1] + 10))
    yield from piece.bust
    yield from piece.short
