"""What must hold for every rib: symmetrical or completed by its seam, knitted to its end, refused
when spoiled."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import fields, replace
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core.counted import stated
from walebook.core.counts import ODD, UP, Unit, whole
from walebook.core.units import Length
from walebook.fabric.arrangement import read_repeat
from walebook.forms.registry import FORMS
from walebook.machine import rib_steps
from walebook.machine.headings import Heading
from walebook.machine.needles import NONE, Needle, Needles, between, of
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.rib_steps import Across, Beds, KnitBeds, Latch, LowerSecond, Rack, Zigzag
from walebook.machine.set_up_steps import (
    Couple,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Uncouple,
    Weight,
)
from walebook.machine.step_keys import CastOnMethod, StepYarn
from walebook.machine.steps import (
    Dial,
    Increase,
    Knit,
    SetCounter,
    SetDial,
    Side,
    Step,
    Thread,
    Unthread,
)
from walebook.machine.trace import Trace
from walebook.pattern.rib_specs import RibMake, RibSpec
from walebook.pattern.stitch_chart import StitchChart
from walebook.program.ledger import Ledger
from walebook.program.piece_program import piece_program
from walebook.proof.proof import prove
from walebook.shape.garment import CannotRound, CannotShape, Cut
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import Profile
from walebook.shape.rib_widths import shape_ribbed
from walebook.shape.ribs import RIBS, Rib, faces, fitting
from walebook.sizing.measures import names_in

from tests.laws import bands, pieces
from tests.scale import examples
from tests.site.garments import garment
from tests.small_patterns import cells_of

DIAL, TIGHT = Dial(18), Dial(12)
NAMED = [(make, works) for make in RibMake for works in RIBS.values()
         if make is RibMake.TWO_BED or not all(works)]


@st.composite
def ribs(draw: st.DrawFn) -> Rib:
    """A rib of any kind, a mock one in any arrangement that can be filled."""
    make, works = draw(st.sampled_from(NAMED))
    if make in (RibMake.MOCK, RibMake.HUNG) and draw(st.booleans()):
        groups = draw(st.lists(st.tuples(st.integers(1, 5), st.integers(1, 2)), min_size=1,
                               max_size=3))
        works = read_repeat(", ".join(f"{a} in {b} out" for a, b in groups)).works
    return Rib(make=make, works=works, rows=2 * draw(st.integers(1, 20)), dial=TIGHT)


def spec(rib: Rib) -> RibSpec:
    return RibSpec(make=rib.make, works=rib.works, depth=Length(Fraction(50)), dial=rib.dial)


def piece(rib: Rib, stitches: int, *, mirrored: bool = False) -> Piece:
    return Piece(key="p", title="Piece", stitches=stated(stitches, Unit.STITCHES),
                 left=Profile(6), right=Profile(6), hem=rib, mirrored=mirrored,
                 ends=Ending.WASTE, waits=("top",))


def program_of(rib: Rib, stitches: int, *, mirrored: bool = False) -> Program:
    return piece_program(piece(rib, stitches, mirrored=mirrored), dial=DIAL, bed_needles=200,
                         second_needles=200)


def ran(program: Program) -> Trace:
    result = run(program)
    assert result.refusal is None, str(result.refusal)
    return result


def after_rib(program: Program) -> int:
    """How many steps the rib takes."""
    return len(program.sections[0].steps)


# The stitches of a rib


def runs_on(shown: tuple[bool, ...], works: tuple[bool, ...]) -> bool:
    """True where a rib is whole repeats but for the stitch of either edge that a seam takes."""
    turns = {works[n:] + works[:n] for n in range(len(works))}
    times, rest = divmod(len(shown) - 2, len(works))
    return not rest and any(shown[1:-1] == turn * times for turn in turns)


@given(ribs(), st.integers(8, 120))
def test_a_rib_is_completed_by_its_seam(rib, asked):
    stitches = whole(Fraction(max(asked, len(rib.works) + 2)), fitting(rib.works, seamed=True))
    shown = faces(stitches, rib.works, rib.make)
    assert runs_on(shown, rib.works)
    assert rib.make is RibMake.TWO_BED or (shown[0] and shown[-1])


@given(st.sampled_from(NAMED), st.integers(8, 120), st.booleans())
def test_a_rib_ends_as_it_begins(named, asked, seamed):
    """But for 1x1 that a seam completes, whose two ends differ by a stitch."""
    make, works = named
    rib = Rib(make=make, works=works, rows=4, dial=TIGHT)
    shown = faces(whole(Fraction(asked), fitting(rib.works, seamed=seamed)), works, make)
    assert shown[0]
    assert shown == shown[::-1] or (seamed and works == RIBS["1x1"])


@pytest.mark.parametrize("name", sorted(RIBS))
def test_two_beds_are_cast_on_tighter_than_the_rib(name):
    """"2X2 Ribbing Circular Cast On", tommachineknittingguy, 2014: T0 for the zigzag row, T1 for
    the round, then the rib's own."""
    rib = Rib(make=RibMake.TWO_BED, works=RIBS[name], rows=4, dial=TIGHT)
    rows = [s for s in program_of(rib, 14).steps if isinstance(s, Zigzag | KnitBeds)]
    assert [s.dial for s in rows] == [Dial(0), Dial(3), Dial(3), TIGHT]


