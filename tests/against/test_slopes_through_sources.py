"""Published rates of shaping, from the key `slopes` of a pattern source to the rows on the bed.

A stitch is 5 mm wide and a row 4 mm high. A published width that is sewn has two stitches more
here, one for each seam (G05, C09); where a case has a piece's stitches, they are its own.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from published_more import against
from sourced import counts, gaps, garment, knitted, piece, swatch
from walebook.machine.edge_steps import TakeOff
from walebook.machine.steps import Knit
from walebook.proof.proof import KnittedPiece
from walebook.shape.piece import Piece
from walebook.shape.profile import Change, How, Profile

PLAIN = swatch(20, 25)
Case = dict[str, dict[str, object]]


def across(stitches: int, seams: int = 2) -> str:
    """The width of so many stitches, those that seams take among them."""
    return f"{(stitches - seams) * 5} mm"


def high(rows: int) -> str:
    """The height of so many rows."""
    return f"{rows * 4} mm"


def sleeve(start: int, top: int, rows: int, slope: str) -> Profile:
    """The edge of a sleeve of so many stitches at its cuff and underarm, increased as asked."""
    odd = {"round": "{sleeve cast on: odd}"} if start % 2 else {}
    text = garment("raglan pullover", PLAIN, {
        "cuff_width": across(start), "upper_arm_width": across(top), "sleeve_length": high(rows),
        "chest_width": across(80), "neck_width": across(40), "front_neck": "4 cm",
        "raglan_depth": high(top + 20 - top % 2), "sleeve_top": across(6 + top % 2)},
        slopes=f"{{sleeve: {slope}}}", **odd)
    made = counts(text)["sleeve"]
    assert (made["cast_on"], made["upper_arm"], made["rows_to_raglan"]) == (start, top, rows)
    edge = piece(text, "sleeve").left
    return Profile(rows, tuple(c for c in edge.changes if c.how is How.INCREASE))


def v_front(half: int, going: int, rows: int, slope: str) -> Piece:
    """A front of twice so many stitches, at each side of whose V so many go in so many rows."""
    made = piece(garment("drop-shoulder pullover", PLAIN, {
        "chest_width": across(2 * half), "neck_width": across(2 * going, 0),
        "front_neck": high(rows), "armhole": high(max(rows + rows % 2, 40)),
        "shoulder_drop": "0 cm", "body_length": high(2 * rows + 60)}, neck="v",
        slopes=f"{{v_neck: {slope}}}"), "front")
    assert made.opening is not None and made.opening.inner.rows == rows
    assert made.half + made.opening.inner.net == half - going
    return made


def event_rows(changes: tuple[Change, ...], how: How) -> list[int]:
    """The rows on which single stitches come or go."""
    return [change.row for change in changes if change.how is how]


def between(rows: list[int]) -> list[int]:
    """The rows from each event to the next."""
    return [b - a for a, b in pairwise(rows)]


def in_neck(front: Piece) -> list[int]:
    """The rows, from where a V opens, on which it is decreased."""
    assert front.opening is not None
    return event_rows(front.opening.inner.changes, How.DECREASE)


@against("R01")
def test_one_gap_more_than_there_are_increases(case):
    said, wanted = case["inputs"], case["outputs"]
    events = said["start_sts"] - said["end_sts"]
    made = sleeve(40, 40 + 2 * events, said["rows"], "{order: one rate}")
    assert gaps(made.changes, How.INCREASE) == [(wanted["interval_rows"], wanted["times"])]
    assert made.changes[0].row == wanted["first_event_row"]
    assert made.rows - made.changes[-1].row == wanted["plain_rows_at_end"]


@against("R03")
def test_a_straight_stretch_takes_the_place_of_the_last_gap(case):
    said, wanted = case["inputs"], case["outputs"]
    after = wanted["straight_rows_after"]
    made = sleeve(40, 40 + 2 * said["events"], said["rows"] + after + 1,
                  f"{{plain_end: {after + 1} rows}}")  # a sleeve has an even number of rows
    assert gaps(made.changes, How.INCREASE) == [(wanted["interval_rows"], wanted["times"])]
    assert made.changes[-1].row == said["rows"]


@against("R05")
def test_one_rate_and_the_surplus_plain_at_the_top(case):
    said, wanted = case["inputs"], case["outputs"]
    made = sleeve(said["cuff_sts"], said["top_sts"], said["rows"], "{order: one rate}")
    assert gaps(made.changes, How.INCREASE) == [(wanted["interval"], wanted["events"])]
    assert made.changes[-1].row == wanted["last_event_row"]


@against("R06")
def test_a_first_rate_of_the_designer_and_the_rest_evenly(case):
    said, wanted = case["inputs"], case["outputs"]
    first, then = wanted["schedule"]
    made = sleeve(said["cuff_sts"], said["cuff_sts"] + 2 * said["events"], said["rows"],
                  f"{{rates: every {first['every']}rd row {first['times']} times then evenly}}")
    assert gaps(made.changes, How.INCREASE) == [
        (first["every"], first["times"]), (then["every"], then["times"])]
    assert made.changes[-1].row == wanted["last_event_row"]


@against("R07")
def test_a_first_row_and_one_rate_above_it(case):
    said, wanted = case["inputs"], case["outputs"]
    slope = (f"{{first_row: {said['first_inc_row']}, "
             f"rates: every {said['then_every']}th row {said['times']} times}}")
    made = sleeve(said["cast_on"], wanted["end_sts"], wanted["total_rows"], slope)
    assert event_rows(made.changes, How.INCREASE) == wanted["event_rows"]
    assert made.rows - made.changes[-1].row == wanted["plain_rows"]


@against("R11")
def test_two_rates_in_turn_keep_to_even_rows(case):
    """First on row 6, next after 4 more rows, and so on: all events on even rows."""
    pairs = case["inputs"]["repeats_after_first"] + 1
    assert pairs == case["outputs"]["total_repeats"]
    made = sleeve(40, 40 + 4 * pairs, 10 * pairs + 2, "{rates: every 6th and 4th row in turn}")
    rows = event_rows(made.changes, How.INCREASE)
    assert [row % 10 for row in rows] == [6, 0] * pairs
    assert rows[-1] == 10 * pairs


@against("R12")
def test_three_rates_one_after_another(case):
    blocks = case["inputs"]["blocks"]
    text = " then ".join(f"every {b['every']} rows {b['times']} times" for b in blocks)
    events = sum(b["times"] for b in blocks)
    rows = in_neck(v_front(40, events, case["outputs"]["cumulative_rows"][-1],
                           f"{{rates: {text}}}"))
    at = [sum(b["times"] for b in blocks[:n + 1]) - 1 for n in range(len(blocks))]
    assert [rows[last] for last in at] == case["outputs"]["cumulative_rows"]


@against("R13")
def test_the_faster_rate_first(case):
    """90 rows for 52 stitches: the excerpt's rounds are rows here, one side of a neck its leg."""
    said, wanted = case["inputs"], case["outputs"]
    rows = said["length_in"] * said["rounds_per_in"] - said["plain_rounds"]
    made = v_front(said["cast_on"], said["cast_on"] - said["target"], rows,
                   "{order: fast first, plain_end: 0 rows}")
    assert made.opening is not None
    first, then = wanted["blocks"]
    (fast, times), (slow, _) = gaps(made.opening.inner.changes, How.DECREASE)
    assert (fast, times, slow) == (first["every"], first["times"], then["every"])
    assert said["cast_on"] - times == wanted["after_first_block"]


