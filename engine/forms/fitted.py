"""Garments with shoulders: drop shoulder and set in, as pullover, cardigan or waistcoat."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

from ..catalogue.form_measures import SLEEVE_EASE
from ..catalogue.forms import Construction, FormKind
from ..core.counted import Count
from ..core.counts import Unit
from ..core.edge_parts import PathName, PathSpan, RingSeam, SectionDetail, SectionRole, Worn
from ..core.expression import NOTHING, Expression, Operand, plain
from ..core.join_parts import JoinRole, SewnSide
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..fabric.gauge import counted
from ..machine.steps import Side
from ..pattern.edges import EdgeShape
from ..pattern.model import Neck
from ..shape.bars import Bars
from ..shape.counted_edge import NECK, slopes_named
from ..shape.edge_path import Corner, EdgePath, point_of, run_of
from ..shape.edging import Section, Zone, falling, lying, shaped, waiting
from ..shape.garment import Cut, Garment, Join, Kindred
from ..shape.held_neck_edge import held_sections
from ..shape.outline import last_row
from ..shape.piece import FRONTS, Piece
from ..shape.roundings import CountKind, Roundable
from ..shape.seams import sewn_stitches, side_seams, sleeve_seam
from ..shape.tasks import Seam
from ..shape.widths import widths_up
from ..shape.worn import shoulder_of, worn
from ..words.terms.join_names import join_name, sewn_sides, shoulder_name
from ..words.terms.section_names import SECTIONS
from . import form_tasks
from .armhole_counts import ArmholeStitches, armhole_counts
from .armhole_edges import armhole_edges
from .body import back, centre_of, front, half_front, neck_rows
from .body_counts import FRONT, HEM, SEAM, SLEEVE, at_armholes, underarm_row
from .body_frame import Frame, frame, underarm_of
from .builder import Builder
from .lengths import Lengths, lengths, less, on_foot, rows, rows_high, stitches_wide
from .neck_workings import workings
from .necklines import centre_counts, v_counts
from .opened import both_fronts, opened_edges
from .placket import edges as placket_edges
from .placket import slit_of
from .sides import ROUNDS, girths_of
from .sleeve import (
    ARM,
    Tube,
    cap_foot,
    cap_joins,
    set_in_sleeve,
    straight_sleeve,
    tube,
)
from .sleeve_caps import cap, flat_top


def builder(kind: FormKind) -> Builder:
    """Return how a garment with shoulders is built."""
    set_in = kind.construction is Construction.SET_IN
    return Builder(partial(build, set_in=set_in, opens=kind.opens, sleeves=kind.sleeved),
                   roundable(set_in=set_in, opens=kind.opens, sleeves=kind.sleeved))


def roundable(*, set_in: bool, opens: bool, sleeves: bool) -> Roundable:
    """Return the counts of a garment with shoulders that can be rounded."""
    front = "right_front" if opens else "front"
    return {
        "back cast_on": CountKind.WIDTH, **({"back across": CountKind.WIDTH} if set_in else {}),
        "back neck_stitches": CountKind.WIDTH, "back rows_to_armhole": CountKind.ROWS,
        "back armhole_rows": CountKind.ROWS, "back shoulder_rows": CountKind.ROWS,
        "back neck_rows": CountKind.ROWS,
        f"{front} neck_rows": CountKind.FROM_FRONT if opens else CountKind.ROWS, **HEM,
        **ROUNDS, **(FRONT if opens else {}),
        **({**ARM, "sleeve rows_to_underarm": CountKind.ROWS} if sleeves else {})}


def build(cut: Cut, *, set_in: bool, opens: bool, sleeves: bool) -> Garment:
    """Return a garment with shoulders; it `opens` at the front or not.

    Raises CannotShape where no whole numbers fit.
    """
    taken = at_armholes(cut, sleeves=sleeves)
    body = frame(cut.of("back"), armholes=set_in, taken=taken)
    counts = _body_counts(body, "right_front" if opens else "front")
    behind = back(body)
    fronts: tuple[Piece, ...]
    if opens:
        right, more = half_front(body)
        fronts = both_fronts(right, shoulder_of("left_front", Side.LEFT))
        counts += [("right_front", "cast_on", right.stitches),
                   *(("right_front", name, count) for name, count in more)]
    else:
        fronts = (front(body),)
    joins = _body_joins(body, behind, fronts)
    slit = None if opens else slit_of(cut, body.neck)
    if slit:
        counts += [("front", "placket_stitches", slit.stitches), ("front", "placket_rows",
                                                                  slit.rows)]
        joins += (slit.join(cut),)
    if not opens:
        counts += v_counts(cut, fronts[0], slit.rows.value + 2 if slit else 0)
    pieces = (behind, *fronts)
    if sleeves:
        arm, arm_counts, caps = _sleeve(body, set_in, opens)
        pieces += (arm,)
        counts += arm_counts
        up = next(c for _, name, c in arm_counts if name == "rows_to_underarm")
        joins += (sleeve_seam(arm, up), *caps)
    return Garment(
        form=Construction.SET_IN if set_in else Construction.DROP_SHOULDER,
        size=cut.size, pieces=pieces,
        counts=tuple(counts), joins=joins, edges=_edges(body, behind, fronts, sleeves),
        tasks=form_tasks.fitted(cap_foot(body) if set_in else None, opens=opens, sleeves=sleeves,
                              slit=slit is not None),
        lengths=_lengths(body, fronts, taken), times={"sleeve": 2} if sleeves else {},
        workings=workings(counts, pieces, (
            (piece.key, "neck_centre", Count(centre_of(body, piece.key), Unit.STITCHES))
            for piece in (behind, *([] if opens or slit else fronts)))))


def _body_counts(body: Frame, fronts: str) -> list[tuple[str, str, Count]]:
    counts = [("back", "cast_on", body.sides.cast_on),
              *(("back", name, count) for name, count in body.sides.counts),
              ("back", "across", body.across),
              ("back", "neck_stitches", body.neck), ("back", "rows_to_armhole", body.to_armhole),
              ("back", "armhole_rows", body.armhole), ("back", "shoulder_rows", body.slope),
              ("back", "neck_rows", neck_rows(body, "back", "back_neck")),
              (fronts, "neck_rows", neck_rows(body, fronts, "front_neck"))]
    if body.hem_rows:
        counts.append(("back", "hem_rows", body.hem_rows))
    counts += centre_counts(body.cut, body.neck, whole_front=fronts == "front")
    return counts + armhole_counts(body.cut, ArmholeStitches(width=body.width, across=body.across),
                                   body.armhole)


def _body_joins(body: Frame, behind: Piece, fronts: tuple[Piece, ...]) -> tuple[Join, ...]:
    """Side seams and shoulders, from the pieces themselves."""
    joins: list[Join] = []
    for each in fronts:
        joins += side_seams((behind, _side_rows(behind)), (each, _side_rows(each)),
                            counted=body.to_armhole, tolerance=1)
        joins.append(Join(title=shoulder_name(each.title), seam=Seam.SHOULDER,
                          kindred=Kindred.STITCHES,
                          sewn=(sewn_stitches(_shoulder(behind), body.shoulder_counted),
                                sewn_stitches(_shoulder(each), body.shoulder_counted)),
                          side=FRONTS[each.key]))
    return tuple(joins)


def _side_rows(piece: Piece) -> int:
    """Rows of the side seam: to the armhole's mark, else to what is first taken off there."""
    if piece.marks:
        return piece.marks[0]
    return underarm_row(piece)