@st.composite
def begun(draw: st.DrawFn) -> tuple[str, Cut]:
    """A form with a rib of any kind, cut from any measures of a woman."""
    form = draw(st.sampled_from([name for name in FORMS if "shawl" not in name]))
    women, heads = pieces.chart("women"), pieces.chart("heads")
    known = {**women.measurements(draw(st.sampled_from(women.sizes))),
             **heads.measurements(draw(st.sampled_from(heads.sizes)))}
    known |= {name: known["chest"] for sum_ in FORMS[form].measures.values()
              for name in names_in(sum_) if name not in known | dict(FORMS[form].measures)}
    around = Fraction(draw(st.integers(14, 40)))
    gauge = pieces.gauge(around, around * Fraction(draw(st.integers(120, 180)), 100))
    rib = draw(ribs())
    return form, pieces.cut(form, known, gauge, hem=spec(rib))


def test_a_chart_whose_repeats_fit_no_rib_is_refused_with_a_way_out():
    """Repeats of 6 with two edge stitches at either end, 6 n + 4, are never a multiple of 3 + 2."""
    lace = StitchChart(title="Lace", rows=(cells_of("||<|||"), cells_of("||||||")), edge=2)
    form = FORMS["panelled blanket"]
    cut = pieces.cut("panelled blanket", {}, pieces.gauge(28, 40),
                     hem=spec(rib_of(RibMake.LATCHED, "2x1")))
    with pytest.raises(CannotRound, match="where the rib needs a multiple of 3 plus 2"):
        shape_ribbed(form.shape, replace(cut, chart=lace), {}, form.rounds,
                     seamed=form.seamed)


@given(begun())
@settings(deadline=None, max_examples=examples(40),
          suppress_health_check=[HealthCheck.too_slow])
def test_every_piece_of_every_form_fits_its_rib_and_is_knitted(asked):
    form, cut = asked
    try:
        garment = shape_ribbed(FORMS[form].shape, cut, {}, FORMS[form].rounds,
                                seamed=FORMS[form].seamed)
    except CannotShape as fault:
        assert any(mark.isdigit() for mark in fault.found) and fault.remedy
        return
    assert pieces.faults(garment) == []
    ribbed = [piece for piece in garment.pieces if piece.hem]
    assert ribbed
    for piece in ribbed:
        shown = faces(piece.stitches.value, piece.hem.works, piece.hem.make)
        assert shown == shown[::-1] or runs_on(shown, piece.hem.works)


def test_a_rounding_that_fits_no_rib_is_refused_with_a_way_out():
    women = pieces.chart("women")
    cut = pieces.cut("drop-shoulder pullover", women.measurements("M"), pieces.gauge(28, 40),
                     hem=spec(rib_of(RibMake.LATCHED, "2x2")))
    form = FORMS["drop-shoulder pullover"]
    with pytest.raises(CannotRound, match="never a multiple of 4 plus 2"):
        shape_ribbed(form.shape, cut, {"back cast_on": ODD}, form.rounds)
    made = shape_ribbed(form.shape, cut, {"back cast_on": UP}, form.rounds)
    count = made.pieces[0].stitches
    assert count.value % 4 == 2 and count.value >= count.exact


# On the bed


