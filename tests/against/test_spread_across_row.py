"""Events spread evenly across a row, against published examples: from the text of a pattern source
whose rib has as many stitches as the example begins with, to what the bed knits above it."""

from collections import Counter
from itertools import accumulate, pairwise

from published import account_for
from published_more import against
from sourced import counts, garment, proved, swatch
from walebook.core.spread import shares, taken_rows
from walebook.machine.edge_steps import CloseUp

DIRECT = ("A01", "A02", "A03", "A06", "A07")

NOT_FOLLOWED = {
    "A06 positions_round": "the author lists the larger intervals first; here they are mixed "
    "evenly, so the same four intervals come in another order",
    "A07 half_interval": "three and a half stitches are four at one end and three at the other",
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


def source_of(rib: int, above: int) -> str:
    """A hat of so many stitches above a rib of others."""
    return garment("hat", swatch(1, 2, "1 cm"), {
        "hat_width": f"{above - 2} cm", "hat_length": "30 cm"},
        hem=f"{{kind: latched rib, rib: 1x1, depth: 8 rows, ends: any, stitches: {{hat: {rib}}}}}")


def counted(rib: int, more: int) -> dict[str, int]:
    """The counts of a hat of so many more stitches than its rib."""
    return counts(source_of(rib, rib + more))["hat"]


def knitted(rib: int, above: int) -> CloseUp:
    """How the stitches of a rib are hung again on the needles of a piece of so many."""
    text = source_of(rib, above)
    assert counts(text)["hat"]["cast_on"] == above
    assert counts(text)["hat"]["rib_stitches"] == rib
    (made,) = proved(text).sizes[0].pieces
    return next(step for step in made.program.steps if isinstance(step, CloseUp))


def increased_after(step: CloseUp) -> list[int]:
    """After how many of the rib's stitches each new one lies."""
    onto = list(step.onto)
    return [onto.index(needle) - n for n, needle in enumerate(step.empty)]


def intervals_round(at: list[int], stitches: int) -> Counter:
    """How many stitches lie between two places, from the last round to the first as well."""
    return Counter([b - a for a, b in pairwise(at)] + [at[0] + stitches - at[-1]])


@against("A01", "A03", "A06", "A07")
def test_a_rib_increased_evenly_above_it(case):
    """Half an interval lies at each end of the flat row, and whole ones between."""
    said, wanted = case["inputs"], case["outputs"]
    at = increased_after(knitted(said["sts"], said["sts"] + said["increase"]))
    assert len(at) == said["increase"] == counted(said["sts"], len(at))["increases_above_rib"]
    assert counted(said["sts"], len(at))["apart_in_rib"] == wanted.get(
        "quotient", said["sts"] // said["increase"])
    found = intervals_round(at, said["sts"])
    if "schedule" in wanted:
        assert found == scheduled(case)
    elif "intervals" in wanted:
        assert found == Counter(wanted["intervals"]) and at == wanted["positions_flat"]
    else:
        assert found == {wanted.get("sts_per_group", wanted.get("spacing")): said["increase"]}


@against("A02")
def test_a_rib_decreased_evenly_above_it(case):
    """The interval counts the two that are worked together: two on a needle make one stitch."""
    said, wanted = case["inputs"], case["outputs"]
    step = knitted(said["start_sts"], said["end_sts"])
    onto, many = list(step.onto), len(step.doubled)
    assert many == wanted["decrease"] and len(onto) == said["end_sts"]
    at = [onto.index(needle) + n for n, needle in enumerate(step.doubled)]
    assert intervals_round(at, said["start_sts"]) == scheduled(case)


@against("W3-075")
def test_a_quarter_more_stitches_after_the_rib_of_a_sleeve(case):
    said, wanted = case["inputs"], case["outputs"]
    for rib, above in zip(said["cast_on"], wanted["after_rib"], strict=True):
        step = knitted(rib, above)
        assert (len(step.needles), len(step.onto), len(step.empty)) == (rib, above, above - rib)


@against("W3-020")
def test_a_stitch_more_above_the_rib_of_a_hat(case):
    said, wanted = case["inputs"], case["outputs"]
    for rib, above in zip(said["rib_sts"], wanted["body_sts"], strict=True):
        assert len(knitted(rib, above).empty) == said["add"]


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
