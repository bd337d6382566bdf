"""The order of work: every piece, band and part of the making up, where it is done.

The list of them is the page's table of contents, and each is a section that is closed until its
reader opens it or follows a link into it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..core.units import Length
from ..drawings.piece_small import again, small_band, small_outlines, small_piece
from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..machine.steps import Side
from ..markup.html import esc, explained_once, fold, headed, items, link, shown_once
from ..pattern.model import Band, GarmentSpec, Pattern, Wearer
from ..plan.band import BandPlan
from ..proof.proof import SizeProof, Strip
from ..shape.polygon import Outline
from ..words import making_up_instructions, size_page_text
from ..words import order_of_work_text as words
from ..words.band_ends import band_ends, strip_title
from ..words.casing_instructions import casing_title
from ..words.hands import buttons_anchor
from ..words.piece_text import piece_title
from ..words.zip_instructions import zip_title
from .anchors import piece_anchor, strip_anchor
from .casing_section import casing_anchor, casing_body
from .making_up import StepStretch, making_up, own_bands, stretches
from .pieces import piece_body, times_of
from .placed_designer_notes import on_making_up
from .strips import strip_body
from .zip_section import zip_anchor, zip_body

INSIDE = "-steps"
"""What the id of the place just inside a section ends with: going there opens it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkPart:
    """A part of the work: its id, its title, what the list says of it (HTML), and what it tells.

    `drawn` is its small outline, "" where it has none. Parts that are `made` up number their steps
    from one to the next.
    """

    anchor: str
    title: str
    summary: str
    body: str
    drawn: str = ""
    made: bool = False

    @property
    def drawn_again(self) -> str:
        """Its small outline once more."""
        return again(self.drawn, self.anchor) if self.drawn else ""


def parts_of(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline]
             ) -> tuple[WorkPart, ...]:
    """Return every part of the work in the order in which it is done."""
    drawn = _outlines(size, outlines)
    bands, made = _bands(pattern, size, drawn), stretches(size)
    parts = [*_pieces(pattern, size, drawn),
             *(part for key in own_bands(size, made) for part in bands[key])]
    if size.assembled is None:
        return _explained(parts)
    html = making_up(size.assembled.garment, made, on_making_up(pattern.designer_notes, size))
    open_ = making_up_instructions.unfastened(child=pattern.wearer.is_child) \
        if is_unfastened(pattern.garment, pattern.bands) else ""
    for stretch in made:
        parts.append(_making(stretch, html[stretch.number] + open_ * (stretch is made[-1])))
        parts += [part for key in stretch.bands if key in bands for part in bands[key]]
    return _explained(parts)


def _explained(parts: Sequence[WorkPart]) -> tuple[WorkPart, ...]:
    """The parts with each explanation given once, at the first of them that has it."""
    bodies = explained_once(part.body for part in parts)
    return tuple(replace(part, body=body) for part, body in zip(parts, bodies, strict=True))


def links_of(size: SizeProof) -> Mapping[str, str]:
    """Where the parts of a sketch lead: a piece by its key, a band by "band " and its key."""
    bands = {f"band {strip.plan.band.key}": strip_anchor(strip) for strip in reversed(size.strips)}
    anchors = {piece.piece.key: piece_anchor(piece) for piece in size.pieces} | bands
    return {key: f"#{anchor}{INSIDE}" for key, anchor in anchors.items()}


def listed(parts: Sequence[WorkPart]) -> str:
    """Return the list of the parts, each a link to its section."""
    entries = (
        f'<span class="wb-pic">{part.drawn}</span>'
        f"<div>{link(f'#{part.anchor}{INSIDE}', esc(part.title))}"
        f"<p>{part.summary}</p></div>"
        for part in parts)
    return items(entries, "wb-order", "ol")


def sections_of(parts: Sequence[WorkPart]) -> str:
    """Return the sections of the parts."""
    return "".join(_section(part, number, len(parts)) for number, part in enumerate(parts, 1))


def _section(part: WorkPart, number: int, of: int) -> str:
    place = f"<span>{words.place_text(number, of)}</span>"
    return fold(part.title, part.anchor, part.body, css=f"wb-task{' wb-making' * part.made}",
                inside=f"{part.anchor}{INSIDE}", before=place, after=part.drawn_again)


