"""What must hold for every band that can be planned, whatever its edge, holes and fold."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.machine.edge_steps import BindOff, DrawCord, Hang, lower, upper
from walebook.machine.headings import Heading
from walebook.machine.needles import Needles, bed_of
from walebook.machine.set_up_steps import HangWeights, TakeWeightsOff
from walebook.machine.steps import Attend, HandKnit, Knit, Side, Step, TurnWork
from walebook.pattern.holes import Lean
from walebook.pattern.model import Fold, Pattern
from walebook.plan.pickup import marks
from walebook.proof.proof import Strip, prove

from tests.laws.bands import pattern
from tests.scale import examples
from tests.small_patterns import figure_of

RULES = [Fraction(3, 4), Fraction(3, 5), Fraction(2, 3), Fraction(4, 5), Fraction(1)]


@st.composite
def bands(draw: st.DrawFn) -> Pattern:
    return pattern(
        rows=draw(st.integers(20, 240)), rule=draw(st.sampled_from(RULES)),
        fold=draw(st.sampled_from(Fold)), front=draw(st.sampled_from(Side)),
        holes=draw(st.integers(0, 12)), hole=draw(st.integers(2, 5)),
        ends=(draw(st.integers(1, 6)), draw(st.integers(1, 6))),
        split=(draw(st.integers(3, 9)), draw(st.integers(3, 9))),
        lean=draw(st.sampled_from(Lean)), waste_rows=draw(st.integers(6, 10)))


def strips(source: Pattern) -> tuple[Strip, ...]:
    """The strips of a pattern that can be made; of one that is refused, none."""
    proof, problems = prove(source)
    if proof is None:
        assert all(p.code in ("hole-wider-than-gap", "bed-too-short", "button-too-large",
                              "hole-at-end") for p in problems if p.severity.value == "error")
        return ()
    return proof.sizes[0].strips


@given(bands())
@settings(max_examples=examples(120), deadline=None)
def test_every_band_is_refused_with_figures_or_knitted_to_its_end(source: Pattern) -> None:
    for strip in strips(source):
        assert strip.trace.refusal is None
        assert not strip.trace.states[-1].loaded
        assert strip.trace.states[-1].waiting == ()


@given(bands())
@settings(max_examples=examples(120), deadline=None)
def test_counts_add_up_to_the_band_and_lie_on_the_bed(source: Pattern) -> None:
    for strip in strips(source):
        plan, needles = strip.plan, strip.layout.needles
        assert len(needles) == plan.stitches.value
        assert needles <= bed_of(source.bed.needles)
        if plan.placing is None:
            continue
        p = plan.placing
        assert p.lower + p.upper + p.buttonhole_count * p.hole + sum(p.gaps) == plan.stitches.value
        assert min(p.gaps, default=p.hole) >= p.hole
        hung = figure_of(plan, "closing_gaps")
        assert all(after + 1 == before for before, after in zip(p.gaps, hung, strict=True))


@given(bands())
@settings(max_examples=examples(120), deadline=None)
def test_layers_mirror_about_the_fold(source: Pattern) -> None:
    """Rows of the run, not of the plan: between the cords and the fold as after it."""
    for strip in strips(source):
        layers = [0, 0]
        folded = False
        for section in strip.program.sections[1:]:
            folded = folded or section.heading is Heading.FOLD
            if section.heading is not Heading.FOLD:
                layers[folded] += sum(s.rows for s in section.steps if isinstance(s, Knit))
        assert layers[0] == layers[1] == strip.plan.depth.value


@given(bands())
@settings(max_examples=examples(80), deadline=None)
def test_every_hole_is_hung_bound_off_and_filled_in_one_place(source: Pattern) -> None:
    for strip in strips(source):
        steps = strip.program.steps
        made = {s.cord: s.needles for s in steps if isinstance(s, HandKnit) and s.cord}
        hung = {s.edge: s for s in steps if isinstance(s, Hang)}
        bound = [s for s in steps if isinstance(s, BindOff) and s.keep_last]
        assert [s.needles.first for s in bound] == sorted(
            (s.needles.first for s in bound), reverse=any(s.toward is Side.LEFT for s in bound))
        bound.sort(key=lambda s: abs(s.needles.first.place - strip.layout.at(1).place))
        assert len(made) == len(bound) == (strip.plan.placing.buttonhole_count if strip.with_holes
                                           and strip.plan.placing else 0)
        leans = set()
        for (cord, hole), off in zip(made.items(), bound, strict=True):
            assert hung[lower(cord)].needles == hole
            assert hung[upper(cord)].needles == off.needles
            assert len(off.needles) == len(hole) + 1 and hole <= off.needles
            leans.add(hung[upper(cord)].lean)
        assert len(leans) <= 1
        for a, b in pairwise(sorted(bound, key=lambda s: s.needles.mask)):
            assert not a.needles & b.needles


@given(bands())
@settings(max_examples=examples(40), deadline=None)
def test_no_weight_hangs_when_work_is_lifted_folded_or_taken_off(source: Pattern) -> None:
    """Weights come off before the garter bar, the fold and the closing (common practice)."""
    for strip in strips(source):
        hang = False
        for step in strip.program.steps:
            if isinstance(step, HangWeights | TakeWeightsOff):
                assert hang is isinstance(step, TakeWeightsOff)
                hang = isinstance(step, HangWeights)
            elif isinstance(step, Attend) and step.to in ("fold up", "cloth"):
                assert not hang
            assert not (hang and isinstance(step, TurnWork | Hang | BindOff | DrawCord)), step
        assert not hang


def mirrored(step: Step) -> Step:
    """The same step with left and right exchanged."""
    changed: dict[str, object] = {}
    for each in fields(step):
        value = getattr(step, each.name)
        if isinstance(value, Needles):
            changed[each.name] = value.mirrored()
        elif isinstance(value, Side):
            changed[each.name] = value.other
    if "by" in {f.name for f in fields(step)}:
        changed["by"] = -step.by  # type: ignore[attr-defined]
    return replace(step, **changed, claim=step.claim._replace(side=step.claim.side.other))


@given(bands())
@settings(max_examples=examples(80), deadline=None)
def test_the_left_front_is_the_right_front_mirrored(source: Pattern) -> None:
    """Whichever front has the holes: its program is the other's, left and right exchanged."""
    holes = source.bands["front"].buttonholes
    if holes is None:
        a, b = strips(source) or (None, None)
        if a and b:
            assert tuple(map(mirrored, a.program.steps)) == b.program.steps
        return
    other = replace(source, bands={"front": replace(
        source.bands["front"], buttonholes=replace(holes, front=holes.front.other))})
    for a, b in zip(strips(source), strips(other), strict=True):
        assert tuple(map(mirrored, a.program.steps)) == b.program.steps
        assert a.trace.stitches == b.trace.stitches and a.trace.rows == b.trace.rows


