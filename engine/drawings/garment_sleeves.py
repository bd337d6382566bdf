"""Sleeves as they hang beside the body: folded along the middle, the seam below."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import isqrt

from ..catalogue.forms import Construction
from ..machine.records import dataclass
from ..shape.dimension_names import TO_UNDERARM
from .garment_chart import tile_of
from .garment_conventions import (
    BEND_SOFT,
    CAP_BEND,
    CAP_BEND_SHARE,
    DROP_BEND,
    FLATTEN,
    SLEEVE_HANGS,
    STRAP_BEND,
    YOKE_BEND,
    Direction,
)
from .garment_parts import SEAM, DrawnParts, Half
from .garment_pen import (
    DrawnMark,
    Laid,
    Line,
    PenPoint,
    Shape,
    apart,
    flattened,
    hundredths,
    mirrored,
    off,
)
from .garment_texture import foot_lines, picots

KEY = "sleeve"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sleeve:
    """Half a sleeve: `under` is its seam from the cuff up, how far each height is from the fold."""

    under: Line  # x from the fold, y from the cuff
    length: int
    cap: int
    foot: int

    @property
    def cuff(self) -> int:
        """Half its width at the cuff."""
        return self.under[0].x


def sleeve_of(parts: DrawnParts) -> Sleeve | None:
    """Return the garment's sleeve, folded; None where it has none."""
    outline = parts.outlines.get(KEY)
    if outline is None:
        return None
    seam = SEAM * parts.gauges[KEY].stitch
    top = outline.height
    right = [(x, y) for x, y in outline.corners[1:] if x > 0]
    line = flattened([PenPoint(hundredths(x - seam), hundredths(y)) for x, y in right], FLATTEN)
    up = outline.dimension(TO_UNDERARM)
    return Sleeve(under=line, length=hundredths(top), foot=hundredths(outline.hem),
                  cap=hundredths(top - up.end[1]) if up else 0)


def strap(parts: DrawnParts) -> int:
    """How much of a saddle's strap lies before the shoulder's line: half, without its seam."""
    sleeve = sleeve_of(parts)
    assert sleeve is not None
    return sleeve.under[-1].x


@dataclass(frozen=True, slots=True, kw_only=True)
class Yoke:
    """The top of a raglan's sleeve, sewn to the body: turned until both edges lie together.

    The fold runs from `fold_top` to `fold_foot`, above the underarm.
    """

    fold_top: PenPoint
    fold_foot: PenPoint


