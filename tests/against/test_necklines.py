"""Necklines, against published examples."""

from fractions import Fraction

import pytest
from published_pieces import account_for, against
from walebook.core.counts import EVEN
from walebook.core.units import length_cm
from walebook.fabric.gauge import Gauge, rows_along, stitches_across
from walebook.shape.curves import RoundNeck, falling_steps, round_neck, v_neck
from walebook.shape.profile import Change, How
from walebook.shape.schedule import paired_rows

DIRECT = ("N01", "N02", "N05", "N07")

ELSEWHERE = {"N07": "asserted through a source, in the file on pieces"}


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(), topics={"necklines"}, direct=DIRECT, not_followed=ELSEWHERE
    )


@against("N01")
def test_about_a_third_at_the_centre_then_falling_steps(case):
    stitches, wanted = case["inputs"]["neck_sts"], case["outputs"]
    steps = wanted["front_steps_each_side"]
    # front depth 2 to 3 in: at an invented 9 rows to the inch, 18 to 27 rows
    front = round_neck(stitches, 24, steps=len(steps))
    assert front.centre == wanted["front_centre"]
    assert list(front.steps) == steps
    assert front.stitches == stitches
    back = wanted["back_steps_each_side"]
    assert list(falling_steps(sum(back), len(back))) == back
    assert wanted["back_centre"] + 2 * sum(back) == stitches


@against("N02")
def test_a_step_every_second_row_and_the_last_one_straight(case):
    said, wanted = case["inputs"], case["outputs"]
    gauge = Gauge(
        Fraction(100, said["gauge_per_10cm"]["sts"]),
        Fraction(100, said["gauge_per_10cm"]["rows"]),
    )
    exact = stitches_across(length_cm(said["neck_width_cm"]), gauge).exact
    assert exact == Fraction("25.2")  # the author goes down to an even number
    stitches = paired_rows(exact)
    rows = rows_along(length_cm(said["neck_depth_cm"]), gauge, EVEN).value
    assert (stitches, rows) == (wanted["neck_sts"], wanted["neck_rows"])
    front = round_neck(stitches, rows)
    assert front.centre == wanted["front_centre"]
    *steps, straight = wanted["front_steps_every_2nd_row"]
    assert straight == 0
    assert list(front.steps) == steps
    # the centre and each step take 2 rows, the straight step the last 2
    assert rows == 2 * (1 + len(steps) + 1)
    back = wanted["back_steps"]
    neck = RoundNeck(wanted["back_centre"], falling_steps(sum(back), len(back)), 4)
    assert neck.stitches == stitches
    assert neck.changes() == (Change(2, back[0], How.BIND_OFF),)


@against("N04")
def test_a_v_neck_halves_front_and_neck(case):
    said, wanted = case["inputs"], case["outputs"]
    half = v_neck(said["front_sts"] // 2, said["front_sts"]).events
    assert (half, said["front_sts"] - half) == (wanted["each_side_sts"],) * 2
    assert Fraction(said["neck_cm"], 2) == wanted["half_neck_cm"]


@against("N05")
def test_rows_for_a_v_that_starts_at_the_armhole(case):
    said = case["inputs"]
    gauge = Gauge(Fraction(5), Fraction(100, said["rows_per_10cm"]))
    rows = rows_along(length_cm(said["armhole_cm"]), gauge).value
    assert rows == case["outputs"]["rows"]
    # a neck of 34 stitches, ours: 17 decreases have 4 rows each when the last one ends the V
    side = v_neck(17, rows + 10, plain_at_top=10)
    assert list(side.event_rows) == list(range(4, rows + 1, 4))


def test_unequal_sides_are_refused():
    with pytest.raises(ValueError, match="a centre of 9 leaves 15 stitches of 24"):
        round_neck(24, 12, centre=9)
    with pytest.raises(ValueError, match="a neck 4 rows deep has no room for steps of 7"):
        round_neck(24, 4)
