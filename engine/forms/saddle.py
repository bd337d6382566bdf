"""A saddle raglan: the lines of a raglan up to the shoulder, a strap of the sleeve over it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from ..catalogue.forms import Construction, FormKind
from ..core.counted import Count
from ..core.counts import Unit
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionDetail, SectionRole, Worn
from ..core.expression import Expression, Operand, plain, plain_of
from ..core.join_parts import JoinRole, SewnSide, WaitRole
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..pattern.edges import EdgeShape
from ..pattern.slope_specs import Slope
from ..shape.bars import Bars
from ..shape.counted_edge import NECK, slopes_named
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Zone, falling, lying, shaped, waiting
from ..shape.garment import CannotShape, Cut, Garment, Join, Kindred
from ..shape.openings import Ending, Opening
from ..shape.outline import last_row
from ..shape.piece import FRONTS, Piece
from ..shape.profile import Profile, in_order, shifted
from ..shape.roundings import CountKind
from ..shape.seams import sewn_stitches, side_seams, sleeve_seam
from ..shape.slopes import slope_request
from ..shape.tasks import Seam
from ..shape.widths import widths_up
from ..shape.worn import worn
from ..words.terms.join_names import join_name, sewn_sides, under_strap_name
from ..words.terms.piece_names import piece_name
from ..words.terms.waiting_names import front_centre, half_shoulder, shoulder_waits, wait_name
from . import form_tasks
from .body import shoulders_worn
from .body_counts import (
    FRONT,
    SEAM,
    between_seams,
    front_width,
    underarm_row,
)
from .builder import Builder
from .lengths import Lengths, across, lengths, on_foot, rows_high, stitches_wide
from .neck_workings import workings
from .necklines import centre_made, front_neck, inner_edge, side_made, v_counts
from .opened import both_fronts, opened_edges
from .raglan_depth import NeckDepth, neck_depth
from .raglan_lines import (
    LINES,
    arm_counts,
    body_high,
    raglan_high,
    raglan_seams,
    seams_apart,
    top_rows,
    underarm_apart,
    underarm_seam,
)
from .saddle_lines import SaddleLines, lines
from .sides import ROUNDS, girths_of

BACK_NECK = wait_name(WaitRole.BACK_NECK)
STRAP = wait_name(WaitRole.STRAP)


def builder(kind: FormKind) -> Builder:
    """Return how a saddle raglan is built."""
    return Builder(partial(build, opens=kind.opens), {
        **LINES, **ROUNDS, "back shoulder": CountKind.SINGLE, "sleeve strap": CountKind.WIDTH,
        "sleeve strap_rows": CountKind.SINGLE, **(FRONT if kind.opens else {})})


def build(cut: Cut, *, opens: bool) -> Garment:
    """Return a saddle raglan pullover, or a cardigan that `opens` at the front.

    Raglan lines of body and sleeve are equal in rows, or in length where they are of two fabrics;
    the strap is as long as the shoulder. Raises CannotShape where no whole numbers fit.
    """
    own = lines(cut.of("back"))
    behind = Piece(key="back", title=piece_name(PieceRole.BACK),
                   stitches=own.sides.cast_on, hem=own.hem,
                   moved=cut.moved, levels=own.sides.levels, left=own.side(1), right=own.side(0),
                   ends=Ending.WASTE, waits=(shoulder_waits("back", "right"), BACK_NECK,
                                             shoulder_waits("back", "left")),
                   shares=(own.shoulder.value, own.neck.value, own.shoulder.value),
                   slopes=own.body_slopes)
    fronts = both_fronts(_half_front(own), half_shoulder("left")) if opens else (_front(own),)
    rise = own.arm.rows.value
    left, right = (Profile(rise + edge.rows, in_order(own.arm.increases,
                                                      shifted(edge.changes, rise)))
                   for edge in (own.sleeve(1), own.sleeve(0)))
    sleeve = Piece(key="sleeve", title=piece_name(PieceRole.SLEEVE),
                   stitches=own.arm.cuff, hem=own.arm.hem,
                   moved=cut.moved, left=left, right=right, ends=Ending.WASTE,
                   waits=(STRAP,), in_seams=(STRAP,),
                   slopes=own.sleeve_slopes)
    counts, pieces = _counts(own, behind, fronts), (behind, *fronts, sleeve)
    return Garment(form=Construction.SADDLE_RAGLAN, size=cut.size, pieces=pieces, counts=counts,
                   workings=workings(counts, pieces, _of_neck(own, fronts)),
                   joins=_joins(own, behind, fronts, sleeve),
                   edges=_edges(own, fronts),
                   tasks=form_tasks.saddle(own.over.value * own.arm_cut.gauge.row, opens=opens,
                                          apart=own.apart),
                   lengths=_lengths(own, fronts), times={"sleeve": 2})


def _neck_up(own: SaddleLines, depth: NeckDepth) -> Expression:
    """The rows of a front below its neck, an even number."""
    whole = own.below.term(Role.ROWS) + own.line.term(Role.ROWS)
    row = whole - depth.in_line
    if row.value <= 0:
        raise CannotShape(f"a neck {depth.count.value} rows deep on a front of {whole.value}",
                          "Make front_neck less deep or body_length longer.")
    return row


def _half_front(own: SaddleLines) -> Piece:
    """The right front of a cardigan, its front edge at the left."""
    cut = own.cut
    width, line = front_width(cut, own.sides.flare_made), own.side(0)
    neck = width.value + line.net - own.shoulder.value
    if neck < 2:
        raise CannotShape(f"{neck} stitches for the neck of a front of {width.value}",
                          "Widen neck_width or the chest.")
    depth = neck_depth(own, whole=False)
    below, rows = _neck_up(own, depth), depth.in_line
    row, height = int(below.value), int(rows.value)
    inner = front_neck(row + 1, rows - plain(1),
                       plain_of(neck, _going(own, width)), cut.neck,
                       slope_request(cut, Slope.V_NECK), cut.conventions.front_neck)
    return Piece(key="right_front", title=piece_name(PieceRole.RIGHT_FRONT), stitches=width,
                 left=Profile(row + height, inner.changes), right=line,
                 levels=own.sides.levels, hem=own.hem, moved=cut.moved, ends=Ending.WASTE,
                 waits=(half_shoulder("right"),),
                 slopes=(*own.body_slopes, *inner.slopes(below + plain(1))))


def _going(own: SaddleLines, width: Count) -> Expression:
    """What sides, raglan line and shoulder leave of the `width` of half a front for its neck."""
    top = own.neck.term(Role.STITCHES) + plain(2) * own.shoulder.term(Role.STITCHES)
    line = (own.width.term(Role.STITCHES) - top) / plain(2)
    left = width.term(Role.STITCHES) - line - own.shoulder.term(Role.STITCHES)
    return left - own.sides.flare_made if own.sides.flare else left


def _front(own: SaddleLines) -> Piece:
    """A front in one piece, its neck opened below the end of the raglan lines."""
    kind = own.cut.neck
    depth = neck_depth(own, whole=True)
    below, rows = _neck_up(own, depth), depth.in_line
    row, height = int(below.value), int(rows.value)
    shape, wide = own.cut.conventions.front_neck, own.neck.term(Role.STITCHES)
    centre_ = _centre(own)
    centre = int(centre_.value)
    near, far = (own.side(parity).changes for parity in (0, 1))
    inner = inner_edge(rows, side_made(wide, centre_), kind,
                       slope_request(own.cut, Slope.V_NECK), shape)
    return Piece(
        key="front", title=piece_name(PieceRole.FRONT),
        stitches=own.sides.cast_on, hem=own.hem, moved=own.cut.moved,
        levels=own.sides.levels,
        left=Profile(row, tuple(c for c in far if c.row < row)),
        right=Profile(row, tuple(c for c in near if c.row < row)), ends=Ending.WASTE,
        opening=Opening(row=row, centre=centre, centre_ends=Ending.WASTE,
                        outer=Profile(height, shifted((c for c in near if c.row >= row), -row)),
                        inner=Profile(height, inner.changes)),
        waits=tuple(f"front, {worn}" for worn in shoulders_worn("front")),
        halves_worn=shoulders_worn("front"),
        centre_waits=front_centre() if centre else "",
        slopes=(*own.body_slopes, *inner.slopes(below)))


def _centre(own: SaddleLines) -> Expression:
    """The stitches at the centre of the neck of a front in one piece."""
    return centre_made(own.neck.term(Role.STITCHES), neck_depth(own, whole=True).in_line,
                       own.cut.neck, own.cut.conventions.front_neck)


def _of_neck(own: SaddleLines, fronts: tuple[Piece, ...]) -> Iterator[tuple[str, str, Count]]:
    """The stitches at the centre of the neck of a front in one piece, or of the neck of one of two.
    """
    key, wide = fronts[0].key, fronts[0].stitches
    yield (key, "neck_centre", Count(_centre(own), Unit.STITCHES)) if len(fronts) == 1 else \
        (key, "neck_stitches", Count(_going(own, wide), Unit.STITCHES))


def _counts(own: SaddleLines, behind: Piece, fronts: tuple[Piece, ...]
            ) -> tuple[tuple[str, str, Count], ...]:
    counts = [("back", "cast_on", own.sides.cast_on),
              *(("back", name, count) for name, count in own.sides.counts),
              ("back", "neck_stitches", own.neck),
              ("back", "shoulder", own.shoulder), ("back", "underarm", own.underarm),
              ("back", "rows_to_raglan", own.below), ("back", "raglan_rows", own.line),
              ("sleeve", "cast_on", own.arm.cuff), ("sleeve", "upper_arm", own.arm.top),
              ("sleeve", "rows_to_raglan", own.arm.rows),
              *arm_counts(own.arm_line, own.arm_underarm, apart=own.apart),
              ("sleeve", "strap", own.strap), ("sleeve", "strap_rows", own.over)]
    counts.append(("back", "top_rows", top_rows(behind)))
    if own.hem_rows:
        counts.append(("back", "hem_rows", own.hem_rows))
    if len(fronts) == 2:
        counts.append(("right_front", "cast_on", fronts[0].stitches))
    counts.append((fronts[0].key, "neck_rows", neck_depth(own, whole=len(fronts) == 1).count))
    start = fronts[0].left.rows - int(neck_depth(own, whole=False).in_line.value) + 1 \
        if len(fronts) == 2 else 0
    return (*counts, *own.own_slopes, *v_counts(own.cut, fronts[0], start))


def _joins(own: SaddleLines, behind: Piece, fronts: tuple[Piece, ...], sleeve: Piece
           ) -> tuple[Join, ...]:
    """Raglan lines row to row, from the pieces; straps to shoulders by length."""
    up, g, strap = own.below.value, own.cut.gauge, own.arm_cut.gauge
    arm = own.arm.rows.value
    joins: list[Join] = []
    for each in (behind, *fronts):
        rows = each.rows - up, sleeve.rows - arm - own.over.value
        joins += seams_apart(own.cut, each, sleeve, rows, (own.line, own.arm_line)) \
            if own.apart else raglan_seams((each, up), (sleeve, arm), rows, own.line)
    for each in fronts:
        joins += side_seams((behind, underarm_row(behind)), (each, underarm_row(each)),
                            counted=own.below)
        joins.append(Join(title=under_strap_name(each.title), seam=Seam.STRAP,
                          kindred=Kindred.STITCHES, sewn=(own.shoulder.term(Role.STITCHES),
                                                          sewn_stitches(_shoulder_of(each),
                                                                        own.shoulder.made)),
                          side=FRONTS[each.key]))
    joins += (underarm_apart(own.cut, (behind, own.underarm), (sleeve, own.arm_underarm))
              if own.apart else underarm_seam(own.underarm), sleeve_seam(sleeve, own.arm.rows))
    return (*joins, Join(title=join_name(JoinRole.STRAP), seam=Seam.STRAP, kindred=Kindred.LENGTH,
                         sewn=(stitches_wide(own.shoulder.term(Role.STITCHES) - Operand(
                             Fraction(SEAM), Role.SEAM), g), rows_high(
                                 own.over.term(Role.ROWS), strap)),
                         tolerance=strap.row, sides=sewn_sides(SewnSide.SHOULDER, SewnSide.STRAP),
                         bars=Bars(rows=own.over.value, row_edge="strap",
                                   stitches=own.shoulder.value - SEAM, stitch_edge="shoulder")))


def _shoulder_of(piece: Piece) -> int:
    """Stitches of a front that wait for the strap."""
    if piece.opening is None:
        return piece.top
    return piece.half + piece.opening.inner.net + piece.opening.outer.net


def _edges(own: SaddleLines, fronts: tuple[Piece, ...]) -> dict[str, EdgePath]:
    g = own.cut.gauge
    strap, back = lying(Zone.BACK, (
        waiting(SectionRole.STRAP, own.strap.value - 2 * SEAM, own.arm_cut.gauge,
                waits=STRAP, seams=True, made=between_seams(own.strap)),
        waiting(SectionRole.BACK_NECK, own.neck.value, g, centre_back=True, waits=BACK_NECK,
                made=own.neck.made)))
    depth = neck_depth(own, whole=len(fronts) == 1).count
    if len(fronts) == 2:
        return opened_edges(own.cut, fronts[0], [strap, back, strap], depth,
                            own.below.term(Role.ROWS) + own.line.term(Role.ROWS))
    opening = fronts[0].opening
    assert opening is not None
    side = shaped(SectionRole.FRONT_NECK, opening.inner.drawn(last_row(fronts[0])), g,
                  widths_up(fronts[0]), details=(SectionDetail.SIDE,), counted=depth,
                  slopes=slopes_named(fronts[0], NECK))
    centre = waiting(SectionRole.FRONT_NECK, opening.centre, g, waits=front_centre(),
                     made=_centre(own)) if opening.centre else None
    around = worn([strap, falling(side), centre, side, strap], Worn.LEFT, Worn.RIGHT)
    return {"neck": run_of("neck", PathName.NECK, [*around, back], shape=EdgeShape.ROUND,
                           span=PathSpan.ROUND_FROM_LEFT_STRAP,
                           seam=RingSeam.LEFT_STRAP)}


def _lengths(own: SaddleLines, fronts: tuple[Piece, ...]) -> Lengths:
    g = own.cut.gauge
    strap = across(own.strap, own.arm_cut.gauge, seams=2, of="strap") / plain(2)
    around = girths_of(own.cut, own.sides, tuple(each.stitches for each in fronts))
    return {**around, **lengths(
        length=on_foot(body_high(own.below, own.line, g), own.hem, g) + strap,
        raglan_depth=raglan_high(own.line, g),
        upper_arm=across(own.arm.top, own.arm_cut.gauge, seams=2))}
