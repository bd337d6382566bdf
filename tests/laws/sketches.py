"""Reads a sketch back: the lines of its SVG as points in millimetres, x to the right, y up."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree

_STEP = re.compile(r"([a-zA-Z])([^a-zA-Z]*)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Drawn:
    """One line as it is drawn: of which part, of which classes, its points, curves in 8 steps."""

    part: str
    looks: tuple[str, ...]
    points: tuple[Point, ...]

    @property
    def xs(self) -> list[float]:
        return [x for x, _ in self.points]

    @property
    def ys(self) -> list[float]:
        return [y for _, y in self.points]


@dataclass(frozen=True, slots=True)
class Repeat:
    """A repeat of a chart: a corner it has, its size, the boxes in the second colour, and the lines
    of what is no plain stitch [mm].

    Boxes and lines are counted from the repeat's lower left corner, y up.
    """

    x: float
    y: float
    wide: float
    high: float
    boxes: tuple[tuple[Point, ...], ...]
    lines: tuple[tuple[Point, ...], ...]


def sketches(text: str) -> list[ElementTree.Element]:
    """The SVG elements of what the door returned."""
    return list(ElementTree.fromstring(f"<div>{text}</div>"))


def drawn(svg: ElementTree.Element) -> Iterator[Drawn]:
    """Every line of a sketch; a circle as its middle and its rightmost point.

    A repeat's lines are counted from its own corner, and drawn within the shape it fills: `repeats`
    has these.
    """
    unit = float(svg.attrib["data-mm"])
    for group in svg:
        if group.tag == "pattern":
            continue
        part = group.attrib.get("data-part", "")
        for mark in group.iter():
            looks = tuple(mark.attrib.get("class", "").split())
            if mark.tag == "circle":
                x, y, r = (float(mark.attrib[name]) / unit for name in ("cx", "cy", "r"))
                yield Drawn(part, looks, ((x, -y), (x + r, -y)))
            elif mark.tag == "path":
                for line in _lines(mark.attrib["d"]):
                    yield Drawn(part, looks, tuple((x / unit, -y / unit) for x, y in line))


def repeats(svg: ElementTree.Element) -> Iterator[Repeat]:
    """Every repeat of a chart, in millimetres."""
    unit = float(svg.attrib["data-mm"])
    for one in svg.iter("pattern"):
        a, b, c, d, e, f = map(float, one.attrib["patternTransform"][7:-1].split())
        group = one[0]
        high = float(one.attrib["height"])
        drawn_in = {look: tuple(
            tuple((x * a / unit, -y * a / unit) for x, y in line) for mark in group
            if look in mark.attrib["class"] for line in _lines(mark.attrib["d"]))
            for look in ("wb-second", "wb-mark")}
        assert b == c == 0 and a == d
        yield Repeat(e / unit, -f / unit, float(one.attrib["width"]) * a / unit, high * a / unit,
                     drawn_in["wb-second"], drawn_in["wb-mark"])


def _lines(d: str) -> Iterator[list[Point]]:
    line: list[Point] = []
    here: Point = (0.0, 0.0)
    for name, text in _STEP.findall(d):
        n = [float(one) for one in _NUMBER.findall(text)]
        if name in "Mm":
            if line:
                yield line
            # "m" first of all is counted from 0, and then from where the last line ended
            here = (here[0] + n[0], here[1] + n[1])
            line = [here]
        elif name == "z":
            line.append(line[0])
            here = line[0]
        elif name == "q":
            line += [_bent(here, n, t / 8) for t in range(1, 9)]
            here = line[-1]
        else:
            assert name in "lhv", name
            dx, dy = (n[0], 0.0) if name == "h" else (0.0, n[0]) if name == "v" else (n[0], n[1])
            here = (here[0] + dx, here[1] + dy)
            line.append(here)
    if line:
        yield line


def _bent(start: Point, n: list[float], t: float) -> Point:
    (x, y), (cx, cy, ex, ey) = start, n
    return (x + 2 * t * (1 - t) * cx + t * t * ex, y + 2 * t * (1 - t) * cy + t * t * ey)