def raglan(measures: dict[str, object], **slopes: str) -> str:
    """A raglan pullover, its raglan lines as asked."""
    asked = ", ".join(f"{name}: {slope}" for name, slope in slopes.items())
    return garment("raglan pullover", PLAIN, measures,
                   **({"slopes": f"{{{asked}}}"} if slopes else {}))


@against("C08")
def test_a_sleeve_of_a_raglan_on_every_right_side_row(case):
    said, wanted = case["inputs"], case["outputs"]
    made = piece(raglan({
        "upper_arm_width": across(said["wide_sts"]), "sleeve_top": across(said["final_sts"]),
        "raglan_depth": high(said["rows"]), "cuff_width": across(30),
        "chest_width": across(60), "neck_width": across(30), "front_neck": "3 cm",
        "underarm": across(said["initial_bind_off_each_side"], 0)}), "sleeve")
    start = made.rows - said["rows"]
    bound, *slope = [c for c in made.right.changes if c.row >= start]
    assert bound == Change(start, said["initial_bind_off_each_side"], How.BIND_OFF)
    assert len(slope) == wanted["events"] == wanted["rs_rows"]
    assert [c.row - start for c in slope] == list(range(2, said["rows"] + 1, 2))


@against("W3-053")
def test_body_and_sleeve_bowed_opposite_ways(case):
    """Body: 4 decreases every 4 rows, then every 2; sleeve: every 2 rows for 12, then every 4."""
    wanted, rows = case["outputs"], 40
    slow, fast = 4, 12 // 2
    body = slow + (rows - 4 * slow) // 2
    arm = fast + (rows - 2 * fast) // 4
    text = raglan(
        {"chest_width": across(30 + 2 * body + 4), "neck_width": across(30),
         "raglan_depth": high(rows), "underarm": across(2, 0), "front_neck": "4 cm",
         "upper_arm_width": across(10 + 2 * arm + 4), "sleeve_top": across(10),
         "cuff_width": across(28)},
        raglan_body="{rates: every 4th row 4 times then every 2nd row}",
        raglan_sleeve="{rates: every 2nd row 6 times then every 4th row}")
    lines = []
    for key in ("back", "sleeve"):
        made = piece(text, key)
        start = made.rows - rows
        lines.append([row - start for row in event_rows(made.right.changes, How.DECREASE)])
    assert lines[0][slow - 1] == wanted["body_rows_in_slow_part"]
    assert lines[1][fast - 1] == 12 and fast == wanted["sleeve_events_in_fast_part"]
    assert between(lines[0]) == [4] * (slow - 1) + [2] * (body - slow)
    assert lines[0][-1] == lines[1][-1] == rows


