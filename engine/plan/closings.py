"""What holes need besides their place: the stitches some always take, a slit's rows, a loop's
length."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count, given, told
from ..core.counts import EVEN, Unit, decimal, whole
from ..core.units import Length
from ..pattern.holes import Closing

# Holes that have just so many stitches, whatever the button: made by moving stitches (P05), an
# eyelet counted with the stitch it is moved onto (B06), a slit with the stitch at either side.
FIXED: dict[Closing, tuple[int, str]] = {
    Closing.ONE_STITCH: (1, "a hole of one stitch: 1"),
    Closing.TWO_STITCHES: (2, "a hole of two stitches: 2"),
    Closing.EYELET: (2, "an eyelet, the stitch that is moved and the one it is moved onto: 2"),
    Closing.SLIT: (2, "a slit, the stitch at either side of it: 2"),
}
TIGHTER = Fraction(9, 10)  # a slit is a tenth shorter than its button; common practice, no source
PI = Fraction(355, 113)  # less than a millionth too much


def fixed_stitches(closing: Closing) -> Count | None:
    """Return the stitches [stitches] of a hole that has so many whatever the button, else None."""
    if closing not in FIXED:
        return None
    value, working = FIXED[closing]
    return given(value, Unit.STITCHES, working)


def slit_rows(button: Length, row: Fraction) -> Count:
    """Return the rows [rows] of a slit for `button`, where a row is `row` high [mm].

    Nine tenths of the button, to an even number, since each side begins and ends at its own
    outer edge; at least two. Common practice, no source.
    """
    exact = button.mm * TIGHTER / row
    value = max(2, whole(exact, EVEN))
    return told(value, Unit.ROWS, f"button {button.in_mm()} × {decimal(TIGHTER, 1)} ÷ "
                 f"{decimal(row, 3)} mm a row = {decimal(exact, 2)}: {value} rows, an even number",
                 exact, value * row - button.mm * TIGHTER)


def loop_length(button: Length) -> Length:
    """Return the length of a loop from foot to foot along its chain: half the button's girth.

    Common practice, no source.
    """
    return Length(button.mm * PI / 2)


def loop_chains(button: Length, stitch: Fraction) -> Count:
    """Return the chain stitches of a loop, each as long as a band stitch is wide [mm].

    That a chain is so long is common practice, no source: the loop is tried on the button.
    """
    length = loop_length(button).mm
    value = max(3, whole(length / stitch))
    return told(value, Unit.STITCHES, f"half the girth of a button of {button.in_mm()}, "
                 f"{decimal(length, 1)} mm, ÷ {decimal(stitch, 2)} mm a stitch = "
                 f"{decimal(length / stitch, 2)}: {value} chains", length / stitch,
                 value * stitch - length)
