"""How each way on and off the bed is named in a step, and what the edge is like that it makes."""

from __future__ import annotations

from ...machine.records import dataclass


@dataclass(frozen=True, slots=True)
class MethodWords:
    """How a step names a way on or off the bed, and what its edge is like."""

    phrase: str
    look: str


BY_HAND = MethodWords(
    "by hand", "a soft closed edge of slanting loops")
LATCH_ON = MethodWords(
    "with a latch-tool chain", "a chain along the edge that does not stretch")
PEG_ON = MethodWords(
    "with a chain over the gate pegs", "a chain along the edge, as wide as the work on the bed")
WASTE_ON = MethodWords(
    "on waste yarn and ravel cord", "open stitches, to be hung or closed later")
STITCH_OVER = MethodWords(
    "stitch over stitch", "a narrow chain that lies flat and holds its width")
PEGS_OFF = MethodWords(
    "around the gate pegs", "a chain as wide as the work on the bed")
TWO_PEGS_OFF = MethodWords(
    "around two gate pegs", "a loose chain, up to twice as wide as the work on the bed")
LATCH_OFF = MethodWords(
    "with a latch-tool chain",
    "a plain chain, with a ridge on the knit side, that hardly stretches")
CHAIN_OFF = MethodWords(
    "chained through each other", "a thin soft chain of the last row's own stitches")
SEWN = MethodWords(
    "back-stitched off waste yarn", "the most elastic edge, like one cast on by hand")
GRAFT = MethodWords(
    "grafted off waste yarn", "no seam: a sewn row that looks knitted")
TOGETHER = MethodWords(
    "bound off together", "a firm seam that holds its width")
DRAWN = MethodWords(
    "drawn up", "a closed ring")
