"""What a band's outer edge comes to that is knitted at another dial than its swatch."""

from __future__ import annotations

from collections.abc import Mapping

from ..machine.records import dataclass
from ..machine.steps import Dial
from ..markup.html import esc
from ..pattern.fabrics import Fabric
from ..plan.band import BandPlan
from ..plan.graded import OuterEdge, outer_edge
from ..proof.parts_of_fabrics import Parts
from ..words import workings as words
from ..words.fabric_names import fabric_called


@dataclass(frozen=True, slots=True)
class Outer:
    """The dial of a band's swatch and that of its outer edge, and how long that comes: None where
    no swatch tells."""

    own: Dial
    dial: Dial
    made: OuterEdge | None


def outer_of(fabrics: Mapping[str, Fabric], plan: BandPlan) -> Outer | None:
    """Return the outer edge of a band; None where one dial does."""
    fabric = fabrics.get(plan.band.fabric or "")
    dial = plan.collar.outer if len(plan.collar.grades) > 1 else plan.row_dials[-1]
    if fabric is None or dial == fabric.dial or len({plan.row_dials[0], dial}) == 1:
        return None
    stitches = plan.stitches.value + 2 * plan.collar.points
    return Outer(fabric.dial, dial, outer_edge(fabric, fabrics.values(), stitches, dial))


def outer_edge_worked(fabrics: Mapping[str, Fabric], parts: Mapping[str, Parts], plan: BandPlan,
                      whose: str) -> list[tuple[str, str]]:
    """Return the outer edge with its working, both HTML; nothing where one dial does."""
    outer = outer_of(fabrics, plan)
    if outer is None:
        return []
    other = fabric_called(parts, outer.made.other.key) if outer.made else ""
    return [(esc(f"{whose}{words.outer_label(outer.dial, outer.made)}"),
             esc(words.outer_working(outer.own, outer.dial, outer.made, other)))]
