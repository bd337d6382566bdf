"""The table that says which row of a band is sewn to which place of its edge."""

from __future__ import annotations

from ..markup.html import esc, part, table
from ..proof.proof import Strip
from ..words import lengthwise_instructions as words
from ..words.band_ends import band_ends, part_title


def sewing_table(strip: Strip) -> str:
    """Return heading and table; two HTML blocks."""
    edge = band_ends(strip.plan, strip.front).edge
    body = words.lead(strip) + "\n" + table(
        esc(words.table_name(part_title(strip.plan), edge)), words.HEAD, words.rows(strip.plan))
    return (part(words.table_title(edge), words.sewing_anchor(strip))
            + f'<div class="wb wb-hanging">\n{body}\n</div>\n\n')
