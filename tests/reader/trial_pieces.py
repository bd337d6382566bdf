"""Pieces to knit first: what is cast on is on as many needles, and is what the bands then hang."""

from __future__ import annotations

import re

from tests.reader.acts_rows import counted
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.gauges import Gauge
from tests.reader.needles import parse
from tests.reader.page_parts import Reading

PIECE = re.compile(
    r"(?:(?P<title>[a-z][a-z ,]+): )?Set the dial to (?P<dial>\d+(?:\.\d)?(?: \([^)]*\))?)\. "
    r"Cast on (?P<wide>\d+) stitches \((?P<needles>[LR]\d+ to [LR]\d+)\) "
    r"(?P<on>by hand|on waste yarn and ravel cord), with (?P<yarn>[^.]+)\. "
    r"Set the row counter to 0\. Knit (?P<rows>\d+) rows\. (?:Take the weights off\. "
    r"Bind off all (?P<bound>\d+) stitches stitch over stitch|Cut the yarn\. Knit about 8 rows of "
    r"waste yarn over the (?P<waits>\d+) stitches\. Take the weights off\. Take the work off the "
    r"needles\. Label it (?P<label>[^.]+))\.")
AFTER = re.compile(
    r"(?: (?:It takes|Together they take) about \d+ g\.)?"
    r"(?: The (?:right front's )?band takes one of its side edges(?:, the left front's the "
    r"other)?\. The cast-on edge is the hem\.)?")
TITLE = "Pieces to knit first"


def trial_pieces(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """Hold every piece to its own counts, to the gauge, and to the band that is hung on it."""
    group = reading.group(TITLE)
    number = 0
    for block in group.blocks() if group else ():
        if block.kind == "li":
            band, _, told = block.text.partition(": ")
            pieces = list(PIECE.finditer(told))
            number += len(pieces)
            attempt(reading, TITLE, block.text, of_band, reading, gauge, band, told, pieces)
    tools = reading.group("Tools and materials") if group else None
    listed = [int(found[1]) for b in (tools.blocks() if tools else ())
              if (found := re.match(r"(\d+) pieces? to hang the bands on", b.text))]
    attempt(reading, TITLE, TITLE, need, not group or listed == [number], "materials",
            f"{number} pieces are knitted")


def of_band(reading: Reading, gauge: dict[str, Gauge], band: str, told: str,
            pieces: list[re.Match[str]]) -> None:
    """The pieces of a band: all is read, the counts agree, and its steps hang just these."""
    rest = PIECE.sub("", told).strip()
    need(pieces and (not rest or AFTER.fullmatch(f" {rest}")), "unknown", f"what is this: {rest}")
    hung = [(words, stitches, rows) for k in reading.knitters if k.title.split(",")[0] == band
            for words, stitches, rows, _ in k.hung_lengths]
    need(hung, "pieces", "no section hangs a band of this name")
    for piece in pieces:
        wide, rows = int(piece["wide"]), int(piece["rows"])
        counted(parse(piece["needles"]), wide)
        need(int(piece["bound"] or piece["waits"]) == wide, "count", f"{wide} were cast on")
        need(any(one.yarn == piece["yarn"] and one.dial == piece["dial"]
                 for one in gauge.values()), "gauge", "no gauge has this yarn at this dial")
        if piece["waits"]:
            need(piece["label"] == piece["title"], "label", f"the piece is {piece['title']!r}")
            need(any(words == piece["title"] and there == wide for words, there, _ in hung),
                 "pieces", f"the band hangs {hung}")
        else:
            need({there for _, _, there in hung} == {rows}, "pieces", f"the band hangs {hung}")
