"""A hat knitted flat: a hung hem for a brim, a straight side, a crown that is drawn up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from ..catalogue.forms import Construction, FormKind
from ..catalogue.methods import BY_HAND, WASTE_ON
from ..core.counted import Count
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionRole
from ..core.expression import Expression, plain
from ..core.join_parts import JoinRole, WaitRole
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..core.units import Length
from ..pattern.edges import EdgeShape, Offer
from ..shape.crowns import QUARTERS
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import waiting
from ..shape.garment import CannotShape, Cut, Garment, Join, Kindred
from ..shape.openings import Ending
from ..shape.piece import Piece
from ..shape.roundings import CountKind, Roundable
from ..shape.seams import seam_up, sewn_rows
from ..shape.tasks import Seam
from ..words.terms.join_names import join_name
from ..words.terms.piece_names import piece_name
from ..words.terms.waiting_names import crown_quarter, wait_name
from . import form_tasks
from .body_counts import SEAM, hem_of
from .builder import Builder
from .hat_crowns import HatCrown, crown_of, drawn_up, fits, fitted
from .lengths import Lengths, across, lengths, on_foot, rows_high
from .straight import (
    Counts,
    closed_by_one_seam,
    foot_gauge,
    rows_of,
    stitches_of,
)

ROUNDS: Roundable = {"hat cast_on": CountKind.REPEAT, "hat rows": CountKind.SINGLE,
                     "hat crown_rows": CountKind.SINGLE, "hat hem_rows": CountKind.ROWS}


def builder(kind: FormKind) -> Builder:
    """Return how a hat is built."""
    return Builder(build, ROUNDS)


def build(cut: Cut) -> Garment:
    """Return a hat of one piece, its crown drawn up, with one seam at the back.

    Raises CannotShape where it has too few stitches or rows.
    """
    cut = closed_by_one_seam(cut)
    stitches = fitted(cut, stitches_of(cut, "hat cast_on", "hat_width", 2 * SEAM,
                                       fits=fits(cut.crown)))
    hem, hem_rows = hem_of(cut, "hat")
    layers = 2 if cut.crown.both_ends else 1
    if hem and layers > 1:
        raise CannotShape("a hem below a hat with a crown at both ends",
                          "Leave the hem out, or both_ends.")
    rows = rows_of(cut, "hat rows", "hat_length", least=8, less=hem, times=layers)
    made = crown_of(cut, stitches, rows)
    side, top = made.side, made.top
    piece = Piece(key="hat", title=piece_name(PieceRole.HAT),
                  stitches=stitches, left=side, right=side, hem=hem,
                  gathers=top.gathers, closes=top.closes, tightens=top.tightens,
                  moved=cut.moved, ends=Ending.DRAWN_UP, waits=_waits(made), repeat=cut.repeat,
                  quarters=made.quarters,
                  cast_on_method=(WASTE_ON if cut.crown.both_ends else BY_HAND).name,
                  drawn_below=cut.crown.both_ends)
    counts: Counts = (
        ("hat", "cast_on", stitches), ("hat", "rows", rows), ("hat", "rows_to_crown", made.below),
        ("hat", "crown_rows", made.deep), *drawn_up(cut, piece),
        *((("hat", "hem_rows", hem_rows),) if hem_rows else ()))
    return Garment(form=Construction.HAT, size=cut.size, pieces=(piece,), counts=counts,
                   joins=tuple(_joins(piece, made, rows)), edges=_edges(cut, stitches),
                   tasks=form_tasks.hat(cut.length("turn_up"), double=cut.crown.both_ends,
                                       quarters=piece.quarters is not None,
                                       hem=Length(hem.depth(cut.gauge.row) if hem else
                                                  Fraction(0))),
                   lengths=_lengths(cut, piece, rows), times={},
                   sewn_below=frozenset(("hat",) * cut.crown.both_ends))


def _edges(cut: Cut, stitches: Count) -> dict[str, EdgePath]:
    """The brim, where it is no fold."""
    if cut.crown.both_ends:
        return {}
    edge = waiting(SectionRole.LOWER_EDGE, stitches.value, foot_gauge(cut), Offer.CAST_ON,
                   made=stitches.made)
    return {"brim": run_of("brim", PathName.BRIM, [edge],
                           span=PathSpan.SEAM_TO_SEAM, shape=EdgeShape.ROUND, seam=RingSeam.BACK)}


def _waits(made: HatCrown) -> tuple[str, ...]:
    """What its last stitches are called, of each quarter where it has quarters."""
    if made.quarters is None:
        return (wait_name(WaitRole.CROWN),)
    return tuple(crown_quarter(number + 1) for number in range(QUARTERS))


def _joins(piece: Piece, made: HatCrown, rows: Count) -> Iterator[Join]:
    """Row to row as the rows can be counted, those of a hem's outer layer or of a rib too."""
    if piece.quarters:
        deep = sewn_rows(piece.quarters.rows, made.deep.made)
        yield Join(title=join_name(JoinRole.QUARTERS), seam=Seam.QUARTERS, kindred=Kindred.ROWS,
                   sewn=(deep, deep))
    back = seam_up(Seam.BACK, "", (piece, piece.rows), (piece, piece.rows), counted=rows)
    yield replace(back, title=join_name(
        JoinRole.BACK_OF_DOUBLE_HAT if piece.drawn_below else JoinRole.BACK_OF_HAT))


def _lengths(cut: Cut, piece: Piece, rows: Count) -> Lengths:
    g, turned = cut.gauge, cut.measure("turn_up")
    length: Expression = on_foot(rows_high(rows.term(Role.ROWS), g), piece.hem, g)
    if cut.crown.both_ends:
        length = length / plain(2)
    return lengths(circumference=across(piece.stitches, g, seams=2),
                   depth=length - turned if turned.value else length, length=length)
