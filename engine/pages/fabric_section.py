"""Patches of a pattern's fabrics, drawn as loops beside their gauges."""

from __future__ import annotations

from ..drawings.fabric_patch import fabric_patch
from ..fabric.gauge import measure
from ..markup.html import anchor
from ..pattern.model import Pattern
from ..words.fabric_names import fabric_called


def fabric_patches(pattern: Pattern) -> str:
    """Return a figure for every fabric that was swatched, as HTML; a chart is in its own."""
    drawn = (fabric_patch(measure(fabric.swatches), pattern.yarns[fabric.yarn],
                          name=fabric_called(pattern, fabric.key),
                          prefix=f"fabric-{anchor(fabric.key)}",
                          chart=pattern.stitch_charts.get(fabric.chart),
                          second=pattern.yarns.get(fabric.contrast), repeat=fabric.repeat)
             for fabric in pattern.fabrics.values())
    return f'<div class="wb-patches">{"".join(drawn)}</div>'
