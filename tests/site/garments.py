"""Whole garments built from values, with every band their form takes, and their pages' steps.

Gauges and measures are plain figures of ours; the body charts are the collection's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from walebook.forms.registry import FORMS
from walebook.model import (
    Band,
    Bed,
    Buttonholes,
    Distance,
    Fabric,
    Fold,
    GarmentWish,
    HemWish,
    Neck,
    Pattern,
    Swatch,
    Wearer,
    Yarn,
)
from walebook.proof import Proof, prove
from walebook.steps import Side
from walebook.units import read_dial, read_length

from tests.against.wardrobe import chart

SIZES = ("S", "M", "L")
TITLES = {"neck": "Neckband", "front_edge": "Front band", "armhole": "Armhole band",
          "brim": "Brim band", "cuff": "Cuff band"}


def garment(form: str, *, neck: Neck = Neck.ROUND, hem: Fold | None = Fold.LOOSE,
            fold: Fold = Fold.LOOSE, bands: bool = True, title: str = "Harbour") -> Pattern:
    """A garment of one of the forms in three sizes, its bands folded by `fold`.

    A shawl's long edge takes no hem.
    """
    hem = None if "shawl" in form else hem
    fabrics = {key: Fabric(key=key, yarn="wool", dial=read_dial(dial), swatches=(swatch,))
               for key, dial, swatch in (("body", "6", _swatch("14.2 cm", "15 cm")),
                                         ("band", "4", _swatch("13.2 cm", "14.1 cm")))}
    wish = GarmentWish(
        form=form, chart=chart("women"), fabric="body", neck=neck, measures={}, body={},
        hem=HemWish(depth=read_length("3 cm"), fold=hem, dial=read_dial("4")) if hem else None)
    made = [_band(edge, fold) for edge in TITLES if bands and edge in FORMS[form].edges]
    return Pattern(
        slug="harbour", title=title, version="1.0.0", date="2026-11-20",
        designer="Isolde Penhallow", licence="CC BY-NC 4.0", summary="A garment.",
        wearer=Wearer.WOMEN, bed=Bed(name="bulky", pitch=read_length("9 mm"), needles=400),
        yarns={"wool": Yarn(key="wool", name="Tideline Aran", package_g=Fraction(50),
                            package_length=read_length("80 m"))},
        fabrics=fabrics, sizes=SIZES, edges={},
        bands={band.key: band for band in made}, garment=wish)


def _swatch(width: str, height: str) -> Swatch:
    return Swatch(stitches=20, width=read_length(width), rows=30, height=read_length(height),
                  mass_g=Fraction(12))


def _band(edge: str, fold: Fold) -> Band:
    holes = Buttonholes(
        button=read_length("18 mm"), stitches=None, number=None, every=read_length("8 cm"),
        lower=Distance(length=read_length("2 cm")), upper=Distance(length=read_length("1.5 cm")),
        front=Side.RIGHT) if edge == "front_edge" else None
    return Band(key=edge.partition("_")[0], title=TITLES[edge], edge=edge, yarn="wool",
                dial=read_dial("4"), fabric="band", pick_up=None, rows=None, fold=fold,
                depth=dict.fromkeys(SIZES, read_length("3 cm")), stitches_in=1,
                buttonholes=holes)


@cache
def dressed(form: str, neck: Neck = Neck.ROUND, hem: Fold | None = Fold.LOOSE) -> Proof:
    """The garment knitted on the bed in all its sizes."""
    proof, findings = prove(garment(form, neck=neck, hem=hem))
    assert proof is not None, [str(f) for f in findings]
    return proof


STEP = re.compile(r'<li id="((?:[a-z]+-)+)(\d+)">(.*?)</li>\n', re.S)


def steps_under(page: str, anchor: str) -> Iterator[str]:
    """The HTML of the numbered steps whose ids begin with `anchor`, in their order."""
    for prefix, _, told in STEP.findall(page):
        if prefix == f"{anchor}-":
            yield told
