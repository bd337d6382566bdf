"""A designer's note on the page of a size: her words, marked as hers."""

from __future__ import annotations

from ..markup.html import esc
from ..pattern.designer_notes import DesignerNote


def note_text(note: DesignerNote) -> str:
    """Return a note as HTML that says whose it is."""
    return f'<aside class="wb-says"><b>Designer’s note:</b> {esc(note.detail)}</aside>\n'
