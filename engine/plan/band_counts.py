"""A band planned along its edge: its stitches, rows and holes, and what its kind adds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..catalogue.bands import KINDS
from ..core.branched import Branched
from ..core.counted import Count
from ..core.counts import Rounding, Unit
from ..core.expression import Chosen, Expression, Operand, Rule, Sum, Term, tried_figure
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Problem, has_errors
from ..fabric.gauge import Gauge, measure
from ..machine.records import dataclass
from ..pattern.fabrics import Repeat
from ..pattern.model import Band, BandRows, Pattern
from ..shape.edge_path import EdgePath
from ..sizing.quantities import Quantity
from . import part_planners
from .arranged import arranged, edge_fabric, not_closed, rounded_to, stitches_apart
from .band import BandPlan
from .band_findings import off_edge, too_deep, too_tight_or_wavy, unsound, unswatched
from .buttonholes import Placing
from .casing_plan import CasingPlan
from .collar_plan import straight
from .edge_reach import band_too_long
from .hole_sums import filled, sought
from .layers import layer_rows
from .lengthwise_counts import runs_along, seen_width, waiting_edge, width_stitches
from .meeting import Meeting, PickUpRate, all_stitches, as_one, meet, resized, ruled_stitch


@dataclass(frozen=True, slots=True, kw_only=True)
class _Counted:
    """A band along its edge, before its holes and what its kind adds: gauges, stitches, rows."""

    pattern: Pattern
    band: Band
    size: str
    edge_path: EdgePath
    body: Gauge
    gauge: Gauge
    rate: PickUpRate
    rounding: Rounding
    meetings: tuple[Meeting, ...]
    depth: Count
    deep: Expression
    rows: BandRows


def plan_band(pattern: Pattern, band: Band, size: str, edge_path: EdgePath,
              measures: Mapping[str, Quantity] | None = None, *, left: EdgePath | None = None
              ) -> tuple[BandPlan | None, tuple[Problem, ...]]:
    """Return the band's plan in `size` along an edge, with its findings; None where refused.

    `measures` are the garment's, by which its buttonholes may be placed; `left` is the other edge
    of a pair, where it has other rows.
    """
    own, problems = _counted(pattern, band, size, edge_path)
    if own is None:
        return None, tuple(problems)
    if left is not None and runs_along(band) and not band.along:
        own = replace(own, meetings=_for_both(own, left))
    hole, placing, found = _holes(own, measures or {})
    problems += found
    if band.buttonholes is not None and placing is None:
        return None, tuple(problems)
    stitches = _with_holes(all_stitches(own.meetings), placing)
    if not runs_along(band):
        problems += not_closed(pattern.places, pattern.fabrics, pattern.edges, band, size,
                               stitches.value)
        problems += band_too_long(pattern.places, pattern.bed, band, size, stitches, own.gauge)
    problems += off_edge(pattern.places, band, size, stitches,
                         all_stitches(meet(edge_path, own.rate))) if band.along else \
        too_tight_or_wavy(pattern.places, band, size, stitches, edge_path, own.gauge)
    if pattern.garment is not None and edge_path.ring:
        problems += part_planners.band_over_head(pattern.places, pattern.garment, band, size,
                                                 stitches.value * own.gauge.stitch, edge_path)
    if band.zip is not None:
        from .zips import check_zip, opening_of
        problems += check_zip(pattern.places, band, size, opening_of(stitches, own.gauge))
    plan, found = _finished(own, hole, placing, stitches)
    problems += found
    if plan is not None and left is not None:
        met = meet(left, own.rate, own.rounding)
        other, found = _finished(replace(own, edge_path=left, meetings=met), hole, placing,
                                 stitches)
        problems += [problem for problem in found if problem not in problems]
        plan = replace(plan, left=other and replace(
            other, stitches=all_stitches(other.meetings)))
    return (None if has_errors(problems) else plan), tuple(problems)


def _for_both(own: _Counted, left: EdgePath) -> tuple[Meeting, ...]:
    """What an edge takes of a band that is sewn on and fits the other edge of the pair, too.

    Both bands have one number of rows: of those that either edge would have, the one whose greatest
    miss is the least, the smaller where two are alike.
    """
    rate = own.rate
    exact = [edge_path.length / (rate.stitch * (1 + rate.stretch))
             for edge_path in (own.edge_path, left)]
    first, other = (all_stitches(met) for met in (own.meetings, meet(left, rate, own.rounding)))
    tried = range(min(first.value, other.value), max(first.value, other.value) + 1)
    misses = {total: max(abs(total - one) for one in exact) for total in reversed(tried)}
    found = Branched(Chosen((first.made, *map(tried_figure, misses)), Rule.LEAST, ChoiceReason.BAND,
                            tuple(Operand(miss, Role.COST) for miss in misses.values())))
    return resized(own.meetings, int(found.value), made=Term(found, Role.NUMBER))


def _counted(pattern: Pattern, band: Band, size: str, edge_path: EdgePath
             ) -> tuple[_Counted | None, list[Problem]]:
    """The band's gauge, the stitches it takes section by section, and its rows."""
    fabric = edge_fabric(pattern.garment, pattern.edges, band)
    body = measure(pattern.fabrics[fabric].swatches)
    own = measure(pattern.fabrics[band.fabric].swatches) if band.fabric is not None else None
    repeat = arranged(pattern.fabrics, pattern.edges, band)
    if runs_along(band):
        return _counted_along(pattern, band, size, edge_path, own or body, repeat)
    rate = PickUpRate(body=body, gauge=own, rule=band.pick_up, ease=band.ease, places=band.places,
                      one_for_one=not KINDS[band.kind].faces or bool(repeat))
    gauge = own or Gauge(ruled_stitch(edge_path, rate), body.row)
    problems = [] if own else [unswatched(pattern.places, band, fabric)]
    rounding, misfit = rounded_to(pattern.places, band, size, repeat)
    problems += [*misfit, *stitches_apart(pattern, band, size, edge_path)]
    if has_errors(problems):
        return None, problems
    meetings = meet(edge_path, rate, rounding)
    depth, rows, found = layer_rows(pattern.places, band, size, gauge)
    problems += found
    if not rate.one_for_one:
        from .facings import too_far_off
        problems += too_far_off(pattern.places, band, size, meetings)
    problems += unsound(pattern.places, pattern.edges, band, size, edge_path,
                        stitches=all_stitches(meetings), depth=depth)
    if rows is None or has_errors(problems):
        return None, problems
    return _Counted(pattern=pattern, band=band, size=size, edge_path=edge_path, body=body,
                    gauge=gauge, rate=rate, rounding=rounding, meetings=meetings, depth=depth,
                    deep=_rows_deep(depth, gauge), rows=rows), problems


