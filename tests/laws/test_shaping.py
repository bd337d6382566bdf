"""What must hold for every shaping: sums, order, rows that fit, mirrored sides, scaled gauges."""

import json
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon
from walebook.core.counted import Count
from walebook.core.counts import Unit
from walebook.core.expression import NOTHING, Rounded, plain
from walebook.fabric.gauge import Gauge
from walebook.forms.body_frame import frame
from walebook.pages.expression_json import TreeWriter
from walebook.pattern.conventions import Larger
from walebook.shape.armholes import Armhole, slope_by_thirds, spread_slope
from walebook.shape.cap_slopes import bell, bell_parts, bell_rows
from walebook.shape.caps import Cap, CapAsk, solve_cap
from walebook.shape.counted_edge import NamedSlope, counted_segments, sewn_line
from walebook.shape.curves import (
    ellipse_sizes,
    elliptic_neck,
    falling_steps,
    removed,
    round_neck,
    stepped,
    v_neck,
)
from walebook.shape.even_gaps import (
    EvenSlope,
    Finish,
    Remainder,
    even_gaps,
    events_by,
    number,
)
from walebook.shape.profile import (
    Change,
    How,
    Profile,
    in_order,
    joined,
    shifted,
)
from walebook.shape.raglan import raglan
from walebook.shape.schedule import Block, Schedule, schedule_of, spread_events, stacked
from walebook.shape.shoulders import HeldShoulder, Wrap, held_sizes, shoulder_steps
from walebook.words.terms.schedules import schedule_text

from tests.laws import pieces
from tests.laws.recomputed import value

SQUARE = Gauge(Fraction(1), Fraction(1))
sizes = st.fractions(Fraction(2), Fraction(10), max_denominator=12)
gauges = st.builds(Gauge, sizes, sizes)


@st.composite
def profiles(draw, hows=tuple(How)):
    """Edges of any changes in any order."""
    rows = draw(st.integers(0, 60))
    count = draw(st.integers(0, 12))
    at = sorted(draw(st.lists(st.integers(0, rows), min_size=count, max_size=count)))
    changes = (Change(r, draw(st.integers(1, 9)), draw(st.sampled_from(hows))) for r in at)
    return Profile(rows, tuple(changes))


@st.composite
def spreads(draw):
    """A spread that fits, and what was asked for."""
    grid = draw(st.sampled_from([1, 2, 4]))
    events = draw(st.integers(1, 60))
    finish = draw(st.sampled_from(Finish))
    first = draw(st.none() | st.integers(0, 20))
    parts = events + (finish is Finish.PLAIN) - (first is not None)
    rows = draw(st.integers(grid * parts + (first or 0), grid * parts + 200))
    asked = {
        "finish": finish,
        "first": first,
        "grid": grid,
        "remainder": draw(st.sampled_from(Remainder)),
    }
    return events, rows, asked


# Schedules


@given(spreads())
def test_events_rise_fit_and_are_all_there(spread):
    events, rows, asked = spread
    schedule = spread_events(events, rows, **asked)
    assert schedule.events == len(schedule.event_rows) == events
    assert all(a < b for a, b in pairwise(schedule.event_rows))
    assert schedule.event_rows[-1] <= schedule.rows == rows
    if asked["first"] is not None:
        assert schedule.event_rows[0] == asked["first"]
    start = asked["first"] or 0
    assert all((row - start) % asked["grid"] == 0 for row in schedule.event_rows)


@given(spreads())
def test_gaps_differ_by_one_step_of_the_grid_in_the_order_asked_for(spread):
    events, rows, asked = spread
    at = spread_events(events, rows, **asked).event_rows
    gaps = [b - a for a, b in pairwise(at if asked["first"] is not None else (0, *at))]
    assert not gaps or max(gaps) - min(gaps) in (0, asked["grid"])
    remainder = asked["remainder"]
    if remainder is Remainder.PLAIN_AT_TOP:
        assert len(set(gaps)) <= 1
    if remainder is Remainder.SHORTER_FIRST:
        assert gaps == sorted(gaps)
    if remainder is Remainder.LONGER_FIRST:
        assert gaps == sorted(gaps, reverse=True)
    if remainder is Remainder.LONGER_MIDDLE:
        peak = gaps.index(max(gaps)) if gaps else 0
        assert gaps[: peak + 1] == sorted(gaps[: peak + 1])
        assert gaps[peak:] == sorted(gaps[peak:], reverse=True)
        if asked["finish"] is Finish.EVENT and len(set(gaps)) == 2:
            before, after = peak, gaps[::-1].index(max(gaps))
            assert before - after in (0, 1)


