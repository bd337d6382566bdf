"""The virtual bed runs what a machine can knit and refuses the rest.

The programs are typed out from knitting practice, their claims counted by hand beside them.
Sources are the published cases D02, D04, D09 (folded bands), S02, S06, S07 (short rows) and
M07 (bed layout); what has none is marked.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import DOES, run
from walebook.bed.set_up_effects import need_set_back
from walebook.bed.state import Bed, Refused
from walebook.machine import edge_steps, rib_steps, set_up_steps, steps, two_yarn_steps
from walebook.machine.edge_steps import (
    BindOff,
    CloseUp,
    DrawCord,
    Hang,
    TakeOff,
    lower,
    upper,
)
from walebook.machine.headings import Heading
from walebook.machine.needles import NONE, Needle, Needles, bed_of, between, every_other, of
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.set_up_steps import (
    Carriage,
    CutEnd,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Weight,
)
from walebook.machine.step_keys import BindOffMethod, CastOnMethod, Topic
from walebook.machine.steps import (
    Attend,
    Bring,
    CastOn,
    Claim,
    Dial,
    FreePass,
    HandKnit,
    Hold,
    Increase,
    Knit,
    Position,
    Resume,
    SetCounter,
    SetDial,
    Side,
    Slip,
    Step,
    Thread,
    Transfer,
    Tuck,
    TurnLoop,
    TurnWork,
    Unthread,
)
from walebook.machine.tools import Tool, Use
from walebook.machine.trace import Trace
from walebook.machine.two_yarn_steps import PickContrast, ThreadContrast

from tests.needle_names import needle
from tests.scale import examples

L, R = Side.LEFT, Side.RIGHT
CHAINED, PEGS, WOUND = BindOffMethod.CHAINED, BindOffMethod.GATE_PEGS, CastOnMethod.WASTE_START
D5, D7 = Dial(15), Dial(21)


def ns(first: str, last: str = "") -> Needles:
    return between(needle(first), needle(last or first))


def at(counter: int, stitches: int, loops: int, side: Side) -> Claim:
    return Claim(counter=counter, stitches=stitches, loops=loops, side=side)


ANY = at(0, 0, 0, R)  # for a step that must be refused before its claim is read


def make(*parts: Step, starts: Side = R, bed: int = 20, **more: object) -> Program:
    return Program(name="trial", bed=bed_of(bed), starts=starts,
                   sections=(ProgramSection(heading=Heading.BODY, steps=parts),),
                   **more)  # type: ignore[arg-type]


def ran(program: Program) -> Trace:
    result = run(program)
    assert result.refusal is None, str(result.refusal)
    return result


def refused(program: Program, code: str, on: Needles | None = None) -> None:
    """Assert that the last step of `program` is refused with `code`, at the needles `on`."""
    result = run(program)
    assert result.refusal is not None, f"{code} was let pass"
    assert result.refusal.code == code, str(result.refusal)
    assert result.refusal.step == len(program.steps)
    assert len(result.states) == result.refusal.step - 1
    assert result.refusal.expected and result.refusal.found
    if on is not None:
        assert result.refusal.needles == on


# ------------------------------------------------------- a folded band with one hole, by hand

ALL = ns("L5", "R4")  # 9 stitches; the odd one is left of the centre
HOLE = ns("L3", "L1")  # 2 stitches, a hole of 3, 4 stitches
CLOSE = ns("L4", "L1")  # 4 loops for a hole of 3 (D04), taken to the left, as the first row is
LOW, HIGH = lower("hole 1"), upper("hole 1")
# 12 rows of garment, three stitches for every four rows (common practice, no source): 9
PICKS = (1, 2, 3, 5, 6, 7, 9, 10, 11)

BAND_STEPS: tuple[Step, ...] = (
    SetCounter(rows=0, claim=at(0, 0, 0, R)),
    Bring(needles=ALL, position=Position.WORKING, claim=at(0, 0, 0, R)),
    SetDial(dial=D7, claim=at(0, 0, 0, R)),
    Thread(yarn="waste", fresh=True, claim=at(0, 0, 0, R)),
    CastOn(needles=ALL, method=WOUND, claim=at(0, 9, 9, R)),
    HangWeights(weight=Weight.EVEN, needles=ALL, claim=at(0, 9, 9, R)),
    Knit(rows=6, yarn="waste", dial=D7, claim=at(6, 9, 9, R)),
    Unthread(cut=True, claim=at(6, 9, 9, R)),
    Thread(yarn="ravel cord", fresh=True, claim=at(6, 9, 9, R)),
    Knit(rows=1, yarn="ravel cord", dial=D7, claim=at(7, 9, 9, L)),
    Unthread(cut=True, claim=at(7, 9, 9, L)),
    # the band itself: RC 000
    SetCounter(rows=0, claim=at(0, 9, 9, L)),
    SetDial(dial=D5, claim=at(0, 9, 9, L)),
    Thread(yarn="main", fresh=True, claim=at(0, 9, 9, L)),
    Knit(rows=4, yarn="main", dial=D5, claim=at(4, 9, 9, L)),
    HandKnit(needles=HOLE, yarn="contrast", cord="hole 1", claim=at(4, 9, 9, L)),
    Knit(rows=2, yarn="main", dial=D5, claim=at(6, 9, 9, L)),
    # the fold: a turned row; main hangs left, goes right with the work, so the carriage must too
    Unthread(cut=False, claim=at(6, 9, 9, L)),
    SetCarriage(to=Carriage.SLIP, claim=at(6, 9, 9, L)),
    FreePass(claim=at(7, 9, 9, R)),
    TakeWeightsOff(claim=at(7, 9, 9, R)),
    TurnWork(claim=at(7, 9, 9, R)),
    HangWeights(weight=Weight.EVEN, needles=ALL, claim=at(7, 9, 9, R)),
    SetCarriage(to=Carriage.KNIT, claim=at(7, 9, 9, R)),
    Thread(yarn="main", fresh=False, claim=at(7, 9, 9, R)),
    Knit(rows=1, yarn="main", dial=D5, claim=at(8, 9, 9, L)),
    Unthread(cut=False, claim=at(8, 9, 9, L)),
    SetCarriage(to=Carriage.SLIP, claim=at(8, 9, 9, L)),
    FreePass(claim=at(9, 9, 9, R)),
    TakeWeightsOff(claim=at(9, 9, 9, R)),
    TurnWork(claim=at(9, 9, 9, R)),
    HangWeights(weight=Weight.EVEN, needles=ALL, claim=at(9, 9, 9, R)),
    SetCarriage(to=Carriage.KNIT, claim=at(9, 9, 9, R)),
    Thread(yarn="main", fresh=False, claim=at(9, 9, 9, R)),
    # as many rows after the fold as before it (D04)
    Knit(rows=2, yarn="main", dial=D5, claim=at(11, 9, 9, R)),
    # closing: 9 + 4 loops; 4 needles of 2 loops bound off, one stitch kept: 13 - 8 + 1 = 6
    TakeWeightsOff(claim=at(11, 9, 9, R)),
    Hang(edge=HIGH, needles=CLOSE, onto_empty=False, lean=L, claim=at(11, 9, 13, R)),
    BindOff(needles=CLOSE, yarn="main", toward=L, keep_last=True, method=PEGS, layers=2,
            claim=at(11, 6, 6, R)),
    Hang(edge=LOW, needles=HOLE, onto_empty=True, claim=at(11, 9, 9, R)),
    DrawCord(edge="hole 1", claim=at(11, 9, 9, R)),
    Attend(to=Topic.CHOOSE_HOLES, needles=ALL, claim=at(11, 9, 9, R)),
    HangWeights(weight=Weight.EVEN, needles=ALL, claim=at(11, 9, 9, R)),
    Knit(rows=4, yarn="main", dial=D5, claim=at(15, 9, 9, R)),
    Unthread(cut=True, claim=at(15, 9, 9, R)),
    TakeWeightsOff(claim=at(15, 9, 9, R)),
    # the garment and the first row on top: 9 + 9 + 9 loops
    Hang(edge="front", needles=ALL, onto_empty=False, picks=PICKS, from_side=L,
         claim=at(15, 9, 18, R)),
    # row 1 began at the left and ended at the right, where it gives its half loop (W3-006)
    Hang(edge="first row", needles=ALL, onto_empty=False, half_at=R, claim=at(15, 9, 27, R)),
    HandKnit(needles=ALL, yarn="main", loose=True, claim=at(15, 9, 9, R)),
    DrawCord(edge="first row", claim=at(15, 9, 9, R)),  # after the row that joins (W3-001)
    BindOff(needles=ALL, yarn="main", toward=L, keep_last=False, method=CHAINED, layers=1,
            rest=True, claim=at(15, 0, 0, R)),
    Attend(to="count back", claim=at(15, 0, 0, R)),  # the pins that marked the garment's rows
)


def band(*parts: Step, **more: object) -> Program:
    settings: dict[str, object] = {"edges": (("front", 12),), "first_row": "first row",
                                   "cord_yarn": "ravel cord", "waste_yarn": "waste"}
    return make(*parts, **(settings | more))


def found(kind: type[Step], nth: int = 0) -> int:
    return [i for i, step in enumerate(BAND_STEPS) if isinstance(step, kind)][nth]


def up_to(place: int, *then: Step) -> Program:
    return band(*BAND_STEPS[:place], *then)


HANG_HIGH, HANG_LOW, HANG_FRONT, HANG_FIRST = (found(Hang, n) for n in range(4))
CLOSING_ROW = found(HandKnit, 1)


def test_folded_band_runs_from_empty_bed_to_empty_bed() -> None:
    result = ran(band(*BAND_STEPS))
    assert len(result.states) == len(BAND_STEPS)
    # by carriage 4 + 2 + 1 + 2 + 4 = 13 rows, and one by hand: 14 rows, 14 × 9 = 126 stitches
    assert dict(result.rows) == {"waste": 6, "ravel cord": 1, "main": 14}
    assert dict(result.stitches) == {"waste": 54, "ravel cord": 9, "contrast": 3, "main": 126}
    assert result.states[-1].loops == result.states[-1].waiting == ()
    assert not result.states[-1].working


def test_hole_of_three_offers_four_loops_from_its_other_side() -> None:
    state = ran(band(*BAND_STEPS)).states[found(Knit, 3)]
    assert dict(state.waiting) == {"front": 12, "first row": 9, LOW: 3, HIGH: 4}  # D04


def test_trace_shows_cord_then_closing_loops_then_empty_needles() -> None:
    states = ran(band(*BAND_STEPS)).states
    assert states[found(HandKnit)].on("contrast") == HOLE
    assert states[HANG_HIGH].doubled == CLOSE
    assert states[HANG_HIGH + 1].loaded == ALL - HOLE  # n empty needles after binding off n + 1
    assert states[HANG_LOW].on(LOW) == HOLE


@pytest.mark.parametrize(("hole", "loops"), [
    (ns("L5", "L3"), 3),  # one end at a free edge: its half loop is drawn away
    (ns("R2", "R4"), 3),
    (ALL, 8),  # both ends free: n - 1 (D09: 9 stitches up, 8 loops down)
    (ns("L2", "R2"), 5),  # inside: n + 1 (D04)
])
def test_openings_at_the_edge_offer_fewer_loops(hole: Needles, loops: int) -> None:
    place = found(HandKnit)
    knit_hole = replace(BAND_STEPS[place], needles=hole)  # type: ignore[call-arg]
    result = run(up_to(place, knit_hole, BAND_STEPS[place + 1]))
    assert dict(result.states[-1].waiting)[HIGH] == loops


def test_opening_turns_with_the_work() -> None:
    # reversed between L5 and R4, L3 L2 L1 become R2 R1 L1; four loops to the right: L1–R3
    once = found(TurnWork)
    on_top = Hang(edge=HIGH, needles=ns("L1", "R3"), onto_empty=False, lean=R,
                  claim=at(8, 9, 13, L))
    light = (*BAND_STEPS[once + 1:once + 5], TakeWeightsOff(claim=at(8, 9, 9, L)))

    def turned(*then: Step) -> Program:
        return up_to(once + 1, *light, *then)

    result = run(turned(on_top, replace(on_top, edge="none", claim=ANY)))
    assert result.refusal and result.refusal.code == "edge-not-waiting"
    refused(turned(replace(on_top, needles=CLOSE)), "wrong-needles")
    to_left = replace(on_top, needles=ns("L2", "R2"), lean=L)
    assert run(turned(to_left)).states[-1].doubled == ns("L2", "R2")


# --------------------------------------------------------------------------- spoiled bands


def test_every_changed_claim_is_refused_where_it_stands() -> None:
    for place, step in enumerate(BAND_STEPS):
        c = step.claim
        for wrong in (c._replace(counter=c.counter + 1), c._replace(stitches=c.stitches + 1),
                      c._replace(loops=c.loops + 1), c._replace(side=c.side.other)):
            refused(up_to(place, replace(step, claim=wrong)), "wrong-claim")


def test_claim_refusal_says_only_what_differs() -> None:
    refusal = run(up_to(0, replace(BAND_STEPS[0], claim=at(2, 0, 0, L)))).refusal
    assert refusal is not None
    assert refusal.expected == "row counter 2, carriage on the left"
    assert refusal.found == "row counter 0, carriage on the right"


def test_every_dropped_step_is_refused() -> None:
    survivors = {
        found(Attend),  # changes nothing, so its absence cannot show on the needles
    }
    for place, step in enumerate(BAND_STEPS):
        spoiled = band(*BAND_STEPS[:place], *BAND_STEPS[place + 1:])
        assert (run(spoiled).refusal is None) == (place in survivors), step


def test_every_doubled_step_is_refused() -> None:
    # done twice, they leave the same behind
    harmless = (Attend, Bring, SetCounter, SetCarriage, SetDial)
    # and a second row by hand at the end is a row that can be knitted: no carriage, no counter
    for place, step in enumerate(BAND_STEPS):
        spoiled = band(*BAND_STEPS[:place + 1], *BAND_STEPS[place:])
        survives = isinstance(step, harmless) or place == CLOSING_ROW
        assert (run(spoiled).refusal is None) == survives, step


def test_every_step_moved_by_a_needle_is_refused() -> None:
    for place, step in enumerate(BAND_STEPS):
        if not getattr(step, "needles", None) or isinstance(step, Attend):
            continue
        for by in (-1, 1):
            moved = replace(step, needles=step.needles.shifted(by))  # type: ignore[call-arg]
            spoiled = band(*BAND_STEPS[:place], moved, *BAND_STEPS[place + 1:])
            assert run(spoiled).refusal is not None, moved


def test_band_with_the_carriage_on_the_other_side_is_refused() -> None:
    assert run(band(*BAND_STEPS, starts=L)).refusal is not None


# ------------------------------------------------------------------ other programs, by hand


def open_work(first: str, last: str, side: Side = R) -> tuple[Step, ...]:
    """Cast on `first` to `last` in main at dial 5, the carriage at `side`."""
    needles = ns(first, last)
    n = len(needles)
    return (
        SetCounter(rows=0, claim=at(0, 0, 0, side)),
        Bring(needles=needles, position=Position.WORKING, claim=at(0, 0, 0, side)),
        SetDial(dial=D5, claim=at(0, 0, 0, side)),
        Thread(yarn="main", fresh=True, claim=at(0, 0, 0, side)),
        CastOn(needles=needles, method=WOUND, claim=at(0, n, n, side)),
        HangWeights(weight=Weight.EVEN, needles=needles, claim=at(0, n, n, side)),
    )


def light(claim: Claim) -> tuple[Step, ...]:
    """The yarn cut and the weights off, before the last stitches come off."""
    return Unthread(cut=True, claim=claim), TakeWeightsOff(claim=claim)


def knit(rows: int, claim: Claim, fills: Needles = NONE) -> Knit:
    return Knit(rows=rows, yarn="main", dial=D5, fills=fills, claim=claim)


SIX = open_work("L3", "R3")
SIX_ON = ns("L3", "R3")
SECOND = ThreadContrast(yarn="contrast", fresh=True, claim=at(0, 6, 6, R))
SECOND_AT_LEFT = replace(SECOND, claim=at(1, 6, 6, L))
SIX_BY_HAND = (*SIX[:4], replace(SIX[4], method=CastOnMethod.BY_HAND), SIX[5])


def test_row_over_empty_needles_starts_work_when_asked() -> None:
    """Open cast-on (common practice, no source): a row over every other needle, a comb hung."""
    every = every_other(needle("L3"), needle("R3"))  # L3 L1 R2
    rest = SIX_ON - every
    ran(make(
        SetCounter(rows=0, claim=at(0, 0, 0, R)),
        Bring(needles=every, position=Position.WORKING, claim=at(0, 0, 0, R)),
        SetDial(dial=D5, claim=at(0, 0, 0, R)),
        Thread(yarn="main", fresh=True, claim=at(0, 0, 0, R)),
        knit(1, at(1, 3, 3, L), fills=every),
        HangWeights(weight=Weight.COMB, claim=at(1, 3, 3, L)),
        Bring(needles=rest, position=Position.WORKING, claim=at(1, 3, 3, L)),
        knit(1, at(2, 6, 6, R), fills=rest),
        *light(at(2, 6, 6, R)),
        BindOff(needles=SIX_ON, yarn="main", toward=L, keep_last=False, method=CHAINED,
                claim=at(2, 0, 0, R)),
    ))


def test_picot_row_refills_the_emptied_needles() -> None:
    """D02: 21 stitches, 8 rows, alternate stitches from the second moved, 8 rows."""
    whole = ns("L11", "R10")
    moved = every_other(needle("L10"), needle("R9"))  # 10 of the 21
    assert len(whole) == 21 and len(moved) == 10
    result = ran(make(
        *open_work("L11", "R10"),
        knit(8, at(8, 21, 21, R)),
        Transfer(needles=moved, by=1, claim=at(8, 11, 21, R)),  # 11 needles, 10 of them doubled
        knit(1, at(9, 21, 21, L), fills=moved),
        knit(7, at(16, 21, 21, R)),
        *light(at(16, 21, 21, R)),
        BindOff(needles=whole, yarn="main", toward=L, keep_last=False, method=CHAINED,
                claim=at(16, 0, 0, R)),
        bed=40,
    ))
    assert result.states[7].doubled == moved.shifted(1)
    assert dict(result.rows) == {"main": 16}


def shoulder() -> Program:
    """S02: 16 stitches in steps 5, 5, 6; S07: a step of 5 is held as 4, a row, then 1, a row."""
    return make(
        *open_work("R1", "R16", L),
        knit(2, at(2, 16, 16, L)),
        SetCarriage(to=Carriage.HOLD, claim=at(2, 16, 16, L)),
        Hold(needles=ns("R13", "R16"), claim=at(2, 16, 16, L)),
        HangWeights(weight=Weight.CLAWS, needles=ns("R1", "R12"), claim=at(2, 16, 16, L)),
        knit(1, at(3, 16, 16, R)),
        Hold(needles=ns("R12"), claim=at(3, 16, 16, R)),
        knit(1, at(4, 16, 16, L)),
        Hold(needles=ns("R8", "R11"), claim=at(4, 16, 16, L)),
        knit(1, at(5, 16, 16, R)),
        Hold(needles=ns("R7"), claim=at(5, 16, 16, R)),
        knit(1, at(6, 16, 16, L)),
        Resume(needles=ns("R7", "R16"), claim=at(6, 16, 16, L)),
        SetCarriage(to=Carriage.KNIT, claim=at(6, 16, 16, L)),
        knit(1, at(7, 16, 16, R)),
        Unthread(cut=True, claim=at(7, 16, 16, R)),
        # eight rows of waste yarn, and one pass that drops the stitches: 7 + 9
        TakeOff(needles=ns("R1", "R16"), edge="shoulder", rows=8, claim=at(16, 0, 0, L)),
        starts=L, bed=40, leaves=("shoulder",),
    )


def test_short_row_shoulder_waits_on_waste_yarn() -> None:
    result = ran(shoulder())
    # 2 × 16 + 12 + 11 + 7 + 6 + 16 = 84
    assert dict(result.stitches) == {"main": 84}
    assert dict(result.rows) == {"main": 7}
    assert result.states[-1].waiting == (("shoulder", 16),)
    assert result.states[15].holding == ns("R7", "R16")


@pytest.mark.parametrize(("rows", "claim"), [
    (8, at(9, 0, 0, L)),  # an even number of rows ends where it began, and the pass goes across
    (7, at(8, 0, 0, R)),
    (0, at(0, 0, 0, R)),  # drawn through with a needle: the carriage stays
])
def test_the_carriage_stands_where_the_pass_that_drops_stitches_ends(rows: int, claim: Claim
                                                                     ) -> None:
    """Counted by hand from the right, 0 on the row counter; common practice, no source."""
    begun = (*SIX, replace(TURNED, cut=True), *([] if rows else [LIGHT]))
    off = TakeOff(needles=SIX_ON, edge="top", rows=rows, claim=claim)
    ran(make(*begun, off, leaves=("top",)))
    wrong = claim._replace(side=claim.side.other)
    refused(make(*begun, replace(off, claim=wrong), leaves=("top",)), "wrong-claim")
    wrong = claim._replace(counter=claim.counter + 1)
    refused(make(*begun, replace(off, claim=wrong), leaves=("top",)), "wrong-claim")


def test_taken_off_edge_is_hung_one_for_one() -> None:
    program = shoulder()
    back_on = (
        Hang(edge="shoulder", needles=ns("R1", "R16"), onto_empty=True, claim=at(16, 16, 16, L)),
        BindOff(needles=ns("R1", "R16"), yarn="spare", toward=R, keep_last=False, method=CHAINED,
                claim=at(16, 0, 0, L)),
    )
    ran(make(*program.steps, *back_on, starts=L, bed=40))
    refused(make(*program.steps, replace(back_on[0], needles=ns("R1", "R15")), starts=L, bed=40),
            "loop-count")


def test_full_fashioned_decrease_and_increase() -> None:
    ran(make(
        *SIX, knit(2, at(2, 6, 6, R)),
        # two stitches moved in by one: the inner lands on its neighbour, the edge needle rests
        Transfer(needles=ns("R2", "R3"), by=-1, rest=True, claim=at(2, 5, 6, R)),
        knit(1, at(3, 5, 5, L)),
        Increase(needles=of(needle("L4"), needle("R3")), claim=at(3, 7, 7, L)),
        knit(1, at(4, 7, 7, R)),
        *light(at(4, 7, 7, R)),
        BindOff(needles=ns("L4", "R3"), yarn="main", toward=L, keep_last=False, method=CHAINED,
                claim=at(4, 0, 0, R)),
    ))


CLOSED_UP = CloseUp(needles=SIX_ON, onto=ns("L2", "R2"), doubled=of(needle("L2"), needle("R1")),
                 claim=at(2, 4, 6, R))


def test_claw_weights_pull_at_a_stitch_that_is_increased_beside_them() -> None:
    """A second half knits on with them, and may widen (common practice, no source)."""
    ran(make(*SIX, replace(CLAWS, needles=SIX_ON), Increase(needles=ns("R4"), claim=at(0, 7, 7, R)),
             knit(2, at(2, 7, 7, R)), *light(at(2, 7, 7, R)),
             BindOff(needles=ns("L3", "R4"), yarn="main", toward=L, keep_last=False,
                     method=CHAINED, claim=at(2, 0, 0, R))))


def test_all_stitches_are_hung_again_in_their_order_two_on_some_needles() -> None:
    four = ns("L2", "R2")
    parts = (*SIX, knit(2, at(2, 6, 6, R)), TakeWeightsOff(claim=at(2, 6, 6, R)), CLOSED_UP)
    result = ran(make(
        *parts, HangWeights(weight=Weight.EVEN, needles=four, claim=at(2, 4, 6, R)),
        knit(1, at(3, 4, 4, L)), *light(at(3, 4, 4, L)),
        BindOff(needles=four, yarn="main", toward=R, keep_last=False, method=CHAINED,
                claim=at(3, 0, 0, L))))
    closed = result.states[len(parts) - 1]
    assert closed.working == closed.loaded == four
    assert [on for _, on in closed.loops] == [four, of(needle("L2"), needle("R1"))]
    assert Use(Tool.OFF_ALL) in result.tools


def test_stitches_on_a_cord_are_not_taken_off_with_the_others() -> None:
    corded = (*SIX, TakeWeightsOff(claim=at(0, 6, 6, R)),
               HandKnit(needles=ns("R1"), yarn="other", cord="mark", claim=at(0, 6, 6, R)))
    refused(make(*corded, replace(CLOSED_UP, claim=ANY)), "cord-loop")


def test_layers_stay_few_on_a_wide_bed() -> None:
    """The bed's work goes with the steps: a row over 200 needles is one layer, like one over 2."""
    rows = [knit(1, at(n, 200, 200, L if n % 2 else R)) for n in range(1, 301)]
    off = BindOff(needles=bed_of(200), yarn="main", toward=L, keep_last=False, method=CHAINED,
                  claim=at(300, 0, 0, R))
    result = ran(make(*open_work("L100", "R100"), *rows, *light(at(300, 200, 200, R)), off,
                      bed=200))
    assert max(len(state.loops) for state in result.states) == 1
    # three kinds of loop at most lie on one needle of the band: stitch, garment, first row
    assert max(len(state.loops) for state in ran(band(*BAND_STEPS)).states) == 3