@against("W3-054")
def test_two_spacings_of_the_designers_choice_mixed(case):
    """The entry's own check: 50 rows and 18 events, 7 of them at 4 rows and 11 at 2."""
    assert "50 rows and 18 events: 7 at 4, 11 at 2" in case["note"]
    rows, events, fast, slow = 50, 18, 2, 4
    at = in_neck(v_front(40, events, rows, f"{{rates: every {fast}nd and {slow}th row mixed}}"))
    gaps_between = between([0, *at])
    assert gaps_between.count(slow) == (rows - fast * events) // (slow - fast) == 7
    assert gaps_between.count(fast) == 11 and at[-1] == rows
    assert all(0 <= row - n * rows / events < slow - fast for n, row in enumerate(at, 1))


@against("W3-056")
def test_a_v_at_once_then_by_two_rates(case):
    said, wanted = case["inputs"], case["outputs"]
    rows = said["end_row"] - said["armhole_at_row"]
    assert rows == wanted["armhole_rows"]
    at = in_neck(v_front(wanted["front_sts"], wanted["events"], rows,
                         "{first_row: 0, rates: every 2nd row once then every 3rd row 15 times}"))
    assert (at[0], len(at)) == (0, wanted["events"])
    assert said["armhole_at_row"] + at[-1] == wanted["last_event_row"]
    assert rows - at[-1] == wanted["straight_rows"]
    assert wanted["front_sts"] - len(at) == wanted["shoulder_sts"]


@against("W3-057")
def test_two_neighbouring_rates_of_a_sleeve(case):
    said, wanted = case["inputs"], case["outputs"]
    made = sleeve(said["sts"], wanted["top_sts"], said["end_row"],
                  "{rates: every 5 rows 5 times then every 6 rows 6 times}")
    assert said["schedule"] == "every 5 rows 5 times, then every 6 rows 6 times"
    assert gaps(made.changes, How.INCREASE) == [(5, 5), (6, 6)]
    assert made.changes[-1].row == wanted["last_event_row"]
    assert made.rows - made.changes[-1].row == wanted["straight_rows"]


