"""The keys of the hem or rib that pieces begin with."""

from __future__ import annotations

from collections.abc import Mapping

from ...pattern.model import Fold
from ...pattern.rib_specs import RibEnds, RibMake
from ...shape.ribs import RIBS
from ..depths import depth_or_rows
from ..outright_sizes import CountOrShare
from ..spellings import rib_needles
from ..values import Word, dial, share, whole_number, word
from .key import Key, Keys, Name, Several

HUNG = "hung"
HEM_KINDS: Mapping[str, RibMake | None] = {HUNG: None, **{make.value: make for make in RibMake}}
RIB_STITCHES = CountOrShare(whole_number("stitches of a rib", "4..600", "2..2000"),
                            share("share of a rib's stitches", "75 %..115 %", "67 %..150 %"))


class HemKeys(Keys, example="{depth: 3 cm}"):
    """A hem or rib that every piece begins with."""

    kind = Key(Word({name: name for name in HEM_KINDS}),
               "`hung`, a [hem](bands/hung-hem.md) folded on the bed; `mock rib` or "
               "`hung mock rib`, with [needles left out](bands/mock-rib.md), in one layer or "
               "folded; `latched rib`, [stitches dropped and latched up](bands/latched-rib.md); or "
               "`two-bed rib`, [knitted on two beds](bands/two-bed-rib.md) and moved to one, for "
               "a bed with a `second_bed`.", "latched rib", HUNG, HUNG,
               beside="rib: 1x1")
    depth = Key(depth_or_rows, "When finished, from 5 mm to 20 cm, or the rows of a layer, such as "
                "`21 rows`: of a hung hem any number, of a rib an even one; by size.", "3 cm",
                by_size=True, likely=("21 rows",))
    rib = Key(Word(RIBS), "`1x1`, `2x1` or `2x2`: the stitches that stand out, then those that lie "
              "back; on two beds also `full needle`. Every rib needs it, or a mock rib its "
              "`needles`. The stitches of a piece are counted so that the rib runs on across its "
              "seams.", "1x1", "", beside="kind: latched rib")
    needles = Key(rib_needles, "Of a mock rib, in place of `rib`: a repeat such as `3 in 1 out`, "
                  "at most two out side by side.", "3 in 1 out", "", beside="kind: mock rib",
                  likely=("2 in 1 out", "3 in 1 out, 1 in 1 out", "2 in 2 out"))
    fabric = Key(Name("fabric"), "Of a rib: the [fabric](#fabrics) it was swatched as, in the yarn "
                 "of the piece. Its rows are counted from that swatch and it is knitted at that "
                 "dial.", "welt", "counted as the piece's own, with a remark",
                 beside="kind: latched rib, rib: 1x1")
    ends = Key(word(RibEnds), "Of a rib at the sides of a piece: `run on`, its repeats run on "
               "across the seams; `alike`, it ends as it begins, with stitches that stand out, so "
               "that 1x1 has an odd count; `any`, on any count, as nearly alike as that allows.",
               "alike", "run on", RibEnds.RUN_ON, beside="kind: latched rib, rib: 1x1")
    stitches = Key(Several("stitches of ribs", 20, RIB_STITCHES, by_name=True), "Of a rib with "
                   "more or fewer stitches than the piece above it: how many, by piece and by "
                   "size, as a number or as a share of the piece's: `{back: 96, sleeve: {M: 44, L: "
                   "90 %}}`. The difference is [spread evenly](techniques/evenly-in-one-row.md) "
                   "above the rib, at most one stitch in three. A front has the back's, a left "
                   "front the right one's. The piece's stitches then need not fit the rib.",
                   "{sleeve: 90 %}", "as many as the piece",
                   beside="kind: latched rib, rib: 1x1, ends: any")
    fold = Key(word((Fold.LOOSE, Fold.PICOT)), "Of a hung hem: {words}.", "picot", "loose",
               Fold.LOOSE)
    joining_dial = Key(dial(), "Of the row that joins a hung hem or a hung mock rib.", "6.1",
                       "one number looser than the piece's", None)
    dial = Key(dial(), "Of the hem or rib, where no `fabric` has it.", "4",
               "two numbers below the fabric's", None)
