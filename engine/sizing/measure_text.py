"""The expression of a measure as a sum, with the value of each name behind it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from ..core.counts import decimal
from ..core.expression import (
    Chosen,
    Difference,
    Expression,
    Operand,
    Opposite,
    Product,
    Quotient,
    Rule,
    Stepped,
    Sum,
    Term,
)
from ..core.expression_parts import inside
from ..core.operands import Role
from ..words.terms.spelled import printed, spelled

MOST_DECIMALS = 9  # more than a measure usually has
PLACES = 2  # decimals of a centimetre to which a worked length is printed
_SIGNS: dict[type[Expression], tuple[int, str]] = {
    Sum: (1, "+"), Difference: (1, "−"), Product: (2, "×"), Quotient: (2, "/")}
_CALLED = {Rule.SMALLEST: "min", Rule.LARGEST: "max"}


def shown(value: Fraction, is_length: bool, more: int = 0) -> str:
    """A length [mm] as centimetres to a tenth of a millimetre, or a number to three places; with
    `more` decimals."""
    return f"{decimal(value / 10, PLACES + more)} cm" if is_length else decimal(value, 3 + more)


def source_of(made: Expression) -> str:
    """Where a body measurement was read: the figure itself, or the middle of two; "" of others."""
    if isinstance(made, Operand):
        return made.name if made.role is Role.BODY else ""
    if isinstance(made, Quotient):
        return source_of(made.of)
    return source_of(made.parts[0]) if isinstance(made, Sum) else ""


def written(tree: Expression) -> str:
    """The sum with the value, and for what was given the source, behind each name.

    Its figures are printed as closely as it takes for the printed sum to come to what `shown`
    prints of a length.
    """
    result = decimal(tree.value / 10, PLACES)
    extra = next((more for more in range(MOST_DECIMALS)
                  if decimal(_as_read(tree, more) / 10, PLACES) == result), 0)
    return _written(tree, extra)


def _as_read(tree: Expression, extra: int) -> Fraction:
    """What the printed figures come to [mm, or a number]."""
    if isinstance(tree, Term | Operand):
        return Fraction(*printed(tree.value, tree.role, extra))
    parts = tuple(Operand(_as_read(part, extra), Role.NUMBER) for part in inside(tree))
    if isinstance(tree, Chosen):
        return (min if tree.rule is Rule.SMALLEST else max)(part.value for part in parts)
    made: Callable[..., Expression] = type(tree)
    return (made(parts) if isinstance(tree, Sum | Product) else made(*parts)).value


def _written(tree: Expression, extra: int) -> str:
    if isinstance(tree, Term):
        source = source_of(tree.of)
        text = spelled(tree.value, tree.role, tree.name, extra, in_cm=True)
        return f"{text} [{source}]" if source else text
    if isinstance(tree, Operand):
        return spelled(tree.value, tree.role, tree.name, extra, in_cm=True)
    if isinstance(tree, Opposite):
        return f"−{_bracketed(tree.of, 3, extra)}"
    if isinstance(tree, Chosen | Stepped):
        name = _CALLED[tree.rule] if isinstance(tree, Chosen) else "round_to"
        return f"{name}({', '.join(_written(part, extra) for part in inside(tree))})"
    rank, sign = _SIGNS[type(tree)]
    first, *rest = inside(tree)
    return f" {sign} ".join((_bracketed(first, rank, extra),
                             *(_bracketed(one, rank + 1, extra) for one in rest)))


def _bracketed(tree: Expression, rank: int, extra: int) -> str:
    own, _ = _SIGNS.get(type(tree), (3, ""))
    text = _written(tree, extra)
    return f"({text})" if own < rank or (isinstance(tree, Opposite) and rank > 1) else text
