"""The facts of a page as data: what hooks, scripts and other programs read instead of its text.

A pattern's first page has the facts of the pattern; the page of a size has those of the size too.
They stand in the page once, as JSON in an element that no browser runs or shows (HTML, 4.12.1).
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from typing import Any

from ..machine.programs import Program
from ..machine.records import dataclass
from ..machine.steps import Side
from ..markup.html import data
from ..pattern.model import Pattern
from ..proof.proof import SizeProof, Strip
from ..source.fabric_reading import size_slug
from ..words.at_bench import yarns_of
from ..words.band_ends import strip_title
from ..words.terms.yarn_names import yarn_name
from .anchors import anchor_of, piece_anchor, strip_anchor
from .corrected_places import corrected_parts
from .former_sizes import former_sizes
from .making_up import stretches
from .pieces import times_of

SCHEMA = 2
"""The number of the schema that the facts meet; it changes when a key changes its meaning."""
BLOCK = "wb-facts"
"""The id of the element that holds the facts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFacts:
    """A piece or band: the id of its section (its steps' ids begin with it), its title, the
    carriage's side at its start, and its yarns in the order in which they are threaded.

    `times` is how often all of it is worked alike; `side` is the front that a band belongs to, and
    `number` is its part of a band that is longer than the bed. A piece has neither.
    """

    anchor: str
    title: str
    starts: Side
    yarns: tuple[str, ...]
    times: int = 1
    side: Side | None = None
    number: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionFacts:
    """A correction of this size: the first version that has it, its text, what the ids of the steps
    begin with that it concerns, and which of these it is, counted from 1, 0 for all of them."""

    version: str
    text: str
    parts: tuple[str, ...] = ()
    step: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeFacts:
    """A size: its name, its pieces and bands in the page's order.

    `making_up` has its sections: what the ids of their steps begin with, the id of the heading,
    the title.

    `side_by_side` has the ids of pieces that are knitted at once, each with its own yarn; one id
    where such a piece is knitted twice. `counts` are those that two versions are compared by.
    `corrections` are those that concern this size and name their version.
    """

    name: str
    pieces: tuple[PartFacts, ...]
    bands: tuple[PartFacts, ...]
    side_by_side: tuple[tuple[str, ...], ...]
    making_up: tuple[tuple[str, str, str], ...]
    counts: Mapping[str, str] = field(default_factory=dict)
    corrections: tuple[CorrectionFacts, ...] = ()

    @property
    def yarns(self) -> tuple[str, ...]:
        """Every yarn of the size once, in the order of its parts."""
        return tuple(dict.fromkeys(
            yarn for part in (*self.pieces, *self.bands) for yarn in part.yarns))


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFacts:
    """What a page is of: the pattern with all its sizes, and on a size's page that size.

    `contact` is the address of a link to the pattern's designer, "" where the source has none.
    `former_sizes` are those that were called otherwise: label and page then, and the label now.
    """

    slug: str
    title: str
    version: str
    date: str
    designer: str
    licence: str
    sizes: tuple[str, ...]
    size: SizeFacts | None = None
    contact: str = ""
    former_sizes: tuple[tuple[str, str, str], ...] = ()

    @property
    def heading(self) -> str:
        """The page's first heading."""
        return f"{self.title}, size {self.size.name}" if self.size else self.title

    def as_json(self) -> dict[str, Any]:
        """Return the facts as JSON that meets `facts_schema`; sizes lead to their pages' names."""
        pattern = {"schema": SCHEMA, "pattern": self.slug, "title": self.title,
                   "version": self.version, "date": self.date, "designer": self.designer,
                   "licence": self.licence, "sizes": {s: size_slug(s) for s in self.sizes}}
        if self.contact:
            pattern["contact"] = self.contact
        if self.former_sizes:
            pattern["former_sizes"] = [dict(zip(("label", "page", "now"), each, strict=True))
                                       for each in self.former_sizes]
        return {**pattern, **_size(self.size), "heading": self.heading} if self.size else pattern

    def in_page(self) -> str:
        """Return the element with the facts, as HTML."""
        return data(BLOCK, self.as_json())