@given(spreads())
def test_the_last_event_is_on_the_last_row_or_leaves_a_whole_gap(spread):
    events, rows, asked = spread
    schedule = spread_events(events, rows, **asked)
    at, grid = schedule.event_rows, asked["grid"]
    after = rows - at[-1]
    gaps = [b - a for a, b in pairwise(at if asked["first"] is not None else (0, *at))]
    if asked["finish"] is Finish.PLAIN:
        assert after >= max(grid, max(gaps, default=0) - grid)
    elif asked["remainder"] is not Remainder.PLAIN_AT_TOP and gaps:
        assert after < grid


@given(spreads())
def test_one_event_too_many_is_refused(spread):
    events, _, asked = spread
    parts = events + (asked["finish"] is Finish.PLAIN) - (asked["first"] is not None)
    rows = asked["grid"] * parts + (asked["first"] or 0)
    spread_events(events, rows, **asked)
    assume(parts > 0)
    with pytest.raises(ValueError, match="do not fit"):
        spread_events(events, rows - 1, **asked)


def _read(words: str) -> list[int]:
    """The rows that a knitter works who follows the words."""
    rows: list[int] = []
    for part in words.split(", then "):
        named = [int(n) for n in re.findall(r"\d+", part.split("row", 1)[1])]
        every = [1 if n == "row" else int(n) for n in re.findall(r"every (row|\d+)", part)]
        times = {"once": 1, "twice": 2}.get(part.split()[-1])
        at = rows[-1] if rows else 0
        if "alternately" in part:
            total = int(re.search(r"(\d+) times in all", part)[1])
            rows += list(accumulate((every[i % 2] for i in range(total)), initial=at))[1:]
        elif every:
            total = times or int(re.search(r"(\d+) times", part)[1])
            rows += [at + every[0] * (i + 1) for i in range(total)]
        else:
            rows += named
    return rows


@given(spreads())
def test_the_words_say_what_is_worked(spread):
    events, rows, asked = spread
    schedule = spread_events(events, rows, **asked)
    for where in ("at each end", ""):
        assert _read(schedule_text(schedule, "bind off", where)) == list(schedule.event_rows)


@given(st.sets(st.integers(0, 80), max_size=20), st.integers(80, 99), st.integers(1, 5))
def test_any_rows_are_gathered_and_given_back(rows, total, above):
    schedule = schedule_of(sorted(rows), total)
    assert list(schedule.event_rows) == sorted(rows)
    assert stacked(Schedule(above), schedule).event_rows == tuple(r + above for r in sorted(rows))
    assert all(a.every != b.every for a, b in pairwise(schedule.blocks))
    if schedule.events:
        assert {c.stitches for c in schedule.changes(How.DECREASE, 2)} == {2}


def test_the_trades_own_sentence():
    # the wording asked of the project: "decrease 1 stitch at each end of every 6th row 5 times,
    # then every 8th row 4 times"
    schedule = Schedule(62, (Block(6, 5), Block(8, 4)))
    assert schedule_text(schedule) == (
        "decrease 1 stitch at each end of every 6th row 5 times, then of every 8th row 4 times"
    )
    assert schedule_text(Schedule(9, (Block(2, 1),)), above=40) == (
        "decrease 1 stitch at each end of row 42")


@pytest.mark.parametrize(
    "build",
    [
        lambda: Schedule(10, (Block(6, 2),)),
        lambda: Schedule(10, (Block(0, 2),)),
        lambda: Schedule(10, (Block(2, 0),)),
        lambda: Schedule(10, (), first=-1),
        lambda: Schedule(10, (Block(2, 3),), first=5),
        lambda: schedule_of((3, 3), 9),
        lambda: spread_events(-1, 9),
    ],
)
def test_a_schedule_that_does_not_add_up_cannot_be_built(build):
    with pytest.raises(ValueError, match=r"\d"):
        build()


@given(st.integers(1, 40), st.integers(1, 8), st.integers(2, 4))
def test_gauges_that_are_multiples_give_gaps_that_are(events, gap, factor):
    one = spread_events(events, events * gap)
    more = spread_events(events, events * gap * factor)
    assert more.event_rows == tuple(row * factor for row in one.event_rows)


