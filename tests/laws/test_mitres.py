"""Bands mitred at the point of a V: what goes at it comes again, both layers alike."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.fabric.gauge import measure
from walebook.machine.needles import of
from walebook.machine.reasons import Reason
from walebook.machine.steps import Dial, Increase, Knit, Side, Transfer
from walebook.pattern.edges import Shape
from walebook.pattern.model import Fold
from walebook.plan.band import BandPlan
from walebook.plan.band_counts import plan_band
from walebook.plan.mitres import plan_mitre
from walebook.program.bands import band_program
from walebook.program.layout import lay_out
from walebook.shape.edging import Corner, run_of, straight, waiting

from tests.laws.bands import BODY, pattern


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
                  shape=Shape.ROUND, corner=Corner(before=1, own=own, steep=steep))
    source = pattern(holes=0, fold=draw(st.sampled_from(Fold)),
                     split=(draw(st.integers(2, 8)), draw(st.integers(2, 8))))
    dials = draw(st.sampled_from(((), (Dial(15), Dial(12)))))
    band = replace(source.bands["front"], mitre=True, dials=dials,
                   kind=draw(st.sampled_from(("enclosing", "folded"))))
    plan, problems = plan_band(source, band, "one", edge)
    assert plan is not None and plan.mitre is not None, problems
    return plan


@given(necks(), st.sampled_from(Side))
@settings(max_examples=80, deadline=None)
def test_a_mitred_band_is_knitted_to_its_end_with_its_layers_alike(plan: BandPlan, front: Side
                                                                   ) -> None:
    program = band_program(plan, front=front, bed_needles=200, garment_dial=Dial(18),
                           with_holes=False)
    seen = run(program)
    assert seen.refusal is None, seen.refusal
    assert not seen.states[-1].loaded
    widths = [len(state.loaded) for step, state in zip(program.steps, seen.states, strict=True)
              for _ in range(step.rows if isinstance(step, Knit) else 0)
              if isinstance(step, Knit) and step.yarn == "main yarn"]
    depth = plan.depth.value
    middle = widths[depth:len(widths) - depth]
    assert len(middle) == plan.fold_rows.value
    assert widths[:depth] == widths[:-depth - 1:-1]
    assert plan.mitre is not None
    assert widths[0] == plan.stitches.value
    assert min(widths) == plan.stitches.value - 2 * plan.mitre.pairs.value


@given(necks(), st.sampled_from(Side))
@settings(max_examples=60, deadline=None)
def test_the_stitch_at_the_point_never_moves(plan: BandPlan, front: Side) -> None:
    assert plan.mitre is not None
    corner = lay_out(plan.stitches.value, front).at(plan.mitre.corner)
    program = band_program(plan, front=front, bed_needles=200, garment_dial=Dial(18),
                           with_holes=False)
    moves = [s for s in program.steps if isinstance(s, Transfer) and s.reason is Reason.FOR_MITRE]
    assert len(moves) == 4 * plan.mitre.pairs.value
    assert not any(corner in s.needles for s in moves)
    for step in program.steps:
        if isinstance(step, Increase):
            assert step.needles == of(corner).shifted(1) | of(corner).shifted(-1)


@given(st.integers(4, 30), st.fractions(Fraction(1, 4), 6, max_denominator=6))
def test_pairs_follow_the_geometry_as_far_as_every_second_row(rows: int, steep: Fraction) -> None:
    gauge = measure((BODY,))
    plan, _ = plan_band(pattern(holes=0), pattern(holes=0).bands["front"], "one", run_of(
        "neck", "Neck, round", [straight("side", 60, gauge.row)] * 2))
    assert plan is not None
    made = plan_mitre(Corner(before=1, own=False, steep=steep), plan.meetings, gauge, rows)
    exact = rows * gauge.row / gauge.stitch * steep
    assert made.pairs.value <= exact
    assert made.pairs.value == min(int(exact), (rows - 1) // 2)
    assume(made.rows)
    assert all(b - a >= 2 for a, b in pairwise((0, *made.rows))) and made.rows[-1] < rows
