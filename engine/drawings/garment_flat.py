"""Hats, mittens, shawls and blankets, drawn as they lie flat."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from ..catalogue.forms import Construction
from ..shape.crowns import QUARTERS
from ..shape.dimension_names import GATHERED, MARKS, TO_MARK, WEDGED
from ..shape.piece import Piece
from .garment_body import FILLED
from .garment_chart import laid
from .garment_conventions import (
    BRIM_OUT,
    CROWN_FROM,
    DOME_SHOULDER,
    DOME_SIDE,
    DOME_TOP,
    PAIR_APART,
    ROUND,
    SHAWL_ROWS,
    THUMB_STANDS,
    TIP_FROM,
    Direction,
)
from .garment_outlines import outlined
from .garment_parts import DrawnParts
from .garment_pen import (
    DrawnMark,
    Groups,
    Line,
    PenPoint,
    Shape,
    hundredths,
    mirrored,
    moved_right,
    off,
    part,
)
from .garment_texture import foot_lines, on_edge, picots, thinned


def hat(parts: DrawnParts) -> Groups:
    """A hat: its brim, or the part turned up, in front of the straight side, and the crown."""
    outline, piece = parts.outlines["hat"], parts.pieces["hat"]
    wedges, tip = _wedges(piece), piece.drawn if piece.left.changes else 0
    crown = outline.dimension(WEDGED) or outline.dimension(GATHERED)
    assert crown is not None
    half, foot = parts.length("circumference") // 4, hundredths(outline.hem)
    turned = parts.length("length") - parts.length("depth")
    high, deep = parts.length("depth"), hundredths(crown.length.mm)
    domed = deep if wedges else part(CROWN_FROM, deep)
    brim = turned or foot
    ring = _cap(half, high, deep, half * tip // piece.stitches.value) if tip else \
        dome(half, 0, high, domed)
    marks: list[DrawnMark] = [Shape(FILLED, (ring,), closed=True)]
    marks += laid(parts, "hat", (ring if tip else _straight(half, 0, high, domed, deep),))
    if wedges:
        marks += ribs_of_wedges(half, high, deep, wedges)
    elif not tip:
        marks += pleats(half, high, deep, piece.drawn // 2)
    if brim:
        wide = half + BRIM_OUT
        marks.append(Shape(FILLED, ((PenPoint(-wide, 0), PenPoint(wide, 0), PenPoint(wide, brim),
                                     PenPoint(-wide, brim)),), closed=True))
        marks += _brim_lines(parts, wide, brim, turned)
    return [("hat", marks)]


def _cap(half: int, high: int, deep: int, tip: int) -> Line:
    """A straight side that leans in to a narrow tip."""
    side = (PenPoint(half, 0), PenPoint(half, high - deep), PenPoint(max(tip, 1), high))
    return (*side, *mirrored(side[::-1]))


def _wedges(hat: Piece) -> int:
    """How many wedges its crown has, 0 for a gathered one."""
    if hat.quarters:
        return QUARTERS
    return 0 if not hat.closes or hat.closes[0].halves else hat.closes[0].fewer


def ribs_of_wedges(half: int, high: int, deep: int, wedges: int) -> list[DrawnMark]:
    """The lines between the wedges that show from the front, from the crown's foot to the top.

    Seen from the front the wedges at the sides are narrower than the middle one: their lines
    stand as on a half circle.
    """
    lines = []
    for n in range(1, wedges // 2):
        x = half - _versed(half, n, wedges // 2)
        lines.append((PenPoint(x, high - deep),
                      PenPoint(x * 85 // 100, high - deep * 45 // 100, ROUND),
                      PenPoint(x * 6 // 100, high - deep // 20)))
    return [Shape("wb-texture", tuple(lines))] if lines else []


def _versed(half: int, n: int, parts_: int) -> int:
    """How far from the left a line lies after `n` of the equal parts of a half circle."""
    return 2 * half * n * n * (3 * parts_ - 2 * n) // parts_ ** 3


def _brim_lines(parts: DrawnParts, wide: int, brim: int, turned: int) -> Iterator[DrawnMark]:
    """What shows of a rib or a hem in the brim; turned up, its lower edge is the upper one."""
    def at(up: int, x: int) -> PenPoint:
        return PenPoint(x, max(0, brim - up) if turned else min(up, brim))

    for shape in foot_lines(parts, "hat", wide, at):
        if turned or "wb-seam" not in shape.looks:
            yield shape


def dome(half: int, low: int, high: int, deep: int) -> Line:
    """A straight side that ends in a dome `deep` deep."""
    side = (PenPoint(half, low), PenPoint(half, high - deep),
            PenPoint(half, high - part(DOME_SHOULDER, deep), ROUND),
            PenPoint(part(DOME_TOP, half), high, ROUND))
    return (*side, PenPoint(0, high), *mirrored(side[::-1]))


def _straight(half: int, low: int, high: int, dome_deep: int, gathered: int) -> Line:
    """What lies below the gathered rows, within the dome."""
    side = (PenPoint(half, low), PenPoint(half, high - dome_deep),
            PenPoint(part(DOME_SIDE, half), high - gathered))
    return (*side, *mirrored(side[::-1]))


def pleats(half: int, high: int, deep: int, many: int) -> list[DrawnMark]:
    """The folds of what is drawn up: every loop that shows, from the gathered rows to the top."""
    places = thinned([half * (2 * i - many) // many for i in range(1, many)]) if many > 1 else []
    lines = []
    for i, x in enumerate(places):
        begins = high - deep * (12 if i % 2 else 9) // 10 - deep * abs(x) ** 3 // (2 * half ** 3)
        lines.append((PenPoint(x * 98 // 100, begins),
                      PenPoint(x * 62 // 100, high - deep * 28 // 100,
                                                                ROUND),
                      PenPoint(x * 6 // 100, high - deep // 12)))
    return [Shape("wb-texture", tuple(lines))] if lines else []


def mitten(parts: DrawnParts) -> Groups:
    """A pair of mittens, each flat with its seam and its thumb at the outer side."""
    hand = parts.outlines["hand"]
    below, slit, tip = (hand.dimension(name) for name in (TO_MARK, MARKS, GATHERED))
    assert below is not None and slit is not None and tip is not None
    half, high = parts.length("hand") // 4, parts.length("length")
    deep = part(TIP_FROM, hundredths(tip.length.mm))
    marks: list[DrawnMark] = []
    wide, long = parts.length("thumb") // 2, parts.length("thumb length")
    low = hundredths(below.length.mm)
    finger = _thumb(PenPoint(half, low), hundredths(slit.length.mm), wide, long)
    middle = max(node.x for node in finger) + PAIR_APART // 2
    hands: list[DrawnMark] = [Shape(FILLED, (dome(half, 0, high, deep),), closed=True),
                              *foot_lines(parts, "hand", half, lambda up, x: PenPoint(x, up))]
    groups: Groups = []
    for key, shapes in (("thumb", [Shape(FILLED, (finger,), closed=True)]), ("hand", hands)):
        marks = []
        for shape in shapes:
            assert isinstance(shape, Shape)
            moved = tuple(moved_right(line, -middle) for line in shape.lines)
            marks.append(Shape(shape.looks, (*moved, *map(mirrored, moved)), shape.closed))
        groups.append((key, marks))
    return groups


def _thumb(low: PenPoint, slit: int, wide: int, long: int) -> Line:
    """A thumb from the lower end of its slit, in whose middle it stands, rounded at its tip."""
    across: Direction = (-THUMB_STANDS[1], THUMB_STANDS[0])
    start = off(PenPoint(low.x, low.y + slit // 2), across, -wide // 2)
    tip = off(start, THUMB_STANDS, long)
    return (low, start, PenPoint(tip.x, tip.y, wide // 2),
            off(tip, across, wide, wide // 2), off(start, across, wide))


def shawl(parts: DrawnParts) -> Groups:
    """A triangle with its long edge up, and the rows that were knitted shorter and shorter."""
    outline, piece = parts.outlines["shawl"], parts.pieces["shawl"]
    ring = tuple(PenPoint(hundredths(x), -hundredths(y)) for x, y in outline.corners)
    wide, high = hundredths(outline.width) // 2, hundredths(outline.height)
    tip = piece.top * parts.stitch("shawl") // 2
    rows = piece.rows
    lines = []
    for row in range(SHAWL_ROWS, rows, SHAWL_ROWS):
        reach = tip + (wide - tip) * (rows - row) // rows
        lines.append((PenPoint(-reach, -high * row // rows), PenPoint(reach, -high * row // rows)))
    return [("shawl", [Shape(FILLED, (ring,), closed=True), Shape("wb-texture", tuple(lines))])]


def blanket(parts: DrawnParts) -> Groups:
    """Panels side by side, with the seams between them."""
    piece, outline = parts.pieces["panel"], parts.outlines["panel"]
    many = parts.assembled.garment.times["panel"]
    wide, high = parts.length("width"), hundredths(outline.height)
    stitch = parts.stitch("panel")
    each = (piece.stitches.value - 2) * stitch if many > 1 else wide
    edge = picots(parts, "panel", 0, wide, on_edge) or (PenPoint(0, 0), PenPoint(wide, 0))
    ring = (*edge, PenPoint(wide, high), PenPoint(0, high))
    first = (piece.stitches.value - 1) * stitch
    seams = tuple((PenPoint(first + i * each, 0), PenPoint(first + i * each, high))
                  for i in range(many - 1))
    marks: list[DrawnMark] = [Shape(FILLED, (ring,), closed=True)]
    for i in range(many):
        # Between its seams a panel lacks a stitch at either side; at the edges it is whole.
        middle = (first + stitch) // 2 + i * each
        panel = (PenPoint(middle - each // 2, 0), PenPoint(middle + each // 2, 0),
                 PenPoint(middle + each // 2, high), PenPoint(middle - each // 2, high))
        marks += laid(parts, "panel", (panel,), middle)
    if seams:
        marks.append(Shape("wb-seam", seams))
    if foot := hundredths(outline.hem):
        marks.append(Shape("wb-seam wb-hem", ((PenPoint(0, foot), PenPoint(wide, foot)),)))
    return [("panel", marks)]


FLAT: Mapping[Construction, Callable[[DrawnParts], Groups]] = {
    Construction.HAT: hat, Construction.MITTEN: mitten, Construction.SHAWL: shawl,
    Construction.BLANKET: blanket, Construction.OUTLINE: outlined}
"""What is drawn as it lies; every other construction is drawn as it is worn."""
