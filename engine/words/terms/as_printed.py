"""What the printed figures of an expression come to: what a reader of the sentence computes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from ...core.branched import Branched
from ...core.expression import (
    Chosen,
    Difference,
    Expression,
    Operand,
    Opposite,
    Product,
    Quotient,
    Rounded,
    Stepped,
    Sum,
    Term,
)
from ...core.expression_parts import inside
from ...core.note_arguments import Noted
from ...core.operands import Role
from ...core.roots import Along, Hypotenuse, NearestRoot, Root
from .spelled import printed

FIGURES = (Operand, Term)
WHOLE = (Rounded, Chosen, NearestRoot)
_REMADE = (Hypotenuse, Stepped, Opposite, Root, Along)
_ADDED = (Sum, Difference, Product, Quotient)


def as_printed(tree: Expression, extra: int) -> tuple[int, int]:
    """What the printed figures come to: over and under, which may have a factor in common.

    In whole numbers, for it is tried with one decimal more after another.
    """
    kind = type(tree)
    if isinstance(tree, FIGURES):
        return printed(tree.value, tree.role, extra)
    if isinstance(tree, Noted | Branched):
        return as_printed(tree.of, extra)
    if kind in _REMADE:
        value = _remade(tree, extra).value
        return value.numerator, value.denominator
    if kind not in _ADDED:
        return tree.value.numerator, tree.value.denominator
    first, *rest = (as_printed(part, extra) for part in inside(tree))
    over, under = first
    for more, by in rest:
        if kind is Product:
            over, under = over * more, under * by
        elif kind is Quotient:
            over, under = (over * by, under * more) if more > 0 else (-over * by, under * -more)
        else:
            over, under = over * by + (more if kind is Sum else -more) * under, under * by
    return over, under


def _remade(tree: Expression, extra: int) -> Expression:
    """The same of the figures as they are printed."""
    parts = tuple(Operand(Fraction(*as_printed(part, extra)), Role.NUMBER)
                  for part in inside(tree))
    made: Callable[..., Expression] = type(tree)
    return Along(parts) if isinstance(tree, Along) else made(*parts)


def read_back(text: str) -> Fraction:
    """The value of a printed figure."""
    return Fraction(text.replace("−", "-"))


def pitch_as_printed(tree: Rounded, extra: int) -> Fraction:
    """What one of what `tree` counts is worth [mm], as its sum prints it: the width of a stitch or
    the height of a row, or what its stitches or rows to 10 cm make of it.

    The exact one where no figure of the sum is that. Raises ValueError where it is not known.
    """
    if tree.pitch is None:
        raise ValueError("what one of them is worth is not known")
    found = tree.pitch
    for one in figures_in(tree.of):
        if one.value in (tree.pitch, 1 / tree.pitch):
            read = Fraction(*printed(one.value, one.role, extra))
            found = read if one.value == tree.pitch else 1 / read
    return found


def figures_in(tree: Expression) -> Iterator[Operand | Term]:
    """The figures that stand in a sum, in their order."""
    if isinstance(tree, FIGURES):
        yield tree
    elif not isinstance(tree, WHOLE):
        for part in inside(tree):
            yield from figures_in(part)


def from_printed(tree: Expression, total: Fraction, read: Fraction) -> Expression:
    """The same calculation from a total as it is `read`: its printed figure."""
    if isinstance(tree, Term) and tree.value == total:
        return Operand(read, tree.role, tree.name)
    if isinstance(tree, Branched):
        return from_printed(tree.of, total, read)
    if isinstance(tree, Rounded):
        return Rounded(from_printed(tree.of, total, read), tree.rounding, tree.pitch)
    if isinstance(tree, Product):
        return Product(tuple(from_printed(part, total, read) for part in tree.parts))
    if isinstance(tree, Quotient):
        return Quotient(from_printed(tree.of, total, read), from_printed(tree.by, total, read))
    return tree
