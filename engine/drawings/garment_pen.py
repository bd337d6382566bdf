"""Lines of a garment's sketch: nodes in hundredths of a millimetre, written as short path data.

x goes to the right of whoever looks, y up. Everything is a whole number, so that the same pieces
give the same bytes everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import isqrt
from typing import NamedTuple

from ..machine.records import dataclass
from .garment_conventions import Direction

HUNDREDTHS = 100  # to the millimetre


class PenPoint(NamedTuple):
    """A corner of a line; one with a `reach` is rounded, so far along the lines beside it."""

    x: int
    y: int
    reach: int = 0

    @property
    def mirrored(self) -> PenPoint:
        """The same at the other side of the middle."""
        return PenPoint(-self.x, self.y, self.reach)


Line = tuple[PenPoint, ...]
Command = tuple[str, tuple[tuple[int, int], ...]]


@dataclass(frozen=True, slots=True)
class Shape:
    """Lines of one class; each closed or open."""

    looks: str
    lines: tuple[Line, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Disc:
    """A round thing: a button."""

    looks: str
    middle: PenPoint
    radius: int


@dataclass(frozen=True, slots=True)
class Tile:
    """What is laid over and over: `wide` and `high` [hundredths], `at` a lower left corner of it.

    Its marks are counted from there. `turned` are the directions to its right and upward.
    """

    wide: Fraction
    high: Fraction
    marks: tuple[Shape, ...]
    at: PenPoint
    turned: tuple[Direction, Direction] = ((Fraction(1), Fraction(0)), (Fraction(0), Fraction(1)))


@dataclass(frozen=True, slots=True)
class Laid:
    """A closed line filled with tiles."""

    tile: Tile
    lines: tuple[Line, ...]


DrawnMark = Shape | Disc | Laid
Groups = list[tuple[str, Sequence[DrawnMark]]]  # what is drawn, by the key of its piece or band


def hundredths(mm: Fraction) -> int:
    """A length in whole hundredths of a millimetre, the nearest."""
    under = mm.denominator
    return (2 * HUNDREDTHS * mm.numerator + under) // (2 * under)


def off(start: PenPoint, direction: Direction, far: int, reach: int = 0) -> PenPoint:
    """The node `far` from `start` in a direction."""
    return PenPoint(start.x + part(direction[0], far), start.y + part(direction[1], far), reach)


def part(share: Fraction, of: int) -> int:
    """A share of a length, a whole number."""
    return of * share.numerator // share.denominator


def apart(a: tuple[int, ...], b: tuple[int, ...]) -> int:
    """How far two nodes are from each other."""
    return isqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2)


def moved_right(line: Line, right: int) -> Line:
    """The line, so far to the right."""
    return tuple(PenPoint(n.x + right, n.y, n.reach) for n in line)


def mirrored(line: Iterable[PenPoint]) -> Line:
    """The line at the other side of the middle, in the same order."""
    return tuple(node.mirrored for node in line)


def both_sides(half: Sequence[PenPoint]) -> Line:
    """A line that ends at the middle, and back at the other side."""
    middle = half[-1].x == 0
    return (*half, *mirrored(half[::-1])[1 if middle else 0:])


def soft(line: Sequence[PenPoint], reach: int) -> Line:
    """The line with every inner corner rounded."""
    return tuple(PenPoint(n.x, n.y, reach if 0 < i < len(line) - 1 else 0)
                 for i, n in enumerate(line))


def beside(line: Sequence[PenPoint], by: int) -> Line:
    """The line `by` further to the right of whoever walks along it; corners are mitred."""
    normals = [(b.y - a.y, a.x - b.x, max(1, apart(a, b))) for a, b in pairwise(line)]
    out = []
    for i, node in enumerate(line):
        a, b = normals[max(0, i - 1)], normals[min(i, len(normals) - 1)]
        # The sum of both normals; as far along it as brings the node `by` from either line.
        x, y = a[0] * b[2] + b[0] * a[2], a[1] * b[2] + b[1] * a[2]
        over = max(1, a[2] * b[2] + a[0] * b[0] + a[1] * b[1])
        out.append(PenPoint(node.x + by * x // over, node.y + by * y // over, node.reach))
    return tuple(out)


def smoothed(line: Sequence[PenPoint], step: int) -> Line:
    """The line through the middles of its steps, which are shorter than `step`.

    Its first and its last stretch stay as they are, and longer ones. A step beside one of these is
    passed over, for its middle would be a kink there.
    """
    steps = list(pairwise(line))
    stays = [apart(a, b) >= step or i in (0, len(steps) - 1) for i, (a, b) in enumerate(steps)]
    out = [line[0]]
    for i, (a, b) in enumerate(steps):
        if stays[i]:
            out += [a, b]
        elif not (stays[i - 1] or stays[i + 1]):
            out.append(PenPoint((a.x + b.x) // 2, (a.y + b.y) // 2))
    return tuple(node for node, before in zip(out, (None, *out), strict=False) if node != before)


def bent_to_one_side(line: Sequence[PenPoint]) -> Line:
    """The line without corners at which it turns to the left of whoever walks along it."""
    kept: list[PenPoint] = []
    for node in line:
        while len(kept) > 1 and _turn(kept[-2], kept[-1], node) >= 0:
            kept.pop()
        kept.append(node)
    return tuple(kept)


def _turn(a: PenPoint, b: PenPoint, c: PenPoint) -> int:
    """More than 0 where the way from `a` over `b` to `c` turns to the left."""
    return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x)


def flattened(line: Sequence[PenPoint], by: int) -> Line:
    """The line without corners that lie no further than `by` from a straight one (Douglas and
    Peucker, "Algorithms for the reduction of the number of points", 1973, from memory)."""
    if len(line) < 3:
        return tuple(line)
    a, b = line[0], line[-1]
    wide, high = b.x - a.x, b.y - a.y
    length = max(1, isqrt(wide * wide + high * high))
    far, at = max((abs((n.x - a.x) * high - (n.y - a.y) * wide) // length, i)
                  for i, n in enumerate(line[1:-1], 1))
    if far <= by:
        return a, b
    return (*flattened(line[:at + 1], by)[:-1], *flattened(line[at:], by))


def _corner(before: PenPoint, node: PenPoint,
            after: PenPoint) -> tuple[tuple[int, int], tuple[int, int]]:
    """Where the rounding of a corner begins and ends."""
    ends = []
    for other in (before, after):
        length = max(1, apart(node, other))
        far = min(node.reach, length // 2 if other.reach else length)
        ends.append((node.x + (other.x - node.x) * far // length,
                     node.y + (other.y - node.y) * far // length))
    return ends[0], ends[1]


def _commands(line: Line, closed: bool) -> Iterator[Command]:
    yield "M", ((line[0].x, line[0].y),)
    last = len(line) - 1
    for i, node in enumerate(line[1:], 1):
        if node.reach and (closed or i < last):
            enter, leave = _corner(line[i - 1], node, line[(i + 1) % len(line)])
            yield "L", (enter,)
            yield "Q", ((node.x, node.y), leave)
        else:
            yield "L", ((node.x, node.y),)
    if closed:
        yield "Z", ()


def data(lines: Iterable[Line], grain: int, *, closed: bool = False) -> str:
    """Path data of lines, in units of `grain` hundredths; y down, each step from the one before."""
    out: list[str] = []
    here = began = (0, 0)
    for line in lines:
        for name, points in _commands(line, closed):
            if name == "Z":
                out.append("z")
                here = began
                continue
            to = [_in(point, grain) for point in points]
            if name == "L" and to[0] == here:
                continue
            out.append(_step(name, here, to))
            here = to[-1]
            if name == "M":
                began = here
    return "".join(out)


def _in(point: tuple[int, int], grain: int) -> tuple[int, int]:
    x, y = point
    return (2 * x + grain) // (2 * grain), -((2 * y + grain) // (2 * grain))


def _step(name: str, here: tuple[int, int], to: Sequence[tuple[int, int]]) -> str:
    if name == "L":
        x, y = to[0][0] - here[0], to[0][1] - here[1]
        return f"h{x}" if not y else f"v{y}" if not x else f"l{x} {y}" if y >= 0 else f"l{x}{y}"
    numbers = [n for x, y in to for n in (x - here[0], y - here[1])]
    text = "".join(f" {n}" if i and n >= 0 else str(n) for i, n in enumerate(numbers))
    return name.lower() + text


def reached(marks: Iterable[DrawnMark]) -> tuple[int, int, int, int]:
    """How far marks go: the least and the greatest x, the least and the greatest y."""
    xs: list[int] = []
    ys: list[int] = []
    for mark in marks:
        if isinstance(mark, Disc):
            xs += [mark.middle.x - mark.radius, mark.middle.x + mark.radius]
            ys += [mark.middle.y - mark.radius, mark.middle.y + mark.radius]
            continue
        xs += [node.x for line in mark.lines for node in line]
        ys += [node.y for line in mark.lines for node in line]
    return min(xs), max(xs), min(ys), max(ys)
