"""What must hold for every piece: knitted to its end, its stitches and rows adding up, mirrored."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from walebook.core.counted import Count, stated
from walebook.core.counts import Unit, whole
from walebook.fabric.arrangement import (
    allowed_counts,
    arrangement,
    needles_taken,
    read_repeat,
    repeat_text,
)
from walebook.forms.registry import FORMS
from walebook.machine.programs import Program
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, CastOn, Dial, Knit, Transfer
from walebook.pattern.fabrics import Repeat
from walebook.pattern.model import Fold, Neck
from walebook.pattern.specs import CrownShape, CrownSpec
from walebook.program.piece_program import piece_program
from walebook.shape.crowns import halvings, quarter, wedges
from walebook.shape.foot import Hem
from walebook.shape.garment import CannotShape, Garment
from walebook.shape.piece import Ending, Opening, Piece
from walebook.shape.profile import Change, How, Profile
from walebook.words.terms.waiting_names import HEM_FIRST_ROW

from tests.laws import pieces
from tests.scale import examples

BODY_FORMS = [name for name in FORMS if name.startswith(("drop", "set-in", "raglan", "saddle"))]
hems = st.none() | st.builds(Hem, rows=st.sampled_from((2, 4, 8)), dial=st.just(Dial(12)),
                             fold=st.sampled_from((Fold.LOOSE, Fold.PICOT)))


@st.composite
def repeats(draw: st.DrawFn) -> Repeat:
    """An arrangement as a designer writes it."""
    groups = draw(st.lists(st.tuples(st.integers(1, 5), st.integers(1, 3)), min_size=1,
                           max_size=3))
    said = ", ".join(f"{a} in {b} out" for a, b in groups)
    return read_repeat(said, edge=draw(st.integers(0, 3)))


@st.composite
def edges(draw: st.DrawFn, rows: int, parity: int, most: int) -> Profile:
    """An edge that loses and gains at most `most` stitches, bound off on rows of `parity`."""
    at = sorted(draw(st.sets(st.integers(1, rows - 2), max_size=8)))
    made, left = [], most
    for row in at:
        how = draw(st.sampled_from((How.DECREASE, How.INCREASE, How.BIND_OFF)))
        if how is How.BIND_OFF and row % 2 != parity:
            how = How.DECREASE
        stitches = draw(st.integers(1, 4)) if how is How.BIND_OFF else 1
        if how is not How.INCREASE:
            stitches = min(stitches, left)
            left -= stitches
        if stitches:
            made.append(Change(row, stitches, how))
    return Profile(rows, tuple(made))


def holds(steps: list[int], first: int) -> tuple[Change, ...]:
    """Steps held automatically from a row on, the carriage then at the other side (S07)."""
    made = []
    for i, step in enumerate(steps):
        if step > 1:
            made.append(Change(first + 2 * i, step - 1, How.HOLD))
        made.append(Change(first + 2 * i + 1, 1, How.HOLD))
    return tuple(made)


@st.composite
def shaped(draw: st.DrawFn) -> Piece:
    """A piece shaped at both sides, whose top is bound off or waits."""
    rows = draw(st.integers(4, 60))
    ends = draw(st.sampled_from((Ending.BIND_OFF, Ending.WASTE)))
    return Piece(key="p", title="Piece", stitches=stitches(draw(st.integers(30, 90))),
                 left=draw(edges(rows, 1, 12)), right=draw(edges(rows, 0, 12)), hem=draw(hems),
                 moved=draw(st.integers(1, 4)), ends=ends,
                 waits=("top",) if ends is Ending.WASTE else ())


@st.composite
def opened(draw: st.DrawFn) -> Piece:
    """A piece shaped at both sides that divides at a neck, held to its shoulders or not."""
    rows = 2 * draw(st.integers(2, 25))
    centre = draw(st.integers(0, 12))
    width = 60 + 2 * draw(st.integers(0, 15)) + centre
    below = draw(edges(rows, 0, 10))
    far = Profile(rows, tuple(c._replace(row=c.row + (c.how is How.BIND_OFF))
                              for c in below.changes))
    steps = draw(st.lists(st.integers(1, 4), max_size=4))
    height = 2 * draw(st.integers(len(steps) + 2, 20)) + 1  # ends away from what is held
    inner = draw(edges(height, 1, 6))
    inner = Profile(height, tuple(c for c in inner.changes if c.how is not How.INCREASE))
    outer = Profile(height, holds(steps, height - 2 * len(steps)))
    return Piece(key="p", title="Piece", stitches=stitches(width), left=far, right=below,
                 hem=draw(hems), moved=draw(st.integers(1, 3)), ends=Ending.WASTE,
                 waits=("half at the right", "half at the left"),
                 centre_waits="centre" if centre else "",
                 marks=tuple(sorted(draw(st.sets(st.integers(1, rows + height - 1), max_size=2)))),
                 opening=Opening(row=rows, centre=centre, centre_ends=Ending.WASTE,
                                 outer=outer, inner=inner))


@st.composite
def straight(draw: st.DrawFn) -> Piece:
    """A straight piece in any needle arrangement, gathered at its top or not."""
    repeat = draw(st.none() | repeats())
    rows = draw(st.integers(8, 60))
    gathers = tuple(sorted(draw(st.sets(st.integers(2, rows - 1), max_size=3))))
    width = whole(Fraction(draw(st.integers(12, 120))), allowed_counts(repeat))
    return Piece(key="p", title="Piece", stitches=stitches(max(width, 12 if not repeat else width)),
                 left=Profile(rows), right=Profile(rows), hem=draw(hems), repeat=repeat,
                 gathers=gathers, marks=draw(st.sampled_from(((), (2,), (2, 5)))),
                 ends=draw(st.sampled_from((Ending.WASTE, Ending.DRAWN_UP))), waits=("top",))


@st.composite
def closed_up(draw: st.DrawFn) -> Piece:
    """A straight piece whose top is closed up: in wedges, or by halvings."""
    if draw(st.booleans()):
        wide, each = draw(st.integers(2, 12)), draw(st.integers(3, 12))
        spec = CrownSpec(wedges=wide, beside=draw(st.integers(0, 3)), every=draw(
            st.integers(1, 4)), remain=draw(st.integers(1, each - 1)))
        width, first = wide * each + spec.beside, draw(st.integers(2, 20))
        closes = wedges(width, first, spec)
        rows = first + len(closes) * spec.every
    else:
        width, first = draw(st.integers(9, 150)), draw(st.integers(2, 20))
        after = draw(st.lists(st.integers(1, 5), min_size=1, max_size=3))
        closes, rows = halvings(width, first, after), first + sum(after)
    return Piece(key="p", title="Piece", stitches=stitches(width), left=Profile(rows),
                 right=Profile(rows), hem=draw(hems), closes=closes, waits=("top",),
                 ends=draw(st.sampled_from((Ending.WASTE, Ending.DRAWN_UP))))


@st.composite
def quartered(draw: st.DrawFn) -> Piece:
    """A straight piece with a crown of four quarters, from either side of the bed."""
    spec = CrownSpec(shape=CrownShape.QUARTERS, every=draw(st.integers(1, 3)),
                     remain=draw(st.sampled_from((1, 3, 5))))
    each = spec.left + 2 * draw(st.integers(1, 8))
    rows = draw(st.integers(2, 20))
    return Piece(key="p", title="Piece", stitches=stitches(4 * each), left=Profile(rows),
                 right=Profile(rows), hem=draw(hems), moved=draw(st.integers(1, 3)),
                 quarters=quarter(each, spec), ends=Ending.DRAWN_UP,
                 waits=tuple(f"quarter {n}" for n in range(4)))


def stitches(number: int) -> Count:
    return stated(number, Unit.STITCHES)


@st.composite
def held(draw: st.DrawFn) -> Piece:
    """A piece held at both sides by turns, as the tip of a shawl."""
    left, right = draw(st.tuples(*2 * [st.lists(st.integers(1, 5), min_size=1, max_size=8)]))
    rows = 4 + 2 * max(len(left), len(right)) + draw(st.integers(0, 3))
    middle = draw(st.integers(1, 9))
    return Piece(key="p", title="Piece", stitches=stitches(sum(left) + sum(right) + middle),
                 left=Profile(rows, holds(left, 2)), right=Profile(rows, holds(right, 3)))


every_piece = shaped() | opened() | straight() | held() | closed_up() | quartered()


# On the bed


@given(every_piece)
@settings(max_examples=examples(38), deadline=None)
def test_every_piece_is_knitted_to_its_end(piece: Piece) -> None:
    _, result = pieces.knit(piece)
    assert result.refusal is None, str(result.refusal)


@given(every_piece)
@settings(max_examples=examples(25), deadline=None)
def test_what_is_cast_on_and_comes_and_goes_is_what_waits(piece: Piece) -> None:
    _, result = pieces.knit(piece)
    made = pieces.changes(piece)
    left = (piece.stitches.value + made[How.INCREASE] - made[How.DECREASE] - made[How.BIND_OFF])
    waits = pieces.waiting(result)
    alone = 0  # stitches that stay alone at an end of an arrangement while others are gathered
    for _ in piece.gathers:
        left -= left // 2  # every second stitch goes onto its neighbour
        alone = alone / 2 + (piece.repeat is not None)
    left -= sum(len(each.doubled) for each in piece.closes)
    left -= 4 * 2 * len(piece.quarters.changes) if piece.quarters else 0
    least = 0 if piece.ends is Ending.BIND_OFF else left
    assert least <= sum(waits.values()) <= least + alone
    assert sum(waits.values()) == piece.drawn or not (
        piece.gathers or piece.closes or piece.quarters)
    assert set(waits) == {name for name in (*piece.waits, piece.centre_waits) if name}
    if piece.opening and piece.centre_waits:
        assert waits[piece.centre_waits] == piece.opening.centre
        assert waits["half at the right"] == waits["half at the left"]


@given(every_piece)
@settings(max_examples=examples(25), deadline=None)
def test_rows_add_up(piece: Piece) -> None:
    _, result = pieces.knit(piece)
    rows = piece.left.rows + 2 * (piece.opening.outer.rows if piece.opening else 0)
    tops = [piece.left, piece.right] if piece.opening is None else 2 * [piece.opening.outer]
    rows += 4 * piece.quarters.rows if piece.quarters else 0
    rows += sum(1 for top in tops if top.held)  # a row over what was held at each side
    if piece.hem:
        # two layers, a fold row that is loose or one that brings the carriage back, the join
        rows += 2 * piece.hem.rows + 2
    assert dict(result.rows)[StepYarn.MAIN] == rows


@given(every_piece)
@settings(max_examples=examples(25), deadline=None)
def test_a_mirrored_piece_is_knitted_in_the_mirror(piece: Piece) -> None:
    program, result = pieces.knit(piece)
    other, mirrored = pieces.knit(replace(piece, mirrored=True))
    assert mirrored.refusal is None, str(mirrored.refusal)
    assert other.starts is program.starts.other
    assert pieces.mirrored(program) == tuple(section.steps for section in other.sections)
    assert (result.stitches, result.rows) == (mirrored.stitches, mirrored.rows)


# Needle arrangements


@given(repeats(), st.integers(0, 300))
def test_an_arrangement_has_its_stitches_and_ends_as_it_begins(repeat: Repeat, asked: int) -> None:
    made = whole(Fraction(asked), allowed_counts(repeat))
    laid = arrangement(made, repeat)
    assert sum(laid) == made and len(laid) == needles_taken(made, repeat)
    begins, ends = (next((i for i, works in enumerate(side) if not works), made)
                    for side in (laid, laid[::-1]))
    assert begins == ends  # as many work before the first that does not, at either end
    if asked > sum(repeat.works):
        assert abs(made - asked) <= max(sum(repeat.works), repeat.opening + 2 * repeat.edge)


@given(st.integers(1, 6), st.integers(1, 3), st.integers(0, 60), st.integers(0, 3))
def test_an_arrangement_of_one_group_reads_alike_from_both_ends(ins: int, outs: int, times: int,
                                                                edge: int) -> None:
    repeat = read_repeat(f"{ins} in {outs} out", edge=edge)
    laid = arrangement(times * ins + ins + 2 * edge, repeat)
    assert laid == laid[::-1]
    assert len(laid) == times * (ins + outs) + ins + 2 * edge


@given(repeats(), st.integers(1, 300))
def test_a_closed_arrangement_is_whole_repeats_between_the_seam_stitches(repeat: Repeat, asked: int
                                                                         ) -> None:
    """Only the one edge stitch at either end goes into the seam; with others nothing changes."""
    closed = repeat.closed()
    made = whole(Fraction(asked), allowed_counts(closed))
    laid = arrangement(made, closed)
    assert sum(laid) == made
    if repeat.edge == 1:
        assert laid[0] and laid[-1]
        assert laid[1:-1] == repeat.works * ((made - 2) // sum(repeat.works))
    else:
        assert laid == arrangement(made, repeat)


@given(repeats())
def test_a_repeat_in_words_is_read_back(repeat: Repeat) -> None:
    assert read_repeat(repeat_text(repeat), edge=repeat.edge) == repeat


@pytest.mark.parametrize("text", ["", "2 in", "2 in 0 out", "0 in 1 out", "1 out 2 in",
                                  "2 in 1 out 3", "20 in 5 out", "two in one out"])
def test_what_is_no_arrangement_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="such as 2 in 1 out"):
        read_repeat(text)


def test_the_needles_that_work_lie_centred_with_those_left_out() -> None:
    # counted by hand: 1 edge, then II. three times, II, 1 edge: 10 stitches on 13 needles
    repeat = read_repeat("2 in 1 out")
    piece = Piece(key="p", title="Piece", stitches=stitches(10), left=Profile(9),
                  right=Profile(9), repeat=repeat, ends=Ending.WASTE, waits=("top",))
    assert str(piece.needles) == "L7–L5 L3–L2 R1–R2 R4–R6"
    assert piece.widest == 13
    assert str(replace(piece, mirrored=True).needles) == "L6–L4 L2–L1 R2–R3 R5–R7"


@given(straight())
def test_only_needles_that_work_are_cast_on_and_hung(piece: Piece) -> None:
    program, result = pieces.knit(piece)
    cast_on = next(step for step in program.steps if isinstance(step, CastOn))
    assert cast_on.needles == piece.needles
    assert all(state.loaded <= piece.needles for state in result.states)
    hung = [step.needles for step in program.steps if getattr(step, "edge", "") == HEM_FIRST_ROW
            and hasattr(step, "onto_empty")]
    assert hung == ([piece.needles] if piece.hem else [])


def test_a_shaped_piece_takes_no_arrangement() -> None:
    shaped = Profile(20, (Change(4, 1, How.DECREASE),))
    with pytest.raises(ValueError, match="shaped or bound off, with needles left out"):
        Piece(key="p", title="Piece", stitches=stitches(10), left=shaped, right=shaped,
              repeat=read_repeat("2 in 1 out"), ends=Ending.WASTE, waits=("top",))


def test_a_piece_wider_than_the_bed_counts_needles_left_out() -> None:
    piece = Piece(key="p", title="Piece", stitches=stitches(10), left=Profile(9),
                  right=Profile(9), repeat=read_repeat("2 in 1 out"), ends=Ending.WASTE,
                  waits=("top",))
    with pytest.raises(ValueError, match="13 needles of a bed of 12"):
        piece_program(piece, dial=Dial(18), bed_needles=12)
    assert isinstance(piece_program(piece, dial=Dial(18), bed_needles=14), Program)


def test_a_crown_of_mock_rib_is_gathered_within_its_groups() -> None:
    # by hand: I II. II. II I on L7 to R6; the second of each pair goes onto the first
    repeat = read_repeat("2 in 1 out")
    piece = Piece(key="p", title="Piece", stitches=stitches(10), left=Profile(9),
                  right=Profile(9), repeat=repeat, gathers=(5,), ends=Ending.DRAWN_UP,
                  waits=("top",))
    program, result = pieces.knit(piece)
    moves = [(str(step.needles), step.by) for step in program.steps if isinstance(step, Transfer)]
    assert moves == [("L5 L2 R2 R5", -1)]
    assert pieces.waiting(result) == {"top": 6} and piece.drawn == 6


def test_where_few_stitches_are_left_fewer_are_moved() -> None:
    """The two doubled stitches of a row lie on needles of their own: of n stitches (n - 2) / 2 at
    most can be moved at either side, and no more than the three that are asked for (geometry)."""
    line = tuple(Change(row, 1, How.DECREASE) for row in range(2, 16, 2))
    piece = Piece(key="p", title="Piece", stitches=stitches(16), left=Profile(16, line),
                  right=Profile(16, line), moved=3)
    program, result = pieces.knit(piece)
    assert result.refusal is None
    moves = [(len(before.loaded), len(step.needles)) for step, before
             in zip(program.steps[1:], result.states, strict=False) if isinstance(step, Transfer)]
    assert [left for left, _ in moves] == [*range(16, 2, -1)]
    assert all(moved == max(1, min(3, (left - 2) // 2)) for left, moved in moves), moves


# Whole garments


@st.composite
def garments(draw: st.DrawFn) -> Garment | CannotShape:
    """A body garment of a random size, gauge, neck, hem, ease and band, or why there is none."""
    form = draw(st.sampled_from(BODY_FORMS))
    key = draw(st.sampled_from(("women", "men", "children", "babies")))
    chart = pieces.chart(key)
    size = draw(st.sampled_from(chart.sizes))
    around = Fraction(draw(st.integers(8, 40)))
    own = {"ease": f"{draw(st.integers(-4, 24))} cm"}
    if key == "men":  # their chart has another length of the back
        own["body_length"] = "back_hip_length"
    if draw(st.booleans()):
        own["front_neck"] = f"neck_width * {draw(st.integers(1, 30))} / 10"
    spec = draw(st.none() | st.builds(pieces.hem, st.integers(10, 80), st.sampled_from(
        (Fold.LOOSE, Fold.PICOT))))
    known = chart.measurements(size)
    cut = pieces.cut(
        form, known, pieces.gauge(around, around * Fraction(draw(st.integers(105, 190)), 100)),
        own=own, hem=spec, neck=draw(st.sampled_from(Neck)), moved=draw(st.integers(1, 4)),
        band=draw(st.sampled_from((0, 25, 35))), hidden=draw(st.integers(0, 2)))
    try:
        return FORMS[form].shape(cut)
    except CannotShape as fault:
        return fault


@given(garments())
@settings(max_examples=examples(15), deadline=None,
          suppress_health_check=[HealthCheck.too_slow])
def test_a_garment_is_refused_with_figures_or_knitted_with_every_join_closed(
        made: Garment | CannotShape) -> None:
    if isinstance(made, CannotShape):
        assert any(mark.isdigit() for mark in made.found) and made.remedy
        return
    assert pieces.faults(made) == []


@given(garments())
@settings(max_examples=examples(10), deadline=None,
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_left_and_right_fronts_are_mirrored(made: Garment | CannotShape) -> None:
    fronts = {} if isinstance(made, CannotShape) else {p.key: p for p in made.pieces}
    assume("left_front" in fronts)
    right, left = fronts["right_front"], fronts["left_front"]
    (one, _), (other, _) = pieces.knit(right), pieces.knit(left)
    rows = [[step.rows for step in program.steps if isinstance(step, Knit)]
            for program in (one, other)]
    assert rows[0] == rows[1]
    named = replace(right, key=left.key, title=left.title, waits=left.waits, mirrored=True)
    assert named == left


# Which shoulder is which


@pytest.mark.parametrize("form", ["set-in pullover", "drop-shoulder pullover"])
def test_shoulders_of_one_name_meet_with_the_knit_sides_together(form: str) -> None:
    """Worked out from the bed alone: the knitter sees the purl side of both pieces.

    Seen from the knit side, the outside, a piece is the other way about. A front seen from
    outside has its wearer's right at the viewer's left, a back at the viewer's right: so it is
    seen by who stands before or behind a person.
    """
    garment = FORMS[form].shape(pieces.cut(
        form, pieces.chart("women").measurements("M"), pieces.gauge(21, 30)))
    for piece in garment.pieces[:2]:
        states = pieces.knit(piece)[1].states
        where = {}  # the side of the bed that each shoulder was taken off from
        for before, after in pairwise(states):
            for name in set(dict(after.waiting)) - set(dict(before.waiting)):
                gone = [needle.place for needle in before.loaded - after.loaded]
                where[name] = "right" if min(gone) > 0 else "left"
        outside_left = "right" if piece.key == "front" else "left"  # the wearer's, at that side
        bed_right = outside_left  # turned about: what lies at the right lies at the left outside
        assert where[f"{piece.key}, {bed_right} shoulder"] == "right"
        assert where[f"{piece.key}, {pieces.OTHER[bed_right]} shoulder"] == "left"


@pytest.mark.parametrize("form", ["drop-shoulder waistcoat", "drop-shoulder cardigan"])
def test_a_front_is_marked_at_its_side_edge_alone(form: str) -> None:
    """A sleeve or an armhole band meets the side edge at the mark; the front edge meets nothing
    there, and a thread in it only has to be found again."""
    known = dict(pieces.chart("women").measurements("M"))
    garment = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(28, 40)))
    for piece in garment.pieces:
        program, ran = pieces.knit(piece)
        for step, before in zip(program.steps, ran.states, strict=False):
            if isinstance(step, Attend) and step.to == "mark edges":
                work = before.loaded - before.holding
                want = {"right_front": work.rightmost(1), "left_front": work.leftmost(1)}
                assert step.needles == want.get(
                    piece.key, work.leftmost(1) | work.rightmost(1)), piece.key
    assert {"right_front", "left_front"} <= {p.key for p in garment.pieces if p.marks}
