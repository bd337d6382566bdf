"""Patches of a pattern's fabrics, drawn as loops beside their gauges."""

from __future__ import annotations

from collections.abc import Mapping

from ..drawings.fabric_patch import fabric_patch
from ..fabric.gauge import measure
from ..markup.html import anchor
from ..pattern.fabrics import Materials
from ..proof.parts_of_fabrics import Parts
from ..words.fabric_names import fabric_called


def fabric_patches(materials: Materials, parts: Mapping[str, Parts]) -> str:
    """Return a figure for every fabric that was swatched, as HTML; a chart is in its own."""
    drawn = (fabric_patch(measure(fabric.swatches), materials.yarns[fabric.yarn],
                          name=fabric_called(parts, fabric.key),
                          prefix=f"fabric-{anchor(fabric.key)}",
                          chart=materials.stitch_charts.get(fabric.chart),
                          second=materials.yarns.get(fabric.contrast), repeat=fabric.repeat)
             for fabric in materials.fabrics.values())
    return f'<div class="wb-patches">{"".join(drawn)}</div>'
