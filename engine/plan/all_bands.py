"""Every band of a pattern planned in all its sizes, and what is found in one of them or across."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from ..core.problems import Problem, Severity, note
from ..pattern.edges import EdgeSpec
from ..pattern.model import Band, Pattern
from ..pattern.places import Places
from . import arranged, part_planners
from .across_bands import out_of_step
from .assembled import Assembled, band_edge, left_of_pair
from .band import BandPlan
from .band_counts import plan_band
from .band_findings import edge_place, too_long_for_bed
from .band_order import closed_all_round, in_working_order, whole_edge
from .band_parts import in_parts


def bands_in_sizes(pattern: Pattern, assembled: Mapping[str, Assembled]
                   ) -> tuple[dict[str, list[BandPlan]], list[Problem]]:
    """Return the bands of every size as they are planned, in the order of their work, with all
    findings."""
    problems: list[Problem] = []
    plans: dict[str, list[BandPlan]] = {size: [] for size in pattern.sizes}
    for band in in_working_order(pattern.bands.values()):
        planned = []
        if band.cord is not None:
            problems += part_planners.cord_refusals(pattern.places, pattern.wearer, band)
        if refused := arranged.refusals(pattern, band):
            problems += refused
            continue
        for size in pattern.sizes:
            cut = assembled.get(size)
            edge_path = whole_edge(
                pattern.garment, pattern.fabrics, pattern.edges, band,
                band_edge(pattern.places, pattern.fabrics, pattern.edges, band, size, cut),
                plans[size])
            if closed := closed_all_round(pattern.places, band, size, edge_path):
                problems += closed
                continue
            # The measures are those by which its buttonholes may be placed.
            plan, found = plan_band(pattern, band, size, edge_path, cut.measures if cut else {},
                                    left=left_of_pair(pattern.edges, band, cut))
            problems += found
            if plan is not None:
                plan = in_parts(plan, pattern.bed.needles)
                planned.append(plan)
                plans[size].append(plan)
        problems += too_long_for_bed(pattern, band, planned)
        problems += _against_neighbours(pattern.places, pattern.edges, band, planned)
        problems += out_of_step(pattern.places, pattern.edges, band, planned)
    return plans, problems


def _against_neighbours(places: Places, edges: Mapping[str, EdgeSpec], band: Band,
                        plans: list[BandPlan]) -> list[Problem]:
    """A band that shrinks where its edge grows, or grows where the edge shrinks, is reported."""
    problems = []
    for a, b in pairwise(plans):
        edge = b.edge_rows.value - a.edge_rows.value
        stitches = b.stitches.value - a.stitches.value
        if edge * stitches < 0:
            problems.append(note(
                Severity.WARNING, "against-neighbours",
                edge_place(places, edges, band, b.size), size=b.size,
                found=f"{b.stitches} for {b.edge_rows}, after {a.stitches} for {a.edge_rows} "
                      f"in size {a.size}",
                expected="a band that grows with its edge",
                remedy="Change the buttonholes' number or ends, or give them less room to move "
                       "the band."))
    return problems