def test_every_kind_of_step_is_known_to_the_bed() -> None:
    kinds = {kind for module in (steps, edge_steps, rib_steps, set_up_steps, two_yarn_steps)
             for kind in vars(module).values()
             if isinstance(kind, type) and issubclass(kind, Step) and kind is not Step}
    assert set(DOES) == kinds


# ---------------------------------------------------------------------------- refusals

TURNED = Unthread(cut=False, claim=at(0, 6, 6, R))
SLIPS = SetCarriage(to=Carriage.SLIP, claim=at(0, 6, 6, R))
HOLDS = SetCarriage(to=Carriage.HOLD, claim=at(0, 6, 6, R))
LIGHT = TakeWeightsOff(claim=at(0, 6, 6, R))
CLAWS = HangWeights(weight=Weight.CLAWS, needles=ns("L1", "R3"), claim=at(0, 6, 6, R))
OFF = BindOff(needles=SIX_ON, yarn="main", toward=L, keep_last=False, method=CHAINED, claim=ANY)

# one stitch to the left and one to the right: L1 and R1 are empty, L2 and R2 hold two loops
TWO_EMPTY = (*SIX, Transfer(needles=ns("L1"), by=-1, claim=at(0, 5, 6, R)),
             Transfer(needles=ns("R1"), by=1, claim=at(0, 4, 6, R)))
