"""A pullover whose body is knitted sideways, from side seam to side seam, with a boat neck.

The outline is a straight body's, turned: its length is counted in stitches, its width in rows.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from ..catalogue.forms import Construction, FormKind
from ..core.branched import as_even_as
from ..core.counted import Count
from ..core.counts import EVEN, NEAREST, ODD, Rounding, Unit
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionDetail, SectionRole
from ..core.expression import Operand, plain
from ..core.join_parts import JoinRole
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..fabric.gauge import Gauge, counted
from ..pattern.edges import EdgeShape
from ..shape.edge_counts import rows_of_edge
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Zone, straight
from ..shape.garment import CannotShape, Cut, Garment, Join, Kindred
from ..shape.mark_roles import MarkRole
from ..shape.piece import Piece
from ..shape.profile import Profile
from ..shape.roundings import CountKind, Roundable, rule
from ..shape.seams import sewn_rows, sleeve_seam
from ..shape.tasks import Seam
from ..words.terms.join_names import join_name
from ..words.terms.part_names import part_name
from ..words.terms.piece_names import piece_name
from . import form_tasks
from .body_counts import SEAM, hem_of
from .builder import Builder
from .lengths import Lengths, across, lengths, rows_high
from .sleeve import ARM, Tube, straight_sleeve, tube
from .straight import Counts, rows_of, stitches_of

ROUNDS: Roundable = {"back cast_on": CountKind.REPEAT, "back rows": CountKind.SINGLE,
                     "back armhole_stitches": CountKind.SINGLE, **ARM,
                     "sleeve rows_to_underarm": CountKind.ROWS, "sleeve hem_rows": CountKind.ROWS}
LEAST = 4  # rows of a shoulder, and stitches of a side seam; common practice, no source


def builder(kind: FormKind) -> Builder:
    """Return how a garment from side to side is built."""
    return Builder(build, ROUNDS)


def build(cut: Cut) -> Garment:
    """Return back and front, which are alike, and two straight sleeves.

    Cast-on and bound-off edge are the side seams, one side the shoulders with the neck open
    between its marks, the other the lower edge. A hem is the sleeves' alone: below the body its
    rows would run the other way. Raises CannotShape, with figures.
    """
    stitches = stitches_of(cut, "back cast_on", "body_length", SEAM)
    rows = rows_of(cut, "back rows", "chest_width", least=4 * LEAST)
    neck = _neck_rows(cut, rows)
    shoulder = Count((rows.term(Role.NUMBER) - neck.term(Role.NUMBER)) / plain(2), Unit.ROWS)
    armhole = _armhole(cut, stitches)
    arm, hem_rows, sleeve_join = _sleeve(cut, armhole)
    back, front = (_side(key, stitches, rows, shoulder.value) for key in ("back", "front"))
    counts: Counts = (
        ("back", "cast_on", stitches), ("back", "rows", rows),
        ("back", "neck_opening_rows", neck), ("back", "shoulder_rows", shoulder),
        ("back", "armhole_stitches", armhole), ("sleeve", "cast_on", arm.cuff),
        ("sleeve", "upper_arm", arm.top), ("sleeve", "rows_to_underarm", arm.rows),
        *arm.own,
        *((("sleeve", "hem_rows", hem_rows),) if hem_rows else ()))
    sleeve = straight_sleeve(arm)
    return Garment(form=Construction.SIDEWAYS, size=cut.size,
                   pieces=(back, front, sleeve), counts=counts,
                   joins=(*_joins(back, front, armhole, shoulder), sleeve_join,
                          sleeve_seam(sleeve, arm.rows)),
                   edges=_edges(cut, rows, neck), tasks=form_tasks.sideways(armhole.value),
                   lengths=_lengths(cut.gauge, stitches, rows, neck, armhole), times={"sleeve": 2},
                   sewn_below=frozenset(("back", "front")))


def _neck_rows(cut: Cut, rows: Count) -> Count:
    """The rows between the marks: as many shoulder rows on either side, at least LEAST of them."""
    g = cut.gauge
    made = counted(cut.measure("neck_width") / Operand(g.row, Role.ROW_HEIGHT), Unit.ROWS, g.row,
                   NEAREST.among(_same(rows)) or NEAREST)
    if not LEAST <= made.value <= rows.value - 2 * LEAST:
        raise CannotShape(f"a neck of {made} in a body of {rows}",
                          "Widen the chest, or change neck_width.")
    return Count(as_even_as(made.made, rows.made), made.unit)


def _same(rows: Count) -> Rounding:
    """Even where the body's rows are, else odd: both shoulders are alike."""
    return ODD if rows.value % 2 else EVEN


