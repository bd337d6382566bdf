"""The keys of yarns, stitch charts, fabrics and swatches."""

from __future__ import annotations

from ..spellings import NeedleRepeat, colour
from ..values import Text, dial, length, mass, whole_number
from .key import Key, Keys, Mapped, Name, Several

_SIDE = length("side of a swatch", "1 cm..60 cm", "1 cm..100 cm")


class PackageKeys(Keys, example="{mass: 100 g, length: 120 m}"):
    """A ball or cone of a yarn."""

    mass = Key(mass("mass of a package", "5 g..3000 g", "0 g..10000 g"),
               "Above nothing, up to 10 kg.", "100 g")
    length = Key(length("length of a package", "1 m..30000 m", "1 m..100000 m"),
                 "From 1 m to 100 km.", "120 m")


class YarnKeys(Keys, example="{name: Harbour Bulky, fibre: 100 % wool}"):
    """A yarn."""

    name_ = Key(Text(120), "What it is sold as.", "Harbour Bulky")
    fibre = Key(Text(120), "What it is made of.", "100 % wool", "not stated", "")
    package = Key(Mapped(PackageKeys), "One ball or cone: `{mass: 100 g, length: 120 m}`.",
                  PackageKeys.example,
                  "not stated, and the page names no number of balls")
    colour = Key(colour, "The colour that it is drawn in: the name of a colour in CSS, or # and "
                 "six digits in quotes.", '"#a9bdba"', "drawn in a tone of the page", "",
                 likely=("black", "White", '"#FF0000"'))


class ChartKeys(Keys, example='{repeat: "|.||"}'):
    """A stitch chart."""

    title = Key(Text(80), "What the page calls it.", "Harbour mesh", "its name", "")
    repeat = Key(Text(8000, "rows of marks"), "The marks, up to 60 needles wide and 120 rows "
                 "high, after `repeat: |` on lines of their own.", '"|.||"', likely=("||\n|u\n",))
    edge = Key(whole_number("stitches beside a chart", "0..10", "0..10"),
               "How many plain stitches stand at either end beside the repeats, {range}; a seam "
               "takes one.", "1", "1", 1)
    key = Key(Several("words for marks", 12, Text(80), by_name=True),
              'Your own words for marks that the chart has: `{".": ladder}`.', '{"|": plain}',
              "ours")


class SwatchKeys(Keys, example="{stitches: 20, width: 14.2 cm, rows: 30, height: 15 cm}"):
    """A swatch, measured after washing and rest."""

    stitches = Key(whole_number("stitches of a swatch", "10..200", "1..500"),
                   "So many stitches, {range}.", "20")
    width = Key(_SIDE,
                "over so much width, {range}; less than 10 cm is warned of.", "14.2 cm")
    rows = Key(whole_number("rows of a swatch", "10..300", "1..1000"), "So many rows, {range}.",
               "30")
    height = Key(_SIDE,
                 "over so much height, {range}; less than 10 cm is warned of.", "15 cm")
    mass = Key(mass("mass of a swatch", "0.5 g..200 g", "0 g..1000 g"),
               "What those stitches and rows weigh, up to 1 kg.", "24 g",
               "not weighed, and the page cannot say how much yarn is wanted", None)


class FabricKeys(Keys, example="{yarn: main, dial: 6, swatch: {...}}"):
    """A yarn knitted at one dial setting."""

    yarn = Key(Name("yarn"), "The name of one of the yarns.", "main")
    dial = Key(dial(), "The setting the swatch was knitted at.", "6")
    swatch = Key(Mapped(SwatchKeys), "One swatch.", SwatchKeys.example, or_else=("swatches",),
                 shared="swatches")
    swatches = Key(Several("swatches", 20, keys=SwatchKeys),
                   "A list of up to 20 swatches, whose means are then taken.",
                   f"[{SwatchKeys.example}]", or_else=("swatch",), instead_of=("swatch",),
                   shared="swatches")
    needles = Key(NeedleRepeat(), "Which needles work and which are left out of work, over "
                  "and over: `2 in 1 out`, or `3 in 1 out, 1 in 1 out`, up to 24 needles. The "
                  "stitches of the swatch, like all stitches here, are the needles in work. "
                  "Straight pieces can be knitted so, with their hems; and a mock rib of the same "
                  "needles. A `single` or `folded` band and a `facing` can too, along rows of an "
                  "edge, or on stitches of a fabric with the same needles: without buttonholes, "
                  "with `fold: loose`, and with `bind_off: back-stitched`. Anything else is "
                  "refused.", "2 in 1 out", "every needle works", None,
                  likely=("3 in 1 out", "1 in 1 out"))
    edge_stitches = Key(whole_number("stitches beside repeats", "0..10", "0..20"),
                        "How many needles work at either end beside the repeats, {range}; a seam "
                        "takes one. With one, the columns of a hat or a mitten run on across its "
                        "seam. With any other number, and in other pieces, both ends are alike.",
                        "2", "1", 1, beside="needles: 2 in 1 out", needs=("needles",))
    chart = Key(Name("chart"), "The name of one of the [stitch charts](#charts), instead of "
                "`needles`: every row is knitted from it, and shaped pieces cut its repeats at "
                "their edges: the chart stays on its needles, and stitches at the edges, or "
                "without the neighbour they need, are plain. Panels of a blanket, hats and hands "
                "of mittens are given whole repeats; a mitten's thumb is plain. With needles out "
                "of work (`.`) only a blanket can be knitted. Measure the swatch over whole "
                "repeats. A band needs its own plain fabric.", "ladder", "knitted plain",
                instead_of=("needles",))
    contrast = Key(Name("yarn"), "The name of the yarn for the chart's second colour (`x`). Needed "
                   "where the chart has one. Its swatch is knitted in both colours; each yarn has "
                   "its share of the swatch's mass by its stitches.", "lamp", "",
                   beside="chart: lamps")
