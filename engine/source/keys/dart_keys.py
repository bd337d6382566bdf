"""The keys of the darts of a body: vertical ones and bust darts; a shirt tail."""

from __future__ import annotations

from fractions import Fraction

from ...core.units import Length
from ...pattern.short_rows import TailCurve
from ..values import length, share, word
from .key import Key, Keys

_TURN = length("turn of a short row", "2 cm..25 cm", "5 mm..60 cm")


class BustKeys(Keys, example="{extra: 3 cm}"):
    """Bust darts by short rows, in a front that is closed."""

    extra = Key(length("extra length over the bust", "1 cm..8 cm", "5 mm..20 cm"),
                "How much longer the middle of the front is than its sides, by size, from "
                "{range}.", "3 cm", by_size=True, likely=("4 cm",))
    below = Key(length("depth below the underarm", "2 cm..9 cm", "5 mm..40 cm"),
                "How far below the underarms they begin, by size, from {range}.", "4 cm",
                "2.5 cm", Length(Fraction(25)), by_size=True)
    from_side = Key(_TURN, "From the side edge to the first turn, by size, from {range}.", "3 cm",
                    "2.5 cm", Length(Fraction(25)), by_size=True)
    reach = Key(_TURN, "From the side edge to the last turn, by size, from {range}: an inch "
                "outside the point of the bust.", "11 cm", "a quarter of the width there",
                by_size=True)


class TailKeys(Keys, example="{depth: 6 cm}"):
    """A shirt tail at the lower edge of a body that is closed at the front."""

    depth = Key(length("depth of a shirt tail", "2 cm..15 cm", "5 mm..40 cm"),
                "How much lower the middle of back and front hangs than their sides, by size, from "
                "{range}.", "6 cm", by_size=True)
    reach = Key(length("reach of a shirt tail", "4 cm..30 cm", "1 cm..60 cm"),
                "Over how much of the width it rises at each side, by size, from {range}.",
                "14 cm", "a third of the width", by_size=True, likely=("10 cm",))
    curve = Key(word(TailCurve), "How it rises: {words}.", "straight", "round", TailCurve.ROUND)


class DartsKeys(Keys, example="{inset: 11 cm}"):
    """Vertical darts in back and fronts, one in each half."""

    inset = Key(length("inset of a dart", "4 cm..30 cm", "1 cm..60 cm"),
                "From the side edge to the middle stitch of a dart at the lower edge, by size, "
                "from {range}.", "11 cm", "a quarter of the width there, or half of a front's",
                by_size=True, likely=("9 cm",))
    share = Key(share("share of darts", "20 %..100 %", "1 %..100 %"),
                "How much of what goes or comes between two of the widths the darts take, from "
                "{range}, in pairs of stitches. The sides take the rest.", "60 %",
                "100 %, but for a stitch that makes no pair", Fraction(1))
