"""The keys of a garment's stripes."""

from __future__ import annotations

from ...pattern.stripes import SleeveStripes, StripesFrom
from ..values import Text, Word, whole_number, word
from .key import Key, Keys, Name, Several

YES_NO = {"yes": True, "no": False}
CARRIED = ("Arenda Holladay, Carrying yarn for stripes: two rows at most; knitting.about.com: up "
           "to two inches")
MOST_YARNS = 6


class StripeKeys(Keys, example="{yarn: lamp, rows: 4}"):
    """A stripe."""

    yarn = Key(Name("yarn"), "The name of one of the yarns.", "lamp")
    rows = Key(whole_number("rows of a stripe", "1..120", "1..999"),
               "How many rows it has, {range}. An even number brings the carriage back to the side "
               "where the yarns hang.", "4")


class StripesKeys(Keys, example="{sequence: [{yarn: main, rows: 4}, {yarn: lamp, rows: 2}]}"):
    """The stripes of a garment's pieces."""

    sequence = Key(Several("stripes", 60, keys=StripeKeys),
                   "The stripes in the order in which they are counted, of at most six yarns, the "
                   "fabric's among them. A hem or rib is of the fabric's yarn, and so is every row "
                   "that no stripe has.", "[{yarn: main, rows: 4}, {yarn: lamp, rows: 2}]")
    repeat = Key(Word(YES_NO), "`yes`: over and over; `no`: once.", "no", "yes", True)
    begin = Key(word(StripesFrom), "Where they are counted from: {words}. From the hem the first "
                "stripe lies above it; from the top the first one ends with the piece's last row.",
                "top", "hem", StripesFrom.HEM)
    pieces = Key(Several("pieces", 20, Text(40)), "The pieces that have them, by their keys, such "
                 "as `[back, front]`.", "[back, sleeve]", "all of them, but for pocket linings")
    sleeves = Key(word(SleeveStripes), "How the stripes of sleeves lie: {words}. Level, the row at "
                  "which a sleeve and the body meet at the underarm has the same stripe on both, "
                  "and raglan seams match all the way up.", "level at the underarm",
                  "counted like the body's", SleeveStripes.OWN)
    carried = Key(whole_number("rows over which a yarn is carried", "0..20", "0..60", CARRIED),
                  "Up the side of the work a yarn is carried over at most so many rows of other "
                  "yarns, {range}; before more it is cut, and so is one that would hang on the "
                  "other side. One that rests for four rows or more is caught at the edge.", "6",
                  "2: beyond, tension suffers and the seam thickens (Arenda Holladay, Carrying "
                  "yarn for stripes, 2016)", 2)
    odd_rows = Key(Word({"refused": False, "cut": True}), "Stripes of an odd number of rows leave "
                   "the carriage on the other side: `refused`; or `cut`, so that a yarn which "
                   "would hang there is cut, and threaded anew where the carriage stands.",
                   "cut", "refused", False)
    unmatched = Key(Word(YES_NO), "`yes` says that stripes need not meet where pieces are sewn "
                    "together row to row. Else a seam in which they do not is warned of.", "yes",
                    "no", False)
