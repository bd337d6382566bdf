"""The keys of the edges that a source describes itself, and of their sections."""

from __future__ import annotations

from ...core.ranges import CHARTS
from ...pattern.edges import EdgeShape, Offer
from ..values import YES_NO, Text, length, whole_number, word
from .key import Key, Keys, Name, Several

EDGE_LENGTH = length("length of an edge", "2 cm..200 cm", "1 cm..500 cm", CHARTS, follows=True)
_SECTION = length("length of a section", "5 mm..150 cm", "5 mm..500 cm", CHARTS, follows=True)
OFFERS = word((Offer.WAITING, Offer.BOUND_OFF, Offer.CAST_ON))


class SectionKeys(Keys, example="{title: right front, rows: 58}"):
    """A section of an edge."""

    title = Key(Text(60), "What the section is called.", "right front")
    length = Key(_SECTION, "How long it is, by size, from {range}.", "20 cm", by_size=True,
                 or_else=("rows", "stitches"))
    rows = Key(whole_number("rows of a section", "1..800", "1..2000", follows=True),
               "Its rows, by size, from {range}.", "58", by_size=True,
               or_else=("length", "stitches"), instead_of=("length",))
    stitches = Key(whole_number("stitches of a section", "1..200", "1..400", follows=True),
                   "Its stitches, by size, from {range}, taken one for one.", "22", by_size=True,
                   or_else=("length", "rows"), beside="stitches_are: bound off",
                   instead_of=("length", "rows"), needs=("stitches_are",))
    stitches_are = Key(OFFERS, "What those "
                       "stitches are: {words}. Needed with `stitches`.", "on waste yarn", "",
                       beside="stitches: 22, rows: null", needs=("stitches",))
    centre_back = Key(YES_NO, "`yes` where its middle is the centre back of the garment: a band "
                      "that is longer than the bed can be cut there, and a cord comes out in front "
                      "of it. Titles are names only.", "yes", "no", False)


class EdgeKeys(Keys, example="{kind: pair of fronts, fabric: body, length: 52 cm}"):
    """An edge that the garment does not have by itself."""

    kind = Key(word(EdgeShape),
               "What the edge is. `pair of fronts`: one of two that are alike, from "
               "hem to top; the page tells a band for the right front and one for the left. "
               "`one edge`: it is there once, and its band has two free ends. `closed round`: it "
               "goes all round, and the band's two ends are sewn together. `hem to hem`: in "
               "sections, from the hem of the right front round the neck to the hem of the left "
               "front; buttonholes lie in its first section. An edge called `front` could leave "
               "it out before, and was then one of a pair of fronts: `walebook fix` writes that "
               "where a zip, buttonholes on a `front`, or a published version show it.",
               "one edge")
    fabric = Key(Name("fabric"), "The name of the fabric the edge is part of.", "body")
    length = Key(EDGE_LENGTH, "How long the edge is, by size, from {range}.", "52 cm", by_size=True,
                 or_else=("rows", "sections"))
    rows = Key(whole_number("rows of an edge", "5..1000", "1..2000", follows=True),
               "How many rows it has, by size, from {range}.", "120", by_size=True,
               or_else=("length", "sections"), instead_of=("length",))
    sections = Key(Several("sections", 12, keys=SectionKeys),
                   "The edge [in sections](#sections), up to 12, in the order in which the band "
                   "meets them.",
                   "[{title: right front, rows: 58}, {title: left front, rows: 58}]",
                   or_else=("length", "rows"), beside="kind: one edge",
                   instead_of=("length", "rows"))
    ends = Key(Several("ends", 2, Text(40), least=2), "What the page calls its two ends: "
               "`[waist, shoulder]`. Up to 40 characters each. An edge that is closed round has "
               "none.", "[hem, top]",
               "hem and top of a pair of fronts, else first end and other end")
