"""Where along a band its edge has joins or seams, and whether buttonholes keep clear of them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise

from ..machine.records import dataclass
from ..shape.edge_path import EdgePath
from ..shape.edging import Stretch
from .meeting import Meeting, longest_of_rows

IN_ONE = {Stretch.GARMENT, Stretch.HEM}  # a hem is knitted in one with what lies above it


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeJoin:
    """Where two parts of an edge meet: `after` so many stitches, by the names of both."""

    after: int
    below: str
    above: str


def joins_along(edge_path: EdgePath, meetings: Sequence[Meeting]) -> tuple[EdgeJoin, ...]:
    """Return where two parts of the edge meet along the `meetings`, from the first end.

    Where a neckband's end or a band's top meets the garment, and where two sections of a neck or
    of an edge of the source meet: a seam or a mark. A hem is no join.
    """
    ends = accumulate(m.stitches.value for m in meetings)
    return tuple(EdgeJoin(after=after, below=one.section.called, above=other.section.called)
                 for after, (one, other) in zip(ends, pairwise(meetings), strict=False)
                 if not _in_one(one, other))


def _in_one(one: Meeting, other: Meeting) -> bool:
    stretches = {one.section.stretch, other.section.stretch}
    return stretches == IN_ONE


def grow_below(joins: Sequence[EdgeJoin], meetings: Sequence[Meeting]) -> bool:
    """Return True where what a band grows by lies below all `joins`, which keep their places
    from the upper end."""
    upto = sum(m.stitches.value for m in meetings[:longest_of_rows(meetings) + 1])
    return all(upto <= join.after for join in joins)


def is_clear(starts: Sequence[int], hole: int, joins: Sequence[int], clear: int) -> bool:
    """Return True where every hole lies at least `clear` stitches from every join.

    `starts` are the first stitches of the holes (from 1), `joins` the stitches before a join.
    """
    return all(join + clear < start or start + hole - 1 + clear <= join
               for start in starts for join in joins)
