"""Rows of two yarns on the bed: both ends followed, each loop of its yarn, what is refused."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.bed.state import Refused
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.machine.headings import Heading
from walebook.machine.needles import NONE, bed_of, between
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.rib_steps import Beds
from walebook.machine.set_up_steps import Carriage, HangWeights, Weight
from walebook.machine.step_keys import BindOffMethod, CastOnMethod
from walebook.machine.steps import Dial, Knit, Resume, Side, Step
from walebook.machine.two_yarn_steps import (
    KnitTwo,
    PickContrast,
    SetYarns,
    ThreadContrast,
    UnthreadContrast,
    Yarns,
)
from walebook.pattern.stitch_chart import StitchChart
from walebook.program.ledger import Ledger
from walebook.program.piece_program import piece_program
from walebook.shape.piece import Piece
from walebook.shape.profile import Change, How, Profile
from walebook.words.two_yarn_instructions import contrast_text

from tests.laws import pieces
from tests.laws.test_pieces import opened
from tests.needle_names import needle
from tests.scale import examples
from tests.small_patterns import cells_of

ON = between(needle("L3"), needle("R3"))
PICKED = between(needle("L2"), needle("L1"))


def cast_on() -> Ledger:
    """Six stitches cast on by hand, the carriage on the right."""
    made = Ledger(side=Side.RIGHT)
    made.set_counter(0)
    made.bring(ON)
    made.thread("main", fresh=True)
    made.set_dial(Dial(18))
    made.cast_on(ON, CastOnMethod.BY_HAND)
    made.hang_weights(Weight.EVEN, ON)
    return made


def book() -> Ledger:
    """Those stitches and two rows of them."""
    made = cast_on()
    made.knit(2)
    return made


def program(made: Ledger) -> Program:
    made.section(Heading.BODY)
    return Program(name="two", bed=bed_of(40), starts=Side.RIGHT, sections=tuple(made.sections),
                   totals=made.totals)


def two_rows() -> Program:
    """Two rows of two yarns, two plain ones while the contrast hangs, and one more row of both."""
    made = book()
    for rows in (2, 1):
        made.thread_contrast("contrast")
        for _ in range(rows):
            made.pick(PICKED)
            made.knit_two()
        made.unthread_contrast(cut=rows == 1)
        made.knit(2)
    made.bind_off(ON, "main", toward=Side.RIGHT, keep_last=False, method=BindOffMethod.STITCH_OVER)
    made.unthread(cut=True)
    return program(made)


def test_both_yarns_are_counted_and_each_loop_is_of_its_own() -> None:
    done = two_rows()
    result = run(done)
    assert result.refusal is None, str(result.refusal)
    assert dict(result.rows) == {"main": 9, "contrast": 3}
    assert dict(result.stitches) == {"main": 9 * 6 - 3 * 2, "contrast": 3 * 2}
    for step, state in zip(done.steps, result.states, strict=False):
        if isinstance(step, KnitTwo):
            assert state.on("contrast") == PICKED and state.loaded == ON
            assert state.on("main") == ON - PICKED
    fresh = [step.fresh for step in done.steps if isinstance(step, ThreadContrast)]
    assert fresh == [True, False]  # after two plain rows the end hangs where the carriage is


def refused(change: dict[type[Step], dict[str, object] | None], at: int = 0) -> Refused:
    """The refusal of the program with its step of a kind changed or gone."""
    done, seen = two_rows(), dict.fromkeys(change, 0)
    steps: list[Step] = []
    for step in done.steps:
        kind = type(step)
        if kind in change:
            seen[kind] += 1
            if seen[kind] == at + 1:
                if (new := change[kind]) is not None:
                    steps.append(replace(step, **new))  # type: ignore[arg-type]
                continue
        steps.append(step)
    refusal = run(replace(done, sections=(
        ProgramSection(heading=Heading.BODY, steps=tuple(steps)),))).refusal
    assert refusal is not None
    return refusal


@pytest.mark.parametrize(("change", "at", "code"), [
    ({ThreadContrast: None}, 0, "contrast-missing"),
    ({ThreadContrast: {"yarn": "main"}}, 0, "wrong-yarn"),
    ({ThreadContrast: {"yarn": ""}}, 0, "no-yarn"),
    ({ThreadContrast: {"fresh": False}}, 0, "no-such-end"),
    ({UnthreadContrast: None}, 0, "contrast-idle"),
    ({UnthreadContrast: {"cut": True}}, 0, "no-such-end"),
    ({PickContrast: None}, 0, "picks-mismatch"),
    ({PickContrast: {"needles": NONE}}, 0, "no-needles"),
    ({PickContrast: {"needles": PICKED.shifted(9)}}, 0, "not-in-work"),
    ({KnitTwo: {"picks": PICKED.shifted(1)}}, 0, "picks-mismatch"),
    ({KnitTwo: {"rows": 2}}, 0, "chosen-rows"),
    ({KnitTwo: {"contrast": "other"}}, 0, "wrong-yarn"),
    ({KnitTwo: {"passes": PICKED}}, 0, "two-yarns-passed"),
    ({KnitTwo: {"fills": PICKED}}, 0, "fills-mismatch"),
    ({PickContrast: {"needles": ON}, KnitTwo: {"picks": ON}}, 0, "row-of-one-yarn"),
])
def test_a_spoiled_row_of_two_yarns_is_refused(change: dict[type[Step], dict[str, object] | None],
                                               at: int, code: str) -> None:
    assert refused(change, at).code == code


# Set for two yarns, the carriage lays the second feeder's on every needle in upper working
# position, and a carriage without yarn drops the work ("Knitting with 2 carriages",
# alessandrina.com, 2011-03). That needles worked by hand stand so: common practice, no source.
@pytest.mark.parametrize(("change", "at", "code"), [
    ({SetYarns: None}, 0, "two-yarns-off"),
    ({SetYarns: {"to": Yarns.ONE}}, 0, "two-yarns-off"),
    ({SetYarns: None}, 1, "two-yarns-on"),
    ({SetYarns: {"to": Yarns.TWO}}, 1, "two-yarns-on"),
    ({SetYarns: None}, 2, "two-yarns-off"),
    ({SetYarns: None}, 3, "two-yarns-on"),
])
def test_a_carriage_set_for_other_yarns_than_the_row_has_is_refused(
        change: dict[type[Step], dict[str, object] | None], at: int, code: str) -> None:
    assert refused(change, at).code == code


@pytest.mark.parametrize(("at", "left"), [(0, "one yarn"), (1, "two yarns")])
def test_a_refusal_names_the_yarns_that_the_carriage_is_still_set_for(at: int, left: str) -> None:
    assert refused({SetYarns: None}, at).found == f"set to knit {left}"


def test_the_setting_is_in_the_bed_and_back_at_the_end() -> None:
    done = two_rows()
    result = run(done)
    for step, state in zip(done.steps, result.states, strict=False):
        if isinstance(step, KnitTwo):
            assert state.yarns is Yarns.TWO
    assert result.states[-1].yarns is Yarns.ONE
    end = SetYarns(to=Yarns.TWO, claim=done.steps[-1].claim)
    left = run(replace(done, sections=(
        *done.sections, ProgramSection(heading=Heading.BODY, steps=(end,))))).refusal
    assert left is not None and left.code == "lever-left" and "two yarns" in left.found


def waste_rows() -> Ledger:
    """Work whose stitches come off on waste yarn, after its setting."""
    made = book()
    made.unthread(cut=True)
    made.set_yarns(Yarns.TWO)
    made.take_off(ON, "top")
    return made


def first_row() -> Ledger:
    """A cast-on by hand, which leaves its needles forward, and its first row."""
    made = cast_on()
    made.set_yarns(Yarns.TWO)
    made.knit(1)
    return made


def both_beds() -> Ledger:
    """A zigzag row over both beds."""
    made = Ledger(side=Side.RIGHT)
    made.set_counter(0)
    made.raise_second()
    made.couple()
    made.set_yarns(Yarns.TWO)
    made.rack(-1)
    made.bring(ON)
    made.bring_second(ON)
    made.thread("main", fresh=True)
    made.set_dial(Dial(18))
    made.set_carriage(Carriage.KNIT, Beds.BOTH)
    made.zigzag(ON, ON)
    return made


@pytest.mark.parametrize("made", [waste_rows, first_row, both_beds])
def test_no_other_row_is_knitted_with_the_carriage_set_for_two_yarns(
        made: Callable[[], Ledger]) -> None:
    """Waste yarn, the first row after a cast-on by hand, and a row of both beds lay one yarn."""
    done = replace(program(made()), second=bed_of(40))
    refusal = run(done).refusal
    assert refusal is not None and refusal.code == "two-yarns-on", str(refusal)
    assert refusal.step == len(done.steps)
    rest = tuple(step for step in done.steps if not isinstance(step, SetYarns))
    without = run(replace(done, sections=(ProgramSection(heading=Heading.BODY, steps=rest),)))
    assert len(without.states) == len(rest), "only the setting was wrong"


def test_a_chart_of_two_yarns_in_every_row_says_when_they_begin() -> None:
    """The yarn goes in and the carriage is set before row 1, once; the words say both."""
    made = Piece(key="panel", title="Panel", stitches=stated(12, Unit.STITCHES),
                 left=Profile(6), right=Profile(6),
                 chart=StitchChart(title="any", rows=(cells_of("x|"), cells_of("|x"))))
    done = piece_program(made, dial=Dial(18), bed_needles=200)
    assert run(done).refusal is None
    begins = next(s for s in done.sections if s.heading is Heading.CHART).steps
    acts = [type(step) for step in begins if not isinstance(step, HangWeights)]
    assert acts[:3] == [Resume, ThreadContrast, SetYarns]  # it was cast on by hand
    assert [s.to for s in done.steps if isinstance(s, SetYarns)] == [Yarns.TWO, Yarns.ONE]
    assert made.placed is not None
    said = contrast_text(made.placed)
    assert "Before row 1 put a new end of it into the second feeder." in said
    assert "Set the carriage to knit two yarns in a row." in said


def test_the_hanging_end_is_taken_up_at_its_own_side_only() -> None:
    made = book()
    made.thread_contrast("contrast")
    made.pick(PICKED)
    made.knit_two()
    made.unthread_contrast(cut=False)
    made.knit(1)
    made.hanging = made.side  # as if it hung here
    made.thread_contrast("contrast")
    refusal = run(program(made)).refusal
    assert refusal is not None and refusal.code == "yarn-side"


def test_a_contrast_yarn_left_hanging_is_cut_in_the_end() -> None:
    """In one size of a hat the last row of two yarns lay four rows below the end."""
    made = book()
    made.thread_contrast("contrast")
    made.pick(PICKED)
    made.knit_two()
    made.unthread_contrast(cut=False)
    made.knit(3)
    made.bind_off(ON, "main", toward=Side.LEFT, keep_last=False, method=BindOffMethod.STITCH_OVER)
    made.unthread(cut=True)
    refusal = run(program(made)).refusal
    assert refusal is not None and refusal.code == "end-uncut" and "contrast" in refusal.expected
    made.cut_contrast()
    assert run(program(made)).refusal is None


def tapering(seed: int) -> Piece:
    """A piece that narrows to a few stitches, knitted from a chart of two colours, both drawn."""
    drawn = Random(seed)
    width, high = drawn.choice((3, 4)), drawn.randint(2, 8)
    rows = ["|" + "".join(drawn.choice("|x") for _ in range(width - 1)) if drawn.random() < .5
            else "|" * width for _ in range(high)]
    rows[0] = rows[0] if any("x" in row for row in rows) else "|" + "x" * (width - 1)
    stitches, row, changes = drawn.randint(8, 16), 0, []
    for _ in range((stitches - 2) // 2):
        row += drawn.randint(1, 3)
        changes.append(Change(row, 1, How.DECREASE))
    edge = Profile(row + drawn.randint(2, 9), tuple(changes))
    chart = StitchChart(title="Two", rows=tuple(map(cells_of, rows)), edge=drawn.randint(1, 2))
    return Piece(key="taper", title="Taper", stitches=stated(stitches, Unit.STITCHES), left=edge,
                 right=edge, chart=chart)


def test_a_contrast_yarn_that_no_stitch_is_left_for_is_cut() -> None:
    """It was left hanging for a row of which the edges then left no stitch, and began anew."""
    refused = {seed: str(refusal) for seed in range(150)
               if (refusal := pieces.knit(tapering(seed))[1].refusal)}
    assert not refused


@st.composite
def divided(draw: st.DrawFn) -> Piece:
    """A piece that divides at a neck, both colours in every row of its chart."""
    width = draw(st.integers(3, 5))
    rows = tuple(f"|{draw(st.text('|x', min_size=width - 2, max_size=width - 2))}x"
                 for _ in range(draw(st.integers(1, 4))))
    chart = StitchChart(title="Two", rows=tuple(map(cells_of, rows)), edge=draw(st.integers(1, 2)))
    piece = replace(draw(opened()), chart=chart)
    return draw(st.sampled_from((piece, replace(piece, hem=None))))


@given(divided())
@settings(max_examples=examples(25), deadline=None)
def test_needles_put_back_before_a_row_of_two_yarns_take_the_contrast_only_where_picked(
        piece: Piece) -> None:
    """In upper working position every one takes it (site: techniques/stitch-chart): those that the
    row does not pick are lowered, and a program that leaves them there is refused."""
    made, result = pieces.knit(piece)
    assert result.refusal is None, str(result.refusal)
    up, lowered = NONE, []
    for at, step in enumerate(made.steps):
        if isinstance(step, Resume):
            up |= step.needles
        elif isinstance(step, PickContrast):
            assert step.lowered <= up
            up -= step.lowered
            lowered += [at] * bool(step.lowered)
        elif isinstance(step, Knit):
            assert not isinstance(step, KnitTwo) or up <= step.picks
            up = NONE
    assert len(lowered) == 1 + (piece.hem is None)  # cast on by hand
    for at in lowered:
        steps = (*made.steps[:at], replace(made.steps[at], lowered=NONE), *made.steps[at + 1:])
        refusal = run(replace(made, sections=(
            ProgramSection(heading=Heading.BODY, steps=steps),))).refusal
        assert refusal is not None and (refusal.code, refusal.step) == ("pick-raised", at + 1)


@pytest.mark.parametrize("step", ["knit", "free_pass", "thread"])
def test_a_contrast_yarn_in_its_feeder_is_not_forgotten(step: str) -> None:
    """A plain row would float it across the work; the carriage would drag it along."""
    made = book()
    made.thread_contrast("contrast")
    if step == "knit":
        made.knit(1)
    else:
        made.unthread(cut=True)
        made.free_pass() if step == "free_pass" else made.thread_contrast("other")
    refusal = run(program(made)).refusal
    assert refusal is not None
    assert refusal.code == {"knit": "contrast-idle", "free_pass": "feeder-full",
                            "thread": "feeder-empty"}[step]


def test_nothing_comes_between_picking_and_the_row() -> None:
    made = book()
    made.thread_contrast("contrast")
    made.pick(PICKED)
    made.set_dial(Dial(20))
    refusal = run(program(made)).refusal
    assert refusal is not None and refusal.code == "row-chosen"
