"""The way a change took: what moved in the expression of a count, from the count to its inputs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..core.expression import Chosen, Expression, LookUp, Operand, Rounded, Term
from ..core.expression_parts import inside
from ..core.operands import Role
from ..core.problems import Place

Measures = Mapping[str, tuple[Expression, Expression]]
"""The expressions of the measures of a size by name, before and after."""
_FEW = 4  # figures that a choice is given which are still followed; a search is given hundreds
_WEIGHTS = (Role.COST, Role.OFF)
_MEASURES = (Role.MEASURE, Role.PLAIN_MEASURE)


@dataclass(frozen=True, slots=True)
class Move:
    """An operand that had the value `before` and has the value `after`.

    `names` are what it is called before and after, `place` where the source states it now. With
    `role` None the calculation itself is another: `names` are then how it was rounded, "" where it
    was not the rounding that changed.
    """

    role: Role | None
    names: tuple[str, str]
    before: Fraction
    after: Fraction
    place: Place | None = None


def moves(before: Expression, after: Expression, measures: Measures) -> tuple[Move, ...]:
    """Return what moved between two expressions of one count, from the count inwards, each once.

    A measure is followed into its own expression. Nothing is followed that came to the same value,
    but for a change of the rounding. Left out are a plain number without a name, and what weighs
    the candidates of a search.
    """
    return tuple(dict.fromkeys(
        move for move in _walk(before, after, measures)
        if move.role not in _WEIGHTS and (move.role is not Role.NUMBER or move.names[1])))


def _walk(before: Expression, after: Expression, measures: Measures) -> Iterator[Move]:
    if before == after:
        return
    if isinstance(before, Operand | Term) and isinstance(after, Operand | Term):
        if before.value != after.value:
            yield from _operand(before, after, measures)
    elif isinstance(before, Chosen) and isinstance(after, Chosen):
        yield from _chosen(before, after, measures)
    elif type(before) is type(after) and len(inside(before)) == len(inside(after)):
        yield from _alike(before, after, measures)
    else:
        yield from _otherwise(before, after, measures)


def _operand(before: Operand | Term, after: Operand | Term, measures: Measures
             ) -> Iterator[Move]:
    place = after.place if isinstance(after, Operand) else None
    yield Move(after.role, (before.name, after.name), before.value, after.value, place)
    if isinstance(before, Term) and isinstance(after, Term):
        yield from _walk(before.of, after.of, measures)
    elif after.role in _MEASURES and after.name in measures:
        rest = {name: each for name, each in measures.items() if name != after.name}
        yield from _walk(*measures[after.name], rest)


def _chosen(before: Chosen, after: Chosen, measures: Measures) -> Iterator[Move]:
    yield from _walk(before.taken, after.taken, measures)
    yield from _walk(before.candidates[0], after.candidates[0], measures)
    if len(before.given) == len(after.given) <= _FEW:
        for old, new in zip(before.given, after.given, strict=True):
            yield from _walk(old, new, measures)


def _alike(before: Expression, after: Expression, measures: Measures) -> Iterator[Move]:
    """What moved between two calculations of one form."""
    if isinstance(before, Rounded) and isinstance(after, Rounded) \
            and before.rounding != after.rounding:
        yield Move(None, (str(before.rounding), str(after.rounding)), before.value, after.value)
    elif isinstance(before, LookUp) and before.value != after.value:
        yield Move(None, ("", ""), before.value, after.value)
    for old, new in zip(inside(before), inside(after), strict=True):
        yield from _walk(old, new, measures)


def _otherwise(before: Expression, after: Expression, measures: Measures) -> Iterator[Move]:
    """That a figure is calculated in another way, and what of the same name moved in it."""
    if before.value != after.value:
        yield Move(None, ("", ""), before.value, after.value)
    old = {(one.role, one.name): one for one in _operands(before) if one.name}
    for one in _operands(after):
        if match := old.get((one.role, one.name)):
            yield from _walk(match, one, measures)


def _operands(tree: Expression) -> Iterator[Operand | Term]:
    if isinstance(tree, Operand | Term):
        yield tree
        return
    parts = (tree.taken,) if isinstance(tree, Chosen) else inside(tree)
    for part in parts:
        yield from _operands(part)
