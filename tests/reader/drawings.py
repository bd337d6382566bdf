"""The drawings of the pieces, held to the stitches and rows that were knitted."""

from __future__ import annotations

import re

from tests.reader import grammar, measures, silhouettes
from tests.reader.bed import Wrong, need
from tests.reader.garment_parts import attempt
from tests.reader.gauges import Gauge, of_piece
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Reading

DRAWN = re.compile(
    r"All pieces are drawn to one scale, as they lie on the bed: the purl side faces you\.|"
    r"Seam stitches are included\.|Bands(?: and facings)? are not\.|"
    r"The arrowheads inside a piece point the way it is knitted"
    r"(?:, and a dashed line is the top of a (?:hem|rib|hem or rib)"
    r"(?:, below its joining row)?)?\.|"
    r"Printed at 100 %, the drawings are 1 to \d+(?:\.\d+)?: 1 cm on paper is \d+(?:\.\d+)? cm of "
    r"the piece\.")


def drawings(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """Every figure of the drawings, against the stitches and rows that were knitted."""
    group = reading.group("Schematic")
    if not group or not of_piece(gauge, "Back"):
        return
    blocks = list(group.blocks())
    folded = any(act == "knit_join" for k in reading.knitters for act, _ in k.log)
    if folded != any("below its joining row" in block.text for block in blocks):
        reading.fault("drawing", group.title, "", "a hem's depth leaves the joining row out")
    faced = any(act in ("turn_behind", "turn_parts") for k in reading.knitters for act, _ in k.log)
    if faced != any("Bands and facings are not." in block.text for block in blocks):
        reading.fault("drawing", group.title, "", "whether a facing is drawn is not said")
    scale = re.compile(r"drawings are 1 to (\d+(?:\.\d+)?): 1 cm on paper is (\d+(?:\.\d+)?) cm")
    for block in blocks:
        if block.text.startswith("Printed at") and not scale.search(block.text):
            reading.fault("drawing", group.title, block.text, "no scale is told")
    for block in blocks:
        match = scale.search(block.text)
        if match and match[1] != match[2]:
            reading.fault("drawing", group.title, block.text, "two scales are told")
        odd = [one for one in grammar.sentences(block.text) if not DRAWN.fullmatch(one)]
        if block.kind == "p" and odd:
            reading.fault("unknown-sentence", group.title, odd[0], "an unknown sentence")
    try:
        figures = list(measures.figures(blocks))
    except Wrong as wrong:
        reading.fault(wrong.kind, group.title, "", wrong.message)
        return
    knitted = {k.title: k for k in reading.knitters}
    for name, texts, keys in figures:
        attempt(reading, name, "", measures.same_figures, name, texts, keys)
        for one in named(name):
            mine = [k for title, k in knitted.items() if title.split(",")[0].lower() == one]
            if not mine:
                reading.fault("drawing", group.title, name, "no such piece is knitted")
                continue
            attempt(reading, name, str(keys), piece, mine[0], keys, of_piece(gauge, one), gauge)


def named(name: str) -> list[str]:
    """The pieces that a figure is of: one, those that are as it is, and those that mirror it, in
    small letters."""
    first, *mirrored = re.split(r" \((.+?) mirrored\)", name.lower().split(", knitted")[0])
    return [*first.split(" and "), *filter(None, mirrored)]


def length(keys: dict[str, str], label: str) -> float | None:
    """A measure of a drawing [cm]."""
    value = keys.get(label)
    return float(measures.PAIR.search(value)[1]) if value else None  # type: ignore[index]


def near(keys: dict[str, str], label: str, exact: float, give: float) -> None:
    """Hold a measure to what was knitted, within a rounding."""
    told = length(keys, label)
    if told is not None:
        need(abs(told - exact) <= 0.06 + give, "drawing", f"{label} is {exact:.1f} cm, not {told}")


def lowest(k: Knitter, keys: dict[str, str], main: Gauge, gauge: dict[str, Gauge]) -> None:
    """The width of the first stitches is that of the fabric which is at that place."""
    stitches = k.head[0]
    foot = next((one for one in ("rib", "hem") if f"{one.capitalize()} depth" in keys), "")
    label = f"Width above the {foot}" if foot else "Width at the cast-on edge"
    widths = [name for name in keys if name.startswith(("Width above", "Width at the cast-on"))]
    need(widths == [label], "drawing", f"{widths} where it should be {label!r}")
    near(keys, label, main.width(stitches), 0)
    own = gauge.get("Rib")
    across = next((said[name] for act, said in k.log for name in ("stitches", "loops")
                   if act in ("cast_on", "zigzag_count") and name in said), 0)
    if foot == "rib" and own and "fold_hem" not in {act for act, _ in k.log}:
        told = keys.get("Rib at rest", "")
        need(told, "drawing", "how wide the rib lies is not said")
        near(keys, "Rib at rest", own.width(int(across)), 0)


def piece(k: Knitter, keys: dict[str, str], main: Gauge, gauge: dict[str, Gauge]) -> None:
    """The measures of one piece."""
    lowest(k, keys, main, gauge)
    silhouettes.held(k, {label: told for label in keys
                         if (told := length(keys, label)) is not None}, main)
