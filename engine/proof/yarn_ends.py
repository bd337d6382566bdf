"""The yarn that no counted stitch holds: ends cut long, and edges made by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..catalogue.edge_roles import EdgeRole, role_of
from ..catalogue.methods import (
    BIND_OFF_METHODS,
    BY_HAND,
    CAST_ON_METHODS,
    DRAWN,
    LATCH_OFF,
    SEWN,
    hands_long,
    longer,
)
from ..core.counted import Reckoned
from ..core.expression import NOTHING, Expression, Operand, Sum, plain
from ..core.operands import Role
from ..core.units import Length
from ..machine import edge_steps, steps
from ..machine.programs import Program
from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.step_keys import STRIPE_YARNS, CastOnMethod, StepYarn, Topic
from ..machine.two_yarn_steps import ThreadContrast
from ..pattern.band_places import place_in
from ..plan.band import UNSEWN, BandPlan
from ..plan.hole_sizes import loop_made
from ..program.band_steps import AT_FOLD
from .proof import KnittedPiece, Strip

# Common practice, no source, where none is named; the technique pages tell the same.
RAVEL, CLOSING, LAST_ROW, HOLE = 6, 4, 8, 4  # times the width on the bed
# Times a seam's length: "Sewn hem", victoriamarchantknits.com; for a sewn row Diana Sullivan,
# "Mobius scarf: waste knitting", 2015. Mattress stitch takes less (a publisher's lesson: twice).
SEAM = 3
OVERCAST = 6  # times the edge that is closely overcast: common practice, no source
IN_A_ROW = 3  # of the end for a row knitted by hand: its stitches, which the bed counts
NO_WIDTH = (Fraction(0), 0)
_TAKES = {steps.Thread, steps.CastOn, steps.HandKnit, edge_steps.BindOff, edge_steps.TakeOff}


Widths = Counter[Fraction]
"""Needles on the bed, by how many times as long as they are wide a length of yarn is [needles]."""

SeamLengths = tuple[tuple[int, Expression], ...]
"""How many lengths there are that are alike, and how long one is [mm]."""


@dataclass(frozen=True, slots=True)
class YarnEnds:
    """Yarn by its length: the `widths` on the bed that it is laid along, the `tails` of its ends,
    and what is `along` edges that are measured."""

    widths: Widths
    tails: int
    along: SeamLengths = ()

    def length(self, pitch: Length) -> Length:
        """The whole length on a bed of this pitch."""
        return Length(cut_of([(self, 1)], Operand(pitch.mm, Role.PITCH)).value)


def cut_of(ends: Iterable[tuple[YarnEnds, int]], pitch: Operand) -> Expression:
    """Return all the yarn of such ends [mm], each with how many times it is cut; from needle to
    needle it is a `pitch` [mm]."""
    widths, tails, along = Widths(), 0, list[Expression]()
    for each, times in ends:
        for factor, needles in each.widths.items():
            widths[factor] += needles * times
        tails += each.tails * times
        along += [_alike(many * times, one) for many, one in each.along]
    laid = [longer(factor, Operand(Fraction(needles), Role.NEEDLES_LAID))
            for factor, needles in sorted(widths.items()) if factor and needles]
    parts = [added(laid) * pitch] if laid else []
    return added([*parts, *([hands_long(tails)] if tails else []), *along])


def added(parts: Sequence[Expression]) -> Expression:
    """Return the sum of parts; of one, itself, and of none, nothing."""
    return NOTHING if not parts else parts[0] if len(parts) == 1 else Sum(tuple(parts))


def _alike(many: int, one: Expression) -> Expression:
    return one if many == 1 else Operand(Fraction(many), Role.ENDS_CUT) * one


def ends_of_piece(knitted: KnittedPiece) -> Mapping[StepYarn, YarnEnds]:
    """Return what a piece takes besides its counted stitches, knitted once, by the names that its
    steps give the yarns."""
    piece = knitted.piece
    sewn, wider = piece.bind_off_method == SEWN.name, piece.bound_off_to
    widths, feeder = {StepYarn.MAIN: Widths()}, StepYarn.MAIN
    for step in (step for step in knitted.program.steps if type(step) in _TAKES):
        if isinstance(step, steps.Thread) and step.yarn in (StepYarn.MAIN, *STRIPE_YARNS):
            feeder = step.yarn
        factor, needles = _of_piece(step, sewn and wider is None)
        if factor and needles:
            widths.setdefault(feeder, Widths())[factor] += needles
    widths[StepYarn.MAIN][DRAWN.yarn] += piece.needles.across * piece.drawn_below
    along = ((1, longer(SEWN.yarn, wider.made)),) if sewn and wider else ()
    feet = sum(step.reason is Reason.FOOT_OF_PLACKET
               for step in knitted.program.of(edge_steps.BindOff))
    return _ends(knitted.program, widths, along, spare=feet)


def ends_of_band(strip: Strip) -> Mapping[StepYarn, YarnEnds]:
    """Return what a band takes besides its counted stitches, for one front, by its yarns' names.

    Buttonholes of two layers are closed with one spare end, as long as the band asks; those of a
    single layer each with a separate end, which casts on again as well. What closes its short
    ends is cut for each (`closing_ends`).
    """
    program, needles = strip.program, strip.layout.needles.across
    widths, feeder = {StepYarn.MAIN: Widths(), StepYarn.FACING: Widths()}, StepYarn.MAIN
    for step in (step for step in program.steps if type(step) in _TAKES):
        if isinstance(step, steps.Thread) and step.yarn in widths:
            feeder = step.yarn
        factor, across = _of_band(step)
        if factor and across:
            yarn = step.yarn if isinstance(step, steps.HandKnit | edge_steps.BindOff) else feeder
            widths[yarn if yarn in widths else feeder][factor] += across
    holes = [step for step in program.of(edge_steps.BindOff) if step.keep_last]
    own = [s for s in holes if s.layers == 1]
    if len(holes) > len(own):
        widths[StepYarn.MAIN][Fraction(CLOSING)] += needles
    widths[StepYarn.MAIN][CLOSING + BY_HAND.yarn] += sum(len(s.needles) for s in own)
    cut = ends_cut(strip)
    return _ends(program, widths, cut, spare=len(own) + sum(many for many, _ in cut))


def ends_cut(strip: Strip) -> SeamLengths:
    """Return the lengths that are cut to sew a band's short ends shut, to join its part to the one
    before, and to sew round holes, slits, eyelets and loops, each without its tails.
    """
    plan, cut = strip.plan, list[tuple[int, Reckoned]]()
    attended = [step.to for step in strip.program.of(steps.Attend)]
    holes = plan.placing.buttonhole_count if plan.placing else 0
    for to in attended:
        match to:
            case Topic.SEW_ENDS:
                cut.append((shut_here(plan), short_end(plan)))
            case Topic.JOIN_PARTS:
                cut.append((1, joining_end(plan)))
            case Topic.SEW_SLITS:  # the one slit of each layer beside which no end hangs
                cut.append((attended.count(Topic.CHOOSE_SLITS), slit_end(plan)))
            case Topic.JOIN_SLITS:
                cut.append((holes, slit_end(plan)))
            case Topic.OVERCAST_HOLES:
                cut.append((holes, eyelet_end(plan)))
            case Topic.SEW_ROUND_HOLES | Topic.JOIN_HOLES:
                cut.append((holes, hole_end(plan)))
            case Topic.SEW_ON_BAND:
                cut.append((KINDS[plan.band.kind].layers, sewing_end(plan)))
            case Topic.OVERCAST_CORD_EYELETS:
                cut.append((len(plan.casing.openings), eyelet_end(plan)))
            case Topic.MAKE_LOOPS:
                cut.append((holes, loop_end(plan)))
    return tuple((many, one.made) for many, one in cut if many)


def short_end(plan: BandPlan) -> Reckoned:
    """Return what sews along one short end of a band, without tails: three times its depth."""
    return Reckoned(longer(SEAM, plan.deep))


def joining_end(plan: BandPlan) -> Reckoned:
    """Return what sews a part's end to the part before, layer by layer, without tails."""
    layers = KINDS[plan.band.kind].layers
    one = short_end(plan)
    return one if layers == 1 else Reckoned(plain(layers) * one.made)


