"""The cover of a printed size: its garment from the front and the back, at one whole scale."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..drawings.dimensions import px
from ..drawings.garment_sketch import View, garment
from ..markup.notes import pictures_html
from ..pattern.model import Pattern
from ..proof.proof import SizeProof
from ..shape.polygon import Outline
from ..words.sketch_text import cover_scale

WIDE, TALL = 165, 150  # the room for pictures on a sheet of A4 [mm]
PHOTOGRAPH = 90  # of that room, what a photograph and its caption take (print.css) [mm]
APART = 6  # between two sketches [mm]; print.css parts them so
SCALES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20)  # times smaller than the garment
_DRAWN = re.compile(r'<svg class="([^"]*)"(?: style="([^"]*)")? viewBox="\S+ \S+ (\d+) (\d+)"'
                    r'.*? data-mm="(\d+)"')
_ID = f' id="sketch-{View.BACK.value}-t"'
_NAMED = re.compile(f' aria-labelledby="sketch-{View.BACK.value}-t"')


def cover(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline],
          links: Mapping[str, str]) -> str:
    """Return what the head of a size shows: the designer's first photograph, the sketch, its back
    on paper alone, and their scale in words.

    `links` lead from the parts of the front to the work, as `drawings.garment_sketch` takes them.
    """
    front = garment(pattern, size, outlines, views=(View.FRONT,), links=links)
    back = garment(pattern, size, outlines, views=(View.BACK,))
    photograph = pictures_html(pattern.pictures[:1])
    tall = TALL - PHOTOGRAPH if photograph else TALL
    views = (front, _unnamed(back)) if _NAMED.search(back) else (front,)
    return photograph + at_scale(views, tall)


def _unnamed(drawn: str) -> str:
    """The back, which no list of names leads to: its title names it where it stands."""
    return _NAMED.sub("", drawn, count=1).replace(f"<title{_ID}>", "<title>", 1)


def at_scale(views: Sequence[str], tall: int) -> str:
    """Return sketches with their widths on paper, and their scale in words; as they are without.

    Each of `views` is what `drawings.garment_sketch` makes of one. All but the first stand on
    paper alone, where there is room for what is so `tall` [mm].
    """
    drawn = [found for each in views if (found := _DRAWN.match(each))]
    if len(drawn) < len(views):
        return "".join(views)
    scale = next((n for n in SCALES if _fit(drawn, n, tall)), SCALES[-1])
    shown = "".join(_drawn(each, scale, on_paper=at > 0) for at, each in enumerate(drawn))
    return f'<div class="wb-seen">{shown}</div>\n{cover_scale(scale, len(drawn))}'


def _fit(drawn: Sequence[re.Match[str]], scale: int, room: int) -> bool:
    """True where sketches so many times smaller have room side by side or one below the other."""
    wide, tall = ([Fraction(int(each[n]), int(each[5]) * scale) for each in drawn] for n in (3, 4))
    between = APART * (len(drawn) - 1)
    beside = sum(wide) + between <= WIDE and max(tall) <= room
    return beside or (max(wide) <= WIDE and sum(tall) + between <= room)


def _drawn(found: re.Match[str], scale: int, *, on_paper: bool) -> str:
    """A sketch with its width on paper in its style."""
    worn, units, mm = found[2], int(found[3]), int(found[5])
    style = f"--wb-wide:{px((20 * units + mm * scale) // (2 * mm * scale))}mm"
    looks = f"{found[1]} wb-on-paper" if on_paper else found[1]
    rest = found.string[found.end(2 if worn else 1) + 1:]
    return f'<svg class="{looks}" style="{f"{worn};" if worn else ""}{style}"{rest}'
