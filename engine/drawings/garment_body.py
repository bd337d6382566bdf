"""The body of a garment: its silhouette with the neck, its hem, its slits and pockets."""

from __future__ import annotations

from dataclasses import dataclass

from .garment_parts import Half, Parts
from .garment_pen import Line, Mark, Node, Shape, both_sides, mirrored
from .garment_texture import foot_lines

FILLED = "wb-fill wb-outline"


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Back and front halves as they are sewn together, their middles at 0."""

    back: Half
    front: Half

    @property
    def top(self) -> Node:
        """Where neck and shoulder meet."""
        return self.back.top


def body_of(parts: Parts) -> Body:
    """Return both halves; a front that opens is sewn to the back at its side and its shoulder."""
    back = parts.half("back")
    front = parts.half("right_front" if parts.opens else "front")
    return Body(back=back, front=front.moved(back.width - front.width))


def body_marks(parts: Parts, half: Half, keys: tuple[str, ...]) -> dict[str, tuple[Mark, ...]]:
    """Return the body of one view by piece: one piece, or the right and the left front."""
    if len(keys) == 1:
        (key,) = keys
        ring = _whole(half)
        return {key: (Shape(FILLED, (ring,), closed=True), *_foot(parts, key, half.width))}
    made: dict[str, tuple[Mark, ...]] = {}
    ring = _ring(half)
    for key in keys:
        # The wearer's right lies at the left of whoever looks.
        turn = key == "right_front"
        marks: list[Mark] = [Shape(FILLED, (mirrored(ring) if turn else ring,), closed=True)]
        marks += _front_foot(parts, key, half, turn)
        made[key] = tuple(marks)
    return made


def _whole(half: Half) -> Line:
    upper = both_sides(half.neck)
    if half.shoulder == half.top:
        upper = upper[1:-1]
    return (*mirrored(half.side[:1]), *half.side, *upper, *mirrored(half.side[:0:-1]))


def _ring(half: Half) -> Line:
    """A front from its front edge round by the side."""
    return (Node(half.edge, 0), *half.side, *half.neck)


def _foot(parts: Parts, key: str, width: int) -> tuple[Mark, ...]:
    return tuple(foot_lines(parts, key, width, lambda up, x: Node(x, up)))


def _front_foot(parts: Parts, key: str, half: Half, turn: bool) -> list[Mark]:
    """A front's hem, counted from the middle of that front."""
    wide = (half.width - half.edge + parts.stitch) // 2
    middle = half.edge + wide

    def at(up: int, x: int) -> Node:
        place = min(max(x + middle, half.edge), half.width)
        return Node(-place if turn else place, up)

    return list(foot_lines(parts, key, wide, at))
