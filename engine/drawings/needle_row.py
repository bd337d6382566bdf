"""Draws the needles of a state of the bed as they lie: the rail above, the needles towards you.

A needle's length and its tip say where it stands, colour never: out of work a stub; in work a short
stroke with a dot; in upper working position a longer one with a square; held the longest, with an
open triangle. A bracket below counts neighbours that are alike. A drawing is as wide as a phone's
page and is never stretched: its labels stay at 14 pixels. Places in it are tenths of a pixel.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from ..machine.needles import NONE, Needle, Needles
from ..machine.records import dataclass
from ..machine.trace import State
from ..words.needle_marks import SHORT, Mark, sorted_needles
from ..words.words import diagram_text, loops_short
from .dimensions import px
from .two_bed_needles import shared

WIDE, HIGH, EDGE = 3280, 660, 80
RAIL, BRACKET, COUNT = 200, 460, 620
LARGEST, TIPS_FROM = 120, 40  # the widest pitch; a narrower one than TIPS_FROM has strokes alone
BAR = 12  # how broad a needle is
LONG = {Mark.OUT: 40, Mark.CHOSEN: 150, Mark.UPPER: 150, Mark.HELD: 210}
WORKING = 100  # how long any other needle is
FEW = 12  # neighbours that each have their tip drawn, where it is not a dot or a square
MOST = 24  # groups with a bracket each
_Run = tuple[int, int, int]
_Group = tuple[Mark, int, Needles]
CHAR = 72  # about the width of a character


@dataclass(frozen=True, slots=True)
class _NeedleRow:
    """The needles of a drawing: the first that is shown, how far apart they lie."""

    first: int
    last: int
    pitch: int

    def x(self, place: int) -> int:
        """The middle of a needle."""
        return EDGE + self.pitch * (place - self.first) + self.pitch // 2

    @property
    def wide(self) -> int:
        """How wide the drawing is: a narrow bed needs less than a page."""
        return 2 * EDGE + self.pitch * (self.last - self.first + 1)


def needle_row(state: State, shown: Needles, *, chosen: Needles = NONE, prefix: str, title: str,
               mark: Mark = Mark.CHOSEN) -> str:
    """Return the figure of the `shown` needles, the `chosen` ones with their `mark`.

    Ids begin with `prefix`, `title` is HTML. The words below it name every needle.
    """
    first, last = shown.first.place, shown.last.place
    row = _NeedleRow(first, last, min(LARGEST, (WIDE - 2 * EDGE) // (last - first + 1)))
    groups = sorted_needles(state, shown, chosen, mark)
    return (
        f'<figure class="wb-needles"><svg viewBox="0 0 {px(row.wide)} {px(HIGH)}" '
        f'width="{px(row.wide)}" height="{px(HIGH)}" fill="none" stroke="currentColor" role="img"'
        f' aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{title}</title>{_frame(row)}{_needles(groups, row)}'
        f"{_brackets(groups, row)}</svg>"
        f'<figcaption id="{prefix}-d">{diagram_text(state, shown, chosen, mark)}</figcaption>'
        "</figure>")


def as_drawn(sentence: str) -> str:
    """Return what stands in the place of a figure that is drawn already, `sentence` as HTML."""
    return f'<figure class="wb-needles"><figcaption>{sentence}</figcaption></figure>'


@lru_cache(maxsize=64)  # the diagrams of a part have the same, those of all sizes a few
def _frame(row: _NeedleRow) -> str:
    """The rail, names every ten needles or twenty, a wedge at the bed's centre."""
    step = 10 if 10 * row.pitch >= 320 else 20
    named = [place for place in range(row.first, row.last + 1) if _number(place) % step == 0]
    text = [_text(min(max(row.x(place), 150), row.wide - 150), 120, Needle(place).name)
            for place in named or (row.first, row.last)]
    wedge = ""
    if row.first <= 0 <= row.last + 1:
        x = row.x(0) - row.pitch // 2
        wedge = f'<path fill="currentColor" stroke="none" d="M{px(x - 40)} 13h8l-4 6z"/>'
    return shared(f'<path d="M{px(EDGE)} {px(RAIL)}H{px(row.wide - EDGE)}"/>{wedge}{_texts(text)}')


