"""Counts: whole numbers that are computed by an expression, and by nothing else."""

from __future__ import annotations

from dataclasses import field
from fractions import Fraction

from ..machine.records import dataclass
from .counts import Unit
from .expression import Expression, Operand, Term
from .expression_parts import exact
from .operands import Role
from .problems import Place
from .units import Length


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number of `unit`: what the expression `made` comes to.

    Raises ValueError for no whole number.
    """

    made: Expression
    unit: Unit
    value: int = field(init=False)

    def __post_init__(self) -> None:
        value = self.made.value
        if value.denominator != 1:
            raise ValueError(f"{value} is not a whole number of {self.unit.value}")
        object.__setattr__(self, "value", value.numerator)

    @property
    def exact(self) -> Fraction:
        """The figure before rounding: few counts are asked for it."""
        return exact(self.made)

    def term(self, role: Role, name: str = "") -> Term:
        """The count as an operand of another."""
        return Term(self.made, role, name)

    def __str__(self) -> str:
        return self.unit.of(self.value)


@dataclass(frozen=True, slots=True)
class Reckoned:
    """A length that is computed, and not rounded: what the expression `made` comes to [mm]."""

    made: Expression

    @property
    def length(self) -> Length:
        """The length itself."""
        return Length(self.made.value)

    def __str__(self) -> str:
        return str(self.length)


def stated(value: int, unit: Unit, place: Place | None = None) -> Count:
    """A count that the source states, at `place` where that is known."""
    return Count(Operand(Fraction(value), Role.SOURCE, unit.name_of(value), place), unit)
