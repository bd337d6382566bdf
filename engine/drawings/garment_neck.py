"""The neck: its far side seen through the opening, and the band that is worked round it."""

from __future__ import annotations

from itertools import pairwise
from math import isqrt

from ..catalogue.bands import KINDS
from ..machine.records import dataclass
from ..plan.band import BandPlan, depth_mm
from ..plan.band_order import AROUND, NECK
from ..shape.edging import Stretch
from .garment_body import Body
from .garment_conventions import (
    BAND_HAIRS,
    HAIRS_APART,
    NECK_LEFT,
    NECKBAND_LEANS,
    ROLL,
    STAND_LEANS,
)
from .garment_parts import DrawnParts
from .garment_pen import (
    DrawnMark,
    Line,
    PenPoint,
    Shape,
    apart,
    both_sides,
    hundredths,
    off,
    part,
)

STEEPEST = 3  # a mitre goes no further into a V than so many depths of its band


@dataclass(frozen=True, slots=True, kw_only=True)
class Neckband:
    """A band that stands round the neck: both of its edges, from the shoulder to the front.

    `outer` is the seam, `inner` the band's free edge; `behind` are the same of the back.
    """

    plan: BandPlan
    outer: Line
    inner: Line
    behind_outer: Line
    behind_inner: Line


def standing(parts: DrawnParts) -> BandPlan | None:
    """The band that stands round the neck, where there is one."""
    return next((plan for plan in parts.plans if plan.band.garment_edge in (NECK, AROUND)
                 and KINDS[plan.band.kind].stands and not KINDS[plan.band.kind].falls), None)


def neckband_of(parts: DrawnParts, body: Body) -> Neckband | None:
    """Return the neckband as it lies, or None."""
    plan = standing(parts)
    if plan is None:
        return None
    deep = seen_depth(plan)
    top = neck_top(plan, body)
    outer = to_middle(body.front_neck)
    return Neckband(plan=plan, outer=outer, inner=leaned(outer, top, rise(outer, deep)),
                    behind_outer=body.back_neck,
                    behind_inner=leaned(body.back_neck, top, deep))


def seen_depth(plan: BandPlan) -> int:
    """How deep a band looks: one that rolls is narrower."""
    deep = depth_of(plan)
    return part(ROLL, deep) if KINDS[plan.band.kind].rolls else deep


def neck_top(plan: BandPlan, body: Body) -> PenPoint:
    """Where the free edge of a band comes to lie beside the neck."""
    leans, deep = STAND_LEANS if KINDS[plan.band.kind].collar else NECKBAND_LEANS, seen_depth(plan)
    if body.front_neck[0].y == body.front_neck[-1].y:  # a neck without depth has no side to lean
        return PenPoint(body.top.x, body.top.y + deep)
    made, least = off(body.top, leans, deep), part(NECK_LEFT, body.top.x)
    if made.x >= least:
        return made
    inward = min(deep, body.top.x - least)  # a band too deep for its neck stands up
    return PenPoint(body.top.x - inward, body.top.y + isqrt(deep * deep - inward * inward))


def depth_of(plan: BandPlan) -> int:
    """The finished depth of a band."""
    return hundredths(depth_mm(plan))


def to_middle(line: Line) -> Line:
    """A neckline that ends at a front edge, led on to the middle, under the front bands."""
    *rest, end = line
    if end.x <= 0:
        return line
    return (*rest, PenPoint(0, end.y)) if rest[-1].y == end.y else (*line, PenPoint(0, end.y))


def rise(outer: Line, deep: int) -> int:
    """How far the free edge of a band lies above the lowest place of its seam.

    Where that is a point the band is mitred there, or lapped, and goes further up.
    """
    low, before = outer[-1], outer[-2]
    if before.y == low.y or low.reach or before.x == low.x:
        return deep
    along = apart(before, low)
    return min(STEEPEST * deep, deep * along // max(1, before.x - low.x))


def leaned(outer: Line, top: PenPoint, up: int) -> Line:
    """A neckline drawn in: its first node goes to `top`, its last one goes `up`."""
    first, last = outer[0], outer[-1]
    high = max(1, first.y - last.y)
    return tuple(PenPoint(n.x * top.x // max(1, first.x),
                          last.y + up + (n.y - last.y) * (top.y - last.y - up) // high, n.reach)
                 for n in outer)


def far_side(body: Body, behind: Line) -> tuple[DrawnMark, ...]:
    """What is seen of the back's inner side, through the neck, from the front.

    `behind` is the free edge of what stands round the neck, empty where nothing does.
    """
    upper = both_sides(behind or body.back_neck)
    edge = body.front.edge
    # Between two fronts whose edges do not meet it is seen down to the lower edge.
    lower = both_sides((*body.front_neck, PenPoint(edge, 0)) if edge > 0 else body.front_neck)
    marks: list[DrawnMark] = [Shape("wb-far wb-outline", ((*upper, *lower[::-1]),), closed=True)]
    if behind:
        marks.append(Shape("wb-seam", (both_sides(body.back_neck),)))
    return tuple(marks)


def neckband_marks(band: Neckband, *, behind: bool) -> tuple[DrawnMark, ...]:
    """The near side of the neckband, from the front or from `behind`."""
    outer, inner = (band.behind_outer, band.behind_inner) if behind else (band.outer, band.inner)
    marks: list[DrawnMark] = [Shape("wb-fill wb-outline",
                                    ((*both_sides(outer), *both_sides(inner)[::-1]),), closed=True)]
    hairs = across(band.plan, outer, inner)
    if hairs:
        marks.append(Shape("wb-texture", hairs))
    if not behind and laps_over(band.plan):
        marks.append(Shape("wb-outline", ((outer[-1], inner[-1]),)))
    return tuple(marks)


def laps_over(plan: BandPlan) -> bool:
    """True where its two ends are seen at the middle of the front."""
    return not plan.edge_path.ring


def across(plan: BandPlan, outer: Line, inner: Line) -> tuple[Line, ...]:
    """Hairlines across a band, for every fourth of its stitches; for every rib of a ribbed one.

    Half of them from the shoulder, and the same at the other side.
    """
    kind = KINDS[plan.band.kind]
    if kind.rolls:
        return ()
    many = len(plan.band.rib) if kind.latched else BAND_HAIRS
    step = hundredths(many * plan.gauge.stitch)
    while step < HAIRS_APART:
        step *= 2
    right = [(at(outer, far), at(inner, far, outer)) for far in range(step, length(outer), step)]
    return (*right, *((a.mirrored, b.mirrored) for a, b in right if a.x))


def length(line: Line) -> int:
    """How long a line is along its corners."""
    return sum(apart(a, b) for a, b in pairwise(line))


def at(line: Line, far: int, by: Line | None = None) -> PenPoint:
    """The place `far` along a line; with `by`, along that line, on the same stretch of this one."""
    measured = by or line
    left = far
    for i, (a, b) in enumerate(pairwise(measured)):
        along = apart(a, b)
        if left <= along and along:
            c, d = line[i], line[i + 1]
            return PenPoint(c.x + (d.x - c.x) * left // along, c.y + (d.y - c.y) * left // along)
        left -= along
    return PenPoint(line[-1].x, line[-1].y)


def takes_band_ends(plan: BandPlan) -> bool:
    """True for a front band that is worked over the end of the neckband as well."""
    return any(section.stretch is Stretch.BAND_END for section in plan.edge_path.sections)