def yoke_of(parts: DrawnParts, body: Half) -> Yoke:
    """Return where the fold of a raglan's sleeve comes to lie, from the end of the body's line.

    Of a saddle the line ends below the strap.
    """
    sleeve = sleeve_of(parts)
    assert sleeve is not None
    top = sleeve.under[-1].x
    over = _strap_rows(sleeve)
    arm = next(n for n in reversed(sleeve.under) if n.y <= sleeve.length - sleeve.cap + FLATTEN)
    on_body = next(n for n in reversed(body.side) if n.y <= body.underarm + FLATTEN)
    own = (arm.x - top, sleeve.cap - over)
    theirs = (on_body.x - body.shoulder.x, body.shoulder.y - on_body.y)
    # The angle between both lines, as the product of one with the other turned over.
    real = own[1] * theirs[1] - own[0] * theirs[0]
    across = own[0] * theirs[1] + own[1] * theirs[0]
    size = max(1, isqrt(real * real + across * across))

    def turned(right: int, up: int) -> PenPoint:
        return PenPoint(body.shoulder.x + (right * real - up * across) // size,
                        body.shoulder.y + (right * across + up * real) // size)

    return Yoke(fold_top=turned(top, 0), fold_foot=turned(top, over - sleeve.cap))


def _strap_rows(sleeve: Sleeve) -> int:
    """How long the straight strap is above a raglan line; 0 without one."""
    last, before = sleeve.under[-1], sleeve.under[-2]
    return last.y - before.y if abs(last.x - before.x) <= FLATTEN else 0


def hung_sleeves(parts: DrawnParts, body: Half) -> tuple[DrawnMark, ...]:
    """Return both sleeves as they hang, behind the body."""
    sleeve = sleeve_of(parts)
    if sleeve is None:
        return ()
    if parts.assembled.garment.form in (Construction.RAGLAN, Construction.SADDLE_RAGLAN):
        return _both(parts, sleeve, _over_shoulder(parts, sleeve, body),
                     sleeve.length - sleeve.cap, (PenPoint(0, body.underarm),))
    bend = DROP_BEND
    if sleeve.cap:
        bend = CAP_BEND + sleeve.cap * CAP_BEND_SHARE.numerator // CAP_BEND_SHARE.denominator
    top = body.shoulder
    corner = off(top, _down(body), bend, bend * BEND_SOFT.numerator // BEND_SOFT.denominator)
    return _both(parts, sleeve, (top, corner), sleeve.length - bend)


def _over_shoulder(parts: DrawnParts, sleeve: Sleeve, body: Half) -> Line:
    """The fold of a raglan's sleeve from the neck to above the underarm."""
    yoke = yoke_of(parts, body)
    foot = yoke.fold_foot
    bent = PenPoint(foot.x, foot.y, YOKE_BEND)
    if not _strap_rows(sleeve):
        return body.top, yoke.fold_top, bent
    up = body.top.y + sleeve.under[-1].x
    return body.top, PenPoint(body.top.x, up), PenPoint(yoke.fold_top.x, up, STRAP_BEND), bent


def _down(body: Half) -> Direction:
    """The direction of the shoulder's line, outward."""
    a, b = body.top, body.shoulder
    along = max(1, apart(a, b))
    return Fraction(b.x - a.x, along), Fraction(b.y - a.y, along)


def _both(parts: DrawnParts, sleeve: Sleeve, upper: Line, left: int, within: Line = ()
          ) -> tuple[DrawnMark, ...]:
    """Both sleeves: the fold runs along `upper`, and hangs `left` further from its last node.

    What lies behind the body is led round by `within`.
    """
    start = upper[-1]

    def at(up: int, wide: int) -> PenPoint:
        """A place so far above the cuff and so far from the fold."""
        return off(off(start, SLEEVE_HANGS, left - up), _BELOW, wide)

    seen = [node for node in sleeve.under if node.y <= sleeve.length - sleeve.cap]
    cuff = picots(parts, KEY, 0, seen[0].x, at) or (at(0, 0), at(seen[0].y, seen[0].x))
    edge = (*upper, *cuff, *(at(node.y, node.x) for node in seen[1:]), *within)
    marks: list[DrawnMark] = [Shape("wb-fill wb-outline", (edge, mirrored(edge)), closed=True)]
    tile = tile_of(parts, KEY)
    if tile:
        # Along a sleeve the chart's rows run from the cuff to the shoulder.
        across, up = _BELOW, (-SLEEVE_HANGS[0], -SLEEVE_HANGS[1])
        place, foot = at(tile.at.y, tile.at.x), sleeve.foot
        above = (*upper, at(foot, 0), at(foot, sleeve.cuff),
                 *(at(node.y, node.x) for node in seen if node.y > foot), *within)
        marks += [Laid(replace(tile, at=place, turned=(across, up)), (above,)),
                  Laid(replace(tile, at=place.mirrored, turned=(
                      _mirrored(across), _mirrored(up))), (mirrored(above),))]
    for line in foot_lines(parts, KEY, sleeve.cuff, at, half=True):
        marks.append(Shape(line.looks, (*line.lines, *map(mirrored, line.lines))))
    return tuple(marks)


def _mirrored(direction: Direction) -> Direction:
    return -direction[0], direction[1]


# From the fold to the seam: square to the way in which a sleeve hangs.
_BELOW: Direction = (SLEEVE_HANGS[1], -SLEEVE_HANGS[0])
