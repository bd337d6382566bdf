"""A calculation that the engine chose among several by what stands in no expression."""

from __future__ import annotations

from fractions import Fraction

from ..machine.records import dataclass
from .counts import DOWN, NEAREST, UP
from .expression import Expression, Rounded, plain

TWO = 2  # numbers are even or odd


@dataclass(slots=True, unsafe_hash=True)
class Branched(Expression):
    """A calculation that holds while the engine chooses alike, as pages and counts.json have it.

    `follows` comes to the same, and makes the choice again where its figures change; None where no
    expression does. A workbook computes by it.
    """

    of: Expression
    follows: Expression | None = None

    def _work_out(self) -> Fraction:
        """The value of the calculation."""
        return Fraction(self.of.value)


def shown(tree: Expression) -> Expression:
    """Return an expression as pages and counts.json have it."""
    while isinstance(tree, Branched):
        tree = tree.of
    return tree


def odd_in(figure: Expression) -> Expression:
    """Return 1 where a whole figure is odd, 0 where it is even."""
    return figure - plain(TWO) * Rounded(figure / plain(TWO), DOWN)


def as_even_as(made: Expression, like: Expression) -> Branched:
    """Return a figure that was rounded to even or odd as `like` is, which it does for any other."""
    return as_multiple(made, plain(TWO), odd_in(like))


def as_multiple(made: Expression, of: Expression, plus: Expression) -> Branched:
    """Return a figure that was rounded to a multiple of one figure plus another, which it does for
    other such figures; one that was rounded otherwise is as it is."""
    if not isinstance(made, Rounded) or tuple(map(Fraction, made.rounding.kind)) != (
            of.value, plus.value):
        return Branched(made)
    rule = {"up": UP, "down": DOWN}.get(made.rounding.rule, NEAREST)
    return Branched(made, of * Rounded((made.of - plus) / of, rule) + plus)