ONE_ROW = knit(1, at(1, 6, 6, L), fills=ns("L1", "R1"))

CLOSE_UP = replace(CLOSED_UP, claim=ANY)
LIGHT_FOUR = TakeWeightsOff(claim=at(0, 4, 6, R))

REFUSALS: list[tuple[str, tuple[Step, ...], Needles | None]] = [
    ("no-needles", (Bring(needles=NONE, position=Position.WORKING, claim=ANY),), None),
    ("needle-off-bed", (Bring(needles=ns("R10", "R11"), position=Position.WORKING, claim=ANY),),
     ns("R11")),
    ("loop-dropped", (*SIX, Bring(needles=ns("R3", "R4"), position=Position.NON_WORKING,
                                  claim=ANY)), ns("R3")),
    ("needle-occupied", (*SIX, Bring(needles=ns("R3", "R4"), position=Position.HOLDING,
                                     claim=ANY)), ns("R3")),
    ("needle-occupied", (*SIX, CastOn(needles=ns("R3"), method=WOUND, claim=ANY)), ns("R3")),
    ("not-in-work", (*SIX, CastOn(needles=ns("R4"), method=WOUND, claim=ANY)), ns("R4")),
    ("feeder-empty", (*SIX[:2], CastOn(needles=SIX_ON, method=WOUND, claim=ANY)), None),
    ("feeder-empty", (*SIX, TURNED, knit(1, ANY)), None),
    ("feeder-empty", (Unthread(cut=True, claim=ANY),), None),
    ("feeder-full", (*SIX, Thread(yarn="second", fresh=True, claim=ANY)), None),
    ("feeder-full", (*SIX, SLIPS, FreePass(claim=ANY)), None),
    ("feeder-full", (*SIX, TurnWork(claim=ANY)), None),
    ("feeder-full", (*SIX, TakeOff(needles=SIX_ON, edge="top", rows=8, claim=ANY)), None),
    ("no-yarn", (Thread(yarn="", fresh=True, claim=ANY),), None),
    ("no-yarn", (*SIX, replace(OFF, yarn="")), None),
    ("no-such-end", (*SIX, Unthread(cut=True, claim=at(0, 6, 6, R)),
                     Thread(yarn="main", fresh=False, claim=ANY)), None),
    ("yarn-side", (*SIX, TURNED, SLIPS, FreePass(claim=at(1, 6, 6, L)),
                   Thread(yarn="main", fresh=False, claim=ANY)), None),
    ("yarn-side", (*SIX, TURNED, LIGHT, TurnWork(claim=at(0, 6, 6, R)),
                   Thread(yarn="main", fresh=False, claim=ANY)), None),
    # a row made by hand takes the end to the far side
    ("yarn-side", (*SIX, HandKnit(needles=SIX_ON, yarn="main", claim=at(0, 6, 6, R)),
                   knit(1, ANY)), None),
    ("wrong-yarn", (*SIX, Knit(rows=1, yarn="waste", dial=D5, claim=ANY)), None),
    ("wrong-dial", (*SIX, Knit(rows=1, yarn="main", dial=D7, claim=ANY)), None),
    ("wrong-dial", (*SIX[:2], *SIX[3:], knit(1, ANY)), None),
    ("no-such-dial", (SetDial(dial=Dial(-1), claim=ANY),), None),
    ("no-such-count", (SetCounter(rows=-1, claim=ANY),), None),
    ("no-rows", (*SIX, knit(0, ANY)), None),
    ("nothing-in-work", (SIX[0], *SIX[2:4], knit(1, ANY)), None),
    ("fills-unasked", (*SIX, Bring(needles=ns("R4"), position=Position.WORKING,
                                   claim=at(0, 6, 6, R)), knit(1, ANY)), ns("R4")),
    ("fills-mismatch", (*SIX, knit(1, ANY, fills=ns("R4"))), ns("R4")),
    ("fills-mismatch", (*SIX, knit(1, ANY, fills=ns("R3"))), ns("R3")),
    ("row-incomplete", (*SIX, HandKnit(needles=ns("L3", "R2"), yarn="main", claim=ANY)),
     ns("R3")),
    ("needle-empty", (*SIX, HandKnit(needles=ns("L3", "R4"), yarn="main", claim=ANY)), ns("R4")),
    ("nothing-to-turn", (TurnWork(claim=ANY),), None),
    ("held-stitches", (*SIX, TURNED, LIGHT, HOLDS, Hold(needles=ns("L3"), claim=at(0, 6, 6, R)),
                       TurnWork(claim=ANY)), ns("L3")),
    ("needle-empty", (*SIX, Transfer(needles=ns("R4"), by=-1, claim=ANY)), ns("R4")),
    ("not-in-work", (*SIX, Transfer(needles=ns("R3"), by=1, claim=ANY)), ns("R4")),
    ("needle-off-bed", (*SIX, Transfer(needles=ns("R3"), by=8, claim=ANY)), ns("R11")),
    ("needle-off-bed", (*SIX, Transfer(needles=ns("L3"), by=-2000, claim=ANY)), None),
    ("no-move", (*SIX, Transfer(needles=ns("R3"), by=0, claim=ANY)), None),
    ("needle-occupied", (*SIX, Increase(needles=ns("R3"), claim=ANY)), ns("R3")),
    ("no-neighbour", (*SIX, Increase(needles=ns("R5"), claim=ANY)), ns("R5")),
    ("needle-empty", (*SIX, replace(OFF, needles=ns("L4", "R3"))), ns("L4")),
    ("not-neighbouring", (*SIX, replace(OFF, needles=of(needle("L3"), needle("L1")))), None),
    # S06: the carriage stands right and travels left next
    ("hold-side", (*SIX, HOLDS, Hold(needles=ns("R2", "R3"), claim=ANY)), ns("R2", "R3")),
    ("hold-side", (*SIX, HOLDS, Hold(needles=ns("R3"), claim=at(0, 6, 6, R)),
                   Hold(needles=ns("R2"), claim=ANY)), ns("R2", "R3")),
    ("hold-between", (*SIX, HOLDS, Hold(needles=ns("L1", "R1"), claim=ANY)), ns("L1", "R1")),
    ("hold-everything", (*SIX, HOLDS, Hold(needles=SIX_ON, claim=ANY)), None),
    ("needle-empty", (*SIX, Hold(needles=ns("R4"), claim=ANY)), ns("R4")),
    ("not-held", (*SIX, Resume(needles=ns("R3"), claim=ANY)), ns("R3")),
    ("resume-side", (*SIX, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)),
                     CLAWS, knit(1, at(1, 6, 6, L)), Resume(needles=ns("L3", "L2"), claim=ANY)),
     ns("L3", "L2")),
    # put back, it stands where the slip setting knits (common practice, no source)
    ("slip-raised", (*SIX, HOLDS, Hold(needles=ns("L3"), claim=at(0, 6, 6, R)), CLAWS,
                     knit(1, at(1, 6, 6, L)), Resume(needles=ns("L3"), claim=at(1, 6, 6, L)),
                     Slip(needles=ns("L3", "L2"), claim=ANY)), ns("L3")),
    ("slip-raised", (*SIX, Slip(needles=ns("L3"), by_holding=ns("L3"), claim=ANY)), None),
    # cast on by hand, it stands where every setting knits it (site: techniques/cast-on-by-hand)
    ("slip-forward", (*SIX_BY_HAND, Slip(needles=ns("L3", "L2"), claim=ANY)), ns("L3", "L2")),
    ("slip-raised", (*SIX_BY_HAND, Resume(needles=SIX_ON, claim=at(0, 6, 6, R)),
                     Slip(needles=ns("L3"), claim=ANY)), ns("L3")),
    # where it stands so, it takes the contrast yarn too (site: techniques/stitch-chart)
    ("pick-raised", (*SIX, HOLDS, Hold(needles=ns("L3"), claim=at(0, 6, 6, R)), CLAWS,
                     knit(1, at(1, 6, 6, L)), Resume(needles=ns("L3"), claim=at(1, 6, 6, L)),
                     SECOND_AT_LEFT, PickContrast(needles=ns("R1"), claim=ANY)), ns("L3")),
    ("pick-raised", (*SIX, SECOND, PickContrast(needles=ns("L3"), lowered=ns("R1"), claim=ANY)),
     ns("R1")),
    ("pick-forward", (*SIX_BY_HAND, SECOND, PickContrast(needles=ns("L3"), claim=ANY)), SIX_ON),
    ("weights-on", (*SIX, CLOSE_UP), SIX_ON),
    ("layers", (*TWO_EMPTY, LIGHT_FOUR, replace(
        CLOSE_UP, needles=ns("L3", "L2") | ns("R2", "R3"))), of(needle("L2"), needle("R2"))),
    ("needle-empty", (*SIX, LIGHT, replace(CLOSE_UP, needles=ns("L3", "R4"))), ns("R4")),
    ("others-in-work", (*SIX, LIGHT, replace(CLOSE_UP, needles=ns("L3", "R2"))), ns("R3")),
    ("loop-count", (*SIX, LIGHT, replace(CLOSE_UP, onto=ns("L2", "R1"))), ns("L2", "R1")),
    ("wrong-needles", (*SIX, LIGHT, replace(CLOSE_UP, doubled=ns("R2", "R3"))), ns("R3")),
    ("not-neighbouring", (*SIX, LIGHT, replace(CLOSE_UP, onto=of(
        needle("L3"), needle("L1"), needle("R1"), needle("R2")), doubled=ns("R1", "R2"))), None),
    ("others-in-work", (*SIX, TURNED, TakeOff(needles=ns("L3", "L1"), edge="half", rows=8,
                                              claim=ANY)),
     ns("R1", "R3")),
    ("edge-not-waiting", (*SIX, Hang(edge="front", needles=SIX_ON, onto_empty=False, claim=ANY)),
     None),
    ("no-such-cord", (*SIX, DrawCord(edge="hole 1", claim=ANY)), None),
    # the counter's own number is unknown until a step sets it
    ("counter-unset", (replace(SIX[1], claim=at(0, 0, 0, R)),), None),
    ("counter-unset", (SetDial(dial=D5, claim=at(0, 0, 0, R)),), None),
    # a cast-on by hand leaves its needles fully forward, and a carriage set to hold passes them by:
    # "Casting On: E-wrap cast-on", wickedwoollies.co.uk; "Useful cast ons for machine knitting",
    # needlesofsteel.blogspot.com, 2011
    ("needles-forward", (*SIX_BY_HAND, HOLDS), SIX_ON),
    # the carriage: held needles are knitted back by one that is set to knit
    ("hold-off", (*SIX, Hold(needles=ns("R3"), claim=ANY)), ns("R3")),
    ("hold-off", (*SIX, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)), CLAWS,
                  SetCarriage(to=Carriage.KNIT, claim=at(0, 6, 6, R)), knit(1, ANY)),
     ns("L3", "L2")),
    ("hold-off", (*SIX, Tuck(needles=ns("L1"), claim=at(0, 6, 6, R)), replace(
        knit(1, ANY), passes=ns("L1"))), ns("L1")),
    ("carriage-slips", (*SIX, SLIPS, knit(1, ANY)), SIX_ON),
    # without yarn a needle that knits drops its stitch
    ("pass-knits", (*SIX, TURNED, FreePass(claim=ANY)), SIX_ON),
    ("pass-knits", (*SIX, TURNED, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)),
                    FreePass(claim=ANY)), ns("L1", "R3")),
    # weights
    ("no-weight", (*SIX[:5], knit(1, ANY)), SIX_ON),
    ("no-weight", (*SIX[:5], HangWeights(weight=Weight.CLAWS, needles=ns("L3"),
                                         claim=at(0, 6, 6, R)), HOLDS,
                   Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)), knit(1, ANY)),
     ns("L1", "R3")),
    ("no-claws", (*SIX, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)),
                  knit(1, ANY)), ns("L1", "R3")),
    # claw weights under some, and none held any more: a last row, no more
    ("claws-uneven", (*SIX, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)), CLAWS,
                      knit(2, at(2, 6, 6, R)), Resume(needles=ns("L3", "L2"), claim=at(2, 6, 6, R)),
                      knit(2, ANY)), ns("L3", "L2")),
    ("weights-hang", (*SIX, HangWeights(weight=Weight.EVEN, needles=SIX_ON, claim=ANY)), SIX_ON),
    ("no-weights", (*SIX, LIGHT, replace(LIGHT, claim=ANY)), None),
    ("needle-empty", (*SIX, TakeWeightsOff(needles=ns("R4"), claim=ANY)), ns("R4")),
    ("not-held", (*SIX, TakeWeightsOff(needles=ns("R3"), claim=ANY)), ns("R3")),
    ("no-weights", (*SIX, TakeWeightsOff(claws_only=True, claim=ANY)), None),
    ("needle-empty", (*SIX, HangWeights(weight=Weight.CLAWS, needles=ns("R4"), claim=ANY)),
     ns("R4")),
    ("weights-on", (*SIX, TURNED, TurnWork(claim=ANY)), SIX_ON),
    ("weights-on", (*SIX, OFF), SIX_ON),
    ("weights-on", (*SIX, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)), TakeOff(
        needles=ns("L3", "L2"), edge="neck", claim=ANY)), ns("L3", "L2")),
    ("weights-on", (*SIX, HOLDS, Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R)), CLAWS,
                    replace(OFF, needles=ns("L1", "R3"))), ns("L1", "R3")),
    # ends
    ("end-uncut", (*SIX, TURNED, Thread(yarn="main", fresh=True, claim=ANY)), None),
    ("no-such-end", (*SIX, CutEnd(yarn="contrast", claim=ANY)), None),
    ("feeder-full", (*SIX, CutEnd(yarn="main", claim=ANY)), None),
    # two empty neighbours get one long loop, a stitch on neither until it is turned (closings/
    # two-stitch.md: common practice, no source)
    ("long-loop", (*TWO_EMPTY, knit(2, ANY, fills=ns("L1", "R1"))), ns("L1", "R1")),
    ("long-loop", (*TWO_EMPTY, ONE_ROW, knit(1, ANY)), ns("L1", "R1")),
    ("long-loop", (*TWO_EMPTY, Transfer(needles=ns("R2"), by=1, claim=at(0, 3, 6, R)),
                   knit(1, ANY, fills=ns("L1", "R2"))), ns("L1", "R2")),
    ("wrong-needles", (*TWO_EMPTY, ONE_ROW, TurnLoop(needles=ns("R1"), claim=ANY)), ns("R1")),
    ("no-long-loop", (*SIX, TurnLoop(needles=ns("R1"), claim=ANY)), ns("R1")),
    ("no-such-topic", (Attend(to="tea", claim=ANY),), None),
    ("needle-off-bed", (Attend(to=Topic.CHOOSE_HOLES, needles=ns("R11"), claim=ANY),), ns("R11")),
]


