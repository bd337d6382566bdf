"""A garment planned in all its sizes, and what is found in one of them or across them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..catalogue.bands import KINDS
from ..core.expression import NOTHING, Expression, plain
from ..core.problems import Problem, Severity
from ..pattern.model import GarmentSpec, Pattern
from .assemble import across_sizes, assemble, chart_remarks, too_wide_for_bed
from .assembled import Assembled
from .band_order import AROUND, FRONT_EDGES, PLACKET
from .order_of_work import order_of_work
from .sizes_alike import sizes_alike
from .taken_once import taken_twice
from .worked_measures import worked_out

OVERLAPPING = (*FRONT_EDGES, AROUND, PLACKET)


def garment_in_sizes(pattern: Pattern, spec: GarmentSpec, whole: Pattern
                     ) -> tuple[dict[str, Assembled], list[Problem]]:
    """Return the garment in every size in which it can be shaped, with all findings; its measures
    are made from what the chart has in every size of the `whole`."""
    # What is wrong with the measures of all sizes is found before any size is shaped.
    worked = {size: worked_out(whole, spec, size) for size in pattern.sizes}
    if impossible := [problem for each in worked.values() for problem in each.found
                      if problem.severity is Severity.ERROR]:
        return {}, impossible
    problems = [*_parts_refused(pattern, spec), *taken_twice(pattern)]
    assembled: dict[str, Assembled] = {}
    bands, hidden, band = _overlap(pattern)
    for size in pattern.sizes:
        made, found = assemble(pattern, spec, size, bands=bands.get(size, NOTHING),
                               hidden=hidden, band=band, worked=worked[size])
        problems += found
        if made is not None:
            assembled[size] = replace(made, garment=order_of_work(pattern, made.garment))
    problems += too_wide_for_bed(pattern, tuple(assembled.values()))
    problems += across_sizes(pattern.places, spec, pattern.fabrics, tuple(assembled.values()))
    problems += sizes_alike(pattern.places, tuple(assembled.values()))
    problems += chart_remarks(pattern.places, pattern.sizes, spec, tuple(assembled.values()))
    return assembled, problems


def _parts_refused(pattern: Pattern, spec: GarmentSpec) -> Iterator[Problem]:
    """What is wrong with pockets and with a cord in the hem, where there are any."""
    if spec.pockets is not None:
        from .pockets import tops
        yield from tops(pattern.places, pattern.garment, pattern.bands)
    if spec.cord is not None:
        from .cords import allowed
        yield from allowed(pattern.places, pattern.garment, pattern.wearer)


def _overlap(pattern: Pattern) -> tuple[dict[str, Expression], int, str]:
    """The depth of the front or placket bands, which lie over one another [mm], what they hide, and
    the key of one."""
    for band in pattern.bands.values():
        if band.garment_edge in OVERLAPPING:
            from .band_counts import finished_depth
            # Bands beside a zip meet edge to edge; others lie over one another.
            both = 2 * KINDS[band.kind].stands if band.zip else 1
            depths = {size: finished_depth(pattern, band, size) for size in pattern.sizes}
            return {size: depth if both == 1 else plain(both) * depth
                    for size, depth in depths.items()}, band.stitches_in, band.key
    return {}, 0, ""
