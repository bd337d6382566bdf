"""Draws the needles of a state of the bed: strips of thirty, the centre marked, told in words too.

Shapes are ours and carry the meaning without colour; all are drawn in the text's own colour.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from itertools import pairwise

from ..machine.needles import NONE, Needle, Needles, between
from ..machine.trace import State
from ..markup.html import items
from ..words.marks import Mark, sorted_needles
from ..words.words import KEY, diagram_said, loops_on_one

# Units of the drawing. A needle is 12 wide; text of 16 is over 12 px on a 360 px screen.
PITCH, MARGIN, STRIP_HEIGHT, ROW = 12, 8, 76, 54
LONGEST = 30  # needles in a strip; one or two more at the ends
_TENS = 10

# How the path of a mark is stroked. Dashes repeat a mark along a run of needles.
STROKE = {
    Mark.ONE: 'stroke-width="8" stroke-linecap="round" stroke-dasharray="0 12"',
    Mark.CHOSEN: 'stroke-width="3"',
    Mark.LATCHED: 'stroke-width="2.4"',
    Mark.CORD: 'stroke-width="2.4"',
    Mark.HELD: 'stroke-width="14" stroke-dasharray="4 8"',
    Mark.EMPTY: 'stroke-width="1.8"',
    Mark.OUT: 'stroke-width="2" stroke-dasharray="6 6"',
}


def beside(band: Needles, bed: Needles) -> Needles:
    """The band's needles and one more on each side, where the bed has one."""
    return between(Needle(band.first.place - 1), Needle(band.last.place + 1)) & bed


def needle_diagram(state: State, shown: Needles, *, chosen: Needles = NONE, prefix: str,
                   title: str, mark: Mark = Mark.CHOSEN) -> str:
    """Return the figure of the `shown` needles, the `chosen` ones with their `mark`.

    Ids begin with `prefix`, `title` is HTML.
    """
    strips = strips_of(shown)
    groups = sorted_needles(state, shown, chosen, mark)
    said = diagram_said(state, shown, chosen, mark)
    width = 2 * MARGIN + PITCH * max(b.place - a.place + 1 for a, b in strips)
    height = STRIP_HEIGHT * len(strips)
    drawn = "".join(_draw(mark, loops, needles, strips) for mark, loops, needles in groups)
    return (
        f'<figure class="wb-needles"><svg viewBox="0 0 {width} {height}" width="{width * 8 // 5}"'
        f' height="{height * 8 // 5}" fill="none" stroke="currentColor" role="img"'
        f' aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{title}</title>'
        f"{_frame(strips, width)}{drawn}</svg>"
        f"{items((key_entry(mark, n) for mark, n, _ in groups), 'wb-key')}"
        f'<figcaption id="{prefix}-d">{said}</figcaption></figure>')


_FRAME = re.compile(r'<g class="wb-frame">.*?</g></g>')
_KEY = re.compile(r'<ul class="wb-key">(.*?)</ul>')
_ENTRY = re.compile(r"<li>.*?</li>")


def share_drawn(told: str, prefix: str) -> str:
    """Return the page text with what several of its diagrams have once: frame, and entries of keys.

    The first diagram holds them; for a frame the others refer to it by an id that begins with
    `prefix`. What an entry of a key says stands in words below every diagram.
    """
    often, known = Counter(_FRAME.findall(told)), dict[str, str]()

    def shared(found: re.Match[str]) -> str:
        drawn = found[0]
        if often[drawn] == 1:
            return drawn
        if drawn in known:
            return f'<use href="#{known[drawn]}"/>'
        known[drawn] = f"{prefix}-drawn-{len(known) + 1}"
        return drawn.replace("<g", f'<g id="{known[drawn]}"', 1)

    return _keys_once(_FRAME.sub(shared, told))


def _keys_once(told: str) -> str:
    """The text with every entry of its keys where it comes first."""
    seen: set[str] = set()

    def first(found: re.Match[str]) -> str:
        fresh = [entry for entry in _ENTRY.findall(found[1]) if entry not in seen]
        seen.update(fresh)
        return f'<ul class="wb-key">{"".join(fresh)}</ul>' if fresh else ""

    return _KEY.sub(first, told)


@lru_cache(maxsize=512)
def strips_of(shown: Needles) -> tuple[tuple[Needle, Needle], ...]:
    """Cut a wide band at the bed's centre and every thirty needles from there."""
    first, last = shown.first.place, shown.last.place
    if last - first < LONGEST + 2:
        return ((shown.first, shown.last),)
    cuts = {first, last + 1}
    cuts.update(c for c in range(-900, 901, LONGEST) if first + 2 < c < last - 1)
    places = sorted(cuts)
    return tuple((Needle(a), Needle(b - 1)) for a, b in pairwise(places))


