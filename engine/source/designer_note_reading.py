"""Reads a designer's notes at places of the instructions."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern.designer_notes import DesignerNote
from .correction_reading import sizes_named
from .fields import Fields, open_fields
from .keys.designer_note_keys import NoteKeys
from .keys.pattern_keys import PatternKeys
from .measure_reading import plain


def read_designer_notes(fields: Fields, sizes: Sequence[str]) -> tuple[DesignerNote, ...]:
    """Return the notes in their order; one at fault is recorded and left out.

    Whether a pattern has the place is looked at when it is knitted.
    """
    made = []
    for entry in fields.each(PatternKeys.notes):
        own = open_fields(fields.findings, entry, "a note", NoteKeys)
        if own is None:
            continue
        what, at = own.need(NoteKeys.text), own.get(NoteKeys.at)
        row, section = own.get(NoteKeys.row), own.get(NoteKeys.section)
        if section and row:
            own.refuse_both(NoteKeys.section, NoteKeys.row)
        for key in (NoteKeys.section, NoteKeys.row):
            if key.name in own and not at:
                own.findings.fault("missing-key", own.place, f'a {key.name}, and no "at" in a note',
                                   remedy=f'Add a line such as "{NoteKeys.at.line}".')
        concerned = tuple(sizes_named(own, NoteKeys.sizes, sizes))
        if what is not None:
            made.append(DesignerNote(detail=what, at=plain(at), section=section, row=row,
                                     after=own.get(NoteKeys.stands), sizes=concerned))
    return tuple(made)
