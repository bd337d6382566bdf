"""A folded band in one size, in whole stitches and rows: what the program is made from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import Unit, decimal
from ..core.expression import Chosen, Noted, Rule, Sum, Term, plain
from ..core.operands import Note, Reason, Role
from ..core.problems import Place, Problem, Severity, error, has_errors, note
from ..fabric.arrangement import needles_taken
from ..fabric.gauge import Gauge, measure
from ..machine.steps import Dial
from ..pattern.fabrics import Repeat
from ..pattern.holes import Closing
from ..pattern.model import Band, BandRows, Pattern
from ..shape.edging import EdgePath
from ..sizing.quantities import Quantity
from .arranged import arranged, edge_fabric, not_closed, rounded_to, stitches_apart
from .band_holes import edge_in_hole, plan_holes
from .buttonholes import Placing
from .casings import CasingPlan, plan_casing
from .closings import slit_rows
from .collars import CollarPlan, plan_collar
from .facings import FacingPlan, plan_facing, too_far_off
from .graded import row_dials
from .hole_ground import HoleGround
from .hole_joins import grow_below, joins_along
from .layers import fold_rows, layer_rows
from .meeting import Meeting, Rate, all_stitches, as_one, meet, resized
from .mitres import MitrePlan, plan_mitre
from .own_edges import edge_place as own_edge_place
from .pickup import PickUp
from .zips import check_zip


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Which part of a band this is: the `number` from 1, `of` how many, and where it is cut.

    `first` and `last` say what is at either end, "" where that is the band's own; `buttons` are
    those of the whole band.
    """

    number: int
    of: int
    first: str
    last: str
    buttons: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPlan:
    """One band in one size.

    `run` is the edge, `meetings` how the band takes it section by section, `pick_up` all of
    them as one. `edge_rows` and `stitches` are the garment's and the band's; `by_edge` the
    stitches before the holes asked for more or fewer. `gauge` is the band's own, or the one
    its rule implies, and `repeat` its needles in and out of work where not all are in.
    `hole` and `placing` are None where there are no buttonholes. A band longer than the bed is
    knitted in `parts`, plans of their own with a stitch for every join; `part` says which it is.
    """

    band: Band
    size: str
    run: EdgePath
    meetings: tuple[Meeting, ...]
    edge_rows: Count
    by_edge: Count
    stitches: Count
    pick_up: PickUp
    gauge: Gauge
    rows: BandRows
    depth: Count
    hole: Count | None
    placing: Placing | None
    collar: CollarPlan
    mitre: MitrePlan | None = None
    casing: CasingPlan = field(default_factory=CasingPlan)
    facing: FacingPlan | None = None
    repeat: Repeat | None = None
    parts: tuple[BandPlan, ...] = ()
    part: Part | None = None

    @property
    def widest(self) -> int:
        """The most needles it ever takes up, with a collar's points or a facing [needles]."""
        behind = self.facing.stitches.value if self.facing else 0
        taken = needles_taken(self.stitches.value, self.repeat)
        return max(behind, taken + 2 * self.collar.points)

    @property
    def strips(self) -> tuple[BandPlan, ...]:
        """What is knitted one by one: the parts, or the whole."""
        return self.parts or (self,)

    @property
    def buttons(self) -> int:
        """How many buttons the whole band has."""
        if self.part:
            return self.part.buttons
        return self.placing.holes if self.placing else 0

    @property
    def joins(self) -> tuple[int, int]:
        """The stitches for a join at the first end and at the last [stitches]."""
        return (int(bool(self.part.first)), int(bool(self.part.last))) if self.part else (0, 0)

    @property
    def fold_rows(self) -> Count:
        """The rows the fold itself takes [rows]: a picot is made by transfers and takes none."""
        return fold_rows(self.band.fold)

    @property
    def row_dials(self) -> tuple[Dial, ...]:
        """The dial of each row of a layer, from the garment's edge to the fold."""
        return row_dials(self.band.dials or (self.band.dial,), self.depth.value)

    @property
    def closing_loops(self) -> Count:
        """Loops on each hole's upper edge: n stitches inside a fabric offer n + 1 (D04)."""
        n = self.placing.hole if self.placing else 0
        asked = self.band.buttonholes
        if not n or not asked or asked.closing is not Closing.ENCLOSED:
            return Count(Noted(plain(0), Note.NO_LOOPS), Unit.LOOPS)
        return Count(Noted(plain(n) + plain(1), Note.HOLE_OFFERS, (Unit.STITCHES.of(n),)),
                     Unit.LOOPS)

    @property
    def slit(self) -> Count | None:
        """The rows of a slit, None where the band has none."""
        asked = self.band.buttonholes
        if self.casing.slit:
            return self.casing.slit
        if asked is None or asked.closing is not Closing.SLIT:
            return None
        return slit_rows(asked.button, self.gauge.row)

    @property
    def closing_gaps(self) -> tuple[int, ...]:
        """Needles left between the hung edges of neighbouring holes [needles]."""
        return tuple(g - 1 for g in self.placing.gaps) if self.placing else ()


