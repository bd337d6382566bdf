"""Words for lists of patterns: groups to choose by, cards, pages of a list."""

from __future__ import annotations

import re

from ..core.counts import whole
from ..pattern.collection import CollectionSettings
from ..pattern.fabrics import Yarn
from ..pattern.model import Pattern, Wearer
from .materials import bed_called
from .overview_page import WEARERS

PAGES = "Pages of patterns"
PATTERNS = "Patterns"
CHOOSE = "Choose by garment, wearer or bed"
ALL = "all"
BY_GARMENT, BY_WEARER, BY_BED = "Garment", "For", "Bed"
"""What a list to choose by is called, in the order in which they stand."""

_CARDIGANS = ("cardigans", "cardigans and jackets")
_PULLOVERS = ("pullovers", "pullovers and tops")
_WAISTCOATS = ("waistcoats", "waistcoats and gilets")
_HATS = ("hats", "hats")
_OTHER = ("accessories", "mittens, shawls and blankets")
BANDS = ("bands", "bands to try")
"""Patterns without a garment."""
GARMENTS = {
    "drop-shoulder cardigan": _CARDIGANS, "set-in cardigan": _CARDIGANS,
    "raglan cardigan": _CARDIGANS, "saddle raglan cardigan": _CARDIGANS,
    "drop-shoulder pullover": _PULLOVERS, "set-in pullover": _PULLOVERS,
    "raglan pullover": _PULLOVERS, "saddle raglan pullover": _PULLOVERS,
    "sideways pullover": _PULLOVERS,
    "drop-shoulder waistcoat": _WAISTCOATS, "set-in waistcoat": _WAISTCOATS,
    "set-in slipover": _WAISTCOATS,
    "hat": _HATS, "mitten": _OTHER, "triangular shawl": _OTHER, "panelled blanket": _OTHER}
"""By the name of a form, the group that its garments stand in: its address and its name."""


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
    many = f"{len(sizes)} sizes, {sizes[0]} to {sizes[-1]}" if len(sizes) > 1 else "1 size"
    bed = bed_called(pattern.bed)
    what = pattern.garment.form if pattern.garment else "bands"
    said = [f"{what[:1].upper()}{what[1:]} for {WEARERS[pattern.wearer]}",
            f"{bed[:1].upper()}{bed[1:]}, {pattern.bed.pitch.in_mm()}", many,
            *_weight(next(iter(pattern.yarns.values()), None))]
    return _kept_together(f"{'. '.join(said)}.")


def _kept_together(said: str) -> str:
    """With a figure and its unit on one line."""
    return re.sub(r"(?<=\d) (?=sizes?|mm|m |g)|(?<=m) (?=to 1)", "\u00a0", said)


def _weight(yarn: Yarn | None) -> list[str]:
    """How long 100 g of a yarn are, where its package says it."""
    if yarn is None or yarn.package_g is None or yarn.package_length is None:
        return []
    metres = yarn.package_length.mm / 10 / yarn.package_g
    return [f"Yarn: {whole(metres)} m to 100 g"]


def lead(collection: CollectionSettings, patterns: int) -> str:
    """What stands below the title of the first page: the designer's sentences, else ours."""
    if collection.about:
        return collection.about
    many = f"{patterns} patterns" if patterns != 1 else "1 pattern"
    return f"{many} for hand-operated flat-bed knitting machines, in your size."


def made_by(collection: CollectionSettings) -> str:
    """Who made the collection; "" where nobody is named."""
    return f"A collection by {collection.designer}" if collection.designer else ""
