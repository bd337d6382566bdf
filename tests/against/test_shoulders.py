"""Held shoulders, against published examples."""

import pytest
from published_pieces import account_for, against
from walebook.pattern.conventions import Larger
from walebook.shape.profile import How
from walebook.shape.shoulders import (
    HeldShoulder,
    Wrap,
    shoulder_steps,
)

DIRECT = ("S02",)

NOT_FOLLOWED: dict[str, str] = {}


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"short-row (held) shoulders"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


@against("S02")
def test_the_remainder_is_at_the_neck_side(case):
    said = case["inputs"]
    steps = shoulder_steps(said["shoulder_sts"], said["steps"])
    assert list(steps) == case["outputs"]["step_sts"]


@pytest.mark.parametrize(
    ("stitches", "steps", "published"),
    [
        # the trade notes on S03 and S05, whose entries are not in the collection
        (23, 3, (7, 8, 8)),
        (43, 2, (21, 22)),
    ],
)
def test_other_published_remainders_at_the_neck_side(stitches, steps, published):
    assert shoulder_steps(stitches, steps) == published


def test_the_remainder_may_go_elsewhere():
    # common practice, no source: writers differ (trade notes, gaps and conflicts)
    assert shoulder_steps(17, 3, Larger.ARMHOLE) == (6, 6, 5)
    assert shoulder_steps(17, 3, Larger.LAST_STEP) == (5, 5, 7)


@against("S06")
def test_many_are_held_travelling_toward_and_one_travelling_away(case):
    assert case["outputs"]["moving_away"] == "one needle only"
    # The carriage starts opposite: on even rows it travels toward the held side next.
    for wrap in Wrap:
        for change in HeldShoulder((5, 5, 6), wrap).changes(start=40):
            assert change.row % 2 == 0 or change.stitches == 1


@against("S07")
def test_an_automatic_wrap_holds_all_but_one_and_then_that_one(case):
    assert case["outputs"]["method"].startswith("hold n - 1")
    held = HeldShoulder((5, 1, 6), Wrap.AUTOMATIC).changes(start=40)
    assert [(c.row, c.stitches) for c in held] == [(40, 4), (41, 1), (43, 1)]
    assert all(c.how is How.HOLD for c in held)
