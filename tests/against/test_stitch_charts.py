"""Stitch repeats over a piece, and charts for the machine, against what is published.

Beside the worked example G14 the sources are knitting pages, each named at its check; they were
read as text.
"""

from fractions import Fraction

import pytest
from published import against
from walebook.core.counts import Rounding, decimal, whole
from walebook.core.units import read_length
from walebook.fabric.chart_on_bed import Unfit, multiple, place_repeat
from walebook.fabric.gauge import Gauge, stitches_across
from walebook.machine.steps import Side
from walebook.pattern.cells import crossings
from walebook.pattern.stitch_chart import StitchChart, turned_over
from walebook.program.chart_actions import row_actions

from tests.small_patterns import cells_of

INCH = Fraction(254, 10)  # mm, by definition


def plain(wide: int, edge: int) -> StitchChart:
    return StitchChart(title="plain", rows=(cells_of("|" * wide),), edge=edge)


@against("G14")
def test_a_count_that_whole_repeats_do_not_fill_is_refused_with_its_neighbours(case):
    said, wanted = case["inputs"], case["outputs"]
    gauge = Gauge(stitch=INCH / said["sts_per_in"], row=INCH / 7)
    width = read_length(f"{said['circumference_in']} in")
    count = stitches_across(width, gauge).value
    chart = plain(said["repeat"], 0)
    assert count == wanted["sts"]
    with pytest.raises(Unfit) as refused:
        place_repeat(chart, count)
    # 25.7 repeats as published lie between 25 and 26 whole ones
    assert (refused.value.below, refused.value.above) == (25 * 7, 26 * 7)
    assert decimal(Fraction(count, said["repeat"]), 1) == str(wanted["repeats"])
    fitted = stitches_across(width, gauge, multiple(chart)).value
    assert place_repeat(chart, fitted).repeats == 26


@pytest.mark.parametrize(("repeat", "plus", "counts"), [
    (6, 2, (8, 14, 20, 26, 32)),
    (8, 2, (10, 18, 26, 34, 42, 50)),
])
def test_a_multiple_plus_two(repeat, plus, counts):
    """readknittingpatterns.com, "Read a Knitting Pattern with 'Cast On a Multiple…'": the counts
    that "a multiple of 6 plus 2" and "of 8 plus 2" stand for; the two are one at each side."""
    chart = plain(repeat, plus // 2)
    assert multiple(chart) == Rounding("multiple", of=repeat, plus=plus)
    fits = []
    for stitches in range(1, counts[-1] + 1):
        try:
            fits.append((stitches, place_repeat(chart, stitches).repeats))
        except Unfit:
            continue
    assert fits == [(count, n) for n, count in enumerate(counts, 1)]


def test_the_repeats_nearest_to_a_wished_width():
    """marygildersleeve.com, "stitch multiples": about 45 stitches of a multiple of 6 plus 1 are
    43 or 49. The odd stitch balances the repeat and is counted with the rule alone."""
    rule = Rounding("multiple", of=6, plus=1)
    assert whole(Fraction(45), rule) == 43
    assert {n for n in range(40, 50) if (n - rule.plus) % rule.of == 0} == {43, 49}


@pytest.mark.parametrize(("marks", "side_first"), [
    (")\\", Side.LEFT),   # 1/1 LC: the stitch held in front is the right one, and goes left
    ("/(", Side.RIGHT),   # 1/1 RC: the stitch held behind is the right one, the left goes right
])
def test_crosses_to_left_and_right(marks, side_first):
    """What left and right crosses are: "1/1 LC: slip 1 to the cable needle and hold at the front,
    k1, then k1 from the cable needle", "RC: hold at the back" (K. Atherley, "On the wrong side:
    cables"). Hand knitters work from the right, so the held stitch is the right-hand one.

    Seen from the purl side what lay in front lies behind; there it goes back first (that the
    stitches put back first lie away from the knitter is common practice, no source).
    """
    (cross,) = crossings(cells_of(marks))
    held_in_front = not cross.left_in_front  # the right-hand stitch lies in front
    assert held_in_front is (marks == ")\\")
    placed = place_repeat(StitchChart(title="twist", rows=(cells_of(marks),)), 4)
    (action,) = row_actions(placed, 1)
    # knit side: right in front; purl side: it is the left-hand one, and behind, so first
    assert action.first is side_first


def test_a_lace_is_reversed_for_the_machine():
    """alessandrina.com, "To mesh or not to mesh 7" and "hand techniques": transfers occur on the
    purl side, so a chart seen on the knit side is reversed from left to right."""
    chart = StitchChart(title="lace", rows=(cells_of("||<|||"),))
    assert turned_over(chart).rows == (cells_of("|||>||"),)
    placed = place_repeat(chart, 8)  # L4 to R4, the repeat L3 to R3
    (move,) = row_actions(placed, 1)
    assert ([str(n) for n in move.needles], move.by) == (["R1"], 1)
