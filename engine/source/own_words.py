"""Reads what a designer calls the pieces, where she shows techniques, and what readers keep."""

from __future__ import annotations

from ..catalogue.techniques import TECHNIQUES
from ..core.text import clip, suggest
from ..forms.registry import FORMS
from ..pattern.model import GarmentSpec
from ..pattern.publishing import KEEPS
from .fields import Fields
from .keys.garment_keys import PIECE_NAME, GarmentKeys
from .keys.pattern_keys import KEPT, PAGE, PatternKeys
from .measure_reading import plain
from .values import Entry


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


def read_kept(fields: Fields, garment: GarmentSpec | None) -> tuple[str, ...]:
    """Return what a reader must leave as it is, by the names of sums; it warns of a key that does
    nothing."""
    entry = fields.entry(PatternKeys.reader_must_keep)
    if entry is None:
        return ()
    if fields.get(PatternKeys.reader_may_change) is None:
        fields.findings.warn("unused", entry.place, "reader_must_keep where a reader may change "
                             "nothing", remedy="Delete it, or write reader_may_change.")
    return tuple(name for item in fields.each(PatternKeys.reader_must_keep)
                 if (name := _kept(fields, item, garment)) is not None)


def _kept(fields: Fields, item: Entry, garment: GarmentSpec | None) -> str | None:
    word = fields.findings.read(item, KEPT)
    if word is None or word in KEEPS:
        return word
    names = (*map(plain, garment.chart.rows), *FORMS[garment.form].names) if garment else ()
    if plain(word) in names:
        return plain(word)
    expected, remedy = suggest(word, (*KEEPS, *names), "Write one of these.")
    fields.findings.fault("unknown-name", item.place, f'nothing called "{clip(word)}" that a '
                          "reader could change", expected, remedy)
    return None
