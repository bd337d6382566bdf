"""Words for lists of patterns: groups to choose by, cards, pages of a list."""

from __future__ import annotations

import re

from ..catalogue.forms import Sort
from ..core.counts import whole
from ..fabric.yarn import metres_per_gram
from ..pattern.collection import CollectionSettings
from ..pattern.fabrics import Yarn
from ..pattern.model import Pattern, Wearer
from .material_text import bed_called
from .overview_page_text import WEARERS

PAGES = "Pages of patterns"
PATTERNS = "Patterns"
CHOOSE = "Choose by garment, wearer or bed"
ALL = "all"
BY_GARMENT, BY_WEARER, BY_BED = "Garment", "For", "Bed"
"""What a list to choose by is called, in the order in which they stand."""

BANDS = ("bands", "bands to try")
"""Patterns without a garment."""
_GARMENTS = {
    Sort.CARDIGANS: "cardigans and jackets", Sort.PULLOVERS: "pullovers and tops",
    Sort.WAISTCOATS: "waistcoats and slipovers", Sort.HATS: "hats",
    Sort.ACCESSORIES: "mittens, shawls and blankets"}


def garments_called(sort: Sort) -> tuple[str, str]:
    """The group that garments of a sort stand in: its address and its name."""
    return sort.value, _GARMENTS[sort]


def page_title(number: int, many: int) -> str:
    """The title of a further page of the list."""
    return f"Patterns, page {number} of {many}"


def page_named(number: int) -> str:
    """What a link to a page of the list is called, where only its number is seen."""
    return f"Page {number} of the patterns"


def group_title(facet: str, label: str) -> str:
    """The title of the list of one group."""
    if facet == BY_GARMENT:
        return label[:1].upper() + label[1:]
    return f"Patterns for {label}" if facet == BY_WEARER else f"Patterns for a {label}"


def wearers_called(wearer: Wearer) -> str:
    """Who wears it, as a group."""
    return WEARERS[wearer]


def on_a_card(pattern: Pattern) -> str:
    """What it is and for whom, on which bed, in which sizes, how heavy its yarn is, in short."""
    sizes = pattern.sizes
    many = f"{len(sizes)} sizes, from {sizes[0]} to {sizes[-1]}" if len(sizes) > 1 else "1 size"
    bed = bed_called(pattern.bed)
    what = pattern.garment.form if pattern.garment else "bands"
    sentences = [f"{what[:1].upper()}{what[1:]} for {WEARERS[pattern.wearer]}",
                 f"Machine with a {bed}, {pattern.bed.pitch.in_mm()}", many,
                 *["Instructions as files"] * pattern.files_only,
                 *_weight(next(iter(pattern.yarns.values()), None))]
    return _kept_together(f"{'. '.join(sentences)}.")


def _kept_together(text: str) -> str:
    """With a figure and its unit on one line."""
    return re.sub(r"(?<=\d) (?=sizes?|mm|m |g)|(?<=m) (?=to 1)", "\u00a0", text)


def _weight(yarn: Yarn | None) -> list[str]:
    """How long 100 g of a yarn are, its ends together, where its package or count says it."""
    long = None if yarn is None else metres_per_gram(yarn)
    return [] if long is None else [f"Yarn: {whole(long * 100)} m to 100 g"]


def lead(collection: CollectionSettings, patterns: int) -> str:
    """What stands below the title of the first page: the designer's sentences, else ours."""
    if collection.about:
        return collection.about
    many = f"{patterns} patterns" if patterns != 1 else "1 pattern"
    return f"{many} for hand-operated flat-bed knitting machines, in your size."


def made_by(collection: CollectionSettings) -> str:
    """Who made the collection; "" where nobody is named."""
    return f"A collection by {collection.designer}" if collection.designer else ""
