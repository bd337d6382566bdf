"""Edges of own pieces that a declared join makes a ring: both ends of their bands meet there."""

from __future__ import annotations

from collections.abc import Sequence

from ..core.edge_parts import RingSeam
from ..pattern.outlines import EdgeOf, EdgeSide, OutlineJoin
from ..words.terms.section_names import side_called
from .outline_sides import OwnEdges

SIDES = (EdgeSide.LEFT, EdgeSide.RIGHT)
ENDS = (EdgeSide.BOTTOM, EdgeSide.TOP)


def ring_at(joins: Sequence[OutlineJoin], edges: OwnEdges, edge: EdgeOf) -> int | None:
    """Return the place of the join in which both ends of an edge meet; None for an open edge."""
    return next((n for n, join in enumerate(joins) if _closes(join, edges, edge)), None)


def ring_seam(edge: EdgeOf) -> RingSeam:
    """Return the seam at which both ends of a ring meet."""
    return RingSeam.OWN_ENDS if edge.side.is_upright else RingSeam.OWN_SIDES


def called(side: EdgeSide) -> str:
    """Return what a side of a piece is called."""
    return side_called(side.value)


def _closes(join: OutlineJoin, edges: OwnEdges, edge: EdgeOf) -> bool:
    """True where a join sews the two sides of the piece to each other between which an edge lies,
    at the edge: the whole lower edge to the whole upper one, or both sides from there on."""
    if len(join.one) != len(join.other):
        return False
    across = ENDS if edge.side.is_upright else SIDES
    return any(one.piece == other.piece == edge.piece and {one.side, other.side} == {*across}
               and (_is_whole(edges, edge) if edge.side.is_upright else
                    all(_reaches(edges, each, edge.side) for each in (one, other)))
               for one, other in zip(join.one, join.other, strict=True))


def _is_whole(edges: OwnEdges, edge: EdgeOf) -> bool:
    """True for a side from the lower edge to the upper one."""
    return all(_reaches(edges, edge, end) for end in ENDS)


def _reaches(edges: OwnEdges, edge: EdgeOf, end: EdgeSide) -> bool:
    """True where a side, or the part of it that has the name, begins or ends at that end."""
    parts = [part for part in edges.of(edge.side) if edge.stretch in ("", part.name)]
    return parts[0].low == 0 if end is EdgeSide.BOTTOM else parts[-1].high == edges.rows.value
