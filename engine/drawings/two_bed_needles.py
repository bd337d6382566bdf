"""The marks of needles in a drawing of two beds: strips of thirty, a key, what is drawn once.

Shapes are ours and carry the meaning without colour; all are drawn in the text's own colour.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from itertools import pairwise

from ..machine.needles import Needle, Needles, between
from ..words.needle_marks import Mark
from ..words.words import KEY

# Units of the drawing. A needle is 12 wide; text of 16 is over 12 px on a 360 px screen.
PITCH, MARGIN = 12, 8
LONGEST = 30  # needles in a strip; one or two more at the ends

# How the path of a mark is stroked. Dashes repeat a mark along a run of needles.
STROKE = {
    Mark.ONE: 'stroke-width="8" stroke-linecap="round" stroke-dasharray="0 12"',
    Mark.EMPTY: 'stroke-width="1.8"',
    Mark.OUT: 'stroke-width="2" stroke-dasharray="6 6"',
}


def beside(band: Needles, bed: Needles) -> Needles:
    """The band's needles and one more on each side, where the bed has one."""
    return between(Needle(band.first.place - 1), Needle(band.last.place + 1)) & bed


SHARED = "wb-shared"  # the class of a group that diagrams of one page may have in common
_DRAWN = r"[^<\n]*(?:<(?!/?g\b)[^<\n]*)*"  # without a group in it
_SHARED = re.compile(rf'<g class="{SHARED}">({_DRAWN}(?:<g\b{_DRAWN}</g>)?)</g>')
_KEY = re.compile(r'<ul class="wb-key">(.*?)</ul>')
_ENTRY = re.compile(r"<li>.*?</li>")


def share_drawn(steps: str, prefix: str) -> str:
    """Return the page text with what several of its diagrams have once.

    The first diagram holds it: frame, needles, brackets, to which the others refer by an id that
    begins with `prefix`, and entries of the key; what such says stands in words below each.
    """
    if SHARED not in steps:
        return _keys_once(steps)
    often, known = Counter(_SHARED.findall(steps)), dict[str, str]()

    def once(found: re.Match[str]) -> str:
        drawn = found[1]
        if often[drawn] == 1:
            return drawn
        if drawn in known:
            return f'<use href="#{known[drawn]}"/>'
        known[drawn] = f"{prefix}-g{len(known) + 1}"
        return f'<g id="{known[drawn]}">{drawn}</g>'

    return _keys_once(_SHARED.sub(once, steps))


def _keys_once(steps: str) -> str:
    """The text with every entry of its keys where it comes first."""
    if "wb-key" not in steps:
        return steps
    seen: set[str] = set()

    def first(found: re.Match[str]) -> str:
        fresh = [entry for entry in _ENTRY.findall(found[1]) if entry not in seen]
        seen.update(fresh)
        return f'<ul class="wb-key">{"".join(fresh)}</ul>' if fresh else ""

    return _KEY.sub(first, steps)


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
    """The path of `count` marks side by side: stitches, needles out of work, or empty ones."""
    if mark is Mark.ONE:
        return f"M{x} {y}h{PITCH * (count - 1)}.1"
    if mark is Mark.OUT:
        return f"M{x - 3} {y + 5}h{PITCH * count - 6}"
    return "".join(f"M{x - 4 + PITCH * n} {y}a4 4 0 1 0 8 0 4 4 0 1 0-8 0" for n in range(count))


def key_entry(mark: Mark) -> str:
    """One entry of the printed key: the mark and what it means."""
    return ('<svg viewBox="0 0 16 26" aria-hidden="true"><path fill="none" stroke="currentColor" '
            f'{STROKE[mark]} d="{shape(mark, 8, 11, 1)}"/></svg>{KEY[mark]}')
