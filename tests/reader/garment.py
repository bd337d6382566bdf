"""The page beyond its steps: everything that is printed is held to what was knitted."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from tests.reader import (
    acts_heads,
    acts_marks,
    cap_tops,
    cautions,
    drawings,
    facts,
    gauges,
    hung_edges,
    joins,
    knitted_counts,
    making,
    materials,
    measures,
    order,
    own_pieces,
    pairs,
    rolling,
    trial_pieces,
    ways,
    workings,
    worn,
)
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Reading


def whole(reading: Reading) -> Iterator[None]:
    """Hold everything beyond the steps to what was knitted; stop after each check."""
    label = ""
    for group in reading.groups:
        for part in group.parts:
            for block in (*part.blocks, *(b for step in part.steps for b in step.blocks)):
                eased_here = label.startswith("Ease, ") or block.text.endswith(" of ease")
                body = label.startswith("Fits ")
                label = block.text if block.kind == "dt" else ""
                if block.kind != "drawn":
                    if not eased_here:
                        attempt(reading, part.title, block.text,
                                partial(measures.both_units, chart=body), block.text)
                    attempt(reading, part.title, block.text, measures.complete, block.text)
    yield
    gauge = gauges.gauges(reading)
    for check in (gauges.dials, gauges.pegged, trial_pieces.hem_tried, drawings.drawings,
                  hung_edges.hung_lengths, hung_edges.mitre_rests, hung_edges.corner_stretches,
                  cap_tops.cap_tops, trial_pieces.trial_pieces):
        attempt(reading, "the page", check.__name__, check, reading, gauge)
        yield
    for check in (workings.workings, workings.measures_worked, workings.labels_alike,
                  workings.names_valued, workings.measures_used,
                  knitted_counts.knitted_counts, facts.facts,
                  joins.joins, joins.waits, joins.strips, joins.cords, materials.materials,
                  joins.edge_lengths, hung_edges.sections_told, hung_edges.beside_seams,
                  hung_edges.narrow_tops, hung_edges.neck_orders,
                  hung_edges.points_told, hung_edges.faced_tops, hung_edges.facings_joined,
                  joins.marks_alike, acts_marks.names_told, joins.tied_threads,
                  joins.underarm_threads,
                  joins.edge_told_whole,
                  joins.hems_knitted, joins.blocked_first,
                  joins.work_order, making.checks, own_pieces.own_pieces, pairs.mirrors,
                  pairs.ribs_beside_bands, pairs.labels_of_parts, pairs.order_of_two, pairs.buttons,
                  pairs.sewn_on, acts_heads.carriage_over,
                  worn.brims, worn.first_parts, worn.sides, rolling.rolling, order.order_of_work,
                  ways.ways, cautions.cautions):
        attempt(reading, "the page", check.__name__, check, reading)
        yield
