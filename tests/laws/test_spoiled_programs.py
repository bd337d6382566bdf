"""Programs spoiled by the thousand must be refused by the bed; every survivor is argued here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import pytest
from walebook.bed.run import run
from walebook.machine.steps import Claim, Knit, Program, Section, Side, Step
from walebook.model import Fold
from walebook.proof import Strip, prove

from tests.laws.bands import pattern

# What the bed cannot tell from a sound program, and why no count is wrong when it happens.
SURVIVORS = {
    ("dropped", "Attend"): "looking, weighting, marking and clipping leave no trace on needles",
    ("doubled", "Attend"): "the same",
    ("moved", "Attend"): "the same: the needles it names are for the eye; the hole's own step "
                         "names them again and is refused when moved",
    ("doubled", "Bring"): "needles already in work are brought to work again",
    ("doubled", "SetDial"): "a dial set twice to one number stands at that number",
    ("doubled", "SetCounter"): "a counter set twice to one number shows that number",
    ("dropped", "Unthread"): "only the last: the yarn stays in the feeder while the closing row "
                             "is made by hand from its far end",
    ("cut flipped", "Unthread"): "a yarn not cut hangs from the work; the next yarn is fresh",
    ("fresh flipped", "Thread"): "after a turn a new end instead of the hanging one: two more "
                                 "ends to darn, the same stitches",
    ("loose flipped", "HandKnit"): "how loosely a hand-made row lies is in the hand",
    ("rest flipped", "BindOff"): "where bare needles stand after the last step",
    ("toward flipped", "BindOff"): "the closing chain may begin at either end",
}


def strips() -> Iterator[Strip]:
    for fold, front in product(Fold, Side):
        proof, _ = prove(pattern(fold=fold, front=front))
        assert proof is not None
        yield from proof.sizes[0].strips


def spoiled(program: Program) -> Iterator[tuple[str, Step, Program]]:
    """Every spoiled version of a program: what was done, to which step, the program."""
    steps = list(program.steps)

    def with_steps(changed: list[Step]) -> Program:
        return replace(program, sections=(Section(title="", steps=tuple(changed)),))

    for at, step in enumerate(steps):
        before, after = steps[:at], steps[at + 1:]
        yield "dropped", step, with_steps(before + after)
        yield "doubled", step, with_steps([*before, step, step, *after])
        for what, change in changes(step):
            yield what, step, with_steps([*before, change, *after])


def changes(step: Step) -> Iterator[tuple[str, Step]]:
    """Every small wrong change of one step."""
    needles = getattr(step, "needles", None)
    if needles:
        yield "moved", replace(step, needles=needles.shifted(1))
        yield "moved", replace(step, needles=needles.shifted(-1))
    if isinstance(step, Knit):
        for by in (-1, 1, 2):
            yield "other rows", replace(step, rows=step.rows + by)
    for name in ("toward", "lean", "half_at", "from_side"):
        if getattr(step, name, None) is not None:
            yield f"{name} flipped", replace(step, **{name: getattr(step, name).other})
    for name in ("fresh", "cut", "rest", "keep_last", "onto_empty", "loose"):
        if hasattr(step, name):
            yield f"{name} flipped", replace(step, **{name: not getattr(step, name)})
    for claim in wrong_claims(step.claim):
        yield "wrong claim", replace(step, claim=claim)


def wrong_claims(claim: Claim) -> Iterator[Claim]:
    yield replace(claim, side=claim.side.other)
    for name in ("counter", "stitches", "loops"):
        yield replace(claim, **{name: getattr(claim, name) + 1})
        yield replace(claim, **{name: getattr(claim, name) - 1})


def test_spoiled_programs_are_refused_or_argued_by_name() -> None:
    made = 0
    lived: dict[tuple[str, str], int] = {}
    for strip in strips():
        assert strip.run.refusal is None
        for what, step, program in spoiled(strip.program):
            made += 1
            if run(program).refusal is None:
                key = (what, type(step).__name__)
                lived[key] = lived.get(key, 0) + 1
    assert made > 4000
    assert set(lived) == set(SURVIVORS)


def test_the_only_thread_out_that_may_be_missing_is_the_last() -> None:
    for strip in strips():
        last = [s for s in strip.program.steps if type(s).__name__ == "Unthread"][-1]
        lived = {id(step) for what, step, program in spoiled(strip.program)
                 if what == "dropped" and type(step).__name__ == "Unthread"
                 and run(program).refusal is None}
        assert lived == {id(last)}


def test_a_carriage_that_starts_on_the_wrong_side_is_refused() -> None:
    for strip in strips():
        wrong = replace(strip.program, starts=strip.program.starts.other)
        refusal = run(wrong).refusal
        assert refusal is not None and refusal.step == 1


@pytest.mark.parametrize("fold", Fold)
def test_two_neighbouring_steps_exchanged_are_refused_where_their_order_matters(fold: Fold) -> None:
    """Exchanged, a fold row and a rest of rows, or a hanging and its binding off, must fail."""
    proof, _ = prove(pattern(fold=fold))
    assert proof is not None
    program = proof.sizes[0].strips[0].program
    steps = list(program.steps)
    refused = 0
    for at in range(len(steps) - 1):
        pair = [steps[at + 1], steps[at]]
        changed = [*steps[:at], *pair, *steps[at + 2:]]
        result = run(replace(program, sections=(Section(title="", steps=tuple(changed)),)))
        kinds = {type(step).__name__ for step in pair}
        if result.refusal is None:
            assert kinds & {"Attend", "SetDial", "SetCounter", "Thread", "Bring"} or len(kinds) == 1
        else:
            refused += 1
    assert refused > len(steps) // 3
