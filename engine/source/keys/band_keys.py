"""The keys of a band, its rows and the cord of a casing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ...catalogue.bands import KINDS, USUAL, kinds_that
from ...catalogue.methods import BIND_OFFS, FOLDED, SINGLES
from ...core.text import series
from ...pattern.model import Fold, Shown
from ...pattern.specs import Openings
from ...shape.ribs import ONE_BED
from ..depths import band_depth
from ..spellings import zip_sold
from ..values import YES_NO, Text, Word, dial, length, ratio, share, whole_number, word
from .garment_keys import CORD_WIDTH, ROUNDINGS, CordKeys, MultipleKeys
from .hole_keys import HoleKeys
from .key import Key, Keys, Mapped, Name, Several

_DIAL = dial()


def _quoted(names: Sequence[str], last: str = "and") -> str:
    """Return names as Markdown: "`a`, `b` and `c`"."""
    return series([f"`{name}`" for name in names], last)


def _kinds() -> str:
    """Return the kinds that are no collars, with what each is."""
    return ", ".join(f"[`{kind.name}`]({kind.page.replace('.html', '.md')}) ({kind.summary})"
                     for kind in KINDS.values() if not kind.collar)


def _folds() -> str:
    """Return how a band folds where the source says nothing, with the kinds that fold otherwise."""
    return "; ".join((Fold.TURNED.value, *(
        f"of the kind `{kind.name}` {kind.fold.value}" for kind in KINDS.values()
        if kind.fold and kind.fold is not Fold.TURNED)))


_ROWS = whole_number("rows of a band", "1..60", "1..200")


class CasingCordKeys(CordKeys, example=CordKeys.example):
    """The cord of a casing."""

    width = Key(CORD_WIDTH, "How wide the cord is, from {range}. The casing must be "
                "6 mm deeper.", "6 mm")
    openings = Key(word(Openings), "Where the cord comes out of the outer layer: two `eyelets`, "
                   "two `slits`, or the band's own `ends`.", "slits", "eyelets", Openings.EYELETS)
    at = Key(Text(80, "the name of a section"), "The section of the edge in whose middle the "
             "eyelets or slits lie, by its name.", "front",
             "the middle of the front of a neck that is closed all round, of any other edge its "
             "own middle; on an edge with two ends, such as a cardigan's neck, "
             "beside each of them and nowhere else", "")
    below_neck = Key(YES_NO, "Along an edge of `edges`, or of an own outline: `yes` where it lies "
                     "below the neck, at a waist or a hem, and not at hood, head, neck or throat. "
                     "What it is called says nothing; without this a cord along it counts as one "
                     "at the neck, which no child's garment has. Walebook knows where every other "
                     "edge lies.", "yes", "no", False)


class BandRowsKeys(Keys, example="{to_holes: 4, holes_to_fold: 4, fold_to_holes: 4, to_finish: 4}"):
    """The rows of a band in two layers, from the garment's edge."""

    to_holes = Key(_ROWS, "From the first row to the buttonholes, "
                   "{range}.", "4")
    holes_to_fold = Key(_ROWS, "From the buttonholes to the fold, "
                        "{range}.", "4")
    fold_to_holes = Key(_ROWS, "From the fold to the buttonholes of the "
                        "second layer: as many as `holes_to_fold`.", "4")
    to_finish = Key(_ROWS, "From there to the closing: as many as "
                    "`to_holes`.", "4")


