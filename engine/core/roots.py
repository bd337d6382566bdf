"""Expressions with square roots: the lengths of lines that slope."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import isqrt

from ..machine.records import dataclass
from .expression import Expression

_FINE = 10 ** 9  # how finely a root is taken, before a sum of them is rounded


@dataclass(slots=True, unsafe_hash=True)
class Hypotenuse(Expression):
    """The long side of a right-angled triangle [mm], to a thousandth, a half upward."""

    wide: Expression
    high: Expression

    def _work_out(self) -> Fraction:
        """The length."""
        return root_of(self.wide.value ** 2 + self.high.value ** 2)


@dataclass(slots=True, unsafe_hash=True)
class Root(Expression):
    """The square root of a figure that is not below 0, to a thousandth, a half upward.

    It is taken of whole numbers: the same on every machine.
    """

    of: Expression

    def _work_out(self) -> Fraction:
        """The root."""
        return root_of(self.of.value)


@dataclass(slots=True, unsafe_hash=True)
class NearestRoot(Expression):
    """The whole number that is nearest to the square root of a figure not below 0, a half upward.

    The root itself is never rounded: the same on every machine.
    """

    of: Expression

    def _work_out(self) -> Fraction:
        """The number n for which 2n − 1 is at most twice the root, and 2n + 1 is more."""
        square = self.of.value
        return Fraction((isqrt(4 * square.numerator // square.denominator) + 1) // 2)


@dataclass(slots=True, unsafe_hash=True)
class Along(Expression):
    """The length of a line of straight stretches [mm], to a thousandth: only the whole is rounded.

    `parts` are three for every kind of stretch: how many there are, how wide one is and how high
    [mm]. Raises TypeError for another number of parts.
    """

    parts: tuple[Expression, ...]

    def __post_init__(self) -> None:
        if not self.parts or len(self.parts) % 3:
            raise TypeError(f"{len(self.parts)} parts of a line, not three for every stretch")

    @property
    def stretches(self) -> Iterator[tuple[Expression, Expression, Expression]]:
        """How many, how wide and how high, kind by kind."""
        return zip(*(self.parts[at::3] for at in range(3)), strict=True)

    def _work_out(self) -> Fraction:
        """The length."""
        squares = ((times.value, wide.value ** 2 + high.value ** 2)
                   for times, wide, high in self.stretches)
        return added_roots((times, square.numerator, square.denominator)
                           for times, square in squares)


def root_of(square: Fraction) -> Fraction:
    """Return the square root of a figure that is not below 0, to a thousandth, a half upward."""
    return added_roots([(1, square.numerator, square.denominator)])


def added_roots(squares: Iterable[tuple[int | Fraction, int, int]]) -> Fraction:
    """Return the sum of the roots of squares, to a thousandth, a half upward.

    Each comes so many times; a square is its numerator and denominator. Roots are taken of whole
    numbers, cut off at a thousand-millionth, and only the sum is rounded: the same on every
    machine.
    """
    total = sum(times * isqrt(upper * _FINE * _FINE // lower) for times, upper, lower in squares)
    return Fraction((total + 500_000) // 1_000_000, 1000)
