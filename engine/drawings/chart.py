"""Draws a stitch chart on the needles of a piece, as the knitter sees it, with a printed key.

Row 1 is the lowest, numbered at both sides; needles are named below; a bracket stands under each
whole repeat. Shapes are ours, all in the text's own colour, and mean the same without it.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from ..fabric.chart_on_bed import Placed
from ..machine.needles import Needle
from ..markup.html import esc, items, svg_text
from ..pattern.cells import Cell, Cells, crossings, emptied, loops_taken
from ..words.chart_key import CENTRE, EDGE_STITCH, ONE_REPEAT, Drawn, chart_caption
from ..words.chart_text import chart_text
from ..words.lying import LONGEST

# Units of the drawing; text of 14 is over 12 px on a 360 px screen.
WIDE, HIGH, SIDE, HEAD, FOOT = 14, 16, 26, 24, 34
_SIZE = 14


# Path of a mark about the middle of its cell, and how it is stroked.
_UPRIGHT, _LEFTWARDS, _RIGHTWARDS = "m0-4v8", "l-4 4l4 4", "l4 4l-4 4"
_RING = "a3 3 0 1 0 6 0a3 3 0 1 0-6 0"
_SHAPES: dict[Drawn, tuple[str, str]] = {
    Drawn.PLAIN: ("1.2", _UPRIGHT),
    Drawn.DOUBLED: ("2", "m-2-5v10m4-10v10"),
    Drawn.TRIPLED: ("2", "m-4-5v10m4-10v10m4-10v10"),
    Drawn.EYELET_LEFT: ("1.6", f"m-1 0{_RING}m-1-4{_LEFTWARDS}"),
    Drawn.EYELET_RIGHT: ("1.6", f"m-5 0{_RING}m7-4{_RIGHTWARDS}"),
    Drawn.MOVED_LEFT: ("1.6", "m3-5v10m-4-9l-4 4l4 4"),
    Drawn.MOVED_RIGHT: ("1.6", "m-3-5v10m4-9l4 4l-4 4"),
    Drawn.TUCK: ("1.8", "m-4-5v5a4 4 0 0 0 8 0v-5"),
    Drawn.SLIP: ("1.8", "m-4-4l4 8l4-8"),
    Drawn.SECOND: ("2.4", "m-4-4l8 8m0-8l-8 8"),
    Drawn.OUT: ("4", "h.1"),
}
_EDGE = f"h{WIDE}m-{WIDE} 6h{WIDE}"
_CROSSED = {Drawn.NEAR: 'stroke-width="2.8"',
            Drawn.FAR: 'stroke-width="1.6" stroke-dasharray="3 2"'}
_MARKED = {Cell.KNIT: Drawn.PLAIN, Cell.TUCK: Drawn.TUCK, Cell.SLIP: Drawn.SLIP,
           Cell.SECOND: Drawn.SECOND, Cell.OUT: Drawn.OUT}
_DRAWN_FOR = {
    Cell.LEFT: (Drawn.EYELET_LEFT, Drawn.MOVED_LEFT),
    Cell.RIGHT: (Drawn.EYELET_RIGHT, Drawn.MOVED_RIGHT),
    Cell.FRONT_RIGHT: (Drawn.NEAR,), Cell.FRONT_LEFT: (Drawn.NEAR,),
    Cell.BEHIND_LEFT: (Drawn.FAR,), Cell.BEHIND_RIGHT: (Drawn.FAR,),
    **{cell: (drawn,) for cell, drawn in _MARKED.items()}}


def chart_figure(placed: Placed, *, prefix: str, title: str) -> str:
    """Return the chart drawn, its key, its caption, and beside it all of it in words, as HTML.

    Ids begin with `prefix`; `title` is plain text.
    """
    return (f'<div class="wb-chart-both">{chart_drawing(placed, prefix=prefix, title=title)}'
            f"{chart_text(placed, title=title)}</div>")


def chart_drawing(placed: Placed, *, prefix: str, title: str,
                  only: tuple[int, int] | None = None) -> str:
    """Return the figure alone; the words beside it are `chart_text`.

    With `only` it shows the needles from one place to before another, counted from the left.
    """
    strips = (only,) if only else _strips(placed)
    a, b = strips[0][0], strips[-1][1]
    first, last = (Needle(placed.first.place + at) for at in (a, b - 1))
    width = 2 * SIDE + WIDE * max(b - a for a, b in strips)
    tall = _strip_height(placed)
    drawn = "".join(_strip(placed, a, b, n * tall) for n, (a, b) in enumerate(strips))
    return (
        f'<figure class="wb-drawing wb-chart"><svg viewBox="0 0 {width} {tall * len(strips)}"'
        f' width="{width}" height="{tall * len(strips)}" fill="none"'
        f' stroke="currentColor" role="img" aria-labelledby="{prefix}-t"'
        f' aria-describedby="{prefix}-d"><title id="{prefix}-t">{esc(title)}</title>{drawn}</svg>'
        f"{items(_keys(placed, first, last), 'wb-key')}"
        f'<figcaption id="{prefix}-d">{chart_caption(placed, title, first, last)}'
        "</figcaption></figure>")


def _strip_height(placed: Placed) -> int:
    return HEAD + HIGH * placed.chart.height + FOOT


def _strips(placed: Placed) -> tuple[tuple[int, int], ...]:
    """Cut a wide piece at the bed's centre and every so many needles from there (from, to)."""
    count, first = len(placed.columns), placed.first.place
    if count <= LONGEST + 2:
        return ((0, count),)
    cuts = {0, count} | {place - first for place in range(-1000, 1000, LONGEST)
                         if 2 < place - first < count - 2}
    return tuple(pairwise(sorted(cuts)))


