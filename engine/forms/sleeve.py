"""Sleeves: from the cuff outward to the upper arm, and how they end at the armhole.

Sources: a translated lesson, "Knit sleeve caps" (C02); Jimmy Simmons, "Decrease and increase
formulas" (R01, R02).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from ..core.counted import Count
from ..core.counts import Rounding, whole
from ..core.expression import NOTHING, Expression, Term, plain
from ..core.join_parts import JoinRole, SewnSide
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..core.text_kinds import CountKey
from ..machine.records import dataclass
from ..machine.steps import Side
from ..pattern.slope_specs import Slope
from ..shape.bars import Bars, CapTop
from ..shape.caps import Cap, begun
from ..shape.counted_edge import sewn_line
from ..shape.even_gaps import EvenSlope
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut, Join, Kindred
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile, in_order, shifted
from ..shape.roundings import CountKind, Roundable, alike
from ..shape.schedule import Schedule
from ..shape.slopes import Usual, even_slope, slope_counts, slope_request, slope_schedule
from ..shape.tasks import CapFoot, Seam
from ..words.terms.join_names import join_name, sewn_side, sewn_sides, worn_at
from ..words.terms.piece_names import piece_name
from ..words.terms.section_names import CAP_TOP
from .body_counts import SEAM, cuff_of, rows_below, width_of
from .body_frame import Frame, armhole_edge

# Plain rows after the last increase (R01, R02): one at least, so that it is knitted.
INCREASES = Usual(gap_after=True, least_end=1)
ARM: Roundable = {"sleeve cast_on": CountKind.WIDTH, "sleeve upper_arm": CountKind.WIDTH}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A sleeve up to the underarm: `cuff` and `top` stitches, `rows` from 0.

    `end` are the stitches it narrows to above, in a raglan, `slope` is one side's increases,
    `even` how they are spread, and `own` are its counts where the designer schedules them, and the
    rows of a cuff apart.
    """

    cuff: Count
    top: Count
    rows: Count
    hem: Foot | None
    end: Count | None = None
    slope: Schedule
    even: tuple[EvenSlope, ...] = ()
    own: tuple[tuple[str, str, Count], ...] = ()

    @property
    def increases(self) -> tuple[Change, ...]:
        """One side's increases."""
        return self.slope.changes(How.INCREASE)


def tube(cut: Cut, hem: Foot | None, rows: str, *, top: Callable[[Rounding], Count] | None = None,
         end: Mapping[CountKey, Callable[[Rounding], Count]] = MappingProxyType({})) -> Tube:
    """Return a sleeve to the underarm; `rows` is what the count of its rows is called, `hem` the
    body's.

    `top` counts its stitches there where the armhole sets them, `end` those it narrows to at
    its very end, by name. Raises CannotShape.
    """
    cuff, wide, *last = alike(cut, {
        "sleeve cast_on": width_of(cut, "cuff_width", 2 * SEAM),
        "sleeve upper_arm": top or width_of(cut, "upper_arm_width", 2 * SEAM), **end})
    foot, foot_rows = cuff_of(cut, hem)
    made = rows_below(cut, f"sleeve {rows}", cut.measure("sleeve_length"), (), foot)
    events = (wide.term(Role.STITCHES) - cuff.term(Role.STITCHES)) / plain(2)
    if events.value < 0:
        raise CannotShape(f"{wide} at the upper arm, fewer than the {cuff.value} at the cuff",
                          "Make the upper arm wider, or the cuff narrower.",
                          expected=f"at least {cuff.value}", count="sleeve upper_arm")
    if made.value <= events.value:
        raise CannotShape(f"a sleeve from {cuff} to {wide} in {made}",
                          "Lengthen the sleeve, widen the cuff or narrow the upper arm.")
    request = slope_request(cut, Slope.SLEEVE)
    slope = slope_schedule(request, events, made.term(Role.ROWS), INCREASES)
    own = [("sleeve", "hem_rows", foot_rows)] if foot_rows else []
    return Tube(cuff=cuff, top=wide, rows=made, hem=foot, end=last[0] if last else None,
                slope=slope,
                even=even_slope(("increases", How.INCREASE), NOTHING, slope),
                own=(*own, *slope_counts("sleeve", "", request, slope)))


