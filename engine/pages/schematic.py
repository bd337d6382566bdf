"""Draws pieces to scale with their measures: of one size, or of all sizes by letters."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from string import ascii_uppercase

from ..gauge import measure
from ..model import Pattern
from ..outline import (
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
    SHOULDER,
    SLOPE,
    TO_MARK,
    TO_UNDERARM,
    TOP,
    UNDERARM,
    WHOLE,
    Dimension,
    Outline,
    outline,
)
from ..profile import Point
from ..proof import Proof, SizeProof
from ..units import Length
from .dimension_svg import (
    CLEAR,
    FONT,
    GAP,
    LANE,
    LETTER,
    ROW,
    Line,
    apart,
    both,
    feet,
    figures,
    in_both,
    label_height,
    level_label,
    path,
    px,
    size_of,
    stacked,
)
from .html import esc, items, table

PAGE = 3200  # the widest drawing [tenths of a pixel], on a page 360 pixels wide
HIGHEST = 3000
LARGEST = Fraction(6, 10)  # pixels to the millimetre

OVER, UNDER = (NECK, TOP, SHOULDER, ACROSS), (CAST_ON, UNDERARM)
ASIDE = (HEM, TO_UNDERARM, ARMHOLE, ABOVE_UNDERARM, SLOPE, TO_MARK, MARKS, GATHERED, FRONT_EDGE,
         NECK_DEPTH, WHOLE)


@dataclass(frozen=True, slots=True)
class _Frame:
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
        return self.zero + _tenths(mm, self.scale)

    def y(self, mm: Fraction) -> int:
        """A place down the drawing."""
        return self.foot - _tenths(mm, self.scale)


def _tenths(mm: Fraction, scale: Fraction) -> int:
    """A length in whole tenths of a pixel, the nearest."""
    under = mm.denominator * scale.denominator
    return (2 * mm.numerator * scale.numerator + under) // (2 * under)


def _one_place(number: Fraction) -> str:
    """A number to the nearest tenth."""
    tenths = _tenths(number, Fraction(10))
    return f"{tenths // 10}.{tenths % 10}"


def schematic(piece: Outline, *, prefix: str, scale: Fraction | None = None, times: int = 1,
              letters: Mapping[str, str] | None = None) -> str:
    """Return the figure of one piece with all its measures, `scale` in pixels to the mm.

    Ids begin with `prefix`. With `letters` (by a measure's name) they stand at the lines, and
    the caption says what they mean.
    """
    letters = letters or {}
    frame = _frame(piece, 10 * (scale or best_scale([piece], letters)), letters)
    name = esc(piece.title) + _TIMES.get(times, f", knitted {times} times")
    return (
        f'<figure class="wb-drawing wb-schematic"><svg viewBox="0 0 {px(frame.width)} '
        f'{px(frame.height)}" width="{px(frame.width)}" height="{px(frame.height)}" role="img" '
        f'aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{name}, to scale</title>{_drawn(frame, letters)}</svg>'
        f'<figcaption id="{prefix}-d">{_said(piece, name, letters)}</figcaption></figure>')


_TIMES = {1: "", 2: ", knitted twice"}


def garment_schematic(pattern: Pattern, size: SizeProof, prefix: str = "schematic") -> str:
    """Return the figures of all pieces of a garment in one size, all to one scale.

    Nothing where the pattern has no garment.
    """
    if size.dressed is None:
        return ""
    pieces = outlines(pattern, size)
    scale = best_scale(pieces)
    times = size.dressed.garment.times
    drawn = "\n".join(schematic(piece, prefix=f"{prefix}-{piece.key}", scale=scale,
                                times=times.get(piece.key, 1)) for piece in pieces)
    return f'{_LEGEND}\n{_on_paper(scale)}\n<div class="wb-schematics">\n{drawn}\n</div>'


def _on_paper(scale: Fraction) -> str:
    """How much smaller than the piece a drawing is when printed; `scale` in pixels to the mm.

    A pixel of a style sheet is the 96th part of an inch (CSS Values and Units 3, 5.2).
    """
    tenths = _one_place(Fraction(96) / (Fraction(254, 10) * scale))
    return (f'<p class="wb-on-paper">Printed at 100 %, the drawings are 1 to {tenths}: 1 cm on '
            f"paper is {tenths} cm of the piece.</p>")


_LEGEND = ("<p>All pieces are drawn to one scale, as they lie on the bed: the purl side faces you. "
           "Seam stitches are included; front bands and neckbands are not. The arrowheads inside "
           "a piece point the way it is knitted, and a dashed line is the top of a hem.</p>")


def outlines(pattern: Pattern, size: SizeProof) -> tuple[Outline, ...]:
    """Return the outlines of a garment's pieces in one size; none where there is no garment."""
    if size.dressed is None or pattern.garment is None:
        return ()
    gauge = measure(pattern.fabrics[pattern.garment.fabric].swatches)
    return tuple(outline(piece, gauge) for piece in size.dressed.garment.pieces)


def best_scale(pieces: Iterable[Outline], letters: Mapping[str, str] | None = None) -> Fraction:
    """Return the largest scale at which each of the pieces fits a phone's page.

    In pixels to the millimetre, cut off at a thousandth.
    """
    fits = [LARGEST]
    for piece in pieces:
        left, right = (_margin(_lanes(piece, side), letters or {}) for side in (-1, 1))
        fits += [Fraction(PAGE - left - right, 10) / piece.width,
                 Fraction(HIGHEST, 10) / piece.height]
    return Fraction(int(min(fits) * 1000), 1000)


# All sizes at once


def graded_schematic(proof: Proof, prefix: str = "graded") -> str:
    """Return each piece drawn in the middle size, with letters, and what they are in every size.

    A piece that mirrors another is named with it. Nothing where the pattern has no garment.
    """
    pattern, middle = proof.pattern, proof.sizes[len(proof.sizes) // 2]
    by_size = {size.size: {o.key: o for o in outlines(pattern, size)} for size in proof.sizes}
    shown, names = _without_mirrored(tuple(by_size[middle.size].values()))
    if not shown:
        return ""
    letters = _letters(shown)
    scale = min(best_scale([piece], letters[piece.key]) for piece in shown)
    parts = []
    for piece in (replace(p, title=names[p.key]) for p in shown):
        own = letters[piece.key]
        figure = schematic(piece, prefix=f"{prefix}-{piece.key}", scale=scale, letters=own)
        parts.append(f'<div class="wb-graded">{figure}{_measured(piece, own, by_size)}</div>')
    return (f"{_LEGEND}\n<p>Drawn in size {esc(middle.size)}; the tables have every size.</p>\n"
            + "\n".join(parts))


def _measured(piece: Outline, letters: Mapping[str, str],
              by_size: Mapping[str, Mapping[str, Outline]]) -> str:
    """The table of one piece: letters by sizes."""
    rows = [(f"<strong>{letter}</strong> {measure}",
             *(_cell(pieces.get(piece.key), measure) for pieces in by_size.values()))
            for measure, letter in letters.items()]
    name = esc(piece.title)
    head = (f"{name} [{in_both('span', 'cm', 'in')}]", *map(esc, by_size))
    return table(f"{name}, measures in all sizes", head, rows)


def _without_mirrored(pieces: Sequence[Outline]) -> tuple[list[Outline], dict[str, str]]:
    """The pieces to draw, those that mirror another left out but named with it."""
    shown: list[Outline] = []
    names: dict[str, str] = {}
    for piece in pieces:
        twin = next((p for p in shown if _measures(p) == _measures(piece)
                     and p.corners != piece.corners), None)
        if twin is None:
            shown.append(piece)
            names[piece.key] = piece.title
        else:
            names[twin.key] += f" ({piece.title.lower()} mirrored)"
    return shown, names


def _measures(piece: Outline) -> tuple[tuple[str, Length], ...]:
    return tuple((d.name, d.length) for d in piece.dimensions)


def _letters(pieces: Iterable[Outline]) -> dict[str, dict[str, str]]:
    """A letter for every measure that is drawn, running on from piece to piece."""
    supply = (a + b for a in ("", *ascii_uppercase) for b in ascii_uppercase)
    return {piece.key: {d.name: next(supply) for d in _all_drawn(piece)} for piece in pieces}


def _cell(piece: Outline | None, name: str) -> str:
    found = piece.dimension(name) if piece else None
    if found is None:
        return "–"
    return in_both("span", *(said.rpartition(" ")[0] for said in figures(found.length)))


# What a caption says


def _said(piece: Outline, name: str, letters: Mapping[str, str]) -> str:
    """The caption: the piece's name and every measure in words, or what the letters mean."""
    if letters:
        return f"<strong>{name}</strong>: " + ", ".join(
            f"<strong>{letter}</strong>\u00a0{measure}" for measure, letter in letters.items())
    measured = (f"{d.name[0].upper()}{d.name[1:]}: {both(d.length)}" for d in piece.dimensions)
    return f"<strong>{name}</strong>{items(measured, 'wb-measures')}"


# Where everything goes


def _all_drawn(piece: Outline) -> list[Dimension]:
    """The measures that get a line: a whole height that two others add up to does not."""
    return [d for d in piece.dimensions
            if not (d.name == WHOLE and piece.dimension(FRONT_EDGE))]


def _inside(piece: Outline) -> Dimension | None:
    """A neck's depth in a piece that has a neck at its middle: drawn inside it."""
    found = piece.dimension(NECK_DEPTH)
    return found if found and not piece.dimension(FRONT_EDGE) else None


def _lanes(piece: Outline, side: int) -> list[list[Dimension]]:
    """The upright measures at one side, those that follow one another in one lane.

    A hem has a lane of its own, next to the piece.
    """
    lanes: list[list[Dimension]] = []
    upright = [d for d in _all_drawn(piece) if not d.is_level and d is not _inside(piece)
               and (d.start[0] > 0) == (side > 0)]
    for dimension in sorted(upright, key=lambda d: ASIDE.index(d.name)):
        for lane in lanes:
            if all(d.name != HEM and (dimension.start[1] >= d.end[1]
                                      or dimension.end[1] <= d.start[1]) for d in lane):
                lane.append(dimension)
                break
        else:
            lanes.append([dimension])
    return lanes


def _rows(piece: Outline, names: Sequence[str], frame: _Frame, letters: Mapping[str, str]
          ) -> list[list[Dimension]]:
    """The level measures over or under a piece in rows, none over another's line or label."""
    rows: list[list[Dimension]] = []
    for dimension in sorted((d for d in _all_drawn(piece) if d.name in names),
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


def _span(d: Dimension, frame: _Frame, letters: Mapping[str, str]) -> tuple[int, int]:
    line = Line(True, frame.x(d.start[0]), frame.x(d.end[0]), 0, (0, 0), d.length,
                letters.get(d.name, ""))
    middle, half = _middle(frame, line), size_of(line.length, line.letter, True) // 2
    return min(line.one, middle - half), max(line.other, middle + half)


def _middle(frame: _Frame, line: Line) -> int:
    """Where a level line's label has its middle: not beyond the piece if it can be helped."""
    half = size_of(line.length, line.letter, True) // 2
    if 2 * half > frame.right - frame.left:
        return (frame.left + frame.right) // 2
    return max(frame.left + half, min(frame.right - half, line.middle))


def _margin(lanes: list[list[Dimension]], letters: Mapping[str, str], beyond: int = 0) -> int:
    """The room beside a piece: lanes, or what is `beyond` its edge, then the widest label."""
    if not lanes:
        return max(GAP, beyond)
    widest = max(size_of(d.length, letters.get(d.name, ""), False) for lane in lanes for d in lane)
    return _to_labels(lanes, beyond) + widest


def _to_labels(lanes: list[list[Dimension]], beyond: int) -> int:
    """From the piece's edge to the labels beside it."""
    return max(GAP + LANE * (len(lanes) - 1) + CLEAR, beyond)


def _beyond(piece: Outline, wide: int, letters: Mapping[str, str]) -> int:
    """How far the widest label over or under a piece so `wide` reaches past its edges."""
    widest = max(size_of(d.length, letters.get(d.name, ""), True) for d in piece.dimensions
                 if d.is_level)
    return (widest - wide) // 2 + 40


def _frame(piece: Outline, scale: Fraction, letters: Mapping[str, str]) -> _Frame:
    wide, high = _tenths(piece.width, scale), _tenths(piece.height, scale)
    beyond = _beyond(piece, wide, letters)
    left, right = (_margin(_lanes(piece, side), letters, beyond) for side in (-1, 1))
    zero = left - _tenths(min(x for x, _ in piece.corners), scale)
    flat = _Frame(piece, scale, left, left + wide, zero, 0, 0, left + wide + right, 0)
    over, under = (len(_rows(piece, names, flat, letters)) for names in (OVER, UNDER))
    above = GAP + ROW * max(1, over) + 100
    return replace(flat, above=above, foot=above + high,
                   height=above + high + ROW * under + GAP + 160)


# Drawing


def _drawn(frame: _Frame, letters: Mapping[str, str]) -> str:
    piece = frame.outline
    lines = [*_level_lines(frame, letters), *_upright_lines(frame, letters)]
    dotted = "".join(feet(line) for line, _ in lines) + _neck_line(frame)
    inner = _inside_neck(frame, letters)
    corners = "L".join(f"{px(frame.x(x))} {px(frame.y(y))}" for x, y in piece.corners)
    return (
        f'<g fill="none" stroke="currentColor"><path class="wb-piece" stroke-width="2" '
        f'd="M{corners}z"/>{_hem(frame)}'
        f'<path stroke-dasharray="1 3" d="{dotted}"/>'
        f'{"".join(path(line) for line, _ in lines)}{inner[0]}{_way(frame)}</g>'
        f'<g fill="currentColor" font-size="13">{"".join(label for _, label in lines)}'
        f"{inner[1]}</g>")


def _hem(frame: _Frame) -> str:
    if not frame.outline.hem:
        return ""
    left, right = (frame.x(x) for x, _ in frame.outline.corners[:2])
    y = px(frame.y(frame.outline.hem))
    return f'<path stroke-dasharray="6 4" d="M{px(left)} {y}H{px(right)}"/>'


def _way(frame: _Frame) -> str:
    """Three arrowheads that point the way of knitting, in the lower part of the piece."""
    x = frame.x(Fraction(0))
    y = frame.y(max(frame.outline.hem, frame.outline.height / 10)) - 40
    heads = "".join(f"M{px(x - 60)} {px(y - 60 * i)}l6 -5l6 5" for i in range(3))
    return f'<path stroke-width="1.5" d="{heads}"/>'


def _level_lines(frame: _Frame, letters: Mapping[str, str]) -> Iterator[tuple[Line, str]]:
    bottom = frame.y(Fraction(0))
    for names, first, step in ((OVER, frame.above - GAP, -ROW), (UNDER, bottom + ROW, ROW)):
        for n, row in enumerate(_rows(frame.outline, names, frame, letters)):
            for d in row:
                line = Line(True, frame.x(d.start[0]), frame.x(d.end[0]), first + step * n,
                            (frame.y(d.start[1]), frame.y(d.end[1])), d.length,
                            letters.get(d.name, ""))
                yield line, level_label(line, _middle(frame, line))


def _upright_lines(frame: _Frame, letters: Mapping[str, str]) -> Iterator[tuple[Line, str]]:
    for side in (-1, 1):
        lanes = _lanes(frame.outline, side)
        found = [(d, _upright(frame, d, side, n, letters)) for n, lane in enumerate(lanes)
                 for d in lane]
        edge = frame.left if side < 0 else frame.right
        beyond = _beyond(frame.outline, frame.right - frame.left, letters)
        x = edge + side * _to_labels(lanes, beyond)
        heights = apart([label_height(line, up=d.name != HEM) for d, line in found],
                        10 * LETTER + 10 if letters else 20 * FONT + 30)
        for (_, line), y in zip(found, heights, strict=True):
            yield line, stacked(x, y, "end" if side < 0 else "start", line.length, line.letter)


def _upright(frame: _Frame, d: Dimension, side: int, lane: int, letters: Mapping[str, str],
             ) -> Line:
    edge = frame.left if side < 0 else frame.right
    return Line(False, frame.y(d.end[1]), frame.y(d.start[1]), edge + side * (GAP + LANE * lane),
                (_foot(frame, d.end, side), _foot(frame, d.start, side)), d.length,
                letters.get(d.name, ""))


def _foot(frame: _Frame, end: Point, side: int) -> int:
    """Where a dotted line starts: at the corner of that height which is nearest to the side."""
    corners = [x for x, y in frame.outline.corners if y == end[1]] or [end[0]]
    return frame.x(max(corners) if side > 0 else min(corners))


def _neck_line(frame: _Frame) -> str:
    """The dotted line from shoulder to shoulder from which a neck's depth is measured."""
    neck = frame.outline.dimension(NECK)
    if neck is None or _inside(frame.outline) is None:
        return ""
    y = px(frame.y(neck.start[1]))
    return f"M{px(frame.x(neck.start[0]))} {y}H{px(frame.x(neck.end[0]))}"


def _inside_neck(frame: _Frame, letters: Mapping[str, str]) -> tuple[str, str]:
    """A neck's depth in the neck itself, its label below."""
    d = _inside(frame.outline)
    if d is None:
        return "", ""
    x = frame.x(d.start[0])
    line = Line(False, frame.y(d.end[1]), frame.y(d.start[1]), x, (x, x), d.length)
    return path(line), stacked(x, line.other + 180, "middle", d.length, letters.get(d.name, ""))
