"""What stands in an expression: its parts, its figure before rounding, what rounding is worth."""

from __future__ import annotations

from fractions import Fraction

from .expression import (
    Chosen,
    Difference,
    Expression,
    LookUp,
    Noted,
    Operand,
    Opposite,
    Product,
    Quotient,
    Rounded,
    Stepped,
    Sum,
    Term,
)
from .roots import Along, Hypotenuse, Root


def inside(tree: Expression) -> tuple[Expression, ...]:
    """The expressions of which `tree` is directly made."""
    if isinstance(tree, Operand | LookUp):
        return ()
    if isinstance(tree, Sum | Product | Along):
        return tree.parts
    if isinstance(tree, Difference):
        return tree.of, tree.less
    if isinstance(tree, Quotient):
        return tree.of, tree.by
    if isinstance(tree, Stepped):
        return tree.of, tree.step
    if isinstance(tree, Hypotenuse):
        return tree.wide, tree.high
    if isinstance(tree, Chosen):
        return tree.candidates + tree.given
    assert isinstance(tree, Term | Rounded | Noted | Opposite | Root)
    return (tree.of,)


def exact(tree: Expression) -> Fraction:
    """The figure before anything of it was rounded, or chosen otherwise."""
    if isinstance(tree, Rounded):
        return tree.of.value
    if isinstance(tree, Chosen):
        return exact(tree.candidates[0])
    if isinstance(tree, Noted):
        return exact(tree.of)
    if isinstance(tree, Sum):
        return sum((exact(part.of if isinstance(part, Term) else part) for part in tree.parts),
                   Fraction(0))
    return tree.value


def pitch(tree: Expression) -> Fraction | None:
    """What one of what `tree` counts is worth [mm], None where that is not known."""
    if isinstance(tree, Rounded):
        return tree.pitch
    if isinstance(tree, Chosen):
        return pitch(tree.candidates[0])
    if isinstance(tree, Term | Noted):
        return pitch(tree.of)
    if isinstance(tree, Sum):
        return next((one for part in tree.parts if (one := pitch(part)) is not None), None)
    return None


def off_mm(tree: Expression) -> Fraction | None:
    """What rounding and choice are worth in the fabric [mm], None where that is not known."""
    each = pitch(tree)
    return None if each is None else (tree.value - exact(tree)) * each
