"""The page beyond its steps: everything that is printed is held to what was knitted."""

from __future__ import annotations

from tests.reader import drawings, facts, gauges, joins, materials, measures, pairs, workings
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Reading


def whole(reading: Reading) -> None:
    """Everything beyond the steps."""
    label = ""
    for group in reading.groups:
        for part in group.parts:
            for block in (*part.blocks, *(b for step in part.steps for b in step.blocks)):
                eased_here = label.startswith("Ease, ")
                label = block.text if block.kind == "dt" else ""
                if block.kind != "drawn":
                    if not eased_here:
                        attempt(reading, part.title, block.text, measures.both_units, block.text)
                    attempt(reading, part.title, block.text, measures.complete, block.text)
    gauge = gauges.gauges(reading)
    gauges.dials(reading, gauge)
    drawings.drawings(reading, gauge)
    workings.workings(reading)
    facts.facts(reading)
    joins.joins(reading, reading.making_up)
    joins.waits(reading)
    joins.cords(reading)
    materials.materials(reading)
    joins.edge_lengths(reading)
    joins.sections_told(reading)
    joins.hung_lengths(reading, gauge)
    joins.marks_alike(reading)
    joins.work_order(reading)
    pairs.mirrors(reading)
    pairs.buttons(reading)
    pairs.sewn_on(reading)
