"""Stitches and rows to a length, against published examples."""

from fractions import Fraction

import pytest
from published import account_for, against
from walebook.core.counts import DOWN, EVEN, NEAREST, Rounding, decimal, whole
from walebook.core.units import Length, length_cm, read_length
from walebook.fabric.gauge import Gauge, converted, measure, rows_along, stitches_across
from walebook.machine.needles import between, centred
from walebook.pattern.fabrics import Swatch

from tests.needle_names import needle

DIRECT = ("G01", "G02", "G03", "G05", "G06", "G07", "G08", "G10", "G11", "G12", "G14", "G15")

NOT_FOLLOWED = {
    "G05 seam_sts": "a front band has no seam; no stitches are added for one",
    "G06 rows_metric_printed": "the collection marks the printed metric figure as wrong: "
    "115.2 rows belong to 48 cm, not to the printed 48.5 cm",
    "G12 factor": "the author rounds the factor to two decimals first; here nothing is rounded "
    "before the count, and the count is the same",
}

INCH = Fraction(254, 10)  # mm, by definition
TEN_CM = Fraction(100)  # mm


def exactly(figure: float | int) -> Fraction:
    """A published figure as the decimal it is printed as."""
    return Fraction(str(figure))


def swatch(stitches: int, width: Length, rows: int, height: Length) -> Gauge:
    """The gauge one swatch shows."""
    return measure([Swatch(stitches=stitches, width=width, rows=rows, height=height)])


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"gauge, swatch and conversion"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


@against("G01")
def test_counted_over_measured_rounded_half_up(case):
    said, wanted = case["inputs"], case["outputs"]
    width, length = (length_cm(exactly(said[key])) for key in ("width_cm", "length_cm"))
    gauge = swatch(said["sts"], width, said["rows"], length)
    # the author cuts the decimals off
    assert 0 <= gauge.stitches_per_10cm - exactly(wanted["sts_per_10cm"]) < Fraction(1, 100)
    assert 0 <= gauge.rows_per_10cm - exactly(wanted["rows_per_10cm"]) < Fraction(1, 10)
    assert 0 <= gauge.stitches_per_10cm / 10 - exactly(wanted["sts_per_cm"]) < Fraction(1, 1000)
    assert 0 <= gauge.rows_per_10cm / 10 - exactly(wanted["rows_per_cm"]) < Fraction(1, 1000)
    rounded = [whole(gauge.stitches_per_10cm), whole(gauge.rows_per_10cm)]
    assert rounded == wanted["rounded"]


@against("G02")
def test_three_measurements_are_averaged(case):
    said, wanted = case["inputs"], case["outputs"]
    width = said["sts"] * TEN_CM / wanted["sts_per_10cm"]  # what the ruler measured [mm]
    height = said["rows"] * TEN_CM / wanted["rows_per_10cm"]
    swatches = [
        Swatch(
            stitches=said["sts"],
            width=Length(width + off),
            rows=said["rows"],
            height=Length(height - 2 * off),
        )
        for off in (-2, -1, 3)  # three unlike measurements with just that mean
    ]
    gauge = measure(swatches)
    assert gauge.stitches_per_10cm == wanted["sts_per_10cm"]
    assert gauge.rows_per_10cm == wanted["rows_per_10cm"]
    marked = between(needle("L20"), needle("R20"))  # between the gutters left by needle 21
    assert len(marked) == said["sts"] and marked == centred(said["sts"])


@against("G03")
def test_the_stitches_between_two_marked_needles(case):
    for said in case["inputs"].values():
        mark = said["marks_at_needle"]
        inside = between(needle(f"L{mark - 1}"), needle(f"R{mark - 1}"))
        assert len(inside) == 2 * (mark - 1)
        cast_on = centred(said["cast_on"])
        assert needle(f"L{mark}") in cast_on and needle(f"R{mark}") in cast_on
        width, height = length_cm(10), length_cm(10)
        gauge = swatch(len(inside), width, sum(said["rows_between_contrast"]), height)
        assert gauge.stitches_per_10cm == len(inside)


@against("G05")
def test_width_by_gauge(case):
    said, wanted = case["inputs"], case["outputs"]
    gauge = swatch(said["sts_per_10cm"], length_cm(10), 30, length_cm(10))
    assert decimal(gauge.stitches_per_10cm / 10, 1) == str(wanted["per_cm"])
    assert stitches_across(length_cm(said["width_cm"]), gauge).value == wanted["sts"]


