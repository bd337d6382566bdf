"""Draws one piece to scale, with the lines and labels of its measures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..machine.records import dataclass
from ..shape.dimension_names import NECK
from ..shape.polygon import Dimension
from ..shape.profile import Point
from .dart_drawing import darts_path
from .dimensions import (
    FONT,
    GAP,
    LANE,
    LETTER,
    ROW,
    DimensionLine,
    Label,
    apart,
    feet,
    kites,
    label_height,
    level_label,
    moved,
    px,
    stacked,
    strokes,
)
from .piece_frame import (
    OVER,
    Letters,
    PieceFrame,
    beyond_of,
    inside,
    label_middle,
    lanes_of,
    rows_of,
    to_labels,
    under,
)
from .pocket_slot_drawing import slots_path


@dataclass(frozen=True, slots=True)
class Drawing:
    """A piece drawn: its size [tenths of a pixel], what is in its group of lines, its labels."""

    width: int
    height: int
    lines: str
    labels: tuple[Label, ...]


def draw(frame: PieceFrame, letters: Letters) -> Drawing:
    """Return the drawing of a framed piece; `letters` stand for measures, by their names."""
    neck_lines, neck_labels = _inside_neck(frame, letters)
    found = [*_level_lines(frame, letters), *_upright_lines(frame, letters)]
    measured = [line for line, _ in found] + neck_lines
    dotted = "".join(dict.fromkeys(foot for line, _ in found for foot in feet(line)))
    dotted += _neck_line(frame)
    solid = "".join(map(strokes, measured))
    heads = "".join(map(kites, measured))
    lines = (
        f'<path class="wb-piece" stroke-width="2" d="{_corners(frame)}"/>{_hem(frame)}'
        f'{slots_path(frame)}{darts_path(frame)}'
        f'<path stroke-dasharray="1 3" d="{dotted}"/><path class="wb-lines" d="{solid}"/>'
        f'<path fill="currentColor" d="{heads}"/>{_direction_marks(frame)}')
    labels = [label for _, own in found for label in own] + neck_labels
    return Drawing(frame.width, frame.height, lines, tuple(labels))


def _corners(frame: PieceFrame) -> str:
    """The piece's edge as path data: each stretch by how far it goes, which is short to write."""
    (x, y), *rest = [(frame.x(a), frame.y(b)) for a, b in frame.outline.edge]
    out = [f"M{px(x)} {px(y)}"]
    for a, b in rest:
        across, down = moved(a - x), moved(b - y)
        out.append(f"h{across}" if b == y else f"v{down}" if a == x else
                   f"l{across}{down}" if b < y else f"l{across} {down}")
        x, y = a, b
    return "".join(out) + "z"


def _hem(frame: PieceFrame) -> str:
    if not frame.outline.hem:
        return ""
    left, right = (frame.x(x) for x, _ in frame.outline.corners[:2])
    y = px(frame.y(frame.outline.hem))
    return f'<path stroke-dasharray="6 4" d="M{px(left)} {y}H{px(right)}"/>'


def _direction_marks(frame: PieceFrame) -> str:
    """Three arrowheads that point the way of knitting, in the lower part of the piece."""
    x = frame.x(Fraction(0))
    y = frame.y(max(frame.outline.hem, frame.outline.height / 10)) - 40
    heads = "".join(f"M{px(x - 60)} {px(y - 60 * i)}l6-5 6 5" for i in range(3))
    return f'<path stroke-width="1.5" d="{heads}"/>'


def _level_lines(frame: PieceFrame, letters: Letters
                 ) -> Iterator[tuple[DimensionLine, list[Label]]]:
    bottom = frame.y(-frame.outline.low)
    for names, first, step in ((OVER, frame.above - GAP, -ROW),
                               (under(frame.outline), bottom + ROW, ROW)):
        for n, row in enumerate(rows_of(frame.outline, names, frame, letters)):
            for d in row:
                line = DimensionLine(True, frame.x(d.start[0]), frame.x(d.end[0]), first + step * n,
                                     (frame.y(d.start[1]), frame.y(d.end[1])), d.length,
                                     letters.get(d.name, ""))
                yield line, [level_label(line, label_middle(frame, line))]


def _upright_lines(frame: PieceFrame, letters: Letters
                   ) -> Iterator[tuple[DimensionLine, list[Label]]]:
    ends = _ends(frame)
    for side in (-1, 1):
        lanes = lanes_of(frame.outline, side)
        found = [(d, _upright(frame, d, side, n, letters, ends)) for n, lane in enumerate(lanes)
                 for d in lane]
        edge = frame.left if side < 0 else frame.right
        beyond = beyond_of(frame.outline, frame.right - frame.left, letters)
        x = edge + side * to_labels(lanes, beyond)
        half = (frame.above + frame.foot) // 2
        heights = apart([(line.middle, label_height(line, up=line.middle < half))
                         for _, line in found],
                        10 * LETTER + 10 if letters else 20 * FONT + 30)
        for (_, line), y in zip(found, heights, strict=True):
            yield line, stacked(x, y, "end" if side < 0 else "start", line.length, line.letter)


def _upright(frame: PieceFrame, d: Dimension, side: int, lane: int, letters: Letters,
             ends: LineEnds) -> DimensionLine:
    edge = frame.left if side < 0 else frame.right
    return DimensionLine(False, frame.y(d.end[1]), frame.y(d.start[1]),
                         edge + side * (GAP + LANE * lane),
                         (_foot(frame, d.end, side, ends), _foot(frame, d.start, side, ends)),
                         d.length,
                         letters.get(d.name, ""))


LineEnds = Mapping[tuple[int, int], tuple[int, int]]
"""The outermost corners of each height that has some, left and right, by the height's ratio."""


def _ends(frame: PieceFrame) -> LineEnds:
    ends: dict[tuple[int, int], tuple[int, int]] = {}
    for corner, height in frame.outline.corners:
        x, key = frame.x(corner), height.as_integer_ratio()
        left, right = ends.get(key, (x, x))
        ends[key] = min(left, x), max(right, x)
    return ends


def _foot(frame: PieceFrame, end: Point, side: int, ends: LineEnds) -> int:
    """Where a dotted line starts: at the corner of that height which is nearest to the side."""
    left, right = ends.get(end[1].as_integer_ratio()) or (frame.x(end[0]),) * 2
    return right if side > 0 else left


def _neck_line(frame: PieceFrame) -> str:
    """The dotted line from shoulder to shoulder from which a neck's depth is measured."""
    neck = frame.outline.dimension(NECK)
    if neck is None or inside(frame.outline) is None:
        return ""
    y = px(frame.y(neck.start[1]))
    return f"M{px(frame.x(neck.start[0]))} {y}H{px(frame.x(neck.end[0]))}"


def _inside_neck(frame: PieceFrame, letters: Letters
                 ) -> tuple[list[DimensionLine], list[Label]]:
    """A neck's depth in the neck itself, its label below."""
    d = inside(frame.outline)
    if d is None:
        return [], []
    x = frame.x(d.start[0])
    line = DimensionLine(False, frame.y(d.end[1]), frame.y(d.start[1]), x, (x, x), d.length)
    return [line], stacked(x, line.other + 180, "middle", d.length, letters.get(d.name, ""))
