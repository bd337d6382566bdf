"""A flat sketch of a whole garment in one size, as SVG, from its own assembled pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from types import MappingProxyType

from ..machine.records import dataclass
from ..markup.html import esc
from ..pattern.fabrics import Yarn
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..proof.proof import SizeProof
from ..shape.polygon import Outline
from ..words import sketch_text as words
from .garment_colour import clothed, lines_on, others_of, yarn_of, yarn_style
from .garment_conventions import MARGIN
from .garment_edges import edges
from .garment_flat import FLAT
from .garment_parts import DrawnParts, parts_of
from .garment_pen import HUNDREDTHS, Disc, DrawnMark, Laid, data, reached
from .garment_tiles import Tiles
from .garment_upper import upper_marks
from .garment_worn import shows_body

NO_LINKS: Mapping[str, str] = MappingProxyType({})
WHOLE, TENTHS = 100, 10  # hundredths of a millimetre to the unit of a drawing
ACROSS_LINES = 480  # the lines of a chart are so much narrower than the drawing is wide
SMALL = 50_000  # what is narrower than half a metre is drawn in tenths of a millimetre


class View(Enum):
    """From where a garment is seen."""

    FRONT = "front"
    BACK = "back"


BOTH = (View.FRONT, View.BACK)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnView:
    """A garment as it is drawn from one side: what stands in its SVG, and how large that is.

    `looks` are its classes, `worn` the properties of its yarns' colours, `wide` and `tall` its
    size in units, of which a millimetre has `grain`. `role` and `title` announce it, "" where it
    is hidden from whoever listens; the title's id begins with `prefix`.
    """

    view: View
    looks: str
    worn: str
    corner: tuple[int, int]
    wide: int
    tall: int
    grain: int
    prefix: str
    role: str
    title: str
    inside: str

    def svg(self, *, looks: str = "", style: str = "", named: bool = True, head: str = "",
            space: str = "") -> str:
        """Return the SVG element, with more classes, with a style of the page's, and with a `head`
        before what is drawn; a `space` of names is for a file that holds nothing else.

        Where it is not `named` no list of names leads to its title, which names it where it stands.
        """
        classes = " ".join(filter(None, (self.looks, looks)))
        styles = ";".join(filter(None, (self.worn, style)))
        styled = f' style="{styles}"' if styles else ""
        x, y = self.corner
        spaced = f' xmlns="{space}"' if space else ""
        return (f'<svg{spaced} class="{classes}"{styled} viewBox="{x} {y} {self.wide} {self.tall}" '
                f'width="{self.wide}" height="{self.tall}" data-mm="{self.grain}" '
                f"{self._announced(head, named=named)}{self.inside}</svg>")

    def _announced(self, head: str, *, named: bool) -> str:
        """The rest of the opening tag, and the title."""
        if not self.role:
            return f'aria-hidden="true">{head}'
        leads, own = (f' aria-labelledby="{self.prefix}-t"', f' id="{self.prefix}-t"') \
            if named else ("", "")
        return f'role="{self.role}"{leads}>{head}<title{own}>{esc(self.title)}</title>'


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sketch:
    """Whose sketch it is, the names of its parts by key, where they lead, how it is announced."""

    pattern: Pattern
    size: SizeProof
    names: Mapping[str, str]
    links: Mapping[str, str]
    titled: bool

    @property
    def pieces(self) -> frozenset[str]:
        """The keys of its pieces that may be of a fabric apart."""
        garment = self.pattern.garment
        return frozenset(garment.piece_fabrics) if garment else frozenset()


def garment(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline], *,
            views: Sequence[View] = BOTH, prefix: str = "sketch", titled: bool = True,
            links: Mapping[str, str] = NO_LINKS) -> str:
    """Return the garment as `drawings_of` draws it, an SVG element for each of the `views`."""
    return "".join(drawing.svg() for drawing in drawings_of(
        pattern, size, outlines, views=views, prefix=prefix, titled=titled, links=links))


def drawings_of(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline], *,
                views: Sequence[View] = BOTH, prefix: str = "sketch", titled: bool = True,
                links: Mapping[str, str] = NO_LINKS) -> tuple[DrawnView, ...]:
    """Return the garment drawn in one size, from each of the `views`.

    What lies flat, such as a hat or a shawl, is seen from one side only; of a pattern without a
    garment each band is drawn on its edge. `outlines` are those of the pieces. Ids begin with
    `prefix`. Where `titled` the sketch is an image with a title in words; else it is hidden from
    whoever listens, for the text says it. `links` lead from a piece, by its key, or from a band,
    by "band " and its key, to an address: then the sketch is a group of links. All sketches of
    whole millimetres are in one scale: `data-mm` is how many units a millimetre has.
    """
    names = {o.key: o.title for o in outlines} | {
        f"band {plan.band.key}": plan.band.title for plan in size.plans}
    sheet = _Sketch(pattern=pattern, size=size, names=names, links=links, titled=titled)
    return tuple(_drawn(sheet, view, groups, f"{prefix}-{view.value}")
                 for view, groups in _seen(parts_of(pattern, size, outlines), size.plans, views))


def _seen(parts: DrawnParts | None, plans: Sequence[BandPlan], views: Sequence[View]
          ) -> list[tuple[View, Sequence[tuple[str, Sequence[DrawnMark]]]]]:
    """What is drawn in each view, by part, what lies lowest first."""
    if parts is None:
        return [(View.FRONT, edges(plans))]
    flat = FLAT.get(parts.assembled.garment.form)
    if flat:
        return [(View.FRONT, flat(parts))]
    return [(view, upper_marks(parts, behind=view is View.BACK)) for view in views]


def _drawn(sheet: _Sketch, view: View, groups: Sequence[tuple[str, Sequence[DrawnMark]]],
           prefix: str
           ) -> DrawnView:
    left, right, low, high = reached(m for _, marks in groups for m in marks)
    grain = WHOLE if right - left > SMALL else TENTHS
    x, y = (left - MARGIN) // grain, -(high + MARGIN) // grain
    wide, tall = (right - left + 2 * MARGIN) // grain, (high - low + 2 * MARGIN) // grain
    own = yarn_of(sheet.pattern.garment, sheet.pattern.materials, sheet.pattern.bands,
                  "" if sheet.pattern.garment else groups[0][0])
    tiles = Tiles(prefix, grain, (right - left) // ACROSS_LINES)
    body = "".join(_group(key, marks, tiles, sheet, own) for key, marks in groups)
    role, title = _announced(sheet, view)
    return DrawnView(
        view=view, looks=f"wb-garment{_lines(own)}", worn=_worn(sheet, own), corner=(x, y),
        wide=wide, tall=tall, grain=HUNDREDTHS // grain, prefix=prefix, role=role, title=title,
        inside=f"{tiles.patterns}{body}")


def _lines(yarn: Yarn | None) -> str:
    return f" {lines_on(yarn.colour)}" if yarn and yarn.colour else ""


def _worn(sheet: _Sketch, yarn: Yarn | None) -> str:
    others = others_of(sheet.pattern.garment, sheet.pattern.materials)
    return yarn_style(yarn, *others) if yarn else ""


def _announced(sheet: _Sketch, view: View) -> tuple[str, str]:
    """The role and the title of the drawing; both "" where it is hidden."""
    if not (sheet.titled or sheet.links):
        return "", ""
    body = view is View.FRONT and shows_body(sheet.pattern.garment)
    name = words.title(sheet.pattern.title, sheet.size.size, view.value, body=body)
    return "group" if sheet.links else "img", name


def _group(key: str, marks: Sequence[DrawnMark], tiles: Tiles, sheet: _Sketch, own: Yarn | None
           ) -> str:
    """One part, in its own yarn where it has one."""
    drawn = "".join(_mark(mark, tiles) for mark in marks)
    part, yarn = f'data-part="{esc(key)}"', yarn_of(sheet.pattern.garment, sheet.pattern.materials,
                                                    sheet.pattern.bands, key)
    spec, materials = sheet.pattern.garment, sheet.pattern.materials
    others = others_of(spec, materials, key) if key in sheet.pieces else ()
    if yarn and (yarn != own or (others and others != others_of(spec, materials))):
        part += f' class="{lines_on(yarn.colour)}"{clothed(yarn, *others)}'
    if key not in sheet.links:
        return f"<g {part}>{drawn}</g>"
    return (f'<a href="{esc(sheet.links[key])}" aria-label="{esc(sheet.names[key])}" {part}>'
            f"{drawn}</a>")


def _mark(mark: DrawnMark, tiles: Tiles) -> str:
    grain = tiles.grain
    if isinstance(mark, Disc):
        x, y = mark.middle.x // grain, -mark.middle.y // grain
        return f'<circle class="{mark.looks}" cx="{x}" cy="{y}" r="{mark.radius // grain}"/>'
    if isinstance(mark, Laid):
        return (f'<path style="fill:url(#{tiles.of(mark.tile)})" '
                f'd="{data(mark.lines, grain, closed=True)}"/>')
    return f'<path class="{mark.looks}" d="{data(mark.lines, grain, closed=mark.closed)}"/>'