@given(ribs(), st.integers(6, 150), st.booleans())
@settings(deadline=None)
def test_every_rib_is_knitted_to_its_end_and_leaves_a_plain_row(rib, stitches, mirrored):
    program = program_of(rib, stitches, mirrored=mirrored)
    result = ran(program)
    state = result.states[after_rib(program) - 1]
    own = piece(rib, stitches, mirrored=mirrored).needles
    assert state.loaded == state.working == own and state.second is None
    assert state.counter == 0 and state.side is (Side.LEFT if mirrored else Side.RIGHT)
    doubled = stitches - 1 if rib.full else 0
    assert len(state.doubled) == doubled


@given(ribs(), st.integers(6, 150))
@settings(deadline=None)
def test_the_stitches_of_a_rib_are_counted_once(rib, stitches):
    """All stitches of the main yarn but the piece's own six rows and the row that joins a fold."""
    program = program_of(rib, stitches)
    made = dict(ran(program).stitches)[StepYarn.MAIN]
    plain = (6 + rib.rows_to_join) * stitches
    assert made - plain == rib.knitted(stitches)


@given(st.sampled_from(tuple(RIBS)), st.integers(6, 90), st.booleans())
@settings(deadline=None)
def test_on_two_beds_every_place_has_its_stitch_on_one_of_them(name, stitches, mirrored):
    rib = rib_of(RibMake.TWO_BED, name)
    program = program_of(rib, stitches, mirrored=mirrored)
    own = piece(rib, stitches, mirrored=mirrored).needles
    shown = faces(stitches, rib.works, rib.make)
    for step, state in zip(program.steps, ran(program).states, strict=True):
        if isinstance(step, KnitBeds) and step.beds is Beds.BOTH:
            assert state.second is not None
            assert [n in state.loaded for n in own] == list(shown)
            if rib.full:
                assert state.second.rack % 2 == 1
                assert len(state.second.loaded) == stitches - 1
            else:
                assert state.second.loaded == own - state.loaded


@given(ribs(), st.integers(6, 90), st.booleans())
@settings(deadline=None)
def test_only_what_lies_back_is_latched_or_left_out(rib, stitches, mirrored):
    program = program_of(rib, stitches, mirrored=mirrored)
    own = list(piece(rib, stitches, mirrored=mirrored).needles)
    shown = faces(stitches, rib.works, rib.make)
    back = [n for n, on in zip(own, shown, strict=True) if not on]
    moved = [step.needles for step in program.steps if isinstance(step, Latch | Increase)]
    if rib.make is not RibMake.TWO_BED:
        assert [n for needles in moved for n in needles] == back
    for step in program.steps:
        if isinstance(step, Latch):
            assert step.rows == rib.rows - 1  # the first row stops the column


@given(st.sampled_from(("1x1", "2x1", "2x2")), st.integers(30, 200), st.sampled_from(Side))
@settings(deadline=None, max_examples=examples(40))
def test_a_ribbed_band_ends_as_it_begins_and_latches_what_lies_back(name, rows, front):
    works = RIBS[name]
    source = bands.pattern(rows=rows, front=front, holes=0)
    band = replace(source.bands["front"], kind="ribbed", rib=works,
                   rounding=fitting(works, seamed=False))
    proof, problems = prove(replace(source, bands={"front": band}))
    assert proof is not None, [str(p) for p in problems]
    for strip in proof.sizes[0].strips:
        assert strip.trace.refusal is None
        shown = faces(strip.plan.stitches.value, works, RibMake.LATCHED)
        assert shown == shown[::-1] and shown[0]
        latched = [s for s in strip.program.steps if isinstance(s, Latch)]
        places = [needle for needle, on in zip(strip.layout.needles, shown, strict=True) if not on]
        assert [n for step in latched for n in step.needles] == places
        assert {step.rows for step in latched} == {strip.plan.depth.value - 1}


# Columns: what the bed knows of the rows below a needle, against counting needle by needle

moves = st.lists(st.one_of(
    st.tuples(st.just("knit"), st.integers(1, 4)), st.tuples(st.just("hold"), st.integers(1, 3)),
    st.tuples(st.just("resume"), st.just(0)), st.tuples(st.just("decrease"), st.just(0)),
    st.tuples(st.just("increase"), st.just(0))), max_size=14)


