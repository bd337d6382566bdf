"""Small outlines of pieces and bands, all to one scale: what a list of the work shows of each.

Nothing is written in them, and no text reads them aloud: the name stands beside.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..machine.records import dataclass
from ..plan.band import depth_mm
from ..proof.proof import Strip
from ..shape.polygon import Outline

WIDE, HIGH = 96, 84  # the room for one outline [px]; the largest of a garment fits it
UNIT = 2  # a unit of the drawing [mm]: shorter paths, and half a pixel at most on a phone
EDGE = 2  # room for the stroke [px]
HOLE = 3  # how high a hole is drawn [px], however narrow the band

Corners = tuple[tuple[Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Small:
    """A shape whose lowest corner has y = 0, and whose leftmost has x = `left` [mm, y upward].

    `hem` is the row where its hem ends, and `holes` lie along it.
    """

    corners: Corners
    left: Fraction
    width: Fraction
    height: Fraction
    hem: Fraction = Fraction(0)
    holes: tuple[Fraction, ...] = ()


def small_piece(outline: Outline) -> Small:
    """Return the shape of a piece of a garment."""
    return Small(corners=outline.corners, left=outline.left, width=outline.width,
                 height=outline.height, hem=outline.hem)


def small_band(strip: Strip) -> Small:
    """Return a band, or a part of one, as it lies finished: its length, its depth, its holes."""
    plan = strip.plan
    long, deep = plan.stitches.value * plan.along, depth_mm(plan)
    holes: tuple[Fraction, ...] = ()
    if strip.with_holes and plan.placing and not plan.part:
        half = Fraction(plan.placing.hole, 2)
        holes = tuple((start - 1 + half) * plan.along for start in plan.placing.starts)
    nought = Fraction(0)
    return Small(corners=((nought, nought), (long, nought), (long, deep), (nought, deep)),
                 left=nought, width=long, height=deep, holes=holes)


def small_outlines(shapes: Mapping[str, Small]) -> Mapping[str, str]:
    """Return an SVG element for each shape, its drawing with the id `o-` and the shape's key.

    All have one scale: the largest at which every one fits.
    """
    fits = [min(Fraction(WIDE) / s.width, Fraction(HIGH) / s.height) for s in shapes.values()]
    scale = min(fits, default=Fraction(1))
    return {key: _drawn(key, shape, scale) for key, shape in shapes.items()}


def again(drawn: str, key: str) -> str:
    """Return a drawing of the page once more, in the room that it has there."""
    head = drawn[:drawn.index(">") + 1]
    return f'{head}<use href="#o-{key}"/></svg>'


def _drawn(key: str, shape: Small, scale: Fraction) -> str:
    pad = Fraction(EDGE) / scale / UNIT
    across, down = shape.width / UNIT + 2 * pad, shape.height / UNIT + 2 * pad
    points = [(_units_between(shape.left, x), _units_between(y, shape.height))
              for x, y in shape.corners]
    hem = (f'<path d="M0 {_units(shape.height - shape.hem)}'
           f'h{_units(shape.width)}"/>') if shape.hem else ""
    box = f"{-_up(pad)} {-_up(pad)} {_up(across)} {_up(down)}"
    return (f'<svg class="wb-small" aria-hidden="true" viewBox="{box}" '
            f'width="{_up(across * UNIT * scale)}" height="{_up(down * UNIT * scale)}">'
            f'<g id="o-{key}" class="wb-out"><path d="{_path(points)}"/>'
            f"{hem}{_holes(shape, scale)}</g></svg>")


def _path(points: Sequence[tuple[int, int]]) -> str:
    """A closed path with relative lines, the shortest that goes through all points."""
    (x, y), out = points[0], [f"M{points[0][0]} {points[0][1]}"]
    for to_x, to_y in points[1:]:
        if (to_x, to_y) == (x, y):
            continue
        if to_y == y:
            out.append(f"h{to_x - x}")
        elif to_x == x:
            out.append(f"v{to_y - y}")
        else:
            out.append(f"l{to_x - x} {to_y - y}".replace(" -", "-"))
        x, y = to_x, to_y
    return "".join(out) + "z"


def _holes(shape: Small, scale: Fraction) -> str:
    """Buttonholes, each a short stroke across the middle of the band."""
    if not shape.holes:
        return ""
    high = _up(Fraction(HOLE) / scale / UNIT)
    top = _units(shape.height / 2) - high // 2
    return f'<path d="{"".join(f"M{_units(at)} {top}v{high}" for at in shape.holes)}"/>'


def _units(mm: Fraction) -> int:
    """The nearest whole number of units of the drawing; a half goes up."""
    per = UNIT * mm.denominator
    return (2 * mm.numerator + per) // (2 * per)


def _units_between(one: Fraction, other: Fraction) -> int:
    """The nearest whole number of units from one place to another; a half goes up."""
    first, by = one.as_integer_ratio()
    last, under = other.as_integer_ratio()
    per = UNIT * by * under
    return (2 * (last * by - first * under) + per) // (2 * per)


def _up(value: Fraction) -> int:
    return -(-value.numerator // value.denominator)
