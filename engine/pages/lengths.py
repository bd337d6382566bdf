"""How much yarn or cord to cut before a step, from the needles it goes over."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from ..counts import UP, whole
from ..units import Length, length_cm

# All common practice, no source; the technique pages tell the same.
RAVEL, CLOSING, LAST_ROW, HOLE = 6, 4, 8, 4  # times the width on the bed
HAND = length_cm(15)


def to_the_eighth(length: Length) -> str:
    """A place along a finished edge: in centimetres, and in inches to the eighth."""
    ones, eighths = divmod(whole(length.inches * 8), 8)
    part = Fraction(eighths, 8)
    said = " ".join(str(x) for x in (ones, part) if x) or "0"
    return f"{length.in_cm()} ({said} in)"


@lru_cache(maxsize=1024)
def ends(needles: int, pitch: Length, *, holes: bool) -> Length:
    """The main yarn cut off besides what the carriage knits: the start's tail, the last row's
    end and, with `holes`, the one they are bound off with."""
    return pitch.times(needles * (LAST_ROW + CLOSING * holes)) + HAND


@lru_cache(maxsize=1024)
def to_cut(needles: int, pitch: Length, times: int, tails: int = 0) -> str:
    """Say `times` the width of `needles` on the bed and `tails` hand's lengths, in cm and inches.

    Rounded up to 5 cm: it is cut from a cone and not measured closer.
    """
    exact = pitch.times(needles * times) + HAND.times(tails)
    return str(length_cm(5 * whole(exact.cm / 5, UP)))
