"""Dimension lines of a drawing: the line with its ends, what it measures, and its label.

Places in a drawing are whole tenths of a pixel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..units import Length

FONT, LETTER = 13, 15  # [px]; on a page 360 pixels wide a drawing is shown at its own size
ROW, LANE, GAP, CLEAR = 260, 130, 90, 60  # between rows and lanes, to the piece, to a label
SHORT = 340  # a line shorter than this has its label beyond its end
WIDE = 70  # about the width of a character


@dataclass(frozen=True, slots=True)
class Line:
    """A measured line in the drawing, `one` and `other` its ends along it, `at` across it.

    `feet` are where its dotted lines come from. A `letter` stands for its length if not "".
    """

    level: bool
    one: int
    other: int
    at: int
    feet: tuple[int, int]
    length: Length
    letter: str = ""

    @property
    def middle(self) -> int:
        """Half-way along it."""
        return (self.one + self.other) // 2


def size_of(length: Length, letter: str, level: bool) -> int:
    """About how wide a label is: on one line over a level line, else on two."""
    if letter:
        return 10 * LETTER
    cm, inches = figures(length)
    return WIDE * (len(cm) + len(inches) + 3 if level else max(len(cm), len(inches)))


@lru_cache(maxsize=4096)
def figures(length: Length) -> tuple[str, str]:
    """A length in centimetres and in inches."""
    return length.in_cm(), length.in_inches()


def both(length: Length) -> str:
    """A length in both units, each in an element of its own: "44 cm (17 1/4 in)"."""
    return in_both("span", *figures(length))


def in_both(tag: str, cm: str, inches: str) -> str:
    """Text in centimetres and in inches as elements of which a reader can have one hidden."""
    return (f'<{tag} class="wb-cm">{cm}</{tag}><{tag} class="wb-or"> (</{tag}>'
            f'<{tag} class="wb-in">{inches}</{tag}><{tag} class="wb-or">)</{tag}>')


def px(tenths: int) -> str:
    """A place in pixels. Raises ValueError left of or above the drawing."""
    if tenths < 0:
        raise ValueError(f"{tenths} tenths of a pixel lie outside the drawing")
    ones, tenth = divmod(tenths, 10)
    return f"{ones}.{tenth}" if tenth else f"{ones}"


def path(line: Line) -> str:
    """The line with a bar at each end, and a kite inside each bar where there is room."""
    a, b, at = line.one, line.other, line.at
    strokes = _move(line, a, at) + _go(line, b, at)
    for end in (a, b):
        strokes += _move(line, end, at - 50) + _go(line, end, at + 50)
    kites = ""
    if b - a >= 240:
        for end, way in ((a, 1), (b, -1)):
            kites += (_move(line, end, at) + _go(line, end + way * 50, at - 30)
                      + _go(line, end + way * 100, at) + _go(line, end + way * 50, at + 30) + "z")
    return f'<path d="{strokes}"/><path fill="currentColor" d="{kites}"/>' if kites else \
        f'<path d="{strokes}"/>'


def feet(line: Line) -> str:
    """The dotted lines from what is measured to the line, as path data."""
    return "".join(_move(line, end, foot) + _go(line, end, line.at)
                   for end, foot in zip((line.one, line.other), line.feet, strict=True)
                   if abs(foot - line.at) > 10)


def _move(line: Line, along: int, across: int) -> str:
    return f"M{_pair(line, along, across)}"


def _go(line: Line, along: int, across: int) -> str:
    return f"L{_pair(line, along, across)}"


def _pair(line: Line, along: int, across: int) -> str:
    return f"{px(along)} {px(across)}" if line.level else f"{px(across)} {px(along)}"


def level_label(line: Line, middle: int) -> str:
    """The label over a level line, its own middle at `middle`."""
    said = line.letter or in_both("tspan", *figures(line.length))
    return text(middle, line.at - CLEAR - (10 if line.letter else 0), "middle", said, line.letter)


def label_height(line: Line, *, up: bool) -> int:
    """Where the label beside an upright line belongs; of a short one beyond an end (`up`)."""
    if line.other - line.one < SHORT and not line.letter:
        return line.one - 120 if up else line.other + 160
    return line.middle


def apart(heights: Sequence[int], room: int) -> tuple[int, ...]:
    """Return label heights at least `room` from one another, each moved as little as need be.

    Labels that would touch keep their order and share the way they are moved.
    """
    groups: list[list[int]] = []  # each the labels that touch, its members' own heights
    for height in sorted(heights):
        groups.append([height])
        while len(groups) > 1 and _first(groups[-1], room) < _first(groups[-2], room) + room * len(
                groups[-2]):
            groups[-2:] = [groups[-2] + groups[-1]]
    placed = [_first(group, room) + room * n for group in groups for n in range(len(group))]
    order = sorted(range(len(heights)), key=lambda i: heights[i])
    return tuple(placed[order.index(i)] for i in range(len(heights)))


def _first(group: Sequence[int], room: int) -> int:
    """Where the first of labels that touch goes, so that their mean is that of their heights."""
    return sum(group) // len(group) - room * (len(group) - 1) // 2


def stacked(x: int, y: int, anchor: str, length: Length, letter: str) -> str:
    """A label around the height `y`: a letter, or centimetres over inches."""
    if letter:
        return text(x, y + 50, anchor, letter, letter)
    cm, inches = figures(length)
    return (text(x, y - 20, anchor, cm, "", "wb-cm")
            + text(x, y + 10 * FONT - 10, anchor, inches, "", "wb-in"))


def text(x: int, y: int, anchor: str, said: str, letter: str, css: str = "") -> str:
    """A text at a place; letters are larger and bold."""
    style = f' font-size="{LETTER}" font-weight="700"' if letter else ""
    cls = f' class="{css}"' if css else ""
    return f'<text x="{px(x)}" y="{px(y)}" text-anchor="{anchor}"{style}{cls}>{said}</text>'
