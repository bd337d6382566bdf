"""How much yarn or cord to cut before a step, from the needles it goes over."""

from __future__ import annotations

from functools import lru_cache

from ..catalogue.methods import HAND
from ..core.counted import Reckoned
from ..core.counts import UP, whole
from ..core.units import Length, length_cm


@lru_cache(maxsize=1024)
def to_cut(needles: int, pitch: Length, times: int, tails: int = 0) -> str:
    """Say `times` the width of `needles` on the bed and `tails` hand's lengths, in cm and inches.

    Rounded up to 5 cm: it is cut from a cone and not measured closer.
    """
    return to_sew(pitch.times(needles * times), tails)


TAIL = f"leaving a tail of about {HAND}"  # where yarn is cut: to be darned in


def to_sew(cut: Length | Reckoned, tails: int = 2) -> str:
    """Say a length that is `cut` to sew with, and `tails` hand's lengths, up to 5 cm."""
    length = cut.length if isinstance(cut, Reckoned) else cut
    exact = Length(length.mm + HAND.times(tails).mm)
    return str(length_cm(5 * whole(exact.cm / 5, UP)))