@lru_cache(maxsize=512)
def _frame(strips: tuple[tuple[Needle, Needle], ...], width: int) -> str:
    """Names of sides, numbers every ten, the rail under the marks and the centre."""
    text, lines, centre = [], [], []
    for number, (a, b) in enumerate(strips):
        top = number * STRIP_HEIGHT
        end = MARGIN + PITCH * (b.place - a.place + 1)
        text += _sides(a, b, top, end)
        lines.append(f"M{MARGIN} {top + 70}H{end}")
        for place in range(a.place, b.place + 1):
            named = _count(place)
            x = MARGIN + PITCH * (place - a.place) + PITCH // 2
            if named % 5 == 0:
                lines.append(f"M{x} {top + 70}v{4 if named % _TENS else 6}")
            if named % _TENS == 0:
                text.append(_text(_inside(x, width), top + 38, Needle(place).name, "middle"))
        if a.place <= 0 <= b.place + 1:
            x = MARGIN - PITCH * a.place
            anchor = "start" if a.place == 0 else "end" if b.place == -1 else "middle"
            text.append(_text(x, top + 38, "centre", anchor))
            centre.append(f"M{x + {'start': -4, 'end': 4, 'middle': 0}[anchor]} {top + 42}v32")
    middle = f'<path stroke-width="3" d="{"".join(centre)}"/>' if centre else ""
    return (f'<g class="wb-frame"><path d="{"".join(lines)}"/>{middle}'
            f'<g stroke="none" fill="currentColor" font-size="16">{"".join(text)}</g></g>')


def _sides(a: Needle, b: Needle, top: int, end: int) -> list[str]:
    if a.place < 0 <= b.place:
        return [_text(MARGIN, top + 16, "left", "start"), _text(end, top + 16, "right", "end")]
    side = "Left" if a.place < 0 else "Right"
    return [_text(MARGIN, top + 16, f"{side} side: {a} to {b}", "start")]


def _inside(x: int, width: int) -> int:
    """Keep a number clear of the drawing's edge."""
    return min(max(x, 18), width - 18)


def _text(x: int, y: int, said: str, anchor: str) -> str:
    placed = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return f'<text x="{x}" y="{y}"{placed}>{said}</text>'


def _count(place: int) -> int:
    return place + 1 if place >= 0 else -place


def _draw(mark: Mark, loops: int, needles: Needles,
          strips: tuple[tuple[Needle, Needle], ...]) -> str:
    """All needles of one mark in one path (or, for numbers, a text a strip)."""
    if mark is Mark.MANY:
        return _numbers(loops, needles, strips)
    path = []
    for a, b, x, y in _runs(needles, strips):
        path.append(shape(mark, x, y, b - a + 1))
    drawn = f'<path {STROKE[mark]} d="{"".join(path)}"/>'
    return drawn if mark is not Mark.CHOSEN else drawn + _draw(Mark.ONE, 1, needles, strips)


def _runs(needles: Needles, strips: tuple[tuple[Needle, Needle], ...]
          ) -> list[tuple[int, int, int, int]]:
    """Neighbouring needles of a strip as (first place, last place, x and y of the first)."""
    return [(run.place, end.place, MARGIN + PITCH * (run.place - a.place) + PITCH // 2,
             number * STRIP_HEIGHT + ROW)
            for number, (a, b) in enumerate(strips)
            for run, end in (needles & between(a, b)).spans()]


def shape(mark: Mark, x: int, y: int, count: int) -> str:
    """The path of `count` marks side by side."""
    if mark is Mark.ONE:
        return f"M{x} {y}h{PITCH * (count - 1)}.1"
    if mark is Mark.OUT:
        return f"M{x - 3} {y + 5}h{PITCH * count - 6}"
    if mark is Mark.HELD:  # upright bars, dashes of one broad line: half a bed may be held
        return f"M{x - 2} {y}h{PITCH * (count - 1) + 4}"
    across, down, one = _SHAPES[mark]
    return "".join(f"M{x + across + PITCH * n} {y + down}{one}" for n in range(count))


# From the middle of a needle to where its mark begins, across and down, and the mark.
_SHAPES = {Mark.CHOSEN: (0, 0, "v14"), Mark.CORD: (-4, -4, "l8 8m0-8l-8 8"),
           Mark.LATCHED: (-4, -6, "l4 11 4-11"),
           Mark.EMPTY: (-4, 0, "a4 4 0 1 0 8 0 4 4 0 1 0-8 0")}


def _numbers(loops: int, needles: Needles, strips: tuple[tuple[Needle, Needle], ...]) -> str:
    out = []
    for number, (a, b) in enumerate(strips):
        here = [MARGIN + PITCH * (place - a.place) + PITCH // 2
                for place, in needles & between(a, b)]
        if here:
            out.append(f'<text x="{" ".join(map(str, here))}" y="{number * STRIP_HEIGHT + ROW + 6}"'
                       f'>{str(loops) * len(here)}</text>')
    return ('<g class="wb-loops" stroke="none" fill="currentColor" font-size="16" font-weight="700"'
            f' text-anchor="middle">{"".join(out)}</g>')


@lru_cache(maxsize=64)
def key_entry(mark: Mark, loops: int) -> str:
    """One entry of the printed key: the mark and what it means."""
    if mark is Mark.MANY:
        drawn = f'<text x="8" y="17" text-anchor="middle" font-size="16" font-weight="700"' \
                f' fill="currentColor">{loops}</text>'
        said = loops_on_one(loops)
    else:
        path = shape(mark, 8, 11, 1)
        drawn = f'<path fill="none" stroke="currentColor" {STROKE[mark]} d="{path}"/>'
        if mark is Mark.CHOSEN:
            drawn += f'<path fill="none" stroke="currentColor" {STROKE[Mark.ONE]} d="M8 11h.1"/>'
        said = KEY[mark]
    return (f'<svg viewBox="0 0 16 26" aria-hidden="true">{drawn}</svg>'
            f"{said}")
