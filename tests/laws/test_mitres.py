"""Bands mitred where they turn: what goes at a corner comes again, both layers alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.catalogue.bands import KINDS
from walebook.core.counted import Count, stated
from walebook.core.counts import Unit
from walebook.core.edge_parts import SectionRole
from walebook.core.expression import Operand
from walebook.core.operands import Role
from walebook.core.units import Length
from walebook.fabric.gauge import Gauge, measure
from walebook.machine.needles import of
from walebook.machine.programs import Program
from walebook.machine.reasons import Reason
from walebook.machine.set_up_steps import HangWeights
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Dial, Increase, Knit, Side, Transfer
from walebook.machine.trace import Trace
from walebook.pages.program import steps_html
from walebook.pattern.edges import EdgeShape
from walebook.pattern.model import Fold, Neck, Pattern
from walebook.plan.band import BandPlan
from walebook.plan.band_counts import plan_band
from walebook.plan.mitres import LEFT, Turns, plan_mitre
from walebook.plan.sense import check
from walebook.program.bands import band_program
from walebook.program.layout import corner_loops, lay_out, sections
from walebook.proof.proof import Strip, prove
from walebook.shape.corners import squares
from walebook.shape.edge_path import Corner, EdgePath, run_of
from walebook.shape.edging import Zone, shaped, straight, waiting
from walebook.shape.profile import EdgeSegment
from walebook.words.strip_lead import strip_lead

from tests.laws.bands import BODY, pattern
from tests.laws.test_one_edge import banded
from tests.scale import examples


def rows_of(rows: int) -> Count:
    return stated(rows, Unit.ROWS)


def steepness(figure: Fraction | int) -> Operand:
    return Operand(Fraction(figure), Role.STEEPNESS)


def stitches(many: int) -> Count:
    return stated(many, Unit.STITCHES)


@st.composite
def necks(draw: st.DrawFn) -> BandPlan:
    """A band round a closed neck with the point of a V after its first side."""
    gauge = measure((BODY,))
    side, back = draw(st.integers(12, 60)), draw(st.integers(4, 40))
    own = draw(st.booleans())
    steep = draw(st.fractions(Fraction(1, 2), 4, max_denominator=6))
    slope = straight("front neck, side", side, gauge.row)
    point = waiting("front neck", 1, gauge) if own else None
    edge = run_of("neck", "Neck, from the left shoulder round the front",
                  [slope, point, slope, waiting("back neck", back, gauge)],
                  shape=EdgeShape.ROUND, corner=Corner(before=1, own=own, steep=steepness(steep)))
    source = pattern(holes=0, fold=draw(st.sampled_from(Fold)),
                     split=(draw(st.integers(2, 8)), draw(st.integers(2, 8))))
    dials = draw(st.sampled_from(((), (Dial(15), Dial(12)))))
    band = replace(source.bands["front"], mitre=True, dials=dials,
                   kind=draw(st.sampled_from(("enclosing", "folded"))))
    plan, problems = plan_band(source, band, "one", edge)
    assert plan is not None and plan.mitre is not None, problems
    return plan


def knitted(plan: BandPlan, front: Side) -> tuple[Program, Trace]:
    """The program of a band, and what the bed saw of it to its end."""
    program = band_program(plan, front=front, bed_needles=200, garment_dial=Dial(18),
                           with_holes=False)
    seen = run(program)
    assert seen.refusal is None, seen.refusal
    assert not seen.states[-1].loaded
    return program, seen


@given(necks(), st.sampled_from(Side))
@settings(max_examples=examples(80), deadline=None)
def test_a_mitred_band_is_knitted_to_its_end_with_its_layers_alike(plan: BandPlan, front: Side
                                                                   ) -> None:
    program, seen = knitted(plan, front)
    widths = [len(state.loaded) for step, state in zip(program.steps, seen.states, strict=True)
              for _ in range(step.rows if isinstance(step, Knit) else 0)
              if isinstance(step, Knit) and step.yarn == StepYarn.MAIN]
    depth = plan.depth.value
    middle = widths[depth:len(widths) - depth]
    assert len(middle) == plan.fold_rows.value
    assert widths[:depth] == widths[:-depth - 1:-1]
    assert plan.mitre is not None
    assert widths[0] == plan.stitches.value
    assert min(widths) == plan.stitches.value - 2 * plan.mitre.pairs.value


@given(necks(), st.sampled_from(Side))
@settings(max_examples=examples(60), deadline=None)
def test_the_stitch_at_the_point_never_moves(plan: BandPlan, front: Side) -> None:
    assert plan.mitre is not None
    corner = lay_out(plan.stitches.value, front).at(*plan.mitre.turns.corners)
    program, _ = knitted(plan, front)
    moves = [s for s in program.steps if isinstance(s, Transfer) and s.reason is Reason.FOR_MITRE]
    assert len(moves) == 4 * plan.mitre.pairs.value
    assert not any(corner in s.needles for s in moves)
    for step in program.steps:
        if isinstance(step, Increase):
            assert step.needles == of(corner).shifted(1) | of(corner).shifted(-1)


@given(st.integers(4, 30), st.fractions(Fraction(1, 4), 6, max_denominator=6))
def test_pairs_follow_the_geometry_as_far_as_every_second_row(rows: int, steep: Fraction) -> None:
    gauge = measure((BODY,))
    turns = Turns(corners=(60,), steep=steepness(steep), longer=False)
    made = plan_mitre(turns, stitches(120), gauge, rows_of(rows))
    exact = rows * gauge.row / gauge.stitch * steep
    assert made.pairs.value <= exact
    assert made.pairs.value == min(int(exact), (rows - 1) // 2)
    assume(made.rows)
    assert all(b - a >= 2 for a, b in pairwise((0, *made.rows))) and made.rows[-1] < rows


def square(rows: int, waits: int, top: int) -> EdgePath:
    """A square neck: two straight sides, stitches that wait between them, and behind."""
    gauge = measure((BODY,))
    side = shaped(SectionRole.FRONT_NECK, [EdgeSegment(0, rows, None)], gauge)
    return run_of("neck", "Neck, round", [
        side, waiting(SectionRole.FRONT_NECK, waits, gauge), side,
        waiting(SectionRole.BACK_NECK, top, gauge)], shape=EdgeShape.ROUND)


def jutting(rows: int, level: int, up: int, back: int) -> EdgePath:
    """Up a front, at its top round a corner along a level neck, and down the other front."""
    gauge = measure((BODY,))
    neck = shaped(SectionRole.FRONT_NECK, [EdgeSegment(level, 0, None), EdgeSegment(0, up, None)],
                  gauge)
    front = replace(straight("front edge", rows, gauge.row), zone=Zone.FRONT)
    return run_of("front_and_neck", "Front and neck", [
        front, neck, waiting(SectionRole.BACK_NECK, back, gauge), neck, front],
        shape=EdgeShape.FRONT)


@pytest.mark.parametrize("titles", [("rim", "rim"), ("rim", "back"), ("front neck", "front neck")])
def test_sections_of_one_title_make_no_corner(titles: tuple[str, str]) -> None:
    """What the designer calls them says nothing; stitches that wait at the foot of a neck do."""
    side, foot = titles
    gauge = measure((BODY,))
    up = shaped(side, [EdgeSegment(0, 12, None)], gauge)
    assert up is not None
    assert squares([up, waiting(foot, 9, gauge)]) == ()
    assert len(squares(square(12, 9, 20).sections)) == 2


@st.composite
def cornered(draw: st.DrawFn) -> BandPlan:
    """A band along two square corners that point inward, or outward."""
    edge = draw(st.one_of(
        st.builds(square, st.integers(8, 40), st.integers(4, 40),
                  st.integers(4, 40)),
        st.builds(jutting, st.integers(8, 40), st.integers(2, 12), st.integers(4, 12),
                  st.integers(4, 20))))
    source = pattern(holes=0, fold=draw(st.sampled_from(Fold)),
                     split=(draw(st.integers(2, 8)), draw(st.integers(2, 8))))
    dials = draw(st.sampled_from(((), (Dial(15), Dial(12)))))
    kind = draw(st.sampled_from(("enclosing", "folded", "single")))
    band = replace(source.bands["front"], mitre=True, dials=dials, kind=kind)
    plan, problems = plan_band(source, band, "one", edge)
    assert plan is not None and plan.mitre is not None, problems
    return plan


@given(cornered(), st.sampled_from(Side))
@settings(max_examples=examples(60), deadline=None)
def test_a_band_round_square_corners_is_knitted_to_its_end(plan: BandPlan, front: Side) -> None:
    """Inward two go at every corner, outward two come; a second layer does the same backwards."""
    program, seen = knitted(plan, front)
    widths = [len(state.loaded) for step, state in zip(program.steps, seen.states, strict=True)
              if isinstance(step, Knit) and step.yarn == StepYarn.MAIN for _ in range(step.rows)]
    depth, plain = plan.depth.value, plan.stitches.value
    assert plan.mitre is not None
    more = 4 * plan.mitre.pairs.value * (1 if plan.edge_path.key == "front_and_neck" else -1)
    assert (widths[0], widths[depth - 1]) == (plain, plain + more)
    assert sorted(widths[:depth], reverse=more < 0) == widths[:depth]
    if KINDS[plan.band.kind].doubled:
        assert widths[:depth] == widths[:-depth - 1:-1]


@given(cornered(), st.sampled_from(Side))
@settings(max_examples=examples(40), deadline=None)
def test_what_goes_or_comes_lies_beside_the_corners(plan: BandPlan, front: Side) -> None:
    """Each stitch followed from needle to needle: the corner's own takes its neighbours, or has
    new ones at either side; nothing else changes."""
    program, _ = knitted(plan, front)
    lies = lay_out(plan.stitches.value, front)
    assert plan.mitre is not None
    at = {lies.at(number).place: {number} for number in range(1, plan.stitches.value + 1)}
    corners = set(plan.mitre.turns.corners)
    for step in program.steps:
        if step.reason is not Reason.FOR_MITRE:
            continue
        if isinstance(step, Transfer):
            moved = {n.place + step.by: at.pop(n.place) for n in step.needles}
            for place, stitches in moved.items():
                at[place] = at.get(place, set()) | stitches
        elif isinstance(step, HangWeights):
            joined = [stitches for stitches in at.values() if len(stitches) > 1]
            assert all(len(each & corners) == 1 for each in joined)
            assert len({len(each) for each in joined}) <= 1
            assert sorted(at) == list(range(min(at), max(at) + 1))
        elif isinstance(step, Increase):
            own = {place for place, stitches in at.items() if stitches & corners}
            assert {n.place for n in step.needles} == {p + by for p in own for by in (-1, 1)}
            at.update({n.place: set() for n in step.needles})
    if not KINDS[plan.band.kind].doubled and plan.mitre.wider < 0:
        for corner in corners:
            (own,) = (stitches for stitches in at.values() if corner in stitches)
            pairs = plan.mitre.pairs.value
            assert own == set(range(corner - pairs, corner + pairs + 1))


def test_the_mitred_square_of_a_published_lesson_is_met() -> None:
    """ "Make some mitred squares" (lovecrafts.com): 36 stitches, one gone at either side of the
    middle in every second row until two are left. In garter stitch, whose rows are half as high as
    its stitches are wide, geometry asks as many: 17 in 34 rows, and ours is never the last row."""
    gauge = Gauge(Fraction(4), Fraction(2))
    square = Turns(corners=(18,), steep=steepness(1), longer=True)
    made = plan_mitre(square, stitches(36), gauge, rows_of(34))
    assert made.pairs.value == len(made.rows) == 16
    assert all(b - a >= 2 for a, b in pairwise((0, *made.rows))) and made.rows[-1] < 34
    few = plan_mitre(replace(square, longer=False), stitches(36), gauge, rows_of(34))
    assert few.pairs.value == 15, "two stitches stay beside the corner"
    near = plan_mitre(replace(square, corners=(10, 20), longer=False), stitches(40), gauge,
                      rows_of(34))
    assert near.pairs.value == 3, "of the nine between two corners at least two stay"


@pytest.mark.parametrize("kind", ["enclosing", "folded", "single"])
@pytest.mark.parametrize(("form", "neck", "edge", "corners"), [
    ("set-in pullover", Neck.SQUARE, "neck", 2), ("drop-shoulder pullover", Neck.BOAT, "neck", 4),
    ("set-in cardigan", Neck.ROUND, "front_and_neck", 2)])
def test_a_garment_with_square_corners_gets_its_band_mitred(form: str, neck: Neck, edge: str,
                                                            corners: int, kind: str) -> None:
    """At every corner the outer edge is shorter, or longer, by what the pairs take: the depth on
    either side at most (geometry)."""
    made = banded(form, neck, None, kind)
    made = replace(made, bed=replace(made.bed, needles=300), bands={
        "neck": replace(made.bands["neck"], edge=edge, mitre=True)})
    proof, problems = prove(made)
    assert proof is not None, [str(p) for p in problems]
    (plan,) = (p for p in proof.sizes[0].plans if p.band.key == "neck")
    assert plan.mitre is not None and len(plan.mitre.turns.corners) == corners
    assert abs(plan.mitre.wider) == 2 * corners * plan.mitre.pairs.value > 0
    deep = plan.depth.value * plan.gauge.row
    assert plan.mitre.pairs.value * plan.gauge.stitch <= deep
    assert (plan.mitre.wider > 0) is (edge == "front_and_neck")
    strip = next(s for s in proof.sizes[0].strips if s.plan is plan)
    assert strip.trace.refusal is None
    ends = [needles for _, _, needles in sections(plan, strip.layout)]
    assert {strip.layout.at(stitch) for stitch in plan.mitre.turns.corners} == (
        {loop.needle for loop in corner_loops(plan, strip.layout)} if edge == "neck" else
        {ends[0].last, ends[-1].first} if strip.layout.hem is Side.LEFT else
        {ends[0].first, ends[-1].last})
    left = 2 * deep - 2 * plan.mitre.pairs.value * plan.gauge.stitch
    lead = strip_lead(strip, made.fabrics, "")
    assert f"It is mitred at {corners} square corners. At each the fabric gives the rest of the " \
        f"turn, {Length(left).in_cm()}" in lead
    told = steps_html(strip, made, "x")
    at = [told.index(f"{what} the mitre by a pair at each of its {corners} corners")
          for what in ("Open out", "Close in") if kind != "single" or
          (what == "Open out") is (edge == "front_and_neck")]
    assert kind == "single" or (at[0] < at[1]) is (edge == "front_and_neck")
    assert not any(p.code == "band-corner" for p in check(made))


@pytest.mark.parametrize("fold", Fold)
@pytest.mark.parametrize(("form", "neck", "edge", "corners"), [
    ("set-in pullover", Neck.SQUARE, "neck", 2), ("drop-shoulder pullover", Neck.BOAT, "neck", 4),
    ("set-in pullover", Neck.V, "neck", 1), ("set-in cardigan", Neck.ROUND, "front_and_neck", 2)])
def test_a_facing_gains_where_a_band_that_stands_loses(form: str, neck: Neck, edge: str,
                                                       corners: int, fold: Fold) -> None:
    """It lies on the other side of the edge, so that its line is longer inside a hollow corner and
    shorter inside one that juts out (geometry)."""
    made = banded(form, neck, None, "facing")
    made = replace(made, bed=replace(made.bed, needles=300), bands={
        "neck": replace(made.bands["neck"], edge=edge, fold=fold, mitre=True)})
    proof, problems = prove(made)
    assert proof is not None, [str(p) for p in problems]
    strip = next(s for s in proof.sizes[0].strips if s.plan.band.key == "neck")
    mitre = strip.plan.mitre
    assert strip.trace.refusal is None, strip.trace.refusal
    assert mitre is not None and len(mitre.turns.corners) == corners
    assert (mitre.wider < 0) is (edge == "front_and_neck") and mitre.wider != 0
    waits = strip.plan.stitches.value + mitre.wider
    assert strip.trace.states[-1].waiting[-1][1] == waits
    told = steps_html(strip, made, "x")
    assert f"sew down its {waits} stitches that wait" in told or (
        f"all but the last 3 stitches at each open end, {waits - 6} now" in told)
    deep = strip.plan.depth.value * strip.plan.gauge.row
    left = 2 * deep - 2 * mitre.pairs.value * strip.plan.gauge.stitch
    if neck in (Neck.SQUARE, Neck.BOAT):
        assert f"longer by {Length(left).in_cm()}" in told, "what the pairs leave is stretched"


def test_a_mitre_wants_a_turn() -> None:
    made = banded("set-in pullover", Neck.ROUND, None, "folded")
    proof, problems = prove(replace(made, bands={
        "neck": replace(made.bands["neck"], mitre=True)}))
    assert proof is None
    assert any(p.code == "no-corner" and "square" in p.expected for p in problems)


@pytest.mark.parametrize("fold", [Fold.LOOSE, Fold.PICOT])
@pytest.mark.parametrize(("form", "neck", "edge", "kind"), [
    ("drop-shoulder pullover", Neck.BOAT, "neck", "facing"),
    ("set-in pullover", Neck.V, "neck", "facing"),
    ("set-in cardigan", Neck.ROUND, "front_and_neck", "folded")])
def test_a_band_that_gains_is_cut_away_from_its_corners(form: str, neck: Neck, edge: str, kind: str,
                                                        fold: Fold) -> None:
    """Its parts together have all corners, each the stitch that stays; every part gains a pair at
    each of its own, fits the bed with them, and waits with all of them but those for the joins."""
    made = banded(form, neck, None, kind)
    made = replace(made, bands={"neck": replace(made.bands["neck"], edge=edge, fold=fold,
                                                mitre=True)})
    whole = next(s.plan for s in _proved(made, 300) if s.plan.band.key == "neck")
    assert whole.mitre is not None and not whole.parts and whole.mitre.turns.longer
    cut = 0
    for needles in range(whole.widest // 6 * 2, whole.widest, 8):
        strips = [s for s in _proved(made, needles) if s.plan.band.key == "neck"]
        cut += bool(strips)
        seen, before = [], 0
        for strip in strips:
            plan, joins = strip.plan, sum(strip.plan.joins)
            assert strip.trace.refusal is None, strip.trace.refusal
            assert plan.part is not None
            own = plan.mitre.turns.corners if plan.mitre else ()
            assert all(LEFT < c <= plan.stitches.value - LEFT for c in own), "room beside it"
            seen += [corner - plan.joins[0] + before for corner in own]
            widest = max(len(state.loaded) for state in strip.trace.states)
            assert widest == plan.stitches.value + 2 * len(own) * whole.mitre.pairs.value <= needles
            assert plan.part.shares[plan.part.number - 1] + joins == widest
            if kind == "facing":
                assert strip.trace.states[-1].waiting[-1][1] == widest
            before += plan.stitches.value - joins
        assert not strips or tuple(seen) == whole.mitre.turns.corners
    assert cut > 1


def _proved(made: Pattern, needles: int) -> Sequence[Strip]:
    proof, problems = prove(replace(made, bed=replace(made.bed, needles=needles)))
    assert proof or any(p.code == "bed-too-short" for p in problems), [str(p) for p in problems]
    return proof.sizes[0].strips if proof else ()
