"""Which copy of a piece that is knitted more than once takes part in a declared join."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from ..pattern.outlines import EdgeOf, OutlineJoin, OutlinePiece
from ..words.terms.join_names import COPY, EACH_COPY, SAME_COPY, numbered_copy

Copies = tuple[tuple[str, ...], tuple[str, ...]]


def copies_of(joins: Sequence[OutlineJoin], pieces: Mapping[str, OutlinePiece]) -> list[Copies]:
    """Return for each join which piece each of its edges is of, for both its sides.

    The edge of a piece that is knitted more than once is the first copy's where it is joined
    first, and so on. One that is joined once, to its own piece, is done on each.
    """
    uses = Counter(edge.key for join in joins for edge in join.edges)
    before: Counter[str] = Counter()
    found = []
    for join in joins:
        own = {edge.piece for edge in join.edges}
        inside = len(own) == 1 and all(uses[edge.key] == 1 for edge in join.edges)
        which = []
        for side, alone in ((join.one, EACH_COPY), (join.other, SAME_COPY)):
            which.append(tuple(_which(edge, pieces[edge.piece].times, uses, before,
                                      alone if inside else COPY) for edge in side))
        found.append((which[0], which[1]))
    return found


def _which(edge: EdgeOf, times: int, uses: Counter[str], before: Counter[str], alone: str) -> str:
    before[edge.key] += 1
    if times == 1:
        return COPY
    number = before[edge.key]
    if uses[edge.key] == 1:
        return alone
    return numbered_copy(number)
