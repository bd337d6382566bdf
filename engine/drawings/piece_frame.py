"""Where everything of a piece's drawing goes: its scale, the lanes and rows of its measures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..machine.records import dataclass
from ..shape.dimension_names import (
    ABOVE_HEM,
    ABOVE_RIB,
    ABOVE_UNDERARM,
    ACROSS,
    ARMHOLE,
    CAST_ON,
    FRONT_EDGE,
    GATHERED,
    HEM,
    MARKS,
    NECK,
    NECK_DEPTH,
    RIB,
    SHOULDER,
    SLIT_DEPTH,
    SLOPE,
    TO_MARK,
    TO_UNDERARM,
    TOP,
    UNDERARM,
    WEDGED,
    WHOLE,
    DimensionName,
)
from ..shape.polygon import Dimension, Outline
from ..shape.side_levels import HEIGHT_TO, WIDTH_AT
from .dimensions import CLEAR, GAP, LANE, ROW, DimensionLine, size_of

Letters = Mapping[DimensionName, str]
"""The letters that stand for measures in a drawing of all sizes."""
PAGE = 3200  # the widest drawing [tenths of a pixel], on a page 360 pixels wide
HIGHEST = 3000
LARGEST = Fraction(6, 10)  # pixels to the millimetre

OVER = (NECK, TOP, SHOULDER, ACROSS)
UNDER = (CAST_ON, ABOVE_HEM, ABOVE_RIB, *WIDTH_AT.values(), UNDERARM)
ASIDE = (HEM, RIB, *HEIGHT_TO.values(), TO_UNDERARM, ARMHOLE, ABOVE_UNDERARM, SLOPE, TO_MARK,
         MARKS, GATHERED, WEDGED, FRONT_EDGE, NECK_DEPTH, SLIT_DEPTH, WHOLE)
_PLACES = {name: place for place, name in enumerate(ASIDE)}


@dataclass(frozen=True, slots=True)
class PieceFrame:
    """Where a piece lies in its drawing [tenths of a pixel], `scale` tenths to the mm.

    `left` and `right` are where its outermost points lie, `zero` the middle of its cast-on
    edge, `foot` that edge itself.
    """

    outline: Outline
    scale: Fraction
    left: int
    right: int
    zero: int
    above: int
    foot: int
    width: int
    height: int

    def x(self, mm: Fraction) -> int:
        """A place across the drawing."""
        return self.zero + tenths(mm, self.scale)

    def y(self, mm: Fraction) -> int:
        """A place down the drawing."""
        return self.foot - tenths(mm, self.scale)


def tenths(mm: Fraction, scale: Fraction) -> int:
    """A length in whole tenths of a pixel, the nearest."""
    over, under = mm.as_integer_ratio()
    up, down = scale.as_integer_ratio()
    under *= down
    return (2 * over * up + under) // (2 * under)


def best_scale(pieces: Iterable[Outline], letters: Letters | None = None) -> Fraction:
    """Return the largest scale at which each of the pieces fits a phone's page.

    In pixels to the millimetre, cut off at a thousandth.
    """
    fits = [LARGEST]
    for piece in pieces:
        left, right = (_margin(lanes_of(piece, side), letters or {}) for side in (-1, 1))
        fits += [Fraction(PAGE - left - right, 10) / piece.width,
                 Fraction(HIGHEST, 10) / (piece.height + piece.low)]
    return Fraction(int(min(fits) * 1000), 1000)


def all_drawn(piece: Outline) -> list[Dimension]:
    """The measures that get a line: a whole height that two others add up to does not."""
    return [d for d in piece.dimensions
            if not (d.name == WHOLE and piece.dimension(FRONT_EDGE))]


def inside(piece: Outline) -> Dimension | None:
    """A neck's depth in a piece that has a neck at its middle: drawn inside it."""
    found = piece.dimension(NECK_DEPTH) or piece.dimension(SLIT_DEPTH)
    return found if found and not piece.dimension(FRONT_EDGE) else None


