"""The keys of a band's buttonholes."""

from __future__ import annotations

from fractions import Fraction

from ...core.ranges import LIGNES
from ...core.units import Length
from ...machine.steps import Side
from ...pattern.holes import ButtonholeKind, Gaps, Lean, OddGap
from ..spellings import distance, middles
from ..values import YES_NO, Text, length, share, whole_number, word
from .key import Key, Keys, Mapped

_PLACED = ("at", "in_hem", "through", "rows")  # the holes lie where these say
_BUTTON = length("button", "6 mm..48 mm", "3 mm..100 mm", LIGNES,
                 example="18 mm, 3/4 in or 28 ligne")
HALF_AN_INCH = Length(Fraction(127, 10))


class InHemKeys(Keys, example="{number: 2, depth: 6 cm}"):
    """Holes in the hem or rib."""

    number = Key(whole_number("holes in a hem", "1..6", "1..10"), "How many, from {range}.", "2",
                 "2", 2)
    depth = Key(length("depth of a hem with holes", "1 cm..20 cm", "5 mm..50 cm"),
                "How deep the hem or rib is, by size, from {range}.", "6 cm",
                "the garment's hem; needed where it has none", by_size=True)
    ends = Key(length("end of a hem with holes", "2 mm..6 cm", "2 mm..20 cm"),
               "From its borders to the middles of its first and last hole, from {range}. A single "
               "hole lies in its middle.", "15 mm", "half an inch", HALF_AN_INCH)


class HoleRowsKeys(Keys, example="{first: 4, every: 16}"):
    """Holes by the row counter."""

    first = Key(whole_number("rows before a hole", "1..200", "1..1000"), "After how many rows the "
                "first is made, by size, from {range}.", "4", by_size=True)
    every = Key(whole_number("rows from hole to hole", "4..100", "2..400"), "After how many rows "
                "each of the others is made, counted from hole to hole, by size, from {range}.",
                "16", by_size=True)


class EndsKeys(Keys, example="{lower: 2 stitches, upper: 3 stitches}"):
    """Unequal ends of a band."""

    lower = Key(distance, "From the hem end.", "2 stitches", likely=("1.5 cm",))
    upper = Key(distance, "From the neck end.", "2 stitches", likely=("3 stitches", "2 cm"))


