"""The keys of a garment, its pockets, cord, hem and roundings."""

from __future__ import annotations

from ...catalogue.methods import BIND_OFFS, CAST_ONS
from ...core.counts import RULES, Rounding
from ...core.ranges import BODY_MEASUREMENT
from ...core.text import series
from ...forms.registry import FORMS
from ...pattern.model import Neck
from ...pattern.sketched import Sketched
from ...pattern.specs import CrownShape
from ...pattern.stitch_chart import Alignment
from ...sizing.expressions import SPELT
from ..outright_sizes import (
    PLACKET,
    POCKET_ACROSS,
    POCKET_DEPTH,
    POCKET_HEIGHT,
)
from ..values import YES_NO, Text, Word, dial, length, share, whole_number, word
from .convention_keys import ArmholeKeys, CapKeys, NecklineKeys, ShoulderKeys
from .dart_keys import BustKeys, DartsKeys, TailKeys
from .hem_keys import HemKeys
from .key import Key, Keys, Mapped, Name, Several
from .outline_keys import TAKEN, OwnJoinKeys, OwnPieceKeys
from .slope_keys import SlopesKeys
from .stripe_keys import StripesKeys

ROUNDINGS = Word({rule: Rounding(rule) for rule in RULES
                  if rule not in ("multiple", "given")})
BODY_LENGTH = length(*BODY_MEASUREMENT)
STRETCH = share("stretch of a bind-off", "0 %..120 %", "0 %..200 %")
CORD_WIDTH = length("width of a cord", "2 mm..30 mm", "2 mm..60 mm")
_PAIRS = "|".join(sorted({pair for form in FORMS.values() for pair in form.pairs}))
_OUTLINED = ("form: own outline, measures: {bag_width: 40 cm, bag_height: 30 cm, "
             "bag_top: 18 cm, bag_half: 16 cm, bag_fold: 14 cm, bag_extra: 2 cm}")
_AFTER = whole_number("rows after a halving", "1..6", "1..30")
_MULTIPLE = whole_number("multiple", "1..100", "1..100")
PIECE_NAME = Text(60, "what a piece is called", "Write a name such as Rear panel.")
GIVEN_COUNT = whole_number("count given outright", "0..600", "0..2000")
OVER_MULTIPLE = whole_number("stitches over a multiple", "0..99", "0..99")


class PocketKeys(Keys, example="{width: 13 cm, height: 20 cm}"):
    """The pockets of a garment."""

    width = Key(POCKET_ACROSS, "How wide, by size, from 2 cm to 60 cm, or in stitches.", "13 cm",
                by_size=True, likely=("24 stitches",))
    height = Key(POCKET_HEIGHT, "From the garment's lower edge to the opening, by size, from 2 cm "
                 "to 150 cm; or the row above the hem at which it opens.", "20 cm",
                 by_size=True, likely=("60 rows",))
    depth = Key(POCKET_DEPTH, "How deep the lining is, by size, from 2 cm to 60 cm, or in rows.",
                "14 cm", "down to the hem, or to the lower edge", by_size=True)
    from_side = Key(POCKET_ACROSS, "From the side seam to the pocket, by size, from 2 cm to 60 cm, "
                    "or in stitches.", "5 cm", "in the middle of its front, or of its half "
                    "of a whole front", by_size=True)
    number = Key(whole_number("number of pockets", "1..2", "1..2"), "1 or 2. A single pocket is on "
                 "the left front, or in the middle of a whole front.", "1", "2", 2)


class CordKeys(Keys, example="{width: 6 mm}"):
    """A cord through a hem, or through a band that says so in its own words."""

    width = Key(CORD_WIDTH, "How wide the cord is, from {range}. The hem must be "
                "6 mm deeper.", "6 mm")
    ties = Key(length("end of a cord", "2 cm..50 cm", "2 cm..60 cm"), "How far each end hangs out "
               "when the garment lies at its full width, from {range}.", "30 cm",
               "25 cm, for children 7 cm", None)


