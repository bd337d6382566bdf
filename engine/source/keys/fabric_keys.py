"""The keys of yarns, stitch charts, fabrics and swatches."""

from __future__ import annotations

from ...core.units import PlyOrder
from ..spellings import NeedleRepeat, YarnCount, colour
from ..values import Text, dial, length, mass, whole_number, word
from .key import Key, Keys, Mapped, Name, Several

HANKS = "cara4webshopping, Yarn weights: 500 yards; by definition 300, 560 and 840"
FLOATS = "Vikki Haffenden, Knitting machine punchcards: five needles on a standard bed"
_SIDE = length("side of a swatch", "1 cm..60 cm", "1 cm..100 cm")
_TWICE = ", or count over twice the length"


class PackageKeys(Keys, example="{mass: 100 g, length: 120 m}"):
    """A ball or cone of a yarn."""

    mass = Key(mass("mass of a package", "5 g..3000 g", "0 g..10000 g"),
               "Above nothing, up to 10 kg.", "100 g")
    length = Key(length("length of a package", "1 m..30000 m", "1 m..100000 m"),
                 "From 1 m to 100 km. With the yarn's `count` it may be left out: then the count "
                 "says how long the yarn is.", "120 m",
                 "what the yarn's `count` says; needed where it has none", None)


class YarnKeys(Keys, example="{name: Harbour Bulky, fibre: 100 % wool}"):
    """A yarn."""

    name_ = Key(Text(120), "What it is sold as.", "Harbour Bulky")
    fibre = Key(Text(120), "What it is made of.", "100 % wool", "not stated", "")
    package = Key(Mapped(PackageKeys), "One ball or cone: `{mass: 100 g, length: 120 m}`.",
                  PackageKeys.example,
                  "not stated, and the page names no number of balls")
    count = Key(YarnCount(), "The count of one end, as its cone names it: `2/30 Nm`, "
                "`20/2 cotton`, `2/28 worsted`, `600 tex`. Known are Nm, Ne or NeC or cotton, NeL "
                "or linen, NeK or worsted, tex, dtex and den. The length by mass follows from it "
                "exactly, and cones are bought by mass: `package: {mass: 900 g}`.", "2/30 Nm",
                "not stated", None,
                likely=("600 tex", "4/8 worsted"))
    count_order = Key(word(PlyOrder), "Which of the two numbers of a plied count stands first: "
                      "{words}. Without it a yarn of more plies than its size is refused as "
                      "written the other way round.", "size/ply",
                      "`size/ply` for cotton and linen, `ply/size` for Nm and worsted", None,
                      beside="count: 8/7 worsted", needs=("count",))
    hank = Key(length("hank of a count", "250 yd..900 yd", "100 yd..2000 yd", HANKS),
               "The length of one hank, {range}. The count is the number of such hanks in a "
               "pound. Write it only if the shop uses another length than the default.", "500 yd",
               "560 yards of worsted, 840 of cotton, 300 of linen", None,
               beside="count: 2/30 worsted", needs=("count",))
    ends = Key(whole_number("ends knitted as one", "1..6", "1..20"),
               "How many ends are knitted as one, {range}. `count` and `package` are those of one "
               "end, a swatch is knitted with all of them.", "2", "1", 1)
    shade = Key(Text(60), "The name or number of its shade.", "Fog 14", "not stated", "")
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

    stitches = Key(whole_number("stitches of a swatch", "10..200", "1..500",
                                otherwise=_TWICE), "So many stitches, {range}.", "20")
    width = Key(_SIDE,
                "over so much width, {range}; less than 10 cm is warned of.", "14.2 cm")
    rows = Key(whole_number("rows of a swatch", "10..300", "1..1000", otherwise=_TWICE),
               "So many rows, {range}.", "30")
    height = Key(_SIDE,
                 "over so much height, {range}; less than 10 cm is warned of.", "15 cm")
    mass = Key(mass("mass of a swatch", "0.5 g..200 g", "0 g..1000 g"),
               "What those stitches and rows weigh, up to 1 kg.", "24 g",
               "not weighed, and the page cannot say how much yarn is wanted", None)
    yarn = Key(length("yarn of a swatch", "1 m..300 m", "1 cm..5000 m"),
               "How much yarn is in those stitches and rows, {range}: measured before they are "
               "knitted, or unravelled. With several ends it is the length of all of them "
               "together.", "17 m",
               "not measured: taken from the mass and the yarn's length by mass", None)


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
                  "with `fold: loose`, and with `bind_off: back-stitched`. A `lengthwise` band can "
                  "where another fabric of the same yarn and dial was swatched on every needle. "
                  "Anything else is refused.", "2 in 1 out", "every needle works", None,
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
    longest_float = Key(whole_number("stitches that a yarn floats past", "2..12", "1..60", FLOATS),
                        "The most stitches, {range}, that a yarn may float past in a row before "
                        "you are warned: those of the other colour of its chart, or those that a "
                        "row slips.", "5", "as many as are 2.5 cm wide (zpag.net, Length of "
                        "floats)", None, beside="chart: ladder")
