"""The keys of the slopes of a garment that its designer schedules."""

from __future__ import annotations

from ...pattern.slope_specs import Order
from ..rates import first_row, rates, stretch
from ..values import word
from .key import Key, Keys, Mapped


class SlopeKeys(Keys, example="{plain_end: 6 rows}"):
    """On which rows one slope is shaped."""

    order = Key(word(Order), "Which of the two neighbouring rates that the counts need comes "
                "first: {words}. With `one rate` all gaps are alike and the rows left over stay "
                "plain at the end.", "mixed evenly", "fast first", None, instead_of=("rates",))
    rates = Key(rates, "Your rates, one after another, by size: `every row 3 times then "
                "every 2nd row 5 times then every 4th row`. Several figures are worked in turn, "
                "over and over: `every 1st and 1st and 2nd row in turn`; two also as often as the "
                "rows ask for: `every 2nd and 4th row mixed`. There every row is `1st`. Where the "
                "last rate has no times, as many follow as the counts need. Where it has times "
                "alone (`then 4 times`), or is `evenly`, they are as far apart as fits.",
                "every row twice then evenly",
                "as the counts need, by `order`", by_size=True,
                likely=("every 10 rows", "every other row twice then 4 times",
                        "every 6th row 5 times then every 8th row",
                        "every 2nd and 3rd row mixed",
                        "every 9th row 2 times then every 4th and 5th row in turn"))
    first_row = Key(first_row,
                    "The row of the first increase or decrease, by size; the rates begin above "
                    "it. Rows are counted from where the slope begins: above the hem, "
                    "at the first bind-off of an underarm, where the neck opens.", "5",
                    "after the first gap", by_size=True, instead_of=("plain_start",))
    plain_start = Key(stretch, "Rows at the beginning that stay plain, by size: `12 rows`, or a "
                      "length, such as `4 cm`. The first gap begins above them.", "12 rows", "none",
                      by_size=True, likely=("4 cm",))
    plain_end = Key(stretch, "Rows at the end that stay plain, by size: `12 rows`, or a length. "
                    "The last increase or decrease is made where they begin, or earlier.", "6 rows",
                    "as many as a gap at a sleeve's end or below an underarm, two at a V neck's, "
                    "none at any other",
                    by_size=True, likely=("2 cm",))


class SlopesKeys(Keys, example="{sleeve: {order: mixed evenly}}"):
    """The slopes of a garment that are shaped on rows of the designer's choice."""

    sleeve = Key(Mapped(SlopeKeys), "The increases of a sleeve, from its cuff to the underarm.",
                 "{order: mixed evenly}", "every gap alike, or the shorter gaps first")
    raglan_body = Key(Mapped(SlopeKeys), "The decreases of back and fronts along a raglan.",
                      "{order: slow first}", "on even rows, the shorter gaps first")
    raglan_sleeve = Key(Mapped(SlopeKeys), "The decreases of a sleeve along a raglan. It has as "
                        "many rows as the body's, whatever the rates.", "{order: fast first}",
                        "on even rows, the shorter gaps first")
    v_neck = Key(Mapped(SlopeKeys), "The decreases of a V neck, from where it opens.",
                 "{order: one rate}", "the shorter gaps first")
    side_to_hip = Key(Mapped(SlopeKeys), "The sides of back and fronts from the cast-on or the hem "
                      "up to `hip_height`, where there is a `hip_width`.", "{order: mixed evenly}",
                      "the shorter gaps first")
    side_to_waist = Key(Mapped(SlopeKeys), "The sides of back and fronts up to `waist_height`: "
                        "from the hip, or from the cast-on or the hem where there is no "
                        "`hip_width`.",
                        "{rates: every 6th row 3 times then evenly}", "the shorter gaps first")
    side_to_chest = Key(Mapped(SlopeKeys), "The sides of back and fronts up to `chest_height`, or "
                        "to the underarms: from the waist, or from what is widened or narrowed "
                        "below it. With darts, these three slopes have what the darts leave.",
                        "{plain_end: 4 cm}", "the shorter gaps first")
