"""A layer behind the fold in a fabric of its own: as long as the first, evenly spread, knitted."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core.units import Length
from walebook.machine.edge_steps import Hang
from walebook.machine.headings import Heading
from walebook.machine.programs import ProgramSection
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Increase, Knit, Side
from walebook.pattern.fabrics import Swatch, Yarn
from walebook.pattern.model import Fold, Pattern
from walebook.proof.proof import Strip, prove
from walebook.proof.yarn_requirement import yarn_requirements

from tests import small_patterns as small
from tests.laws.bands import BODY, pattern
from tests.scale import examples


def faced(kind: str, stitch: Fraction, row: Fraction, *, rows: int, fold: Fold,
          yarn: str = "wool") -> Pattern:
    """A band with a facing whose stitches and rows are so wide and high as its own, as shares."""
    source = pattern(rows=rows, fold=fold, holes=0)
    swatch = Swatch(stitches=40, width=Length(BODY.width.mm * stitch), rows=60,
                    height=Length(BODY.height.mm * row))
    lining = replace(small.fabric("lining", "3", swatch), yarn=yarn)
    own = small.fabric("band", "5", BODY)
    one = replace(source.bands["front"], kind=kind, fabric="band", pick_up=None,
                  facing_fabric="lining")
    return replace(source, bands={"front": one},
                   yarns={**source.yarns, "silk": Yarn(key="silk", name="Silk")},
                   fabrics={**source.fabrics, "lining": lining, "band": own})


def strips(source: Pattern) -> tuple[Strip, ...]:
    proof, found = prove(source)
    assert proof is not None, found
    return proof.sizes[0].strips


SHARES = st.fractions(Fraction(4, 5), Fraction(5, 4), max_denominator=20)


@pytest.mark.parametrize("kind", ("folded", "facing"))
@given(stitch=SHARES, row=SHARES, rows=st.integers(40, 200), fold=st.sampled_from(Fold),
       yarn=st.sampled_from(("wool", "silk")))
@settings(max_examples=examples(30), deadline=None)
def test_both_layers_are_as_long_and_as_deep(kind: str, stitch: Fraction, row: Fraction,
                                             rows: int, fold: Fold, yarn: str) -> None:
    for strip in strips(faced(kind, stitch, row, rows=rows, fold=fold, yarn=yarn)):
        assert strip.trace.refusal is None and not strip.trace.states[-1].loaded
        plan, facing = strip.plan, strip.plan.facing
        assert facing is not None
        long = [plan.stitches.value * plan.gauge.stitch, facing.stitches.value
                * facing.gauge.stitch]
        deep = [plan.depth.value * plan.gauge.row, facing.rows.value * facing.gauge.row]
        assert abs(long[0] - long[1]) <= facing.gauge.stitch / 2
        assert abs(deep[0] - deep[1]) <= facing.gauge.row / 2
        behind = [s for s in strip.program.steps if isinstance(s, Knit)
                  and s.claim.stitches == facing.stitches.value]
        assert sum(s.rows for s in behind) >= facing.rows.value - 1
        named = StepYarn.FACING if yarn == "silk" else StepYarn.MAIN
        assert behind[-1].yarn == named


@given(stitch=SHARES.filter(lambda share: share != 1), rows=st.integers(60, 200))
@settings(max_examples=examples(30), deadline=None)
def test_what_comes_or_goes_is_spread_evenly_and_mirrored(stitch: Fraction, rows: int) -> None:
    right, left = strips(faced("folded", stitch, Fraction(1), rows=rows, fold=Fold.LOOSE))
    places = []
    for strip in (right, left):
        changed = [s.doubled for s in strip.program.steps if isinstance(s, Hang) and s.doubled]
        changed += [s.needles for s in strip.program.steps if isinstance(s, Increase)]
        assert len(changed) <= 1
        for needles in changed:
            gaps = [b.place - a.place for a, b in pairwise(needles)]
            assert not gaps or max(gaps) - min(gaps) <= 1
        places.append(changed)
    assert right.front is Side.RIGHT
    assert [n.mirrored() for n in places[0]] == places[1]


def test_yarn_of_its_own_is_needed_apart() -> None:
    proof, found = prove(faced("folded", Fraction(5, 4), Fraction(1), rows=80, fold=Fold.LOOSE,
                               yarn="silk"))
    assert proof is not None, found
    size = proof.sizes[0]
    wool, silk = yarn_requirements(proof.pattern, size)
    by_bed = [dict(s.trace.stitches) for s in size.strips]
    assert [p.stitches.value for p in silk.parts] == [sum(b[StepYarn.FACING] for b in by_bed)]
    assert [p.stitches.value for p in wool.parts] == [sum(b[StepYarn.MAIN] for b in by_bed)]


def test_a_facing_far_off_is_refused_with_figures() -> None:
    """60 stitches of a facing half as wide would become 120."""
    proof, found = prove(faced("facing", Fraction(1, 2), Fraction(1), rows=85, fold=Fold.LOOSE))
    assert proof is None
    fault, = (p for p in found if p.code == "facing-far-off")
    assert "stitches that become" in fault.found and "one stitch in three" in fault.expected


@pytest.mark.parametrize("stitch", (Fraction(5, 4), Fraction(4, 5)))
def test_spoiled_changes_of_the_count_are_refused(stitch: Fraction) -> None:
    strip = strips(faced("folded", stitch, Fraction(1), rows=80, fold=Fold.LOOSE))[0]
    steps = list(strip.program.steps)
    at = next(n for n, s in enumerate(steps) if isinstance(s, Hang) and not s.picks)
    hang = steps[at]
    assert isinstance(hang, Hang)
    wrong = [replace(hang, needles=hang.needles.shifted(1)),
             replace(hang, onto_empty=False), replace(hang, edge="another edge")]
    if hang.doubled:
        first = hang.doubled.leftmost(1)
        wrong += [replace(hang, doubled=hang.doubled - first),
                  replace(hang, doubled=hang.doubled.shifted(60)),
                  replace(hang, doubled=(hang.doubled - first) | first.shifted(2))]
    for step in wrong:
        spoiled = [*steps[:at], step, *steps[at + 1:]]
        program = replace(strip.program, sections=(
            ProgramSection(heading=Heading.BODY, steps=tuple(spoiled)),))
        assert run(program).refusal is not None, step