# Profiles


@given(profiles(), gauges)
def test_an_edge_ends_where_its_changes_lead(profile, gauge):
    widths = profile.widths()
    assert len(widths) == profile.rows + 1
    assert widths[-1] == profile.net == sum(c.outward for c in profile.changes)
    assert profile.points(gauge)[-1] == (profile.net * gauge.stitch, profile.rows * gauge.row)
    assert sum(segment.rows for segment in profile.segments()) == profile.rows


@given(profiles(), gauges)
def test_its_length_is_that_of_the_drawn_line(profile, gauge):
    # shapely measures the same corners in floating point
    line = [(float(x), float(y)) for x, y in profile.points(gauge)]
    length = LineString(line).length if len(line) > 1 else 0
    assert float(profile.sewn_length(gauge)) == pytest.approx(length, abs=0.00051)


@given(profiles(), gauges)
def test_the_expression_of_an_edge_comes_to_its_length(profile, gauge):
    made = sewn_line(profile, gauge)
    assert made.value == profile.sewn_length(gauge) == value(json.loads(TreeWriter().of(made)))


@pytest.mark.parametrize("more", [0, 1, 2])
def test_a_held_shoulder_takes_whole_stitches(more):
    """Of a neck and a width that are not both even or odd half a stitch is left at each side: its
    shoulder has the whole ones. Nothing is rounded that is whole already."""
    cut = pieces.cut("drop-shoulder pullover", pieces.chart("women").measurements("M"),
                     pieces.gauge(26, 38))
    made = frame(cut, armholes=False, taken=NOTHING)
    body = replace(made, neck=Count(made.neck.made + plain(more), Unit.STITCHES))
    half = Fraction(body.across.value - body.neck.value, 2)
    shoulder = body.shaped_shoulder
    assert shoulder.stitches == shoulder.made.stitches.value == half.__floor__()
    assert isinstance(shoulder.made.stitches, Rounded) == (half.denominator > 1)


def test_each_stretch_of_an_even_slope_is_computed_by_its_schedule():
    """Four decreases over 20 rows, the first on row 10: the others share 10 rows as 3, 3 and 4. The
    slope begins as far below its first event as the second lies above it, so that 7 rows are
    plain. Each stretch has so many rows as it is drawn with, by the gaps."""
    made = spread_events(plain(4), plain(20), first=plain(10))
    edge = Profile(20, made.changes(How.DECREASE)).drawn()
    slope = EvenSlope(name="neck", how=How.DECREASE, below=NOTHING, gaps=made.gaps)
    found = counted_segments(edge, [NamedSlope("front.neck", slope)])
    assert [(one.stitches, one.rows) for one in found] == [
        (0, 10 - 3), (-1, 3), (-1, 3), (-1, 3), (-1, 4)]
    assert [one.high and one.high.value for one in found] == [7, 3, 3, 3, 4]
    assert [one.wide and one.wide.value for one in found] == [None, 1, 1, 1, 1]


@given(profiles(), gauges, st.integers(2, 5))
def test_a_fabric_twice_as_coarse_has_edges_twice_as_long(profile, gauge, factor):
    coarse = Gauge(gauge.stitch * factor, gauge.row * factor)
    fine = profile.sewn_length(gauge) * factor
    assert abs(profile.sewn_length(coarse) - fine) <= Fraction(factor + 1, 2000)


@given(profiles(), profiles(), gauges)
def test_joined_edges_add_up(lower, upper, gauge):
    both = joined(lower, upper)
    assert both.net == lower.net + upper.net
    assert both.rows == lower.rows + upper.rows
    assert both.held == lower.held + upper.held
    assert both.widths()[: lower.rows] == lower.widths()[: lower.rows]
    # joining can only shorten: the plain rows below a slope become part of it
    apart = lower.sewn_length(gauge) + upper.sewn_length(gauge)
    assert both.sewn_length(gauge) <= apart + Fraction(1, 500)


_SEWN = (How.DECREASE, How.INCREASE, How.BIND_OFF, How.CAST_ON)


@given(profiles(_SEWN))
def test_changes_are_made_later_and_in_order(profile):
    assert shifted(shifted(profile.changes, 3), -3) == profile.changes
    later = shifted(profile.changes, 1)
    both = in_order(later, profile.changes)
    assert Counter(both) == Counter(later + profile.changes)
    assert all(a.row <= b.row for a, b in pairwise(both))


