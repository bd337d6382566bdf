"""Every kind of band, on any edge, with every closing it can have, is knitted to its end."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.catalogue.bands import KINDS
from walebook.machine.edge_steps import Hang, TakeOff
from walebook.machine.reasons import Reason
from walebook.machine.set_up_steps import HangWeights, TakeWeightsOff
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, Knit, Side, Thread, Unthread
from walebook.pages.program import steps_html
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.model import Fold, Pattern
from walebook.program.bands import MAKES
from walebook.proof.proof import prove

from tests.laws.bands import pattern
from tests.laws.test_bands import mirrored
from tests.scale import examples

# A kind without steps is named by test_kinds_declared.py alone.
ASKED = [(name, closing) for name, kind in KINDS.items() if kind.making in MAKES
         for closing in (*kind.buttonhole_kinds, None)]


def banded(name: str, closing: ButtonholeKind | None, *, rows: int, fold: Fold, front: Side,
           split: tuple[int, int]) -> Pattern:
    """A pattern whose one band is of a kind, with five holes or none."""
    source = pattern(rows=rows, fold=fold, front=front, split=split,
                     holes=5 if closing else 0)
    band = source.bands["front"]
    holes = band.buttonholes
    if holes is not None and closing is not None:
        holes = replace(holes, kind=closing)
    return replace(source, bands={"front": replace(band, kind=name, buttonholes=holes)})


@pytest.mark.parametrize(("name", "closing"), ASKED)
@given(rows=st.integers(52, 220), fold=st.sampled_from(Fold), front=st.sampled_from(Side),
       split=st.tuples(st.integers(3, 8), st.integers(3, 8)))
@settings(max_examples=examples(15), deadline=None)
def test_every_kind_is_knitted_to_an_empty_bed(
        name: str, closing: ButtonholeKind | None, rows: int, fold: Fold, front: Side,
        split: tuple[int, int]) -> None:
    source = banded(name, closing, rows=rows, fold=fold, front=front, split=split)
    proof, problems = prove(source)
    if proof is None:
        assert {p.code for p in problems if p.severity.value == "error"} <= {
            "hole-wider-than-gap", "bed-too-short", "button-too-large"}
        return
    strips = proof.sizes[0].strips
    assert len(strips) == 2
    for strip in strips:
        assert strip.trace.refusal is None and not strip.trace.states[-1].loaded
        hung = [s for s in strip.program.steps if isinstance(s, Hang) and s.picks]
        if KINDS[name].lengthwise:
            assert not hung and strip.trace.states[-1].counter >= strip.plan.stitches.value
        else:
            assert hung[0].picks == strip.plan.pick_up.rows


@pytest.mark.parametrize(("name", "closing"), ASKED)
def test_no_row_is_knitted_without_weights(name: str, closing: ButtonholeKind | None) -> None:
    """Nor waste rows: a fabric without weight rides up (common practice, no source)."""
    proof, _ = prove(banded(name, closing, rows=80, fold=Fold.LOOSE, front=Side.RIGHT,
                            split=(4, 5)))
    assert proof is not None
    for strip in proof.sizes[0].strips:
        weighted, rows = False, 0
        for step in strip.program.steps:
            if isinstance(step, HangWeights | TakeWeightsOff):
                weighted = isinstance(step, HangWeights) or step.claws_only  # the others stay
                # Nothing holds them before a row does; a garment that was hung pulls by itself.
                # Below a cast-on the step itself tells to wait for the first rows.
                assert not weighted or rows or strip.program.first_row or KINDS[name].lengthwise
            assert weighted or not isinstance(step, TakeOff) or step.by_needle
            first = isinstance(step, Knit) and not rows and step.rows == 1
            assert weighted or not isinstance(step, Knit) or first
            rows += step.rows if isinstance(step, Knit) else 0


@pytest.mark.parametrize("holes", [1, 3])
def test_an_end_for_a_slit_hangs_beside_it(holes: int) -> None:
    """It was begun at the slit: what was in the feeder before hangs at the band's own end."""
    source = banded("single", ButtonholeKind.SLIT, rows=80, fold=Fold.LOOSE, front=Side.RIGHT,
                    split=(4, 5))
    band = source.bands["front"]
    assert band.buttonholes is not None
    fewer = replace(band.buttonholes, buttonhole_count={"one": holes})
    proof, _ = prove(replace(source, bands={"front": replace(band, buttonholes=fewer)}))
    assert proof is not None
    strip = next(s for s in proof.sizes[0].strips if s.with_holes)
    steps = strip.program.steps
    begun = next(n for n, s in enumerate(steps)
                 if isinstance(s, Attend) and s.to == "choose slits")
    promised = [n for n, s in enumerate(steps)
                if isinstance(s, Unthread) and s.reason is Reason.TO_SEW_SLIT]
    assert len(promised) == holes - 1
    for at in promised:
        thread = max(n for n, s in enumerate(steps[:at]) if isinstance(s, Thread))
        assert thread > begun and strip.trace.states[thread].side is strip.trace.states[at].side
    said = " ".join(steps_html(strip, proof.pattern, "band").split())
    assert "of main yarn" in said[said.index("Sew the foot"):]


@pytest.mark.parametrize(("name", "closing"), ASKED)
def test_both_fronts_mirror_in_every_kind(name: str, closing: ButtonholeKind | None) -> None:
    for front in Side:
        proof, _ = prove(banded(name, closing, rows=80, fold=Fold.LOOSE, front=front,
                                split=(4, 5)))
        assert proof is not None
        second, first = proof.sizes[0].strips  # that with the holes is last
        other, _ = prove(banded(name, closing, rows=80, fold=Fold.LOOSE, front=front.other,
                                split=(4, 5)))
        assert other is not None
        against = second if closing is None else other.sizes[0].strips[-1]
        assert tuple(map(mirrored, first.program.steps)) == against.program.steps


@pytest.mark.parametrize("name", KINDS)
def test_rows_come_to_the_layers_the_kind_has(name: str) -> None:
    """A folded kind knits its depth twice, and a row for the fold; a single one once. A facing has
    a row before its fold."""
    proof, _ = prove(banded(name, None, rows=80, fold=Fold.LOOSE, front=Side.RIGHT, split=(4, 5)))
    assert proof is not None
    strip = proof.sizes[0].strips[0]
    main = sum(s.rows for s in strip.program.steps
               if isinstance(s, Knit) and s.yarn == StepYarn.MAIN)
    kind = KINDS[name]
    if kind.lengthwise:  # its rows lie along the edge: as many as the edge has in its own fabric
        assert main == 80
        return
    assert main == 9 * kind.layers + (kind.fold is not None) + kind.faces


def test_a_facing_leaves_its_stitches_to_be_sewn_down() -> None:
    proof, _ = prove(banded("facing", None, rows=80, fold=Fold.TURNED, front=Side.RIGHT,
                            split=(4, 5)))
    assert proof is not None
    strip = proof.sizes[0].strips[0]
    off = [s for s in strip.program.steps if isinstance(s, TakeOff)]
    assert len(off) == 1 and strip.program.leaves == (off[0].edge,)
    assert dict(strip.trace.states[-1].waiting)[off[0].edge] == strip.plan.stitches.value
