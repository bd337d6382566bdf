"""A patch of fabric drawn as loops, twelve stitches by twelve rows, as the knit side shows it.

A stitch is as wide for its height as the swatch says. Its two legs run from the middle below to
both sides above (common practice, no source); a plain stitch is drawn once and laid over and over.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..markup.html import esc
from ..pattern.cells import Cell, Cells, Crossing, crossings
from ..pattern.fabrics import Repeat, Yarn
from ..pattern.stitch_chart import StitchChart
from ..words import sketch_text as words
from .garment_colour import clothed, lines_on

ACROSS = UPWARD = 12  # stitches and rows of a patch
UNITS = 100  # to the width of a stitch
THICK = 30  # of a leg, in hundredths of a stitch's width
CROSSED = 3  # rows over which crossed stitches are drawn aside
LONG = (Cell.SLIP, Cell.TUCK)  # the stitch below goes on through this row


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """Where the cells of a patch lie, `wide` and `high` each, y down; and its rows from below."""

    wide: int
    high: int
    rows: tuple[Cells, ...]

    def left(self, column: int) -> int:
        """The left side of a column."""
        return column * self.wide

    def foot(self, row: int) -> int:
        """The lower side of a row, counted from 0."""
        return (UPWARD - row) * self.high


def fabric_patch(gauge: Gauge, yarn: Yarn, *, name: str, prefix: str,
                 chart: StitchChart | None = None, second: Yarn | None = None,
                 repeat: Repeat | None = None) -> str:
    """Return the figure of a patch in a fabric of `gauge`, from a `chart` where it has one.

    `name` is the fabric's. Ids begin with `prefix`; `second` is the yarn of the chart's second
    colour. A `repeat` leaves needles out of work.
    """
    grid = _grid(gauge, _rows(chart, repeat))
    wide, high = ACROSS * grid.wide, UPWARD * grid.high
    plain = f"{prefix}-k"
    legs = _legs(0, 0, grid) + _legs(0, grid.high, grid)
    tile = (f'<pattern id="{plain}" patternUnits="userSpaceOnUse" width="{grid.wide}" '
            f'height="{grid.high}"><path class="wb-far" d="M0 0h{grid.wide}v{grid.high}'
            f'h-{grid.wide}z"/><path class="wb-loop" d="{legs}"/></pattern>')
    title = esc(words.patch_title(name, chart.title if chart else ""))
    across, up = gauge.stitch * _stitches(grid.rows[0]), gauge.row * UPWARD
    return (f'<figure class="wb-drawing wb-patch"><svg class="wb-fabric {lines_on(yarn.colour)}"'
            f'{clothed(yarn, second)} viewBox="0 0 {wide} {high}" width="{wide}" height="{high}" '
            f'role="img" aria-labelledby="{prefix}-t"><title id="{prefix}-t">{title}</title>{tile}'
            f'<path style="fill:url(#{plain})" d="M0 0h{wide}v{high}h-{wide}z"/>'
            f'<g stroke-width="{THICK}">{"".join(_marked(grid))}</g></svg>'
            f"<figcaption>{esc(words.patch_caption(name, across, up, _stitches(grid.rows[0])))}"
            "</figcaption></figure>")


def _stitches(row: Cells) -> int:
    return sum(cell is not Cell.OUT for cell in row)


def _rows(chart: StitchChart | None, repeat: Repeat | None) -> tuple[Cells, ...]:
    """One repeat of what is knitted, row by row from below."""
    if chart:
        return chart.rows
    works = repeat.works if repeat else (True,)
    return (tuple(Cell.KNIT if on else Cell.OUT for on in works),)


def _grid(gauge: Gauge, rows: tuple[Cells, ...]) -> _Grid:
    """The cells in hundredths of a stitch's width: with needles out of work, narrower ones."""
    cells = tuple(tuple(row[i % len(row)] for i in range(ACROSS))
                  for row in (rows[i % len(rows)] for i in range(UPWARD)))
    share = Fraction(_stitches(rows[0]), len(rows[0]))
    return _Grid(wide=int(UNITS * share), high=int(UNITS * gauge.row / gauge.stitch),
                 rows=cells)