def _outlines(size: SizeProof, outlines: Sequence[Outline]) -> Mapping[str, str]:
    shapes = {piece_anchor(knitted): small_piece(outline)
              for knitted, outline in zip(size.pieces, outlines, strict=True)} if outlines else {}
    return small_outlines(shapes | {strip_anchor(s): small_band(s) for s in size.strips})


def _pieces(pattern: Pattern, size: SizeProof, drawn: Mapping[str, str]) -> Iterator[WorkPart]:
    bodies = shown_once(piece_body(pattern, size, p) for p in size.pieces)
    for knitted, body in zip(size.pieces, bodies, strict=False):
        anchor, times = piece_anchor(knitted), times_of(size, knitted)
        yield WorkPart(anchor=anchor, title=piece_title(knitted.piece, times), body=body,
                       summary=words.piece_text(knitted, _steps(body), times),
                       drawn=drawn.get(anchor, ""))


def _bands(pattern: Pattern, size: SizeProof, drawn: Mapping[str, str]
           ) -> Mapping[str, tuple[WorkPart, ...]]:
    """The parts of every band by its key: its strips, then what is done to it once it is worked.

    A garment has so many that each way of working is linked to at the first.
    """
    bodies = [strip_body(pattern, size, strip) for strip in size.strips]
    if size.assembled:
        bodies = shown_once(bodies)
    found: dict[str, list[WorkPart]] = {plan.band.key: [] for plan in size.plans}
    plans = {plan.band.key: plan for plan in size.plans}
    last = {strip.plan.band.key: strip for strip in size.strips}
    for strip, body in zip(size.strips, bodies, strict=False):
        key = strip.plan.band.key
        more = _buttons(plans[key], practised=pattern.garment is None) if strip is last[key] else ""
        found[key].append(_strip(strip, body, more, drawn[strip_anchor(strip)]))
    for plan in size.plans:
        found[plan.band.key] += _after(pattern.wearer, plan)
    return {key: tuple(parts) for key, parts in found.items()}


def _strip(strip: Strip, body: str, more: str, drawn: str) -> WorkPart:
    return WorkPart(anchor=strip_anchor(strip), title=strip_title(strip), body=body + more,
                    summary=words.strip_text(strip, _steps(body)), drawn=drawn)


def _after(wearer: Wearer, plan: BandPlan) -> Iterator[WorkPart]:
    """What is set into a band once it is worked: a zip, a cord or elastic."""
    if body := zip_body(plan):
        yield _set_in(zip_anchor(plan), zip_title(plan.band.title), body)
    if body := casing_body(plan, child=wearer.is_child):
        yield _set_in(casing_anchor(plan), casing_title(plan), body)


def _set_in(anchor: str, title: str, body: str) -> WorkPart:
    return WorkPart(anchor=anchor, title=title, body=body,
                    summary=words.steps_text(body.count("<li")))


def _buttons(plan: BandPlan, *, practised: bool) -> str:
    """Where the buttons go: over the middle of each hole, measured from the hem."""
    if plan.placing is None:
        return ""
    half = Fraction(plan.placing.hole, 2)
    holes = plan.band.buttonholes
    ends = band_ends(plan, holes.front if holes else Side.RIGHT)
    places = (Length((start - 1 + half) * plan.along) for start in plan.placing.starts)
    return (headed(size_page_text.buttons_title(plan), buttons_anchor(plan.band.key))
            + size_page_text.buttons_lead(plan, ends, practised=practised)
            + items(map(str, places), "wb-list", "ol"))


def is_unfastened(garment_spec: GarmentSpec | None, all_bands: Mapping[str, Band]) -> bool:
    """Return True for a garment that opens at the front, where no band or cord closes it."""
    spec, bands = garment_spec, all_bands.values()
    return bool(spec and FORMS[spec.form].opens and not spec.cord) and not any(
        band.buttonholes or band.zip or band.cord for band in bands)


def _making(stretch: StepStretch, body: str) -> WorkPart:
    return WorkPart(anchor=stretch.anchor, title=stretch.title, body=body,
                    summary=words.making_text(stretch.tasks), made=True)


def _steps(body: str) -> int:
    """How many numbered steps a section has."""
    return body.count('<li id="')