def _shoulder(piece: Piece) -> int:
    if piece.opening is None:
        return piece.top + piece.left.held + piece.right.held
    o = piece.opening
    return piece.half + o.inner.net + o.outer.net + o.outer.held


def _sleeve(body: Frame, set_in: bool, opens: bool
            ) -> tuple[Piece, list[tuple[str, str, Count]], tuple[Join, ...]]:
    if not set_in:
        return _dropped_sleeve(body)
    cut = body.cut.of(SLEEVE)
    arm = tube(cut, body.hem, "rows_to_underarm")
    head = cap(body, arm, cut.length("cap_ease").mm)
    top = flat_top(body, arm)
    return set_in_sleeve(arm, head), [
        *_arm_counts(arm), ("sleeve", "cap_rows", head.count),
        *([("sleeve", "cap_top", top)] if top else [])], cap_joins(body, head, opens=opens)


def _dropped_sleeve(body: Frame
                    ) -> tuple[Piece, list[tuple[str, str, Count]], tuple[Join, ...]]:
    """The sleeve's top is as wide as the armhole's rows are high, front and back, and its ease."""
    cut, row = body.cut.of(SLEEVE), body.cut.gauge.row
    g = cut.gauge
    high = plain(2) * body.armhole.term(Role.ARMHOLE_ROWS) * Operand(row, Role.MILLIMETRES)
    ease = cut.measure(SLEEVE_EASE) if SLEEVE_EASE in cut.measures else NOTHING
    wide = high + ease if ease.value else high
    top = partial(counted, wide / Operand(g.stitch, Role.STITCH_WIDTH)
                  + Operand(Fraction(2 * SEAM), Role.SEAMS), Unit.STITCHES, g.stitch)
    arm = tube(cut, body.hem, "rows_to_underarm", top=top)
    join = Join(title=join_name(JoinRole.SLEEVE_TOP), seam=Seam.ARMHOLE,
                kindred=Kindred.LENGTH, tolerance=g.stitch, ease=ease.value,
                sewn=(high, stitches_wide(arm.top.term(Role.STITCHES) - Operand(
                    Fraction(2 * SEAM), Role.SEAMS), g)),
                sides=sewn_sides(SewnSide.ARMHOLE, SewnSide.SLEEVE_TOP),
                bars=Bars(rows=2 * body.armhole.value, row_edge=SECTIONS[SectionRole.ARMHOLE],
                          stitches=arm.top.value - 2 * SEAM,
                          stitch_edge=SECTIONS[SectionRole.SLEEVE_TOP]))
    return straight_sleeve(arm), _arm_counts(arm), (join,)