@given(moves, st.data())
@settings(deadline=None, max_examples=examples(150))
def test_a_column_can_be_latched_down_to_where_it_began_and_no_further(made, data):
    book, high = Ledger(side=Side.RIGHT), dict.fromkeys(range(-8, 8), 0)
    held: set[int] = set()
    book.set_counter(0)
    book.bring(between(Needle(-8), Needle(7)))
    book.thread(StepYarn.MAIN, fresh=True)
    book.set_dial(DIAL)
    book.cast_on(between(Needle(-8), Needle(7)), CastOnMethod.LATCH_CHAIN)
    book.hang_weights(Weight.EVEN, between(Needle(-8), Needle(7)))
    for what, number in made:
        _do(book, high, held, what, number)
    inner = [p for p in high if p not in (min(high), max(high))]
    place = data.draw(st.sampled_from(inner))
    if high[place]:
        book.latch(between(Needle(place), Needle(place)), high[place])
    reached = run(book_of(book)).refusal
    assert reached is not None and reached.code == "loops-left"  # knitted to where it stops
    book.latch(between(Needle(place), Needle(place)), high[place] + 1)
    beyond = run(book_of(book)).refusal
    assert beyond is not None and beyond.code == "column-too-short"


def _do(book, high, held, what, number):
    first, last = min(high), max(high)
    if what == "knit":
        book.knit(number)
        for place in high:
            high[place] += 0 if place in held else number
    elif what == "hold" and not held and len(high) > number + 3:
        far = book.side.other
        away = range(first, first + number) if far is Side.LEFT else range(last - number + 1,
                                                                           last + 1)
        held.update(away)
        book.hold(between(Needle(away[0]), Needle(away[-1])))
        work = of(*(Needle(p) for p in high if p not in held))
        if not book.claws & work:
            book.hang_weights(Weight.CLAWS, work)
    elif what == "resume" and held:
        near = min(held) == first if book.side is Side.LEFT else max(held) == last
        if near and len(held) > 1:
            return
        book.resume(between(Needle(min(held)), Needle(max(held))))
        book.claws_off()
        held.clear()
    elif what == "decrease" and not held and len(high) > 6:
        book.transfer(between(Needle(last), Needle(last)), -1, fewer=1, rest=True)
        del high[last]
        high[last - 1] = 0
        book.knit(1)
        for place in high:
            high[place] += 1
    elif what == "increase" and not held:
        book.increase(between(Needle(last + 1), Needle(last + 1)))
        high[last + 1] = 0


def book_of(book):
    steps = (*[s for part in book.sections for s in part.steps], *book._steps)
    return Program(name="trial", bed=between(Needle(-60), Needle(59)), starts=Side.RIGHT,
                   sections=(ProgramSection(heading=Heading.BODY, steps=tuple(steps)),),
                   latched=book.latched)


# Refusals


def rib_of(make: RibMake, name: str, rows: int = 6) -> Rib:
    return Rib(make=make, works=RIBS[name], rows=rows, dial=TIGHT)


def changed(program: Program, at: int, *instead: Step) -> Program:
    steps = list(program.steps)
    return replace(program, sections=(ProgramSection(heading=Heading.BODY,
                                                     steps=(*steps[:at], *instead,
                                                                *steps[at + 1:])),))


def place_of(program: Program, kind: type[Step], number: int = 0) -> int:
    return [n for n, step in enumerate(program.steps) if isinstance(step, kind)][number]


TWO = rib_of(RibMake.TWO_BED, "2x2")
FULL = rib_of(RibMake.TWO_BED, "full needle")
LATCHED = rib_of(RibMake.LATCHED, "2x2")


def refused(program: Program, code: str, at: int | None = None) -> None:
    refusal = run(program).refusal
    assert refusal is not None and refusal.code == code, str(refusal)
    assert refusal.expected and refusal.found
    if at is not None:
        assert refusal.step == at + 1


def test_a_bed_without_a_second_one_refuses_a_rib_of_two():
    refused(replace(program_of(TWO, 22), second=NONE), "no-second-bed", 1)


def test_needles_in_work_opposite_each_other_strike():
    """At full pitch one of each pair works, at half pitch every needle may (common practice)."""
    program = program_of(FULL, 12)
    at = place_of(program, Rack)
    step = program.steps[at]
    refused(changed(program, at, replace(step, halves=0)), "needles-strike")
    assert run(changed(program, at, replace(step, halves=-1))).refusal is not None  # no turns


def test_stitches_go_across_only_where_needles_face_each_other():
    program = program_of(FULL, 12)
    at = place_of(program, Rack, 1)
    refused(changed(program, at), "racked-between")
    refused(changed(program, at, replace(program.steps[at], halves=4)), "racked-too-far", at)