def test_a_long_loop_is_turned_on_the_needle_nearer_to_the_carriage() -> None:
    """The row ran from right to left: the second of its two needles is the left one."""
    ran(make(*TWO_EMPTY, ONE_ROW, TurnLoop(needles=ns("L1"), claim=at(1, 6, 6, L)),
             knit(1, at(2, 6, 6, R)), *light(at(2, 6, 6, R)),
             replace(OFF, claim=at(2, 0, 0, R))))


def test_pins_and_clips_are_counted_back_in_before_the_end() -> None:
    refusal = run(band(*BAND_STEPS[:-1])).refusal
    assert refusal is not None and refusal.code == "marks-left"


@pytest.mark.parametrize(("code", "parts", "on"), REFUSALS,
                         ids=[f"{code}-{n}" for n, (code, _, _) in enumerate(REFUSALS)])
def test_refuses(code: str, parts: tuple[Step, ...], on: Needles | None) -> None:
    refused(make(*parts), code, on)


@pytest.mark.parametrize("rows", [6, 7])
def test_a_hook_holds_a_stitch_and_six_laid_loops(rows: int) -> None:
    """Six rows with thin yarn, four as a rule: worked examples W3-105 and W3-107."""
    parts: list[Step] = [*SIX, HOLDS]
    side = R
    for row in range(1, rows + 1):
        parts.append(Tuck(needles=ns("L1"), claim=at(row - 1, 6, 5 + row, side)))
        side = side.other
        parts.append(replace(knit(1, at(row, 6, 6 + row, side)), passes=ns("L1")))
    if rows == 7:
        refused(make(*parts), "hook-full", ns("L1"))
    else:
        assert len(run(make(*parts)).states) == len(parts)


