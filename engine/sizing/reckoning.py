"""One expression worked out exactly, its dimensions checked, and written out with its values."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from .expressions import Call, Expression, ExpressionFault, Name, Number, Operation, Opposite
from .quantities import Quantity

MOST_BITS = 512  # of a numerator or denominator: no measure of a garment comes near it


class Reckoning:
    """Works out one expression."""

    def __init__(self, known: Mapping[str, Quantity], found: Mapping[str, Quantity]) -> None:
        self.known, self.found = known, found

    def value(self, tree: Expression) -> tuple[Fraction, bool]:
        """The value [mm or plain] and whether it is a length. Raises ExpressionFault, KeyError."""
        value, is_length = self._value(tree)
        if max(value.numerator.bit_length(), value.denominator.bit_length()) > MOST_BITS:
            raise ExpressionFault("huge-measure", tree.at, "a figure beyond all measure",
                                  "figures of a garment", "Check the sums it leans on.")
        return value, is_length

    def _value(self, tree: Expression) -> tuple[Fraction, bool]:
        if isinstance(tree, Number):
            return tree.value, tree.is_length
        if isinstance(tree, Name):
            quantity = self._look_up(tree)
            return quantity.value, quantity.is_length
        if isinstance(tree, Opposite):
            value, is_length = self.value(tree.of)
            return -value, is_length
        if isinstance(tree, Operation):
            return _operate(tree, self.value(tree.left), self.value(tree.right))
        return _call(tree, [self.value(part) for part in tree.arguments])

    def _look_up(self, name: Name) -> Quantity:
        known = self.known.get(name.name)
        return self.found[name.name] if known is None else known

    def text(self, tree: Expression) -> str:
        """The expression with the value, and for what was given the source, behind each name."""
        if isinstance(tree, Number):
            return tree.text
        if isinstance(tree, Name):
            quantity = self._look_up(tree)
            source = f" [{quantity.source}]" if quantity.source else ""
            return f"{tree.name} {quantity}{source}"
        if isinstance(tree, Opposite):
            return f"−{self._bracketed(tree.of, 3)}"
        if isinstance(tree, Operation):
            rank = _RANK[tree.sign]
            return (f"{self._bracketed(tree.left, rank)} {_SIGNS[tree.sign]} "
                    f"{self._bracketed(tree.right, rank + 1)}")
        return f"{tree.name}({', '.join(self.text(part) for part in tree.arguments)})"

    def _bracketed(self, tree: Expression, rank: int) -> str:
        own = _RANK[tree.sign] if isinstance(tree, Operation) else 3
        text = self.text(tree)
        return f"({text})" if own < rank or (isinstance(tree, Opposite) and rank > 1) else text


_RANK = {"+": 1, "-": 1, "*": 2, "/": 2}
_SIGNS = {"+": "+", "-": "−", "*": "×", "/": "/"}


def _kind(is_length: bool) -> str:
    return "a length" if is_length else "a number"


def _operate(tree: Operation, left: tuple[Fraction, bool],
             right: tuple[Fraction, bool]) -> tuple[Fraction, bool]:
    (a, a_length), (b, b_length) = left, right
    if tree.sign in "+-":
        if a_length != b_length:
            raise _clash(tree.at, f"{_kind(a_length)} {tree.sign} {_kind(b_length)}")
        return (a + b if tree.sign == "+" else a - b), a_length
    if tree.sign == "*":
        if a_length and b_length:
            raise _clash(tree.at, "a length * a length")
        return a * b, a_length or b_length
    if b_length and not a_length:
        raise _clash(tree.at, "a number / a length")
    if b == 0:
        raise ExpressionFault("division-by-nothing", tree.at, "a division by 0",
                              "a divisor other than 0", "Check what it is divided by.")
    return a / b, a_length and not b_length


def _clash(at: int, found: str) -> ExpressionFault:
    return ExpressionFault(
        "unlike-measures", at, found, "lengths added to lengths, and multiplied or divided by "
        "numbers", "Write the unit behind a length, such as 2 cm.")


def _call(tree: Call, arguments: list[tuple[Fraction, bool]]) -> tuple[Fraction, bool]:
    if len({is_length for _, is_length in arguments}) > 1:
        raise _clash(tree.at, f"lengths and numbers in one {tree.name}(…)")
    values, is_length = [value for value, _ in arguments], arguments[0][1]
    if tree.name != "round_to":
        return (min(values) if tree.name == "min" else max(values)), is_length
    value, step = values
    if step <= 0:
        raise ExpressionFault("division-by-nothing", tree.at, "a step that is not above 0",
                              "a step such as 0.5 cm", "Check the step.")
    steps = value / step + Fraction(1, 2)
    return (steps.numerator // steps.denominator) * step, is_length