def test_stitches_racked_aside_land_on_the_wrong_needles():
    program = program_of(TWO, 22)
    at = place_of(program, Across, -1)
    aside = Rack(halves=2, claim=program.steps[at - 1].claim)
    refused(changed(program, at, aside, program.steps[at]), "wrong-claim", at + 1)


def test_the_second_bed_is_not_let_down_with_stitches_on_it():
    program = program_of(TWO, 22)
    at = place_of(program, rib_steps.LowerSecond)
    last = place_of(program, Across, -1)
    refused(changed(program, last, program.steps[at]), "loop-dropped")
    refused(changed(program, at), "second-bed-up")


def test_the_main_bed_knits_alone_only_when_the_second_is_out_of_work():
    program = program_of(TWO, 22)
    at = place_of(program, KnitBeds, -1)
    alone = Knit(rows=6, yarn=StepYarn.MAIN, dial=TIGHT, claim=program.steps[at].claim)
    refused(changed(program, at, alone), "second-bed-in-work", at)


def test_side_by_side_on_one_bed_needles_form_no_zigzag():
    """Knitting Technology, third edition, 7.3.1: a rib is cast on with the beds by turns."""
    program = program_of(TWO, 22)
    at = place_of(program, rib_steps.BringSecond)
    step = program.steps[at]
    fewer = replace(step, needles=step.needles - step.needles.leftmost(2))
    refused(changed(program, at, fewer), "needles-by-turns", place_of(program, Zigzag))


def without(program: Program, kind: type[Step], number: int = 0) -> Program:
    """The program with one step of a kind left out."""
    return changed(program, place_of(program, kind, number))


def test_two_beds_knit_only_with_their_arm_levers_and_dials_set():
    """Arm and levers: needlesofsteel 2011-08-19 (W3-031), Roni Knutson (W3-033)."""
    program = program_of(TWO, 22)
    refused(without(program, Couple), "arm-off")
    refused(without(program, Uncouple), "arm-on", place_of(program, LowerSecond) - 1)
    refused(without(program, TakeWeightsOff), "weights-on")
    for number, code in enumerate(("lever-wrong", "lever-wrong", "lever-wrong", "lever-wrong",
                                   "lever-wrong")):
        refused(without(program, SetCarriage, number), code)
    other = program.steps[place_of(program, SetCarriage, 1)]
    refused(changed(program, place_of(program, SetCarriage, 1), replace(other, bed=Beds.SECOND)),
            "lever-wrong")
    early = next(s for s in program.steps if isinstance(s, SetDial))
    couple = program.steps[place_of(program, Couple)]
    before = without(program, SetDial)
    refused(changed(before, place_of(before, Couple), replace(early, claim=couple.claim), couple),
            "wrong-dial")


def test_a_single_row_after_a_rib_has_the_main_beds_arm_and_its_yarn_again():
    program = program_of(TWO, 22)
    assert [type(s) for s in program.sections[0].steps[-8:]] == [
        TakeWeightsOff, Unthread, Uncouple, LowerSecond, HangWeights, Thread, SetDial, SetCounter]
    at = [n for n, s in enumerate(program.steps) if isinstance(s, Thread)][-1]
    refused(changed(program, at), "feeder-empty")


def test_an_edge_column_and_one_too_short_cannot_be_latched():
    program = program_of(LATCHED, 22)
    at = place_of(program, Latch)
    step = program.steps[at]
    own = piece(LATCHED, 22).needles
    refused(changed(program, at, replace(step, needles=own)), "edge-column", at)
    refused(changed(program, at, replace(step, rows=LATCHED.rows + 1)), "column-too-short", at)
    refused(changed(program, at), "wrong-latched")
    refused(changed(program, at, step, step), "wrong-latched")


# Spoiled programs

SURVIVORS = {
    ("dropped", "Attend"): "needles brought forward by hand, where the row knits them alike",
    ("doubled", "Attend"): "the same",
    ("moved", "Attend"): "the same",
    ("doubled", "SetCarriage"): "a lever set twice to one place stands there",
    ("other bed", "SetCarriage"): "both carriages set as one of them is: the other is set anew "
                                  "before it knits",
    ("doubled", "Bring"): "needles already in work are brought to work again",
    ("doubled", "BringSecond"): "the same on the second bed",
    ("doubled", "SetDial"): "a dial set twice to one number stands at that number",
    ("doubled", "SetCounter"): "a counter set twice to one number shows that number",
    ("doubled", "Rack"): "a bed racked twice to one place stands at that place",
    ("cut flipped", "Unthread"): "a yarn not cut hangs from the work; the next yarn is fresh",
    ("moved", "Latch"): "the bed cannot know which columns the designer wants; any column inside "
                        "the work can be latched",
}


