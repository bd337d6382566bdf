"""Events spread over rows, against published examples and a line rasteriser."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from published_pieces import account_for, against
from walebook.shape.even_gaps import Finish, Remainder
from walebook.shape.schedule import (
    Block,
    Schedule,
    paired_events,
    paired_rows,
    spread_events,
    stacked,
)
from walebook.words.terms.schedules import schedule_text

DIRECT = ("R01", "R02", "R03", "R05", "R06", "R07", "R12", "R13")

NOT_FOLLOWED: dict[str, str] = {}


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"spread events along rows"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


@against("R01")
def test_plain_rows_must_follow(case):
    said, wanted = case["inputs"], case["outputs"]
    schedule = spread_events(
        said["start_sts"] - said["end_sts"], said["rows"], finish=Finish.PLAIN
    )
    assert schedule.blocks == (Block(wanted["interval_rows"], wanted["times"]),)
    assert schedule.event_rows[0] == wanted["first_event_row"]
    assert schedule.rows - schedule.event_rows[-1] == wanted["plain_rows_at_end"]


@against("R02")
def test_the_row_left_over_joins_the_plain_rows(case):
    said, wanted = case["inputs"], case["outputs"]
    assert paired_events(said["total_change_sts"]) == said["each_edge"]
    schedule = spread_events(
        said["each_edge"],
        said["rows"],
        finish=Finish.PLAIN,
        remainder=Remainder.PLAIN_AT_TOP,
    )
    assert schedule.blocks == (Block(wanted["interval_rows"], wanted["times"]),)
    assert schedule.event_rows[0] == wanted["first_event_row"]
    assert schedule.rows - schedule.event_rows[-1] == wanted["plain_rows_at_end"]


@against("R03")
def test_a_straight_part_follows_anyway(case):
    said, wanted = case["inputs"], case["outputs"]
    schedule = spread_events(said["events"], said["rows"], finish=Finish.EVENT)
    assert schedule.blocks == (Block(wanted["interval_rows"], wanted["times"]),)
    assert schedule.event_rows[0] == wanted["first_event_row"]
    assert schedule.event_rows[-1] == said["rows"]
    # as many straight rows after the shaping as there are between two events
    followed = stacked(schedule, Schedule(wanted["straight_rows_after"]))
    assert followed.rows - followed.event_rows[-1] == wanted["interval_rows"]


@against("R05")
def test_one_gap_and_the_surplus_plain_at_the_top(case):
    said, wanted = case["inputs"], case["outputs"]
    change = said["top_sts"] - said["cuff_sts"]
    assert change == wanted["total_inc"]
    events = paired_events(change)
    assert events == wanted["events"]
    assert Fraction(said["rows"], events) == Fraction(str(wanted["rows_per_event"]))
    schedule = spread_events(events, said["rows"], remainder=Remainder.PLAIN_AT_TOP)
    assert schedule.blocks == (Block(wanted["interval"], events),)
    assert schedule.event_rows[-1] == wanted["last_event_row"]


@against("R06")
def test_a_first_rate_of_the_designer_and_then_the_rest(case):
    said, wanted = case["inputs"], case["outputs"]
    first, then = (Block(**block) for block in wanted["schedule"])
    fast = Schedule(first.rows, (first,))
    assert fast.event_rows[-1] == wanted["row_after_first_block"]
    assert said["cuff_sts"] + 2 * fast.events == wanted["sts_after_first_block"]
    rest = spread_events(
        said["events"] - fast.events,
        said["rows"] - fast.rows,
        remainder=Remainder.PLAIN_AT_TOP,
    )
    whole = stacked(fast, rest)
    assert whole.blocks == (first, then)
    assert whole.event_rows[-1] == wanted["last_event_row"]


@against("R07")
def test_the_first_event_on_a_chosen_row(case):
    said, wanted = case["inputs"], case["outputs"]
    rows = said["length_in"] * said["rows_per_in"]
    assert rows == wanted["total_rows"]
    assert said["first_inc_row"] == said["cuff_rows"] + 1
    schedule = spread_events(
        1 + said["times"],
        int(rows),
        first=said["first_inc_row"],
        finish=Finish.PLAIN,
        remainder=Remainder.PLAIN_AT_TOP,
    )
    assert schedule.blocks == (Block(said["then_every"], said["times"]),)
    assert list(schedule.event_rows) == wanted["event_rows"]
    assert schedule.rows - schedule.event_rows[-1] == wanted["plain_rows"]
    assert said["cast_on"] + 2 == wanted["sts_after_first"]
    assert said["cast_on"] + 2 * schedule.events == wanted["end_sts"]
    assert schedule_text(schedule, "increase 1 stitch") == (
        "increase 1 stitch at each end of row 9, then of every 4th row 10 times"
    )


@against("R08")
def test_both_ends_share_parity_and_rows_go_down_to_even(case):
    wanted = case["outputs"]
    assert paired_rows(Fraction(str(wanted["rows_exact"]))) == wanted["rows"]
    with pytest.raises(ValueError, match="21 stitches cannot be shared"):
        paired_events(wanted["underarm_sts"] - 39)  # 38.75 to the nearest would be 39
    events = paired_events(wanted["underarm_sts"] - wanted["cuff_sts"])
    assert events == wanted["events"]
    schedule = spread_events(events, wanted["rows"], remainder=Remainder.PLAIN_AT_TOP)
    assert schedule.blocks == (Block(wanted["quotient"], events),)


@against("R10")
def test_the_first_event_on_the_first_shaping_row(case):
    said, wanted = case["inputs"], case["outputs"]
    events = paired_events(wanted["top_sts"] - said["cuff_sts"])
    assert events == wanted["paired_events"]
    schedule = spread_events(events, wanted["rows"], first=said["first_event_on_row"])
    assert schedule.event_rows[0] == 1
    assert schedule.events == events
    # n − 1 gaps over the rows that are left
    assert sum(block.times for block in schedule.blocks) == events - 1


@against("R11")
def test_even_rows_only_alternate_six_and_four(case):
    repeats = case["inputs"]["repeats_after_first"] + 1
    assert repeats == case["outputs"]["total_repeats"]
    schedule = spread_events(2 * repeats, 10 * repeats, grid=2, remainder=Remainder.MIXED)
    gaps = [b - a for a, b in pairwise((0, *schedule.event_rows))]
    assert gaps == [6, 4] * repeats
    assert schedule_text(schedule) == (
        "decrease 1 stitch at each end of every 6th row and every 4th row alternately, "
        "26 times in all"
    )


@against("R12")
def test_blocks_add_up_to_the_edge(case):
    blocks = [Block(**block) for block in case["inputs"]["blocks"]]
    assert [block.rows for block in blocks] == case["outputs"]["rows_per_block"]
    schedule = stacked(*(Schedule(block.rows, (block,)) for block in blocks))
    assert schedule.blocks == tuple(blocks)
    last = [sum(block.times for block in blocks[: i + 1]) - 1 for i in range(len(blocks))]
    reached = [schedule.event_rows[i] for i in last]
    assert reached == case["outputs"]["cumulative_rows"]
    with pytest.raises(ValueError, match="30 rows; there are 29"):
        Schedule(29, tuple(blocks))


@against("R13")
def test_the_faster_rate_first(case):
    said, wanted = case["inputs"], case["outputs"]
    rows = said["length_in"] * said["rounds_per_in"] - said["plain_rounds"]
    change = said["cast_on"] - said["target"]
    assert change == wanted["total_dec"]
    schedule = spread_events(change, rows, remainder=Remainder.SHORTER_FIRST)
    first, then = wanted["blocks"]
    assert schedule.blocks[0] == Block(**first)
    assert said["cast_on"] - first["times"] == wanted["after_first_block"]
    assert schedule.blocks[1].every == then["every"]
    assert said["cast_on"] - schedule.events == then["until"]


def _rasterised(events: int, rows: int) -> list[int]:
    """How many events a drawn line has reached at each row: Pillow's line from corner to corner."""
    image = Image.new("1", (rows + 1, events + 1))
    ImageDraw.Draw(image).line((0, 0, rows, events), fill=1)
    pixels = image.load()
    return [max(y for y in range(events + 1) if pixels[x, y]) for x in range(rows + 1)]


@given(st.data(), st.integers(1, 120))
def test_a_mixed_schedule_keeps_to_the_line_that_pillow_draws(data, rows):
    events = data.draw(st.integers(1, rows))
    made = spread_events(events, rows, remainder=Remainder.MIXED).event_rows
    drawn = _rasterised(events, rows)
    reached = [sum(row <= x for row in made) for x in range(rows + 1)]
    assert reached[-1] == drawn[-1] == events
    # the line is drawn to the nearest event, ours waits until the event is due
    assert all(0 <= at - ours <= 1 for ours, at in zip(reached, drawn, strict=True))