def _counted_along(pattern: Pattern, band: Band, size: str, edge_path: EdgePath, gauge: Gauge,
                   repeat: Repeat | None) -> tuple[_Counted | None, list[Problem]]:
    """The rows that a band takes section by section which is sewn on, and its stitches."""
    problems = waiting_edge(pattern.places, band, size, edge_path)
    if problems:
        return None, problems
    turned = gauge.turned
    rate = PickUpRate(body=turned, gauge=turned, rule=None, one_for_one=False, unit=Unit.ROWS,
                      stretch=band.stretch, places=band.places)
    rounding, misfit = rounded_to(pattern.places, band, size, None)
    meetings = meet(edge_path, rate, rounding)
    depth, rows, problems = width_stitches(pattern.places, pattern.fabrics, band, size, gauge,
                                           repeat)
    problems += [*misfit, *unsound(pattern.places, pattern.edges, band, size, edge_path,
                                   stitches=all_stitches(meetings), depth=depth)]
    if rows is None or has_errors(problems):
        return None, problems
    return _Counted(pattern=pattern, band=band, size=size, edge_path=edge_path, body=gauge,
                    gauge=turned, rate=rate, rounding=rounding, meetings=meetings, depth=depth,
                    deep=seen_width(pattern.places, pattern.fabrics, band, depth, gauge, repeat),
                    rows=rows), problems


def _holes(own: _Counted, measures: Mapping[str, Quantity]
           ) -> tuple[Count | None, Placing | None, list[Problem]]:
    """A hole's stitches and where the holes go; None where there are none, or they are refused."""
    if own.band.buttonholes is None:
        return None, None, []
    from .band_holes import edge_in_hole, plan_holes
    from .hole_ground import ground_of
    hole, placing, problems = plan_holes(ground_of(
        own.pattern.places, own.band, own.size, own.edge_path, own.meetings, own.gauge, own.rows,
        measures))
    if placing is not None and not runs_along(own.band):
        problems += edge_in_hole(own.pattern.places, own.band, own.size, own.body, own.gauge,
                                 own.rows)
    return hole, placing, problems