def _legs(left: int, foot: int, grid: _Grid, *, rows: int = 1, to: int = 0) -> str:
    """Both legs of a stitch that stands on `foot`, so many rows high, its top `to` aside."""
    wide, high = grid.wide, rows * grid.high
    middle, top = left + wide // 2, foot - high
    return "".join(
        f"M{middle + side * wide // 12} {foot}Q{left + wide // 2 + side * wide * 3 // 10} "
        f"{foot - high // 3} {middle + to + side * wide * 3 // 10} {top}" for side in (-1, 1))


def _box(left: int, top: int, wide: int, high: int) -> str:
    return f"M{left} {top}h{wide}v{high}h-{wide}z"


def _marked(grid: _Grid) -> Iterator[str]:
    """Whatever is no plain stitch, row by row from below."""
    for up, row in enumerate(grid.rows):
        second = "".join(_legs(grid.left(i), grid.foot(up), grid)
                         for i, cell in enumerate(row) if cell is Cell.SECOND)
        if second:
            yield f'<path class="wb-loop wb-loop-second" d="{second}"/>'
        for i, cell in enumerate(row):
            if cell is Cell.OUT:
                yield _ladder(grid, i, up)
            elif cell in LONG:
                yield _long(grid, i, up, cell)
            elif cell in (Cell.LEFT, Cell.RIGHT):
                yield _eyelet(grid, i, up, cell)
    for up, row in enumerate(grid.rows):
        for crossing in crossings(row):
            yield from _crossed(grid, crossing, up)


def _ladder(grid: _Grid, column: int, up: int) -> str:
    """A needle out of work: the yarn of every row lies across the gap."""
    left, foot = grid.left(column), grid.foot(up)
    bar = foot - grid.high // 2
    return (f'<path class="wb-far" d="{_box(left, foot - grid.high, grid.wide, grid.high)}"/>'
            f'<path class="wb-loop" stroke-width="{THICK // 2}" d="M{left - grid.wide // 5} {bar}'
            f'h{grid.wide * 7 // 5}"/>')


def _long(grid: _Grid, column: int, up: int, cell: Cell) -> str:
    """A stitch passed by: the one below reaches up through this row; tucked, with its loop."""
    left, foot = grid.left(column), grid.foot(up)
    ground = f'<path class="wb-far" d="{_box(left, foot - grid.high, grid.wide, 2 * grid.high)}"/>'
    loop = ""
    if cell is Cell.TUCK:
        bar = foot - grid.high // 2
        loop = (f'<path class="wb-loop" stroke-width="{THICK * 2 // 3}" d="M{left} {bar}'
                f'q{grid.wide // 2}-{grid.high} {grid.wide} 0"/>')
    return (f'{ground}{loop}<path class="wb-loop" '
            f'd="{_legs(left, foot + grid.high, grid, rows=2)}"/>')


def _eyelet(grid: _Grid, column: int, up: int, cell: Cell) -> str:
    """An emptied needle: a hole, and the stitch from it leans over its neighbour."""
    left, foot = grid.left(column), grid.foot(up)
    aside = -1 if cell is Cell.LEFT else 1
    hole = (f'<ellipse class="wb-hole" cx="{left + grid.wide // 2}" '
            f'cy="{foot - grid.high // 2}" rx="{grid.wide * 3 // 10}" ry="{grid.high * 2 // 5}"/>')
    leans = _legs(left, foot + grid.high, grid, to=aside * grid.wide * 2 // 3)
    return (f'<path class="wb-far" d="{_box(left, foot - grid.high, grid.wide, 2 * grid.high)}"/>'
            f'{hole}<path class="wb-loop" d="{leans}"/>')


def _crossed(grid: _Grid, crossing: Crossing, up: int) -> Iterator[str]:
    """Stitches that change places over three rows, those behind first."""
    foot, rows = grid.foot(max(0, up - 1)), CROSSED
    left = grid.left(crossing.at)
    ground = _box(left, foot - rows * grid.high, crossing.width * grid.wide, rows * grid.high)
    yield f'<path class="wb-far" d="{ground}"/>'
    goes = [("".join(_legs(grid.left(crossing.at + i), foot, grid, rows=rows,
                           to=crossing.right * grid.wide) for i in range(crossing.left))),
            ("".join(_legs(grid.left(crossing.at + crossing.left + i), foot, grid, rows=rows,
                           to=-crossing.left * grid.wide) for i in range(crossing.right)))]
    for legs in goes[::-1] if crossing.left_in_front else goes:
        yield f'<path class="wb-under" d="{legs}"/><path class="wb-loop" d="{legs}"/>'
