"""Patterns of whole garments built from values, for checks on drawings, yarn and advice."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from walebook.core.units import read_length
from walebook.forms.registry import FORMS
from walebook.pattern.fabrics import Swatch
from walebook.pattern.model import Fold, Neck, Pattern
from walebook.proof.proof import Proof, prove
from walebook.sizing.charts import Chart
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

from tests import small_patterns as small

CHARTS = Path(__file__).parents[2] / "patterns" / "_sizes"
BODIES = tuple(name for name in FORMS if name.startswith(("drop", "set-in", "raglan")))
SIZES = ("XS", "M", "3X")
BODY = small.swatch(20, "14.2 cm", 30, "15.1 cm", grams=10)
BAND = small.swatch(20, "13.2 cm", 30, "14.1 cm", grams=11)


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
    banded = band is not None and edge in FORMS[form].edges
    fabrics = (small.fabric("body", "6", body),
               *((small.fabric("band", "4", band),) if band and banded else ()))
    neckband = small.band(key="neck", title=title, edge=edge, fabric="band",
                          depth=dict.fromkeys(sizes, read_length("3 cm")))
    return small.pattern(
        **{**small.DESIGNED, "version": "1"}, slug="lantern", title="Lantern",
        bed=small.bed("wide bed", "9 mm", 240),
        yarns=small.wool("Breakwater Bulky", 100, "118 m"), fabrics=fabrics, sizes=sizes,
        bands=(neckband,) if banded else (),
        garment=small.spec(form, chart=chart(of), neck=neck, hem=small.hem(fold)))


def proved(made: Pattern) -> Proof:
    """The pattern knitted on the bed; it must be sound."""
    proof, problems = prove(made)
    assert proof is not None, [str(p) for p in problems]
    return proof
