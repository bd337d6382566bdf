"""Folded bands and the loops of a fabric's other side, against published examples.

The bands' programs are run on the virtual bed, and the figures are read from what the bed saw.
"""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import one_band
import pytest
from published import account_for, against
from walebook.bed.run import run
from walebook.core.problems import has_errors
from walebook.core.units import read_length
from walebook.machine.edge_steps import BindOff, Hang, upper
from walebook.machine.headings import Heading
from walebook.machine.needles import Needle, Needles, bed_of, between, centred, every_other
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.reasons import Reason
from walebook.machine.set_up_steps import HangWeights, TakeWeightsOff, Weight
from walebook.machine.step_keys import BindOffMethod, CastOnMethod, StepYarn
from walebook.machine.steps import (
    Bring,
    CastOn,
    Claim,
    Dial,
    HandKnit,
    Knit,
    Position,
    SetCounter,
    SetDial,
    Side,
    Step,
    Thread,
    Transfer,
    TurnWork,
    Unthread,
)
from walebook.machine.trace import Trace
from walebook.pattern.holes import Lean
from walebook.pattern.model import CollarSpec, Fold
from walebook.plan.band import depth_mm
from walebook.program.band_steps import FIRST_ROW
from walebook.program.layout import lay_out

from tests.needle_names import needle
from tests.small_patterns import figure_of

DIRECT = ("D02", "D04", "D05", "D06", "D09", "D11")

NOT_FOLLOWED = {
    "D04 first_row": "its band is knitted onto the hung garment, so that the first row at the "
    "garment's tension joins them; an enclosing band starts alone and is joined last",
    "D09 full loops alone": "a band's first row must meet every needle, so that one of the two "
    "half loops is always taken, and named; n - 1 needles with full loops alone are refused",
    "D06 rib_rows": "a ribbed neckband made apart, on two beds: here only its layout and its "
    "waste start are followed",
}


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"double / folded / hung bands and loop offset"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


def knitted(made, **how) -> tuple[Program, Trace]:
    """The band's program and its run, which no step may have stopped."""
    program = one_band.program(made, **how)
    seen = run(program)
    assert seen.refusal is None
    return program, seen


def made_of(program: Program, kind: type[Step]) -> list[Step]:
    """The program's steps of one kind."""
    return [step for step in program.steps if isinstance(step, kind)]


def hung(program: Program, edge: str) -> Needles:
    """The needles on which the edges whose names hold `edge` are hung."""
    steps = [step for step in made_of(program, Hang) if edge in step.edge]
    return Needles(sum(step.needles.mask for step in steps))  # no needle twice, or it carries


def rows_of(steps: list[Step], yarn: str = StepYarn.MAIN) -> int:
    """The carriage rows of a yarn in these steps [rows]."""
    return sum(step.rows for step in steps if isinstance(step, Knit) and step.yarn == yarn)


def layers(program: Program) -> list[int]:
    """The rows of main yarn to the holes, on to the closing, and to the end [rows]."""
    steps = list(program.steps)
    cords = [place for place, s in enumerate(steps) if isinstance(s, HandKnit) and s.cord]
    hangs = [place for place, s in enumerate(steps) if isinstance(s, Hang)]
    parts = (steps[: cords[0]], steps[cords[0] : hangs[0]], steps[hangs[0] :])
    return [rows_of(part) for part in parts]


