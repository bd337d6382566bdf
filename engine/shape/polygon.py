"""A piece as a closed polygon, exactly, with its named measures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from fractions import Fraction
from math import lcm

from ..core.units import Length
from ..machine.records import dataclass
from .dimension_names import DimensionName
from .profile import Point


def extremes(figures: Sequence[Fraction]) -> tuple[Fraction, Fraction]:
    """Return the least and the greatest of some figures, which are compared as whole numbers.

    Raises ValueError for none.
    """
    under = lcm(*{figure.denominator for figure in figures})
    sizes = [figure.numerator * (under // figure.denominator) for figure in figures]
    return figures[sizes.index(min(sizes))], figures[sizes.index(max(sizes))]


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measure of a piece by name, between two points that share their height or their x."""

    name: DimensionName
    start: Point
    end: Point
    length: Length
    is_level: bool = field(init=False, compare=False)
    """True for a width, False for a height."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "is_level", self.start[1] == self.end[1])


def dimension_between(name: DimensionName, start: Point, end: Point) -> Dimension:
    """Return the measure between two points that share their height or their x."""
    level = start[1] == end[1]
    return Dimension(name, start, end, Length(abs(end[not level] - start[not level])))


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A piece as it lies on the bed, the purl side facing: `corners` of a closed polygon [mm].

    x counts from the middle of the cast-on edge, y upward from it; a hem counts with its
    finished depth, `hem` [mm, 0 where there is none], and the row that closes it as a row. The
    first corner is the left end of the cast-on edge, and the polygon runs round by the right.
    `left` and `right` are the x of its outermost points, `height` reaches from the cast-on edge
    to its highest point. `slots` are the openings of pockets, from end to end, `darts` the lines
    of vertical darts from below, `bust` those of bust darts from the edges, which make it
    `bust_deep` longer in its middle than it is drawn, `short` those of other short rows, two lines
    for each length of `short_deep`, over a part as wide as `short_over` or (0) all, `tail` the
    lower edge of a shirt tail from left to right between the ends of the cast-on edge, its heights
    below 0. A piece is drawn as wide at its rib as above it; `rib` is how wide that lies
    unstretched, None without one.
    """

    key: str
    title: str
    corners: tuple[Point, ...]
    hem: Fraction
    dimensions: tuple[Dimension, ...]
    slots: tuple[tuple[Point, Point], ...] = ()
    darts: tuple[tuple[Point, ...], ...] = ()
    bust: tuple[tuple[Point, ...], ...] = ()
    bust_deep: Length | None = None
    short: tuple[tuple[Point, ...], ...] = ()
    short_deep: tuple[Length, ...] = ()
    short_over: tuple[Length, ...] = ()
    tail: tuple[Point, ...] = ()
    rib: Length | None = None
    left: Fraction = field(init=False, compare=False)
    right: Fraction = field(init=False, compare=False)
    height: Fraction = field(init=False, compare=False)

    def __post_init__(self) -> None:
        left, right = extremes([x for x, _ in self.corners])
        object.__setattr__(self, "left", left)
        object.__setattr__(self, "right", right)
        object.__setattr__(self, "height", extremes([y for _, y in self.corners])[1])

    @property
    def low(self) -> Fraction:
        """How far the piece hangs below the ends of its cast-on edge [mm]."""
        return max((-y for _, y in self.tail), default=Fraction(0))

    @property
    def edge(self) -> tuple[Point, ...]:
        """All corners, those of a shirt tail too."""
        return (self.corners[0], *self.tail, *self.corners[1:])

    @property
    def width(self) -> Fraction:
        """From its leftmost to its rightmost point [mm]."""
        return self.right - self.left

    def dimension(self, name: DimensionName) -> Dimension | None:
        """The measure called `name`; None where the piece has none."""
        return next((d for d in self.dimensions if d.name == name), None)
