"""The workings of the counts, done again."""

from __future__ import annotations

import re

from tests.reader import counted
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Reading


def workings(reading: Reading) -> None:
    """Every working done again, and its label held to what was knitted."""
    group = reading.group("Calculations")
    if not group:
        return
    title = ""
    knitted = {k.title.split(",")[0]: k for k in reading.knitters}
    for block in group.blocks():
        if block.kind == "summary":
            title = block.text
        text = f"{title}: {block.text}" if block.kind == "p" and title else block.text
        if block.kind in ("li", "p"):
            attempt(reading, group.title, text, counted.working, text)
            cast = re.match(r"Cast on, (\d+) stitches: ", block.text)
            k = knitted.get(title.removesuffix(": all its counts"))
            if cast and k and k.head[0] != int(cast[1]):
                reading.fault("working", group.title, block.text,
                              f"{k.title} begins with {k.head[0]}")
