"""Small patterns built straight from values, no source text in between: one builder for a part.

Every part has plain figures of ours, common practice where they look like a rule, no source; a
check that leans on others gives its own by name. Lengths are read as a source has them.
"""

from __future__ import annotations

from dataclasses import fields
from fractions import Fraction
from typing import Any

from walebook.catalogue.bands import USUAL
from walebook.catalogue.forms import FORM_KINDS, Construction
from walebook.core.expression import Operand
from walebook.core.operands import Role
from walebook.core.problems import Place
from walebook.core.units import Length, read_dial, read_length
from walebook.machine.steps import Side
from walebook.pages.figures import figures
from walebook.pattern.cells import Cell, Cells
from walebook.pattern.edges import EdgeShape, EdgeSpec
from walebook.pattern.fabrics import Fabric, NeedleBed, Swatch, Yarn
from walebook.pattern.holes import Buttonholes, Distance
from walebook.pattern.model import Band, BandRows, Fold, GarmentSpec, HemSpec, Neck, Pattern, Wearer
from walebook.pattern.outlines import (
    NO_OUTLINE,
    EdgeOf,
    EdgeSide,
    OutlineJoin,
    OutlinePiece,
    OutlineSpec,
)
from walebook.plan.band import BandPlan
from walebook.plan.buttonholes import Placing, cost
from walebook.sizing.measures import Definition
from walebook.sizing.quantities import Quantity

HEAD = {"slug": "trial", "title": "Trial", "version": "1", "date": "2026-01-01", "designer": "A",
        "licence": "B", "summary": "C", "wearer": Wearer.WOMEN}
DESIGNED = {"version": "1.0.0", "date": "2026-11-20", "designer": "Isolde Penhallow",
            "licence": "CC BY-NC 4.0", "summary": "A garment."}
HOLES: dict[str, Any] = {"stitches": None, "buttonhole_count": None, "every": None,
                         "lower": Distance(stitches=2), "upper": Distance(stitches=2),
                         "front": Side.RIGHT}
BAND: dict[str, Any] = {"key": "front", "title": "Front band", "edge": "front", "yarn": "wool",
                        "dial": read_dial("4"), "kind": USUAL, "fabric": None,
                        "pick_up": Fraction(3, 4), "depth": None, "rows": None, "fold": Fold.TURNED}


def swatch(stitches: int, width: str, rows: int, height: str, grams: int | None = None) -> Swatch:
    """A swatch as a source writes it, weighed where it has `grams`."""
    return Swatch(stitches=stitches, width=read_length(width), rows=rows,
                  height=read_length(height), mass_g=None if grams is None else Fraction(grams))


def fabric(key: str, dial: str, *swatches: Swatch) -> Fabric:
    """A fabric of the wool."""
    return Fabric(key=key, yarn="wool", dial=read_dial(dial), swatches=swatches)


def wool(name: str, grams: int | None = None, length: str = "", **more: Any) -> dict[str, Yarn]:
    """The one yarn, in balls of so much where both figures are given."""
    return {"wool": Yarn(key="wool", name=name, package_g=None if grams is None else
                         Fraction(grams), package_length=read_length(length) if length else None,
                         **more)}


def bed(name: str, pitch: str, needles: int) -> NeedleBed:
    """A needle bed."""
    return NeedleBed(name=name, pitch=read_length(pitch), needles=needles)


def rows(to_holes: int, holes_to_fold: int, fold_to_holes: int, to_finish: int) -> BandRows:
    """The rows of a band, in the order in which they are knitted."""
    return BandRows(to_holes=to_holes, holes_to_fold=holes_to_fold, fold_to_holes=fold_to_holes,
                    to_finish=to_finish)


def layers(first: int, second: int) -> BandRows:
    """The rows of a folded band of two equal layers."""
    return rows(first, second, second, first)


def holes(button: str, **said: Any) -> Buttonholes:
    """Buttonholes on the right front, two stitches from both ends, but for what is `said`."""
    return Buttonholes(**{"button": read_length(button), **HOLES, **said})


def band(**said: Any) -> Band:
    """A front band picked up three stitches for every four rows, but for what is `said`.

    One of a fabric has no rule, one of a depth no rows.
    """
    ruled = {"pick_up": None} if said.get("fabric") else {}
    return Band(**{**BAND, **ruled, **said})


def edges(fabric_key: str, by_size: dict[str, int]) -> dict[str, EdgeSpec]:
    """A front edge of so many rows."""
    return {"front": EdgeSpec(key="front", fabric=fabric_key, shape=EdgeShape.FRONT, rows=by_size)}


def hem(fold: Fold | None) -> HemSpec | None:
    """A hem of 3 cm, or none."""
    return HemSpec(depth=read_length("3 cm"), fold=fold, dial=read_dial("4")) if fold else None


def outline_of(form: str) -> tuple[OutlineSpec, dict[str, str]]:
    """A small bag and its measures, where the form takes pieces of the designer's; else nothing."""
    if FORM_KINDS[form].construction is not Construction.OUTLINE:
        return NO_OUTLINE, {}
    bag = OutlinePiece(key="bag", title="Bag", width="bag_width", height="bag_height")
    sides = OutlineJoin(one=(EdgeOf("bag", EdgeSide.LEFT),), other=(EdgeOf("bag", EdgeSide.RIGHT),))
    return OutlineSpec((bag,), (sides,)), {"bag_width": "30 cm", "bag_height": "40 cm"}


def spec(form: str, **said: Any) -> GarmentSpec:
    """A garment of a form in the fabric called body, round at the neck, but for what is `said`."""
    outline, measures = outline_of(form)
    sizes = said["chart"].sizes if "chart" in said else ()
    return GarmentSpec(**{"form": form, "fabric": "body", "neck": Neck.ROUND, "hem": None,
                          "measures": {name: dict.fromkeys(sizes, Definition(
                              text, Place("trial", 1, 1))) for name, text in measures.items()},
                          "outline": outline, "body": {}, **said})


def pattern(*, fabrics: tuple[Fabric, ...], bands: tuple[Band, ...] = (), **said: Any) -> Pattern:
    """A pattern of these fabrics and bands, its head as in `HEAD` but for what is `said`."""
    known = {f.name for f in fields(Pattern)}
    assert set(said) <= known, set(said) - known
    return Pattern(**{**HEAD, "fabrics": {f.key: f for f in fabrics},
                      "bands": {b.key: b for b in bands}, "edges": {}, **said})


def cost_of(placing: Placing) -> int:
    """What a placing gives up, by the engine's one written cost."""
    commoner = max((placing.gaps.count(gap) for gap in placing.gaps), default=0)
    return cost(placing.spec, placing.stitches, placing.lower, placing.upper,
                len(placing.gaps) - commoner)


def figure_of(plan: BandPlan, name: str) -> int | tuple[int, ...]:
    """A figure of a band as it is published, or all of a list."""
    return next(one.value for one in figures(plan) if one.name == name)


def cells_of(text: str) -> Cells:
    """The cells of one row of marks."""
    return tuple(Cell(mark) for mark in text)


def given_length(length: Length, source: str = "") -> Quantity:
    """A length that was stated, by whom or where in `source`."""
    return Quantity(Operand(length.mm, Role.BODY, source), True)


def given_number(number: Fraction | int, source: str = "") -> Quantity:
    """A plain number that was stated, by whom or where in `source`."""
    return Quantity(Operand(Fraction(number), Role.BODY, source), False)
