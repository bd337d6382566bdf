"""Says of a band of one layer that it rolls, where it is knitted in stocking stitch."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..pattern.model import Pattern
from ..plan.band import BandPlan


def rolls_said(pattern: Pattern, plan: BandPlan) -> str:
    """A sentence that begins with a space, or none.

    Stocking stitch rolls to its knit side at a bound-off edge; what lies behind an edge is sewn
    down, and a rib or needles left out of work keep a band flat. Common practice, no source.
    """
    kind, band = KINDS[plan.band.kind], plan.band
    fabric = pattern.fabrics.get(band.fabric or "")
    if kind.layers > 1 or kind.name in ("facing", "ribbed") or plan.repeat or \
            (fabric and fabric.chart):
        return ""
    return (" One layer of stocking stitch rolls towards its knit side: the depth is that of the "
            "band laid flat.")