@given(bands())
@settings(max_examples=examples(60), deadline=None)
def test_the_garment_is_hung_in_order_from_end_to_end(source: Pattern) -> None:
    for strip in strips(source):
        picks = strip.plan.pick_up.rows
        steps = {b - a for a, b in pairwise(picks)}
        assert len(picks) == strip.plan.stitches.value
        assert max(steps) - min(steps) <= 1
        if 2 * len(picks) >= strip.plan.edge_rows.value:
            assert max(steps) <= 2  # never two rows missed together
        runs = strip.plan.pick_up.runs
        if len(set(picks)) == len(picks):  # one row is missed between two runs
            assert sum(runs) + len(runs) - 1 == strip.plan.pick_up.edge_rows
            assert sum(runs) == len(picks)
        named = marks(len(picks))
        assert named[0] == 1 and named[-1] == len(picks)


@given(bands(), st.integers(1, 60))
@settings(max_examples=examples(60), deadline=None)
def test_a_bed_too_short_is_refused_with_what_is_missing(source: Pattern, half: int) -> None:
    small = replace(source, bed=replace(source.bed, needles=2 * half))
    proof, problems = prove(small)
    whole, _ = prove(source)
    if whole is None:
        return
    short = whole.sizes[0].plans[0].stitches.value - 2 * half
    if short > 0:
        assert proof is None
        assert any(p.code == "bed-too-short" and f"{short} needles short" in p.message
                   for p in problems)
    else:
        assert proof is not None and run(proof.sizes[0].strips[0].program).refusal is None


@given(st.integers(-20, 20), st.integers(60, 200))
@settings(max_examples=examples(60), deadline=None)
def test_a_band_far_from_its_edge_is_reported_with_its_share(ease: int, rows: int) -> None:
    """The band's own length against the edge's, both from the plan: 12 % and 4 % are the bounds."""
    source = pattern(rows=rows, holes=0)
    band = source.bands["front"]
    swatched = replace(source.fabrics["body"], key="band")
    source = replace(source, fabrics={**source.fabrics, "band": swatched}, bands={"front": replace(
        band, fabric="band", pick_up=None, ease=Fraction(ease, 100))})
    proof, problems = prove(source)
    codes = {p.code for p in problems}
    if proof is None:
        assert "bed-too-short" in codes
        return
    plan = proof.sizes[0].plans[0]
    share = 1 - plan.stitches.value * plan.gauge.stitch / plan.edge_path.sections[0].length
    assert ("band-too-tight" in codes) == (share > Fraction(12, 100))
    assert ("band-wavy" in codes) == (share < Fraction(-4, 100))
