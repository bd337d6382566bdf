"""Darts and shirt tails: any that are asked for are knitted, or refused in words.

What a dart does is read from the bed: which needles hold two stitches after its rows, and how many
stitches lie on either side of the one between them.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walebook.core.units import Length
from walebook.forms.registry import FORMS
from walebook.machine import steps
from walebook.machine.headings import Heading
from walebook.machine.needles import NONE, Needles
from walebook.machine.reasons import Reason
from walebook.machine.trace import State
from walebook.pattern.darts import Darts
from walebook.pattern.short_rows import BustDarts, ShirtTail, TailCurve
from walebook.shape.garment import Cut
from walebook.shape.piece import Piece
from walebook.shape.profile import Change, How, Profile
from walebook.words.needle_marks import levels

from tests.laws import pieces
from tests.laws.test_body_sides import cuts, shape, side
from tests.scale import examples

FEW = settings(max_examples=examples(20), deadline=None,
               suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])


def dart(cut: Cut, asked: Darts | None) -> Cut:
    """The cut with these darts."""
    return replace(cut, conventions=replace(cut.conventions, darts=asked))


@st.composite
def with_darts(draw: st.DrawFn) -> tuple[str, Cut]:
    """A body with random widths, and darts of a random inset and share."""
    form, cut = draw(cuts())
    inset = draw(st.none() | st.integers(30, 200))
    asked = Darts(inset=inset and Length(Fraction(inset)),
                  share=Fraction(draw(st.integers(10, 100)), 100))
    return form, dart(cut, asked)


@given(with_darts())
@FEW
def test_any_darts_are_refused_with_figures_or_knitted_and_closed(
        drawn: tuple[str, Cut]) -> None:
    garment = shape(*drawn)
    if garment is not None:
        assert pieces.faults(garment) == []


@given(with_darts())
@FEW
def test_darts_and_sides_come_to_what_the_sides_alone_do(drawn: tuple[str, Cut]) -> None:
    """Every width is the same with darts as without, and no stretch goes beyond its share."""
    form, cut = drawn
    garment, plain = shape(form, cut), shape(form, dart(cut, None))
    if garment is None or plain is None:
        return
    asked = cut.conventions.darts
    assert asked is not None
    for piece, other in zip(garment.pieces, plain.pieces, strict=True):
        assert piece.stitches == other.stitches and piece.levels == other.levels
        if piece.key not in ("back", "front"):
            continue
        heights = [row for _, row in piece.levels]
        for row in heights:
            assert sum(c.outward for c in side(piece) if c.row <= row) == \
                sum(c.outward for c in side(other) if c.row <= row)
        below = [c for c in side(piece) if c.row < heights[-1]]
        at_darts = sum(c.stitches for c in below if c.how.at_dart)
        assert at_darts <= asked.share * sum(c.stitches for c in below)


def doubled(state: State) -> Needles:
    """The needles that hold two loops or more."""
    by_count = list(levels(state))
    return by_count[1] if len(by_count) > 1 else NONE


def at_darts(piece: Piece) -> list[tuple[Needles, Needles]]:
    """Of every dart that gets narrower: the needles that hold two stitches by it, all in use."""
    program, result = pieces.knit(piece)
    kinds = [step.reason is Reason.DART_LESS for step in program.steps]
    sides = [isinstance(step, steps.Transfer) and step.by < 0 for step in program.steps]
    found = []
    for at, mine in enumerate(kinds):
        if mine and not (kinds[at - 1] and sides[at - 1] == sides[at]):
            last = at
            while kinds[last + 1] and sides[last + 1] == sides[at]:
                last += 1
            before, after = result.states[at - 1], result.states[last]
            found.append((doubled(after) - doubled(before), after.loaded))
    return found


@given(with_darts())
@FEW
def test_a_dart_doubles_two_needles_with_one_stitch_between(drawn: tuple[str, Cut]) -> None:
    garment = shape(*drawn)
    for piece in garment.pieces if garment else ():
        for two, loaded in at_darts(piece):
            assert two.last.place - two.first.place == 2 == len(two)
            assert loaded.is_unbroken


@pytest.mark.parametrize("piece_key", ["back", "front"])
def test_the_middle_stitch_lies_as_far_in_as_asked(piece_key: str) -> None:
    """At 5 mm a stitch 90 mm are 18 stitches, and the seam takes one more; counted on the bed."""
    own = {"hem_width": "50 cm", "waist_width": "40 cm", "waist_height": "20 cm",
           "chest_width": "50 cm", "waist_straight": "2 cm", "across": "40 cm"}
    chart = pieces.chart("women")
    cut = pieces.cut("set-in pullover", chart.measurements("M"), pieces.gauge(20, 25), own=own)
    garment = shape("set-in pullover", dart(cut, Darts(inset=Length(Fraction(90)))))
    assert garment is not None
    piece = next(p for p in garment.pieces if p.key == piece_key)
    # of 19 outside the middle stitch two share the outer doubled needle now
    found = at_darts(piece)
    assert len(found) == 2 * 5  # 10 cm are 20 stitches: 5 pairs at each side
    for number, (right, loaded) in enumerate(found[::2]):
        assert loaded.last.place - right.last.place + 1 == 19 - 1 - number
    for number, (left, loaded) in enumerate(found[1::2]):
        assert left.first.place - loaded.first.place + 1 == 19 - 1 - number


def test_an_edge_shaped_in_one_row_at_its_dart_and_beside_it_has_no_jog() -> None:
    """3 stitches in 5 rows are one slope, wherever they went."""
    edge = Profile(10, (Change(5, 2, How.DART_LESS, 8), Change(5, 1, How.DECREASE)))
    assert [run[:2] for run in edge.segments()] == [(-3, 5), (0, 5)]
    assert all(run.rows for run in edge.drawn())


# Bust darts


@st.composite
def with_bust(draw: st.DrawFn) -> tuple[str, Cut]:
    """A body that is closed at the front, with bust darts of random lengths."""
    form, cut = draw(cuts().filter(lambda one: not FORMS[one[0]].opens))
    extra, below, first = (Length(Fraction(draw(st.integers(*limits))))
                           for limits in ((5, 60), (5, 120), (10, 40)))
    reach = draw(st.none() | st.integers(30, 160))
    asked = BustDarts(extra=extra, below=below, from_side=first,
                      reach=reach and Length(Fraction(reach)))
    return form, replace(cut, conventions=replace(cut.conventions, bust=asked))


def knitted_in(piece: Piece, heading: Heading) -> tuple[int, int, int]:
    """The rows of a section of short rows that the left end, the middle and the right end have."""
    program, result = pieces.knit(piece)
    at = 0
    for section in program.sections:
        upto = at + len(section.steps)
        if section.heading is heading:
            rows = [state.loaded - state.holding for step, state in zip(
                program.steps[at:upto], result.states[at:upto], strict=True)
                if isinstance(step, steps.Knit) for _ in range(step.rows)]
            whole = result.states[at - 1].loaded
            middle = list(whole)[len(whole) // 2]
            return tuple(sum(each in row for row in rows)  # type: ignore[return-value]
                         for each in (whole.first, middle, whole.last))
        at = upto
    return 0, 0, 0


@given(with_bust())
@FEW
def test_bust_darts_lengthen_the_middle_and_leave_the_sides_as_they_are(
        drawn: tuple[str, Cut]) -> None:
    """Two rows at either edge, whatever is added between; every seam closes."""
    form, cut = drawn
    garment = shape(form, cut)
    if garment is None:
        return
    assert pieces.faults(garment) == []
    front = next(piece for piece in garment.pieces if piece.key == "front")
    asked = cut.conventions.bust
    assert asked is not None
    left, middle, right = knitted_in(front, Heading.BUST)
    assert left == right == 2
    assert abs((middle - 2) * cut.gauge.row - asked.extra.mm) <= cut.gauge.row
    without = shape(form, replace(cut, conventions=replace(cut.conventions, bust=None)))
    assert without is not None
    assert [join.working for join in garment.joins] == [join.working for join in without.joins]


# A shirt tail


@st.composite
def with_tail(draw: st.DrawFn) -> tuple[str, Cut]:
    """A body that is closed at the front and has no hem, with a random shirt tail."""
    form, cut = draw(cuts().filter(lambda one: not FORMS[one[0]].opens))
    reach = draw(st.none() | st.integers(20, 250))
    asked = ShirtTail(depth=Length(Fraction(draw(st.integers(5, 120)))),
                      reach=reach and Length(Fraction(reach)),
                      curve=draw(st.sampled_from(TailCurve)))
    return form, replace(cut, hem=None, conventions=replace(cut.conventions, tail=asked))


@given(with_tail())
@FEW
def test_a_shirt_tail_lengthens_the_middle_and_leaves_the_sides_as_they_are(
        drawn: tuple[str, Cut]) -> None:
    """Back and front alike: two rows at either edge, whatever is added between."""
    form, cut = drawn
    garment = shape(form, cut)
    if garment is None:
        return
    assert pieces.faults(garment) == []
    asked = cut.conventions.tail
    assert asked is not None
    for piece in garment.pieces:
        if piece.key in ("back", "front"):
            left, middle, right = knitted_in(piece, Heading.TAIL)
            assert left == right == 2
            assert abs((middle - 2) * cut.gauge.row - asked.depth.mm) <= cut.gauge.row
    without = shape(form, replace(cut, conventions=replace(cut.conventions, tail=None)))
    assert without is not None
    assert [join.working for join in garment.joins] == [join.working for join in without.joins]
