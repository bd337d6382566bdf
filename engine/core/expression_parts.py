"""What stands in an expression: its parts, its figure before rounding, what rounding is worth."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from operator import attrgetter
from typing import Any

from .body_figures import BodyOperand
from .branched import Branched
from .expression import (
    Chosen,
    Difference,
    Expression,
    LookUp,
    Operand,
    Opposite,
    Product,
    Quotient,
    Rounded,
    Stepped,
    Sum,
    Term,
)
from .note_arguments import Noted
from .roots import Along, Hypotenuse, NearestRoot, Root


def inside(tree: Expression) -> tuple[Expression, ...]:
    """The expressions of which `tree` is directly made. Raises KeyError for what is none."""
    return _INSIDE[type(tree)](tree)


def _nothing(_: Expression) -> tuple[Expression, ...]:
    return ()


def _one(tree: Branched | Term | Rounded | Noted | Opposite | Root | NearestRoot
         ) -> tuple[Expression, ...]:
    return (tree.of,)


# By kind, since a pattern's expressions are walked some ten thousand times for its pages.
_INSIDE: Mapping[type[Expression], Callable[[Any], tuple[Expression, ...]]] = {
    Operand: _nothing, BodyOperand: _nothing, LookUp: _nothing,
    Sum: attrgetter("parts"), Product: attrgetter("parts"), Along: attrgetter("parts"),
    Difference: attrgetter("of", "less"), Quotient: attrgetter("of", "by"),
    Stepped: attrgetter("of", "step"), Hypotenuse: attrgetter("wide", "high"),
    Chosen: lambda tree: tree.candidates + tree.given,
    Term: _one, Rounded: _one, Noted: _one, Opposite: _one, Root: _one,
    NearestRoot: _one, Branched: _one,
}


def exact(tree: Expression) -> Fraction:
    """The figure before anything of it was rounded, or chosen otherwise."""
    return unrounded(tree).value


def unrounded(tree: Expression) -> Expression:
    """Return what comes to that figure."""
    if isinstance(tree, Rounded):
        return tree.of
    if isinstance(tree, Chosen):
        return unrounded(tree.candidates[0])
    if isinstance(tree, Noted | Branched):
        return unrounded(tree.of)
    if isinstance(tree, Sum):
        return Sum(tuple(unrounded(part.of if isinstance(part, Term) else part)
                         for part in tree.parts))
    return tree


def pitch(tree: Expression) -> Fraction | None:
    """What one of what `tree` counts is worth [mm], None where that is not known."""
    if isinstance(tree, Rounded):
        return tree.pitch
    if isinstance(tree, Chosen):
        return pitch(tree.candidates[0])
    if isinstance(tree, Term | Noted | Branched):
        return pitch(tree.of)
    if isinstance(tree, Sum):
        return next((one for part in tree.parts if (one := pitch(part)) is not None), None)
    return None


def off_mm(tree: Expression) -> Fraction | None:
    """What rounding and choice are worth in the fabric [mm], None where that is not known."""
    each = pitch(tree)
    return None if each is None else (tree.value - exact(tree)) * each
