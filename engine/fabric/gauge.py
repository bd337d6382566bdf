"""How many stitches and rows a fabric has to a length, exactly, from its swatches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..core.counts import NEAREST, Count, Rounding, Unit, decimal, whole
from ..core.units import Length
from ..pattern.fabrics import Swatch


@dataclass(frozen=True, slots=True)
class Gauge:
    """The width of a stitch and the height of a row [mm], and how they were measured."""

    stitch: Fraction
    row: Fraction
    working: str

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

    def __str__(self) -> str:
        return (f"{decimal(self.stitches_per_10cm, 1)} stitches and "
                f"{decimal(self.rows_per_10cm, 1)} rows to 10 cm")


def measure(swatches: Sequence[Swatch]) -> Gauge:
    """Return the gauge the swatches show: the mean width of a stitch and mean height of a row.

    Averaging several measurements each way is worked example G02; it is the measured lengths
    that are averaged. Raises ValueError without a swatch.
    """
    if not swatches:
        raise ValueError("a gauge needs a swatch")
    stitch = sum((s.width.mm / s.stitches for s in swatches), Fraction(0)) / len(swatches)
    row = sum((s.height.mm / s.rows for s in swatches), Fraction(0)) / len(swatches)
    each = "; ".join(f"{s.stitches} stitches over {s.width.in_cm()}, {s.rows} rows over "
                     f"{s.height.in_cm()}" for s in swatches)
    mean = f", mean of {len(swatches)} measurements" if len(swatches) > 1 else ""
    gauge = Gauge(stitch, row, "")
    return Gauge(stitch, row, f"{each}{mean}: {gauge}")


def stitches_across(width: Length, gauge: Gauge, rounding: Rounding = NEAREST) -> Count:
    """Return the stitches [stitches] in `width`, rounded by `rounding`."""
    return counted(width.mm / gauge.stitch, Unit.STITCHES, gauge.stitch, rounding,
                   f"{width.in_cm_closely()} × {decimal(gauge.stitches_per_10cm, 2)} stitches to "
                   "10 cm")


def rows_along(height: Length, gauge: Gauge, rounding: Rounding = NEAREST) -> Count:
    """Return the rows [rows] in `height`, rounded by `rounding`."""
    return counted(height.mm / gauge.row, Unit.ROWS, gauge.row, rounding,
                   f"{height.in_cm_closely()} × {decimal(gauge.rows_per_10cm, 2)} rows to 10 cm")


def counted(exact: Fraction, unit: Unit, pitch: Fraction, rounding: Rounding,
            said: str) -> Count:
    """Return `exact` as a whole number of `unit`, each worth `pitch` [mm], with its working."""
    value = whole(exact, rounding)
    off = (value - exact) * pitch
    working = f"{said} = {decimal(exact, 2)}"
    if value != exact:
        half = ", a half goes up" if rounding == NEAREST and exact.denominator == 2 else ""
        working += f", {rounding}{half}: {value} ({_off(off)})"
    return Count(value, unit, f"{working} {unit.value}" if value == exact else working, exact, off)


def _off(off: Fraction) -> str:
    return f"{decimal(abs(off), 1)} mm {'longer' if off > 0 else 'shorter'}"


def converted(count: Fraction | int, old: Fraction, new: Fraction) -> Fraction:
    """Return a count for another fabric or bed: `count` × old pitch ÷ new pitch (any one unit).

    Worked examples G07, G08 and G10 use needle pitches; only a first guess: swatch anyway.
    """
    return Fraction(count) * old / new