def test_one_needle_may_be_held_on_either_side() -> None:
    near = Hold(needles=ns("R3"), claim=at(0, 6, 6, R))
    far = Hold(needles=ns("L3", "L2"), claim=at(0, 6, 6, R))
    assert len(run(make(*SIX, HOLDS, near, far)).states) == len(SIX) + 3  # S06


def test_holding_several_on_the_carriage_side_breaks_the_shoulder() -> None:
    steps_ = shoulder().steps
    late = (*steps_[:8], knit(1, at(3, 16, 16, R)),
            Hold(needles=ns("R13", "R16"), claim=at(3, 16, 16, R)))
    refused(make(*late, starts=L, bed=40), "hold-side", ns("R13", "R16"))


# Spoiled steps of the band: the step at a place, changed, and the code it must get.
CORD = found(HandKnit)
SPOILED: list[tuple[str, int, dict[str, object]]] = [
    ("not-neighbouring", CORD, {"needles": of(needle("L3"), needle("L1"))}),
    ("needle-empty", CORD, {"needles": ns("R4", "R5")}),
    ("cord-yarn", CORD, {"yarn": "main"}),
    ("no-yarn", CORD, {"yarn": ""}),
    ("wrong-needles", HANG_HIGH, {"needles": ns("L3", "R1")}),
    ("wrong-needles", HANG_HIGH, {"lean": R}),
    ("loop-count", HANG_HIGH, {"needles": HOLE}),
    ("no-lean", HANG_HIGH, {"lean": None}),
    ("needle-occupied", HANG_HIGH, {"onto_empty": True}),
    ("not-in-work", HANG_HIGH, {"needles": ns("R4", "R7")}),
    ("needle-off-bed", HANG_HIGH, {"needles": ns("R8", "R11")}),
    ("needle-occupied", HANG_LOW, {"needles": ns("L2", "R1")}),
    ("needle-empty", HANG_LOW, {"onto_empty": False}),
    ("loop-count", HANG_LOW, {"needles": ns("L3", "L2")}),
    ("edge-not-waiting", HANG_LOW, {"edge": HIGH}),
    ("loop-count", HANG_FRONT, {"needles": ns("L5", "R3")}),
    ("no-side", HANG_FRONT, {"from_side": None}),
    ("picks-outside", HANG_FRONT, {"picks": (1, 2, 3, 5, 6, 7, 9, 10, 13)}),
    ("picks-outside", HANG_FRONT, {"picks": (0, 2, 3, 5, 6, 7, 9, 10, 11)}),
    ("picks-order", HANG_FRONT, {"picks": (1, 2, 3, 3, 6, 7, 9, 10, 11)}),
    ("picks-order", HANG_FRONT, {"picks": PICKS[::-1]}),
    # 12 rows on 9 needles: the edge must be taken from row 1 or 2 to row 11 or 12
    ("picks-ends", HANG_FRONT, {"picks": (3, 4, 5, 6, 7, 8, 9, 10, 11)}),
    ("picks-ends", HANG_FRONT, {"picks": (1, 2, 3, 4, 5, 6, 7, 8, 9)}),
    ("picks-uneven", HANG_FRONT, {"picks": (1, 2, 3, 4, 5, 8, 9, 10, 11)}),
    ("no-half", HANG_FIRST, {"half_at": None}),
    ("half-loop-end", HANG_FIRST, {"half_at": L}),
    ("needle-occupied", HANG_FIRST, {"onto_empty": True}),
    ("loop-count", HANG_FIRST, {"needles": ns("L5", "R3")}),
]


