"""Rows of two yarns on the bed: both ends followed, each loop of its yarn, what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest
from walebook.bed.run import run
from walebook.machine.needles import NONE, bed_of, between, needle
from walebook.machine.set_up_steps import Weight
from walebook.machine.steps import Dial, Program, Section, Side, Step
from walebook.machine.two_yarn_steps import KnitTwo, PickContrast, ThreadContrast, UnthreadContrast
from walebook.program.ledger import Ledger

ON = between(needle("L3"), needle("R3"))
PICKED = between(needle("L2"), needle("L1"))


def book() -> Ledger:
    """Six stitches and two rows of them, the carriage on the right."""
    made = Ledger(side=Side.RIGHT)
    made.set_counter(0)
    made.bring(ON)
    made.thread("main", fresh=True)
    made.set_dial(Dial(18))
    made.cast_on(ON, "by hand")
    made.hang_weights(Weight.EVEN, ON)
    made.knit(2)
    return made


def program(made: Ledger) -> Program:
    made.section("all")
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
    made.bind_off(ON, "main", toward=Side.RIGHT, keep_last=False, method="stitch over stitch")
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


def spoil(change: dict[type[Step], dict[str, object] | None], at: int = 0) -> str:
    """The code for which the bed refuses the program with its step of a kind changed or gone."""
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
    refusal = run(replace(done, sections=(Section(title="", steps=tuple(steps)),))).refusal
    assert refusal is not None
    return refusal.code


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
    assert spoil(change, at) == code


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
    made.bind_off(ON, "main", toward=Side.LEFT, keep_last=False, method="stitch over stitch")
    made.unthread(cut=True)
    refusal = run(program(made)).refusal
    assert refusal is not None and refusal.code == "end-uncut" and "contrast" in refusal.expected
    made.cut_contrast()
    assert run(program(made)).refusal is None


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
