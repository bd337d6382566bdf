"""Pieces to knit first: what is cast on is on as many needles, and is what the bands then hang.

Their sentences stand in sentences.txt like all others, under acts that begin with "trial".
"""

from __future__ import annotations

import re
from itertools import takewhile
from typing import Any

from tests.reader import grammar
from tests.reader.acts_rows import counted
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.gauges import Gauge
from tests.reader.gauges import of_piece as gauge_of
from tests.reader.needles import parse
from tests.reader.page_parts import Reading

TITLE = "Pieces to knit first"
SENTENCE_END = re.compile(r"(?<=\.)\s+")  # a piece's title begins small
BEGINS = ("dial", "trial_cast_on", "counter", "trial_knit")
# How a piece is worked whose side edge is hung, and one whose stitches wait: act by act.
BOUND = (*BEGINS, "trial_weights_off", "trial_bind_off")
WAITS = (*BEGINS, "trial_cut", "trial_waste", "trial_weights_off", "trial_off_needles",
         "trial_label")
AFTER = {"trial_mass", "trial_sides", "trial_hem", "trial_lead"}
ACTS = {*BOUND, *WAITS, *AFTER}
Piece = list[tuple[str, dict[str, Any]]]  # its acts and what stands in their slots


def trial_pieces(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """Hold every piece to its own counts, to the gauge, and to the band that is hung on it."""
    group = reading.group(TITLE)
    number = 0
    for block in group.blocks() if group else ():
        if block.kind == "li":
            band, _, told = block.text.partition(": ")
            number += told.count("Set the dial to ")
            attempt(reading, TITLE, block.text, of_band, reading, gauge, band, told)
        else:
            attempt(reading, TITLE, block.text, lead, block.text)
    tools = reading.group("Tools and materials") if group else None
    listed = [int(found[1]) for b in (tools.blocks() if tools else ())
              if (found := re.match(r"(\d+) pieces? to hang the bands on", b.text))]
    attempt(reading, TITLE, TITLE, need, not group or listed == [number], "materials",
            f"{number} pieces are knitted")


def read(sentence: str) -> tuple[str, dict[str, Any]]:
    """The act and the slots of a sentence of this section, by the one table."""
    try:
        said = grammar.read(sentence)
    except grammar.Unknown:
        need(False, "unknown", f"what is this: {sentence}")
        raise
    need(said.act in ACTS or said.act in ("weights_on", "caution_feet"), "unknown",
         f"not of a piece: {sentence}")
    return said.act, dict(said.slots)


def lead(text: str) -> None:
    """What is said before the pieces: every sentence is known, and the weights are hung."""
    acts = [read(sentence)[0] for sentence in SENTENCE_END.split(text)]
    need(acts[-2:] == ["caution_feet", "weights_on"], "weights", "nothing hangs the weights")


def of_band(reading: Reading, gauge: dict[str, Gauge], band: str, told: str) -> None:
    """The pieces of a band: all is read, the counts agree, and its steps hang just these."""
    pieces: list[Piece] = []
    for sentence in SENTENCE_END.split(told):
        title, colon, rest = sentence.rpartition(": ")
        act, slots = read(rest if colon else sentence)
        if act == "dial":
            pieces.append([])
            slots["title"] = title
        need(bool(pieces), "order", f"no piece is begun: {sentence}")
        pieces[-1].append((act, slots))
    hung = [(words, stitches, rows) for k in reading.knitters if k.title.split(",")[0] == band
            for words, stitches, rows, _ in k.hung_lengths]
    need(hung, "pieces", "no section hangs a band of this name")
    for piece in pieces:
        knitted = list(takewhile(lambda one: one[0] not in AFTER, piece))
        last = piece is pieces[-1]
        need(knitted == piece or (last and {act for act, _ in piece[len(knitted):]} <= AFTER),
             "order", "what it takes is said before all is knitted")
        of_piece(gauge, knitted, hung)


def of_piece(gauge: dict[str, Gauge], piece: Piece, hung: list[tuple[str, int, int]]) -> None:
    """One piece, act by act: its counts, its gauge, its label, and what the band hangs of it."""
    acts = tuple(act for act, _ in piece)
    need(acts in (BOUND, WAITS), "order", f"a piece is not knitted so: {', '.join(acts)}")
    did = dict(piece)
    on, wide = did["trial_cast_on"], did["trial_cast_on"]["stitches"]
    counted(parse(on["needles"]), wide)
    need(did["counter"]["rc"] == 0, "counter", "a piece begins at 0")
    need(any(one.yarn == on["name"] and one.dial == did["dial"]["dial"]
             for one in gauge.values()), "gauge", "no gauge has this yarn at this dial")
    ended = did["trial_bind_off" if acts == BOUND else "trial_waste"]
    need(ended["stitches"] == wide, "count", f"{wide} were cast on")
    if acts == WAITS:
        # As many as a band's own start may have: the page about pattern sources, `waste_rows`.
        need(6 <= ended["rows"] <= 10, "waste", f"{ended['rows']} rows of waste yarn")
        title = did["dial"]["title"]
        need(did["trial_label"]["name"] == title, "label", f"the piece is {title!r}")
        need(any(words == title and there == wide for words, there, _ in hung), "pieces",
             f"the band hangs {hung}")
    else:
        rows = did["trial_knit"]["rows"]
        need({there for _, _, there in hung} == {rows}, "pieces", f"the band hangs {hung}")


def hem_tried(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """How deep a hem is expected that was not swatched: its outer layer and the row that joins it,
    of each piece that has one, by the gauge of that piece."""
    told = next((match for group in [reading.group("Gauge")] if group for block in group.blocks()
                 if (match := re.search(r"about ([\d.]+) cm \([^)]+\) deep, from the fold to the "
                                        r"top of the joining row", block.text))), None)
    for k in reading.knitters if told else ():
        own, rows = gauge_of(gauge, k.title), k.notes.get("hem rows")
        if own and rows and not k.sections:
            deep = own.height(int(str(rows)))
            attempt(reading, k.title, told[0], need,  # type: ignore[index]
                    abs(float(told[1]) - deep) <= 0.06, "gauge",  # type: ignore[index]
                    f"{rows} rows lie there, {deep:.2f} cm")
