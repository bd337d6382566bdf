"""Where an own piece is folded: at the corner between two parts of one edge that a join sews."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..core.expression import Expression
from ..machine.records import dataclass
from ..pattern.outlines import OutlineJoin
from ..shape.garment import Cut
from ..shape.mark_roles import MarkRole
from ..shape.piece_folds import Folded
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
            marked=piece.mark_role(fold.low.high) is MarkRole.FOLD,
            top_marked=piece.mark_role(fold.high.high) is MarkRole.FOLD_ENDS,
            at_hem=piece.hem is not None and fold.low.low == 0, sides=(low, high))
    return found


def mark_roles(cut: Cut, own: OwnPiece) -> tuple[MarkRole, ...]:
    """Return what each mark of a piece is for: a fold alone, or a corner by its name, which another
    seam may need as well."""
    roles: dict[int, MarkRole] = {}
    corners: set[int] = set()
    for join in cut.outline.joins:
        if (parts := _parts(join, own)) is not None:
            roles |= {parts[1].high: MarkRole.FOLD_ENDS, **roles, parts[0].high: MarkRole.FOLD}
            continue
        corners |= {row for edge in join.edges if edge.piece == own.spec.key and edge.stretch
                    for part in own.edges.of(edge.side) if part.name == edge.stretch
                    for row in (part.low, part.high)}
    return tuple(MarkRole.CORNER if row in corners else roles.get(row, MarkRole.CORNER)
                 for row in own.piece.marks)


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
        own = pieces[join.edges[0].piece]
        if (parts := _parts(join, own)) is not None:
            yield _Fold(number, own, *parts)


def _parts(join: OutlineJoin, own: OwnPiece) -> tuple[StretchOf, StretchOf] | None:
    """A part of a piece that is sewn to the next one of the same edge, and that one; else None."""
    edges = join.edges
    if len(edges) != 2 or {edge.piece for edge in edges} != {own.spec.key} \
            or edges[0].side is not edges[1].side:
        return None
    parts = sorted((part for part in own.edges.of(edges[0].side)
                    if part.name in (edges[0].stretch, edges[1].stretch)), key=lambda p: p.low)
    if own.spec.times > 1 or len(parts) != 2 or parts[0].high != parts[1].low:
        return None
    return parts[0], parts[1]