def sewing_end(plan: BandPlan) -> Reckoned:
    """Return what sews one edge of a band to the garment, without tails: three times the edge."""
    return Reckoned(longer(SEAM, added([section.long for section in plan.edge_path.sections])))


def ring_ends(strips: Sequence[Strip]) -> Mapping[str, Reckoned]:
    """Return what sews the two ends of each band round a neck or an own piece to each other, by the
    band's key, and of a neck's facing its last stitches down as well: without its two tails."""
    return {s.plan.band.key: _ring_end(s.plan) for s in strips
            if s.plan.edge_path.ring and role_of(s.plan.band.garment_edge) in _OWN_END}


_OWN_END = (EdgeRole.NECK, EdgeRole.OUTLINE)


def _ring_end(plan: BandPlan) -> Reckoned:
    joining = joining_end(plan)
    if not KINDS[plan.band.kind].faces or role_of(plan.band.garment_edge) is not EdgeRole.NECK:
        return joining
    last = plain(2) * Operand(Fraction(UNSEWN), Role.STITCHES) \
        * Operand(plan.gauge.stitch, Role.STITCH_WIDTH)
    return Reckoned(joining.made + longer(SEWN.yarn, last))


def slit_end(plan: BandPlan) -> Reckoned:
    """Return what sews along a slit, or its foot and head, without tails: three times its length.

    Common practice, no source.
    """
    assert plan.slit is not None
    return Reckoned(longer(SEAM, plan.slit.term(Role.ROWS) * _row(plan.gauge.row)))


