"""The body that a garment is cut for, as a broken line inside it: the room between is the ease."""

from __future__ import annotations

from ..pattern.model import GarmentSpec
from ..pattern.sketched import Sketched
from ..plan.worked_measures import own_chart
from .garment_body import Body
from .garment_conventions import BODY_SIDE
from .garment_parts import DrawnParts
from .garment_pen import DrawnMark, Line, PenPoint, Shape, hundredths, mirrored


def shows_body(spec: GarmentSpec | None) -> bool:
    """True where the source asks for the body in the sketch."""
    return spec is not None and spec.drawing is Sketched.BODY


def worn_marks(parts: DrawnParts, body: Body) -> tuple[DrawnMark, ...]:
    """Return the body's outline, both sides; nothing where the chart has no chest.

    It lies flat as the garment does: each width is a quarter of a girth from the middle. It hangs
    from the same shoulders, and ends at the garment's lower edge.
    """
    side = _side(parts, body)
    return (Shape("wb-body", (side, mirrored(side))),) if side else ()


def _side(parts: DrawnParts, body: Body) -> Line:
    girth = _girths(parts)
    if "chest" not in girth:
        return ()
    top, shoulder = body.back.top, body.back.shoulder
    across = girth.get("cross_back", 2 * shoulder.x) // 2
    chest = girth["chest"] // 4
    arm = shoulder.y - girth.get("armhole_depth", shoulder.y - body.back.underarm)
    nodes = [PenPoint(min(top.x, across), top.y), PenPoint(across, shoulder.y),
             PenPoint(across, arm + (shoulder.y - arm) // 3, BODY_SIDE),
             PenPoint(chest, arm, BODY_SIDE)]
    for name, below in (("waist", "back_waist_length"), ("hips", "back_hip_length")):
        if name in girth and below in girth and top.y - girth[below] < nodes[-1].y:
            nodes.append(PenPoint(girth[name] // 4, top.y - girth[below], BODY_SIDE))
    return _cut(nodes)


def _cut(nodes: list[PenPoint]) -> Line:
    """The line down to the garment's lower edge; what ends above it goes straight down."""
    last, before = nodes[-1], nodes[-2]
    if last.y >= 0:
        return (*nodes, PenPoint(last.x, 0)) if last.y else tuple(nodes)
    share_of = before.y - last.y
    x = before.x + (last.x - before.x) * before.y // max(1, share_of)
    return (*nodes[:-1], PenPoint(x, 0))


def _girths(parts: DrawnParts) -> dict[str, int]:
    """The body measurements that are lengths, by name, the designer's own among them."""
    assert parts.pattern.garment is not None
    known = own_chart(parts.pattern.garment).measurements(parts.size.size)
    return {name: hundredths(one.length.mm) for name, one in known.items() if one.is_length}

