"""How much yarn or cord to cut before a step, from the needles it goes over."""

from __future__ import annotations

from functools import lru_cache

from ..counts import UP, whole
from ..units import Length, length_cm

# All common practice, no source; the technique pages tell the same.
RAVEL, CLOSING, LAST_ROW, HOLE = 6, 4, 8, 4  # times the width on the bed
HAND = length_cm(15)


@lru_cache(maxsize=1024)
def to_cut(needles: int, pitch: Length, times: int, tails: int = 0) -> str:
    """Say `times` the width of `needles` on the bed and `tails` hand's lengths, in cm and inches.

    Rounded up to 5 cm: it is cut from a cone and not measured closer.
    """
    exact = pitch.times(needles * times) + HAND.times(tails)
    return str(length_cm(5 * whole(exact.cm / 5, UP)))
