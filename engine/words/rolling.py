"""Says of a band of one layer that it rolls, where it is knitted in stocking stitch."""

from __future__ import annotations

from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..plan.sense import rolls


def rolls_said(pattern: Pattern, plan: BandPlan) -> str:
    """A sentence that begins with a space, or none."""
    if plan.repeat or not rolls(pattern, plan.band):
        return ""
    points = (" Its points curl too: pin them flat and steam them, if the yarn's label allows "
              "steam, and again after a wash.") if plan.collar.points else ""
    return (" One layer of stocking stitch rolls towards its knit side: the depth is that of the "
            f"band laid flat.{points}")
