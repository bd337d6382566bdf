"""Which pieces of a garment are meant to be knitted side by side, turn and turn about."""

from __future__ import annotations

from ..core.text import clip, suggest
from ..forms.registry import Form
from .fields import Fields
from .keys.garment_keys import GarmentKeys
from .values import Entry, Fault, Text


def read_pairs(garment: Fields, form: Form) -> tuple[tuple[str, ...], ...]:
    """The keys of the pieces of each pair, in the order given; one key for a piece and its copy."""
    found = (garment.findings.read(item, lambda at: _pair(at, form))
             for item in garment.each(GarmentKeys.side_by_side))
    return tuple(dict.fromkeys(pair for pair in found if pair))


def _pair(entry: Entry, form: Form) -> tuple[str, ...]:
    """The pieces that a word names. Raises Fault with all the pairs there are."""
    words = ", ".join(form.pairs) or "no line of this kind"
    value = Text(120, f"one of {words}", "Write one of these, or leave the line out.")(entry)
    if value in form.pairs:
        return form.pairs[value]
    if not form.pairs:
        raise Fault("unknown-word", entry.place, f'"{clip(value)}"',
                    f"no side_by_side for a {form.name}, which has no pair of pieces",
                    "Leave the line out.")
    expected, remedy = suggest(value, form.pairs, "Use one of these words.")
    raise Fault("unknown-word", entry.place, f'"{clip(value)}"', expected, remedy)
