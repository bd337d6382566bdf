"""What a sketch of a garment is called, and a patch of its fabric."""

from __future__ import annotations

from fractions import Fraction

from ..core.units import Length
from ..pattern.model import GarmentSpec
from ..pattern.sketched import Sketched


def body_line(spec: GarmentSpec | None) -> str:
    """What the broken line in a garment is, as HTML; "" where its sketch has none."""
    if spec is None or spec.drawing is not Sketched.BODY:
        return ""
    return ('<p class="wb-note">The broken line is the body. The room between it and the garment '
            "is the ease.</p>")


def cover_scale(smaller: int, views: int) -> str:
    """How many times smaller than the garment it is when printed, as HTML, in one or two views."""
    scale = f"at a scale of 1 to {smaller}" if smaller > 1 else "life size"
    seen = "The sketches are" if views > 1 else "The sketch is"
    return f'<p class="wb-on-paper">{seen} {scale} when printed at 100 %.</p>'


def title(name: str, size: str, seen: str, *, body: bool = False) -> str:
    """The title of a sketch, seen from the "front" or the "back", with the `body` in it or not."""
    with_body = ", with the body as a broken line" if body else ""
    return f"{name}, size {size}: {seen} view{with_body}"


def patch_title(fabric: str, chart: str) -> str:
    """The title of a patch of a fabric, from a chart or plain."""
    return f"Fabric of {fabric}, chart {chart}, knit side" if chart else \
        f"Fabric of {fabric}, knit side"


def patch_caption(fabric: str, wide: Fraction, high: Fraction, stitches: int) -> str:
    """What a patch is: its stitches, its rows, and how large they are."""
    return (f"Fabric of {fabric}: {stitches} stitches and 12 rows, knit side. They measure "
            f"{Length(wide)} by {Length(high)}.")
