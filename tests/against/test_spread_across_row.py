"""Events spread evenly across a row, against published examples."""

from collections import Counter
from itertools import accumulate, pairwise

from published import account_for, against
from walebook.core.spread import shares, taken_rows

DIRECT = ("A01", "A02", "A03", "A06", "A07")

NOT_FOLLOWED = {
    "A06 positions_round": "the author lists the larger intervals first; here they are mixed "
    "evenly, so the same four intervals come in another order",
    "A06 positions_flat": "an increase lies between two stitches, what is taken here is a whole "
    "row: the half interval is kept (the middle of each share), its rounding is not",
    "A07 half_interval": "as A06: the middle of seven rows is the fourth row, and no choice of "
    "rounding arises",
}


def scheduled(case) -> Counter:
    """The intervals a published schedule consists of."""
    return Counter({part["every_st"]: part["times"] for part in case["outputs"]["schedule"]})


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"spread increases or decreases across one row"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


@against("A01")
def test_quotient_and_remainder_of_an_increase(case):
    said, wanted = case["inputs"], case["outputs"]
    intervals = shares(said["sts"], said["increase"])
    assert Counter(intervals) == scheduled(case)
    assert min(intervals) == wanted["quotient"]
    assert intervals.count(wanted["quotient"] + 1) == wanted["remainder"]


@against("A02")
def test_a_decrease_counts_the_stitches_worked_together(case):
    said, wanted = case["inputs"], case["outputs"]
    assert said["start_sts"] - said["end_sts"] == wanted["decrease"]
    intervals = shares(said["start_sts"], wanted["decrease"])
    assert Counter(intervals) == scheduled(case)
    assert sum(each - 1 for each in intervals) == said["end_sts"]


@against("A03")
def test_equal_groups(case):
    said, wanted = case["inputs"], case["outputs"]
    groups = shares(said["sts"], said["increase"])
    assert groups == (wanted["sts_per_group"],) * wanted["groups"]


@against("A06")
def test_intervals_that_differ_by_one_and_start_half_an_interval_in(case):
    said, wanted = case["inputs"], case["outputs"]
    intervals = shares(said["sts"], said["increase"])
    assert Counter(intervals) == Counter(wanted["intervals"])
    round_the_hat = tuple(accumulate(intervals))
    assert round_the_hat[-1] == wanted["positions_round"][-1]
    taken = taken_rows(said["increase"], said["sts"])
    assert all(
        abs(ours - published) <= 1
        for ours, published in zip(taken, wanted["positions_flat"], strict=True)
    )
    assert taken[0] - 1 == said["sts"] - taken[-1]  # "so the row is centred"


@against("A07")
def test_an_exact_interval(case):
    said, wanted = case["inputs"], case["outputs"]
    assert shares(said["sts"], said["increase"]) == (wanted["spacing"],) * said["increase"]
    taken = taken_rows(said["increase"], said["sts"])
    assert abs(taken[0] - wanted["half_interval"]) == 0.5
    assert {later - sooner for sooner, later in pairwise(taken)} == {wanted["spacing"]}
