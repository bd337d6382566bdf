"""Exact lengths and numbers that say how they were come by."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from ..core.counts import decimal
from ..core.units import Length


def shown(value: Fraction, is_length: bool) -> str:
    """A length [mm] as centimetres to a tenth of a millimetre, or a number to three places."""
    return f"{decimal(value / 10, 2)} cm" if is_length else decimal(value, 3)


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact length [mm], or a plain number, with how it was come by.

    `source` is where a given quantity was read; `parts` are the measures a computed one leans on.
    """

    value: Fraction
    is_length: bool
    working: str
    source: str = ""
    parts: tuple[Quantity, ...] = field(default=(), compare=False, repr=False)

    @property
    def length(self) -> Length:
        """The quantity as a length. Raises TypeError for a plain number."""
        if not self.is_length:
            raise TypeError(f"{self.working} is a number, not a length")
        return Length(self.value)

    @property
    def derivation(self) -> tuple[str, ...]:
        """The workings of all it leans on, each once and before its use, its own last."""
        lines: dict[str, None] = {}
        pending = [(self, False)]
        while pending:
            quantity, ready = pending.pop()
            if ready:
                lines.setdefault(quantity.working)
            elif quantity.working not in lines:
                pending.append((quantity, True))
                pending.extend((part, False) for part in reversed(quantity.parts))
        return tuple(lines)

    def __str__(self) -> str:
        return shown(self.value, self.is_length)


def given_length(length: Length, source: str = "") -> Quantity:
    """A length that was stated, by whom or where in `source`."""
    text = shown(length.mm, True)
    return Quantity(length.mm, True, f"{text} [{source}]" if source else text, source)


def given_number(number: Fraction | int, source: str = "") -> Quantity:
    """A plain number that was stated, by whom or where in `source`."""
    text = shown(Fraction(number), False)
    return Quantity(Fraction(number), False, f"{text} [{source}]" if source else text, source)
