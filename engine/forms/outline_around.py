"""How far two own pieces go round that are sewn to each other at both their sides."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.expression import Expression
from ..pattern.outlines import EdgeOf, EdgeSide
from ..shape.garment import Cut
from .lengths import across
from .outline_joins import OwnPiece
from .outline_widths import label


def all_round(cut: Cut, pieces: Mapping[str, OwnPiece]) -> Expression | None:
    """Return how far the first two pieces go round that are sewn left to right at both sides, from
    the lower edge up [mm]: where these seams end. None where no two are, or where what is sewn of
    an edge is not that of the other.
    """
    ends = {(join.one[0], join.other[0]) for join in cut.outline.joins
            if len(join.one) == len(join.other) == 1}
    ends |= {(other, one) for one, other in ends}
    for left, right in sorted(ends, key=lambda pair: [edge.key for edge in pair]):
        back = (EdgeOf(left.piece, EdgeSide.RIGHT, left.stretch),
                EdgeOf(right.piece, EdgeSide.LEFT, right.stretch))
        if left.side is EdgeSide.LEFT and right.side is EdgeSide.RIGHT \
                and left.piece != right.piece and back in ends \
                and all(_from_below(pieces[edge.piece], edge) for edge in (left, right)):
            return (_wide(cut, pieces[left.piece], left) + _wide(cut, pieces[right.piece], right))
    return None


def _from_below(own: OwnPiece, edge: EdgeOf) -> bool:
    """True for a part that begins at the lower edge of a piece whose edges are alike."""
    parts = own.edges.of(edge.side)
    return own.spec.alike and own.spec.times == 1 and (
        not edge.stretch or parts[0].name == edge.stretch)


def _wide(cut: Cut, own: OwnPiece, edge: EdgeOf) -> Expression:
    """How wide a piece is between its seams, at the upper end of the part that is sewn."""
    points = own.spec.points(edge.side)
    corner = 1 if edge.stretch else len(points)
    count = dict(own.edges.counts)[f"at_{label(points[corner - 1], corner)}" if corner
                                   else "cast_on"]
    return across(count, cut.gauge, seams=sum(own.edges.seams_at(corner)),
                  of=own.piece.title.lower())
