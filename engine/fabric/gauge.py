"""How many stitches and rows a fabric has to a length, exactly, from its swatches.

Sources: Machine Knitting 101, "How to measure a swatch" (G02); Midwest Machine Knitters,
"Converting patterns for different gauge knitting machines" (G07, G08); Machine Knitting Guild of
Minnesota, "Pattern conversions between machine gauges" (G10).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from ..core.counted import Count
from ..core.counts import NEAREST, Rounding, Unit
from ..core.expression import Expression, Operand, Quotient, Rounded, Sum, plain
from ..core.operands import Role
from ..core.units import Length
from ..machine.records import dataclass
from ..pattern.fabrics import Swatch
from ..words.terms.gauge_words import stitches_and_rows


@dataclass(frozen=True, slots=True)
class Gauge:
    """The width of a stitch and the height of a row [mm], and the swatches that they come from.

    Of a band that is counted by a pick-up rule there is no swatch.
    """

    stitch: Fraction
    row: Fraction
    swatches: tuple[Swatch, ...] = ()

    def __post_init__(self) -> None:
        if self.stitch <= 0 or self.row <= 0:
            raise ValueError("a stitch and a row have a size")

    @property
    def stitches_per_10cm(self) -> Fraction:
        """Stitches in 10 cm of width."""
        return 100 / self.stitch

    @property
    def rows_per_10cm(self) -> Fraction:
        """Rows in 10 cm of height."""
        return 100 / self.row

    @property
    def turned(self) -> Gauge:
        """The gauge of the same fabric a quarter turn on: its rows lie where its stitches did."""
        return Gauge(self.row, self.stitch, self.swatches)

    def __str__(self) -> str:
        return stitches_and_rows(self.stitches_per_10cm, self.rows_per_10cm)


def measure(swatches: Sequence[Swatch]) -> Gauge:
    """Return the gauge the swatches show: the mean width of a stitch and mean height of a row.

    Several measurements each way are averaged (G02); it is the measured lengths
    that are averaged. Raises ValueError without a swatch.
    """
    return _mean(tuple(swatches))


@lru_cache(maxsize=256)  # every piece, band and drawing of a size asks for the same few
def _mean(swatches: tuple[Swatch, ...]) -> Gauge:
    if not swatches:
        raise ValueError("a gauge needs a swatch")
    return Gauge(stitch_made(swatches).value, row_made(swatches).value, swatches)


def stitch_made(swatches: Sequence[Swatch]) -> Expression:
    """Return the width of a stitch [mm] as the swatches show it: their mean."""
    return mean_of([Operand(s.width.mm, Role.SWATCH_WIDTH, place=s.place) / stitches_of(s)
                    for s in swatches])


def row_made(swatches: Sequence[Swatch]) -> Expression:
    """Return the height of a row [mm] as the swatches show it: their mean."""
    return mean_of([Operand(s.height.mm, Role.SWATCH_HEIGHT, place=s.place) / rows_of(s)
                    for s in swatches])


def mean_of(each: Sequence[Expression]) -> Expression:
    """Return the mean of at least one measurement; of one, the measurement itself."""
    return each[0] if len(each) == 1 else Sum(tuple(each)) / plain(len(each))


def measurements(mean: Expression) -> tuple[Quotient, ...]:
    """Return the measurements of which `mean_of` made a width or a height: length by number."""
    of = mean.of.parts if isinstance(mean, Quotient) and isinstance(mean.of, Sum) else (mean,)
    return tuple(one for one in of if isinstance(one, Quotient))


def stitches_of(swatch: Swatch) -> Operand:
    """The stitches that were measured across."""
    return Operand(Fraction(swatch.stitches), Role.SWATCH_STITCHES, place=swatch.place)


def rows_of(swatch: Swatch) -> Operand:
    """The rows that were measured up."""
    return Operand(Fraction(swatch.rows), Role.SWATCH_ROWS, place=swatch.place)


def stitches_across(width: Length, gauge: Gauge, rounding: Rounding = NEAREST,
                    measure: Operand | None = None) -> Count:
    """Return the stitches [stitches] in `width`, rounded by `rounding`.

    `measure` is the width as an operand, where it has a name or a place in the source.
    """
    return counted(stitches_in(measure or Operand(width.mm, Role.LENGTH), gauge), Unit.STITCHES,
                   gauge.stitch, rounding)


def rows_along(height: Length, gauge: Gauge, rounding: Rounding = NEAREST,
               measure: Operand | None = None) -> Count:
    """Return the rows [rows] in `height`, rounded by `rounding`.

    `measure` is the height as an operand, where it has a name or a place in the source.
    """
    return counted(rows_up(measure or Operand(height.mm, Role.LENGTH), gauge), Unit.ROWS,
                   gauge.row, rounding)


def stitches_in(width: Expression, gauge: Gauge) -> Expression:
    """The stitches in a width [mm], before they are rounded."""
    return width * Operand(1 / gauge.stitch, Role.STITCHES_PER_MM)


def rows_up(height: Expression, gauge: Gauge) -> Expression:
    """The rows in a height [mm], before they are rounded."""
    return height * Operand(1 / gauge.row, Role.ROWS_PER_MM)


def counted(figure: Expression, unit: Unit, pitch: Fraction, rounding: Rounding = NEAREST
            ) -> Count:
    """Return what `figure` comes to as a whole number of `unit`, each worth `pitch` [mm]."""
    return Count(Rounded(figure, rounding, pitch), unit)


def converted(count: Fraction | int, old: Fraction, new: Fraction) -> Fraction:
    """Return a count for another fabric or bed: `count` × old pitch ÷ new pitch (any one unit).

    By needle pitches, as G07, G08 and G10 do; only a first guess: swatch anyway.
    """
    return Fraction(count) * old / new
