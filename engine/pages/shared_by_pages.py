"""What the pages of one pattern share, worked out once for all of them."""

from __future__ import annotations

from collections.abc import Mapping

from ..drawings.schematic import outlines
from ..machine.records import dataclass
from ..proof.proof import Proof
from ..proof.yarn_requirement import YarnRequirement, yarn_requirements
from ..shape.polygon import Outline
from .figures import ShownFigure, figures
from .gauge_section import gauges
from .sketch import Sketch, sketch_of


@dataclass(frozen=True, slots=True)
class Shared:
    """The gauges as HTML; by size, the outlines of the pieces and what is needed of each yarn; by
    size and a band's key, the figures of the band; the sketch, None where there is none."""

    gauge: str
    outlines: Mapping[str, tuple[Outline, ...]]
    yarn_requirements: Mapping[str, tuple[YarnRequirement, ...]]
    figures: Mapping[tuple[str, str], tuple[ShownFigure, ...]]
    sketch: Sketch | None


def shared(proof: Proof) -> Shared:
    """Return what the overview, the pages of all sizes and counts.json have in common."""
    pattern = proof.pattern
    return Shared(gauges(pattern, pattern.bands.values(), proof.sizes),
                  {size.size: outlines(pattern.garment, pattern.fabrics, size)
                   for size in proof.sizes},
                  {size.size: yarn_requirements(pattern, size) for size in proof.sizes},
                  {(size.size, plan.band.key): figures(plan) for size in proof.sizes
                   for plan in size.plans},
                  sketch_of(proof))
