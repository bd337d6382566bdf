"""Bands built straight from values, for the laws: no source text in between."""

from __future__ import annotations

from fractions import Fraction

from walebook.model import (
    Band,
    BandRows,
    Bed,
    Buttonholes,
    Distance,
    Edge,
    Fabric,
    Fold,
    Lean,
    Pattern,
    Swatch,
    Wearer,
    Yarn,
)
from walebook.steps import Side
from walebook.units import read_dial, read_length

BODY = Swatch(stitches=40, width=read_length("14.2 cm"), rows=60, height=read_length("15 cm"))


def pattern(*, rows: int = 52, rule: Fraction = Fraction(3, 4), fold: Fold = Fold.TURNED,
            front: Side = Side.RIGHT, holes: int = 5, hole: int = 3, ends: tuple[int, int] = (2, 2),
            split: tuple[int, int] = (4, 4), needles: int = 200, button: str = "13 mm",
            lean: Lean = Lean.NECK, waste_rows: int = 8, end_give: int = 2,
            band_give: int = 2) -> Pattern:
    """A pattern of one size and one band; without holes when `holes` is 0."""
    first, second = split
    asked = Buttonholes(
        button=read_length(button), stitches={"one": hole}, number={"one": holes}, every=None,
        lower=Distance(stitches=ends[0]), upper=Distance(stitches=ends[1]), front=front,
        lean=lean, end_give=end_give, band_give=band_give) if holes else None
    band = Band(key="front", title="Front band", edge="front", yarn="wool", dial=read_dial("4"),
                fabric=None, pick_up=rule, depth=None, fold=fold, waste_rows=waste_rows,
                rows=BandRows(to_holes=first, holes_to_fold=second, fold_to_holes=second,
                              to_finish=first), buttonholes=asked)
    return Pattern(
        slug="trial", title="Trial", version="1", date="2026-01-01", designer="A", licence="B",
        summary="C", wearer=Wearer.WOMEN, sizes=("one",), bands={"front": band},
        bed=Bed(name="trial", pitch=read_length("4.5 mm"), needles=needles),
        yarns={"wool": Yarn(key="wool", name="Wool")},
        fabrics={"body": Fabric(key="body", yarn="wool", dial=read_dial("6"), swatches=(BODY,))},
        edges={"front": Edge(key="front", fabric="body", rows={"one": rows})})
