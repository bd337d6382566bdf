"""The keys of pieces that are described by points, and of their joins."""

from __future__ import annotations

from fractions import Fraction

from ...pattern.outlines import Going, TopEnds
from ...pattern.short_rows import BesideEdge, Turning
from ..edge_names import corner_name, outline_edges
from ..values import Text, share, whole_number, word
from .key import Key, Keys, Mapped, Name, Several
from .slope_keys import SlopeKeys

TAKEN = ("left front", "right front", "shoulders", "pocket lining")
"""What parts of other garments are called, and no piece of an own outline can be."""


class PointKeys(Keys, example="{height: bag_height, width: bag_top}"):
    """A corner of a piece's edge."""

    height = Key(Name("measure"), "The name of the measure from the lower edge, hem and all, up to "
                 "the corner. Two corners of one height are a level step, which is bound off.",
                 "bag_height")
    width = Key(Name("measure"), "The name of the measure across the piece there, seams not "
                "counted; under `left` and `right` from the middle of the lower edge out to the "
                "corner.", "bag_top")
    by = Key(word(Going), "How the edge goes there from the corner below: `slope`, a stitch at a "
             "time, spread over the rows; or `steps`, bound off every second row.", "steps",
             "slope", Going.SLOPE)
    slope = Key(Mapped(SlopeKeys), "On which rows the edge goes there from the corner below: your "
                "rates, an order, plain rows, by the keys of [Slopes](source.md#slopes). The rows "
                "are counted from the corner below, or from the cast-on or the hem.",
                "{rates: every 2nd row 3 times then evenly}", "evenly, two rates mixed",
                instead_of=("by",))
    name_ = Key(corner_name, "A name for the part of the edge that ends at the corner, by which "
                "joins and bands take it: `front.left.armhole`.", "armhole", "none", "")


class OwnShortRowKeys(Keys, example="{height: bag_fold, middle: bag_half}"):
    """Short rows of a piece, held at both its edges or at both ends of a part of it."""

    height = Key(Name("measure"), "The name of the measure from the lower edge, hem and all, up to "
                 "where they begin: at a corner, or where both edges go straight up.", "bag_fold")
    middle = Key(Name("measure"), "The name of the measure across the stitches that stay in work "
                 "throughout, half of the others held at each edge.", "bag_half")
    rows = Key(word(Turning), "How they follow one another: {words}. `shorter then longer`, for a "
               "heel or a toe: a needle at the carriage goes into hold before each row, then one "
               "on the other side comes back before each row. `shorter`, for a dart or a sloped "
               "top: held in steps, put back all at once. `longer`, for a lower edge that hangs "
               "lower: held all at once, put back in steps.", "shorter", "shorter then longer",
               Turning.BOTH, beside="extra: bag_extra")
    extra = Key(Name("measure"), "The name of the measure by which the middle is longer than the "
                "edges, with `shorter` or `longer`, which need it.", "bag_extra",
                "a needle each row", "", beside="rows: shorter")
    over = Key(Name("measure"), "The name of the measure across the stitches that they are knitted "
               "over, where these are not all: a heel over half of a sock. The others are held "
               "meanwhile. Only with `shorter then longer`.", "bag_top", "all stitches", "",
               beside="beside: right")
    beside = Key(word(BesideEdge), "The edge beside which the stitches of `over` lie: {words}, as "
                 "the piece lies on the bed. The carriage must stand there: after an even number "
                 "of rows it is at the right.", "right", "right", BesideEdge.RIGHT,
                 beside="over: bag_top")
    times = Key(whole_number("times that short rows come", "1..12", "1..60"), "How often they "
                "come, one after another, {range}. Each time takes two rows of the edges.", "2",
                "once", 1)


class OwnPieceKeys(Keys, example="{width: bag_width, height: bag_height}"):
    """A piece that is described by points."""

    title = Key(Text(60), "Its title on the pages.", "Side of the bag", "its name, as you wrote it",
                "")
    width = Key(Name("measure"), "The name of the measure of its lower edge, where it is cast on, "
                "seams not counted.", "bag_width")
    height = Key(Name("measure"), "The name of the measure from the lower edge to the top, hem and "
                 "all.", "bag_height")
    sides = Key(Several("corners", 20, keys=PointKeys), "The corners of both edges, which are "
                "alike, from the lowest up. Above the last one they go straight up.",
                "[{height: bag_height, width: bag_top}]", "straight",
                instead_of=("left", "right"))
    left = Key(Several("corners", 20, keys=PointKeys), "The corners of the edge at the left of "
               "the bed, where the two are not alike.", "[{height: bag_height, width: bag_half}]",
               "straight", instead_of=("sides",))
    right = Key(Several("corners", 20, keys=PointKeys), "The same at the right of the bed.",
                "[{height: bag_height, width: bag_half}]", "straight", instead_of=("sides",))
    top = Key(word(TopEnds), "What becomes of the stitches at its top: {words}. On `waste yarn` "
              "they wait for a band on its edge `top`.", "bound off", "bound off",
              TopEnds.BOUND_OFF)
    short_rows = Key(Several("short rows", 12, keys=OwnShortRowKeys), "The [short "
                     "rows](guides/own-outlines.md#short-rows) between its edges, from the lowest "
                     "up.",
                     "[{height: bag_fold, middle: bag_half}]", "none")
    times = Key(whole_number("times a piece is knitted", "1..6", "1..12"), "How often it is "
                "knitted, {range}.", "2", "once", 1)


class OwnJoinKeys(Keys, example="{sew: bag.left, to: bag.right}"):
    """A join of two edges."""

    sew = Key(outline_edges, "An edge: the name of a piece, a point, and `left`, `right`, `top` or "
              "`bottom` as it lies on the bed with the purl side towards you; of a named part, a "
              "point and its name. Several that follow one another are put together with `+`: "
              "`front.right.armhole + back.left.armhole`.", "bag.left")
    to = Key(outline_edges, "The edge that it is sewn to.", "bag.right")
    ease = Key(share("ease of a join", "-10 %..15 %", "-50 %..100 %"), "How much longer the edge "
               "under `to` is on purpose, as a share of the other, {range}.", "2 %",
               "0 %", Fraction(0))