def drawn_row(row: Cells) -> Iterator[tuple[int, Drawn]]:
    """What is drawn in each cell of a row, crossed stitches apart: (place from 0, what)."""
    empty, loops = set(emptied(row)), loops_taken(row)
    crossed = {at for c in crossings(row) for at in range(c.at, c.at + c.width)}
    for at, cell in enumerate(row):
        if cell is Cell.LEFT:
            yield at, Drawn.EYELET_LEFT if at in empty else Drawn.MOVED_LEFT
        elif cell is Cell.RIGHT:
            yield at, Drawn.EYELET_RIGHT if at in empty else Drawn.MOVED_RIGHT
        elif at not in crossed:
            yield at, _MARKED[cell]
        if cell not in (Cell.LEFT, Cell.RIGHT) and loops[at] > 1:
            yield at, Drawn.DOUBLED if loops[at] == 2 else Drawn.TRIPLED


def crossed_row(row: Cells) -> Iterator[tuple[int, int, Drawn]]:
    """The strokes of a row's crossings: (place from 0, needles to the right, which)."""
    for c in crossings(row):
        left, right = ((Drawn.NEAR, Drawn.FAR) if c.left_in_front else (Drawn.FAR, Drawn.NEAR))
        for at in range(c.at, c.at + c.left):
            yield at, c.right, left
        for at in range(c.at + c.left, c.at + c.width):
            yield at, -c.left, right


def _strip(placed: Placed, a: int, b: int, top: int) -> str:
    """One strip: names and numbers, grid, brackets, marks, of the places from `a` to before `b`."""
    top += HEAD
    foot = top + HIGH * placed.chart.height
    end = SIDE + WIDE * (b - a)
    grid = "".join(f"M{SIDE} {y}H{end}" for y in range(top, foot + 1, HIGH))
    grid += "".join(f"M{x} {top}V{foot}" for x in range(SIDE, end + 1, WIDE))
    return (f'<g stroke="none" fill="currentColor" font-size="{_SIZE}">'
            f"{_names(placed, a, b, top)}{_row_numbers(placed, top, end)}</g>"
            f'<path class="wb-chart-grid" stroke-width=".5" d="{grid}"/>'
            f"{_shaded(placed, a, b, top, foot)}{_bounds(placed, a, b, top, foot)}"
            f'<svg x="{SIDE}" y="{top}" width="{end - SIDE}" height="{foot - top}" '
            f'viewBox="{SIDE} {top} {end - SIDE} {foot - top}">{_marks(placed, a, b, foot)}</svg>')


def _names(placed: Placed, a: int, b: int, top: int) -> str:
    """The ends of the strip above it; every fifth needle below."""
    here = [Needle(placed.first.place + at) for at in range(a, b)]
    out = [svg_text(SIDE, top - 8, f"{here[0]} to {here[-1]}", "start")]
    y = top + HIGH * placed.chart.height + FOOT - 8
    out += [svg_text(_x(at), y, needle.name, "middle") for at, needle in enumerate(here)
            if int(needle.name[1:]) % 5 == 0]
    return "".join(out)


def _row_numbers(placed: Placed, top: int, end: int) -> str:
    out = []
    for row in range(1, placed.chart.height + 1):
        y = top + HIGH * (placed.chart.height - row) + 13
        out += [svg_text(SIDE - 5, y, str(row), "end"), svg_text(end + 5, y, str(row), "start")]
    return "".join(out)


