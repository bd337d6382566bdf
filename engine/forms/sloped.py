"""Raglan garments: body and sleeves narrow together, row for row, to the neck."""

from __future__ import annotations

from functools import partial

from ..catalogue.forms import Construction, FormKind
from ..core.counted import Count
from ..core.counts import Unit
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionDetail, SectionRole, Worn
from ..core.expression import Expression, plain
from ..core.join_parts import WaitRole
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..pattern.edges import EdgeShape
from ..pattern.model import Neck
from ..shape.counted_edge import NECK, slopes_named
from ..shape.edge_path import EdgePath, point_of, run_of
from ..shape.edging import Zone, falling, lying, shaped, waiting
from ..shape.garment import CannotShape, Cut, Garment, Join
from ..shape.openings import Ending, Opening
from ..shape.outline import last_row
from ..shape.piece import Piece
from ..shape.profile import Change, Profile, in_order, shifted
from ..shape.raglan import RaglanSeam
from ..shape.roundings import CountKind
from ..shape.seams import side_seams, sleeve_seam
from ..shape.step_sizes import CountedSlope
from ..shape.widths import widths_up
from ..shape.worn import worn
from ..words.terms.piece_names import piece_name
from ..words.terms.waiting_names import front_centre, wait_name
from . import form_tasks
from .body_counts import FRONT, SEAM, between_seams, front_width, underarm_row
from .builder import Builder
from .lengths import Lengths, across, lengths, on_foot
from .neck_workings import workings
from .necklines import v_counts
from .opened import both_fronts, opened_edges
from .placket import Slit, slit_of
from .placket import edges as placket_edges
from .raglan_depth import NeckDepth, below_line
from .raglan_lines import (
    LINES,
    RaglanLines,
    arm_counts,
    body_high,
    lines,
    raglan_high,
    raglan_seams,
    seams_apart,
    top_rows,
    underarm_apart,
    underarm_seam,
)
from .raglan_necks import centre_counts, half_neck, slit_neck, whole_neck
from .sides import ROUNDS, girths_of

BACK_NECK, SLEEVE_TOP = wait_name(WaitRole.BACK_NECK), wait_name(WaitRole.SLEEVE_TOP)


def builder(kind: FormKind) -> Builder:
    """Return how a raglan is built."""
    return Builder(partial(build, opens=kind.opens), {
        **LINES, **ROUNDS, "sleeve top": CountKind.WIDTH, **(FRONT if kind.opens else {})})


def build(cut: Cut, *, opens: bool) -> Garment:
    """Return a raglan pullover, or a cardigan that `opens` at the front.

    Body and sleeve raglan lines are equal in rows. Raises CannotShape.
    """
    own = lines(cut.of("back"))
    up = own.below.value
    rows = up + own.line.value
    behind = Piece(
        key="back", title=piece_name(PieceRole.BACK),
        stitches=own.sides.cast_on, hem=own.hem, moved=cut.moved,
        levels=own.sides.levels, left=Profile(rows, own.side(1)), right=Profile(rows, own.side(0)),
        ends=Ending.WASTE, waits=(BACK_NECK,), in_seams=(BACK_NECK,), slopes=own.body_slopes)
    fronts = both_fronts(_half_front(own)) if opens else (_front(own),)
    slit = None if opens else slit_of(cut, own.width)
    arm_rows = own.arm.rows.value + own.arm_line.value
    sleeve = Piece(
        key="sleeve", title=piece_name(PieceRole.SLEEVE),
        stitches=own.arm.cuff, hem=own.arm.hem, moved=cut.moved,
        left=Profile(arm_rows, in_order(own.arm.increases,
                                        shifted(own.sleeve(1).changes, own.arm.rows.value))),
        right=Profile(arm_rows, in_order(own.arm.increases,
                                         shifted(own.sleeve(0).changes, own.arm.rows.value))),
        ends=Ending.WASTE, waits=(SLEEVE_TOP,), in_seams=(SLEEVE_TOP,),
        slopes=own.sleeve_slopes)
    counts = _counts(own, (behind, sleeve), fronts, slit)
    pieces = (behind, *fronts, sleeve)
    return Garment(form=Construction.RAGLAN, size=cut.size, pieces=pieces, counts=counts,
                   workings=workings(counts, pieces, _of_neck(own, fronts)),
                   joins=_joins(own, behind, fronts, sleeve) + ((slit.join(cut),) if slit else ()),
                   edges=_edges(own, behind, fronts),
                   tasks=form_tasks.raglan(opens=opens, slit=slit is not None, apart=own.apart),
                   lengths=_lengths(own, fronts), times={"sleeve": 2})


def _depth(own: RaglanLines, *, whole: bool) -> NeckDepth:
    """How deep the front neck is: that of a `whole` front, but above a placket."""
    return below_line(own, whole=whole and not slit_of(own.cut, own.width))