@pytest.mark.parametrize(
    "changes",
    [
        (Change(-1, 1, How.DECREASE),),
        (Change(11, 1, How.DECREASE),),
        (Change(5, 0, How.DECREASE),),
        (Change(5, 1, How.DECREASE), Change(4, 1, How.DECREASE)),
    ],
)
def test_an_edge_out_of_order_cannot_be_built(changes):
    with pytest.raises(ValueError, match="row"):
        Profile(10, changes)


# Curves


@given(st.data(), st.integers(1, 60))
def test_falling_steps_fall_and_add_up(data, stitches):
    number = data.draw(st.integers(1, stitches))
    steps = falling_steps(stitches, number)
    assert sum(steps) == stitches
    assert len(steps) == number
    assert list(steps) == sorted(steps, reverse=True)
    assert steps[-1] >= 1
    if 2 * stitches <= number * (number + 1):  # the stair itself is enough
        assert all(a - b <= 1 for a, b in pairwise(steps[1:]))
        assert steps[0] - (steps[1] if number > 1 else 1) <= 2


def quarter_ellipse(stitches: int, rows: int, *, every: int) -> tuple[Change, ...]:
    """The changes of an edge that follows an ellipse, at rows 0, `every` and so on."""
    sizes = ellipse_sizes(stitches, rows, every).in_turn
    return tuple(c for n, size in enumerate(sizes) for c in removed(every * n, size))


@given(st.integers(1, 50), st.integers(2, 80), st.sampled_from([1, 2]))
def test_an_ellipse_is_followed_to_the_nearest_stitch(stitches, rows, every):
    changes = quarter_ellipse(stitches, rows, every=every)
    assert sum(c.stitches for c in changes) == stitches
    widths = Profile(rows, changes).widths()
    assert list(widths) == sorted(widths, reverse=True)
    # shapely's circle of 4 × 1024 corners, stretched: where a level line meets it
    for row in range(0, rows - every, every):
        up = row + Fraction(every, 2)
        inward = _reach(stitches, rows, float(rows - up))
        assert abs(-widths[row] - inward) <= 0.5 + stitches * 1e-5


_CIRCLE = LineString([(0, 0), (0, 1e-9)]).buffer(1, quad_segs=1024)


def _reach(stitches: int, rows: int, off: float) -> float:
    level = LineString([(0, off / rows), (2, off / rows)])
    crossing = _CIRCLE.intersection(level)
    return stitches * crossing.bounds[2] if not crossing.is_empty else 0


@given(st.integers(2, 40), st.integers(4, 80))
def test_an_ellipse_encloses_about_its_area(stitches, rows):
    corners = Profile(rows, quarter_ellipse(stitches, rows, every=1)).widths()
    outline = [(0, 0)]
    for row, width in enumerate(corners[:-1]):
        outline += [(-width, row), (-width, row + 1)]
    cut_out = Polygon([*outline, (0, rows)])
    quarter = _CIRCLE.area / 4 * stitches * rows
    # half a stitch in each row at the most, and the last row's remainder
    assert abs(cut_out.area - quarter) <= rows / 2 + stitches


@given(st.lists(st.integers(1, 9), max_size=4), st.integers(0, 40), st.integers(0, 9), st.data())
def test_both_armholes_take_the_same_stitches_on_the_same_rows(foot, left, start, data):
    rows = data.draw(st.integers(left, left + 60))
    for slope in (spread_slope(left, rows), slope_by_thirds(left)):
        shaped = Armhole(tuple(foot), slope)
        near, far = (shaped.changes(start, parity) for parity in (0, 1))
        assert sum(c.stitches for c in near) == sum(c.stitches for c in far) == sum(foot) + left
        assert near[:len(foot)] == stepped(foot, start)
        assert far[:len(foot)] == shifted(near[:len(foot)], 1)
        assert near[len(foot):] == far[len(foot):]
        after = 2 * len(foot) - 1
        assert all(c.how is How.DECREASE and start + after < c.row <= start + shaped.rows
                   for c in near[len(foot):])


def test_decreases_begin_in_the_row_after_both_armholes_are_bound_off() -> None:
    """C05: a third at once, half of the rest on every row, half on every 2nd. The far side is bound
    off a row after the near one; on the next row both begin to decrease."""
    armhole = Armhole((4,), slope_by_thirds(8))
    assert [c.row for c in armhole.changes(parity=1)] == [1, 2, 3, 4, 5, 7, 9, 11, 13]
    assert [c.row for c in armhole.changes()] == [0, 2, 3, 4, 5, 7, 9, 11, 13]


