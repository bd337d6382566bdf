"""Which measures of a garment a page has to explain: those that something on it is counted from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..core.expression import Expression, Operand, Term
from ..core.expression_parts import inside
from ..core.operands import Role
from ..proof.proof import SizeProof
from ..sizing.quantities import Quantity

# Whose figures stand in no sum by their names: what a sleeve's cap is longer by, or a straight top
# that is given as a count; how many panels.
UNNAMED = ("cap_ease", "sleeve_ease", "panels")
_NAMED = (Operand, Term)
_MEASURES = (Role.MEASURE, Role.PLAIN_MEASURE)


def used_measures(size: SizeProof, of_bands: Iterable[Expression]) -> Mapping[str, Quantity]:
    """Return the measures of a `size` that a count, a finished length, a join, what is counted
    `of_bands`, or another of them is worked out from, in their order.

    Others change nothing in this size: a crown's depth where its shape decides it, or a width of
    which the count is given outright.
    """
    assert size.assembled is not None
    garment, measures = size.assembled.garment, size.assembled.measures
    seen = set(UNNAMED)
    todo = [*(count.made for _, _, count in (*garment.counts, *garment.workings)), *of_bands,
            *(length.made for length in garment.lengths.values()),
            *(side for join in garment.joins for side in join.sewn)]
    met: dict[int, Expression] = {}  # by identity: sums stand within each other
    while todo:
        one = todo.pop()
        if id(one) in met:
            continue
        met[id(one)] = one
        if isinstance(one, _NAMED) and one.role in _MEASURES and one.name not in seen:
            seen.add(one.name)
            if one.name in measures:
                todo.append(measures[one.name].made)
        todo += inside(one)  # what was rejected for it too
    return {name: quantity for name, quantity in measures.items() if name in seen}
