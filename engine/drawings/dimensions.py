"""Dimension lines of a drawing: the line with its ends, what it measures, and its label.

Places in a drawing are whole tenths of a pixel.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from ..core.units import Length
from ..machine.records import dataclass

FONT, LETTER = 13, 15  # [px]; on a page 360 pixels wide a drawing is shown at its own size
ROW, LANE, GAP, CLEAR = 260, 130, 90, 60  # between rows and lanes, to the piece, to a label
SHORT = 340  # a line shorter than this has its label beyond its end
WIDE = 70  # about the width of a character


@dataclass(frozen=True, slots=True)
class DimensionLine:
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
    """A length in both units: "44 cm (17¼ in)". A reader's script can have either hidden."""
    cm, inches = figures(length)
    return f"{cm} ({inches})"


@lru_cache(maxsize=8192)
def px(tenths: int) -> str:
    """A place in pixels. Raises ValueError left of or above the drawing."""
    if tenths < 0:
        raise ValueError(f"{tenths} tenths of a pixel lie outside the drawing")
    ones, tenth = divmod(tenths, 10)
    return f"{ones}.{tenth}" if tenth else f"{ones}"


def moved(tenths: int) -> str:
    """How far a line goes in pixels, to the left or up with a minus."""
    return f"-{px(-tenths)}" if tenths < 0 else px(tenths)


def strokes(line: DimensionLine) -> str:
    """The line with a bar at each end, as path data."""
    level = line.level
    far, bar = ("H", "v10") if level else ("V", "h10")
    ends = "".join(f"M{_pair(line, end, line.at - 50)}{bar}" for end in (line.one, line.other))
    return f"M{_pair(line, line.one, line.at)}{far}{px(line.other)}{ends}"


def kites(line: DimensionLine) -> str:
    """A kite inside each end's bar where there is room, as path data."""
    if line.other - line.one < 240:
        return ""
    first, last = ("l5-3 5 3-5 3z", "l-5-3-5 3 5 3z") if line.level else (
        "l-3 5 3 5 3-5z", "l-3-5 3-5 3 5z")
    return (f"M{_pair(line, line.one, line.at)}{first}"
            f"M{_pair(line, line.other, line.at)}{last}")


def feet(line: DimensionLine) -> tuple[str, ...]:
    """The dotted lines from what is measured to the line, the path data of each."""
    axis = "V" if line.level else "H"
    return tuple(f"M{_pair(line, end, foot)}{axis}{px(line.at)}"
                 for end, foot in zip((line.one, line.other), line.feet, strict=True)
                 if abs(foot - line.at) > 10)


def _pair(line: DimensionLine, along: int, across: int) -> str:
    return f"{px(along)} {px(across)}" if line.level else f"{px(across)} {px(along)}"


@dataclass(frozen=True, slots=True)
class Label:
    """A text at a place: its `anchor` is start, middle or end; letters are larger and bold."""

    x: int
    y: int
    anchor: str
    text: str
    letter: str = ""
    css: str = ""


def labels_svg(labels: Iterable[Label]) -> str:
    """All labels of a drawing, those with the same anchor together."""
    by_anchor: dict[str, list[Label]] = {}
    for label in labels:
        by_anchor.setdefault(label.anchor, []).append(label)
    groups = (f'<g text-anchor="{anchor}">{"".join(map(_text, same))}</g>'
              for anchor, same in by_anchor.items())
    return f'<g fill="currentColor" font-size="{FONT}">{"".join(groups)}</g>'


def _text(label: Label) -> str:
    style = f' font-size="{LETTER}" font-weight="700"' if label.letter else ""
    cls = f' class="{label.css}"' if label.css else ""
    return f'<text x="{px(label.x)}" y="{px(label.y)}"{style}{cls}>{label.text}</text>'


def level_label(line: DimensionLine, middle: int) -> Label:
    """The label over a level line, its own middle at `middle`."""
    text = line.letter or both(line.length)
    return Label(middle, line.at - CLEAR - (10 if line.letter else 0), "middle", text, line.letter)


def label_height(line: DimensionLine, *, up: bool) -> int:
    """Where the label beside an upright line belongs; of a short one beyond an end (`up`)."""
    if line.other - line.one < SHORT and not line.letter:
        return line.one - 120 if up else line.other + 160
    return line.middle


def apart(lines: Sequence[tuple[int, int]], room: int) -> tuple[int, ...]:
    """Return label heights at least `room` from one another, each moved as little as need be.

    `lines` have the middle of each line and the height where its label belongs. Labels stand in
    the order of the middles; those that would touch share the way they are moved.
    """
    order = sorted(range(len(lines)), key=lambda i: lines[i])
    groups: list[list[int]] = []  # each the labels that touch, its members' own heights
    for i in order:
        groups.append([lines[i][1]])
        while len(groups) > 1 and _first(groups[-1], room) < _first(groups[-2], room) + room * len(
                groups[-2]):
            groups[-2:] = [groups[-2] + groups[-1]]
    placed = [_first(group, room) + room * n for group in groups for n in range(len(group))]
    return tuple(placed[order.index(i)] for i in range(len(lines)))


def _first(group: Sequence[int], room: int) -> int:
    """Where the first of labels that touch goes, so that their mean is that of their heights."""
    return sum(group) // len(group) - room * (len(group) - 1) // 2


def stacked(x: int, y: int, anchor: str, length: Length, letter: str) -> list[Label]:
    """A label around the height `y`: a letter, or centimetres over inches."""
    if letter:
        return [Label(x, y + 50, anchor, letter, letter)]
    cm, inches = figures(length)
    return [Label(x, y - 20, anchor, cm, "", "wb-cm"),
            Label(x, y + 10 * FONT - 10, anchor, inches, "", "wb-in")]