@given(st.integers(0, 60))
def test_a_slope_by_thirds_goes_half_on_every_row_and_half_on_every_second(left):
    gaps = [b - a for a, b in pairwise((0, *slope_by_thirds(left).event_rows))]
    assert gaps == [1] * (left - left // 2) + [2] * (left // 2)


@given(st.integers(4, 70), st.integers(8, 60))
def test_a_neck_takes_its_stitches_and_no_more_rows_than_it_has(stitches, rows):
    assume(rows // 2 > 2)
    neck = round_neck(stitches, rows)
    assert neck.stitches == stitches
    assert all(c.row <= rows - 2 for c in neck.changes())
    assert stitches - 2 <= neck.centre * Fraction(5, 2) <= stitches + Fraction(5, 2) + 2
    bowed = elliptic_neck(stitches, rows, neck.centre)
    assert bowed.stitches == stitches
    assert Profile(rows, bowed.changes()).net == -(stitches - neck.centre) // 2
    assert all(c.row % 2 == 0 for c in bowed.changes(how=How.HOLD))


@given(st.integers(1, 40), st.integers(0, 20), st.integers(0, 60))
def test_a_v_neck_stays_plain_where_it_must(stitches, plain, more):
    rows = 2 * stitches + plain + more
    changes = v_neck(stitches, rows, plain_at_top=plain).changes(How.DECREASE)
    assert sum(c.stitches for c in changes) == stitches
    assert changes[-1].row <= rows - max(1, plain)


# Shoulders


@pytest.mark.parametrize("steps", [(), (0,), (5, 0, 6), (5, -1)])
def test_a_shoulder_has_stitches_in_every_step(steps: tuple[int, ...]) -> None:
    with pytest.raises(ValueError, match="every step of a shoulder has stitches"):
        HeldShoulder(steps)


@given(st.data(), st.integers(1, 80), st.sampled_from(Larger), st.sampled_from(Wrap))
def test_a_shoulder_is_held_but_for_its_last_step(data, stitches, larger, wrap):
    steps = shoulder_steps(stitches, data.draw(st.integers(1, min(stitches, 9))), larger)
    shoulder = HeldShoulder(steps, wrap)
    assert shoulder.stitches == stitches
    held = Profile(100, shoulder.changes(start=50))
    assert held.held == stitches - steps[-1]
    assert all(50 <= c.row < 50 + shoulder.rows for c in held.changes)
    if larger is not Larger.LAST_STEP:
        assert max(steps) - min(steps) <= 1
        assert list(steps) == sorted(steps, reverse=larger is Larger.ARMHOLE)


@given(st.lists(st.integers(1, 12), min_size=1, max_size=8), st.integers(0, 20))
def test_what_the_steps_of_a_shoulder_leave_is_the_last_one(steps, last):
    stitches = sum(steps) + last
    assert list(held_sizes(stitches, steps).in_turn) == [*steps, *([last] if last else [])]
    with pytest.raises(ValueError, match="in a shoulder of"):
        held_sizes(sum(steps) - 1, steps)


# Caps and raglans


@st.composite
def caps(draw):
    """A cap asked for, with an armhole that can be met by some height."""
    foot = falling_steps(draw(st.integers(3, 12)), 3)
    events, top = draw(st.integers(4, 30)), draw(st.integers(6, 30))
    gauge = draw(gauges)
    shortest = (2 * (sum(foot) + events) + top) * gauge.stitch
    return CapAsk(
        stitches=2 * (sum(foot) + events) + top,
        foot=foot,
        top=top,
        gauge=gauge,
        armhole=shortest + draw(st.integers(0, 400)),
        tolerance=Fraction(1000),
        top_give=0,
    )


@given(st.integers(0, 12), st.integers(0, 12), st.integers(0, 12), st.none() | st.integers(0, 40))
def test_a_bell_decreases_on_every_row_at_both_ends(first, between, last, more):
    events, rows = first + between + last, None if more is None else first + last + between + more
    high = int(bell_rows(events, first, last).value) if rows is None else rows
    slope = bell(bell_parts(events, first, last, high))
    at = slope.event_rows
    assert len(at) == events
    assert slope.rows == (first + 2 * between + last if rows is None else rows)
    assert list(at[:first]) == list(range(first))
    assert all(b - a == 1 for a, b in pairwise(at[first + between:]))
    with pytest.raises(ValueError, match="are more than"):
        bell_parts(events, first + between + 1, last, high)


@given(caps())
def test_a_caps_two_sides_mirror_each_other(ask):
    cap = solve_cap(ask)
    assert isinstance(cap, Cap)
    near, far = cap.near, cap.far
    assert near.rows == far.rows == cap.rows
    assert near.net == far.net
    assert ask.stitches + near.net + far.net == cap.top
    foot = len(ask.foot)
    assert shifted(near.changes[:foot], 1) == far.changes[:foot] == stepped(ask.foot, 1)
    assert near.changes[foot:] == far.changes[foot:]
    assert cap.rows % 2 == 0


@given(caps(), st.integers(1, 200))
def test_a_longer_armhole_never_has_a_lower_cap(ask, more):
    longer = CapAsk(
        stitches=ask.stitches,
        foot=ask.foot,
        top=ask.top,
        gauge=ask.gauge,
        armhole=ask.armhole + more,
        tolerance=ask.tolerance,
        top_give=0,
    )
    lower, higher = solve_cap(ask), solve_cap(longer)
    assert isinstance(lower, Cap)
    assert isinstance(higher, Cap)
    assert lower.rows <= higher.rows


@given(caps(), st.integers(2, 4))
def test_a_cap_scales_with_its_gauge(ask, factor):
    gauge = Gauge(ask.gauge.stitch * factor, ask.gauge.row * factor)
    scaled = CapAsk(
        stitches=ask.stitches,
        foot=ask.foot,
        top=ask.top,
        gauge=gauge,
        armhole=ask.armhole * factor,
        tolerance=ask.tolerance * factor,
        top_give=0,
    )
    one, other = solve_cap(ask), solve_cap(scaled)
    assert isinstance(one, Cap)
    assert isinstance(other, Cap)
    # two heights may be equally near; they are then told apart by the thousandth of a millimetre
    if one.slope != other.slope:
        assert abs(abs(one.off) * factor - abs(other.off)) < Fraction(factor, 100)


@given(st.integers(1, 60), st.integers(1, 40), st.integers(0, 6), st.integers(0, 100))
def test_raglan_lines_meet_in_rows_whatever_their_stitches(body, sleeve, bound, more):
    rows = max(body, sleeve) + more
    lines = [raglan(2 * (n + bound) + 10, 10, rows, bind_off=bound) for n in (body, sleeve)]
    assert {line.rows for line in lines} == {rows}
    assert [line.net for line in lines] == [-(body + bound), -(sleeve + bound)]
    far = raglan(2 * (body + bound) + 10, 10, rows, bind_off=bound, parity=1)
    assert far.net == lines[0].net


def test_the_length_is_rounded_once_and_half_upward():
    # a diagonal of one by one is the root of 2: 1.414213562…
    diagonal = Profile(1, (Change(1, 1, How.DECREASE),))
    assert diagonal.sewn_length(SQUARE) == Fraction(1414, 1000)
    ten = Profile(10, tuple(Change(row, 1, How.DECREASE) for row in range(1, 11)))
    assert ten.sewn_length(SQUARE) == Fraction(14142, 1000)
    half = Gauge(Fraction(1), Fraction(5, 10_000))
    assert Profile(1).sewn_length(half) == Fraction(1, 1000)


@given(events=st.integers(1, 30), more=st.integers(0, 90), below=st.integers(0, 40),
       row=st.integers(0, 200), finish=st.sampled_from(Finish), first=st.none() | st.just(4),
       order=st.sampled_from(Remainder))
def test_events_up_to_a_row_are_those_that_lie_there(
        events: int, more: int, below: int, row: int, finish: Finish, first: int | None,
        order: Remainder) -> None:
    """Against the rows of all events, gap by gap."""
    gaps = even_gaps(events, 2 * events + more + (first or 0) + 2, finish=finish, remainder=order,
                     first=first, grid=1)
    slope = EvenSlope(name="side", how=How.DECREASE, below=number(below), gaps=gaps)
    found = events_by(slope, number(row))
    if found is not None:
        rows = accumulate(gaps.in_turn, initial=below)
        assert found.value == sum(each <= row for each in list(rows)[1:])
