"""The designer's own pieces as they lie flat with the knit side up: put together, or apart."""

from __future__ import annotations

from collections.abc import Sequence

from .dart_drawing import dart_marks
from .garment_assembled import put_together
from .garment_body import FILLED
from .garment_chart import laid
from .garment_conventions import PIECES_APART
from .garment_parts import DrawnParts
from .garment_pen import DrawnMark, Groups, Line, PenPoint, Shape, hundredths, moved_right, reached
from .garment_texture import foot_lines


def outlined(parts: DrawnParts) -> Groups:
    """What joins put together to a garment that lies flat, in the middle; then every other piece
    as often as it is knitted, in the order in which it is, to the right."""
    times = parts.assembled.garment.times
    groups = put_together(parts)
    at = reached(m for _, marks in groups for m in marks)[1] + PIECES_APART if groups else 0
    for key, outline in parts.outlines.items():
        if key not in parts.pieces or key in dict(groups):
            continue
        ring = tuple(PenPoint(-hundredths(x), hundredths(y)) for x, y in outline.corners)
        left, wide = min(n.x for n in ring), hundredths(outline.width)
        marks: list[DrawnMark] = []
        for _ in range(times.get(key, 1)):
            marks += _drawn(parts, key, ring, at - left)
            at += wide + PIECES_APART
        groups.append((key, marks))
    return groups


def _drawn(parts: DrawnParts, key: str, ring: Line, right: int) -> Sequence[DrawnMark]:
    """One piece so far to the right: its outline, its chart or stripes, its short rows, and its hem
    or rib."""
    moved = moved_right(ring, right)
    half = parts.pieces[key].stitches.value * parts.stitch(key) // 2
    return (Shape(FILLED, (moved,), closed=True), *laid(parts, key, (moved,), right),
            *dart_marks(parts.outlines[key], right),
            *foot_lines(parts, key, half, lambda up, x: PenPoint(x + right, up)))