def _neck_up(own: RaglanLines, depth: NeckDepth) -> Expression:
    """The row at which the front neck begins, an even one, above the cast-on or the hem."""
    return own.below.term(Role.ROWS) + own.line.term(Role.ROWS) - depth.in_line


def _going(own: RaglanLines) -> Expression:
    """The stitches of a whole front that go at its neck: all but the last one of either half."""
    return own.neck.term(Role.STITCHES) - plain(2)


def _front(own: RaglanLines) -> Piece:
    """A front in one piece: each half narrows at raglan and neck to one last stitch."""
    slit = slit_of(own.cut, own.width)
    depth = _depth(own, whole=True)
    up, rows, going = _neck_up(own, depth), depth.in_line, _going(own)
    row, height = int(up.value), int(rows.value)
    if slit:
        row, height = row - slit.rows.value, height + slit.rows.value
    side = own.side(0)
    below = tuple(c for c in side if c.row < row)
    outer = shifted((c for c in side if c.row >= row), -row)
    now = own.sides.cast_on.value + 2 * sum(c.outward for c in below)
    if now // 2 + sum(c.outward for c in outer) < 1:
        raise CannotShape("a front neck that begins above the raglan's end",
                          "Make front_neck deeper.", at="measures.front_neck")
    inner: tuple[Change, ...]
    slopes: tuple[CountedSlope, ...]
    if slit:
        centre = slit.stitches.value
        inner, slopes = slit_neck(own.cut, going, slit, up, rows)
    else:
        middle, edge = whole_neck(own.cut, going, rows)
        centre, inner, slopes = int(middle.value), edge.changes, edge.slopes(up)
    return Piece(
        key="front", title=piece_name(PieceRole.FRONT),
        stitches=own.sides.cast_on, hem=own.hem, moved=own.cut.moved,
        levels=own.sides.levels,
        left=Profile(row, tuple(c for c in own.side(1) if c.row < row)),
        right=Profile(row, below),
        opening=Opening(row=row, centre=centre,
                        centre_ends=Ending.BIND_OFF if slit else Ending.WASTE,
                        outer=Profile(height, outer), inner=Profile(height, inner)),
        centre_waits=front_centre() if centre and not slit else "",
        slopes=(*own.body_slopes, *slopes))


def _half_going(own: RaglanLines, width: Count) -> Expression:
    """The stitches of half a front of this `width` that go at its neck."""
    line = (own.width.term(Role.STITCHES) - own.neck.term(Role.STITCHES)) / plain(2)
    left = width.term(Role.STITCHES) - line - plain(1)
    return left - own.sides.flare_made if own.sides.flare else left


def _of_neck(own: RaglanLines, fronts: tuple[Piece, ...]) -> tuple[tuple[str, str, Count], ...]:
    """The stitches at the centre of a front in one piece, or of the neck of one of two."""
    if len(fronts) == 2:
        going = _half_going(own, fronts[0].stitches)
        return ((fronts[0].key, "neck_stitches", Count(going, Unit.STITCHES)),)
    if slit_of(own.cut, own.width):
        return ()
    centre, _ = whole_neck(own.cut, _going(own), _depth(own, whole=True).in_line)
    return (("front", "neck_centre", Count(centre, Unit.STITCHES)),)


def _half_front(own: RaglanLines) -> Piece:
    """The right front of a cardigan, its front edge at the left of the bed."""
    cut = own.cut
    width, top = front_width(cut, own.sides.flare_made), own.below.value + own.line.value
    outer = own.side(0)
    side = width.value + sum(c.outward for c in outer) - 1
    if side < 0:
        raise CannotShape(f"a front of {width} with {-own.body(0).net} stitches "
                          "of raglan", "Widen the chest or the neck.")
    depth = _depth(own, whole=False)
    inner, slopes = half_neck(cut, _half_going(own, width), _neck_up(own, depth), depth.in_line)
    return Piece(key="right_front", title=piece_name(PieceRole.RIGHT_FRONT), stitches=width,
                 left=Profile(top, inner), right=Profile(top, outer),
                 hem=own.hem, moved=cut.moved, levels=own.sides.levels,
                 slopes=(*own.body_slopes, *slopes))