@pytest.mark.parametrize(("code", "place", "change"), SPOILED,
                         ids=[f"{code}-{n}" for n, (code, _, _) in enumerate(SPOILED)])
def test_refuses_a_spoiled_band(code: str, place: int, change: dict[str, object]) -> None:
    refused(up_to(place, replace(BAND_STEPS[place], **change)), code)  # type: ignore[arg-type]


def test_more_needles_than_rows_may_take_a_row_twice() -> None:
    front = Hang(edge="front", needles=SIX_ON, onto_empty=False, picks=(1, 1, 2, 3, 3, 4),
                 from_side=L, claim=at(0, 6, 12, R))
    assert len(run(make(*SIX, LIGHT, front, edges=(("front", 4),))).states) == len(SIX) + 2


def test_cord_is_drawn_only_when_both_edges_are_hung() -> None:
    draw = DrawCord(edge="hole 1", claim=ANY)
    for place in (CORD + 1, HANG_HIGH, HANG_LOW):
        refused(up_to(place, draw), "edge-not-hung")
    refused(up_to(HANG_FIRST, DrawCord(edge="first row", claim=ANY)), "edge-not-hung", ALL)


def test_cord_of_a_first_row_is_drawn_after_the_row_that_joins_it() -> None:
    """Hems, clearwaterknits.com (W3-001); Cut and sew neckbands, longbuckbymk.com (W3-002);
    "Band aid", Machine Knitting Monthly (W3-032): the loops are knitted in, then the cord goes."""
    refused(up_to(HANG_FIRST + 1, DrawCord(edge="first row", claim=ANY)), "cord-too-soon", ALL)