def _arm_counts(arm: Tube) -> list[tuple[str, str, Count]]:
    return [("sleeve", "cast_on", arm.cuff), ("sleeve", "upper_arm", arm.top),
            ("sleeve", "rows_to_underarm", arm.rows), *arm.own]


def _lengths(body: Frame, fronts: tuple[Piece, ...], taken: Expression) -> Lengths:
    """Finished measures as knitted: seams and what bands hide are taken off, of the width across
    what is `taken` at the armholes."""
    g = body.cut.gauge
    whole = rows((body.to_armhole, PartRole.TO_ARMHOLE), (body.armhole, PartRole.OF_ARMHOLE),
                 (body.slope, PartRole.OF_SHOULDER))
    around = girths_of(body.cut, body.sides, tuple(each.stitches for each in fronts))
    return {**around, **lengths(
        length=on_foot(rows_high(whole, g), body.hem, g),
        armhole_depth=rows_high(body.armhole.term(Role.ROWS), g),
        across=less(body.across.term(Role.STITCHES), taken, g))}


def _edges(body: Frame, behind: Piece, fronts: tuple[Piece, ...], sleeves: bool
           ) -> dict[str, EdgePath]:
    edges: dict[str, EdgePath] = {}
    if len(fronts) == 2:
        edges |= opened_edges(body.cut, fronts[0], _back_neck(body, behind),
                              neck_rows(body, fronts[0].key, "front_neck"),
                              body.rows_up)
    elif slit := slit_of(body.cut, body.neck):
        edges |= placket_edges(fronts[0], _back_neck(body, behind), body.cut,
                               neck_rows(body, "front", "front_neck"), slit.rows)
    else:
        edges["neck"] = run_of("neck", PathName.NECK, [
            *worn(_neck_of(fronts[0], body, SectionRole.FRONT_NECK), Worn.LEFT, Worn.RIGHT),
            *worn(_back_neck(body, behind), Worn.RIGHT, Worn.LEFT)],
            span=PathSpan.ROUND_FROM_LEFT_SHOULDER, shape=EdgeShape.ROUND,
            corner=_point(fronts[0], body), seam=RingSeam.LEFT_SHOULDER)
    if not sleeves:
        edges |= armhole_edges(behind, fronts, body.to_armhole.value, body.cut.gauge,
                               body.armhole, underarm_of(body))
    return edges


def _neck_side(piece: Piece, body: Frame, role: SectionRole,
               details: tuple[SectionDetail, ...] = ()) -> Section | None:
    opening = piece.opening
    assert opening is not None
    measure = "back_neck" if piece.key == "back" else "front_neck"
    return shaped(role, opening.inner.drawn(last_row(piece)), body.cut.gauge, widths_up(piece),
                  details=details, counted=neck_rows(body, piece.key, measure),
                  slopes=slopes_named(piece, NECK))


def _neck_of(piece: Piece, body: Frame, role: SectionRole, *, behind: bool = False
             ) -> list[Section | None]:
    """The neck of a whole back or front, from shoulder to shoulder."""
    assert piece.opening is not None
    if piece.opening.held:
        measure = "back_neck" if behind else "front_neck"
        return held_sections(piece.opening, role, body.cut.gauge,
                             (body.neck, neck_rows(body, piece.key, measure)),
                             last=last_row(piece), waits=piece.centre_waits, centre_back=behind,
                             slopes=slopes_named(piece, NECK))
    side, centre = _neck_side(piece, body, role, (SectionDetail.SIDE,)), piece.opening.centre
    made = centre_of(body, piece.key)
    return [falling(side), waiting(role, centre, body.cut.gauge, waits=piece.centre_waits,
                          centre_back=behind, made=made) if centre else None, side]


def _point(front: Piece, body: Frame) -> Corner | None:
    """The point of a V, after the first side of the neck."""
    assert front.opening is not None
    if body.cut.neck is not Neck.V:
        return None
    return point_of(1, front.opening.inner.segments(), front.opening.centre, body.cut.gauge,
                    slopes=slopes_named(front, NECK),
                    counted=neck_rows(body, front.key, "front_neck"))


def _back_neck(body: Frame, behind: Piece) -> list[Section | None]:
    return lying(Zone.BACK, _neck_of(behind, body, SectionRole.BACK_NECK, behind=True))