class BandKeys(Keys, example="{edge: front, pick_up: 3/4, depth: 3 cm}"):
    """What an edge is finished with."""

    title = Key(Text(120), "Its name on the page.", "Rail band", 'its name in the source, with '
                '"band" after it: `front` becomes "Front band"', "")
    edge = Key(Name("edge"), "The name of an edge, or of one of the "
               "[garment's own](#garment-edges).", "front")
    kind = Key(Word(KINDS), f"How the band is built: {_kinds()}. Of one layer are "
               f"{_quoted(kinds_that(lambda kind: not (kind.doubled or kind.collar)))}: give their "
               "`depth`, not `rows`. Or one of the [collars](#collars).",
               "folded", USUAL, KINDS[USUAL])
    rib = Key(Word(ONE_BED), "Of a ribbed band: {words}. Its stitches are counted so that it ends "
              "as it begins. It has no buttonholes, which would break its columns.", "2x1", "1x1",
              ONE_BED["1x1"], beside="kind: ribbed")
    fabric = Key(Name("fabric"), "The name of the band's own swatched fabric.", "band",
                 or_else=("pick_up",))
    pick_up = Key(ratio("stitches to a row", "1/2..5/4", "1/4..2"), "A rule instead of a fabric, "
                  "in stitches for rows, from {range}: `3/4` is three stitches for every four "
                  "rows. Where stitches wait or were bound off each gets one, whatever "
                  "the rule: on an edge without rows write `1`. "
                  "The page then remarks that the band was not swatched.", "3/4",
                  default=None, or_else=("fabric",), likely=("1", "2/3"),
                  instead_of=("fabric",))
    dial = Key(_DIAL, "The band's setting.", "4", "its fabric's; with a rule, that of the "
               "edge's fabric")
    dials = Key(Several("settings", 12, _DIAL), "Several settings instead of one `dial`, up to "
                "12, from the garment's edge to the fold: `[5, 4.2, 4.1]`. They share the rows of "
                "a layer evenly, and the second layer has them in reverse, so that the band lies "
                f"in a curve. Of kinds {_quoted(kinds_that(lambda kind: kind.grades))}. "
                "Swatch at the middle one.",
                "[5, 4.2, 4.1]", "one setting for all rows", instead_of=("dial",))
    yarn = Key(Name("yarn"), "The name of a yarn.", "main",
               "its fabric's; with a rule, that of the edge's fabric")
    depth = Key(band_depth, "How deep the band is when folded, by size, from 2 mm to 50 cm; the "
                "buttonholes then lie in the middle of it. Or the rows of a layer, such as "
                "`9 rows`; of a band knitted lengthwise the stitches on its needles, such as "
                "`5 stitches`.", "3 cm", by_size=True, or_else=("rows",), likely=("9 rows",))
    stitches = Key(whole_number("stitches of a band", "6..500", "3..2000"), "Its stitches along "
                   "the edge [outright](#band-counts), by size, from {range}, whatever the edge "
                   "and the fabric or the rule ask for.", "129", "as many as these ask for",
                   by_size=True, instead_of=("round",))
    rows_along = Key(whole_number("rows along an edge", "10..900", "3..4000"), "Of a band knitted "
                     "lengthwise: its rows [outright](#band-counts), by size, from {range}.", "220",
                     "as many as the edge and `stretch` ask for", by_size=True,
                     instead_of=("round",),
                     beside="kind: lengthwise, fabric: band, pick_up: null")
    rows = Key(Mapped(BandRowsKeys), "The [rows](#band-rows) outright.", BandRowsKeys.example,
               or_else=("depth",), instead_of=("depth",))
    fold = Key(word(Fold), "`turned` (a row with its purl side out, made with the garter bar), "
               "`loose` (one very loose row) or `picot` (a row of holes).", "picot", _folds(),
               Fold.TURNED)
    facing_fabric = Key(Name("fabric"), "The fabric of the layer behind the fold, of a folded band "
                        "or a facing: it has the same length and depth, counted by its own swatch, "
                        "and the stitches change at the fold, evenly spread, by at most one in "
                        "three. It may be of another yarn. Plain, without dials, mitre or "
                        "buttonholes other than loops. See [facings](bands/facing.md).", "lining",
                        "the band's own", beside="kind: folded")
    ease = Key(share("ease of a band", "-15 %..10 %", "-20 %..20 %"), "How much longer than the "
               "edge the band is, from {range}; `-2 %` draws the edge in.", "-2 %", "0 %",
               Fraction(0))
    stretch = Key(share("stretch of a band", "0 %..8 %", "0 %..15 %"), "Of a band knitted "
                  "lengthwise: by how much of its length it is stretched as it is sewn on, from "
                  "{range}. It has so many rows fewer. Sources say “slightly”; none gives a "
                  "figure.", "3 %", "2 %", Fraction(1, 50),
                  beside="kind: lengthwise, fabric: band, pick_up: null")
    round = Key(ROUNDINGS, "How the exact stitches become a whole number: {words}, or a "
                "[multiple](#band-round).", "even", "nearest, a half goes up",
                ROUNDINGS.choices["nearest"], inside=MultipleKeys)
    waste_rows = Key(whole_number("rows of waste yarn", "6..10", "6..10"),
                     "Rows of waste yarn before the band, from {range}.", "6", "8", 8)
    stitches_in = Key(whole_number("stitches taken in", "1..6", "1..10"),
                      "How many stitches from its edge the garment is hung, from {range}. All of "
                      "them lie inside the folded band.", "1", "2", 2)
    bind_off = Key(Word({name: name for name in BIND_OFFS}), "How the band ends. Bands and collars "
                   f"of one layer, a facing apart: {_quoted([one.name for one in SINGLES], 'or')}; "
                   f"of two layers knitted onto the edge: "
                   f"{_quoted([one.name for one in FOLDED], 'or')}, sewn down. "
                   "What [each is like](#ways).", "back-stitched", "yarnless chain",
                   "", beside="kind: folded")
    mitre = Key(YES_NO, "`yes`: [mitred](bands/one-piece.md#mitre) at the point of a pullover's V, "
                "or at every square corner of its edge. "
                f"Bands of kinds {_quoted(kinds_that(lambda kind: kind.mitres))}, without "
                "buttonholes.", "yes", "no", False,
                beside="edge: neck")
    buttonholes = Key(Mapped(HoleKeys), "What is asked of the [buttonholes](#buttonholes).",
                      HoleKeys.example, "a band without")
    zip = Key(zip_sold, "A zip between two front bands, instead of buttonholes: how zips are sold, "
              "in whole centimetres from 1 cm to 30 cm (`5 cm`: every five), or `cut` for one that "
              "is cut to its length. The fronts then meet edge to edge and do not overlap. See "
              "[the edge for a zip](bands/zip.md).", "5 cm", "none", None, likely=("1 cm", "cut"),
              beside="kind: folded", instead_of=("buttonholes",))
    cord = Key(Mapped(CasingCordKeys), "Of a casing: the [cord](#casing-cord) through it.",
               CasingCordKeys.example, "none, the channel takes elastic",
               beside="kind: casing, edge: waist")
    points = Key(length("point of a collar", "0 mm..12 cm", "0 mm..20 cm"),
                 "How far each end of a shirt collar goes out, by size, from {range}: a stitch at "
                 "most in a row.", "2 cm", "straight ends", by_size=True,
                 beside="kind: shirt collar, edge: neck")
    outer_dial = Key(_DIAL, "The setting reached at the outer edge of a stand or shirt collar, in "
                     "equal stretches of rows: tighter for a stand collar, so that it leans to the "
                     "neck, looser for one that falls over. In two layers it goes back the same "
                     "way.", "6", "the band's dial for all rows", None,
                     beside="kind: stand collar, edge: neck")
    back_depth = Key(length("back depth of a collar", "3 cm..40 cm", "1 cm..60 cm"),
                     "How deep a shawl collar is behind the neck, by size, from {range}; `depth` "
                     "is then that of its ends. For every 2 rows that the back is deeper than the "
                     "ends, one pair of short rows is knitted. Needed there.", "12 cm", "",
                     by_size=True, beside="kind: shawl collar, edge: neck")
    shows = Key(word(Shown), "{words}: the side that is seen when a shirt or shawl collar of one "
                "layer has fallen over. The page hangs the garment accordingly.", "purl", "knit",
                Shown.KNIT, beside="kind: shirt collar, edge: neck")