def _finished(own: _Counted, hole: Count | None, placing: Placing | None, stitches: Count
              ) -> tuple[BandPlan | None, list[Problem]]:
    """The plan, with a collar's points, a facing, a casing's channel and a mitre."""
    pattern, band, size, edge_path = own.pattern, own.band, own.size, own.edge_path
    gauge, depth = own.gauge, own.depth
    meetings = resized(own.meetings, stitches.value, made=stitches.term(Role.NUMBER))
    collar, problems = part_planners.plan_collar(
        pattern.places, band, size, meetings, gauge, depth) \
        if KINDS[band.kind].collar else (straight(band.dial, depth.value), [])
    problems = list(problems)
    facing = None
    if band.facing_fabric:
        from .facings import plan_facing
        facing, found = plan_facing(pattern.places, pattern.fabrics, band, size, stitches, depth,
                                    gauge)
        problems += found
    if KINDS[band.kind].faces:
        from .facing_stretch import stretched
        problems += stretched(pattern.places, band, size, edge_path, own.deep.value)
    casing, found = part_planners.plan_casing(
        pattern.places, band, size, edge_path, meetings, gauge, own.rows) \
        if band.cord else (CasingPlan(free=not edge_path.ring), [])
    problems += [*found, *too_deep(pattern.places, pattern.edges, band, size, own.deep.value)]
    if collar is None or casing is None or has_errors(problems):
        return None, problems
    turns = part_planners.turns_of(edge_path, meetings, stands=KINDS[band.kind].stands) \
        if band.mitre else None
    mitre = part_planners.plan_mitre(turns, stitches, gauge, depth) if turns else None
    return BandPlan(band=band, size=size, edge_path=edge_path, meetings=meetings, mitre=mitre,
                    edge_rows=_places(edge_path), by_edge=all_stitches(own.meetings),
                    stitches=stitches,
                    pick_up=as_one(meetings), gauge=gauge, rows=own.rows, depth=depth,
                    deep=own.deep, hole=hole, placing=placing, collar=collar, casing=casing,
                    facing=facing, repeat=arranged(pattern.fabrics, pattern.edges, band)), problems


def _places(edge_path: EdgePath) -> Count:
    """Everything that can be hung along the edge."""
    if len(edge_path.sections) == 1:
        return Count(edge_path.sections[0].taken, Unit.ROWS)
    note = Note.BY_SECTIONS if all(s.is_straight_rows for s in edge_path.sections) else \
        Note.AND_STITCHES
    return Count(Noted(Sum(tuple(Term(s.taken, Role.NUMBER) for s in edge_path.sections)), note),
                 Unit.ROWS)


def _with_holes(by_edge: Count, placing: Placing | None) -> Count:
    if placing is None:
        return by_edge
    if placing.stitches == by_edge.value:  # a search for other holes could take more, or fewer
        return by_edge if placing.fixed else Count(Branched(by_edge.made), by_edge.unit)
    return Count(sought(by_edge.made, filled(placing), placing.spec, lambda one: one.stitches,
                        ChoiceReason.BUTTONHOLES), by_edge.unit)


def finished_depth(pattern: Pattern, band: Band, size: str) -> Expression:
    """The depth a band will have in `size` [mm], before its edge is known."""
    fabric = band.fabric or edge_fabric(pattern.garment, pattern.edges, band)
    gauge = measure(pattern.fabrics[fabric].swatches)
    if runs_along(band):
        repeat = arranged(pattern.fabrics, pattern.edges, band)
        wide, _, _ = width_stitches(pattern.places, pattern.fabrics, band, size, gauge, repeat)
        return seen_width(pattern.places, pattern.fabrics, band, wide, gauge, repeat)
    depth, _, _ = layer_rows(pattern.places, band, size, gauge)
    return _rows_deep(depth, gauge)


def _rows_deep(depth: Count, gauge: Gauge) -> Expression:
    """How deep the rows of a layer are [mm]."""
    return depth.term(Role.ROWS) * Operand(gauge.row, Role.ROW_HEIGHT)