def _needles(groups: Sequence[_Group], row: _NeedleRow) -> str:
    """The strokes, those of one length together, and the tips where there is room for them."""
    by_length: dict[int, Needles] = {}
    for mark, _, needles in groups:
        long = LONG.get(mark, WORKING)
        by_length[long] = by_length.get(long, NONE) | needles
    drawn = "".join(_dashed(_runs(needles), row, broad=long, dash=BAR, y=RAIL + long // 2)
                    for long, needles in by_length.items())
    return shared(drawn) + (_tips(groups, row) if row.pitch >= TIPS_FROM else "")


def _tips(groups: Sequence[_Group], row: _NeedleRow) -> str:
    size, low, dotted, twice = min(50, row.pitch - 10), RAIL + WORKING, NONE, NONE
    out = []
    for mark, _, needles in groups:
        if mark in (Mark.ONE, Mark.MANY):
            dotted |= needles
            twice |= needles if mark is Mark.MANY else NONE
        elif mark in (Mark.CHOSEN, Mark.UPPER):
            out.append(_dashed(_runs(needles), row, broad=size, dash=size, y=RAIL + LONG[mark]))
        elif mark in _SHAPES:
            out.append(_shapes(_SHAPES[mark], needles, row, RAIL + LONG.get(mark, WORKING)))
    for needles, y in ((dotted, low), (twice, low - size - 10)):
        if needles:
            out.append(shared(_dashed(_runs(needles), row, broad=size, dash=0, y=y)))
    return "".join(out)


def _shapes(each: str, needles: Needles, row: _NeedleRow, y: int) -> str:
    path = "".join(f"M{px(row.x(a))} {px(y)}" + f"m{px(step * row.pitch)} 0".join(
        [each] * ((b - a) // step + 1)) for a, b, step in _shown(needles))
    return f'<path d="{path}"/>'


def _shown(needles: Needles) -> Iterator[_Run]:
    """The needles whose tip is drawn: of many neighbours the first and the last."""
    for a, b, step in _runs(needles):
        yield (a, b, step) if b - a < FEW * step else (a, b, b - a)


# From a needle's tip, and back to it: drawn for each needle.
_SHAPES = {Mark.HELD: "l-2 4h4z", Mark.EMPTY: "m0 4a2 2 0 1 0 .1 0zm0-4",
           Mark.CORD: "l-2 4m4 0l-4-4m4 0l-2 4m0-4", Mark.LATCHED: "l-2 4m2-4l2 4m-2-4"}


def _dashed(runs: Iterable[_Run], row: _NeedleRow, *, broad: int, dash: int, y: int) -> str:
    """Needles at even distances as the dashes of one line, `dash` wide and `broad` high; as dots
    where a dash has no length, with round ends."""
    found: dict[int, str] = {}
    for a, b, step in runs:
        path = f"M{px(row.x(a) - dash // 2)} {px(y)}h{px(row.pitch * (b - a) + (dash or 1))}"
        found[step] = found.get(step, "") + path
    cap = "" if dash else ' stroke-linecap="round"'
    return "".join(
        f'<path stroke-width="{px(broad)}"{cap} stroke-dasharray="{px(dash)} '
        f'{px(step * row.pitch - dash)}" d="{path}"/>' for step, path in found.items())


def _brackets(groups: Sequence[_Group], row: _NeedleRow) -> str:
    """A bracket under neighbours that are alike, with their number and what they are; none where
    there are too many to be read."""
    lines: list[str] = []
    text: list[str] = []
    used = [group for group in groups if group[0] is not Mark.OUT]
    if sum(len(needles.spans()) for _, _, needles in used) > MOST:
        return ""
    for mark, loops, needles in used:
        for a, b in ((a.place, b.place) for a, b in needles.spans()):
            low, high = row.x(a) - row.pitch // 2, row.x(b) + row.pitch // 2
            lines.append(f"M{px(low + 5)} {px(BRACKET)}v4h{px(high - low - 10)}v-4")
            short = loops_short(loops) if mark is Mark.MANY else SHORT[mark]
            number = f"{b - a + 1}"
            label = next((one for one in (f"{number} {short}", number)
                          if CHAR * len(one) <= high - low + 40), "")
            if label:
                half = CHAR * len(label) // 2
                text.append(_text(min(max((low + high) // 2, half), row.wide - half), COUNT, label))
    return shared(f'<path d="{"".join(lines)}"/>{_texts(text)}')


def _texts(text: Iterable[str]) -> str:
    return (f'<g stroke="none" fill="currentColor" font-size="14" text-anchor="middle">'
            f'{"".join(text)}</g>')


def _text(x: int, y: int, label: str) -> str:
    return f'<text x="{px(x)}" y="{px(y)}">{label}</text>'


def _runs(needles: Needles) -> Iterator[_Run]:
    """Needles at even distances: the places of the first and the last, and the distance."""
    spans = [(a.place, b.place) for a, b in needles.spans()]
    at = 0
    while at < len(spans):
        (first, last), step, end = spans[at], 1, at + 1
        if first == last and end < len(spans) and spans[end][0] == spans[end][1]:
            step = spans[end][0] - last
            while end < len(spans) and spans[end] == (last + step, last + step):
                last, end = last + step, end + 1
        yield first, last, step
        at = end


def _number(place: int) -> int:
    return place + 1 if place >= 0 else -place
