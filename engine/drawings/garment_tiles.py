"""Repeats of charts as SVG patterns, each named once in a sketch."""

from __future__ import annotations

from dataclasses import field
from fractions import Fraction

from ..machine.records import dataclass
from .garment_conventions import Direction
from .garment_pen import Tile, data, hundredths

FINE = 10  # hundredths of a millimetre to the unit within a repeat


@dataclass(slots=True)
class Tiles:
    """The patterns of one sketch, in the order in which they are first laid.

    Ids begin with `prefix`; `grain` is the sketch's unit, `line` the width of a chart's lines, both
    in hundredths of a millimetre.
    """

    prefix: str
    grain: int
    line: int
    names: dict[Tile, str] = field(default_factory=dict)

    def of(self, tile: Tile) -> str:
        """The id of the pattern of a tile."""
        return self.names.setdefault(tile, f"{self.prefix}-{len(self.names)}")

    @property
    def patterns(self) -> str:
        """All patterns, as SVG."""
        return "".join(self._pattern(tile, name) for tile, name in self.names.items())

    def _pattern(self, tile: Tile, name: str) -> str:
        marks = "".join(f'<path class="{mark.looks}" '
                        f'd="{data(mark.lines, FINE, closed=mark.closed)}"/>'
                        for mark in tile.marks)
        # A pattern's own y goes down from the top of its first repeat.
        high = _two(tile.high)
        return (f'<pattern id="{name}" patternUnits="userSpaceOnUse" width="{_two(tile.wide)}" '
                f'height="{high}" patternTransform="matrix({self._matrix(tile)})">'
                f'<g transform="translate(0 {high})" stroke-width="{max(1, self.line // FINE)}">'
                f"{marks}</g></pattern>")

    def _matrix(self, tile: Tile) -> str:
        right, up = tile.turned
        scale = Fraction(FINE, self.grain)
        along, down = _svg(right), _svg((-up[0], -up[1]))
        turn = [_three(one * scale) for one in (*along, *down)]
        return " ".join((*turn, _two(Fraction(tile.at.x * FINE, self.grain)),
                         _two(Fraction(-tile.at.y * FINE, self.grain))))


def _svg(direction: Direction) -> Direction:
    """A direction where y goes down."""
    return direction[0], -direction[1]


def _two(hundredths_: Fraction) -> str:
    """Hundredths of a millimetre in tenths of one, to a hundredth."""
    return _figure(hundredths(hundredths_ / FINE), 2)


def _three(number: Fraction) -> str:
    return _figure(hundredths(number * 100), 4)


def _figure(whole: int, places: int) -> str:
    sign, digits = "-" if whole < 0 else "", str(abs(whole)).rjust(places + 1, "0")
    return f"{sign}{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".")
