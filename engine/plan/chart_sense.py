"""Does a fabric bear what its stitch chart asks: its floats, its tucks, its slips?

Works: Vikki Haffenden, "Knitting machine punchcards, how do they work?" (floats of five needles at
most on a standard bed; a needle that tucks has needles that knit at both sides); a web page,
"Length of floats" (an inch); alessandrina, "Tuck trims 4" and "Slip stitches", whose example slips
a needle in four rows.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby

from ..core.counts import decimal
from ..core.problems import Problem, Severity, note
from ..core.units import length_cm
from ..fabric.gauge import measure
from ..pattern.cells import Cell, Cells
from ..pattern.chart_flaws import USUALLY_TUCKED, most_tucked
from ..pattern.fabrics import Fabric, Materials
from ..pattern.places import Places
from ..pattern.stitch_chart import StitchChart, longest_float

LONGEST_FLOAT = length_cm(Fraction(5, 2))  # "Length of floats"
USUALLY_SLIPPED = 4  # rows, as the published example has them


def check_charts(places: Places, materials: Materials) -> Iterator[Problem]:
    """Yield a warning for all that is allowed of charts and that a fabric hardly bears."""
    for fabric in materials.fabrics.values():
        if chart := materials.stitch_charts.get(fabric.chart):
            yield from _floats(places, fabric, chart)
    for key, chart in materials.stitch_charts.items():
        yield from _passed(places, key, chart)


def longest_pass(chart: StitchChart) -> tuple[int, int]:
    """Return the most needles side by side that a row slips, and which row, from 1; (0, 1) where
    none does.

    Repeats go on side by side [needles].
    """
    runs = [_run(row, Cell.SLIP) for row in chart.rows]
    return max(runs), runs.index(max(runs)) + 1


def most_slipped(rows: tuple[Cells, ...]) -> tuple[int, int]:
    """Return the most rows one after another that slip a needle, and its stitch from 1 [rows].

    Repeats go on upwards.
    """
    runs = [_run(cells, Cell.SLIP) for cells in zip(*rows, strict=True)]
    return max(runs), runs.index(max(runs)) + 1


def _run(cells: Cells, cell: Cell) -> int:
    """The longest run of a mark where the cells come again and again."""
    runs = (len(list(run)) for kind, run in groupby(cells * 2) if kind is cell)
    return min(max(runs, default=0), len(cells))


def _floats(places: Places, fabric: Fabric, chart: StitchChart) -> Iterator[Problem]:
    """Yarn that floats past more stitches than hooks and fingers forgive: past those of the other
    colour, or past needles that a row slips."""
    slipped, at = longest_pass(chart)
    stitches, row = longest_float(chart)
    if slipped > stitches:
        stitches, row = slipped, at
    wide, most = stitches * measure(fabric.swatches).stitch, fabric.longest_float
    if wide <= LONGEST_FLOAT.mm if most is None else stitches <= most:
        return
    limit = LONGEST_FLOAT.in_cm() if most is None else f"{most} stitches"
    yield note(
        Severity.WARNING, "long-float", places.of(f"charts.{fabric.chart}.repeat"),
        found=f"a float past {stitches} stitches, {decimal(wide / 10, 1)} cm, in row {row} "
              f'of the chart "{chart.title}"',
        expected=f"floats of at most {limit}",
        remedy="Set a stitch of the other colour between, or have it caught by hand."
        if stitches > slipped else "Knit a needle between, or have it caught by hand.")


def _passed(places: Places, key: str, chart: StitchChart) -> Iterator[Problem]:
    """More loops on a needle than are usual: they jump off, or will not knit through; tucks side
    by side; and a stitch that is stretched over many rows."""
    place = places.of(f"charts.{key}.repeat")
    rows, _, stitch = most_tucked(chart.rows)
    if rows > USUALLY_TUCKED:
        yield note(
            Severity.WARNING, "long-tuck", place,
            found=f"a needle that tucks in {rows} rows, at stitch {stitch} of the chart "
                  f'"{chart.title}"',
            expected=f"at most {USUALLY_TUCKED} rows before it knits",
            remedy="Knit it in between, or try it on a swatch: the loops may jump off.")
    beside = [number for number, row in enumerate(chart.rows, 1) if _run(row, Cell.TUCK) > 1]
    if beside:
        yield note(
            Severity.WARNING, "tucks-side-by-side", place,
            found=f"needles side by side that tuck in row {beside[0]} of the chart "
                  f'"{chart.title}"',
            expected="a needle that knits at both sides of one that tucks",
            remedy="Leave a stitch between them, or try it on a swatch: one long loop lies over "
                   "both.")
    slipped, stitch = most_slipped(chart.rows)
    if slipped > USUALLY_SLIPPED:
        yield note(
            Severity.WARNING, "long-slip", place,
            found=f"a needle that {slipped} rows slip, at stitch {stitch} of the chart "
                  f'"{chart.title}"',
            expected=f"at most {USUALLY_SLIPPED} rows before it knits",
            remedy="Knit it in between, or try it on a swatch: its stitch is stretched over all "
                   "of them.")