def test_half_loop_is_where_the_first_row_ended() -> None:
    """Away from the tail of the first row: chezlizzie.blogspot.com, 2014-03-20 (W3-006); at the
    tail, in the round, a loop must be made: fionawinning.blogspot.com, 2007-10-31 (W3-005).
    Nine stitches, row 1 from the left to the right; work turned once has that end at the left."""
    waits = up_to(found(SetCounter, 1) + 4)
    light = TakeWeightsOff(claim=at(4, 9, 9, L))
    on_top = Hang(edge="first row", needles=ALL, onto_empty=False, half_at=R,
                  claim=at(4, 9, 18, L))
    assert len(run(band(*waits.steps, light, on_top)).states) == len(waits.steps) + 2
    refused(band(*waits.steps, light, replace(on_top, half_at=L)), "half-loop-end")
    turned = (Unthread(cut=False, claim=at(4, 9, 9, L)), light,
              SetCarriage(to=Carriage.SLIP, claim=at(4, 9, 9, L)), FreePass(claim=at(5, 9, 9, R)),
              TurnWork(claim=at(5, 9, 9, R)))
    on_top = replace(on_top, claim=at(5, 9, 18, R))
    refused(band(*waits.steps, *turned, on_top), "half-loop-end")
    at_left = run(band(*waits.steps, *turned, replace(on_top, half_at=L)))
    assert len(at_left.states) == len(waits.steps) + 6


def test_stitches_on_a_cord_stay_until_a_row_is_knitted_above() -> None:
    at_cord = at(4, 9, 9, L)
    for step in (
        BindOff(needles=ns("L5", "L3"), yarn="main", toward=L, keep_last=False, method=CHAINED,
                claim=ANY),
        Transfer(needles=ns("L3"), by=1, claim=ANY),
        Hang(edge="front", needles=ALL, onto_empty=False, picks=PICKS, from_side=L, claim=ANY),
        HandKnit(needles=ns("L1", "R1"), yarn="contrast 2", cord="hole 2", claim=ANY),
    ):
        refused(up_to(CORD + 1, step), "cord-loop")
    lever = SetCarriage(to=Carriage.HOLD, claim=at_cord)
    hold = Hold(needles=ns("R4"), claim=at_cord)
    assert len(run(up_to(CORD + 1, lever, hold)).states) == CORD + 3
    across = Hold(needles=ns("L1", "R4"), claim=at_cord)
    claws = HangWeights(weight=Weight.CLAWS, needles=ns("L5", "L2"), claim=at_cord)
    refused(up_to(CORD + 1, lever, across, claws, BAND_STEPS[CORD + 1]), "cord-split", ns("L1"))


def test_every_opening_leans_to_the_same_side() -> None:
    first, second = ns("L5", "L4"), ns("R2", "R3")
    two = (
        *open_work("L7", "R7"), knit(2, at(2, 14, 14, R)),
        HandKnit(needles=first, yarn="contrast", cord="a", claim=at(2, 14, 14, R)),
        HandKnit(needles=second, yarn="contrast", cord="b", claim=at(2, 14, 14, R)),
        knit(2, at(4, 14, 14, R)),
        TakeWeightsOff(claim=at(4, 14, 14, R)),
        Hang(edge=upper("a"), needles=ns("L5", "L3"), onto_empty=False, lean=R,
             claim=at(4, 14, 17, R)),
    )
    other = Hang(edge=upper("b"), needles=ns("R1", "R3"), onto_empty=False, lean=L, claim=ANY)
    refused(make(*two, other), "lean-changed")
    same = replace(other, needles=ns("R2", "R4"), lean=R, claim=at(4, 14, 20, R))
    assert len(run(make(*two, same)).states) == len(two) + 1


def test_names_of_edges_are_used_once() -> None:
    again = HandKnit(needles=ns("R1", "R2"), yarn="contrast", cord="hole 1", claim=ANY)
    refused(up_to(CORD + 1, again), "name-taken")
    unthread = Unthread(cut=False, claim=at(4, 9, 9, L))
    off = TakeOff(needles=ALL, edge="front", rows=8, claim=ANY)
    refused(up_to(CORD, unthread, off), "name-taken")


def test_opening_needs_one_loop_a_needle() -> None:
    onto = Transfer(needles=ns("R3"), by=-1, claim=at(0, 5, 6, R))
    cord = HandKnit(needles=ns("R1", "R2"), yarn="contrast", cord="a", claim=ANY)
    refused(make(*SIX, onto, cord), "needle-doubled", ns("R2"))


@pytest.mark.parametrize(("code", "parts", "more"), [
    ("loops-left", SIX, {}),
    ("edge-left", (*SIX, LIGHT, replace(OFF, claim=at(0, 0, 0, R))), {"edges": (("front", 12),)}),
    ("edge-missing", (*SIX, LIGHT, replace(OFF, claim=at(0, 0, 0, R))), {"leaves": ("shoulder",)}),
    ("edge-left", (*SIX, TURNED, TakeOff(needles=SIX_ON, edge="top", rows=8,
                                         claim=at(9, 0, 0, L))), {}),
    # the machine is left as it was found
    ("feeder-full", (*SIX, LIGHT, replace(OFF, claim=at(0, 0, 0, R))), {}),
    ("end-uncut", (*SIX, TURNED, LIGHT, replace(OFF, claim=at(0, 0, 0, R))), {}),
    ("lever-left", (*SIX, Unthread(cut=True, claim=at(0, 6, 6, R)), SLIPS, LIGHT,
                    replace(OFF, claim=at(0, 0, 0, R))), {}),
    ("lever-left", (*SIX, Unthread(cut=True, claim=at(0, 6, 6, R)), HOLDS, LIGHT,
                    replace(OFF, claim=at(0, 0, 0, R))), {}),
])
def test_refuses_what_is_left_behind(code: str, parts: tuple[Step, ...],
                                     more: dict[str, object]) -> None:
    refusal = run(make(*parts, **more)).refusal
    assert refusal and refusal.code == code
    assert refusal.step == len(parts) + 1