def with_former(page: str, folders: Sequence[str]) -> str:
    """Return a page with the names that its pattern's folder had before among its facts.

    What a reader keeps of a size is under the name that the folder had.
    """
    start = f'id="{BLOCK}">{{'
    named = f'"former":{json.dumps(list(folders))},'
    return page.replace(start, start + named, 1) if folders else page


def pattern_facts(pattern: Pattern) -> PageFacts:
    """Return the facts of a pattern's first page."""
    return PageFacts(slug=pattern.slug, title=pattern.title, version=pattern.version,
                     date=str(pattern.date), designer=pattern.designer, licence=pattern.licence,
                     sizes=tuple(pattern.sizes), contact=pattern.contact,
                     former_sizes=former_sizes(pattern.sizes, pattern.former_sizes))


def size_facts(pattern: Pattern, size: SizeProof, counts: Mapping[str, str]) -> PageFacts:
    """Return the facts of the page of one size, with the `counts` that versions are compared by."""
    marked = pattern.garment.side_by_side if pattern.garment else ()
    pieces = tuple(_part(p.program, anchor=piece_anchor(p), title=p.piece.title,
                         times=times_of(size, p)) for p in size.pieces)
    own = SizeFacts(name=size.size, pieces=pieces, bands=tuple(map(_band, size.strips)),
                    side_by_side=tuple(tuple(map(anchor_of, keys)) for keys in marked),
                    making_up=tuple((part.key, part.anchor, part.title)
                                    for part in stretches(size)), counts=counts,
                    corrections=tuple(_corrections(pattern, size)))
    return PageFacts(slug=pattern.slug, title=pattern.title, version=pattern.version,
                     date=str(pattern.date), designer=pattern.designer, licence=pattern.licence,
                     sizes=tuple(pattern.sizes), size=own, contact=pattern.contact,
                     former_sizes=former_sizes(pattern.sizes, pattern.former_sizes))


def _corrections(pattern: Pattern, size: SizeProof) -> Iterator[CorrectionFacts]:
    for one in pattern.corrections:
        if one.version and one.concerns(size.size):
            parts = corrected_parts(pattern, size, one)
            before = parts[0].first - 1 if parts else 0
            yield CorrectionFacts(version=one.version, text=one.text,
                                  step=one.step and one.step - before,
                                  parts=tuple(part.anchor for part in parts))


def _part(program: Program, *, anchor: str, title: str, times: int, side: Side | None = None,
          number: int | None = None) -> PartFacts:
    return PartFacts(anchor=anchor, title=title, starts=program.starts,
                     yarns=tuple(map(yarn_name, yarns_of(program))),
                     times=times, side=side, number=number)


def _band(strip: Strip) -> PartFacts:
    part = strip.plan.part
    return _part(strip.program, anchor=strip_anchor(strip), title=strip_title(strip),
                 times=strip.plan.edge_path.times, side=strip.front,
                 number=part.number if part else None)


def _size(size: SizeFacts) -> dict[str, Any]:
    yarns = size.yarns
    facts: dict[str, Any] = {"size": size.name, "yarns": yarns,
                             "pieces": [_written(part, yarns) for part in size.pieces],
                             "bands": [_written(part, yarns) for part in size.bands],
                             "counts": dict(size.counts)}
    if size.side_by_side:
        facts["side_by_side"] = size.side_by_side
    if size.making_up:
        facts["making_up"] = [{"id": key, "heading": anchor, "title": title}
                              for key, anchor, title in size.making_up]
    if size.corrections:
        facts["corrections"] = [_corrected(one) for one in size.corrections]
    return facts


def _corrected(one: CorrectionFacts) -> dict[str, Any]:
    facts: dict[str, Any] = {"version": one.version, "text": one.text}
    more = {"parts": one.parts, "step": one.step}
    return facts | {key: value for key, value in more.items() if value}


