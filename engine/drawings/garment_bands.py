"""Bands at front edges with their buttons or their zip, at armholes, pockets and plackets."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.bands import KINDS
from ..catalogue.forms import Construction
from ..catalogue.pocket_edges import EDGES as POCKETS
from ..machine.steps import Side
from ..plan.band import BandPlan
from ..plan.band_order import AROUND, FRONT_EDGES, PLACKET
from ..shape.dimension_names import SLIT_DEPTH
from ..shape.polygon import Outline
from .garment_body import FILLED, Body
from .garment_conventions import BAND_HAIRS, HAIR_SHARE, HAIRS_APART
from .garment_neck import depth_of, leaned, neck_top, seen_depth
from .garment_parts import DrawnParts, Half
from .garment_pen import (
    Disc,
    DrawnMark,
    Line,
    PenPoint,
    Shape,
    beside,
    hundredths,
    mirrored,
    part,
)

ARMHOLE = "armhole"


def front_bands(parts: DrawnParts, body: Body) -> list[tuple[str, tuple[DrawnMark, ...]]]:
    """Return the bands of fronts and plackets as they close, by the band's key."""
    made = []
    for plan in parts.plans:
        if not KINDS[plan.band.kind].stands:
            continue
        if plan.band.garment_edge in FRONT_EDGES:
            made.append((plan.band.key, _front_band(plan)))
        elif plan.band.garment_edge == PLACKET:
            made.append((plan.band.key, _placket(parts, plan)))
        elif plan.band.garment_edge == AROUND:
            made.append((plan.band.key, _around(plan, body)))
    return made


def _front_band(plan: BandPlan) -> tuple[DrawnMark, ...]:
    deep, top = depth_of(plan), hundredths(plan.edge_path.length)
    return _zipped(deep, top) if plan.band.zip else _upright(plan, deep, 0, top)


def _placket(parts: DrawnParts, plan: BandPlan) -> tuple[DrawnMark, ...]:
    """Both bands of a slit, one over the other, from its foot to the neck."""
    slit = parts.outlines["front"].dimension(SLIT_DEPTH)
    assert slit is not None
    foot = hundredths(slit.start[1])
    return _upright(plan, depth_of(plan), foot, foot + hundredths(plan.edge_path.length))


def _upright(plan: BandPlan, deep: int, low: int, top: int) -> tuple[DrawnMark, ...]:
    half = deep // 2
    return (Shape(FILLED, (_box(-half, half, low, top),), closed=True),
            *_hairs(plan, half, low, top), *buttons(plan, low, top))


def _box(left: int, right: int, low: int, top: int) -> Line:
    return PenPoint(left, low), PenPoint(right, low), PenPoint(right, top), PenPoint(left, top)


def _zipped(deep: int, top: int) -> tuple[DrawnMark, ...]:
    """Two bands that meet at a zip, its teeth between them."""
    rings = (_box(-deep, 0, 0, top), _box(0, deep, 0, top))
    teeth = (PenPoint(0, 0), PenPoint(0, top))
    return Shape(FILLED, rings, closed=True), Shape("wb-outline wb-teeth", (teeth,))


def _hairs(plan: BandPlan, half: int, low: int, top: int) -> tuple[DrawnMark, ...]:
    """Hairlines from one edge of an upright band, for every so many of its stitches."""
    step = hair_step(plan)
    inner = -half + part(HAIR_SHARE, 2 * half)
    lines = tuple((PenPoint(-half, y), PenPoint(inner, y)) for y in range(low + step, top, step))
    return (Shape("wb-texture", lines),) if lines else ()


def hair_step(plan: BandPlan, every: int = BAND_HAIRS, apart: int = HAIRS_APART) -> int:
    """How far apart the hairlines of a band are: `every` so many stitches, and not too close."""
    step = hundredths(every * plan.gauge.stitch)
    while step < apart:
        step *= 2
    return step


def buttons(plan: BandPlan, low: int, top: int) -> tuple[DrawnMark, ...]:
    """The buttons over the middles of the planned holes, along a band that lies from low to top.

    A stitch of the band is as long there as its share of the edge it is sewn to.
    """
    return tuple(Disc("wb-button", PenPoint(0, low + part(share, top - low)), button_radius(plan))
                 for share in button_shares(plan, plan.stitches.value))


def button_radius(plan: BandPlan) -> int:
    """Half a button."""
    return hundredths(plan.band.buttonholes.button.mm) // 2 if plan.band.buttonholes else 0