class CrownKeys(Keys, example="{shape: wedges}"):
    """The crown of a hat."""

    shape = Key(word(CrownShape), "`gathered`: move every second stitch onto the needle beside it. "
                "`wedges`: take all stitches off and hang them again with 1 stitch fewer in each "
                "wedge. `halvings`: take all stitches off and hang them again in pairs. `side "
                "decreases`: decrease at both edges of a long cap. `quarters`: decrease at both "
                "edges of one quarter while you hold the others, and sew the quarters together. "
                "The stitches that are left are drawn up.",
                "wedges", "gathered", CrownShape.GATHERED)
    wedges = Key(whole_number("wedges of a crown", "4..12", "2..24"), "Of wedges: how many, "
                 "{range}. The hat has whole wedges of equal stitches.", "10", "8", 8,
                 beside="shape: wedges")
    beside = Key(whole_number("stitches beside wedges", "0..2", "0..8"), "Of wedges: the stitches "
                 "that lie outside them for the seam, {range}; an odd one at the right.", "1",
                 "2", 2, beside="shape: wedges")
    every = Key(whole_number("rows between decreases", "1..8", "1..30"), "Of wedges, quarters "
                "and side decreases: the rows from one to the next, and after the last, {range}.",
                "3", "2", 2, beside="shape: wedges")
    remain = Key(whole_number("stitches that are left", "1..12", "1..40"), "The stitches that are "
                 "left to be drawn up, of each wedge or quarter, or of side decreases in all, "
                 "{range}.", "2", "1 of a wedge, 3 of a quarter, 8 of side decreases", None,
                 beside="shape: wedges")
    halvings = Key(Several("halvings", 4, _AFTER), "Of halvings: the rows knitted after each, one "
                   "to four numbers, each from {range}. `[1]` is one halving, `[4, 1]` are two.",
                   "[4, 1]", "[4, 2, 1]", beside="shape: halvings", likely=("[1]",))
    step = Key(dial("step of a dial", "0.1..3", "0.1..10"), "Of a gathered crown: how far the dial "
               "goes at each step. The steps come before the gathering, over the rows of the "
               "measure `crown`; after it, where `crown` is 0 cm.", "1",
               "0.1 before the gathering, 2 after it", None, beside="shape: gathered")
    step_rows = Key(whole_number("rows at a dial", "1..6", "1..30"), "Of a gathered crown: the "
                    "rows at each step of the dial, {range}.", "3", "2", 2,
                    beside="shape: gathered")
    looser = Key(YES_NO, "Of a gathered crown: `yes` where the dial goes up at each step, not "
                 "down.", "yes", "no", False, beside="shape: gathered")
    rows_after = Key(whole_number("rows above a gathering", "1..4", "1..8"), "Of a gathered crown: "
                     "the rows above the gathering, {range}. Many at the same dial leave ladders.",
                     "2", "1, or 4 where `crown` is 0 cm", None, beside="shape: gathered")
    both_ends = Key(YES_NO, "`yes` for a hat of two layers: a tube twice as long as the hat, begun "
                    "on waste yarn. Its lower edge is drawn up too, and one half is pushed into "
                    "the other. It has no hem, and no band on its `brim`.", "yes", "no", False)


class MultipleKeys(Keys, example="{multiple: 4, plus: 1}"):
    """The multiple that a band's stitches are rounded to."""

    multiple = Key(_MULTIPLE, "Of how many stitches, {range}.", "4")
    plus = Key(OVER_MULTIPLE,
               "and how many more, less than the multiple.", "1", "0", 0, beside="multiple: 4")


class RoundingKeys(Keys, example="{multiple: 4, plus: 1}"):
    """How a count of a garment is rounded."""

    multiple = Key(_MULTIPLE, "Of how many, {range}.", "4", or_else=("parity_of",))
    plus = Key(OVER_MULTIPLE,
               "and how many more, less than the multiple.", "1", "0", 0, beside="multiple: 4")
    parity_of = Key(Text(80, "the name of a count", "Write one, such as back cast on."),
                    "The name of another count: even where that one is even, odd where it is odd.",
                    "sleeve cast on", or_else=("multiple",), instead_of=("multiple",))