@against("W3-058")
def test_a_graded_v_at_one_rate_and_then_straight(case):
    said, wanted = case["inputs"], case["outputs"]
    for half, start, total, every, shoulder, events, used, left in zip(
            *(said[k] for k in ("front_needles", "v_starts_row", "total_rows", "every",
                                "shoulder")),
            *(wanted[k] for k in ("events", "rows_used", "straight_rows_left")), strict=True):
        made = v_front(half, events, total - start, f"{{rates: every {every}th row}}")
        assert made.opening is not None
        assert gaps(made.opening.inner.changes, How.DECREASE) == [(every, events)]
        assert in_neck(made)[-1] == used and total - start - used == left
        assert half - events == shoulder


def off_at(made: KnittedPiece) -> list[int]:
    """What the row counter shows wherever stitches are knitted off on waste yarn."""
    counter, found = 0, []
    for step in (step for section in made.program.sections for step in section.steps):
        if isinstance(step, Knit):
            counter = step.claim.counter
        elif isinstance(step, TakeOff) and step.rows:
            found.append(counter)
    return found


@against("W3-058")
@pytest.mark.parametrize("n", range(8))
def test_the_fronts_of_a_graded_v_have_the_rows_of_the_back(case, n):
    """In four sizes of eight the last decrease falls on the last row, which the case counts too."""
    said = case["inputs"]
    start, total, every, half = (said[k][n] for k in ("v_starts_row", "total_rows", "every",
                                                      "front_needles"))
    left = case["outputs"]["straight_rows_left"][n]
    text = garment("drop-shoulder cardigan", PLAIN, {
        "chest_width": f"{said['back_needles'][n]} stitches", "body_length": f"{total} rows",
        "neck_width": f"{said['centre_cast_off'][n]} stitches", "shoulder_drop": "0 cm",
        "front_neck": f"{total - start - 1} rows", "back_neck": "2 rows", "armhole": high(40),
        "cuff_width": across(30), "upper_arm_width": across(30), "sleeve_length": high(60)},
        neck="v", counts=f"{{right front cast on: {half}}}",
        slopes=f"{{v_neck: {{first_row: {every - 1}, rates: every {every}th row, "
               f"plain_end: {left} rows}}}}")
    back, *fronts = (knitted(text, key) for key in ("back", "right_front", "left_front"))
    assert off_at(back) == [total, total] and [off_at(front) for front in fronts] == 2 * [[total]]
    at = event_rows(fronts[0].piece.left.changes, How.DECREASE)
    assert between([start, *at]) == [every] * case["outputs"]["events"][n]
    assert total - at[-1] == left and fronts[0].piece.top == said["shoulder"][n]


def graded_raglan(case: Case, n: int, neck: int = 14) -> tuple[str, int]:
    """The n-th size of a published raglan, and its rows, of which ours has an even number."""
    said = case["inputs"]
    wide = said["after_cast_off"][n]
    final = (case["outputs"].get("final") or said["back_final"])[n]
    every = [(1, said["every_row"][n]), (4, said["every_4th"][n])]
    rest = (wide - final) // 2 - sum(times for _, times in every)
    rows = sum(gap * times for gap, times in every) + 2 * rest
    rates = " then ".join(f"every {gap} rows {times} times" for gap, times in every if times)
    return raglan(
        {"chest_width": across(wide + 4), "neck_width": across(final),
         "raglan_depth": high(rows + rows % 2), "underarm": across(2, 0),
         "front_neck": high(neck), "upper_arm_width": across(60), "sleeve_top": across(10),
         "cuff_width": across(30), "body_length": high(2 * rows)},
        raglan_body=f"{{rates: {rates} then every 2nd row}}"), rows


@against("W3-060")
@pytest.mark.parametrize("n", range(5))
def test_a_graded_raglan_at_three_rates(case, n):
    said, wanted = case["inputs"], case["outputs"]
    text, rows = graded_raglan(case, n)
    made = piece(text, "back")
    at = [row - made.rows + rows + rows % 2
          for row in event_rows(made.right.changes, How.DECREASE)]
    assert (len(at), at[-1], made.top) == (wanted["events"][n], wanted["rows"][n],
                                           wanted["final"][n])
    assert between([0, *at]) == [
        *[1] * said["every_row"][n], *[4] * said["every_4th"][n], *[2] * said["every_2nd"][n]]


