"""A flat sketch of a whole garment in one size, as SVG, from its own assembled pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from types import MappingProxyType

from ..markup.html import esc
from ..pattern.model import Pattern
from ..proof.proof import SizeProof
from ..shape.polygon import Outline
from ..words import sketch as words
from .garment_conventions import MARGIN
from .garment_parts import Parts, parts_of
from .garment_pen import HUNDREDTHS, Disc, Mark, data, reached
from .garment_upper import upper_marks

NO_LINKS: Mapping[str, str] = MappingProxyType({})
WHOLE, TENTHS = 100, 10  # hundredths of a millimetre to the unit of a drawing
SMALL = 50_000  # what is narrower than half a metre is drawn in tenths of a millimetre


class View(Enum):
    """From where a garment is seen."""

    FRONT = "front"
    BACK = "back"


BOTH = (View.FRONT, View.BACK)


def garment(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline], *,
            views: Sequence[View] = BOTH, prefix: str = "sketch", titled: bool = True,
            links: Mapping[str, str] = NO_LINKS) -> str:
    """Return the garment drawn in one size, an SVG element for each of the `views`.

    Nothing where the pattern has no garment. `outlines` are those of its pieces. Ids begin with
    `prefix`. Where `titled` the sketch is an image with a title in words; else it is hidden from
    whoever listens, for the text says it. `links` lead from a piece, by its key, or from a band,
    by "band " and its key, to an address: then the sketch is a group of links. A view of all
    pieces is in one scale with every other: `data-mm` is how many of its units a millimetre has.
    """
    parts = parts_of(pattern, size, outlines)
    if parts is None or "back" not in parts.pieces:
        return ""
    return "".join(_drawn(parts, view, f"{prefix}-{view.value}", titled, links) for view in views)


def _drawn(parts: Parts, view: View, prefix: str, titled: bool, links: Mapping[str, str]) -> str:
    groups = upper_marks(parts, behind=view is View.BACK)
    left, right, low, high = reached(m for _, marks in groups for m in marks)
    grain = WHOLE if right - left > SMALL else TENTHS
    x, y = (left - MARGIN) // grain, -(high + MARGIN) // grain
    wide, tall = (right - left + 2 * MARGIN) // grain, (high - low + 2 * MARGIN) // grain
    body = "".join(_group(key, marks, grain, parts, links) for key, marks in groups)
    name = esc(words.title(parts.pattern.title, parts.size.size, view.value))
    role = "group" if links else "img"
    told = f'role="{role}" aria-labelledby="{prefix}-t"' if titled or links else \
        'aria-hidden="true"'
    title = f'<title id="{prefix}-t">{name}</title>' if titled or links else ""
    return (f'<svg class="wb-garment" viewBox="{x} {y} {wide} {tall}" width="{wide}" '
            f'height="{tall}" data-mm="{HUNDREDTHS // grain}" {told}>{title}{body}</svg>')


def _group(key: str, marks: Sequence[Mark], grain: int, parts: Parts, links: Mapping[str, str]
           ) -> str:
    drawn = "".join(_mark(mark, grain) for mark in marks)
    if key in links:
        name = esc(_name(parts, key))
        return (f'<a href="{esc(links[key])}" aria-label="{name}" data-part="{esc(key)}">'
                f"{drawn}</a>")
    return f'<g data-part="{esc(key)}">{drawn}</g>'


def _name(parts: Parts, key: str) -> str:
    """What a piece or a band is called."""
    if key in parts.outlines:
        return parts.outlines[key].title
    return next(p.band.title for p in parts.plans if f"band {p.band.key}" == key)


def _mark(mark: Mark, grain: int) -> str:
    if isinstance(mark, Disc):
        x, y = mark.middle.x // grain, -mark.middle.y // grain
        return f'<circle class="{mark.looks}" cx="{x}" cy="{y}" r="{mark.radius // grain}"/>'
    return f'<path class="{mark.looks}" d="{data(mark.lines, grain, closed=mark.closed)}"/>'