def spoiled(program: Program) -> Iterator[tuple[str, Step, Program]]:
    for at, step in enumerate(program.steps[:after_rib(program)]):
        yield "dropped", step, changed(program, at)
        yield "doubled", step, changed(program, at, step, step)
        for what, change in _changes(step):
            yield what, step, changed(program, at, change)


def _changes(step: Step) -> Iterator[tuple[str, Step]]:
    for field in fields(step):
        value = getattr(step, field.name)
        if isinstance(value, Needles) and value:
            for by in (-1, 1):
                yield "moved", replace(step, **{field.name: value.shifted(by)})
        elif isinstance(value, bool):
            yield f"{field.name} flipped", replace(step, **{field.name: not value})
        elif isinstance(value, Side):
            yield f"{field.name} flipped", replace(step, **{field.name: value.other})
        elif isinstance(value, Beds):
            for other in set(Beds) - {value}:
                yield "other bed", replace(step, **{field.name: other})
        elif field.name in ("rows", "halves") and isinstance(value, int):
            for by in (-1, 1):
                yield f"{field.name} off", replace(step, **{field.name: value + by})


def test_spoiled_ribs_are_refused_or_argued_by_name():
    lived: Counter[tuple[str, str]] = Counter()
    made = 0
    for make, works in NAMED:
        program = program_of(Rib(make=make, works=works, rows=4, dial=TIGHT), 14)
        ran(program)
        for what, step, version in spoiled(program):
            made += 1
            if run(version).refusal is None:
                lived[what, type(step).__name__] += 1
    assert made > 500
    assert set(lived) == set(SURVIVORS)


def test_the_work_of_the_bed_goes_with_the_steps_on_two_beds_too():
    """Rows over two beds of 200 needles are a layer or two each, like rows over 20."""
    for stitches in (20, 180):
        states = ran(program_of(TWO, stitches)).states
        assert max(len(state.loops) for state in states) <= 2


@pytest.mark.parametrize("make", RibMake)
def test_a_rib_needs_every_needle_of_the_piece_above_it(make):
    rib = rib_of(make, "1x1")
    with pytest.raises(ValueError, match="left out"):
        replace(piece(rib, 13), repeat=read_repeat("2 in 1 out"))


def test_weights_are_told_where_they_are_needed():
    for make, works in NAMED:
        rib = Rib(make=make, works=works, rows=4, dial=TIGHT)
        assert any(isinstance(s, HangWeights) for s in program_of(rib, 14).steps)


@pytest.mark.sampled(6, each=("form", "name"))
@pytest.mark.parametrize("form", ["set-in cardigan", "drop-shoulder cardigan", "raglan cardigan",
                                  "set-in pullover"])
@pytest.mark.parametrize("name", sorted(RIBS))
def test_a_rib_runs_on_across_every_seam(form, name):
    """Outside the seam's own stitch, which lies within, whole repeats follow each other: the
    right side of each piece meets the left side of the next, the inside of all towards you."""
    works = RIBS[name]
    made = garment(form)
    assert made.garment is not None
    rib = RibSpec(make=RibMake.LATCHED, works=works, depth=Length(Fraction(40)), dial=Dial(15))
    proof, problems = prove(replace(made, garment=replace(made.garment, hem=rib)))
    assert proof is not None, [str(p) for p in problems]
    for size in proof.sizes:
        shown = {}
        for knitted in size.pieces:
            piece = knitted.piece
            if piece.key == "sleeve":
                continue
            back = {needle for step in knitted.program.steps if isinstance(step, Latch)
                    for needle in step.needles}
            shown[piece.key] = [needle not in back for needle in piece.needles][1:-1]
        # Inside out, from the left: the right front, the back, the left front.
        order = [k for k in ("right_front", "back", "left_front") if k in shown]
        order = order if len(order) == 3 else ["front", "back", "front"]
        row = [on for key in order for on in shown[key]]
        assert all(row[i] == row[i + len(works)] for i in range(len(row) - len(works))), form
