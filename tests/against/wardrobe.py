"""Patterns of whole garments built from values, for checks on drawings, yarn and advice."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

from walebook.charts import Chart
from walebook.forms.registry import FORMS
from walebook.model import (
    Band,
    Bed,
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
from walebook.read_chart import read_chart
from walebook.source import parse_source
from walebook.units import read_dial, read_length

CHARTS = Path(__file__).parents[2] / "patterns" / "_sizes"
BODIES = tuple(name for name in FORMS if name.startswith(("drop", "set-in", "raglan")))
SIZES = ("XS", "M", "3X")
BODY = Swatch(stitches=20, width=read_length("14.2 cm"), rows=30, height=read_length("15.1 cm"),
              mass_g=Fraction(10))
BAND = Swatch(stitches=20, width=read_length("13.2 cm"), rows=30, height=read_length("14.1 cm"),
              mass_g=Fraction(11))


@cache
def chart(key: str) -> Chart:
    """A chart of the collection."""
    text = (CHARTS / f"{key}.yaml").read_text(encoding="utf-8")
    node, _ = parse_source(text, name=key)
    assert node is not None
    made, _ = read_chart(node, key=key)
    assert made is not None
    return made


def pattern(form: str, *, of: str = "women", sizes: tuple[str, ...] = SIZES,
            neck: Neck = Neck.ROUND, fold: Fold | None = Fold.LOOSE, body: Swatch = BODY,
            band: Swatch | None = BAND, edge: str = "neck", title: str = "Neckband") -> Pattern:
    """A garment on a wide bed; with a hem where there is a `fold`, a band where one is asked."""
    fabrics = {"body": Fabric(key="body", yarn="wool", dial=read_dial("6"), swatches=(body,))}
    bands = {}
    if band and edge in FORMS[form].edges:
        fabrics["band"] = Fabric(key="band", yarn="wool", dial=read_dial("4"), swatches=(band,))
        bands["neck"] = Band(
            key="neck", title=title, edge=edge, yarn="wool", dial=read_dial("4"), fabric="band",
            pick_up=None, depth=dict.fromkeys(sizes, read_length("3 cm")), rows=None,
            fold=Fold.TURNED)
    hem = HemWish(depth=read_length("3 cm"), fold=fold, dial=read_dial("4")) if fold else None
    return Pattern(
        slug="lantern", title="Lantern", version="1", date="2026-11-20",
        designer="Isolde Penhallow", licence="CC BY-NC 4.0", summary="A garment.",
        wearer=Wearer.WOMEN,
        bed=Bed(name="wide bed", pitch=read_length("9 mm"), needles=240),
        yarns={"wool": Yarn(key="wool", name="Breakwater Bulky", package_g=Fraction(100),
                            package_length=read_length("118 m"))},
        fabrics=fabrics, sizes=sizes, edges={}, bands=bands,
        garment=GarmentWish(form=form, chart=chart(of), fabric="body", neck=neck, hem=hem,
                            measures={}, body={}))


def proved(made: Pattern) -> Proof:
    """The pattern knitted on the bed; it must be sound."""
    proof, problems = prove(made)
    assert proof is not None, [str(p) for p in problems]
    return proof
