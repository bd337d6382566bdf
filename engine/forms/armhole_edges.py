"""The armholes of a garment without sleeves, as bands meet them: each side by its own piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionRole, Worn
from ..core.expression import Expression, Operand
from ..core.operands import Role
from ..fabric.gauge import Gauge
from ..machine.steps import Side
from ..pattern.edges import EdgeShape, Offer
from ..shape.counted_edge import ARMHOLE, counted_segments, slopes_named
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Section, falling, shaped, waiting
from ..shape.outline import last_row
from ..shape.piece import FRONTS, Piece
from ..shape.profile import Change, EdgeSegment, How, Profile, joined, shifted
from ..shape.worn import worn
from .body_counts import SEAM


def armhole_edges(behind: Piece, fronts: Sequence[Piece], start: int, gauge: Gauge, rows: Count,
                  bound: Expression | None = None) -> dict[str, EdgePath]:
    """Return both armholes by their keys, which begin at row `start` of a back and its fronts, and
    whose `rows` are counted, as are the stitches `bound` off at each, of which the side seam takes
    the outermost: the ends of a band meet at the seam, where its edge ends (geometry).

    The knitter sees the inside: the edge at the right of the bed is the wearer's right one of a
    front, the left one of a back (geometry, no source). At the left of the bed stitches are bound
    off a row later, so that a row less lies above them.
    """
    made = {}
    for name in Side:
        front = next(piece for piece in fronts if FRONTS[piece.key] in (None, name))
        below, side = _sections(front, _edge(front, name, FRONTS[front.key]), start, gauge,
                                rows, bound)
        _, back = _sections(behind, _edge(behind, name.other, None), start, gauge, rows,
                            bound)
        path = PathName.RIGHT_ARMHOLE if name is Side.RIGHT else PathName.LEFT_ARMHOLE
        made[f"{name.value}_armhole"] = run_of(
            f"{name.value}_armhole", path,
            worn([below, back, falling(side), below], Worn.BACK, Worn.FRONT),
            span=PathSpan.FROM_UNDERARM, shape=EdgeShape.ROUND, seam=RingSeam.SIDE)
    return made


def _edge(piece: Piece, bed: Side, half: Side | None) -> Profile:
    """A piece's outer edge at one side of the bed; of half a front the only one it has."""
    own = piece.right if half or bed is Side.RIGHT else piece.left
    return joined(own, piece.opening.outer) if piece.opening else own


def _sections(piece: Piece, edge: Profile, start: int, gauge: Gauge, rows: Count,
              bound: Expression | None) -> tuple[Section | None, Section | None]:
    """What is bound off at the underarm beside the side seam, and the rows from there to the
    shoulder.

    The shoulder's stitches are held while its own rows are knitted, which are none of the edge's.
    """
    changes: tuple[Change, ...] = tuple(c for c in edge.changes if c.row >= start)
    if not (changes and changes[0].how is How.BIND_OFF):
        up = Profile(edge.rows - start, shifted(changes, -start))
        own = counted_segments(up.drawn(last_row(piece)), slopes_named(piece, ARMHOLE))
        return None, replace(_rows(own, gauge, rows), tied=start in piece.marks)
    first, *rest = changes
    left = first.stitches - SEAM
    under = waiting(SectionRole.UNDERARM, left, gauge, Offer.BOUND_OFF, made=bound and (
        bound - Operand(Fraction(SEAM), Role.SEAM))) if left else None
    up = Profile(edge.rows - first.row, shifted(rest, -first.row))
    own = counted_segments(up.drawn(last_row(piece)), slopes_named(piece, ARMHOLE), begun=True)
    return under and replace(under, at_seam=True), _rows(own, gauge, rows)


def _rows(segments: Sequence[EdgeSegment], gauge: Gauge, rows: Count) -> Section:
    """The rows of an armhole, of which there is one at least."""
    made = shaped(SectionRole.ARMHOLE, segments, gauge, counted=rows)
    assert made is not None
    return made
