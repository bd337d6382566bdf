"""Programs spoiled by the thousand must be refused by the bed; every survivor is argued here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

import pytest
from walebook.bed.run import run
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.machine.headings import Heading
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.set_up_steps import (
    Carriage,
    Couple,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Uncouple,
    Weight,
)
from walebook.machine.steps import Claim, Dial, Knit, SetCounter, Side, Step, Thread, Unthread
from walebook.machine.two_yarn_steps import SetYarns, Yarns
from walebook.pattern.model import Fold
from walebook.pattern.rib_specs import RibMake
from walebook.pattern.stitch_chart import StitchChart
from walebook.program.piece_program import piece_program
from walebook.proof.proof import SizeProof, Strip, prove
from walebook.shape.piece import Piece
from walebook.shape.profile import Profile

from tests.laws.bands import pattern
from tests.laws.test_tools_told import hat, proved
from tests.site.garments import assembled
from tests.small_patterns import cells_of

# What the bed cannot tell from a sound program, and why no count is wrong when it happens.
SURVIVORS = {
    ("dropped", "Attend"): "looking leaves no trace on needles; test_by_hand.py has each topic",
    ("doubled", "Attend"): "the same",
    ("moved", "Attend"): "a cloth or a fold lies along the whole bed; chosen needles and clips are "
                         "held in test_by_hand.py",
    ("doubled", "Bring"): "needles already in work are brought to work again",
    ("doubled", "SetDial"): "a dial set twice to one number stands at that number",
    ("doubled", "SetCounter"): "a counter set twice to one number shows that number",
    ("doubled", "SetCarriage"): "a lever set twice to one place stands there",
    ("other lever", "SetCarriage"): "set to hold where no needle is held it knits as well, and is "
                                    "set anew before the end",
    ("cut flipped", "Unthread"): "ravel cord that is cut can still be drawn out",
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
        return replace(program, sections=(
            ProgramSection(heading=Heading.BODY, steps=tuple(changed)),))

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
    if isinstance(step, SetYarns):
        yield "other setting", replace(step, to=Yarns.ONE if step.to is Yarns.TWO else Yarns.TWO)
    if isinstance(step, SetCarriage):
        for to in set(Carriage) - {step.to}:
            yield "other lever", replace(step, to=to)
    for claim in wrong_claims(step.claim):
        yield "wrong claim", replace(step, claim=claim)


def wrong_claims(claim: Claim) -> Iterator[Claim]:
    yield claim._replace(side=claim.side.other)
    for name in ("counter", "stitches", "loops"):
        yield claim._replace(**{name: getattr(claim, name) + 1})
        yield claim._replace(**{name: getattr(claim, name) - 1})


def test_spoiled_programs_are_refused_or_argued_by_name() -> None:
    made = 0
    lived: dict[tuple[str, str], int] = {}
    for strip in strips():
        assert strip.trace.refusal is None
        for what, step, program in spoiled(strip.program):
            made += 1
            if run(program).refusal is None:
                key = (what, type(step).__name__)
                lived[key] = lived.get(key, 0) + 1
    assert made > 4000
    assert set(lived) == set(SURVIVORS)


# What was never said before is refused where it is left out, by the code that names it.
SET_UP_CODES = {
    (SetCounter, "counter-unset"), (SetCounter, "wrong-claim"), (HangWeights, "no-weight"),
    (HangWeights, "no-weights"), (HangWeights, "no-claws"), (TakeWeightsOff, "weights-on"),
    (TakeWeightsOff, "weights-hang"), (SetCarriage, "hold-off"), (SetCarriage, "carriage-slips"),
    (SetCarriage, "pass-knits"), (SetCarriage, "lever-left"), (SetCarriage, "lever-wrong"),
    (Unthread, "feeder-full"), (Unthread, "end-uncut"), (Thread, "feeder-empty"),
    (Couple, "arm-off"), (Uncouple, "arm-on"), (SetYarns, "two-yarns-off"),
    (SetYarns, "two-yarns-on")}


OTHER_CODES = ("feeder-empty", "wrong-yarn", "feeder-full", "no-such-end")


def whole_sizes() -> Iterator[SizeProof]:
    """A cardigan with held shoulders, a pullover with a held neck, a hat with a rib of two beds."""
    yield assembled("set-in cardigan").sizes[0]
    yield assembled("drop-shoulder pullover").sizes[0]
    yield proved(hat("2x2", RibMake.TWO_BED))


def whole_programs() -> Iterator[Program]:
    """All of these sizes, and a panel whose chart has rows of one yarn and rows of two."""
    for size in whole_sizes():
        yield from (work.program for work in (*size.pieces, *size.strips))
    rows = tuple(map(cells_of, ("||||", "x|xx", "|x||", "||||")))
    yield piece_program(
        Piece(key="panel", title="Panel", stitches=stated(14, Unit.STITCHES),
              left=Profile(12), right=Profile(12),
              chart=StitchChart(title="any", rows=rows, edge=1)),
        dial=Dial(18), bed_needles=200)


def test_a_step_that_sets_the_machine_up_is_missed_wherever_it_is_left_out() -> None:
    """Counter, levers, weights, arm, ends: every such step of whole sizes, dropped alone."""
    kinds = tuple({kind for kind, _ in SET_UP_CODES})
    missed: dict[type[Step], int] = {}
    for program in whole_programs():
        for at, step in enumerate(steps := program.steps):
            if not isinstance(step, kinds):
                continue
            refusal = run(replace(program, sections=(
                ProgramSection(heading=Heading.BODY, steps=(*steps[:at], *steps[at + 1:])),
                ))).refusal
            if refusal is None:
                assert _is_spare(step, steps[at + 1:]), (program.name, at, step)
            else:
                assert (type(step), refusal.code) in SET_UP_CODES or \
                    refusal.code in OTHER_CODES, (step, str(refusal))
                missed[type(step)] = missed.get(type(step), 0) + 1
    assert set(missed) == set(kinds) and sum(missed.values()) > 100


def test_a_yarn_that_is_never_cut_hangs_from_the_work_and_is_refused() -> None:
    """Every cut of whole sizes left out alone: the carriage would drag that end along."""
    cuts, codes = 0, set()
    for program in (*whole_programs(), *(strip.program for strip in strips())):
        yarn = ""
        for at, step in enumerate(steps := program.steps):
            yarn = step.yarn if isinstance(step, Thread) else yarn
            if isinstance(step, Unthread) and step.cut and yarn != program.cord_yarn:
                refusal = run(replace(program, sections=(ProgramSection(
                    heading=Heading.BODY,
                    steps=(*steps[:at], replace(step, cut=False), *steps[at + 1:])),))).refusal
                assert refusal, (program.name, at, step)
                codes.add(refusal.code)
                cuts += 1
    assert cuts > 40 and codes <= {"end-uncut", "feeder-full"}, codes


def _is_spare(step: Step, later: Sequence[Step]) -> bool:
    """Two that may be missing: claw weights moved while they still pull at stitches in work; and
    the lever back to knit where it is set again before the end, as no needle is held meanwhile."""
    if isinstance(step, SetCarriage):
        return step.to is Carriage.KNIT and any(isinstance(s, SetCarriage) for s in later)
    return isinstance(step, HangWeights) and step.weight is Weight.CLAWS


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
        result = run(replace(program, sections=(
            ProgramSection(heading=Heading.BODY, steps=tuple(changed)),)))
        kinds = {type(step).__name__ for step in pair}
        if result.refusal is None:
            assert kinds & {"Attend", "SetDial", "SetCounter", "SetCarriage", "Thread", "Bring",
                            "TakeWeightsOff"} or len(kinds) == 1, kinds
        else:
            refused += 1
    assert refused > len(steps) // 3
