"""Reads what a designer calls the pieces, and the pages where she shows techniques herself."""

from __future__ import annotations

from ..catalogue.techniques import TECHNIQUES
from ..core.text import clip, suggest
from .fields import Fields
from .keys.garment import PIECE_NAME, GarmentKeys
from .keys.head import PAGE, PatternKeys
from .measures import plain


def read_piece_names(garment: Fields) -> dict[str, str]:
    """Return what pieces are called, by their keys; which there are is seen when they are cut."""
    read = {plain(entry.label): garment.findings.read(entry, PIECE_NAME)
            for entry in garment.each(GarmentKeys.names)}
    return {key: name for key, name in read.items() if name is not None}


def read_techniques(fields: Fields) -> dict[str, str]:
    """Return addresses of the designer's pages, by the names of ours in whose place they are."""
    found: dict[str, str] = {}
    for entry in fields.each(PatternKeys.techniques):
        where = fields.findings.read(entry, PAGE)
        if entry.label not in TECHNIQUES:
            expected, remedy = suggest(entry.label, TECHNIQUES, "Write one of these.")
            fields.findings.fault("unknown-name", entry.place,
                                  f'no technique page called "{clip(entry.label)}"', expected,
                                  remedy)
        elif where is not None:
            found[entry.label] = where
    return found