def button_shares(plan: BandPlan, stitches: int) -> list[Fraction]:
    """Where the middles of the holes lie, as shares of so many `stitches` of the band."""
    placing = plan.placing
    if placing is None:
        return []
    return [Fraction(2 * (start - 1) + placing.hole, 2 * stitches) for start in placing.starts]


# One band from hem to hem, round the neck


def _around(plan: BandPlan, body: Body) -> tuple[DrawnMark, ...]:
    """Both sides of a band from hem to hem, the one with the buttonholes over the other."""
    deep = depth_of(plan)
    half, outer = deep // 2, body.front_neck
    inner = leaned(outer, neck_top(plan, body), 0)
    foot = outer[-1].y
    right: Line = (PenPoint(half, 0), PenPoint(half, foot), *outer[-2::-1],
                   *_shifted(inner, half)[:-1], PenPoint(-half, foot), PenPoint(-half, 0))
    over = plan.band.buttonholes.front if plan.band.buttonholes else Side.RIGHT
    sides = (right, mirrored(right)) if over is Side.RIGHT else (mirrored(right), right)
    up = Fraction(sum(m.stitches.value for m in plan.meetings[:plan.edge_path.fronts]))
    return (*(Shape(FILLED, (side,), closed=True) for side in sides),
            *(Disc("wb-button", PenPoint(0, part(share, foot)), button_radius(plan))
              for share in button_shares(plan, int(up))))


def _shifted(line: Line, half: int) -> Line:
    """The free edge, led over to the other side of the middle at its lower end."""
    first, last = line[0], line[-1]
    high = max(1, first.y - last.y)
    return tuple(PenPoint(n.x - (half + last.x) * (first.y - n.y) // high, n.y, n.reach)
                 for n in line)


# Armholes, the lower edge, pockets


def armhole_band(plan: BandPlan, half: Half) -> tuple[DrawnMark, ...]:
    """The band of both armholes: it stands outward from the body's edge."""
    at = next(i for i, n in enumerate(half.side) if n.y >= half.underarm)
    edge = half.side[at + half.stepped:]
    if edge[0].y > half.underarm:  # straight up to the shoulder
        edge = (PenPoint(edge[0].x, half.underarm), *edge)
    ring = (*edge, *beside(edge, seen_depth(plan))[::-1])
    return (Shape(FILLED, (ring, mirrored(ring)), closed=True),)


def hem_band(plan: BandPlan, half: Half) -> tuple[DrawnMark, ...]:
    """The band below the body's lower edge."""
    return (Shape(FILLED, (_box(-half.width, half.width, -seen_depth(plan), 0),), closed=True),)


def pocket_marks(parts: DrawnParts, key: str,
                 half: Half) -> list[tuple[str, tuple[DrawnMark, ...]]]:
    """The openings of a front's pockets with their bands, by the band's key."""
    outline = parts.outlines[key]
    plan = next((p for p in parts.plans if p.band.garment_edge in POCKETS), None)
    if plan is None:
        return []
    deep = depth_of(plan) if KINDS[plan.band.kind].stands else 0
    boxes = []
    for (one, up), (other, _) in outline.slots:
        if parts.assembled.garment.form is Construction.SIDEWAYS:
            boxes.append(_turned_slot(outline, one, other, up, deep))
            continue
        # The outline shows the purl side; whoever looks at the front sees it turned over.
        left, right = sorted((-hundredths(one), -hundredths(other)))
        if parts.opens:
            middle = half.width - (hundredths(outline.width) // 2 - parts.stitch(outline.key))
            away = middle if key == "left_front" else -middle
            left, right = left + away, right + away
        boxes.append(_box(left, right, hundredths(up), hundredths(up) + deep))
    looks = FILLED if deep else "wb-outline"  # what lies behind is a line
    return [(plan.band.key, (Shape(looks, (box,), closed=True),)) for box in boxes]


def _turned_slot(outline: Outline, one: Fraction, other: Fraction, up: Fraction, deep: int) -> Line:
    """A pocket of a body that was knitted sideways: its opening is upright, and its band beside it.

    The right of the bed is the upper end, so that a later row lies further to the right of whoever
    looks at the knit side.
    """
    low, high = sorted(hundredths(x + outline.width / 2) for x in (one, other))
    left = hundredths(up - outline.height / 2)
    return _box(left, left + deep, low, high)