def _counts(own: RaglanLines, pair: tuple[Piece, Piece], fronts: tuple[Piece, ...],
            slit: Slit | None) -> tuple[tuple[str, str, Count], ...]:
    counts = [("back", "cast_on", own.sides.cast_on),
              *(("back", name, count) for name, count in own.sides.counts),
              ("back", "neck_stitches", own.neck),
              ("back", "underarm", own.underarm), ("back", "rows_to_raglan", own.below),
              ("back", "raglan_rows", own.line), ("sleeve", "cast_on", own.arm.cuff),
              ("sleeve", "upper_arm", own.arm.top), ("sleeve", "top", own.top),
              ("sleeve", "rows_to_raglan", own.arm.rows),
              *arm_counts(own.arm_line, own.arm_underarm, apart=own.apart)]
    behind, sleeve = pair
    counts.append(("back", "top_rows", top_rows(behind)))
    counts += [("back", "hem_rows", own.hem_rows)] if own.hem_rows else []
    if slit:
        counts += [("front", "placket_stitches", slit.stitches), ("front", "placket_rows",
                                                                  slit.rows)]
    if len(fronts) == 2:
        counts.append(("right_front", "cast_on", fronts[0].stitches))
    depth = _depth(own, whole=len(fronts) == 1)
    counts += [(fronts[0].key, "neck_rows", depth.count),
               ("sleeve", "top_rows", top_rows(sleeve)), *own.own_slopes]
    start = slit.rows.value + 2 if slit else \
        int(_neck_up(own, depth).value) + 1 if len(fronts) == 2 else 0
    counts += (*v_counts(own.cut, fronts[0], start),
               *centre_counts(own.cut, fronts[0], _going(own)))
    return tuple(counts)


def _joins(own: RaglanLines, behind: Piece, fronts: tuple[Piece, ...], sleeve: Piece
           ) -> tuple[Join, ...]:
    up, arm = own.below.value, own.arm.rows.value

    def meet(piece: Piece, rows: int) -> tuple[Join, ...]:
        if own.apart:
            return seams_apart(own.cut, piece, sleeve, (rows, own.arm_line.value),
                               (own.line, own.arm_line))
        seam = RaglanSeam(own.body(0), own.sleeve(0))
        return raglan_seams((piece, up), (sleeve, arm), (rows, seam.sleeve.rows), own.line)
    joins = [*meet(behind, own.body(0).rows)]
    for each in fronts:
        joins += side_seams((behind, up), (each, underarm_row(each)), counted=own.below)
        joins += meet(each, each.rows - up)
    underarm = underarm_apart(own.cut, (behind, own.underarm), (sleeve, own.arm_underarm)) \
        if own.apart else underarm_seam(own.underarm)
    return (*joins, underarm, sleeve_seam(sleeve, own.arm.rows))


def _edges(own: RaglanLines, behind: Piece, fronts: tuple[Piece, ...]) -> dict[str, EdgePath]:
    g, depth = own.cut.gauge, _depth(own, whole=len(fronts) == 1).count
    # Each raglan seam takes a stitch of either side: it is hung with its neighbour.
    back_neck, sleeve_top = lying(Zone.BACK, (
        waiting(SectionRole.BACK_NECK, behind.top - 2 * SEAM, g, centre_back=True,
                waits=BACK_NECK, seams=True, made=between_seams(own.neck)),
        waiting(SectionRole.SLEEVE_TOP, own.top.value - 2 * SEAM, own.arm_cut.gauge,
                waits=SLEEVE_TOP, seams=True, made=between_seams(own.top))))
    if len(fronts) == 1:
        opening = fronts[0].opening
        assert opening is not None
        if slit := slit_of(own.cut, own.width):
            return placket_edges(fronts[0], [sleeve_top, back_neck, sleeve_top], own.cut,
                                 depth, slit.rows)
        side = shaped(SectionRole.FRONT_NECK, opening.inner.drawn(last_row(fronts[0])), g,
                      widths_up(fronts[0]), details=(SectionDetail.SIDE,), counted=depth,
                      slopes=slopes_named(fronts[0], NECK))
        middle, _ = whole_neck(own.cut, _going(own), _depth(own, whole=True).in_line)
        centre = waiting(SectionRole.FRONT_NECK, opening.centre, g, waits=front_centre(),
                         made=middle) if opening.centre else None
        point = point_of(2, opening.inner.segments(), opening.centre, g, counted=depth,
                         slopes=slopes_named(fronts[0], NECK)) \
            if own.cut.neck is Neck.V else None
        around = worn([sleeve_top, falling(side), centre, side, sleeve_top], Worn.LEFT, Worn.RIGHT)
        return {"neck": run_of("neck", PathName.NECK, [*around, back_neck],
                               span=PathSpan.ROUND_FROM_LEFT_SLEEVE, shape=EdgeShape.ROUND,
                               corner=point, seam=RingSeam.LEFT_BACK_RAGLAN)}
    return opened_edges(own.cut, fronts[0], [sleeve_top, back_neck, sleeve_top],
                        depth, own.below.term(Role.ROWS) + own.line.term(Role.ROWS))


def _lengths(own: RaglanLines, fronts: tuple[Piece, ...]) -> Lengths:
    g = own.cut.gauge
    around = girths_of(own.cut, own.sides, tuple(each.stitches for each in fronts))
    return {**around, **lengths(
        length=on_foot(body_high(own.below, own.line, g), own.hem, g),
        raglan_depth=raglan_high(own.line, g),
        upper_arm=across(own.arm.top, own.arm_cut.gauge, seams=2))}
