"""Where an own piece is folded: at the corner between two parts of one edge that a join sews."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ..core.expression import Expression
from ..pattern.outlines import OutlineJoin
from ..shape.garment import Cut
from ..shape.tasks import Folded
from .outline_joins import OwnPiece
from .outline_sides import StretchOf


@dataclass(frozen=True, slots=True)
class _Fold:
    """The lower and the upper part that a join, by its number from 1, sews to each other."""

    number: int
    own: OwnPiece
    low: StretchOf
    high: StretchOf


def folds_of(cut: Cut, pieces: Mapping[str, OwnPiece]) -> Mapping[int, Folded]:
    """Return the fold that each join asks for by the join's number, from 1."""
    found = {}
    for fold in _folds(cut, pieces):
        edges = cut.outline.joins[fold.number - 1].edges
        low, high = (next(n for n, edge in enumerate(edges) if edge.stretch == part.name)
                     for part in (fold.low, fold.high))
        piece = fold.own.piece
        found[fold.number] = Folded(
            piece=piece.key, title=piece.title, row=fold.low.high, top=fold.high.high,
            at_hem=piece.hem is not None and fold.low.low == 0, sides=(low, high))
    return found


def lowest_folds(cut: Cut, pieces: Mapping[str, OwnPiece]) -> Mapping[str, Expression]:
    """Return the row of the lowest fold of each piece that is folded, by the piece's key [rows]."""
    found: dict[str, Expression] = {}
    for fold in _folds(cut, pieces):
        key, row = fold.own.piece.key, fold.low.top
        if key not in found or row.value < found[key].value:
            found[key] = row
    return found


def _folds(cut: Cut, pieces: Mapping[str, OwnPiece]) -> Iterator[_Fold]:
    for number, join in enumerate(cut.outline.joins, 1):
        if (parts := _parts(join, pieces)) is not None:
            yield _Fold(number, pieces[join.edges[0].piece], *parts)


def _parts(join: OutlineJoin, pieces: Mapping[str, OwnPiece]
           ) -> tuple[StretchOf, StretchOf] | None:
    """A part that is sewn to the next one of the same edge, and that one; else None."""
    edges = join.edges
    if len(edges) != 2 or edges[0].piece != edges[1].piece or edges[0].side is not edges[1].side:
        return None
    own = pieces[edges[0].piece]
    parts = sorted((part for part in own.edges.of(edges[0].side)
                    if part.name in (edges[0].stretch, edges[1].stretch)), key=lambda p: p.low)
    if own.spec.times > 1 or len(parts) != 2 or parts[0].high != parts[1].low:
        return None
    return parts[0], parts[1]
