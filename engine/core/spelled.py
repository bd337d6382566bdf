"""How the figure of an operand is printed: in a sentence, alone, and as a reader takes it back."""

from __future__ import annotations

from fractions import Fraction

from .counts import decimal, to_places
from .operands import WORDS, Role


def spelled(value: Fraction, role: Role, name: str, extra: int = 0, *, in_cm: bool = False) -> str:
    """An operand as it stands in a sentence: "27 rows", "1 row above it"; one that is a length in
    millimetres `in_cm`, with the same figures."""
    words = WORDS[role]
    text = words.text
    if in_cm and length_unit(role) == "mm":
        return text.replace(" mm", " cm").format(figure(value / 10, role, extra + 1), name=name)
    shown = figure(value, role, extra)
    return (words.one if words.one and shown == "1" else text).format(shown, name=name)


def length_unit(role: Role) -> str:
    """The unit in which a sentence has a length, "mm" or "cm"; "" for what is no length."""
    words = WORDS[role]
    printed_in = (unit for unit in ("mm", "cm") if f"}} {unit}" in words.text)
    return next(printed_in, "") if words.unit == "mm" else ""


def figure(value: Fraction, role: Role, extra: int = 0) -> str:
    """The printed figure of an operand, with `extra` decimals more than it usually has."""
    words = WORDS[role]
    shown = value if words.scale == 1 else value * words.scale
    if role is Role.RULE:
        return f"{shown.numerator}/{shown.denominator}"
    return decimal(shown, words.places + extra)


def printed(value: Fraction, role: Role, extra: int = 0) -> Fraction:
    """The value that a reader takes from the printed figure, in the operand's own unit."""
    if role is Role.RULE:
        return value
    words = WORDS[role]
    if words.scale == 1:
        return to_places(value, words.places + extra)
    return to_places(value * words.scale, words.places + extra) / words.scale
