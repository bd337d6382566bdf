"""Findings about a band as a whole: too short, too tight, too long for the bed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS, Making
from ..catalogue.edge_roles import EdgeRole, role_of
from ..core.counted import Count
from ..core.counts import Unit, decimal
from ..core.problems import Place, Problem, Severity, error, note
from ..core.ranges import DEPTHS
from ..core.text_kinds import FindingText
from ..core.units import read_length
from ..fabric.gauge import Gauge
from ..pattern.edges import EdgeShape, EdgeSpec
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, Pattern
from ..pattern.places import Places
from ..shape.corners import feet, squares
from ..shape.edge_path import EdgePath
from . import part_planners
from .arranged import arranged
from .band import BandPlan
from .own_edges import edge_place as own_edge_place

TIGHTEST, WAVIEST = Fraction(12, 100), Fraction(4, 100)  # common practice, no source

ALWAYS_MEANT = 2  # stitches off which rounding alone can be; common practice, no source


def edge_place(places: Places, edges: Mapping[str, EdgeSpec], band: Band, size: str) -> Place:
    """Where the source says what a band's edge is in `size`."""
    if band.edge not in edges:
        return places.of(f"bands.{band.key}.edge")
    return own_edge_place(places, edges[band.edge], size)


def unswatched(places: Places, band: Band, fabric: str) -> Problem:
    return note(Severity.REMARK, "band-not-swatched", places.of(f"bands.{band.key}.pick_up"),
                found="a pick-up rule", expected="a swatch of the band",
                remedy=f"Its rows are counted as those of fabric {fabric}.")


def unsound(places: Places, edges: Mapping[str, EdgeSpec], band: Band, size: str,
            edge_path: EdgePath, *, stitches: Count, depth: Count) -> list[Problem]:
    """Return errors for a band of too few stitches, of more settings than rows, or with a mitre
    where there is no corner."""
    problems = []
    if stitches.value < 3:
        problems.append(error(
            "band-too-short", edge_place(places, edges, band, size), size=size,
            found=f"an edge of {Unit.ROWS.of(edge_path.places)}, which gives the band {stitches}",
            expected="at least 3 stitches", remedy="Check the edge's length."))
    if len(band.dials) > depth.value:
        problems.append(error(
            "too-many-dials", places.of(f"bands.{band.key}.dials"), size=size,
            found=f"{len(band.dials)} settings for {depth} a layer",
            expected="at least a row for every setting",
            remedy="Leave settings out, or give the band more depth."))
    if KINDS[band.kind].making is Making.ENCLOSING and any(s.turns for s in edge_path.sections):
        problems.append(error(
            "band-on-held-neck", places.of(f"bands.{band.key}.kind"), size=size,
            found=f"an {band.kind} band along {edge_path.title}, which is held: its needles are "
                  "full when the neck is hung, and none is left for the loops at its steps",
            expected="a band that is knitted onto the neck",
            remedy="Write kind: folded or kind: single, or have the neck's sides bound off."))
    if band.mitre and not part_planners.can_turn(edge_path):
        problems.append(error(
            "no-corner", places.of(f"bands.{band.key}.mitre"), size=size,
            found=f"a mitre along {edge_path.title}", expected="an edge that turns: the neck of a "
            "pullover with a v, square or boat neck, or front_and_neck of a round neck",
            remedy="Leave the mitre out, or write neck: v or neck: square."))
    return problems


_DEPTH_OF: dict[EdgeRole, FindingText] = {
    EdgeRole.FRONT: "depth of a front band", EdgeRole.AROUND: "depth of a front band",
    EdgeRole.PLACKET: "depth of a placket's band",
    EdgeRole.POCKET: "depth of a pocket's band",
    EdgeRole.ARMHOLE: "depth of an armhole's band"}
_OWN_ROLES = {EdgeShape.FRONT: EdgeRole.FRONT, EdgeShape.AROUND: EdgeRole.AROUND}


def too_deep(places: Places, edges: Mapping[str, EdgeSpec], band: Band, size: str, deep: Fraction
            ) -> list[Problem]:
    """Return a warning for a band deeper than is plausible on its edge.

    The depth is that of the source, or what its rows come to, `deep` [mm].
    """
    deep = band.depth[size].mm if band.depth and size in band.depth else deep
    kind = KINDS[band.kind]
    own = edges.get(band.edge) if band.own_edge else None
    role = _OWN_ROLES.get(own.shape) if own and own.shape else role_of(band.garment_edge)
    name = _DEPTH_OF.get(role) if role else None
    if role is EdgeRole.NECK:
        name = "depth of a neckband" + (" of one layer" if kind.layers == 1 else "")
    if name is None or kind.collar or deep <= read_length(DEPTHS[name].high).mm:
        return []
    key = "rows" if band.rows else "depth"
    return [note(Severity.WARNING, "unlikely-value",
                 places.of(f"bands.{band.key}.{key}", size), size=size,
                 found=f'band "{band.key}", {decimal(deep / 10, 1)} cm deep',
                 expected=DEPTHS[name].usual, remedy="Check the figure and its unit.")]


