"""What lists of patterns show of one, the groups it stands in, and what a search finds it by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from typing import Any

from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..markup.html import anchor, esc, link
from ..markup.notes import picture
from ..proof.proof import Proof
from ..source.fabric_reading import size_slug
from ..words import list_text as words
from ..words.material_text import bed_called
from .former_sizes import former_sizes
from .sketch import sketch_of


@dataclass(frozen=True, slots=True)
class CardGroup:
    """A group of patterns to choose by: by what, the last part of its address, its name."""

    facet: str
    slug: str
    label: str


@dataclass(frozen=True, slots=True)
class Card:
    """A pattern in a list, as HTML; its links are from the site's root.

    Patterns without a garment are `bands` to try, and stand last.
    """

    html: str
    groups: tuple[CardGroup, ...] = ()
    bands: bool = False

    def called_before(self, folders: Sequence[str]) -> Card:
        """Return the card of a pattern whose folder had these names before."""
        data = f' data-former="{" ".join(folders)}" data-sizes=' if folders else " data-sizes="
        return replace(self, html=self.html.replace(" data-sizes=", data, 1))

    def as_json(self) -> dict[str, Any]:
        """Return it as JSON can hold it."""
        return asdict(self)

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Card:
        """Return the card that `as_json` wrote."""
        return cls(data["html"], tuple(CardGroup(**group) for group in data["groups"]),
                   data["bands"])


def pattern_card(proof: Proof) -> Card:
    """Return what a list shows of a pattern."""
    pattern = proof.pattern
    folder = f"patterns/{pattern.slug}"
    sizes = "" if pattern.files_only else " ".join(map(size_slug, pattern.sizes))
    before = " ".join(f"{page}:{size_slug(now)}" for _, page,
                      now in former_sizes(pattern.sizes, pattern.former_sizes))
    renamed = f' data-former-sizes="{before}"' if before and sizes else ""
    return Card(
        f'<div class="wb-card" data-pattern="{pattern.slug}" data-sizes="{sizes}"{renamed}>'
        f"{_plate(proof, folder)}<div>"
        f'<p class="wb-card-title">{link(f"{folder}/index.html", esc(pattern.title))}</p>'
        f'<p class="wb-card-about">{esc(pattern.summary)}</p>'
        f'<p class="wb-card-facts">{esc(words.on_a_card(pattern))}</p></div></div>',
        _groups(proof), pattern.garment is None)


def _plate(proof: Proof, folder: str) -> str:
    """The picture of a card: the designer's first photograph, else the sketch, of which the title
    beside it says what it shows."""
    if proof.pattern.pictures:
        return f'<div class="wb-plate">{picture(proof.pattern.pictures[0], folder)}</div>'
    sketch = sketch_of(proof)
    if sketch is None:
        return '<div class="wb-plate"></div>'
    return (f'<div class="wb-plate"><img src="{folder}/{sketch.file}" width="{sketch.wide}" '
            f'height="{sketch.tall}" alt="" loading="lazy"></div>')


def _groups(proof: Proof) -> tuple[CardGroup, ...]:
    pattern = proof.pattern
    garment = (words.garments_called(FORMS[pattern.garment.form].sort) if pattern.garment
               else words.BANDS)
    bed = bed_called(pattern.bed)
    return (CardGroup(words.BY_GARMENT, *garment),
            CardGroup(words.BY_WEARER, f"for-{pattern.wearer.value}",
                      words.wearers_called(pattern.wearer)),
            CardGroup(words.BY_BED, f"on-{anchor(bed.lower())}", bed))


def search_text(proof: Proof) -> str:
    """Return what a search finds a pattern by, as HTML: title, summary, form, yarns, bed."""
    pattern = proof.pattern
    forms = [pattern.garment.form] if pattern.garment else sorted(
        {f"{band.kind} band" for band in pattern.bands.values()})
    yarns = "; ".join(", ".join(filter(None, (yarn.called, yarn.fibre)))
                      for yarn in pattern.yarns.values())
    texts = (pattern.summary, f"{', '.join(forms)}.", f"{yarns}.",
             f"Needle bed: {pattern.bed.name}.")
    return f'<h1 id="pattern">{esc(pattern.title)}</h1>' + "".join(
        f"<p>{esc(each)}</p>" for each in texts)