def eyelet_end(plan: BandPlan) -> Reckoned:
    """Return what overcasts an eyelet closely, without tails: six times the edge round it, which
    is a stitch wide and two rows high. Common practice, no source.
    """
    return _round(plan, plain(1))


def hole_end(plan: BandPlan) -> Reckoned:
    """Return what goes round a hole of one stitch or two in buttonhole stitch, without tails: six
    times its edge, two rows high. Common practice, no source.
    """
    assert plan.placing is not None and plan.hole is not None
    return _round(plan, plan.hole.term(Role.STITCHES))


def _round(plan: BandPlan, stitches: Expression) -> Reckoned:
    own = plan.gauge.turned if plan.is_lengthwise else plan.gauge
    half = stitches * Operand(own.stitch, Role.STITCH_WIDTH) + plain(2) * _row(own.row)
    return Reckoned(longer(OVERCAST, plain(2) * half))


def _row(high: Fraction) -> Operand:
    return Operand(high, Role.ROW_HEIGHT)


def loop_end(plan: BandPlan) -> Reckoned:
    """Return what chains a loop and works back over it, without tails: ten times its length.

    Common practice, no source: four for a chain, six for the stitches over it.
    """
    assert plan.band.buttonholes is not None
    long = loop_made(plan.band.buttonholes.button, place_in(plan.band, "buttonholes.button"))
    return Reckoned(longer(LATCH_OFF.yarn + OVERCAST, long))


def shut_here(plan: BandPlan) -> int:
    """Return how many short ends a band's own steps sew shut: none where both meet in a seam."""
    return 0 if plan.edge_path.ring else 2 - sum(plan.joins)


def _ends(program: Program, widths: Mapping[StepYarn, Widths], along: SeamLengths = (),
          spare: int = 0) -> Mapping[StepYarn, YarnEnds]:
    """The widths of every yarn with both ends of every new end of it; none where there is none.

    What is sewn `along` edges, and every `spare` end, is of the main yarn.
    """
    ends = _tails(program)
    tails = {name: ends[name] + 2 * spare * (name == StepYarn.MAIN)
             for name in dict.fromkeys((*widths, *STRIPE_YARNS, StepYarn.CONTRAST))}
    laid = {name: +own for name, own in widths.items()}
    return {name: YarnEnds(laid.get(name, Widths()), number, along if name == StepYarn.MAIN else ())
            for name, number in tails.items() if number or laid.get(name)}


def _of_piece(step: steps.Step, sewn: bool) -> tuple[Fraction, int]:
    """How many times the width of its needles a step takes for an edge, and how many these are."""
    match step:
        case steps.CastOn(method=method) if method is not CastOnMethod.WASTE_START:
            return CAST_ON_METHODS[method].yarn, step.needles.across
        case edge_steps.BindOff():
            return BIND_OFF_METHODS[step.method].yarn, step.needles.across
        case edge_steps.TakeOff(reason=Reason.DRAWN_UP):
            return DRAWN.yarn, step.needles.across
        case edge_steps.TakeOff() if sewn:
            return SEWN.yarn, step.needles.across
    return NO_WIDTH


def _of_band(step: steps.Step) -> tuple[Fraction, int]:
    """The same of a step of a band."""
    match step:
        case steps.HandKnit(cord="", yarn=yarn) if yarn in (StepYarn.MAIN, StepYarn.FACING):
            return Fraction(LAST_ROW - IN_A_ROW), step.needles.across
        case edge_steps.BindOff(keep_last=False):
            return BIND_OFF_METHODS[step.method].yarn, step.needles.across
        case edge_steps.TakeOff(edge=edge) if edge != AT_FOLD:
            return SEWN.yarn, step.needles.across
    return NO_WIDTH


def _tails(program: Program) -> Counter[StepYarn]:
    """Both ends of every new end of each yarn."""
    threads: tuple[steps.Thread | ThreadContrast, ...] = (
        *program.of(steps.Thread), *program.of(ThreadContrast))
    return Counter(step.yarn for step in threads for _ in range(2 * step.fresh))
