"""Bands built straight from values, for the laws: no source text in between."""

from __future__ import annotations

from fractions import Fraction

from walebook.machine.steps import Side
from walebook.pattern.holes import Distance, Lean
from walebook.pattern.model import Fold, Pattern

from tests import small_patterns as small

BODY = small.swatch(40, "14.2 cm", 60, "15 cm")


def pattern(*, rows: int = 52, rule: Fraction = Fraction(3, 4), fold: Fold = Fold.TURNED,
            front: Side = Side.RIGHT, holes: int = 5, hole: int = 3, ends: tuple[int, int] = (2, 2),
            split: tuple[int, int] = (4, 4), needles: int = 200, button: str = "13 mm",
            lean: Lean = Lean.NECK, waste_rows: int = 8, end_give: int = 2,
            band_give: int = 2) -> Pattern:
    """A pattern of one size and one band; without holes when `holes` is 0."""
    asked = small.holes(
        button, stitches={"one": hole}, buttonhole_count={"one": holes},
        lower=Distance(stitches=ends[0]),
        upper=Distance(stitches=ends[1]), front=front, lean=lean, end_give=end_give,
        band_give=band_give) if holes else None
    band = small.band(pick_up=rule, fold=fold, waste_rows=waste_rows, rows=small.layers(*split),
                      buttonholes=asked)
    return small.pattern(
        bed=small.bed("trial", "4.5 mm", needles), yarns=small.wool("Wool"), sizes=("one",),
        fabrics=(small.fabric("body", "6", BODY),), bands=(band,),
        edges=small.edges("body", {"one": rows}))
