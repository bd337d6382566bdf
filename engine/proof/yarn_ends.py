"""The yarn that no counted stitch holds: ends cut long, edges made by hand, and seams."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..catalogue.edge_roles import EdgeRole, role_of
from ..catalogue.methods import (
    BIND_OFFS,
    BY_HAND,
    CAST_ONS,
    DRAWN,
    GRAFT,
    HAND,
    LATCH_OFF,
    SEWN,
    STITCH_OVER,
    Method,
)
from ..catalogue.pocket_edges import LINING
from ..core.units import Length, length_cm
from ..fabric.gauge import Gauge
from ..machine import edge_steps, steps
from ..machine.programs import Program
from ..machine.reasons import Reason
from ..machine.two_yarn_steps import ThreadContrast
from ..plan.band import UNSEWN, BandPlan, depth_mm
from ..plan.hole_needs import loop_length
from ..program.band_steps import AT_FOLD, FACING, MAIN
from ..program.chart_actions import CONTRAST
from ..shape.garment import Join, Kindred
from ..shape.heights import height_of
from ..shape.piece import Piece
from ..shape.tasks import Seam
from ..words.terms.yarn_names import OTHER_YARNS
from .proof import KnittedPiece, Strip

# Common practice, no source, where none is named; the technique pages tell the same.
RAVEL, CLOSING, LAST_ROW, HOLE = 6, 4, 8, 4  # times the width on the bed
# Times a seam's length: "Sewn hem", victoriamarchantknits.com; for a sewn row Diana Sullivan,
# "Mobius scarf: waste knitting", 2015. Mattress stitch takes less (a publisher's lesson: twice).
SEAM = 3
OVERCAST = 6  # times the edge that is closely overcast: common practice, no source
IN_A_ROW = 3  # of the end for a row knitted by hand: its stitches, which the bed counts
NOTHING = length_cm(0)
NO_WIDTH = Fraction(0)
_TAKES = {steps.Thread, steps.CastOn, steps.HandKnit, edge_steps.BindOff, edge_steps.TakeOff}


@dataclass(frozen=True, slots=True)
class Ends:
    """Yarn by its length: `widths` on the bed [needles' pitches], the `tails` of its ends, and
    what is `along` an edge that is drawn out longer."""

    widths: Fraction
    tails: int
    along: Length = NOTHING

    def length(self, pitch: Length) -> Length:
        """The whole length on a bed of this pitch."""
        return Length(pitch.times(self.widths).mm + HAND.times(self.tails).mm + self.along.mm)


def ends_of_piece(knitted: KnittedPiece) -> Mapping[str, Ends]:
    """Return what a piece takes besides its counted stitches, knitted once, by the names that its
    steps give the yarns."""
    piece = knitted.piece
    sewn, longer = piece.bind_off_method == SEWN.name, piece.bound_off_to
    widths, feeder = {MAIN: NO_WIDTH}, MAIN
    for step in (step for step in knitted.program.steps if type(step) in _TAKES):
        if isinstance(step, steps.Thread) and step.yarn in (MAIN, *OTHER_YARNS):
            feeder = step.yarn
        if width := _of_piece(step, sewn and longer is None):
            widths[feeder] = widths.get(feeder, NO_WIDTH) + width
    widths[MAIN] += DRAWN.yarn * piece.needles.across * piece.drawn_below
    along = longer.times(SEWN.yarn) if sewn and longer else NOTHING
    feet = sum(step.reason is Reason.FOOT_OF_PLACKET
               for step in knitted.program.of(edge_steps.BindOff))
    return _ends(knitted.program, widths, along, spare=feet)


def ends_of_band(strip: Strip) -> Mapping[str, Ends]:
    """Return what a band takes besides its counted stitches, for one front, by its yarns' names.

    Buttonholes of two layers are closed with one spare end, as long as the band asks; those of a
    single layer each with a separate end, which casts on again as well. What closes its short
    ends is cut for each (`closing_ends`).
    """
    program, needles = strip.program, strip.layout.needles.across
    widths = {MAIN: NO_WIDTH, FACING: NO_WIDTH}
    feeder = MAIN
    for step in (step for step in program.steps if type(step) in _TAKES):
        if isinstance(step, steps.Thread) and step.yarn in widths:
            feeder = step.yarn
        if width := _of_band(step):
            yarn = step.yarn if isinstance(step, steps.HandKnit | edge_steps.BindOff) else feeder
            widths[yarn if yarn in widths else feeder] += width
    holes = [step for step in program.of(edge_steps.BindOff) if step.keep_last]
    own = [s for s in holes if s.layers == 1]
    if len(holes) > len(own):
        widths[MAIN] += CLOSING * needles
    widths[MAIN] += (CLOSING + BY_HAND.yarn) * sum(len(s.needles) for s in own)
    cut = closing_ends(strip)
    return _ends(program, widths, Length(sum((x.mm for x in cut), Fraction(0))),
                 spare=len(own) + len(cut))


def closing_ends(strip: Strip) -> tuple[Length, ...]:
    """Return the lengths that are cut to sew a band's short ends shut, to join its part to the one
    before, and to sew round holes, slits, eyelets and loops, each without its tails.
    """
    plan, cut = strip.plan, []
    attended = [step.to for step in strip.program.of(steps.Attend)]
    holes = plan.placing.holes if plan.placing else 0
    for to in attended:
        match to:
            case "sew ends":
                cut += [short_end(plan)] * shut_here(plan)
            case "join parts":
                cut.append(joining_end(plan))
            case "sew slits":  # the one slit of each layer beside which no end hangs
                cut += [slit_end(plan)] * attended.count("choose slits")
            case "join slits":
                cut += [slit_end(plan)] * holes
            case "overcast holes":
                cut += [eyelet_end(plan)] * holes
            case "sew round holes" | "join holes":
                cut += [hole_end(plan)] * holes
            case "sew on band":
                cut += [sewing_end(plan)] * KINDS[plan.band.kind].layers
            case "overcast cord eyelets":
                cut += [eyelet_end(plan)] * len(plan.casing.openings)
            case "make loops":
                cut += [loop_end(plan)] * holes
    return tuple(cut)


def short_end(plan: BandPlan) -> Length:
    """Return what sews along one short end of a band, without tails: three times its depth."""
    return Length(SEAM * depth_mm(plan))


def joining_end(plan: BandPlan) -> Length:
    """Return what sews a part's end to the part before, layer by layer, without tails."""
    return short_end(plan).times(KINDS[plan.band.kind].layers)


def sewing_end(plan: BandPlan) -> Length:
    """Return what sews one edge of a band to the garment, without tails: three times the edge."""
    return Length(SEAM * plan.run.length)


def ring_ends(strips: Sequence[Strip]) -> Mapping[str, Length]:
    """Return what sews the two ends of each band round a neck or an own piece to each other, by the
    band's key, and of a neck's facing its last stitches down as well: without its two tails."""
    return {s.plan.band.key: _ring_end(s.plan) for s in strips
            if s.plan.run.ring and role_of(s.plan.band.garment_edge) in _OWN_END}


_OWN_END = (EdgeRole.NECK, EdgeRole.OUTLINE)


def _ring_end(plan: BandPlan) -> Length:
    left = KINDS[plan.band.kind].faces and role_of(plan.band.garment_edge) is EdgeRole.NECK
    last = 2 * UNSEWN * plan.gauge.stitch * SEWN.yarn if left else 0
    return Length(joining_end(plan).mm + last)


def slit_end(plan: BandPlan) -> Length:
    """Return what sews along a slit, or its foot and head, without tails: three times its length.

    Common practice, no source.
    """
    assert plan.slit is not None
    return Length(SEAM * plan.slit.value * plan.gauge.row)


def eyelet_end(plan: BandPlan) -> Length:
    """Return what overcasts an eyelet closely, without tails: six times the edge round it, which
    is a stitch wide and two rows high. Common practice, no source.
    """
    return _round(plan, 1)


def hole_end(plan: BandPlan) -> Length:
    """Return what goes round a hole of one stitch or two in buttonhole stitch, without tails: six
    times its edge, two rows high. Common practice, no source.
    """
    assert plan.placing is not None and plan.hole is not None
    return _round(plan, plan.hole.value)


def _round(plan: BandPlan, stitches: int) -> Length:
    own = plan.gauge.turned if plan.is_lengthwise else plan.gauge
    return Length(OVERCAST * 2 * (stitches * own.stitch + 2 * own.row))


def loop_end(plan: BandPlan) -> Length:
    """Return what chains a loop and works back over it, without tails: ten times its length.

    Common practice, no source: four for a chain, six for the stitches over it.
    """
    assert plan.band.buttonholes is not None
    return loop_length(plan.band.buttonholes.button).times(LATCH_OFF.yarn + OVERCAST)


def shut_here(plan: BandPlan) -> int:
    """Return how many short ends a band's own steps sew shut: none where both meet in a seam."""
    return 0 if plan.run.ring else 2 - sum(plan.joins)


def _ends(program: Program, widths: Mapping[str, Fraction], along: Length = NOTHING,
          spare: int = 0) -> Mapping[str, Ends]:
    """The widths of every yarn with both ends of every new end of it; none where there is none.

    What is sewn `along` edges, and every `spare` end, is of the main yarn.
    """
    ends = _tails(program)
    tails = {name: ends[name] + 2 * spare * (name == MAIN)
             for name in dict.fromkeys((*widths, *OTHER_YARNS, CONTRAST))}
    return {name: Ends(widths.get(name, Fraction(0)), number, along if name == MAIN else NOTHING)
            for name, number in tails.items() if number or widths.get(name)}


def _of_piece(step: steps.Step, sewn: bool) -> Fraction:
    match step:
        case steps.CastOn(method=method) if method in CAST_ONS:
            return CAST_ONS[method].yarn * step.needles.across
        case edge_steps.BindOff():
            return BIND_OFFS.get(step.method, STITCH_OVER).yarn * step.needles.across
        case edge_steps.TakeOff(reason=Reason.DRAWN_UP):
            return DRAWN.yarn * step.needles.across
        case edge_steps.TakeOff() if sewn:
            return SEWN.yarn * step.needles.across
    return NO_WIDTH


def _of_band(step: steps.Step) -> Fraction:
    match step:
        case steps.HandKnit(cord="", yarn=yarn) if yarn in (MAIN, FACING):
            return Fraction((LAST_ROW - IN_A_ROW) * step.needles.across)
        case edge_steps.BindOff(keep_last=False):
            return BIND_OFFS.get(step.method, STITCH_OVER).yarn * step.needles.across
        case edge_steps.TakeOff(edge=edge) if edge != AT_FOLD:
            return SEWN.yarn * step.needles.across
    return NO_WIDTH


def _tails(program: Program) -> Counter[str]:
    """Both ends of every new end of each yarn."""
    threads: tuple[steps.Thread | ThreadContrast, ...] = (
        *program.of(steps.Thread), *program.of(ThreadContrast))
    return Counter(step.yarn for step in threads for _ in range(2 * step.fresh))


def seams(pieces: Sequence[tuple[Piece, int, Gauge]], strips: Sequence[Strip],
          joins: tuple[Join, ...], stitch: Fraction) -> Length:
    """Return the yarn of all seams [mm]: each sewn with three times its length.

    Every side of every piece is taken as sewn, as long as it is drawn, two to a seam: what stays
    open pays for sewing on sleeves. Either end of every band is taken as sewn to what it meets: a
    seam, the foot of a placket, the front beside a pocket. What sews both ends of a neckband to
    each other is cut for it, and has its tails. A pocket lining is sewn down along both sides and
    below.
    Stitches that meet stitches, each a `stitch` wide [mm], take what their method asks, on both
    sides of a garment, and where one was chosen a hand's length. Both edges of either strap over a
    shoulder are sewn with an end each, which has its tails.
    """
    sides = sum((height_of(p, g, p.rows) * times for p, times, g in pieces), Fraction(0))
    sides += sum((3 * p.quarters.rows * g.row * times for p, times, g in pieces if p.quarters),
                 Fraction(0))
    sides += sum(((p.rows * g.row + p.stitches.value * g.stitch) * times
                  for p, times, g in pieces if p.key == LINING), Fraction(0))
    rings = ring_ends(strips)
    bands = sum((2 * short_end(s.plan).mm * s.plan.run.times for s in strips
                 if s.plan.band.key not in rings), Fraction(0))
    times = {s.plan.band.key: s.plan.run.times for s in strips}
    bands += sum(((one.mm + 2 * HAND.mm) * times[key] for key, one in rings.items()), Fraction(0))
    across = sum((_joining(join).yarn * join.one * _times(join) for join in joins
                  if join.kindred is Kindred.STITCHES), Fraction(0))
    tails = 8 * HAND.mm if any(join.seam is Seam.STRAP for join in joins) else Fraction(0)
    tails += HAND.mm * sum(_times(join) for join in joins if join.method)
    return Length(SEAM * sides + bands + across * stitch + tails)


def _joining(join: Join) -> Method:
    """How stitches that meet stitches are joined: grafted, unless a method was chosen."""
    return BIND_OFFS[join.method] if join.method else GRAFT


def _times(join: Join) -> int:
    """A join that names no side is made on both; one that a source declares as often as it says."""
    if join.seam is Seam.DECLARED:
        return join.copies
    return 1 if join.side else 2
