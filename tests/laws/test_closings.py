"""Slits, eyelets and loops in any band: whole parts, counts alike, one place in both layers."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.units import Length
from walebook.machine.reasons import Reason
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, Hold, Knit, Resume, Side, Thread, Transfer
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.model import Fold
from walebook.plan.hole_sizes import loop_chains, loop_length, slit_rows
from walebook.proof.proof import Strip, prove

from tests.laws.test_band_kinds import banded
from tests.scale import examples

KNITTED_ON = ("single", "folded")


def strip_of(kind: str, closing: ButtonholeKind, rows: int, fold: Fold,
             front: Side) -> Strip | None:
    """The band with its holes; None where the edge is too short for them."""
    proof, problems = prove(banded(kind, closing, rows=rows, fold=fold, front=front,
                                   split=(5, 6)))
    if proof is None:
        assert {p.code for p in problems if p.severity.value == "error"} <= {
            "hole-wider-than-gap", "holes-too-close"}
        return None
    return next(strip for strip in proof.sizes[0].strips if strip.with_holes)


EDGES = {"rows": st.integers(52, 220), "fold": st.sampled_from(Fold),
         "front": st.sampled_from(Side)}


@pytest.mark.parametrize("kind", KNITTED_ON)
@given(**EDGES)
@settings(max_examples=examples(20), deadline=None)
def test_every_part_between_slits_is_knitted_as_high_as_the_next(
        kind: str, rows: int, fold: Fold, front: Side) -> None:
    strip = strip_of(kind, ButtonholeKind.SLIT, rows, fold, front)
    if strip is None:
        return
    assert strip.plan.placing is not None and strip.plan.slit is not None
    parts = [s for s in strip.program.steps if isinstance(s, Knit) and
             s.reason in (Reason.OVER_FIRST_PART, Reason.OVER_PART)]
    layers = 2 if kind == "folded" else 1
    assert len(parts) == layers * (strip.plan.placing.buttonhole_count + 1)
    assert {s.rows for s in parts} == {strip.plan.slit.value}
    # A band with slits has as many stitches as one without, and no row of any part is missing.
    main = dict(strip.trace.stitches)[StepYarn.MAIN]
    every = layers * strip.plan.depth.value + (strip.plan.fold_rows.value if layers == 2 else 0) + 1
    assert main == every * strip.plan.stitches.value


@pytest.mark.parametrize("kind", KNITTED_ON)
@given(**EDGES)
@settings(max_examples=examples(20), deadline=None)
def test_all_that_is_held_goes_back_and_every_part_has_an_end_of_its_own(
        kind: str, rows: int, fold: Fold, front: Side) -> None:
    strip = strip_of(kind, ButtonholeKind.SLIT, rows, fold, front)
    if strip is None:
        return
    assert strip.plan.placing is not None
    held = sum(len(s.needles) for s in strip.program.steps if isinstance(s, Hold))
    back = sum(len(s.needles) for s in strip.program.steps if isinstance(s, Resume))
    assert held == back > 0
    fresh = [s for s in strip.program.steps if isinstance(s, Thread) and s.fresh]
    layers = 2 if kind == "folded" else 1
    assert len(fresh) == 1 + layers * strip.plan.placing.buttonhole_count


@pytest.mark.parametrize("kind", KNITTED_ON)
@given(**EDGES)
@settings(max_examples=examples(20), deadline=None)
def test_eyelets_lie_on_the_same_needles_in_every_layer(
        kind: str, rows: int, fold: Fold, front: Side) -> None:
    strip = strip_of(kind, ButtonholeKind.EYELET, rows, fold, front)
    if strip is None:
        return
    moved = [s for s in strip.program.steps
             if isinstance(s, Transfer) and s.reason is Reason.FOR_BUTTONHOLES]
    assert len(moved) == (2 if kind == "folded" else 1)
    assert len({(s.needles, s.by) for s in moved}) == 1
    assert strip.plan.placing is not None
    assert len(moved[0].needles) == strip.plan.placing.buttonhole_count


@pytest.mark.parametrize("kind", (*KNITTED_ON, "facing"))
@given(**EDGES)
@settings(max_examples=examples(20), deadline=None)
def test_loops_change_nothing_on_the_needles(
        kind: str, rows: int, fold: Fold, front: Side) -> None:
    strip = strip_of(kind, ButtonholeKind.LOOPS, rows, fold, front)
    if strip is None:
        return
    plain, _ = prove(banded(kind, None, rows=rows, fold=fold, front=front, split=(5, 6)))
    assert plain is not None
    assert strip.plan.placing is not None
    if strip.plan.stitches.value == plain.sizes[0].plans[0].stitches.value:
        assert dict(strip.trace.stitches) == dict(plain.sizes[0].strips[0].trace.stitches)
    marked = [s for s in strip.program.steps if isinstance(s, Attend) and s.to == "mark loops"]
    assert len(marked) == 1
    assert len(marked[0].needles) == strip.plan.placing.buttonhole_count * strip.plan.placing.hole


def test_the_slit_of_the_reference_page() -> None:
    """A button of 20 mm at 40 rows to 10 cm: 8 rows, less a tenth 7.2, nearest even 8; common
    practice, no source."""
    assert slit_rows(Length(Fraction(20)), Fraction(100, 40)).value == 8


@given(st.integers(3, 100), st.integers(1, 12))
def test_a_slit_is_even_and_a_loop_no_shorter_than_its_button_is_wide(mm: int, row: int) -> None:
    button = Length(Fraction(mm))
    slit = slit_rows(button, Fraction(row))
    assert slit.value >= 2 and slit.value % 2 == 0
    assert abs(slit.value * row - button.mm * Fraction(9, 10)) <= row or slit.value == 2
    assert button.mm * Fraction(3, 2) < loop_length(button).mm < button.mm * Fraction(8, 5)
    assert loop_chains(button, Fraction(row)).value >= 3
