"""Exact lengths and numbers that say how they were come by."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..core.counts import decimal
from ..core.problems import Place
from ..core.units import Length


def shown(value: Fraction, is_length: bool) -> str:
    """A length [mm] as centimetres to a tenth of a millimetre, or a number to three places."""
    return f"{decimal(value / 10, 2)} cm" if is_length else decimal(value, 3)


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact length [mm], or a plain number, with its working.

    `source` is where a given quantity was read, `place` where the designer's pattern has it.
    """

    value: Fraction
    is_length: bool
    working: str
    source: str = ""
    place: Place | None = None

    @property
    def length(self) -> Length:
        """The quantity as a length. Raises TypeError for a plain number."""
        if not self.is_length:
            raise TypeError(f"{self.working} is a number, not a length")
        return Length(self.value)

    def __str__(self) -> str:
        return shown(self.value, self.is_length)