def too_tight_or_wavy(places: Places, band: Band, size: str, stitches: Count, edge_path: EdgePath,
                      gauge: Gauge) -> list[Problem]:
    """Return a warning for a band much shorter than its edge, or longer: it pulls, or waves."""
    if band.fabric is None:
        return []  # a rule says nothing of the band's own length
    length = stitches.value * gauge.stitch
    share = 1 - length / edge_path.length
    if -WAVIEST <= share <= TIGHTEST:
        return []
    tight = share > 0
    at = places.of(f"bands.{band.key}.{'ease' if band.ease else 'edge'}")
    return [note(Severity.WARNING, "band-too-tight" if tight else "band-wavy", at, size=size,
                 found=f"a band of {stitches}, {decimal(length / 10, 1)} cm, on an edge of "
                       f"{decimal(edge_path.length / 10, 1)} cm: {decimal(abs(share) * 100, 1)} % "
                       f"{'shorter' if tight else 'longer'}",
                 expected=f"at most {decimal(TIGHTEST * 100, 0)} % shorter or "
                          f"{decimal(WAVIEST * 100, 0)} % longer",
                 remedy="Change ease, or the way its stitches are rounded.")]


def off_edge(places: Places, band: Band, size: str, given: Count, by_edge: Count) -> list[Problem]:
    """Return a caution where the count that the designer gives is as far from what the edge asks
    for as a band may be shorter or longer than its edge, or farther."""
    share = 1 - Fraction(given.value, by_edge.value)
    if -WAVIEST <= share <= TIGHTEST or abs(given.value - by_edge.value) < ALWAYS_MEANT:
        return []
    key = "rows_along" if KINDS[band.kind].lengthwise else "stitches"
    return [note(Severity.CAUTION, "count-against-edge", places.of(f"bands.{band.key}.{key}", size),
                 size=size, found=f"a band of {given} on an edge that asks for {by_edge}: "
                 f"{decimal(abs(share) * 100, 1)} % {'fewer' if share > 0 else 'more'}",
                 expected=f"at most {decimal(TIGHTEST * 100, 0)} % fewer or "
                          f"{decimal(WAVIEST * 100, 0)} % more",
                 remedy="Check the count, or leave it if you mean it.")]


def too_long_for_bed(pattern: Pattern, band: Band, plans: Sequence[BandPlan]) -> list[Problem]:
    """Return an error for every size whose band wants more needles than the bed has."""
    needles = pattern.bed.needles
    fitting = [p.size for p in plans if p.parts or p.widest <= needles]
    problems = []
    for plan in plans:
        short = plan.widest - needles
        if short > 0 and not plan.parts:
            largest = (f"The largest size that fits is {fitting[-1]}." if fitting
                       else "No size fits.")
            problems.append(error(
                "bed-too-short", edge_place(pattern.places, pattern.edges, band, plan.size),
                size=plan.size,
                found=f'band "{band.key}" of {_room(plan)} on a bed of {needles} needles',
                expected=f"at most {needles} stitches: {short} needles short",
                remedy=f"{largest} {_cut_remedy(pattern.fabrics, pattern.edges, plan)}"))
    return problems


def _room(plan: BandPlan) -> FindingText:
    points = plan.collar.points
    if plan.repeat:
        return f"{plan.widest} needles, {plan.widest - plan.stitches.value} of them left out of " \
            "work,"
    return f"{plan.widest} stitches, {points} of them a point at each end," if points else \
        str(plan.stitches)


def _cut_remedy(fabrics: Mapping[str, Fabric], edges: Mapping[str, EdgeSpec], plan: BandPlan
            ) -> FindingText:
    """A band is cut where two sections of its edge meet, or at the centre back."""
    band, thicker = plan.band, "Use a thicker yarn or a bed with more needles"
    if band.collar.points or band.collar.back_depth:
        return f"{thicker}; a collar with points or short rows is knitted in one, and only one " \
            "without them can be cut."
    if plan.mitre and not plan.mitre.turns.longer:
        return f"{thicker}, or leave the mitre out; a band whose stitches go or come at corners " \
            "is knitted in one."
    if band.facing_fabric:
        return f"{thicker}; a band whose stitches change at its fold is knitted in one."
    if feet(plan.edge_path.sections):
        return f"{thicker}; no band is cut at a hollow corner, whose loop belongs to both its " \
            "sides."
    if KINDS[band.kind].faces and squares(plan.edge_path.sections):
        return f"{thicker}, or choose kind: folded; a facing is not cut at a square corner, " \
            "whose loop and fold belong to both its sides."
    if arranged(fabrics, edges, band):
        return f"{thicker}; a band with needles left out of work is knitted in one."
    if band.edge in edges and not edges[band.edge].sections:
        return f"{thicker}, or give the edge in sections: the band is then cut where two meet."
    return f"{thicker}; there is no place where the band could be cut in parts that fit."