def _armhole(cut: Cut, stitches: Count) -> Count:
    """The stitches of each armhole, from the shoulder's seam down, on the side seam's edge."""
    g = cut.gauge
    made = counted(cut.measure("armhole") / Operand(g.stitch, Role.STITCH_WIDTH), Unit.STITCHES,
                   g.stitch, rule(cut, "back armhole_stitches", CountKind.SINGLE))
    if not LEAST <= made.value <= stitches.value - SEAM - LEAST:
        raise CannotShape(f"an armhole of {made} in a body {stitches} long",
                          "Lengthen the body, or change armhole.")
    return made


def _sleeve(cut: Cut, armhole: Count) -> tuple[Tube, Count | None, Join]:
    """A straight sleeve as wide as both armholes are high: stitch to stitch with them."""
    hem, hem_rows = hem_of(cut, "sleeve")
    both = plain(2) * armhole.term(Role.STITCHES, part_name(PartRole.OF_ARMHOLES))
    top = partial(counted, both + Operand(Fraction(2 * SEAM), Role.SEAMS), Unit.STITCHES,
                  cut.gauge.stitch)
    arm = tube(cut, hem, "rows_to_underarm", top=top)
    join = Join(title=join_name(JoinRole.SLEEVE_TOP), seam=Seam.ARMHOLE, kindred=Kindred.STITCHES,
                sewn=(both, arm.top.term(Role.STITCHES) - Operand(Fraction(2 * SEAM), Role.SEAMS)),
                tolerance=Fraction(1))
    return arm, hem_rows, join


def _side(key: str, stitches: Count, rows: Count, shoulder: int) -> Piece:
    side = Profile(rows.value)
    return Piece(key=key, title=piece_name(PieceRole(key)),
                 stitches=stitches, left=side, right=side,
                 marks=(shoulder, rows.value - shoulder), marks_left=False,
                 mark_roles=(MarkRole.NECK_BEGINS, MarkRole.NECK_ENDS))


def _joins(back: Piece, front: Piece, armhole: Count, shoulder: Count) -> tuple[Join, ...]:
    below = [p.stitches.term(Role.STITCHES) - Operand(Fraction(SEAM), Role.SEAM)
             - armhole.term(Role.STITCHES, part_name(PartRole.OF_ARMHOLE)) for p in (back, front)]
    return (Join(title=join_name(JoinRole.SIDE), seam=Seam.SIDE,
                 kindred=Kindred.STITCHES, sewn=(below[0], below[1])),
            Join(title=join_name(JoinRole.SHOULDER), seam=Seam.SHOULDER, kindred=Kindred.ROWS,
                 sewn=(shoulder.term(Role.ROWS), sewn_rows(front.rows - front.marks[1],
                                                            shoulder.made))))


def _edges(cut: Cut, rows: Count, neck: Count) -> dict[str, EdgePath]:
    """Both are hung wrong side towards the knitter, the open left seam at the left end. The front
    comes first at the neck; the back at the hem, where the garment hangs upside down."""
    g = cut.gauge
    of_neck, of_side = rows_of_edge(neck.value, neck), rows_of_edge(rows.value, rows)
    front_neck = straight(SectionRole.FRONT_NECK, neck.value, g.row, made=of_neck)
    back_neck = straight(SectionRole.BACK_NECK, neck.value, g.row, made=of_neck)
    back, front = (straight(role, rows.value, g.row, details=(SectionDetail.LOWER,), made=of_side)
                   for role in (SectionRole.BACK, SectionRole.FRONT))
    return {"neck": run_of("neck", PathName.NECK, [front_neck, replace(back_neck, zone=Zone.BACK)],
                           span=PathSpan.ROUND_FROM_LEFT_SHOULDER, shape=EdgeShape.ROUND,
                           seam=RingSeam.LEFT_SHOULDER),
            "hem": run_of("hem", PathName.HEM, [replace(back, zone=Zone.BACK), front],
                          span=PathSpan.ROUND_FROM_LEFT_SIDE, shape=EdgeShape.ROUND,
                          seam=RingSeam.LEFT_SIDE)}


def _lengths(g: Gauge, stitches: Count, rows: Count, neck: Count, armhole: Count) -> Lengths:
    return lengths(chest=rows_high(plain(2) * rows.term(Role.ROWS), g),
                   length=across(stitches, g, seams=1),
                   armhole_depth=across(armhole, g), neck=rows_high(neck.term(Role.ROWS), g))