def _shaded(placed: Placed, a: int, b: int, top: int, foot: int) -> str:
    """Two thin lines through every cell of the edges."""
    lines = [f"M{SIDE + WIDE * (at - a)} {y + 5}{_EDGE}"
             for at in range(a, b) if placed.columns[at] is None
             for y in range(top, foot, HIGH)]
    return f'<path data-mark="edge" stroke-width=".8" d="{"".join(lines)}"/>' if lines else ""


def _bounds(placed: Placed, a: int, b: int, top: int, foot: int) -> str:
    """A heavy line at each end of a repeat, a bracket below it, and the bed's centre."""
    lines = [f"M{SIDE + WIDE * (at - a)} {top}V{foot}" for at in placed.bounds if a <= at <= b]
    for at, to in pairwise(placed.bounds):
        x, end = (SIDE + WIDE * (min(max(place, a), b) - a) for place in (at, to))
        if end > x:
            lines.append(f"M{x + 2} {foot + (3 if at >= a else 8)}V{foot + 8}H{end - 2}"
                         f"V{foot + (3 if to <= b else 8)}")
    centre = -placed.first.place
    if a <= centre <= b and 0 < centre < len(placed.columns):
        lines.append(f"M{SIDE + WIDE * (centre - a)} {foot + 10}v12")
    return f'<path class="wb-chart-repeat" stroke-width="2.2" d="{"".join(lines)}"/>'


def _marks(placed: Placed, a: int, b: int, foot: int) -> str:
    """All marks of a strip, those of one kind in one path; a crossing may reach beyond it."""
    paths: dict[Drawn, list[str]] = {}
    for number, row in enumerate(placed.rows):
        y = foot - HIGH * number - HIGH // 2
        for at, what in _cells(row):
            if a <= at < b:
                paths.setdefault(what, []).append(f"M{_x(at - a)} {y}{_SHAPES[what][1]}")
        for at, by, what in crossed_row(row):
            if a <= at < b or a <= at + by < b:
                paths.setdefault(what, []).append(
                    f"M{_x(at - a)} {y + 7}l{by * WIDE}-14")
    return "".join(f'<path data-mark="{what.name.lower()}" {_stroke(what)} d="{"".join(d)}"/>'
                   for what, d in paths.items())


@lru_cache(maxsize=4096)
def _cells(row: Cells) -> tuple[tuple[int, Drawn], ...]:
    """The marks of a row, a plain one left out where stitches lie on it."""
    drawn = tuple(drawn_row(row))
    shown = dict(drawn)  # the last mark of a cell counts, but for a second colour
    twice = {at for at, what in drawn if what is Drawn.SECOND and shown[at] is not what}
    return (*shown.items(), *((at, Drawn.SECOND) for at in sorted(twice)))


def _keys(placed: Placed, first: Needle, last: Needle) -> Iterator[str]:
    """The printed key: every mark that is drawn, and what it means here."""
    used = {what for row in placed.rows for _, what in _cells(row)}
    used |= {what for row in placed.rows for _, _, what in crossed_row(row)}
    own = {drawn: meaning for cell, meaning in placed.chart.words for drawn in _DRAWN_FOR[cell]}
    for what in Drawn:
        if what in used:
            path = "M3 20l10-14" if what in _CROSSED else f"M8 13{_SHAPES[what][1]}"
            yield _key(f'{_stroke(what)} d="{path}"', esc(own.get(what, what.value)))
    if placed.edges:
        yield _key(f'stroke-width=".8" d="M1 10{_EDGE}"', EDGE_STITCH)
    yield _key('stroke-width="2.2" d="M2 10v6H14v-6"', ONE_REPEAT)
    if first.place < 0 <= last.place:
        yield _key('stroke-width="2.2" d="M8 7v12"', CENTRE)


def _key(path: str, meaning: str) -> str:
    return (f'<svg viewBox="0 0 16 26" aria-hidden="true" fill="none" stroke="currentColor">'
            f"<path {path}/></svg>{meaning}")


def _stroke(what: Drawn) -> str:
    if what in _CROSSED:
        return _CROSSED[what]
    round_ends = ' stroke-linecap="round"' if what is Drawn.OUT else ""
    return f'stroke-width="{_SHAPES[what][0]}"{round_ends}'


def _x(at: int) -> int:
    return SIDE + WIDE * at + WIDE // 2