@against("W3-061")
@pytest.mark.parametrize("n", range(5))
def test_a_front_neck_so_many_decreases_below_the_top(case, n):
    """Written as the rows that those decreases take, the depth of the front neck."""
    said, wanted = case["inputs"], case["outputs"]
    text, _ = graded_raglan(case, n, wanted["rows_below_top"][n])
    front, back = piece(text, "front"), piece(text, "back")
    assert front.opening is not None
    missing = [row for row in event_rows(back.right.changes, How.DECREASE)
               if row >= front.opening.row]
    assert len(missing) == wanted["events_missing"][n]
    assert back.top + 2 * len(missing) == said["neck_starts_at_sts"][n]
    assert said["neck_starts_at_sts"][n] - back.top == 2 * wanted["events_missing"][n]


@against("W3-062")
def test_graded_increases_at_two_rates(case):
    """The excerpt has no stitches at the start: three increases at the first rate are taken."""
    said, wanted = case["inputs"], case["outputs"]
    for first, fast, to, slow, top, events, rows in zip(
            *(said[k] for k in ("first_row", "first_interval", "to_sts", "then_interval",
                                "top_sts")),
            *(wanted[k] for k in ("events_second_stage", "rows_second_stage")), strict=True):
        end = first + 3 * fast + rows
        made = sleeve(to - 8, top, end + 2 - end % 2, f"{{first_row: {first}, rates: "
                      f"every {fast}th row 3 times then every {slow}th row}}")
        at = event_rows(made.changes, How.INCREASE)
        assert at[:4] == [first + n * fast for n in range(4)]
        assert len(at) - 4 == events and at[-1] - at[3] == rows
        assert set(between(at[3:])) == {slow}


@against("W3-063")
def test_a_straight_v_by_two_intervals_in_turn(case):
    said, wanted = case["inputs"], case["outputs"]
    for half, until, events, rows in zip(said["half_front"], said["until"], wanted["events"],
                                         wanted["rows"], strict=True):
        at = in_neck(v_front(half, half - until, rows + rows % 2,
                             "{rates: every 2nd and 3rd row alternately}"))
        assert (len(at), at[-1]) == (events, rows)
        assert between([0, *at]) == [2 + n % 2 for n in range(events)]


@against("W3-064")
def test_two_neighbouring_rates_below_a_plain_end(case):
    said, wanted = case["inputs"], case["outputs"]
    made = sleeve(said["start_sts"], said["end_sts"], wanted["rows"],
                  f"{{plain_end: {said['straight_rows_at_end']} rows}}")
    assert gaps(made.changes, How.INCREASE) == [
        (int(name.split()[1]), times) for name, times in wanted["mix"].items()]
    assert made.changes[-1].row == wanted["shaping_rows"]


@against("W3-071")
def test_a_graded_sleeve_at_one_rate_and_then_straight(case):
    said, wanted = case["inputs"], case["outputs"]
    for start, top, every, rows, events, used, left in zip(
            *(said[k] for k in ("start", "top", "every", "total_rows")),
            *(wanted[k] for k in ("events", "rows_used", "straight_rows")), strict=True):
        made = sleeve(start, top, rows, f"{{rates: every {every}th row}}")
        assert gaps(made.changes, How.INCREASE) == [(every, events)]
        assert (made.changes[-1].row, rows - made.changes[-1].row) == (used, left)


@against("W3-075")
def test_a_sleeve_from_the_next_row_and_every_fourth(case):
    """The rows above the last increase are not published: twenty here."""
    said, wanted = case["inputs"], case["outputs"]
    for start, top, events, last in zip(wanted["after_rib"], said["top"], wanted["events"],
                                        wanted["last_event_row"], strict=True):
        made = sleeve(start, top, last + 21,
                      f"{{first_row: 1, rates: every {said['interval']}th row}}")
        at = event_rows(made.changes, How.INCREASE)
        assert (at[0], at[-1], len(at)) == (1, last, events)
