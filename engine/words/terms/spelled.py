"""How the figure of an operand is printed: in a sentence, alone, and as a reader takes it back."""

from __future__ import annotations

from fractions import Fraction

from ...core.counts import decimal, scaled
from ...core.operands import Role
from .operand_words import WORDS

# Roles whose names are written in the source: with underscores for blanks.
_NAMED_THERE = frozenset((Role.MEASURE, Role.PLAIN_MEASURE, Role.STATED))


def spelled(value: Fraction, role: Role, name: str, extra: int = 0, *, in_cm: bool = False) -> str:
    """An operand as it stands in a sentence: "27 rows", "1 row above it"; one that is a length in
    millimetres `in_cm`, with the same figures."""
    words = WORDS[role]
    name = plainly(name) if role in _NAMED_THERE else name
    if in_cm and words.long == "mm":
        return words.text.format(figure(value / 10, role, extra + 1), name=name, long="cm")
    shown = figure(value, role, extra)
    text = words.one if words.one and shown == "1" else words.text
    return text.format(shown, name=name, long=words.long)


def plainly(name: str) -> str:
    """The name of a measure as a sentence has it: "chest width" for "chest_width"."""
    return name.replace("_", " ")


def figure(value: Fraction, role: Role, extra: int = 0) -> str:
    """The printed figure of an operand, with `extra` decimals more than it usually has."""
    words = WORDS[role]
    shown = value if words.scale == 1 else value * words.scale
    if role is Role.RULE:
        return f"{shown.numerator}/{shown.denominator}"
    return decimal(shown, words.places + extra)


def printed(value: Fraction, role: Role, extra: int = 0) -> tuple[int, int]:
    """The value that a reader takes from the printed figure, in the operand's own unit: over and
    under, which may have a factor in common."""
    over, under = value.numerator, value.denominator
    if role is Role.RULE:
        return over, under
    words = WORDS[role]
    up, down = words.scale.numerator, words.scale.denominator
    size = 10 ** (words.places + extra)
    return scaled(over * up, under * down, size) * down, size * up