@pytest.mark.parametrize("front", list(Side))
@pytest.mark.parametrize("fold", list(Fold))
def test_the_band_of_the_worked_example(front, fold):
    """Common practice, no source: 52 rows, 39 stitches, five holes of 3 stitches 2 from the ends
    and 5 apart; closing 4 loops a hole, 4 apart; 4 rows to the holes, 4 to the fold, 4 and 4."""
    said = one_band.band(fold=fold, buttonholes=one_band.holes(5, 3, 2, front=front))
    plan = one_band.plan(said, 52)
    assert (plan.edge_rows.value, plan.stitches.value) == (52, 39)
    assert plan.placing is not None and plan.hole is not None
    assert (plan.placing.lower, plan.placing.gaps, plan.placing.upper) == (2, (5,) * 4, 2)
    assert (plan.hole.value, plan.closing_loops.value) == (3, 4)
    assert figure_of(plan, "closing_gaps") == (4,) * 4
    program, seen = knitted(plan, front=front)
    assert [len(step.needles) for step in made_of(program, HandKnit) if step.cord] == [3] * 5
    spans = hung(program, "upper edge").spans()
    assert [len(between(*span)) for span in spans] == [4] * 5
    left = [later[0].place - sooner[1].place - 1 for sooner, later in pairwise(spans)]
    assert left == [4] * 4
    assert layers(program) == [4, 4 + plan.fold_rows.value + 4, 4]
    # and the joining row by hand
    assert dict(seen.rows)[StepYarn.MAIN] == 16 + plan.fold_rows.value + 1


@against("D02")
def test_a_picot_hem(case):
    said, wanted = case["inputs"], case["outputs"]
    half = wanted["rows_before_fold"] // 2
    picot = one_band.band(
        fold=Fold.PICOT,
        dial=Dial(3 * wanted["hem_tension"]),
        rows=one_band.rows(half, half, half, half),
    )
    plan = one_band.plan(picot, 28)  # 28 rows at 3/4 are 21 stitches
    assert plan.stitches.value == said["sts"]
    program, seen = knitted(plan)
    (transfer,) = made_of(program, Transfer)
    work = lay_out(said["sts"], Side.RIGHT).needles
    second, last = work.first.place + 1, work.last
    assert transfer.needles == every_other(Needle(second), last)
    assert len(transfer.needles) == (said["sts"] - 1) // 2 and last not in transfer.needles
    place = list(program.steps).index(transfer)
    assert seen.states[place].working == work and not transfer.rest  # "needles left in work"
    assert seen.states[place].loaded == every_other(work.first, last)
    assert rows_of(program.steps[:place]) == wanted["rows_before_fold"]
    assert rows_of(program.steps[place:]) == wanted["rows_after_fold"]
    dials = {step.dial for step in made_of(program, Knit) if step.yarn == StepYarn.MAIN}
    assert dials == {Dial(3 * wanted["hem_tension"])}


@against("D04")
@pytest.mark.parametrize("fold", [Fold.TURNED, Fold.LOOSE])  # "1 row very loose or 1 purl row"
def test_rows_from_hole_to_fold_equal_rows_from_fold_to_hole(case, fold):
    wanted = case["outputs"]
    to_holes = wanted["rows_to_buttonholes"] + wanted["first_row"].startswith("1 ")
    to_fold = wanted["rows_buttonhole_to_fold"]
    from_fold = wanted["rows_fold_to_second_half_buttonholes"]
    said = one_band.band(
        fold=fold,
        rows=one_band.rows(to_holes, to_fold, from_fold, to_holes),
        buttonholes=one_band.holes(5, 3, 2),
    )
    plan = one_band.plan(said, 52)
    program, _ = knitted(plan)
    assert plan.fold_rows.value == 1
    assert layers(program) == [to_holes, to_fold + 1 + from_fold, to_holes]
    fold_rows = [step for step in made_of(program, Knit)
                 if step.reason in (Reason.FOLD_ROW, Reason.LOOSE_FOLD_ROW)]
    assert [step.rows for step in fold_rows] == [1]
    tighter = one_band.GARMENT_DIAL.thirds - one_band.BAND_DIAL.thirds
    assert 3 <= tighter <= 6  # "T-1 to T-2"
    turns = len(made_of(program, TurnWork))
    loose = fold_rows[0].dial.thirds > one_band.GARMENT_DIAL.thirds
    assert (turns, loose) == ((2, False) if fold is Fold.TURNED else (0, True))