def straight_sleeve(tube: Tube) -> Piece:
    """Return a sleeve bound off straight across, as for a drop shoulder."""
    edge = Profile(tube.rows.value, tube.increases)
    return Piece(key="sleeve", title=piece_name(PieceRole.SLEEVE),
                 stitches=tube.cuff, left=edge, right=edge,
                 hem=tube.hem, slopes=tube.even)


def armhole_profiles(frame: Frame) -> tuple[Profile, Profile]:
    """Return both edges of one armhole, from the underarm up: where bound off first, and last."""
    def edge(parity: int) -> Profile:
        changes = shifted(armhole_edge(frame, parity), -frame.to_armhole.value)
        return Profile(frame.armhole.value, changes)
    return edge(0), edge(1)


def armhole_sewn(frame: Frame, *, alike: bool = False) -> Expression:
    """Return how long both edges of one armhole are together, as they are sewn [mm].

    One of them is bound off a row later, but not where both are `alike`: the left front, a mirror
    image, is bound off first as the back is beside it (geometry, no source).
    """
    one, other = (sewn_line(begun(edge), frame.cut.gauge) for edge in armhole_profiles(frame))
    return one + (one if alike else other)


def cap_foot(frame: Frame) -> CapFoot:
    """Return what of cap and armhole meets at the underarm: both begin alike (C02)."""
    first = next(iter(armhole_edge(frame, 0)), None)
    if first is None:
        return CapFoot.SEAM_END
    return CapFoot.BOUND_OFF if first.how.is_level else CapFoot.DECREASES


def cap_top(frame: Frame, head: Cap) -> CapTop | None:
    """Return where the cap's flat top is sewn to the armhole; None where that is still shaped."""
    rows = whole(head.reach / frame.cut.gauge.row)
    shaped = max((c.row for edge in armhole_profiles(frame) for c in edge.changes), default=0)
    if not 0 < rows <= frame.armhole.value - shaped:
        return None
    return CapTop(rows=rows, reach=rows * frame.cut.gauge.row,
                  width=head.top * head.ask.gauge.stitch, bars=Bars(
        rows=2 * rows, row_edge="armhole", stitches=head.top, stitch_edge=CAP_TOP))


def cap_joins(frame: Frame, head: Cap, *, opens: bool) -> tuple[Join, ...]:
    """Return the cap at the armhole; where the front `opens`, at the wearer's right and at the left
    armhole, if both edges of this are bound off at once and so are longer."""
    armhole, left = armhole_sewn(frame), armhole_sewn(frame, alike=True)
    longer = left.value - armhole.value if opens else Fraction(0)
    one = Join(title=join_name(JoinRole.CAP), seam=Seam.ARMHOLE, kindred=Kindred.LENGTH,
               sewn=(Term(armhole, Role.ALONG, sewn_side(SewnSide.ARMHOLE)),
                     Term(head.sewn, Role.ALONG, sewn_side(SewnSide.CAP))), ease=head.ask.ease,
               tolerance=head.ask.tolerance, sides=sewn_sides(SewnSide.ARMHOLE, SewnSide.CAP),
               top=cap_top(frame, head))
    if not longer:
        return (one,)
    top = one.top and replace(one.top, takes_all=one.top.eased >= one.other - left.value)
    return (replace(one, side=Side.RIGHT, top=None), replace(
        one, title=worn_at(Side.LEFT.value, one.title), side=Side.LEFT, top=top,
        sewn=(Term(left, Role.ALONG, sewn_side(SewnSide.ARMHOLE)), one.sewn[1]),
        tolerance=one.tolerance + longer))


def set_in_sleeve(tube: Tube, cap: Cap) -> Piece:
    """Return a sleeve with a set-in cap, its flat top bound off."""
    up = tube.rows.value
    rows = up + cap.rows
    return Piece(key="sleeve", title=piece_name(PieceRole.SLEEVE), stitches=tube.cuff, hem=tube.hem,
                 slopes=(*tube.even, *cap.slopes),
                 left=Profile(rows, in_order(tube.increases, shifted(cap.far.changes, up))),
                 right=Profile(rows, in_order(tube.increases, shifted(cap.near.changes, up))))