class HoleKeys(Keys, example="{button: 22 mm, number: 5}"):
    """The buttonholes of a band."""

    button = Key(_BUTTON, "The button's diameter, from {range}: `18 mm`, `3/4 in` or `28 ligne`.",
                 "22 mm")
    closing = Key(word(ButtonholeKind), "The kind of hole. Folded bands: `enclosed`. Single bands: "
                  "`one stitch`, `two stitches` (made by moving stitches, whatever the button) or "
                  "`bound off`. On both: `eyelet`, counted as two stitches, and `slit`, along the "
                  "rows, so long as the button asks. On the edge of either, or of a facing: "
                  "`loops`, chained on at the end. Rolled bands have none.", "enclosed",
                  "the first that the band can have")
    stitches = Key(whole_number("stitches of a hole", "1..20", "1..50"),
                   "Stitches of a hole, by size, from {range}.", "3", "the stitches the button "
                   "covers, less one, and at least 2; or all that it covers, where one less would "
                   "not [stretch so far](closings/enclosed.md#size)", by_size=True)
    number = Key(whole_number("number of holes", "1..40", "1..100"), "How many holes, by size, "
                 "from {range}.", "5", by_size=True, or_else=("every", "at"))
    every = Key(length("distance of holes", "1 cm..25 cm", "5 mm..100 cm"),
                "How far apart, from {range}, counted from the start of one hole to the start of "
                "the next; the nearest number of whole spaces is taken, so the holes come out "
                "about that far apart.", "8 cm", default=None, or_else=("number", "at"),
                instead_of=("number",))
    ends = Key(distance, "From each end of the band to the nearest hole, from 1 to 200 stitches or "
               "from 1 mm to 100 cm: `2 stitches`, `1.5 cm`, or [one for each end](#ends). From an "
               "end that is sewn shut, or that a seam takes, at least 2 stitches. From a join or "
               "seam of the edge, such as where a neckband ends or two sections meet, a hole keeps "
               "as far as from the nearer of the two ends; a hem is no join.", "2 stitches",
               "the button's width, and at least 1.25 cm; the upper one as much longer as it takes "
               "to keep every hole off a join", inside=EndsKeys,
               likely=("1.5 cm", "4 stitches"), idle_beside=("at",))
    front = Key(word((Side.RIGHT, Side.LEFT)), "Which front has the holes, as the wearer has it: "
                "{words}. The other front gets the same band without holes. Along a neck that "
                "opens, a single hole lies at this front's end, as far from it as the upper `ends` "
                "say; holes on both fronts are an error. Needed for `anyone`.", "right",
                "right for women, children and babies, left for men")
    odd_gap = Key(word(OddGap), "Where the gaps go that must differ from the others by a stitch: "
                  "`spread` evenly, `lowest`, `highest` or `centre`.", "lowest", "spread",
                  OddGap.SPREAD, idle_beside=_PLACED)
    lean = Key(word(Lean), "The end of the band towards which the extra loop of each buttonhole "
               "is hung: `neck` or `hem`. A hole of 3 stitches has 4 loops when its edge is hung. "
               "So the hung loops sit half a stitch towards that end, at every hole alike.",
               "hem", "neck", Lean.NECK)
    end_give = Key(whole_number("give of an end", "0..6", "0..6"), "How many stitches an end may "
                   "move so that the gaps come out even, from {range}.", "3", "2", 2,
                   idle_beside=_PLACED)
    band_give = Key(whole_number("give of a band", "0..2", "0..2"), "How many stitches the band "
                    "may gain or lose for it, from {range}.", "1", "2", 2, idle_beside=_PLACED)
    tolerance = Key(share("tolerance of a band", "0 %..10 %", "0 %..10 %"),
                    "How much of the edge's length those stitches may be worth, from {range}.",
                    "3 %", "2 %", Fraction(1, 50), idle_beside=_PLACED)
    at = Key(middles, "Where the middles of the holes lie: a list such as "
             "`[1.5 cm, 9 cm, -1.5 cm]`, measured from the hem end, or with a minus sign from the "
             "neck end. Each hole goes to the nearest stitch; the band and its ends then give "
             "nothing.", "[1.5 cm, 9 cm, -1.5 cm]", by_size=True, or_else=("number", "every"))
    in_hem = Key(Mapped(InHemKeys), "Some holes [in the hem](#in-hem) or rib, and by `number` or "
                 "`every` the rest above it.", InHemKeys.example, "none", instead_of=("at",))
    rows = Key(Mapped(HoleRowsKeys), "The holes by the [row counter](#hole-rows), as many as "
               "`number` says, the band going on as long as its edge. Of a band whose rows run "
               "along the edge.", HoleRowsKeys.example, "none", None,
               beside="number: 3", instead_of=("at", "in_hem", "through", "every"),
               needs=("number",))
    gaps = Key(word(Gaps), "What becomes of stitches, or rows, that do not divide among the gaps: "
               "`nearest`: ends and band give a little, and gaps differ by one at most; `even`: "
               "all gaps are alike, and the lower end is longer by the rest; `one takes the rest`: "
               "the ends stay, all gaps but one are alike, and `odd_gap` says which takes the "
               "rest, the lowest unless it says another.", "even", "nearest", Gaps.NEAREST,
               idle_beside=_PLACED)
    through = Key(Text(200, "a length or a sum of measures", "Write it as body_length - 24 cm."),
                  "One hole at a chosen measure, by size, and by `number` or `every` the rest "
                  "about it. A length from the hem end, or a sum of the garment's "
                  "[measures](#garment): `body_length - 24 cm`. It is your wish and no rule: try "
                  "it on.", "16 cm", "no such hole", by_size=True, instead_of=("at", "in_hem"))
    centre_hole = Key(YES_NO, "`yes`: `every` gives an odd number of holes, one of them in the "
                      "middle.", "yes", "no", False, beside="every: 8 cm, number: null",
                      instead_of=("at", "in_hem", "through"))
