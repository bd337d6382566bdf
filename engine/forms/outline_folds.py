"""Where an own piece is folded: at the corner between two parts of one edge that a join sews."""

from __future__ import annotations

from collections.abc import Mapping

from ..pattern.outlines import OutlineJoin
from ..shape.garment import Cut
from ..shape.tasks import Folded
from .outline_joins import OwnPiece


def folds_of(cut: Cut, pieces: Mapping[str, OwnPiece]) -> Mapping[int, Folded]:
    """Return the fold that each join asks for by the join's number, from 1."""
    found = {}
    for number, join in enumerate(cut.outline.joins, 1):
        if (fold := _fold(join, pieces)) is not None:
            found[number] = fold
    return found


def _fold(join: OutlineJoin, pieces: Mapping[str, OwnPiece]) -> Folded | None:
    """The fold of a part that is sewn to the next one of the same edge, else None."""
    edges = join.edges
    if len(edges) != 2 or edges[0].piece != edges[1].piece or edges[0].side is not edges[1].side:
        return None
    own = pieces[edges[0].piece]
    parts = sorted((part for part in own.edges.of(edges[0].side)
                    if part.name in (edges[0].stretch, edges[1].stretch)), key=lambda p: p.low)
    if own.spec.times > 1 or len(parts) != 2 or parts[0].high != parts[1].low:
        return None
    low, high = (next(n for n, edge in enumerate(edges) if edge.stretch == part.name)
                 for part in parts)
    return Folded(piece=own.piece.title, row=parts[0].high, top=parts[1].high,
                  at_hem=own.piece.hem is not None and parts[0].low == 0, sides=(low, high))
