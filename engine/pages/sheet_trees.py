"""What a workbook looks for in expressions: places, bare figures and what the bed counted."""

from __future__ import annotations

from fractions import Fraction

from ..core.body_figures import BodyOperand
from ..core.branched import Branched
from ..core.expression import Expression, Operand, Product, Term
from ..core.expression_parts import inside
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..core.problems import Place

_BED = (Note.BED, Note.BED_HEM, Note.TOP_ROW, Note.WIDEST)


def is_bare(tree: Expression) -> bool:
    """True for a number that nothing computes, such as no buttonholes."""
    while isinstance(tree, Noted | Term | Branched):
        tree = tree.of
    return isinstance(tree, Operand) and tree.role is Role.NUMBER


def first_place(tree: Expression) -> Place | None:
    """Where the source states the first figure of an expression that it states at all."""
    if isinstance(tree, Operand):
        return tree.place
    return next((place for part in inside(tree) if (place := first_place(part))), None)


def chart_place(tree: Expression) -> Place | None:
    """Where a size chart has the first figure of an expression that is one of a body."""
    if isinstance(tree, Operand):
        return tree.of.place if isinstance(tree, BodyOperand) else None
    return next((place for part in inside(tree) if (place := chart_place(part))), None)


def as_near(exact: Fraction, near: Fraction) -> Fraction:
    """The figure as it is published: to the nearest multiple of `near`, a half upward."""
    return (exact / near + Fraction(1, 2)).__floor__() * near if near else exact


def is_on_bed(tree: Expression) -> bool:
    """True for what the needle bed has counted, which no calculation gives."""
    if isinstance(tree, Branched) and tree.follows:
        return False
    while isinstance(tree, Term | Product | Branched):
        tree = tree.parts[-1] if isinstance(tree, Product) else tree.of
    return isinstance(tree, Noted) and tree.note in _BED
