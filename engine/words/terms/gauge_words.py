"""How a gauge is said, in findings and on pages."""

from __future__ import annotations

from fractions import Fraction

from ...core.counts import decimal


def stitches_and_rows(stitches: Fraction, rows: Fraction) -> str:
    """Return a gauge by its stitches and rows to 10 cm: "28 stitches and 40 rows to 10 cm"."""
    return f"{decimal(stitches, 1)} stitches and {decimal(rows, 1)} rows to 10 cm"