class GarmentKeys(Keys, example="{form: set-in cardigan, chart: women, fabric: body}"):
    """The pieces of a garment."""

    form = Key(Name("form"), "One of the [forms](#forms).", "set-in cardigan")
    chart = Key(Name("size chart"), "The body sizes it is cut for: the name of a chart in "
                "`patterns/_sizes/`, or `own` for a [chart of your own](#chart). The pattern's "
                "sizes are among the chart's, in the chart's order. Needed but for a blanket, "
                "shawl or mitten: these are cut from no body, and left without a chart their sizes "
                "are called as you like.", "women", "")
    fabric = Key(Name("fabric"), "The name of the fabric its pieces are knitted in.", "body")
    piece_fabrics = Key(Several("fabrics of pieces", 20, Name("fabric"), by_name=True), "The "
                        "[fabrics of single pieces](#fabric-by-piece) by their keys, where they "
                        "are not all knitted in one: `{sleeve: plain}`.", "{sleeve: body}",
                        "all pieces in `fabric`", beside="form: set-in pullover")
    names = Key(Several("names of pieces", 20, PIECE_NAME, by_name=True), "What you call its "
                "pieces, by their keys: `{sleeve: Arm}`. Headings, lists, drawings, tables and "
                "seams say it, in sentences in small letters. Names of places on the body, such "
                "as the back neck, stay.", "{back: Rear panel}", "Back, Front, Sleeve and so on")
    neck = Key(word(Neck), "{words}.", "v", "round", Neck.ROUND)
    placket = Key(PLACKET, "How far a slit goes down from the front neck, by size, from 2 cm to "
                  "60 cm, or an even number of rows, in a pullover or slipover. It is as wide "
                  "as the bands on its edge `placket` are deep, less what they hide of either "
                  "edge; a band there is needed. A neckband then begins and ends over the tops of "
                  "its bands.", "12 cm", "no slit", by_size=True, likely=("30 rows",),
                  beside="form: set-in pullover")
    hem = Key(Mapped(HemKeys), "A [hem or rib](#hem) that every piece begins with.",
              HemKeys.example, "none")
    cuff = Key(Mapped(HemKeys), "A [hem or rib](#hem) that the sleeves begin with in place of the "
               "hem's, with the same keys.", HemKeys.example, "as the hem",
               beside="form: set-in pullover")
    moved = Key(whole_number("stitches moved", "1..7", "1..7"), "How many stitches are moved with "
                "each decrease, from {range}.", "2", "3", 3)
    round = Key(Several("counts to round", 40, ROUNDINGS, RoundingKeys, by_name=True),
                "How single [counts](#round) are rounded: "
                "`{back cast on: {multiple: 4, plus: 2}}`.", "{back cast on: even}",
                "as that kind of count is")
    slopes = Key(Mapped(SlopesKeys), "On which rows single [slopes](#slopes) are shaped: which "
                 "rate comes first, or your rates, and plain rows before and after them.",
                 SlopesKeys.example, "as the counts need", beside="form: raglan pullover, neck: v")
    counts = Key(Several("counts given outright", 40, GIVEN_COUNT, by_name=True),
                 "Single [counts](#counts) as you want them, by size, from 0 to 2000: "
                 "`{sleeve cast on: {M: 44, L: 46}}`. Seam stitches are among them.",
                 "{sleeve cast on: 44}", "counted from the measures")
    align = Key(word(Alignment), "From which line of a piece the repeats of its fabric's "
                "[chart](#charts) are counted: `centre`, `front edge` (of both fronts, mirrored; "
                "other pieces from their centre) or `side seam` (of fronts and backs; a piece with "
                "two has them from the one at the right of the bed).", "front edge",
                "the centre of every piece", Alignment.CENTRE, beside="fabric: charted")
    drawing = Key(word(Sketched), "What its sketch shows: {words}. With `body` the body's chest, "
                  "waist and hips stand in it as a broken line, as far as the chart has them, so "
                  "that the ease is seen.", "body", "garment", Sketched.GARMENT)
    body = Key(Several("body measurements", 60, BODY_LENGTH, by_name=True),
               "Single body measurements in place of the chart's, for all sizes or for some: a "
               "length from 1 cm to 400 cm. `{upper_arm: {5X: 52 cm}}`.", "{upper_arm: {M: 30 cm}}",
               "those of the chart")
    cast_on = Key(Word({name: name for name in CAST_ONS}), "How its pieces begin: a [way "
                  "on](#ways) for all of them, or by piece.", "latch-tool chain", "by hand",
                  likely=("{sleeve: latch-tool chain}",))
    bind_off = Key(Word({name: name for name in BIND_OFFS}), "How pieces end: one [way to bind off]"
                   "(#ways) for every piece that can end so, or one by piece and one for the "
                   "shoulders.",
                   "around the gate pegs", "stitch over stitch, the shoulders bound off together",
                   likely=("{sleeve: back-stitched}",))
    bind_off_stretch = Key(
        Several("ways to bind off", 40, STRETCH, by_name=True),
        "How far an edge stretches beyond its own length, by [way off](#ways): "
        "`{around the gate pegs: 20 %}`, from 0 % to 200 %. An edge that must be longer than that "
        "gets a warning; so does a way that no such edge has.", "{around the gate pegs: 20 %}",
        "0 % of a firm edge, 10 % of one that gives with the fabric, 60 % of an elastic one "
        "(common practice, no source: measure an edge of your swatch)")
    side_by_side = Key(Several("pairs of pieces", 10, Text(120, spelt=_PAIRS)),
                       "Pieces that you mean to be knitted side by side, a while at one and a "
                       "while at the other, so that they come out alike: `[fronts, sleeves]`, of a "
                       "mitten `[hands, thumbs]`. On the bench both are then in sight, each with "
                       "its own place and counter, and one touch leads from one to the other.",
                       "[sleeves]", "none")
    measures = Key(Several("measures", 60, Text(8000, "a sum", spelt=SPELT), by_name=True),
                   "Your own sums in place of the form's, or beside them, by size: "
                   "`{ease: 10 cm, body_length: back_waist_length * 1.4}`.", "{ease: 10 cm}",
                   "those of the form")
    armhole = Key(Mapped(ArmholeKeys), "How the [armholes](#shaping) of a set-in garment are "
                  "shaped.", ArmholeKeys.example, "a third at once, then a slope",
                  beside="form: set-in pullover")
    cap = Key(Mapped(CapKeys), "How the [caps](#shaping) of set-in sleeves are shaped.",
              CapKeys.example, "a slope as high as fits the armhole",
              beside="form: set-in pullover")
    neckline = Key(Mapped(NecklineKeys), "How a round [neck](#shaping) is shaped.",
                   NecklineKeys.example, "by falling steps")
    shoulders = Key(Mapped(ShoulderKeys), "The steps of held [shoulders](#shaping).",
                    ShoulderKeys.example, "equal steps, a stitch more at the neck")
    darts = Key(Mapped(DartsKeys), "Vertical [darts](#darts) in back and fronts, which take what "
                "the sides would: `hem_width`, `hip_width` or `waist_width` must be given.",
                DartsKeys.example, "none: the sides take all",
                beside="measures: {waist_width: 40 cm, waist_height: 15 cm}")
    bust_darts = Key(Mapped(BustKeys), "[Bust darts](#bust-darts) by short rows in a front that is "
                     "closed.", BustKeys.example, "none", beside="form: set-in pullover")
    pieces = Key(Several("pieces", 12, keys=OwnPieceKeys, by_name=True), "The [pieces](#outlines) "
                 "of an own outline, each by a name of yours: any but "
                 f"{series([f'`{name}`' for name in TAKEN])}.",
                 "{bag: {width: bag_width, height: bag_height}}", "none: the form has its own",
                 beside=_OUTLINED)
    joins = Key(Several("joins", 40, keys=OwnJoinKeys), "Which edges of an own outline are [sewn "
                "together](#outlines), in the order in which it is done.",
                "[{sew: bag.left, to: bag.right}]", "none", beside=f"{_OUTLINED}, "
                "pieces: {bag: {width: bag_width, height: bag_height}}")
    shirt_tail = Key(Mapped(TailKeys), "A [shirt tail](#shirt-tail): a lower edge that hangs lower "
                     "in its middle.", TailKeys.example, "a straight lower edge",
                     beside="form: set-in pullover")
    pockets = Key(Mapped(PocketKeys), "[Pockets](#pockets) let into the fronts.",
                  PocketKeys.example, "none")
    stripes = Key(Mapped(StripesKeys), "[Stripes](#stripes) of several yarns across its pieces.",
                  StripesKeys.example, "none")
    cord = Key(Mapped(CordKeys), "A [cord](#cord) through a hung hem.", CordKeys.example, "none",
               beside="hem: {depth: 3 cm}")
    crown = Key(Mapped(CrownKeys), "The [crown](#crown) of a hat.", CrownKeys.example,
                "gathered",
                beside="form: hat, measures: {hat_width: 52 cm, hat_depth: 22 cm}")
