"""Sleeves as they hang beside the body: folded along the middle, the seam below."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..shape.outline import TO_UNDERARM
from .garment_conventions import (
    BEND_SOFT,
    CAP_BEND,
    CAP_BEND_SHARE,
    DROP_BEND,
    FLATTEN,
    SLEEVE_HANGS,
    Way,
)
from .garment_parts import SEAM, Half, Parts
from .garment_pen import Line, Mark, Node, Shape, apart, flattened, hundredths, mirrored, off
from .garment_texture import foot_lines

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


def sleeve_of(parts: Parts) -> Sleeve | None:
    """Return the garment's sleeve, folded; None where it has none."""
    outline = parts.outlines.get(KEY)
    if outline is None:
        return None
    seam = SEAM * parts.gauge.stitch
    top = outline.height
    right = [(x, y) for x, y in outline.corners[1:] if x > 0]
    line = flattened([Node(hundredths(x - seam), hundredths(y)) for x, y in right], FLATTEN)
    up = outline.dimension(TO_UNDERARM)
    return Sleeve(under=line, length=hundredths(top), foot=hundredths(outline.hem),
                  cap=hundredths(top - up.end[1]) if up else 0)


def hung_sleeves(parts: Parts, body: Half) -> tuple[Mark, ...]:
    """Return both sleeves of a garment with shoulders, behind the body."""
    sleeve = sleeve_of(parts)
    if sleeve is None:
        return ()
    bend = DROP_BEND
    if sleeve.cap:
        bend = CAP_BEND + sleeve.cap * CAP_BEND_SHARE.numerator // CAP_BEND_SHARE.denominator
    top = body.shoulder
    corner = off(top, _down(body), bend, bend * BEND_SOFT.numerator // BEND_SOFT.denominator)
    return _both(parts, sleeve, (top, corner), sleeve.length - bend)


def _down(body: Half) -> Way:
    """The direction of the shoulder's line, outward."""
    a, b = body.top, body.shoulder
    along = max(1, apart(a, b))
    return Fraction(b.x - a.x, along), Fraction(b.y - a.y, along)


def _both(parts: Parts, sleeve: Sleeve, upper: Line, left: int) -> tuple[Mark, ...]:
    """Both sleeves: the fold runs along `upper`, and hangs `left` further from its last node."""
    start = upper[-1]

    def at(up: int, wide: int) -> Node:
        """A place so far above the cuff and so far from the fold."""
        return off(off(start, SLEEVE_HANGS, left - up), _BELOW, wide)

    seen = [node for node in sleeve.under if node.y <= sleeve.length - sleeve.cap]
    edge = (*upper, at(0, 0), *(at(node.y, node.x) for node in seen))
    lines = [edge, mirrored(edge)]
    marks: list[Mark] = [Shape("wb-fill wb-outline", tuple(lines), closed=True)]
    for line in foot_lines(parts, KEY, sleeve.cuff, at, half=True):
        marks.append(Shape(line.looks, (*line.lines, *map(mirrored, line.lines))))
    return tuple(marks)


# From the fold to the seam: square to the way in which a sleeve hangs.
_BELOW: Way = (SLEEVE_HANGS[1], -SLEEVE_HANGS[0])