def test_weights_that_hang_at_the_end_are_refused_by_themselves() -> None:
    """No program leads there: stitches come off without weights, which are held above."""
    with pytest.raises(Refused) as refusal:
        need_set_back(Bed(program=make(*SIX), side=R, weights=frozenset({Weight.EVEN})))
    assert (refusal.value.code, refusal.value.expected, refusal.value.found) == (
        "weights-on", "all weights off before the end", "weights")


def test_cord_left_in_the_work_is_refused() -> None:
    undrawn = [step for step in BAND_STEPS if step != BAND_STEPS[found(DrawCord)]]
    refusal = run(band(*undrawn)).refusal
    assert refusal and refusal.code == "cord-left"


# ------------------------------------------------------------------------ laws for any work


class Tally:
    """A slow second bed for the laws: the number of loops on each needle of one block."""

    def __init__(self) -> None:
        self.first, self.counts, self.counter, self.side = -3, [1] * 6, 0, R
        self.made, self.gone, self.merged = 6, 0, 0
        self.parts: list[Step] = list(SIX)

    def claim(self) -> Claim:
        on = [n for n in self.counts if n]
        return at(self.counter, len(on), sum(on), self.side)

    def needles(self, start: int, count: int) -> Needles:
        return between(Needle(self.first + start), Needle(self.first + start + count - 1))

    def knit(self, rows: int) -> None:
        empty = [i for i, n in enumerate(self.counts) if not n]
        self.made += len(empty)
        self.merged += sum(n - 1 for n in self.counts if n)
        fills = of(*(Needle(self.first + i) for i in empty))
        self.counts = [1] * len(self.counts)
        self.counter += rows
        self.side = self.side.other if rows % 2 else self.side
        self.parts.append(knit(rows, self.claim(), fills))

    def widen(self, count: int, to: Side) -> None:
        start = -count if to is L else len(self.counts)
        new = self.needles(start, count)
        self.parts.append(Bring(needles=new, position=Position.WORKING, claim=self.claim()))
        self.grow(count, to)
        self.parts.append(CastOn(needles=new, method=WOUND, claim=self.claim()))

    def increase(self, to: Side) -> None:
        new = self.needles(-1 if to is L else len(self.counts), 1)
        self.grow(1, to)
        self.parts.append(Increase(needles=new, claim=self.claim()))

    def grow(self, count: int, to: Side) -> None:
        self.made += count
        self.counts = [1] * count + self.counts if to is L else self.counts + [1] * count
        self.first -= count if to is L else 0

    def bind_off(self, count: int, at_side: Side) -> None:
        off = self.needles(0 if at_side is L else len(self.counts) - count, count)
        taken = self.counts[:count] if at_side is L else self.counts[-count:]
        self.gone += sum(taken)
        self.drop(count, at_side)
        self.parts.append(BindOff(needles=off, yarn="main", toward=at_side, keep_last=False,
                                  method=CHAINED, rest=True, claim=self.claim()))

    def decrease(self, at_side: Side) -> None:
        edge = self.needles(0 if at_side is L else len(self.counts) - 1, 1)
        moved = self.counts[0 if at_side is L else -1]
        self.drop(1, at_side)
        self.counts[0 if at_side is L else -1] += moved
        self.parts.append(Transfer(needles=edge, by=1 if at_side is L else -1, rest=True,
                                   claim=self.claim()))

    def drop(self, count: int, at_side: Side) -> None:
        self.counts = self.counts[count:] if at_side is L else self.counts[:-count]
        self.first += count if at_side is L else 0

    def eyelet(self, place: int) -> None:
        self.counts[place + 1] += self.counts[place]
        self.counts[place] = 0
        self.parts.append(Transfer(needles=self.needles(place, 1), by=1, claim=self.claim()))

    def turn(self) -> None:
        self.parts.append(Unthread(cut=True, claim=self.claim()))
        self.parts.append(TakeWeightsOff(claim=self.claim()))
        self.counts.reverse()
        self.parts.append(TurnWork(claim=self.claim()))
        first = Needle(self.first + next(i for i, n in enumerate(self.counts) if n))
        self.parts.append(HangWeights(weight=Weight.EVEN, needles=of(first), claim=self.claim()))
        self.parts.append(Thread(yarn="main", fresh=True, claim=self.claim()))


@st.composite
def works(draw: st.DrawFn) -> Tally:
    work = Tally()
    for _ in range(draw(st.integers(0, 12))):
        side = draw(st.sampled_from(Side))
        match draw(st.integers(0, 6)):
            case 0:
                work.knit(draw(st.integers(1, 5)))
            case 1 if len(work.counts) < 14:
                work.widen(draw(st.integers(1, 3)), side)
            case 2 if len(work.counts) < 14:
                work.increase(side)
            case 3 if len(work.counts) > 4:
                work.bind_off(draw(st.integers(1, 2)), side)
            case 4 if len(work.counts) > 4:
                work.decrease(side)
            case 5:
                work.eyelet(draw(st.integers(1, len(work.counts) - 2)))
                work.knit(1)
            case 6:
                work.turn()
            case _:
                work.knit(1)
    return work


@given(works())
@settings(max_examples=examples(150), deadline=None)
def test_no_loop_is_dropped_or_made_from_nothing(work: Tally) -> None:
    """Loops cast on and increased = bound off + knitted together + on the bed + waiting."""
    before = run(make(*work.parts, bed=120))
    assert len(before.states) == len(work.parts), str(before.refusal)
    state = before.states[-1]
    assert work.made == work.gone + work.merged + sum(len(on) for _, on in state.loops)
    counts = [sum(Needle(work.first + i) in on for _, on in state.loops)
              for i in range(len(work.counts))]
    assert counts == work.counts
    unthread = Unthread(cut=True, claim=work.claim())
    off = TakeOff(needles=state.loaded, edge="top", rows=8,
                  claim=at(work.counter + 9, 0, 0, work.side.other))
    after = ran(make(*work.parts, unthread, off, bed=120, leaves=("top",)))
    assert after.states[-1].waiting == (("top", len(work.counts)),)


@given(works(), st.data())
@settings(max_examples=examples(60), deadline=None)
def test_a_wrong_claim_anywhere_is_refused_there(work: Tally, data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(work.parts) - 1))
    claim = work.parts[place].claim
    wrong = claim._replace(loops=claim.loops + data.draw(st.sampled_from((-1, 1))))
    spoiled = [*work.parts[:place], replace(work.parts[place], claim=wrong)]
    refused(make(*spoiled, bed=120), "wrong-claim")


@given(works())
@settings(max_examples=examples(60), deadline=None)
def test_mirrored_work_runs_the_same(work: Tally) -> None:
    """Left and right exchanged, the same rows and stitches are knitted."""
    straight, mirrored = (run(make(*parts, starts=starts, bed=120)) for parts, starts in (
        (work.parts, R), ([_mirrored(step) for step in work.parts], L)))
    assert straight.stitches == mirrored.stitches and straight.rows == mirrored.rows
    assert len(straight.states) == len(mirrored.states) == len(work.parts)
    assert straight.states[-1].loaded.mirrored() == mirrored.states[-1].loaded


def _mirrored(step: Step) -> Step:
    changes: dict[str, object] = {"claim": step.claim._replace(side=step.claim.side.other)}
    for name in ("needles", "fills"):
        if hasattr(step, name):
            changes[name] = getattr(step, name).mirrored()
    if isinstance(step, Transfer):
        changes["by"] = -step.by
    if isinstance(step, BindOff):
        changes["toward"] = step.toward.other
    return replace(step, **changes)  # type: ignore[arg-type]


def test_mirrored_band_runs_too() -> None:
    flipped = [_mirrored(step) for step in BAND_STEPS]
    sides = {name: {L: R, R: L, None: None} for name in ("lean", "half_at", "from_side")}
    whole = [replace(step, **{name: to[getattr(step, name)]  # type: ignore[arg-type]
                              for name, to in sides.items()}) if isinstance(step, Hang) else step
             for step in flipped]
    ran(band(*whole, starts=L))
