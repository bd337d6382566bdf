"""Own pieces drawn as their joins put them together, where that makes a garment that lies flat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from ..pattern.outlines import EdgeOf, EdgeSide, Going, OutlineSpec
from ..shape.side_levels import height_to
from ..words.terms.section_names import end_of_stretch, stretch_name
from .garment_body import FILLED
from .garment_chart import laid, tile_of
from .garment_conventions import FLATTEN, STEP
from .garment_neck import depth_of
from .garment_parts import DrawnParts
from .garment_pen import (
    DrawnMark,
    Groups,
    Laid,
    Line,
    PenPoint,
    Shape,
    flattened,
    hundredths,
    mirrored,
    smoothed,
)
from .garment_texture import foot_lines


def put_together(parts: DrawnParts) -> Groups:
    """Return the pieces that are sewn to a body at both its sides, or to a ring, in their places,
    what lies lowest first; none where there is no such body."""
    assert parts.pattern.garment is not None
    spec = parts.pattern.garment.outline
    if pair := _body(spec):
        return _worn(parts, spec, *pair)
    return next((_ring(parts, key) for key in parts.pieces if _is_ring(parts, spec, key)), [])


def _body(spec: OutlineSpec) -> tuple[str, str] | None:
    """The first two pieces that are sewn to each other, left to right, at both sides: the far one
    and the near one, which is called a front or comes later."""
    sewn = {(join.one[0], join.other[0]) for join in spec.joins
            if len(join.one) == len(join.other) == 1}
    sewn |= {(other, one) for one, other in sewn}
    alike = [piece.key for piece in spec.pieces if piece.alike and piece.times == 1]
    for n, one in enumerate(alike):
        for other in alike[n + 1:]:
            sides = {(a.side, b.side) for a, b in sewn if (a.piece, b.piece) == (one, other)}
            if {(EdgeSide.LEFT, EdgeSide.RIGHT), (EdgeSide.RIGHT, EdgeSide.LEFT)} <= sides:
                return (other, one) if "front" in one else (one, other)
    return None


def _worn(parts: DrawnParts, spec: OutlineSpec, far: str, near: str) -> Groups:
    """A body with its far half behind the near one, and sleeves that lie level at its armholes."""
    groups: Groups = [(key, list(marks)) for key, marks in _sleeves(parts, spec, near)]
    for key in (far, near):
        half = smoothed(_side(parts, key), STEP)
        ring = (*half, *mirrored(half[::-1]))
        marks: list[DrawnMark] = [Shape(FILLED, (ring,), closed=True), *laid(parts, key, (ring,))]
        marks += foot_lines(parts, key, half[0].x, lambda up, x: PenPoint(x, up))
        groups.append((key, marks))
    return groups


def _side(parts: DrawnParts, key: str) -> Line:
    """The right side of a piece from its lower edge to its top, without the stitch of its seam;
    what is bound off at the top lies in none. Steps at the top are the line through them."""
    right = [PenPoint(hundredths(x), hundredths(y)) for x,
             y in parts.outlines[key].corners if x > 0]
    if stepped := _stepped_from(parts, key):
        below = [n for n in right if n.y <= stepped]
        outer = next(i for i, n in enumerate(below) if n.y == below[-1].y)
        right = [*below[:outer + 1], right[-1]]
    top = right[-1]
    free = right[-2].x != top.x
    seamed = [PenPoint(n.x - parts.stitch(key), n.y) for n in right]
    return (*seamed[:-1], top if free else seamed[-1])


def _stepped_from(parts: DrawnParts, key: str) -> int:
    """How high the steps begin that a piece ends with; 0 for one that ends otherwise."""
    assert parts.pattern.garment is not None
    spec = next(one for one in parts.pattern.garment.outline.pieces if one.key == key)
    points = spec.left
    if len(points) < 2 or points[-1].by is not Going.STEPS or points[-1].height != spec.height:
        return 0
    high = parts.assembled.measures[points[-2].height].length
    return hundredths(high.mm + parts.gauges[key].row)


def _sleeves(parts: DrawnParts, spec: OutlineSpec,
             near: str) -> Iterator[tuple[str, Sequence[DrawnMark]]]:
    """Every piece knitted twice whose upper edge is sewn to part of a side of the near half."""
    for piece in spec.pieces:
        if piece.times != 2 or not piece.alike:
            continue
        edges = [edge for join in spec.joins for one, other in ((join.one, join.other),
                                                                (join.other, join.one))
                 if EdgeOf(piece.key, EdgeSide.TOP) in one for edge in other]
        at = next((edge for edge in edges if edge.piece == near and edge.side.is_upright), None)
        if at:
            yield piece.key, tuple(_sleeve(parts, piece.key, _end(parts, at)))


def _end(parts: DrawnParts, edge: EdgeOf) -> PenPoint:
    """The upper end of a part of a side."""
    outline = parts.outlines[edge.piece]
    side = _side(parts, edge.piece)
    corner = end_of_stretch(stretch_name(edge.stretch))
    high = outline.dimension(height_to(corner)) if edge.stretch else None
    if high is None:
        return side[-1]
    up = hundredths(max(high.start[1], high.end[1]))
    return next(n for n in side if n.y >= up - hundredths(parts.gauges[edge.piece].row))


def _sleeve(parts: DrawnParts, key: str, start: PenPoint) -> Iterator[DrawnMark]:
    """A sleeve at both armholes, folded along its middle, which runs out level from `start`."""
    side = flattened(_side(parts, key), FLATTEN)
    long = hundredths(parts.outlines[key].height)

    def at(up: int, wide: int) -> PenPoint:
        return PenPoint(start.x + long - up, start.y - wide)

    edge = (start, at(0, 0), *(at(n.y, n.x) for n in side))
    yield Shape(FILLED, (edge, mirrored(edge)), closed=True)
    if tile := tile_of(parts, key):
        place = at(tile.at.y, tile.at.x)
        for line, spot, sign in ((edge, place, 1), (mirrored(edge), place.mirrored, -1)):
            turned = ((Fraction(0), Fraction(-1)), (Fraction(-sign), Fraction(0)))
            yield Laid(replace(tile, at=spot, turned=turned), (line,))
    for mark in foot_lines(parts, key, side[0].x, at, half=True):
        yield Shape(mark.looks, (*mark.lines, *map(mirrored, mark.lines)))


def _is_ring(parts: DrawnParts, spec: OutlineSpec, key: str) -> bool:
    """True for a plain strip whose upper edge is sewn to its lower one."""
    ends = {EdgeOf(key, EdgeSide.TOP), EdgeOf(key, EdgeSide.BOTTOM)}
    return len(parts.outlines[key].corners) == 4 and tile_of(parts, key) is None and any(
        {*join.one, *join.other} == ends for join in spec.joins)


def _ring(parts: DrawnParts, key: str) -> Groups:
    """A strip sewn to a ring, folded flat: half as wide as it is long, with the bands along it."""
    outline = parts.outlines[key]
    wide, high = hundredths(outline.height) // 4, hundredths(outline.width)
    groups: Groups = [(key, [_block(wide, 0, high)])]
    for plan in parts.plans:
        deep = depth_of(plan)
        spans = {f"{key}.left": (high, high + deep), f"{key}.right": (-deep, 0)}
        if plan.band.garment_edge in spans:
            groups.append((f"band {plan.band.key}", [_block(wide, *spans[plan.band.garment_edge])]))
    return groups


def _block(wide: int, low: int, high: int) -> Shape:
    return Shape(FILLED, ((PenPoint(-wide, low), PenPoint(wide, low), PenPoint(wide, high),
                           PenPoint(-wide, high)),), closed=True)
