"""A blanket in panels of equal width, knitted one after another and sewn row to row."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.forms import Construction, FormKind
from ..catalogue.methods import SEWN
from ..core.branched import Branched
from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import NOTHING, Expression, Operand, Rounded, Sum, plain
from ..core.join_parts import JoinRole
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..core.piece_roles import PieceRole
from ..shape.garment import CannotShape, Cut, Garment, Join, Kindred
from ..shape.openings import Ending
from ..shape.piece import Piece
from ..shape.profile import Profile
from ..shape.roundings import CountKind, Roundable
from ..shape.seams import sewn_rows
from ..shape.tasks import Seam
from ..words.terms.join_names import join_name
from ..words.terms.piece_names import piece_name
from ..words.terms.waiting_names import upper_edge_of
from . import form_tasks
from .body_counts import SEAM, foot_rows
from .builder import Builder
from .lengths import Lengths, lengths, on_foot, rows_high, stitches_wide
from .straight import Counts, hem_rows_of, rows_of, stitches_of

ROUNDS: Roundable = {"panel cast_on": CountKind.REPEAT, "panel rows": CountKind.SINGLE,
                     "panel hem_rows": CountKind.ROWS}
MOST_PANELS = 40


def builder(kind: FormKind) -> Builder:
    """Return how a blanket is built."""
    return Builder(build, ROUNDS)


def build(cut: Cut) -> Garment:
    """Return the panels of a blanket, all alike, hemmed below where a hem is asked for.

    Every seam takes a stitch of both its panels; so that all panels are alike each has its
    share of the seams. Where needles are out of work the top is sewn off loosely, off waste yarn:
    a chain without yarn has no slack over the gaps (common practice, no source). Raises
    CannotShape for no whole number of panels.
    """
    panels = _panels(cut)
    many = Branched(Operand(Fraction(panels), Role.PANELS, place=cut.measures["panels"].place),
                    _panels_measure(cut))
    seams = plain(2 * SEAM) * (many - plain(1)) / many if panels > 1 else NOTHING
    stitches = stitches_of(cut, "panel cast_on", "blanket_width", seams, parts=many)
    hem, hem_rows, _ = hem_rows_of(cut, "panel")
    rows = rows_of(cut, "panel rows", "blanket_length", least=4, less=hem)
    side = Profile(rows.value)
    waits = cut.repeat is not None or (cut.chart is not None and cut.chart.leaves_out)
    piece = Piece(key="panel", title=piece_name(PieceRole.PANEL),
                  stitches=stitches, left=side, right=side, hem=hem,
                  ends=Ending.WASTE if waits else Ending.BIND_OFF, repeat=cut.repeat,
                  chart=cut.chart,
                  waits=(upper_edge_of(piece_name(PieceRole.PANEL)),) if waits else (),
                  bind_off_method=SEWN.name if waits else "")
    counts: Counts = (
        ("panel", "panels", Count(many, Unit.TIMES)),
        ("panel", "cast_on", stitches), ("panel", "rows", rows), *_repeats(piece, rows),
        *((("panel", "hem_rows", hem_rows),) if hem_rows else ()))
    return Garment(form=Construction.BLANKET, size=cut.size, pieces=(piece,), counts=counts,
                   joins=_joins(cut, piece, panels, rows), edges={},
                   tasks=form_tasks.blanket(panels),
                   lengths=_lengths(cut, piece, panels, rows), times={"panel": panels})


def _repeats(piece: Piece, rows: Count) -> Counts:
    """How often a chart is worked across and upwards, where there is one."""
    placed = piece.placed
    if placed is None:
        return ()
    high, edge, each = placed.chart.height, placed.chart.edge, placed.chart.stitches
    rest = piece.rows % high
    across = (piece.stitches.term(Role.NUMBER) - plain(2) * plain(edge)) \
        / Operand(Fraction(each), Role.STITCHES, place=placed.chart.place)
    up: Expression = Rounded(rows.term(Role.NUMBER) / Operand(
        Fraction(high), Role.ROWS, place=placed.chart.place), DOWN)
    if rest:
        up = Noted(up, Note.AND_MORE, (rest,))
    return (("panel", "repeats_across", Count(across, Unit.TIMES)),
            ("panel", "repeats_upwards", Count(up, Unit.TIMES)))


def _panels_measure(cut: Cut) -> Operand:
    """The measure that says how many panels there are."""
    measure = cut.measures["panels"]
    return Operand(measure.value, Role.PLAIN_MEASURE, "panels", measure.place)


def _panels(cut: Cut) -> int:
    count = cut.measures["panels"]
    if count.is_length or count.value.denominator != 1 or not 1 <= count.value <= MOST_PANELS:
        raise CannotShape(f"{count} panels", f"Give panels a whole number from 1 to {MOST_PANELS}.")
    return int(count.value)


def _sewn(cut: Cut, piece: Piece, rows: Count) -> Expression:
    """The rows of a panel's side, with those of the piece that its hem is as high as."""
    return Sum((sewn_rows(piece.right.rows, rows.made), *foot_rows(piece.hem, cut.gauge)))


def _joins(cut: Cut, piece: Piece, panels: int, rows: Count) -> tuple[Join, ...]:
    if panels == 1:
        return ()
    return (Join(title=join_name(JoinRole.PANELS), seam=Seam.PANELS, kindred=Kindred.ROWS,
                 sewn=(_sewn(cut, piece, rows), _sewn(cut, piece, rows))),)


def _lengths(cut: Cut, piece: Piece, panels: int, rows: Count) -> Lengths:
    g, many = cut.gauge, _panels_measure(cut)
    stitches: Expression = Branched(plain(panels), many) * piece.stitches.term(Role.STITCHES)
    if panels > 1:
        stitches -= Branched(Operand(Fraction(2 * SEAM * (panels - 1)), Role.SEAMS),
                             plain(2 * SEAM) * (many - plain(1)))
    return lengths(width=stitches_wide(stitches, g),
                   length=on_foot(rows_high(rows.term(Role.ROWS), g), piece.hem, g))
