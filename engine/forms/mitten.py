"""Mittens knitted flat: a hand with one side seam, a small thumb sewn into a slit of that seam."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..catalogue.forms import Construction, FormKind
from ..core.counted import Count
from ..core.counts import Unit
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionRole
from ..core.expression import Operand, plain
from ..core.join_parts import JoinRole, SewnSide, WaitRole
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..fabric.gauge import Gauge, counted
from ..machine.records import dataclass
from ..pattern.edges import EdgeShape, Offer
from ..shape.bars import Bars
from ..shape.crowns import AFTER_DOTS, crown
from ..shape.edge_path import run_of
from ..shape.edging import waiting
from ..shape.garment import CannotShape, Cut, Garment, Join, Kindred
from ..shape.mark_roles import MarkRole
from ..shape.openings import Ending
from ..shape.piece import Piece
from ..shape.profile import Profile
from ..shape.roundings import CountKind, Roundable, rule
from ..shape.seams import rows_sewn
from ..shape.tasks import Seam
from ..words.terms.join_names import join_name, sewn_sides
from ..words.terms.part_names import part_name
from ..words.terms.piece_names import piece_name
from ..words.terms.waiting_names import wait_name
from . import form_tasks
from .body_counts import SEAM, hem_of
from .builder import Builder
from .lengths import Lengths, across, lengths, on_foot, rows_high, stitches_wide
from .straight import (
    Counts,
    closed_by_one_seam,
    foot_gauge,
    rows_of,
    stitches_of,
)

ROUNDS: Roundable = {
    "hand cast_on": CountKind.REPEAT, "hand rows_to_thumb": CountKind.SINGLE,
    "hand slit_rows": CountKind.SINGLE, "hand tip_rows": CountKind.SINGLE,
    "hand rows": CountKind.SINGLE, "thumb cast_on": CountKind.REPEAT,
    "thumb rows": CountKind.SINGLE, "hand hem_rows": CountKind.ROWS}
PAIR = 2  # hands, and whatever a hand has one of


@dataclass(frozen=True, slots=True, kw_only=True)
class ThumbSlit:
    """The part of the side seam left open for the thumb: its rows, and those below it."""

    below: Count
    rows: Count

    @property
    def above(self) -> int:
        """The row at which the seam closes again."""
        return self.below.value + self.rows.value


def builder(kind: FormKind) -> Builder:
    """Return how a pair of mittens is built."""
    return Builder(build, ROUNDS)


def build(cut: Cut) -> Garment:
    """Return a pair of mittens, both alike: the thumb lies in the side seam, for either hand.

    Raises CannotShape where hand or thumb have too few stitches or rows.
    """
    own = closed_by_one_seam(cut.of("thumb"))
    if own.chart and not cut.alike("hand", "thumb"):
        raise CannotShape(f'a thumb of a fabric with the chart "{own.chart.title}" of '
                          f"{own.chart.height} rows: thumbs are plain", "Use a plain fabric.",
                          at="piece_fabrics")
    thumb, thumb_rows = _thumb(replace(own, chart=None))
    cut = closed_by_one_seam(cut.of("hand"))
    hem, hem_rows = hem_of(cut, "hand")
    slit = ThumbSlit(below=rows_of(cut, "hand rows_to_thumb", "to_thumb", least=2, less=hem),
                     rows=_slit_rows(cut, thumb, own.gauge))
    stitches = stitches_of(cut, "hand cast_on", "mitten_width", 2 * SEAM)
    rows = rows_of(cut, "hand rows", "mitten_length", least=8, less=hem)
    tip = rows_of(cut, "hand tip_rows", "tip", least=2)
    top = crown(rows.value, tip.value)
    if top.first <= slit.above:
        raise CannotShape(f"a thumb's slit up to row {slit.above} in a hand whose tip begins at "
                          f"row {top.first}", "Make hand_length longer, or to_thumb or tip less.")
    side = Profile(rows.value)
    hand = Piece(key="hand", title=piece_name(PieceRole.HAND),
                 stitches=stitches, left=side, right=side, hem=hem,
                 marks=(slit.below.value, slit.above),
                 mark_roles=(MarkRole.SLIT_BEGINS, MarkRole.SLIT_ENDS),
                 repeat=cut.repeat, ends=Ending.DRAWN_UP,
                 gathers=(top.gather,), tightens=top.tightens, waits=("fingertips",))
    counts: Counts = (
        ("hand", "cast_on", stitches), ("hand", "rows_to_thumb", slit.below),
        ("hand", "slit_rows", slit.rows), ("hand", "tip_rows", tip), ("hand", "rows", rows),
        ("thumb", "cast_on", thumb.stitches), ("thumb", "rows", thumb_rows),
        *((("hand", "hem_rows", hem_rows),) if hem_rows else ()))
    return Garment(form=Construction.MITTEN, size=cut.size, pieces=(hand, thumb), counts=counts,
                   joins=_joins(cut, (hand, rows), (thumb, thumb_rows), slit),
                   edges={"cuff": run_of("cuff", PathName.CUFF,
                                         [waiting(SectionRole.LOWER_EDGE, stitches.value,
                                                  foot_gauge(cut), Offer.CAST_ON,
                                                  made=stitches.made)],
                                         span=PathSpan.SEAM_TO_SEAM, shape=EdgeShape.ROUND,
                                         seam=RingSeam.SIDE,
                                         times=PAIR)},
                   tasks=form_tasks.mitten(),
                   lengths=_lengths(cut, (hand, rows), (thumb, thumb_rows)),
                   times={"hand": PAIR, "thumb": PAIR},
                   sewn_below=frozenset(("thumb",)))


def _thumb(cut: Cut) -> tuple[Piece, Count]:
    """The thumb, and the count of its rows."""
    stitches = stitches_of(cut, "thumb cast_on", "thumb_width", 2 * SEAM)
    rows = rows_of(cut, "thumb rows", "thumb_length", least=4)
    side = Profile(rows.value)
    piece = Piece(key="thumb", title=piece_name(PieceRole.THUMB),
                  stitches=stitches, left=side, right=side,
                  gathers=(rows.value - AFTER_DOTS,), ends=Ending.DRAWN_UP,
                  waits=(wait_name(WaitRole.THUMB_TIP),),
                  repeat=cut.repeat)
    return piece, rows


def _slit_rows(cut: Cut, thumb: Piece, own: Gauge) -> Count:
    """Half as many rows as are as long as the thumb's lower edge at its `own` gauge, for each side
    of the slit."""
    g = cut.gauge
    around = thumb.stitches.term(Role.STITCHES, part_name(PartRole.OF_THUMB)) \
        - Operand(Fraction(2 * SEAM), Role.SEAMS)
    wide = around * Operand(own.stitch, Role.MILLIMETRES)
    made = counted(wide / plain(2) / Operand(g.row, Role.ROW_HEIGHT), Unit.ROWS, g.row,
                   rule(cut, "hand slit_rows", CountKind.SINGLE))
    if made.value < 2:
        raise CannotShape(f"a slit of {made} for the thumb", "Make thumb_width wider.")
    return made


def _joins(cut: Cut, hand: tuple[Piece, Count], thumb: tuple[Piece, Count], slit: ThumbSlit
           ) -> tuple[Join, ...]:
    """Both seams row to row, the hand's with its cuff and without the slit; the slit's two sides
    as long as the thumb's lower edge. Pieces come with the counts of their rows."""
    (side, other), sewn = ([rows_sewn(piece, edge.rows, rows) for edge in (piece.left, piece.right)]
                           for piece, rows in (hand, thumb))
    left_open = slit.rows.term(Role.ROWS, part_name(PartRole.OF_SLIT))
    seams = (Join(title=join_name(JoinRole.HAND_SIDE), seam=Seam.SIDE,
                  kindred=Kindred.ROWS, sewn=(side - left_open, other - left_open)),
             Join(title=join_name(JoinRole.THUMB), seam=Seam.THUMB, kindred=Kindred.ROWS,
                  sewn=(sewn[0], sewn[1])))
    stitches = thumb[0].stitches
    around = stitches.term(Role.STITCHES) - Operand(Fraction(2 * SEAM), Role.SEAMS)
    return (*seams, Join(title=join_name(JoinRole.THUMB_SLIT), seam=Seam.SLIT,
                         kindred=Kindred.LENGTH,
                         sewn=(plain(2) * rows_high(slit.rows.term(Role.ROWS), cut.gauge),
                               stitches_wide(around, cut.of("thumb").gauge)),
                         tolerance=cut.gauge.row, sides=sewn_sides(SewnSide.SLIT, SewnSide.THUMB),
                         bars=Bars(rows=2 * slit.rows.value, row_edge="slit",
                                   stitches=stitches.value - 2 * SEAM,
                                   stitch_edge="thumb")))


def _lengths(cut: Cut, hand: tuple[Piece, Count], thumb: tuple[Piece, Count]) -> Lengths:
    """Finished measures; pieces come with the counts of their rows."""
    g, own = cut.gauge, cut.of("thumb").gauge
    return lengths(hand=across(hand[0].stitches, g, seams=2),
                   length=on_foot(rows_high(hand[1].term(Role.ROWS), g), hand[0].hem, g),
                   thumb=across(thumb[0].stitches, own, seams=2),
                   thumb_length=rows_high(thumb[1].term(Role.ROWS), own))
