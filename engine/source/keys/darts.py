"""The keys of the vertical darts of a body."""

from __future__ import annotations

from fractions import Fraction

from ..values import length, share
from .key import Key, Keys


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
