"""Collars that fall over: the fold round the neck, and the part that lies outside."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..machine.records import dataclass
from ..plan.band import BandPlan
from .garment_body import FILLED, Body
from .garment_conventions import COLLAR_FALLS, COLLAR_STANDS, POINT_FALLS, STAND_LEANS, Direction
from .garment_neck import depth_of, leaned, to_middle
from .garment_parts import DrawnParts
from .garment_pen import (
    DrawnMark,
    Line,
    PenPoint,
    Shape,
    both_sides,
    hundredths,
    mirrored,
    off,
    part,
)

POINTS_ON: Direction = (POINT_FALLS[1], -POINT_FALLS[0])  # from the end on towards the middle


@dataclass(frozen=True, slots=True, kw_only=True)
class Collar:
    """A collar that falls: `fold` from beside the neck to the front, `behind` its fold there.

    `beside` is where its outer edge comes to lie on the shoulder; behind the neck it falls `falls`.
    """

    plan: BandPlan
    fold: Line
    behind: Line
    beside: PenPoint
    falls: int


def collar_of(parts: DrawnParts, body: Body) -> Collar | None:
    """Return the collar that falls, or None."""
    plan = next((p for p in parts.plans if KINDS[p.band.kind].falls), None)
    if plan is None:
        return None
    deep = depth_of(plan)
    if plan.collar.short_rows:
        deep += hundredths(plan.collar.short_rows.extra.value * plan.gauge.row)
    stands = part(COLLAR_STANDS, deep)
    top = off(body.top, STAND_LEANS, stands)
    return Collar(plan=plan, fold=leaned(to_middle(body.front_neck), top, 0),
                  behind=leaned(body.back_neck, top, stands), falls=deep - stands,
                  beside=off(top, COLLAR_FALLS, deep - stands))


def collar_before(collar: Collar, body: Body) -> tuple[DrawnMark, ...]:
    """The collar from the front, both sides of it."""
    neck = to_middle(body.front_neck)
    end = neck[-1]
    if KINDS[collar.plan.band.kind].meets:
        points = hundredths(collar.plan.collar.points * collar.plan.gauge.stitch)
        tip = off(off(end, POINT_FALLS, depth_of(collar.plan)), POINTS_ON, points)
    else:
        tip = PenPoint(depth_of(collar.plan) // 2, end.y)
    outer = _laid(neck, collar.beside, tip)
    ring = (*collar.fold, *outer[::-1])
    return tuple(Shape(FILLED, (side,), closed=True) for side in (ring, mirrored(ring)))


def collar_behind(collar: Collar, body: Body) -> tuple[DrawnMark, ...]:
    """The collar from behind, fallen over the back."""
    low = PenPoint(0, collar.behind[-1].y - collar.falls)
    outer = _laid(body.back_neck, collar.beside, low)
    ring = (*both_sides(collar.behind), *both_sides(outer)[::-1])
    return (Shape(FILLED, (ring,), closed=True),)


def _laid(line: Line, first: PenPoint, last: PenPoint) -> Line:
    """A line of the same run from one place to another."""
    a, b = line[0], line[-1]
    wide, high = max(1, a.x - b.x), max(1, a.y - b.y)
    return tuple(PenPoint(last.x + (n.x - b.x) * (first.x - last.x) // wide,
                          last.y + (n.y - b.y) * (first.y - last.y) // high, n.reach) for n in line)
