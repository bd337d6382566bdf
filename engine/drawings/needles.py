"""The marks of needles in a drawing of two beds: strips of thirty, a key, what is drawn once.

Shapes are ours and carry the meaning without colour; all are drawn in the text's own colour.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from itertools import pairwise

from ..machine.needles import Needle, Needles, between
from ..words.marks import Mark
from ..words.words import KEY, loops_on_one

# Units of the drawing. A needle is 12 wide; text of 16 is over 12 px on a 360 px screen.
PITCH, MARGIN = 12, 8
LONGEST = 30  # needles in a strip; one or two more at the ends

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


SHARED = "wb-shared"  # the class of a group that diagrams of one page may have in common
_DRAWN = r"(?:(?!</?g\b).)*"  # without a group in it
_SHARED = re.compile(rf'<g class="{SHARED}">({_DRAWN}(?:<g\b{_DRAWN}</g>)?)</g>')
_KEY = re.compile(r'<ul class="wb-key">(.*?)</ul>')
_ENTRY = re.compile(r"<li>.*?</li>")


def share_drawn(told: str, prefix: str) -> str:
    """Return the page text with what several of its diagrams have once.

    The first diagram holds it: frame, needles, brackets, to which the others refer by an id that
    begins with `prefix`, and entries of the key; what such says stands in words below each.
    """
    often, known = Counter(_SHARED.findall(told)), dict[str, str]()

    def once(found: re.Match[str]) -> str:
        drawn = found[1]
        if often[drawn] == 1:
            return drawn
        if drawn in known:
            return f'<use href="#{known[drawn]}"/>'
        known[drawn] = f"{prefix}-drawn-{len(known) + 1}"
        return f'<g id="{known[drawn]}">{drawn}</g>'

    return _keys_once(_SHARED.sub(once, told))


def _keys_once(told: str) -> str:
    """The text with every entry of its keys where it comes first."""
    seen: set[str] = set()

    def first(found: re.Match[str]) -> str:
        fresh = [entry for entry in _ENTRY.findall(found[1]) if entry not in seen]
        seen.update(fresh)
        return f'<ul class="wb-key">{"".join(fresh)}</ul>' if fresh else ""

    return _KEY.sub(first, told)


def shared(drawn: str) -> str:
    """Return marks of a diagram as a group that `share_drawn` finds, at most one group in it."""
    return f'<g class="{SHARED}">{drawn}</g>' if drawn else ""


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