def plan_band(pattern: Pattern, band: Band, size: str, run: EdgePath,
              measures: Mapping[str, Quantity] | None = None
              ) -> tuple[BandPlan | None, tuple[Problem, ...]]:
    """Return the band's plan in `size` along an edge, with its findings; None where refused.

    `measures` are the garment's, by which its buttonholes may be placed.
    """
    fabric = edge_fabric(pattern, band)
    body = measure(pattern.fabrics[fabric].swatches)
    own = measure(pattern.fabrics[band.fabric].swatches) if band.fabric is not None else None
    rate = Rate(body=body, gauge=own, rule=band.pick_up, ease=band.ease,
                one_for_one=not KINDS[band.kind].faces or bool(arranged(pattern, band)))
    gauge = own or Gauge(rate.stitch, body.row, "from the pick-up rule")
    problems = [] if own else [_unswatched(pattern, band, fabric)]
    repeat = arranged(pattern, band)
    rounding, misfit = rounded_to(pattern, band, repeat)
    problems += [*misfit, *stitches_apart(pattern, band, size, run)]
    if has_errors(problems):
        return None, tuple(problems)
    meetings = meet(run, rate, rounding)
    by_edge = all_stitches(meetings)
    depth, split, found = layer_rows(pattern, band, size, gauge)
    problems += found + (too_far_off(pattern, band, size, meetings) if not rate.one_for_one else [])
    if by_edge.value < 3:
        problems.append(error(
            "band-too-short", edge_place(pattern, band, size), size=size,
            found=f"an edge of {Unit.ROWS.of(run.places)}, which gives the band {by_edge}",
            expected="at least 3 stitches", remedy="Check the edge's length."))
    if len(band.dials) > depth.value:
        problems.append(error(
            "too-many-dials", pattern.place(f"bands.{band.key}.dials"), size=size,
            found=f"{len(band.dials)} settings for {depth} a layer",
            expected="at least a row for every setting",
            remedy="Leave settings out, or give the band more depth."))
    if band.mitre and run.corner is None:
        problems.append(error(
            "no-corner", pattern.place(f"bands.{band.key}.mitre"), size=size,
            found=f"a mitre along {run.title}", expected="the neck of a pullover with a v neck, "
            "whose two sides meet in a point",
            remedy="Leave the mitre out, or write neck: v."))
    if split is None or has_errors(problems):
        return None, tuple(problems)
    hole, placing = None, None
    if band.buttonholes is not None:
        hole, placing, found = plan_holes(_ground(pattern, band, size, run, meetings, gauge,
                                                  split, measures or {}))
        problems += found
        if placing is None:
            return None, tuple(problems)
        problems += edge_in_hole(pattern, band, size, body, gauge, split)
    stitches = _with_holes(by_edge, placing)
    problems += not_closed(pattern, band, size, stitches.value)
    problems += _fit(pattern, band, size, stitches, run, gauge)
    problems += check_zip(pattern, band, size, stitches.value * gauge.stitch)
    meetings = resized(meetings, stitches.value)
    collar, found = plan_collar(pattern, band, size, meetings, gauge, depth.value)
    problems += found
    facing, found = plan_facing(pattern, band, size, stitches.value, depth.value, gauge)
    problems += found
    casing, found = plan_casing(pattern, band, size, run, meetings, gauge, split)
    problems += found
    if collar is None or casing is None or has_errors(problems):
        return None, tuple(problems)
    mitre = plan_mitre(run.corner, meetings, gauge, depth.value) \
        if band.mitre and run.corner else None
    return BandPlan(band=band, size=size, run=run, meetings=meetings, mitre=mitre,
                    edge_rows=_places(run), by_edge=by_edge, stitches=stitches,
                    pick_up=as_one(meetings), gauge=gauge, rows=split, depth=depth, hole=hole,
                    placing=placing, collar=collar,
                    casing=casing, facing=facing, repeat=repeat), tuple(problems)


def _ground(pattern: Pattern, band: Band, size: str, run: EdgePath, meetings: Sequence[Meeting],
            gauge: Gauge, rows: BandRows, measures: Mapping[str, Quantity]) -> HoleGround:
    """What the band offers its buttonholes: of one from hem to hem, one front's edge alone."""
    by_edge = all_stitches(meetings)
    among = meetings[:run.fronts] if run.fronts else meetings
    within, joins = all_stitches(among), joins_along(run, among)
    asked = band.buttonholes
    assert asked is not None
    opens = band.garment_edge == "neck" and not run.ring
    return HoleGround(
        pattern=pattern, band=band, size=size, gauge=gauge, rows=rows, along=within,
        beyond=by_edge.value - within.value, measures=measures, joins=joins,
        grows_below=grow_below(joins, among), sewn=_ends_sewn(band, run),
        only_on=asked.front if opens else None)


