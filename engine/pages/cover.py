"""The sketch on the cover of a printed size: at which whole scale it stands on a sheet of A4."""

from __future__ import annotations

import re

from ..drawings.dimensions import px
from ..words.sketch import cover_scale

WIDE, TALL = 165, 150  # the room for the sketch on the cover [mm]
SCALES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20)  # times smaller than the garment
_DRAWN = re.compile(r'<svg (class="[^"]*")(?: style="([^"]*)")? viewBox="\S+ \S+ (\d+) (\d+)"'
                    r'.*? data-mm="(\d+)"')


def at_scale(drawn: str) -> str:
    """Return a sketch with its width on paper, and its scale in words; as it is without one.

    `drawn` is what `drawings.garment` makes of one view, its units `data-mm` to a millimetre.
    """
    found = _DRAWN.match(drawn)
    if found is None:
        return drawn
    wide, tall, mm = (int(found[n]) for n in (3, 4, 5))
    scale = next((n for n in SCALES if wide <= WIDE * mm * n and tall <= TALL * mm * n),
                 SCALES[-1])
    style = f"--wb-wide:{px((20 * wide + mm * scale) // (2 * mm * scale))}mm"
    worn = f"{found[2]};{style}" if found[2] else style
    rest = drawn[found.end(2) + 1 if found[2] else found.end(1):]
    return f'<svg {found[1]} style="{worn}"{rest}\n{cover_scale(scale)}'