def _written(part: PartFacts, yarns: tuple[str, ...]) -> dict[str, Any]:
    """A part as JSON; its yarns are their places in the page's list."""
    facts: dict[str, Any] = {"id": part.anchor, "title": part.title, "starts": part.starts.value,
                             "yarns": [yarns.index(yarn) for yarn in part.yarns]}
    more = {"times": part.times if part.times > 1 else None,
            "side": part.side.value if part.side else None, "part": part.number}
    return facts | {key: value for key, value in more.items() if value is not None}


_TEXT: dict[str, Any] = {"type": "string", "minLength": 1}
_SLUG: dict[str, Any] = {"type": "string", "pattern": "^[a-z0-9][a-z0-9_-]*$"}
_PAGE: dict[str, Any] = {"type": "string", "pattern": "^[a-z0-9-]+$"}
_SIDE: dict[str, Any] = {"enum": ["left", "right"]}
_CORRECTIONS: dict[str, Any] = {
    "type": "array", "minItems": 1, "items": {
        "type": "object", "required": ["version", "text"], "additionalProperties": False,
        "properties": {"version": _TEXT, "text": _TEXT,
                       "parts": {"type": "array", "minItems": 1, "items": _TEXT},
                       "step": {"type": "integer", "minimum": 1}}}}


def facts_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) that the facts in every page meet."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"The facts of a pattern's page, version {SCHEMA}",
        "type": "object",
        "required": ["schema", "pattern", "title", "version", "date", "designer", "licence",
                     "sizes"],
        "additionalProperties": False,
        "dependentRequired": {"size": ["heading", "yarns", "pieces", "bands", "counts"]},
        "properties": {
            "schema": {"const": SCHEMA},
            "pattern": _SLUG,
            **dict.fromkeys(("title", "version", "date", "designer", "licence", "size",
                             "heading", "contact"), _TEXT),
            "sizes": {"type": "object", "minProperties": 1, "additionalProperties": {
                "description": "the name of the size's page", **_PAGE}},
            "yarns": {"type": "array", "items": _TEXT, "uniqueItems": True},
            "pieces": {"type": "array", "items": _part_schema({})},
            "bands": {"type": "array", "items": _part_schema(
                {"side": _SIDE, "part": {"type": "integer", "minimum": 1}})},
            "counts": {"description": "by names that do not change with them", "type": "object",
                       "additionalProperties": _TEXT},
            "side_by_side": {"type": "array", "items": {
                "type": "array", "items": _TEXT, "minItems": 1}},
            "making_up": {"type": "array", "minItems": 1, "items": {
                "type": "object", "required": ["id", "heading", "title"],
                "additionalProperties": False,
                "properties": {"id": _TEXT, "heading": _TEXT, "title": _TEXT}}},
            "corrections": _CORRECTIONS,
            "former": {"description": "names that the pattern's folder had before",
                       "type": "array", "minItems": 1, "items": _SLUG},
            "former_sizes": {
                "description": "sizes that were called otherwise: label and page then, label now",
                "type": "array", "minItems": 1, "items": {
                    "type": "object", "required": ["label", "page", "now"],
                    "additionalProperties": False,
                    "properties": {"label": _TEXT, "now": _TEXT, "page": _PAGE}}},
        },
    }


def _part_schema(more: dict[str, Any]) -> dict[str, Any]:
    return {"type": "object", "required": ["id", "title", "starts", "yarns", *(
                ["side"] if "side" in more else [])],
            "additionalProperties": False,
            "properties": {
                "id": {"description": "of its section; its steps' ids begin with it", **_TEXT},
                "title": _TEXT, "starts": _SIDE,
                "yarns": {"description": "places in the page's list of yarns", "type": "array",
                          "items": {"type": "integer", "minimum": 0}},
                "times": {"type": "integer", "minimum": 2}, **more}}
