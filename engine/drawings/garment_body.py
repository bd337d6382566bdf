"""The body of a garment: its silhouette with the neck, its hem, its slits and pockets."""

from __future__ import annotations

from dataclasses import replace

from ..catalogue.forms import Construction
from ..machine.records import dataclass
from ..plan.band_order import PLACKET
from ..shape.dimension_names import MARKS, SLIT_DEPTH
from ..shape.polygon import Outline
from .dart_drawing import dart_marks
from .garment_chart import laid
from .garment_conventions import FOLDS
from .garment_parts import SEAM, DrawnParts, Half
from .garment_pen import DrawnMark, Line, PenPoint, Shape, both_sides, hundredths, mirrored
from .garment_sleeves import KEY, strap, yoke_of
from .garment_texture import eyelets, foot_lines, on_edge, picots

FAR = 100_000  # a reach that takes in the whole of both lines beside a corner
FILLED = "wb-fill wb-outline"


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Back and front halves as they are sewn together, their middles at 0.

    `back_neck` and `front_neck` run from the highest place beside the neck down to the middle or
    the front edge, over the top of a raglan's sleeve or the end of a saddle's strap.
    """

    back: Half
    front: Half
    back_neck: Line
    front_neck: Line

    @property
    def top(self) -> PenPoint:
        """The highest place beside the neck."""
        return self.back_neck[0]


def body_of(parts: DrawnParts) -> Body:
    """Return both halves; a front that opens is sewn to the back at its side and its shoulder."""
    if parts.assembled.garment.form is Construction.SIDEWAYS:
        half = sideways(parts)
        return Body(back=half, front=half, back_neck=half.neck, front_neck=half.neck)
    back = parts.half("back")
    front = parts.half("right_front" if parts.opens else "front")
    front = front.moved(back.width - front.width)
    front_neck = _above_slit(parts, front.neck)
    if parts.assembled.garment.form is Construction.SADDLE_RAGLAN:
        back = _with_shoulder(parts, back)
        high = PenPoint(back.top.x, back.top.y + strap(parts))
        return Body(back=back, front=front, back_neck=(high, *back.neck),
                    front_neck=(high, *front_neck))
    if parts.assembled.garment.form is Construction.RAGLAN:
        over = yoke_of(parts, back).fold_top
        return Body(back=back, front=front, back_neck=(over, *back.neck),
                    front_neck=(over, *front_neck))
    return Body(back=back, front=front, back_neck=back.neck, front_neck=front_neck)


def _above_slit(parts: DrawnParts, neck: Line) -> Line:
    """A front neck without the slit of a placket below it."""
    slit = next((plan for plan in parts.plans if plan.band.garment_edge == PLACKET), None)
    found = parts.outlines["front"].dimension(SLIT_DEPTH) if slit else None
    if slit is None or found is None:
        return neck
    low = hundredths(found.start[1] + slit.edge_path.length) - parts.stitch("front") // 2
    kept = tuple(node for node in neck if node.y >= low)
    return (*kept[:-1], PenPoint(0, kept[-1].y))


def _with_shoulder(parts: DrawnParts, back: Half) -> Half:
    """The back of a saddle, whose neck is what its two straps leave."""
    neck = parts.pieces["back"].shares[1] * parts.stitch("back") // 2
    return replace(back, neck=(PenPoint(neck, back.top.y), PenPoint(0, back.top.y)))


def sideways(parts: DrawnParts) -> Half:
    """Half a body that was knitted from side to side: its rows across, its stitches upward."""
    outline = parts.outlines["back"]
    marks = outline.dimension(MARKS)
    assert marks is not None
    wide, neck = hundredths(outline.height) // 2, hundredths(marks.length.mm) // 2
    high = hundredths(outline.width) - SEAM * parts.stitch("back")
    return Half(side=(PenPoint(wide, 0), PenPoint(wide, high)),
                neck=(PenPoint(neck, high), PenPoint(0, high)),
                edge=0, underarm=high - parts.length("armhole depth"), foot=0)


def body_marks(parts: DrawnParts, half: Half,
               keys: tuple[str, ...]) -> dict[str, tuple[DrawnMark, ...]]:
    """Return the body of one view by piece: one piece, or the right and the left front."""
    if len(keys) == 1:
        (key,) = keys
        ring = _whole(half, _edge(parts, key, half, -half.side[0].x,
                                  _tail(parts.outlines[key])))
        return {key: (Shape(FILLED, (ring,), closed=True), *laid(parts, key, (ring,)),
                      *_folded(parts, half, (False, True)), *dart_marks(parts.outlines[key]),
                      *_foot(parts, key, half.width))}
    made: dict[str, tuple[DrawnMark, ...]] = {}
    for key in keys:
        ring = _ring(half, _edge(parts, key, half, half.edge))
        # The wearer's right lies at the left of whoever looks.
        turn = key == "right_front"
        own = mirrored(ring) if turn else ring
        away = half.width - (hundredths(parts.outlines[key].width) // 2 - parts.stitch(key))
        marks: list[DrawnMark] = [Shape(FILLED, (own,), closed=True),
                                  *laid(parts, key, (own,), -away if turn else away)]
        marks += _folded(parts, half, (turn,))
        side = half.width + parts.stitch(key) - hundredths(parts.outlines[key].corners[1][0])
        marks += dart_marks(parts.outlines[key], -side if turn else side)
        marks += _front_foot(parts, key, half, turn)
        made[key] = tuple(marks)
    return made


def _tail(outline: Outline) -> Line:
    """The lower edge of a shirt tail, which is alike at both sides."""
    return tuple(PenPoint(hundredths(x), hundredths(y)) for x, y in outline.tail)


def _edge(parts: DrawnParts, key: str, half: Half, first: int, tail: Line = ()) -> Line:
    """The lower edge from a place to the side; a body knitted sideways has no hem there.

    Where there is a shirt tail its line is drawn, and no points of a hem.
    """
    side = half.side[0]
    points = picots(parts, key, first, side.x, on_edge) if half.foot and not tail else ()
    return points or (PenPoint(first, side.y), *tail, side)


def _whole(half: Half, edge: Line) -> Line:
    upper = both_sides(half.neck)
    if half.shoulder == half.top:
        upper = upper[1:-1]  # a raglan's end is in the neck
    return (*edge, *half.side[1:], *upper, *mirrored(half.side[:0:-1]))


def _ring(half: Half, edge: Line) -> Line:
    """A front from its front edge round by the side."""
    return (*edge, *half.side[1:], *half.neck)


def folds(parts: DrawnParts, half: Half) -> Line:
    """The folds under an arm, one after the other, three nodes each; none without a sleeve."""
    if KEY not in parts.pieces:
        return ()
    deep = half.shoulder.y - half.underarm
    return tuple(PenPoint(half.width * x // 100, half.underarm - deep * down // 100,
                      FAR if i == 1 else 0) for fold in FOLDS for i, (x, down) in enumerate(fold))


def _folded(parts: DrawnParts, half: Half, sides: tuple[bool, ...]) -> tuple[DrawnMark, ...]:
    """The folds as marks, at the right and, where a side is turned, at the left."""
    nodes = folds(parts, half)
    lines = [nodes[:3], nodes[3:]] if nodes else []
    drawn = tuple(mirrored(line) if turn else line for turn in sides for line in lines)
    return (Shape("wb-texture", drawn),) if drawn else ()


def _foot(parts: DrawnParts, key: str, width: int) -> tuple[DrawnMark, ...]:
    return (*foot_lines(parts, key, width, on_edge), *eyelets(parts, key, on_edge))


def _front_foot(parts: DrawnParts, key: str, half: Half, turn: bool) -> list[DrawnMark]:
    """A front's hem, counted from the middle of that front."""
    wide = (half.width - half.edge + parts.stitch(key)) // 2
    middle = half.edge + wide

    def at(up: int, x: int) -> PenPoint:
        place = min(max(x + middle, half.edge), half.width)
        return PenPoint(-place if turn else place, up)

    return [*foot_lines(parts, key, wide, at), *eyelets(parts, key, at)]
