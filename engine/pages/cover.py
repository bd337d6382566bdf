"""The cover of a printed size: its garment from the front and the back, at one whole scale."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..drawings.dimensions import px
from ..drawings.garment_sketch import DrawnView, View, drawings_of
from ..markup.notes import pictures_html
from ..pattern.model import Pattern
from ..proof.proof import SizeProof
from ..shape.polygon import Outline
from ..words.sketch_text import cover_scale

WIDE, TALL = 165, 150  # the room for pictures on a sheet of A4 [mm]
PHOTOGRAPH = 90  # of that room, what a photograph and its caption take (print.css) [mm]
APART = 6  # between two sketches [mm]; print.css parts them so
SCALES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20)  # times smaller than the garment


def cover(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline],
          links: Mapping[str, str]) -> str:
    """Return what the head of a size shows: the designer's first photograph, the sketch, its back
    on paper alone, and their scale in words.

    `links` lead from the parts of the front to the work, as `drawings.garment_sketch` takes them.
    """
    front = drawings_of(pattern, size, outlines, views=(View.FRONT,), links=links)
    back = drawings_of(pattern, size, outlines, views=(View.BACK,))
    photograph = pictures_html(pattern.pictures[:1])
    tall = TALL - PHOTOGRAPH if photograph else TALL
    return photograph + at_scale((*front, *(one for one in back if one.view is View.BACK)), tall)


def at_scale(views: Sequence[DrawnView], tall: int) -> str:
    """Return sketches with their widths on paper, and their scale in words.

    All but the first of the `views` stand on paper alone, where there is room for what is so
    `tall` [mm]. No list of names leads to a back: its title names it where it stands.
    """
    scale = next((n for n in SCALES if _fit(views, n, tall)), SCALES[-1])
    shown = "".join(_drawn(each, scale, on_paper=at > 0) for at, each in enumerate(views))
    return f'<div class="wb-seen">{shown}</div>\n{cover_scale(scale, len(views))}'


def _fit(views: Sequence[DrawnView], scale: int, room: int) -> bool:
    """True where sketches so many times smaller have room side by side or one below the other."""
    wide = [Fraction(each.wide, each.grain * scale) for each in views]
    tall = [Fraction(each.tall, each.grain * scale) for each in views]
    between = APART * (len(views) - 1)
    beside = sum(wide) + between <= WIDE and max(tall) <= room
    return beside or (max(wide) <= WIDE and sum(tall) + between <= room)


def _drawn(drawing: DrawnView, scale: int, *, on_paper: bool) -> str:
    """A sketch with its width on paper in its style."""
    units, mm = drawing.wide, drawing.grain
    style = f"--wb-wide:{px((20 * units + mm * scale) // (2 * mm * scale))}mm"
    return drawing.svg(looks="wb-on-paper" * on_paper, style=style,
                       named=drawing.view is not View.BACK)
