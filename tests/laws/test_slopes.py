"""Slopes that a designer schedules: knitted and closed in every form, or refused in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from walebook.core.counted import Count
from walebook.core.counts import Unit
from walebook.core.expression import Expression, Operand, Sum, plain
from walebook.core.expression_parts import inside
from walebook.core.operands import Role
from walebook.core.units import Length
from walebook.forms.registry import FORMS
from walebook.pattern.model import Neck
from walebook.pattern.slope_specs import Order, PlainStretch, Rate, Slope, SlopeAsk
from walebook.shape.garment import CannotShape, Cut, Garment
from walebook.shape.profile import How
from walebook.shape.schedule import Schedule
from walebook.shape.slopes import CannotFollow, SlopeRequest, Usual, slope_schedule

from tests.laws import pieces
from tests.scale import examples

SLOPED = [name for name, form in FORMS.items() if form.slopes(Neck.V)]
gauges = st.builds(pieces.gauge, st.integers(18, 34), st.integers(24, 52))
stretches = st.builds(PlainStretch, rows=st.integers(0, 20)) | st.builds(
    lambda mm: PlainStretch(length=Length(Fraction(mm))), st.integers(0, 60))
SHAPED_BODY = {"hem_width": "chest_width * 106 %", "hip_width": "chest_width * 104 %",
               "hip_height": "6 cm", "waist_width": "chest_width * 88 %",
               "waist_height": "body_length * 40 %", "waist_straight": "2 cm"}
NOT = st.just(False)  # mixed: see below
every = st.lists(st.integers(1, 12), min_size=1, max_size=3).map(tuple)
soon = st.lists(st.integers(1, 3), min_size=1, max_size=2).map(tuple)
last = st.builds(Rate, soon, st.none(), NOT) | st.just(Rate((), None)) | st.builds(
    Rate, every, st.none() | st.integers(1, 12), NOT) | st.builds(
        Rate, st.just(()), st.integers(1, 12), NOT)


@st.composite
def asks(draw: DrawFn, slope: Slope = Slope.SLEEVE) -> SlopeAsk:
    """What a designer may ask of a slope."""
    rated, began = draw(st.booleans()), draw(st.booleans())
    closed = st.lists(st.builds(Rate, soon, st.integers(1, 4), NOT), max_size=2)
    return SlopeAsk(
        slope=slope, order=None if rated else draw(st.none() | st.sampled_from(Order)),
        rates=(*draw(closed), draw(last)) if rated else (),
        first_row=draw(st.none() | st.integers(0, 12)) if began else None,
        plain_start=None if began else draw(st.none() | stretches),
        plain_end=draw(st.none() | stretches))


def cut(form: str, gauge: pieces.Gauge, asked: Iterable[SlopeAsk]) -> Cut:
    own = SHAPED_BODY if "hem_width" in FORMS[form].optional else None
    made = pieces.cut(form, dict(pieces.chart("women").measurements("M")), gauge, neck=Neck.V,
                      band=24, own=own)
    return replace(made, slopes={one.slope: one for one in asked})


@pytest.mark.parametrize("form", SLOPED)
@given(data=st.data(), gauge=gauges)
@settings(max_examples=examples(13), deadline=None)
def test_a_slope_is_knitted_and_closed_or_refused(form: str, data: st.DataObject,
                                                  gauge: pieces.Gauge) -> None:
    slopes = data.draw(st.sets(st.sampled_from(FORMS[form].slopes(Neck.V)), min_size=1))
    asked = [data.draw(asks(slope)) for slope in sorted(slopes, key=lambda one: one.value)]
    try:
        made = FORMS[form].shape(cut(form, gauge, asked))
    except CannotFollow as refused:
        assert refused.at.split(".")[1] in {one.value for one in slopes}
        assert refused.found and refused.remedy and refused.expected
        return
    except CannotShape:
        return  # a plain garment at this gauge is refused as well
    assert pieces.faults(made) == []
    try:
        usual = FORMS[form].shape(cut(form, gauge, ()))
    except CannotShape:
        return  # there the usual schedule has too few rows, and the designer's has enough
    assert stitches(made) == stitches(usual)


def stitches(garment: Garment) -> dict[str, dict[How, int]]:
    """What comes and goes on every piece: no schedule changes it."""
    return {piece.key: dict(pieces.changes(piece)) for piece in garment.pieces}


@st.composite
def fitting(draw: DrawFn) -> tuple[SlopeAsk, int, int, int, int]:
    """Rates, the events and rows that they take, and plain rows before and after them."""
    closed = draw(st.lists(st.builds(Rate, every, st.integers(1, 6), NOT), max_size=3))
    rest, gaps = draw(st.integers(1, 12)), draw(every)
    start, end = draw(st.integers(0, 12)), draw(st.integers(0, 12))
    first = draw(st.none() | st.integers(1, 12))
    used = sum(gap for rate in (*closed, Rate(gaps, rest)) for gap in
               [rate.every[n % len(rate.every)] for n in range(rate.times or 0)])
    final = draw(st.sampled_from((Rate(gaps, rest), Rate(gaps, None), Rate((), rest),
                                  Rate((), None))))
    ask = SlopeAsk(slope=Slope.V_NECK, rates=(*closed, final), first_row=first,
                   plain_start=None if first else PlainStretch(rows=start),
                   plain_end=PlainStretch(rows=end))
    events = sum(rate.times or 0 for rate in closed) + rest + (first is not None)
    return ask, events, used + (first or start) + end, start, end


@given(drawn=fitting(), spare=st.integers(0, 5))
@settings(max_examples=examples(100), deadline=None)
def test_rates_that_fit_are_followed_row_by_row(drawn: tuple[SlopeAsk, int, int, int, int],
                                                spare: int) -> None:
    """Not a row more is needed than they take; what is to spare stays plain at the end."""
    ask, events, rows, start, end = drawn
    made = slope_schedule(counted(ask, start, end), events, rows + spare, Usual())
    assert made.events == events and made.event_rows[-1] <= rows + spare - end
    assert_by_rates(ask, made, start if ask.plain_start else 0)
    if ask.rates[-1].every:
        assert made.event_rows[-1] == rows - end
        with pytest.raises(CannotFollow):
            slope_schedule(counted(ask, start, end), events, rows - 1, Usual())
    else:  # as far apart as fits: a row more between them would not
        taken = sum(rate.times or 0 for rate in ask.rates[:-1]) + (ask.first_row is not None)
        assert made.event_rows[-1] + events - taken > rows + spare - end


def given_in(made: Expression) -> Iterator[Operand]:
    """The figures of an expression that the source gives."""
    if isinstance(made, Operand) and made.role is Role.SOURCE:
        yield made
    for one in inside(made):
        yield from given_in(one)


def test_each_figure_of_the_rates_has_the_name_of_what_it_counts() -> None:
    """The first event on row 5, six times every 2nd row, then every 4th: the source gives a row,
    a number of times, and rows. 5 + 6 × 2 + 3 × 4 = 29 of 40 rows, so that 11 stay plain."""
    ask = SlopeAsk(slope=Slope.V_NECK, rates=(Rate((2,), 6), Rate((4,), None)), first_row=5)
    made = slope_schedule(SlopeRequest(ask=ask), 10, 40, Usual()).counted
    assert isinstance(made, Sum) and [part.value for part in made.parts] == [12, 12, 5, 11]
    found = {(one.name, int(one.value)) for part in made.parts[:3] for one in given_in(part)}
    assert found == {("row", 5), ("times", 6), ("rows", 2), ("rows", 4)}


@given(fast=st.integers(1, 6), more=st.integers(1, 6), events=st.integers(1, 40),
       data=st.data())
def test_two_spacings_mixed_keep_to_a_straight_line(fast: int, more: int, events: int,
                                                    data: st.DataObject) -> None:
    """W3-054: each as often as the rows ask for; the rows that do not divide stay plain."""
    slow = fast + more
    rows = data.draw(st.integers(fast * events, slow * events))
    rates = (Rate((slow, fast), None, mixed=True),)
    ask = SlopeRequest(ask=SlopeAsk(slope=Slope.V_NECK, rates=rates))
    made = slope_schedule(ask, events, rows, Usual()).event_rows
    gaps = [b - a for a, b in pairwise((0, *made))]
    assert gaps.count(slow) == (rows - fast * events) // more
    assert gaps.count(fast) == events - gaps.count(slow)
    used = made[-1]
    assert all(0 <= row - Fraction(n * used, events) < more for n, row in enumerate(made, 1))


@given(ask=asks(), events=st.integers(0, 40), rows=st.integers(0, 160),
       start=st.integers(0, 12), end=st.integers(0, 12), grid=st.sampled_from((1, 2)))
@settings(max_examples=examples(150), deadline=None)
def test_a_schedule_keeps_to_what_is_asked(ask: SlopeAsk, events: int, rows: int, start: int,
                                           end: int, grid: int) -> None:
    """So many events, each above the one before, none in a plain stretch; by the rates asked."""
    asked = counted(ask, start, end)
    try:
        made = slope_schedule(asked, events, rows, Usual(grid=grid))
    except CannotFollow:
        return
    assert made.rows == rows and made.events == events
    at = made.event_rows
    assert at == tuple(sorted(set(at)))
    if events and ask.first_row is not None:
        assert at[0] == ask.first_row
    if events and ask.plain_start is not None:
        assert at[0] > start
    if events and ask.plain_end is not None:
        assert at[-1] <= rows - end
    if ask.rates:
        assert_by_rates(ask, made, start if ask.plain_start else 0)


def counted(ask: SlopeAsk, start: int, end: int) -> SlopeRequest:
    """The ask with its plain stretches in so many rows."""
    return SlopeRequest(ask=ask, start=Count(plain(start), Unit.ROWS) if ask.plain_start else None,
                        end=Count(plain(end), Unit.ROWS) if ask.plain_end else None)


def assert_by_rates(ask: SlopeAsk, made: Schedule, start: int) -> None:
    """The gaps are those of the rates, one after another, the last one as often as it takes."""
    first = [] if ask.first_row is None else [ask.first_row]
    gaps = [b - a for a, b in pairwise((*(first or [start]), *made.event_rows[len(first):]))]
    for rate in ask.rates[:-1]:
        assert rate.times is not None
        took, gaps = gaps[:rate.times], gaps[rate.times:]
        assert took == [rate.every[n % len(rate.every)] for n in range(rate.times)]
    rate = ask.rates[-1]
    assert rate.times in (None, len(gaps))
    if rate.every:
        assert gaps == [rate.every[n % len(rate.every)] for n in range(len(gaps))]
    elif gaps:
        assert len(set(gaps)) == 1


@given(events=st.integers(1, 40), rows=st.integers(40, 160), order=st.sampled_from(Order))
def test_an_order_has_two_neighbouring_rates_in_that_order(events: int, rows: int, order: Order
                                                           ) -> None:
    """W3-054: of two rates a and a + 1 each as often as the rows ask for, as they divide."""
    made = slope_schedule(SlopeRequest(ask=SlopeAsk(slope=Slope.V_NECK, order=order)), events, rows,
                          Usual())
    gaps = [b - a for a, b in pairwise((0, *made.event_rows))]
    short, longer = divmod(rows, events)
    if order is Order.ONE_RATE:
        assert gaps == [short] * events
    else:
        assert sorted(gaps) == [short] * (events - longer) + [short + 1] * longer
    if order is Order.FAST_FIRST:
        assert gaps == sorted(gaps)
    if order is Order.SLOW_FIRST:
        assert gaps == sorted(gaps, reverse=True)
    if order is Order.MIXED:  # no event is a row away from the straight line
        assert all(0 <= row - Fraction(n * rows, events) < 1
                   for n, row in enumerate(made.event_rows, 1))
