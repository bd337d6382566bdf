"""A hat knitted flat: a hung hem for a brim, a straight side, a crown gathered and drawn up."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.forms import Construction
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Noted, Operand, plain
from ..core.operands import Note, Role
from ..pattern.edges import Offer, Shape
from ..shape.crowns import after_gathering, crown
from ..shape.edging import run_of, waiting
from ..shape.garment import CannotShape, Cut, Garment, Join, seam_up
from ..shape.piece import Ending, Piece
from ..shape.profile import Profile
from ..shape.roundings import Kind, Roundable
from ..shape.tasks import Seam
from . import finishing
from .lengths import Lengths, across, lengths, on_foot, rows_high
from .measured import SEAM, hem_of
from .straight import (
    Counts,
    closed_by_one_seam,
    foot_gauge,
    rows_of,
    stitches_of,
)

ROUNDS: Roundable = {"hat cast_on": Kind.REPEAT, "hat rows": Kind.SINGLE,
                     "hat crown_rows": Kind.SINGLE, "hat hem_rows": Kind.ROWS}


def build(cut: Cut) -> Garment:
    """Return a hat of one piece, gathered and drawn up, with one seam at the back.

    Raises CannotShape where it has too few stitches or rows.
    """
    cut = closed_by_one_seam(cut)
    stitches = stitches_of(cut, "hat cast_on", "hat_width", 2 * SEAM)
    hem, hem_rows = hem_of(cut, "hat")
    rows = rows_of(cut, "hat rows", "hat_length", least=8, less=hem)
    deep = rows_of(cut, "hat crown_rows", "crown", least=0)
    top, last = crown(rows.value, deep.value), after_gathering(deep.value)
    if top.first < 2:
        raise CannotShape(f"a crown of {deep} in a hat of {rows}",
                          "Make the hat longer, or its crown less deep.")
    side = Profile(rows.value)
    piece = Piece(key="hat", title="Hat", stitches=stitches, left=side, right=side, hem=hem,
                  gathers=(top.gather,), tightens=top.tightens, ends=Ending.DRAWN_UP,
                  waits=("crown",), repeat=cut.repeat)
    counts: Counts = (
        ("hat", "cast_on", stitches), ("hat", "rows", rows),
        ("hat", "rows_to_crown", Count(
            rows.term(Role.NUMBER) - deep.term(Role.NUMBER) - plain(last), Unit.ROWS)),
        ("hat", "crown_rows", deep),
        ("hat", "drawn_up", Count(
            Noted(Operand(Fraction(piece.drawn), Role.STITCHES), Note.EVERY_SECOND,
                  (str(stitches.value), str(stitches.value - piece.drawn),
                   Unit.STITCHES.of(piece.drawn))), Unit.STITCHES)),
        *((("hat", "hem_rows", hem_rows),) if hem_rows else ()))
    return Garment(form=Construction.HAT, size=cut.size, pieces=(piece,), counts=counts,
                   joins=(_back_seam(piece),),
                   edges={"brim": run_of("brim", "Brim",
                                         [waiting("lower edge", stitches.value, foot_gauge(cut),
                                                  Offer.CAST_ON)],
                                         detail="from seam to seam", shape=Shape.ROUND,
                                         closes="back seam")},
                   tasks=finishing.hat(cut.length("turn_up")),
                   lengths=_lengths(cut, piece, rows), times={})


def _back_seam(piece: Piece) -> Join:
    """Row to row as the rows can be counted, those of a hem's outer layer or of a rib too."""
    return seam_up(Seam.BACK, "back seam", (piece, piece.left.rows), (piece, piece.right.rows))


def _lengths(cut: Cut, piece: Piece, rows: Count) -> Lengths:
    g, turned = cut.gauge, cut.measure("turn_up")
    length = on_foot(rows_high(rows.term(Role.ROWS), g), piece.hem, g)
    return lengths(circumference=across(piece.stitches, g, seams=2),
                   depth=length - turned if turned.value else length, length=length)
