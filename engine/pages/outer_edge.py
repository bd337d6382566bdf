"""What a band's outer edge comes to that is knitted at another dial than its swatch."""

from __future__ import annotations

from ..markup.html import esc
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..plan.graded import outer_edge
from ..proof.fabric_names import fabric_called
from ..words import workings as words


def outer_edge_worked(pattern: Pattern, plan: BandPlan, whose: str) -> list[tuple[str, str]]:
    """Return the outer edge with its working, both HTML; nothing where one dial does."""
    fabric = pattern.fabrics.get(plan.band.fabric or "")
    dial = plan.collar.outer if len(plan.collar.grades) > 1 else plan.row_dials[-1]
    if fabric is None or dial == fabric.dial or len({plan.row_dials[0], dial}) == 1:
        return []
    stitches = plan.stitches.value + 2 * plan.collar.points
    made = outer_edge(fabric, pattern.fabrics.values(), stitches, dial)
    return [(esc(f"{whose}{words.outer_label(dial, made)}"),
             esc(words.outer_working(fabric.dial, dial, made, fabric_called(pattern, made.other.key)
                                     if made else "")))]