@against("D04")
def test_unequal_layers_are_refused(case):
    to_fold = case["outputs"]["rows_buttonhole_to_fold"]
    said = one_band.band(
        rows=one_band.rows(6, to_fold, to_fold - 1, 6), buttonholes=one_band.holes(5, 3, 2)
    )
    _, problems = one_band.plan_of(one_band.pattern(said, 52), said)
    assert has_errors(problems)


@against("D05")
def test_twelve_rows_each_side_of_one_loose_row(case):
    wanted = case["outputs"]
    half = wanted["rows_each_half"]
    said = one_band.band(fold=Fold.LOOSE, rows=one_band.rows(half // 2, half // 2, half // 2, 6))
    program, _ = knitted(one_band.plan(said, 52))
    main = [step for step in made_of(program, Knit) if step.yarn == StepYarn.MAIN]
    loose = next(place for place, s in enumerate(main) if s.dial > one_band.GARMENT_DIAL)
    assert main[loose].rows == 1 and wanted["fold"] == "1 row at high tension"
    assert rows_of(main[:loose]) == rows_of(main[loose + 1 :]) == half


@against("D05")
def test_the_tension_is_graded_after_every_four_rows_and_back(case):
    """A stand collar is such a neckband: its steps and its second half, read from the bed."""
    half = case["outputs"]["rows_each_half"]
    assert case["outputs"]["steps"] == "4 rows at start tension, reduce, 4 rows, reduce, 4 rows"
    assert case["outputs"]["second_half"] == "12 rows, raising tension after every 4"
    tighter = Dial(one_band.BAND_DIAL.thirds - 6)
    said = one_band.band(fold=Fold.LOOSE, rows=one_band.rows(half // 2, half // 2, half // 2, 6),
                         kind="stand collar", collar=CollarSpec(outer_dial=tighter))
    program, _ = knitted(one_band.plan(said, 52))
    main = [step for step in made_of(program, Knit) if step.yarn == StepYarn.MAIN]
    loose = next(place for place, s in enumerate(main) if place and s.dial > main[1].dial)
    rows = [s.rows for s in main]
    # The first of the first four rows is knitted at the garment's dial.
    assert rows == [1, 3, 4, 4, 1, 4, 4, 4] and loose == 4
    dials = [s.dial for s in main]
    assert dials[1:4] == dials[5:][::-1] and dials[1] > dials[2] > dials[3] == tighter


@against("D05")
@pytest.mark.parametrize("kind", ["enclosing", "folded"])
def test_tension_graded_in_steps_and_back(case, kind):
    wanted = case["outputs"]
    half, steps = wanted["rows_each_half"], wanted["steps"].split(", ")
    assert steps == ["4 rows at start tension", "reduce", "4 rows", "reduce", "4 rows"]
    assert wanted["second_half"].endswith("raising tension after every 4")
    proof = one_band.proved(
        "sizes: [one size]\nedges: {neck: {kind: closed round, fabric: garment, rows: 80}}\n"
        "bands:\n  neck:\n"
        f"    edge: neck\n    kind: {kind}\n    fabric: band\n    dials: [6, 5, 4]\n"
        f"    fold: loose\n    depth: {half * 4} mm\n")  # rows are 4 mm high
    strip = proof.sizes[0].strips[0]
    main = [step for step in made_of(strip.program, Knit) if step.yarn == StepYarn.MAIN]
    rows = [step.dial for step in main for _ in range(step.rows)]
    start, less, least = Dial(18), Dial(15), Dial(12)
    assert rows[:half] == [start] * 4 + [less] * 4 + [least] * 4
    assert rows[half] > start  # "1 row at high tension"
    assert rows[half + 1:] == [least] * 4 + [less] * 4 + [start] * 4


@against("D06")
def test_the_layout_and_the_waste_start_of_a_long_band(case):
    said, wanted = case["inputs"], case["outputs"]
    left, right = wanted["needles"].split("-0-")
    written = between(needle(f"L{left}"), needle(f"R{right}"))
    assert len(written) == said["neck_sts"] and centred(said["neck_sts"]) == written
    fewest, most = (int(rows) for rows in wanted["waste_rows"].split(" to "))
    program, seen = knitted(one_band.plan(one_band.band(), 173))  # 173 × 3/4 = 129 3/4
    assert lay_out(said["neck_sts"], Side.RIGHT).needles == written
    assert max(len(state.loaded) for state in seen.states) == said["neck_sts"]
    assert fewest <= rows_of(program.steps, StepYarn.WASTE) <= most


@against("D11")
def test_a_folded_band_is_knitted_twice_its_depth(case):
    finished, work = (
        read_length(f"{inches} in").mm
        for inches in (case["inputs"]["finished_in"], case["outputs"]["work_in"])
    )
    for row in (Fraction(127, 30), Fraction(4), Fraction(5, 2)):
        own = one_band.fabric("band", one_band.BAND_DIAL, row=row)
        said = one_band.band(
            fabric="band",
            pick_up=None,
            rows=None,
            depth={one_band.ONLY: read_length(f"{case['inputs']['finished_in']} in")},
            buttonholes=one_band.holes(5, 3, 2),
        )
        plan = one_band.plan(said, 52, (own,))
        first = plan.rows.to_holes + plan.rows.holes_to_fold
        second = plan.rows.fold_to_holes + plan.rows.to_finish
        assert first == second == plan.depth.value
        assert abs(depth_mm(plan) - finished) <= row / 2
        assert abs((first + second) * row - work) <= row
        assert plan.rows.holes_to_fold == plan.rows.fold_to_holes


MAIN_DIAL = Dial(18)


class Strip:
    """A strip of plain knitting with a waste start, step by step, for trying one hang on it.

    It is written out by hand here and owes nothing to the planner.
    """

    def __init__(self, stitches: int):
        self.needles = centred(stitches)
        self.steps: list[Step] = []
        self.counter, self.on, self.side = 0, 0, Side.RIGHT
        self.do(SetCounter, rows=0)
        self.do(Bring, needles=self.needles, position=Position.WORKING)
        self.do(SetDial, dial=MAIN_DIAL)
        self.do(Thread, yarn="waste", fresh=True)
        self.on = stitches
        self.do(CastOn, needles=self.needles, method=CastOnMethod.WASTE_START)
        self.do(HangWeights, weight=Weight.EVEN, needles=self.needles)
        self.knit("waste", 6)
        for yarn, rows in (("cord", 1), ("main", 3)):
            self.do(Unthread, cut=True)
            self.do(Thread, yarn=yarn, fresh=True)
            self.knit(yarn, rows)

    def do(self, kind: type[Step], *, loops: int | None = None, **said: object) -> None:
        """Add a step that claims what stands now, with `loops` in all."""
        claim = Claim(self.counter, self.on, self.on if loops is None else loops, self.side)
        self.steps.append(kind(claim=claim, **said))

    def knit(self, yarn: str, rows: int) -> None:
        """Add rows of plain knitting."""
        self.counter += rows
        self.side = self.side.other if rows % 2 else self.side
        self.do(Knit, rows=rows, yarn=yarn, dial=MAIN_DIAL)

    def run(self) -> Trace:
        """Run the strip; it is left on the needles, which is refused after the last step."""
        program = Program(
            name="strip",
            bed=bed_of(200),
            starts=Side.RIGHT,
            sections=(ProgramSection(heading=Heading.BODY, steps=tuple(self.steps)),),
            first_row="first row",
            cord_yarn="cord",
            waste_yarn="waste",
        )
        return run(program)

    def stopped(self) -> bool:
        """Whether the last step was refused; any step before it must have been done."""
        seen = self.run()
        assert len(seen.states) >= len(self.steps) - 1, seen.refusal
        return len(seen.states) < len(self.steps)


@against("D04")
@pytest.mark.parametrize("stitches", [2, 3, 4, 5, 8])
def test_a_hole_inside_the_fabric_offers_one_loop_more(case, stitches):
    assert case["outputs"]["loops_hung"] == "one more than the buttonhole stitches (n + 1)"
    first = needle("L3")
    hole = between(first, Needle(first.place + stitches - 1))
    for loops in range(stitches - 1, stitches + 4):
        strip = Strip(30)
        strip.do(HandKnit, needles=hole, yarn="length of cord", cord="hole")
        strip.knit("main", 4)
        assert dict(strip.run().states[-1].waiting)[upper("hole")] == stitches + 1
        above = between(first, Needle(first.place + loops - 1))
        total = strip.on + loops
        upper_edge = {"edge": upper("hole"), "onto_empty": False, "lean": Side.RIGHT}
        strip.do(TakeWeightsOff)
        strip.do(Hang, loops=total, needles=above, **upper_edge)
        assert strip.stopped() == (loops != stitches + 1)


def first_row_hung(stitches: int, loops: int, half_at: Side | None) -> Strip:
    """A strip bound off above, with `loops` of its first row hung on the empty needles."""
    strip = Strip(stitches)
    strip.do(TakeWeightsOff)
    whole, strip.on = strip.needles, 0
    bind = {"yarn": "main", "toward": Side.LEFT, "keep_last": False,
            "method": BindOffMethod.LATCH_CHAIN}
    strip.do(BindOff, needles=whole, **bind)
    strip.on = loops
    needles = whole.leftmost(loops)
    strip.do(Hang, edge="first row", needles=needles, onto_empty=True, half_at=half_at)
    return strip


@against("D09")
def test_full_loops_alone_leave_one_needle_of_a_free_edge_bare(case):
    for up, down in zip(case["inputs"]["sts_up"], case["outputs"]["loops_down"], strict=True):
        assert first_row_hung(up, down + 1, None).stopped()  # as many full loops are not there
        # with the half loop of one end there is one for every needle
        hung_on = first_row_hung(up, down + 1, Side.RIGHT)
        assert not hung_on.stopped()
        assert len(hung_on.run().states[-1].loaded) == up
        assert first_row_hung(up, down, Side.RIGHT).stopped()


def test_the_half_loop_is_away_from_the_tail_of_the_first_row():
    """Lizzie, "Picking up from a provisional cast-on", chezlizzie.blogspot.com, 2014 (W3-006):
    seen with the waste at the top the tail is at the upper right, the half loop to the left of the
    last obvious stitch; Fiona, "More on lifeline provisional cast on", fionawinning.blogspot.com,
    2007-10-31 (W3-005): at the tail itself a loop has to be made. Row 1 of the strip runs from the
    left, where its tail is, to the right."""
    assert not first_row_hung(10, 10, Side.RIGHT).stopped()
    assert first_row_hung(10, 10, Side.LEFT).stopped()


@pytest.mark.parametrize("front", list(Side))
@pytest.mark.parametrize("lean", list(Lean))
@pytest.mark.parametrize("waste", [7, 8])
def test_a_band_takes_the_half_loop_where_its_first_row_ended(front, lean, waste):
    """The same two sources; a row ends on the side away from the carriage before it."""
    holes = replace(one_band.holes(5, 3, 2, front=front), lean=lean)
    said = replace(one_band.band(buttonholes=holes), waste_rows=waste)
    program, seen = knitted(one_band.plan(said, 52), front=front)
    rows = [n for n, s in enumerate(program.steps)
            if isinstance(s, Knit) and s.yarn == StepYarn.MAIN]
    began = seen.states[rows[0] - 1].side
    (hang,) = [step for step in made_of(program, Hang) if step.edge == FIRST_ROW]
    turns = len(made_of(program, TurnWork))
    assert hang.half_at is (began.other if turns % 2 == 0 else began)


def test_the_program_hangs_the_first_row_with_one_half_loop():
    """TECHknitter, Provisional cast on: knitting up vs. knitting down, techknitting.blogspot.com
    2007-01 (D09): n - 1 full loops; the needle left over takes the half loop of one end."""
    program, _ = knitted(one_band.plan(one_band.band(), 52))
    (hang,) = [step for step in made_of(program, Hang) if step.edge == FIRST_ROW]
    assert hang.half_at is not None and len(hang.needles) == 39
