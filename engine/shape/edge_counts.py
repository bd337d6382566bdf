"""How many places a stretch of an edge has, as the count that they come of."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.expression import Expression, Operand, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..words.terms.part_names import part_name


def one_for_one(stitches: int, made: Expression | None = None) -> Operand | Term:
    """`stitches` of an edge that a band takes one for one; `made` is how they are counted."""
    if made is not None and made.value == stitches:
        return Term(made, Role.STITCHES, part_name(PartRole.ONE_FOR_ONE))
    return Operand(Fraction(stitches), Role.STITCHES, part_name(PartRole.ONE_FOR_ONE))


def rows_of_edge(rows: int, counted: Count | None = None) -> Operand | Term:
    """The `rows` of an edge as they are `counted`, or one row more or fewer: at one side of the bed
    stitches are bound off a row later, and a piece can end with a row over all its stitches."""
    if counted is None or abs(rows - counted.value) > 1:
        return Operand(Fraction(rows), Role.ROWS)
    one = Term(counted.made, Role.ROWS)
    made = {0: counted.made, 1: one + plain(1), -1: one - plain(1)}[rows - counted.value]
    return Term(made, Role.ROWS)