def _ends_sewn(band: Band, run: EdgePath) -> bool:
    """True where a seam takes the band's ends, or they are sewn shut, or to a placket's foot."""
    return run.ring or KINDS[band.kind].ends_sewn or band.garment_edge == "placket"


TIGHTEST, WAVIEST = Fraction(12, 100), Fraction(4, 100)  # common practice, no source


def _fit(pattern: Pattern, band: Band, size: str, stitches: Count, run: EdgePath, gauge: Gauge
         ) -> list[Problem]:
    """A band much shorter than its edge pulls, one much longer waves."""
    if band.fabric is None:
        return []  # a rule says nothing of the band's own length
    length = stitches.value * gauge.stitch
    share = 1 - length / run.length
    if -WAVIEST <= share <= TIGHTEST:
        return []
    tight = share > 0
    at = pattern.place(f"bands.{band.key}.{'ease' if band.ease else 'edge'}")
    return [note(Severity.WARNING, "band-too-tight" if tight else "band-wavy", at, size=size,
                 found=f"a band of {stitches}, {decimal(length / 10, 1)} cm, on an edge of "
                       f"{decimal(run.length / 10, 1)} cm: {decimal(abs(share) * 100, 1)} % "
                       f"{'shorter' if tight else 'longer'}",
                 expected=f"at most {decimal(TIGHTEST * 100, 0)} % shorter or "
                          f"{decimal(WAVIEST * 100, 0)} % longer",
                 remedy="Change ease, or the way its stitches are rounded.")]


def edge_place(pattern: Pattern, band: Band, size: str) -> Place:
    """Where the source says what a band's edge is in `size`."""
    if band.edge not in pattern.edges:
        return pattern.place(f"bands.{band.key}.edge")
    return own_edge_place(pattern, pattern.edges[band.edge], size)


def _places(run: EdgePath) -> Count:
    """Everything that can be hung along the edge."""
    if len(run.sections) == 1:
        return Count(run.sections[0].taken, Unit.ROWS)
    note = Note.BY_SECTIONS if all(s.is_straight_rows for s in run.sections) else \
        Note.AND_STITCHES
    return Count(Noted(Sum(tuple(Term(s.taken, Role.NUMBER) for s in run.sections)), note),
                 Unit.ROWS)


def _unswatched(pattern: Pattern, band: Band, fabric: str) -> Problem:
    return note(Severity.REMARK, "band-not-swatched", pattern.place(f"bands.{band.key}.pick_up"),
                found="a pick-up rule and no swatch of the band",
                expected="a swatched band fabric for a count that is measured",
                remedy="Depth and holes are counted as if the band had the row height of fabric "
                       f"{fabric}: swatch the band to be sure.")


def _with_holes(by_edge: Count, placing: Placing | None) -> Count:
    if placing is None or placing.stitches == by_edge.value:
        return by_edge
    return Count(Chosen((by_edge.made, placing.filled), Rule.LAST, Reason.BUTTONHOLES),
                 Unit.STITCHES)


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
                "bed-too-short", edge_place(pattern, band, plan.size), size=plan.size,
                found=f'band "{band.key}" of {_room(plan)} on a bed of {needles} needles',
                expected=f"at most {needles} stitches: {short} needles short",
                remedy=f"{largest} {_way_out(pattern, band)}"))
    return problems


def _room(plan: BandPlan) -> str:
    points = plan.collar.points
    if plan.repeat:
        return f"{plan.widest} needles, {plan.widest - plan.stitches.value} of them left out of " \
            "work,"
    return f"{plan.widest} stitches, {points} of them a point at each end," if points else \
        str(plan.stitches)


def _way_out(pattern: Pattern, band: Band) -> str:
    """A band is cut where two sections of its edge meet, or at the centre back."""
    thicker = "Use a thicker yarn or a bed with more needles"
    if band.collar.points or band.collar.back_depth:
        return f"{thicker}; a collar with points or short rows is knitted in one, and only one " \
            "without them can be cut."
    if band.facing_fabric:
        return f"{thicker}; a band whose stitches change at its fold is knitted in one."
    if arranged(pattern, band):
        return f"{thicker}; a band with needles left out of work is knitted in one."
    if band.edge in pattern.edges and not pattern.edges[band.edge].sections:
        return f"{thicker}, or give the edge in sections: the band is then cut where two meet."
    return f"{thicker}; there is no place where the band could be cut in parts that fit."


def depth_mm(plan: BandPlan) -> Fraction:
    """The finished depth of the folded band [mm]: one layer's rows."""
    return plan.depth.value * plan.gauge.row


def finished_depth(pattern: Pattern, band: Band, size: str) -> Fraction:
    """The depth a band will have in `size` [mm], before its edge is known."""
    fabric = band.fabric or edge_fabric(pattern, band)
    gauge = measure(pattern.fabrics[fabric].swatches)
    depth, _, _ = layer_rows(pattern, band, size, gauge)
    return depth.value * gauge.row
