"""Which measures of a garment a page has to explain: those that something on it is counted from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..core.expression import Expression, Operand, Term
from ..core.expression_parts import inside
from ..proof.proof import SizeProof
from ..sizing.quantities import Quantity

# Whose figures stand in no sum by their names: what a sleeve's cap is longer by, how many panels.
UNNAMED = ("cap_ease", "panels")


def used_measures(size: SizeProof, of_bands: Iterable[Expression]) -> Mapping[str, Quantity]:
    """Return the measures of a `size` that a count, a finished length, a join, what is counted
    `of_bands`, or another of them is worked out from, in their order.

    Others change nothing in this size: a crown's depth where its shape decides it, or a width of
    which the count is given outright.
    """
    assert size.assembled is not None
    garment, measures = size.assembled.garment, size.assembled.measures
    seen = set(UNNAMED)
    todo = [*(count.made for _, _, count in garment.counts), *of_bands,
            *(length.made for length in garment.lengths.values()),
            *(side for join in garment.joins for side in join.sewn)]
    while todo:
        named = set(_names(todo.pop())) - seen
        seen |= named
        todo += [measures[name].made for name in named if name in measures]
    return {name: quantity for name, quantity in measures.items() if name in seen}


def _names(tree: Expression) -> Iterator[str]:
    """The names of all operands of a sum, and of what was rejected for it."""
    todo, met = [tree], set[int]()
    while todo:
        one = todo.pop()
        if id(one) in met:
            continue
        met.add(id(one))
        if isinstance(one, Operand | Term) and one.name:
            yield one.name
        todo += inside(one)
