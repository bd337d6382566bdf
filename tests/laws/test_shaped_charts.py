"""Shaped pieces knitted from charts: as many stitches as plain ones, the chart where it fits.

The chart is fixed to the needles of the bed; the pieces are those of the other laws, the charts
random. What the bed saw is held to the chart's own marks, not to what the planner cut.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import takewhile

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.core.units import Length
from walebook.fabric.chart_on_bed import Align, Placed, place_over
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff, TakeOff
from walebook.machine.needles import NONE, Needle, Needles, between
from walebook.machine.programs import Program
from walebook.machine.reasons import Reason
from walebook.machine.steps import Hold, Increase, Knit, Resume, Transfer
from walebook.machine.trace import State, Trace
from walebook.pages.program import _item as each_told
from walebook.pages.program import numbered
from walebook.pages.step_diagrams import Diagrams
from walebook.pattern.cells import Cell, emptied
from walebook.pattern.stitch_chart import Alignment, StitchChart
from walebook.proof.proof import KnittedPiece
from walebook.shape.garment import CannotShape
from walebook.shape.piece import Piece
from walebook.shape.profile import Change, How, Profile
from walebook.words.instruction import Moment, StepAnchor
from walebook.words.lying import middle
from walebook.words.shaped_edges import ShapingBlock

from tests.laws import pieces
from tests.laws.test_pieces import held, opened, shaped, straight
from tests.laws.test_stitch_charts import charts, read_back
from tests.scale import examples
from tests.small_patterns import cells_of, given_length

LACE = StitchChart(title="Lace", rows=(cells_of("||<|||"), cells_of("||||||")), edge=2)


@st.composite
def charted(draw: st.DrawFn) -> Piece:
    """A piece shaped, opened, held or gathered, with a chart from any line of it."""
    piece = draw(shaped() | opened() | held() | straight())
    chart = draw(charts(PIECES))
    assume(not chart.leaves_out and piece.repeat is None)
    try:
        return replace(piece, chart=chart,
                       align=draw(st.sampled_from((Align.CENTRE, Align.LEFT, Align.RIGHT))))
    except ValueError as fault:
        assume("repeat" not in str(fault) and "fewest" not in str(fault))
        raise


PIECES = ("|", "|<", ">|", "|<<", ">>|", ">|<", "u", "v", "x", "/(", "//((", ")\\", "))\\\\", "/((")


@given(charted())
@settings(max_examples=examples(38), deadline=None)
def test_every_charted_piece_is_knitted_to_its_end(piece: Piece) -> None:
    _, result = pieces.knit(piece)
    assert result.refusal is None, str(result.refusal)


def rows(program: Program, result: Trace) -> Iterator[tuple[int, Needles, Needles]]:
    """Every row that is knitted: the counter after it, the needles with stitches, those held."""
    for step, state in zip(program.steps, result.states, strict=True):
        if isinstance(step, Knit):
            for row in range(step.rows):
                yield state.counter - step.rows + row + 1, state.loaded, state.holding


@given(charted())
@settings(max_examples=examples(25), deadline=None)
def test_stitches_at_every_row_are_those_of_the_plain_piece(piece: Piece) -> None:
    plain = replace(piece, chart=None)
    assert list(rows(*pieces.knit(piece))) == list(rows(*pieces.knit(plain)))
    assert pieces.knit(piece)[1].states[-1].waiting == pieces.knit(plain)[1].states[-1].waiting


@given(charted())
@settings(max_examples=examples(20), deadline=None)
def test_a_mirrored_charted_piece_is_knitted_in_the_mirror(piece: Piece) -> None:
    program, _ = pieces.knit(piece)
    other, result = pieces.knit(replace(piece, mirrored=True))
    assert result.refusal is None, str(result.refusal)
    assert pieces.mirrored(program) == tuple(section.steps for section in other.sections)


def inner(piece: Piece, placed: Placed, state: State) -> Needles:
    """The needles so far inside what is in work that neither edge nor decrease reaches a repeat."""
    work = state.working
    far = placed.chart.edge + piece.moved + 2 + placed.chart.width
    if len(work.spans()) != 1 or len(work) <= 2 * far:
        return NONE
    first, last = work.first.place + far, work.last.place - far
    return between(work.first._replace(place=first), work.last._replace(place=last))


def chart_rows(program: Program, result: Trace) -> Iterator[tuple[int, Knit, State]]:
    """The single rows of a chart: number, step, and the bed just before it is knitted."""
    for at, step in enumerate(program.steps):
        if isinstance(step, Knit) and step.rows == 1 and step.reason is Reason.NONE:
            yield result.states[at].counter, step, result.states[at - 1]


@given(charted())
@settings(max_examples=examples(25), deadline=None)
def test_the_bed_agrees_with_the_chart_inside_the_piece(piece: Piece) -> None:
    placed = piece.placed
    assert placed is not None
    assume(not piece.gathers)  # above a gathering every row is plain
    for row, step, before in chart_rows(*pieces.knit(piece)):
        here = inner(piece, placed, before)
        empty = before.working - before.loaded
        assert empty & here == placed.at(emptied(placed.row(row))) & here
        chosen = placed.on(row, Cell.TUCK, Cell.SLIP) & here
        assert step.passes & here in (chosen, NONE)  # none where hands come next


def worked_by_hand(program: Program, at: int) -> tuple[Needles, bool]:
    """What the page says is not tucked or slipped in the row of a step, by the steps after it: the
    stitches that are moved, bound off or held and those beside them, the end stitch where one is
    added; or whether it is the whole row."""
    hands = NONE
    for step in takewhile(lambda one: not isinstance(one, Knit), program.steps[at + 1:]):
        match step:
            case BindOff(keep_last=True):  # the last of them keeps the last loop
                hands |= step.needles
            case Hold(reason=Reason.AT_LEFT | Reason.AT_RIGHT):
                hands |= step.needles | step.needles.shifted(1) | step.needles.shifted(-1)
            case Transfer(rest=True):  # a decrease: nothing is gathered here
                hands |= step.needles | step.needles.shifted(step.by)
            case Increase():
                hands |= step.needles.shifted(1) | step.needles.shifted(-1)
            case BindOff() | TakeOff() | Hold() | Resume() | Transfer():
                return NONE, True
    return hands, all(not isinstance(one, Knit) for one in program.steps[at + 1:])


SLIPS = StitchChart(title="Slips", rows=(cells_of("v|"), cells_of("|v")), edge=1)


@given(shaped() | opened() | held())
@settings(max_examples=examples(15), deadline=None)
def test_every_slip_that_the_page_does_not_take_out_is_made(piece: Piece) -> None:
    """The rule "Do not tuck or slip" is read strictly: no stitch more, no stitch less."""
    assume(piece.repeat is None and not piece.gathers and piece.stitches.value > 8)
    piece = replace(piece, chart=SLIPS, align=Align.CENTRE)
    placed = piece.placed
    assert placed is not None
    program, result = pieces.knit(piece)
    fresh = False  # no stitch lies elsewhere since the last row
    for at, step in enumerate(program.steps):
        if not isinstance(step, Knit):
            fresh = fresh and not isinstance(step, Transfer | BindOff)
            continue
        before, calm = result.states[at - 1], fresh
        fresh = True
        hands, whole = worked_by_hand(program, at)
        work = before.working
        if whole or step.rows != 1 or step.reason is not Reason.NONE or not calm or len(work) < 3 \
                or len(work.spans()) != 1:
            continue
        inside = between(work.first._replace(place=work.first.place + 1),
                         work.last._replace(place=work.last.place - 1))
        assert step.passes & inside == placed.on(
            result.states[at].counter, Cell.SLIP) & inside - hands


@given(charted())
@settings(max_examples=examples(15), deadline=None)
def test_edge_stitches_are_never_moved_crossed_or_passed(piece: Piece) -> None:
    assume(not piece.is_straight)  # whole repeats may lean onto the edges of a straight piece
    edge = piece.chart.edge if piece.chart else 0
    program, result = pieces.knit(piece)
    for at, step in enumerate(program.steps):
        if isinstance(step, Transfer) and not step.rest and step.reason is not Reason.FOR_PICOTS:
            work = result.states[at - 1].working
            touched = step.needles | step.needles.shifted(step.by)
            assert work.first.place + edge <= touched.first.place
            assert touched.last.place <= work.last.place - edge


def test_a_decrease_leaves_what_it_moved_plain_and_the_chart_where_it_was() -> None:
    """Counted by hand: 3 stitches move from R11-R13 to R10-R12, which row 3 knits plain."""
    chart = StitchChart(title="All", rows=(cells_of("|>"),), edge=1)
    piece = Piece(key="p", title="P", stitches=stated(26, Unit.STITCHES),
                  left=Profile(4), right=Profile(4, (Change(2, 1, How.DECREASE),)), chart=chart,
                  align=Align.LEFT)
    program, _ = pieces.knit(piece)
    moves = [s.needles for s in program.steps if isinstance(s, Transfer) and not s.rest]
    # Repeats begin at L12; turned over, the first of each two needles moves to the left: L12, L10
    # and so on to R11. L12 would move onto the edge; R11 is no edge stitch, not even in row 4.
    assert [str(n.last) for n in moves] == ["R11", "R11", "R9", "R11"]
    assert all(str(n.first) == "L10" for n in moves)


# In the forms


@pytest.mark.sampled(14, each=("form", "align"))
@pytest.mark.parametrize("form", [name for name in FORMS if name not in (
    "panelled blanket", "hat", "mitten", "triangular shawl")])
@pytest.mark.parametrize("align", list(Alignment))
def test_every_body_form_is_knitted_from_a_chart(form: str, align: Alignment) -> None:
    known = pieces.chart("women").measurements("M")
    cut = replace(pieces.cut(form, known, pieces.gauge(22, 30)), chart=LACE, align=align)
    if align is Alignment.FRONT_EDGE and not ("cardigan" in form or "waistcoat" in form):
        with pytest.raises(CannotShape, match="which has none"):
            FORMS[form].shape(cut)
        return
    garment = FORMS[form].shape(cut)
    assert all(piece.placed for piece in garment.pieces)
    assert pieces.faults(garment) == []


@pytest.mark.parametrize("form", ["hat", "mitten", "triangular shawl"])
def test_hats_mittens_and_shawls_are_knitted_from_a_chart(form: str) -> None:
    known = {"head": given_length(Length(Fraction(560)))} if form == "hat" else {}
    garment = FORMS[form].shape(replace(pieces.cut(form, known, pieces.gauge(22, 30)), chart=LACE))
    assert pieces.faults(garment) == []
    assert {p.key for p in garment.pieces if p.chart is None} <= {"thumb"}


def test_repeats_begin_at_the_front_edge_of_both_fronts() -> None:
    known = pieces.chart("women").measurements("M")
    cut = replace(pieces.cut("set-in cardigan", known, pieces.gauge(22, 30)), chart=LACE,
                  align=Alignment.FRONT_EDGE)
    fronts = {p.key: p for p in FORMS["set-in cardigan"].shape(cut).pieces if "front" in p.key}
    right, left = fronts["right_front"], fronts["left_front"]
    for piece, place in ((right, right.needles.first.place + 2),
                         (left, left.needles.last.place - 1)):
        placed = piece.placed
        assert placed is not None
        assert place in [placed.first.place + at for at in placed.bounds]


def test_a_piece_narrower_than_a_repeat_is_no_piece() -> None:
    wide = StitchChart(title="Wide", rows=(cells_of(12 * "|"),))
    with pytest.raises(ValueError, match="11 needles, too few for a repeat of the chart"):
        Piece(key="p", title="P", stitches=stated(11, Unit.STITCHES),
              left=Profile(4), right=Profile(4, (Change(2, 1, How.DECREASE),)), chart=wide,
              align=Align.CENTRE)


# The words


@st.composite
def fields(draw: st.DrawFn) -> Placed:
    """A chart over the needles of a shaped piece."""
    chart = draw(charts(PIECES))
    assume(not chart.leaves_out)
    first, wide = draw(st.integers(-60, 20)), draw(st.integers(2, 5)) * chart.width
    taken = between(Needle(first), Needle(first + wide + draw(st.integers(0, 9))))
    return place_over(chart, taken, draw(st.integers(-30, 30)), mirror=draw(st.booleans()))


@settings(deadline=None)
@given(fields())
def test_the_words_of_a_shaped_piece_read_back_give_the_chart(placed: Placed) -> None:
    read_back(placed)


@given(fields())
def test_what_is_drawn_is_whole_repeats_at_the_centre(placed: Placed) -> None:
    a, b = middle(placed)
    assert a in placed.bounds and b in placed.bounds and b > a
    assert b - a <= max(20, placed.chart.width)  # what a phone's width shows


@given(charted())
@settings(max_examples=examples(15), deadline=None)
def test_every_row_is_told_once_and_none_by_itself(piece: Piece) -> None:
    """As many rows in the numbered steps as in the program, in about as many steps as if plain."""
    told, steps = {}, {}
    for made in (piece, replace(piece, chart=None)):
        program, result = pieces.knit(made)
        knitted = KnittedPiece(piece=made, program=program, trace=result)
        groups = [each for _, group
                  in numbered(knitted, None) for each in group]  # type: ignore[arg-type]
        told[made.chart is None] = sum(rows_of(each) for each in groups)
        steps[made.chart is None] = len(groups)
        assert told[made.chart is None] == sum(s.rows for s in program.steps if isinstance(s, Knit))
    assert told[True] == told[False]
    out = 6  # the contrast yarn out, a last row that is plain, the lever set to tuck and back
    assert steps[False] <= steps[True] + out + (piece.is_straight and 2)


@given(charted())
@settings(max_examples=examples(15), deadline=None)
def test_a_checkpoint_in_the_stitch_pattern_says_which_needles_hold_more_loops(piece: Piece
                                                                               ) -> None:
    """After tucked rows the needles hold more loops than stitches: counted off the bed's state."""
    program, result = pieces.knit(piece)
    knitted = KnittedPiece(piece=piece, program=program, trace=result)
    for _, group in numbered(knitted, None):  # type: ignore[arg-type]
        for each in group:
            if not isinstance(each, ShapingBlock) or not each.events[-1].charted:
                continue
            said = each_told(each, StepAnchor("p", 1), "", Diagrams(knitted, None))  # type: ignore[arg-type]
            more = [(int(n), int(loops)) for n, loops in re.findall(
                r"(?:,|and) (\d+) needles? with (\d+) loops", said)]
            held = {loops: sum(sum(needle in on for _, on in each.events[-1].after.loops) == loops
                               for needle in each.events[-1].after.loaded) for _, loops in more}
            assert more == [(n, loops) for loops, n in held.items()]
            assert bool(more) or not each.events[-1].after.doubled \
                or "loops on each" in said


def rows_of(told: Moment | ShapingBlock) -> int:
    """The rows knitted in a numbered step."""
    if isinstance(told, ShapingBlock):
        return sum(event.rows for event in told.events)
    return sum(step.rows for step in told.steps if isinstance(step, Knit))

