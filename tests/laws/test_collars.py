"""What must hold for every collar: its rows, its points, its short rows, where it begins."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.catalogue.bands import KINDS
from walebook.core.units import Length
from walebook.machine.edge_steps import BindOff, Hang
from walebook.machine.needles import Needle
from walebook.machine.steps import Dial, Hold, Knit, SetDial, Side
from walebook.pattern.model import Band, CollarSpec, Fold, Pattern, Shown
from walebook.plan.graded import grade_dial, outer_edge
from walebook.proof.proof import Strip, prove

from tests import small_patterns as small
from tests.laws.bands import pattern
from tests.laws.test_spoiled_programs import SURVIVORS, spoiled
from tests.scale import examples

DIALS = st.integers(9, 18).map(Dial)
REFUSALS = {"bed-too-short", "points-too-sharp", "dial-too-far", "collar-too-deep",
            "collar-not-deeper"}


def cm(length: int) -> dict[str, Length]:
    return {"one": Length(Fraction(length * 10))}


def collared(kind: str, collar: CollarSpec, *, rows: int = 90, fold: Fold = Fold.LOOSE,
             split: tuple[int, int] = (9, 9)) -> Pattern:
    source = pattern(rows=rows, fold=fold, holes=0, split=split)
    band: Band = replace(source.bands["front"], kind=kind, collar=collar)
    return replace(source, bands={"front": band})


def strips_of(source: Pattern) -> tuple[Strip, ...]:
    """The collar for both fronts; none once it is seen that it was refused with its reason."""
    proof, problems = prove(source)
    if proof is None:
        assert {p.code for p in problems if p.severity.value == "error"} <= REFUSALS
        return ()
    for strip in proof.sizes[0].strips:
        assert strip.trace.refusal is None and not strip.trace.states[-1].loaded
    return proof.sizes[0].strips


def rows_on(strip: Strip) -> dict[Needle, int]:
    """How many rows the carriage knitted on every needle."""
    knitted: dict[Needle, int] = {}
    before = None
    for step, state in zip(strip.program.steps, strip.trace.states, strict=True):
        if isinstance(step, Knit):
            assert before is not None
            for needle in (before.loaded | step.fills) & before.working:
                knitted[needle] = knitted.get(needle, 0) + step.rows
        before = state
    return knitted


@given(rows=st.integers(30, 220), depth=st.integers(1, 9), back=st.integers(4, 20),
       shows=st.sampled_from([*Shown, None]), fold=st.sampled_from(Fold))
@settings(max_examples=examples(60), deadline=None)
def test_short_rows_add_up(rows: int, depth: int, back: int, shows: Shown | None, fold: Fold
                           ) -> None:
    """Both ends have the collar's rows, the middle those and two for every pair, each needle
    no fewer than its neighbour further out.

    A first step of one stitch is knitted over once more, before it is held on the carriage's side
    (Lace Carriage, Crew neck collar on a drop-shoulder sweater, S07).
    """
    source = collared("shawl collar" if shows else "double shawl collar",
                      CollarSpec(back_depth=cm(back), shows=shows), rows=rows, fold=fold,
                      split=(depth, depth + 1))
    for strip in strips_of(source):
        short = strip.plan.collar.short_rows
        assert short is not None
        counted = [rows for _, rows in sorted(rows_on(strip).items())]
        # A row a layer each, and the fold's; a step's last needle has one more in the first layer.
        layers = KINDS[strip.plan.band.kind].layers
        knitted = counted if layers == 1 else [
            (rows - strip.plan.fold_rows.value + 1) // 2 for rows in counted]
        half = len(knitted) // 2
        ends = [(short.first, knitted[0 if strip.layout.hem is Side.LEFT else -1]),
                (short.last, knitted[-1 if strip.layout.hem is Side.LEFT else 0])]
        for steps, at_end in ends:
            assert at_end == strip.plan.depth.value + (steps[0] == 1)
        assert knitted[half] == strip.plan.depth.value + 2 * short.pairs
        assert knitted[:half] == sorted(knitted[:half])
        assert knitted[half:] == sorted(knitted[half:], reverse=True)
        assert sum(short.first) + sum(short.last) < strip.plan.stitches.value


@given(rows=st.integers(30, 220), back=st.integers(4, 20))
@settings(max_examples=examples(20), deadline=None)
def test_several_needles_are_held_only_where_the_carriage_goes(rows: int, back: int) -> None:
    """University of Brighton knit notes, Short row or holding technique 1 (S06)."""
    for strip in strips_of(collared("shawl collar", CollarSpec(back_depth=cm(back)), rows=rows,
                                    split=(3, 3))):
        states = strip.trace.states
        for at, step in enumerate(strip.program.steps):
            if isinstance(step, Hold) and len(step.needles) > 1:
                knitting = states[at].loaded - states[at].holding
                far = step.needles.last < knitting.first
                assert states[at].side is (Side.RIGHT if far else Side.LEFT)


@given(kind=st.sampled_from(["shirt collar", "double shirt collar"]), points=st.integers(0, 9),
       outer=DIALS, fold=st.sampled_from(Fold), rows=st.integers(30, 200),
       shows=st.sampled_from(Shown))
@settings(max_examples=examples(40), deadline=None)
def test_points_come_at_both_ends_and_go_again_in_a_second_layer(
        kind: str, points: int, outer: Dial, fold: Fold, rows: int, shows: Shown) -> None:
    asked = CollarSpec(points=cm(points), outer_dial=outer,
                       shows=shows if kind == "shirt collar" else None)
    for strip in strips_of(collared(kind, asked, rows=rows, fold=fold)):
        plan = strip.plan
        most = max(len(state.loaded) for state in strip.trace.states)
        assert most == plan.widest == plan.stitches.value + 2 * plan.collar.points
        off = [s for s in strip.program.steps if isinstance(s, BindOff)][-1]
        layers = KINDS[kind].layers
        assert len(off.needles) == (plan.widest if layers == 1 else plan.stitches.value)
        main = sum(s.rows for s in strip.program.steps if isinstance(s, Knit))
        assert main == layers * plan.depth.value + (plan.fold_rows.value if layers == 2 else 0)


@given(rows=st.integers(1, 60), start=DIALS, end=DIALS)
def test_a_graded_dial_takes_all_rows_from_one_setting_to_the_other(
        rows: int, start: Dial, end: Dial) -> None:
    try:
        stretches = grade_dial(rows, start, end)
    except ValueError:
        assert abs(end.thirds - start.thirds) >= rows
        return
    lengths = [n for n, _ in stretches]
    assert sum(lengths) == rows and max(lengths) - min(lengths) <= 1
    assert (stretches[0][1], stretches[-1][1]) == (start, end)


@pytest.mark.parametrize("kind", ["stand collar", "double shirt collar"])
def test_a_second_layer_goes_back_through_the_same_settings(kind: str) -> None:
    source = collared(kind, CollarSpec(outer_dial=Dial(6)))
    for strip in strips_of(source):
        dials = [s.dial for s in strip.program.steps if isinstance(s, SetDial)]
        fold = len(dials) - 1 - dials[::-1].index(Dial(6 + 12))  # very loose, and no later
        after = dials[fold + 1:]
        assert dials[1:fold] == after[::-1]


@pytest.mark.parametrize(("kind", "collar"), [
    ("shawl collar", CollarSpec(back_depth=cm(8), shows=Shown.KNIT)),
    ("shirt collar", CollarSpec(points=cm(2), shows=Shown.PURL)),
    ("double shirt collar", CollarSpec(points=cm(2), outer_dial=Dial(14)))])
def test_spoiled_collars_are_refused(kind: str, collar: CollarSpec) -> None:
    """But for a row counter that is not set to the 0 it shows, and what any band survives."""
    survivors = {*SURVIVORS, ("dropped", "SetCounter")}
    strip = strips_of(collared(kind, collar, rows=60, split=(5, 5)))[0]
    passed = {(what, type(step).__name__) for what, step, program in spoiled(strip.program)
              if run(program).refusal is None}
    assert passed <= survivors


def test_a_collar_whose_knit_side_shows_is_hung_the_other_way_round() -> None:
    """The garment turned over: what began at the left of the bed begins at the right."""
    knit, purl = (strips_of(collared("shirt collar",
                                     CollarSpec(shows=shows)))[0] for shows in Shown)
    hung = [next(s for s in strip.program.steps if isinstance(s, Hang)) for strip in (knit, purl)]
    assert [h.from_side for h in hung] == [Side.RIGHT, Side.LEFT]


def test_the_outer_edge_at_another_dial_is_told_by_two_swatches() -> None:
    """Body at dial 7: 166.5 mm ÷ 30 = 5.55 mm; band at dial 5: 153 mm ÷ 30 = 5.1 mm: 0.225 mm a
    number (arithmetic; that stitches widen evenly with the dial is common practice, no source).
    120 stitches at dial 4 are 120 × 4.875 = 585 mm, where those at dial 5 are 612."""
    body = small.fabric("body", "7", small.swatch(30, "16.65 cm", 40, "16.15 cm"))
    band = small.fabric("band", "5", small.swatch(30, "15.3 cm", 40, "14.9 cm"))
    found = outer_edge(band, [body, band], 120, Dial(12))
    assert found is not None
    assert (found.each, found.made.value) == (Fraction(225, 1000), 585)
    assert found.other is body
    assert outer_edge(band, [band], 120, Dial(12)) is None
    assert outer_edge(band, [replace(body, chart="reeds"), band], 120, Dial(12)) is None
    wool = replace(body, yarn="silk")
    assert outer_edge(band, [wool, band], 120, Dial(12)) is None