@against("G06")
def test_four_inch_and_ten_centimetre_gauges_are_kept_apart(case):
    said, wanted = case["inputs"], case["outputs"]
    counted = (said["sts_per_10cm"], said["rows_per_10cm"])
    four = read_length("4 in")
    inches = swatch(counted[0], four, counted[1], four)
    assert [INCH / inches.stitch, INCH / inches.row] == [exactly(x) for x in wanted["per_in"]]
    cm = swatch(counted[0], length_cm(10), counted[1], length_cm(10))
    per_cm = [cm.stitches_per_10cm / 10, cm.rows_per_10cm / 10]
    assert per_cm == [exactly(x) for x in wanted["per_cm"]]
    length = read_length(f"{said['sleeve_in']} in") - read_length(f"{said['cuff_in']} in")
    assert length == read_length(f"{wanted['length_in']} in")
    for rounding in (NEAREST, DOWN, EVEN):
        assert rows_along(length, inches, rounding).value == wanted["rows"]


@against("G07", "G08", "G10")
def test_a_count_for_another_needle_pitch(case):
    said, wanted = case["inputs"], case["outputs"]
    count = said.get("sts", said.get("rows"))
    published = wanted.get("sts_new", wanted.get("rows_new"))
    old, new = exactly(said["from_mm"]), exactly(said["to_mm"])
    assert count * old == wanted["product"]
    assert decimal(converted(count, old, new), 2) == str(published)


@against("G11")
def test_one_multiplier_for_every_count(case):
    said, wanted = case["inputs"], case["outputs"]
    old, new = Fraction(1, said["pattern_sts"]), Fraction(1, said["my_sts"])
    assert converted(1, old, new) == exactly(wanted["st_multiplier"])
    ours = [converted(number, old, new) for number in said["pattern_numbers"]]
    assert ours == [exactly(figure) for figure in wanted["converted"]]
    assert wanted["used"] == ["112 or 113", 8, 27]
    assert [whole(figure) for figure in ours] == [113, 8, 27]  # a half goes up (G01)
    rows = (Fraction(1, said["pattern_rows"]), Fraction(1, said["my_rows"]))
    assert converted(1, *rows) == exactly(wanted["row_multiplier"])
    assert converted(said["pattern_row_number"], *rows) == 8  # 10 × 0.8


@against("G12")
def test_a_converted_count_keeps_its_parity(case):
    said, wanted = case["inputs"], case["outputs"]
    old, new = (1 / exactly(said[key]) for key in ("pattern_sts_per_4in", "my_sts_per_4in"))
    assert decimal(converted(1, old, new), 7) == str(wanted["exact"])
    assert said["pattern_sts"] * exactly(wanted["factor"]) == wanted["product"]
    assert whole(converted(said["pattern_sts"], old, new), EVEN) == wanted["used"]
    assert whole(Fraction(wanted["product"]), EVEN) == wanted["used"]


@against("G14")
def test_a_count_tested_against_the_pattern_repeat(case):
    said, wanted = case["inputs"], case["outputs"]
    gauge = Gauge(stitch=INCH / said["sts_per_in"], row=INCH / 7)
    width = read_length(f"{said['circumference_in']} in")
    count = stitches_across(width, gauge)
    assert count.value == wanted["sts"]
    assert decimal(Fraction(count.value, said["repeat"]), 1) == str(wanted["repeats"])
    fitted = stitches_across(width, gauge, Rounding("multiple", of=said["repeat"]))
    assert fitted.value == 26 * said["repeat"]  # 25.7 repeats are nearest to 26


@against("G15")
def test_width_gauge_and_stitches_solve_for_each_other(case):
    said, wanted = case["inputs"], case["outputs"]
    first, second = (read_length(f"{width} in") for width in said["width_in"])
    gauge = Gauge(stitch=INCH / exactly(said["gauge"][0]), row=INCH / 6)
    assert stitches_across(first, gauge).value == wanted["sts_1"]
    shown = swatch(said["sts"][1], second, 60, second)
    assert INCH / shown.stitch == exactly(wanted["gauge_2"])


@pytest.mark.parametrize("per_10cm", [23])
def test_a_half_goes_up_where_binary_floats_would_drop_it(per_10cm):
    """Arithmetic: 23 stitches to 10 cm over 25 cm are exactly 57 1/2."""
    gauge = swatch(per_10cm, length_cm(10), 30, length_cm(10))
    assert stitches_across(length_cm(25), gauge).value == 58
