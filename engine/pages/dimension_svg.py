"""Dimension lines of a drawing: the line with its ends, what it measures, and its label."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..counts import decimal
from ..units import Length

FONT = 13  # on a page 360 pixels wide a drawing is shown at its own size
LETTER = 15
ROW, LANE, GAP, CLEAR = 26, 13, 9, 6  # between rows and lanes, to the piece, to a label
SHORT = 34  # a line shorter than this has its label beyond its end
WIDE = 7  # about the width of a character


@dataclass(frozen=True, slots=True)
class Line:
    """A measured line in the drawing, `one` and `other` its ends along it, `at` across it.

    `feet` are where its dotted lines come from. A `letter` stands for its length if not "".
    """

    level: bool
    one: Fraction
    other: Fraction
    at: Fraction
    feet: tuple[Fraction, Fraction]
    length: Length
    letter: str = ""

    @property
    def middle(self) -> Fraction:
        """Half-way along it."""
        return (self.one + self.other) / 2


def size_of(length: Length, letter: str, level: bool) -> int:
    """About how wide a label is: on one line over a level line, else on two."""
    if letter:
        return LETTER
    cm, inches = length.in_cm(), length.in_inches()
    return WIDE * (len(cm) + len(inches) + 3 if level else max(len(cm), len(inches)))


def both(length: Length) -> str:
    """A length in both units, each in an element of its own: "44 cm (17 1/4 in)"."""
    return in_both("span", length.in_cm(), length.in_inches())


def in_both(tag: str, cm: str, inches: str) -> str:
    """Text in centimetres and in inches as elements of which a reader can have one hidden."""
    return (f'<{tag} class="wb-cm">{cm}</{tag}><{tag} class="wb-or"> (</{tag}>'
            f'<{tag} class="wb-in">{inches}</{tag}><{tag} class="wb-or">)</{tag}>')


def px(figure: Fraction | int) -> str:
    """A coordinate to a tenth of a pixel. Raises ValueError left of or above the drawing."""
    if figure < 0:
        raise ValueError(f"{figure} lies outside the drawing")
    return decimal(Fraction(figure), 1)


def path(line: Line) -> str:
    """The line with a bar at each end, and a kite inside each bar where there is room."""
    a, b, at = line.one, line.other, line.at
    strokes = _move(line, a, at) + _go(line, b, at)
    for end in (a, b):
        strokes += _move(line, end, at - 5) + _go(line, end, at + 5)
    kites = ""
    if b - a >= 24:
        for end, way in ((a, 1), (b, -1)):
            kites += (_move(line, end, at) + _go(line, end + way * 5, at - 3)
                      + _go(line, end + way * 10, at) + _go(line, end + way * 5, at + 3) + "z")
    return f'<path d="{strokes}"/><path fill="currentColor" d="{kites}"/>' if kites else \
        f'<path d="{strokes}"/>'


def feet(line: Line) -> str:
    """The dotted lines from what is measured to the line, as path data."""
    return "".join(_move(line, end, foot) + _go(line, end, line.at)
                   for end, foot in zip((line.one, line.other), line.feet, strict=True)
                   if abs(foot - line.at) > 1)


def _move(line: Line, along: Fraction, across: Fraction) -> str:
    return f"M{_pair(line, along, across)}"


def _go(line: Line, along: Fraction, across: Fraction) -> str:
    return f"L{_pair(line, along, across)}"


def _pair(line: Line, along: Fraction, across: Fraction) -> str:
    return f"{px(along)} {px(across)}" if line.level else f"{px(across)} {px(along)}"


def level_label(line: Line, middle: Fraction) -> str:
    """The label over a level line, its own middle at `middle`."""
    said = line.letter or in_both("tspan", line.length.in_cm(), line.length.in_inches())
    return text(middle, line.at - CLEAR - (1 if line.letter else 0), "middle", said, line.letter)


def label_height(line: Line, *, up: bool) -> Fraction:
    """Where the label beside an upright line belongs; of a short one beyond an end (`up`)."""
    if line.other - line.one < SHORT and not line.letter:
        return line.one - 12 if up else line.other + 16
    return line.middle


def apart(heights: Sequence[Fraction], room: int) -> tuple[Fraction, ...]:
    """Return label heights at least `room` from one another, each moved as little as need be.

    Labels that would touch keep their order and share the way they are moved.
    """
    groups: list[list[Fraction]] = []  # each the labels that touch, its members' own heights
    for height in sorted(heights):
        groups.append([height])
        while len(groups) > 1 and _first(groups[-1], room) < _first(groups[-2], room) + room * len(
                groups[-2]):
            groups[-2:] = [groups[-2] + groups[-1]]
    placed = [_first(group, room) + room * n for group in groups for n in range(len(group))]
    order = sorted(range(len(heights)), key=lambda i: heights[i])
    return tuple(placed[order.index(i)] for i in range(len(heights)))


def _first(group: Sequence[Fraction], room: int) -> Fraction:
    """Where the first of labels that touch goes, so that their mean is that of their heights."""
    return sum(group, Fraction(0)) / len(group) - Fraction(room * (len(group) - 1), 2)


def stacked(x: Fraction, y: Fraction, anchor: str, length: Length, letter: str) -> str:
    """A label around the height `y`: a letter, or centimetres over inches."""
    if letter:
        return text(x, y + 5, anchor, letter, letter)
    return (text(x, y - 2, anchor, length.in_cm(), "", "wb-cm")
            + text(x, y + FONT - 1, anchor, length.in_inches(), "", "wb-in"))


def text(x: Fraction, y: Fraction, anchor: str, said: str, letter: str, css: str = "") -> str:
    """A text at a place; letters are larger and bold."""
    style = f' font-size="{LETTER}" font-weight="700"' if letter else ""
    cls = f' class="{css}"' if css else ""
    return f'<text x="{px(x)}" y="{px(y)}" text-anchor="{anchor}"{style}{cls}>{said}</text>'
