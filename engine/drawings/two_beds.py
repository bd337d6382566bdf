"""Draws two beds that face each other: the main bed's needles above, the second bed's below.

The second bed's marks stand where its rack has them: under those they face, or between two. Its
own centre is marked below, the main bed's above. Shapes are those of a single bed's diagram.
"""

from __future__ import annotations

from functools import lru_cache

from ..machine.needles import Needle, Needles, between
from ..machine.trace import Facing, State
from ..markup.html import items
from ..words.needle_marks import Mark
from ..words.two_beds_text import SECOND_BED, main_bed_named, two_beds_text
from .two_bed_needles import MARGIN, PITCH, STROKE, key_entry, shape, shared, strips_of

STRIP, MAIN, SECOND = 118, 52, 84  # units of the drawing: a strip's height, both rows in it
_RAILS = (66, 72)
_TENS = 10


def two_bed_diagram(state: State, *, prefix: str, title: str, bed: Needles) -> str:
    """Return the figure of both beds in `state`; ids begin with `prefix`, `title` is HTML.

    Raises ValueError where no second bed is up.
    """
    if state.second is None:
        raise ValueError("a diagram of two beds, with one bed")
    shown = _shown(state, state.second, bed)
    strips = strips_of(shown)
    width = 2 * MARGIN + PITCH * max(b.place - a.place + 1 for a, b in strips)
    height = STRIP * len(strips)
    beds = (_marks(state.loaded, state.working, shown),
            _marks(state.second.loaded, state.second.working, shown))
    drawn = "".join(_row(marks, strips, y, aside) for marks, y, aside in
                    ((beds[0], MAIN, 0), (beds[1], SECOND, state.second.rack)))
    used = [mark for mark in (Mark.ONE, Mark.EMPTY, Mark.OUT)
            if any(mark is m and needles for marks in beds for m, needles in marks)]
    return (
        f'<figure class="wb-needles"><svg viewBox="0 0 {width} {height}" width="{width}"'
        f' height="{height}" fill="none" stroke="currentColor" role="img"'
        f' aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{title}</title>'
        f"{_frame(strips, state.second.rack)}{drawn}</svg>"
        f"{items(map(key_entry, used), 'wb-key')}"
        f'<figcaption id="{prefix}-d">{two_beds_text(state)}</figcaption></figure>')


def _shown(state: State, second: Facing, bed: Needles) -> Needles:
    """Every needle in work of either bed and one more on each side, where the bed has one."""
    used = state.working | state.loaded | second.working | second.loaded
    return between(Needle(used.first.place - 1), Needle(used.last.place + 1)) & bed


def _marks(loaded: Needles, working: Needles, shown: Needles) -> tuple[tuple[Mark, Needles], ...]:
    return ((Mark.ONE, loaded), (Mark.EMPTY, working - loaded),
            (Mark.OUT, shown - working - loaded))


def _row(marks: tuple[tuple[Mark, Needles], ...], strips: tuple[tuple[Needle, Needle], ...],
         y: int, aside: int) -> str:
    """One bed's needles, `aside` half pitches to the right of where they have their names."""
    out = []
    for mark, needles in marks:
        path = "".join(
            shape(mark, MARGIN + PITCH * (a.place - left.place) + PITCH // 2 * (1 + aside),
                  number * STRIP + y, b.place - a.place + 1)
            for number, (left, right) in enumerate(strips)
            for a, b in (needles & between(left, right)).spans())
        if path:
            out.append(f'<path {STROKE[mark]} d="{path}"/>')
    return "".join(out)


@lru_cache(maxsize=64)
def _frame(strips: tuple[tuple[Needle, Needle], ...], rack: int) -> str:
    """The beds' names, numbers every ten, both rails, and where each bed has its centre."""
    text, lines, centres = [], [], []
    for number, (a, b) in enumerate(strips):
        top, end = number * STRIP, MARGIN + PITCH * (b.place - a.place + 1)
        text += [(MARGIN, top + 16, "start", main_bed_named(a, b)),
                 (MARGIN, top + 110, "start", SECOND_BED)]
        lines += [f"M{MARGIN} {top + rail}H{end}" for rail in _RAILS]
        for place in range(a.place, b.place + 1):
            named = place + 1 if place >= 0 else -place
            if named % _TENS == 0 and end > 120:
                x = MARGIN + PITCH * (place - a.place) + PITCH // 2
                text.append((max(x, 18), top + 38, "middle", Needle(place).name))
        if a.place <= 0 <= b.place + 1:
            x = MARGIN - PITCH * a.place
            centres += [f"M{x} {top + 40}v24", f"M{x + rack * PITCH // 2} {top + 74}v24"]
    labels = "".join(f'<text x="{x}" y="{y}" text-anchor="{anchor}">{words}</text>'
                     for x, y, anchor, words in text)
    return shared(f'<path d="{"".join(lines)}"/><path stroke-width="2" d="{"".join(centres)}"/>'
                  f'<g stroke="none" fill="currentColor" font-size="16">{labels}</g>')