def lanes_of(piece: Outline, side: int) -> list[list[Dimension]]:
    """The upright measures at one side, those that follow one another in one lane.

    A hem has a separate lane, next to the piece.
    """
    lanes: list[list[Dimension]] = []
    neck = inside(piece)
    upright = [d for d in all_drawn(piece) if not d.is_level and d is not neck
               and (d.start[0].numerator > 0) == (side > 0)]
    for dimension in sorted(upright, key=_outward):
        for lane in lanes:
            if all(d.name not in (HEM, RIB) and (dimension.start[1] >= d.end[1]
                                                 or dimension.end[1] <= d.start[1]) for d in lane):
                lane.append(dimension)
                break
        else:
            lanes.append([dimension])
    return lanes


def _outward(dimension: Dimension) -> tuple[int, Fraction]:
    """How far out an upright measure is drawn: those of the designer's corners below the whole."""
    place = _PLACES.get(dimension.name)
    return _PLACES[WHOLE] - 1 if place is None else place, dimension.end[1]


def under(piece: Outline) -> tuple[DimensionName, ...]:
    """The level measures that are drawn under a piece, those that the source names last."""
    return (*UNDER, *(d.name for d in piece.dimensions
                      if d.is_level and d.name not in (*OVER, *UNDER)))


def rows_of(piece: Outline, names: Sequence[DimensionName], frame: PieceFrame, letters: Letters
          ) -> list[list[Dimension]]:
    """The level measures over or under a piece in rows, none over another's line or label."""
    rows: list[list[Dimension]] = []
    for dimension in sorted((d for d in all_drawn(piece) if d.name in names),
                            key=lambda d: names.index(d.name)):
        span = _span(dimension, frame, letters)
        for row in rows:
            if all(span[0] > b or span[1] < a
                   for a, b in (_span(d, frame, letters) for d in row)):
                row.append(dimension)
                break
        else:
            rows.append([dimension])
    return rows


def _span(d: Dimension, frame: PieceFrame, letters: Letters) -> tuple[int, int]:
    line = DimensionLine(True, frame.x(d.start[0]), frame.x(d.end[0]), 0, (0, 0), d.length,
                         letters.get(d.name, ""))
    middle, half = label_middle(frame, line), size_of(line.length, line.letter, True) // 2
    return min(line.one, middle - half), max(line.other, middle + half)


def label_middle(frame: PieceFrame, line: DimensionLine) -> int:
    """Where a level line's label has its middle: not beyond the piece if it can be helped."""
    half = size_of(line.length, line.letter, True) // 2
    if 2 * half > frame.right - frame.left:
        return (frame.left + frame.right) // 2
    return max(frame.left + half, min(frame.right - half, line.middle))


def _margin(lanes: list[list[Dimension]], letters: Letters, beyond: int = 0) -> int:
    """The room beside a piece: lanes, or what is `beyond` its edge, then the widest label."""
    if not lanes:
        return max(GAP, beyond)
    widest = max(size_of(d.length, letters.get(d.name, ""), False) for lane in lanes for d in lane)
    return to_labels(lanes, beyond) + widest


def to_labels(lanes: list[list[Dimension]], beyond: int) -> int:
    """From the piece's edge to the labels beside it."""
    return max(GAP + LANE * (len(lanes) - 1) + CLEAR, beyond)


def beyond_of(piece: Outline, wide: int, letters: Letters) -> int:
    """How far the widest label over or under a piece so `wide` reaches past its edges."""
    widest = max(size_of(d.length, letters.get(d.name, ""), True) for d in piece.dimensions
                 if d.is_level)
    return (widest - wide) // 2 + 40


def frame_of(piece: Outline, scale: Fraction, letters: Letters) -> PieceFrame:
    wide, high = tenths(piece.width, scale), tenths(piece.height, scale)
    beyond = beyond_of(piece, wide, letters)
    left, right = (_margin(lanes_of(piece, side), letters, beyond) for side in (-1, 1))
    zero = left - tenths(piece.left, scale)
    flat = PieceFrame(piece, scale, left, left + wide, zero, 0, 0, left + wide + right, 0)
    over, below = (len(rows_of(piece, names, flat, letters)) for names in (OVER, under(piece)))
    above = GAP + ROW * max(1, over) + 100
    return replace(flat, above=above, foot=above + high,
                   height=above + high + tenths(piece.low, scale) + ROW * below + GAP + 160)
