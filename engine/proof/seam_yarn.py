"""The yarn of all seams, as a calculation."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ..catalogue.methods import BIND_OFFS, GRAFT, Method, hands_long, longer
from ..catalogue.pocket_edges import LINING
from ..core.expression import Expression, Operand, Term, plain, so_often
from ..core.operands import Role
from ..fabric.gauge import Gauge
from ..forms.lengths import on_foot, rows_high, stitches_wide
from ..shape.garment import Join, Kindred
from ..shape.piece import Piece
from ..shape.tasks import Seam
from .proof import Strip
from .yarn_ends import SEAM, added, ring_ends, short_end

SeamSide = tuple[Piece, int, Gauge, Expression]
"""A piece, how many times it is knitted, its gauge, and its rows as they are counted."""


def seams(pieces: Sequence[SeamSide], strips: Sequence[Strip], joins: tuple[Join, ...],
          stitch: Fraction) -> Expression:
    """Return the yarn of all seams [mm]: each sewn with three times its length.

    Every side of every piece is taken as sewn, as long as it is drawn, two to a seam: what stays
    open pays for sewing on sleeves. Either end of every band is taken as sewn to what it meets: a
    seam, the foot of a placket, the front beside a pocket. What sews both ends of a neckband to
    each other is cut for it, and has its tails. A pocket lining is sewn down along both sides and
    below.
    Stitches that meet stitches, each a `stitch` wide [mm], take what their method asks, on both
    sides of a garment, and where one was chosen a hand's length. Both edges of either strap over a
    shoulder are sewn with an end each, which has its tails.
    """
    sides = [one for piece in pieces for one in _sides(*piece)]
    parts = [longer(SEAM, added(sides))] if sides else []
    parts += _ends_of_bands(strips)
    across = [_met(join) for join in joins if join.kindred is Kindred.STITCHES]
    if across:
        parts.append(added(across) * Operand(stitch, Role.STITCH_WIDTH))
    tails = 8 if any(join.seam is Seam.STRAP for join in joins) else 0
    tails += sum(_times(join) for join in joins if join.method)
    return added([*parts, *([hands_long(tails)] if tails else [])])


def _sides(piece: Piece, times: int, gauge: Gauge, rows: Expression) -> Iterator[Expression]:
    """What is sewn up the sides of a piece each time that it is knitted: the quarters of a crown
    up six more, a lining along its foot and up its other side too [mm]."""
    high = rows_high(Term(rows, Role.ROWS), gauge)
    yield so_often(times, on_foot(high, piece.hem, gauge))
    if piece.quarters:
        quarter = rows_high(Operand(Fraction(piece.quarters.rows), Role.BED), gauge)
        yield so_often(times, plain(3) * quarter)
    if piece.key == LINING:
        yield so_often(times, high + stitches_wide(piece.stitches.term(Role.STITCHES), gauge))


def _ends_of_bands(strips: Sequence[Strip]) -> Iterator[Expression]:
    """What sews either end of every band to what it meets, or both to each other [mm]."""
    rings, times = ring_ends(strips), {s.plan.band.key: s.plan.edge_path.times for s in strips}
    for strip in strips:
        if strip.plan.band.key not in rings:
            yield so_often(strip.plan.edge_path.times, plain(2) * short_end(strip.plan).made)
    for key, one in rings.items():
        yield so_often(times[key], one.made + hands_long(2))


def _met(join: Join) -> Expression:
    """The stitches of one side of a join, so many times as long as its method takes [stitches]."""
    return so_often(_times(join), longer(_joining(join).yarn, join.sewn[0]))


def _joining(join: Join) -> Method:
    """How stitches that meet stitches are joined: grafted, unless a method was chosen."""
    return BIND_OFFS[join.method] if join.method else GRAFT


def _times(join: Join) -> int:
    """A join that names no side is made on both; one that a source declares as often as it says."""
    if join.seam is Seam.DECLARED:
        return join.copies
    return 1 if join.side else 2
