"""Yarn amounts and yarn counts, against published examples."""

from fractions import Fraction

import pytest
from published_pieces import account_for, against
from walebook.core.counts import whole
from walebook.core.units import Length, PlyOrder, UnitError, read_yarn_count, yarn_count_in
from walebook.fabric.gauge import Gauge, measure, rows_along, stitches_across
from walebook.fabric.yarn import (
    Amount,
    Basis,
    by_area,
    by_stitches,
    loop_millimetres,
    metres_per_gram,
    packages,
    stitch_amount,
    stitch_grams,
    together,
    total,
    trapezium,
)
from walebook.pattern.fabrics import Swatch, Yarn

DIRECT = ("Y01", "Y02", "Y04", "Y05", "W02", "W04", "W05", "W06", "W07")

NOT_FOLLOWED = {
    "Y05 sleeves_yd": "sleeves are counted stitch by stitch, not guessed as a third of the body",
    "W02 constants": "the printed 5315 and 590.5 are rounded; ours come from the definitions",
}

INCH = Fraction(254, 10)


def exactly(figure: float | int) -> Fraction:
    """A published figure as the decimal it is printed as."""
    return Fraction(str(figure))


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"yarn amount", "yarn count systems"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


@against("Y01")
def test_rectangles_and_a_trapezium(case):
    said, wanted = case["inputs"], case["outputs"]
    width, length = (Fraction(side) for side in said["body_in"])
    piece = trapezium(width, width, length)
    assert piece == wanted["one_body_piece_in2"]
    assert 2 * piece == wanted["front_and_back_in2"]
    sleeve = said["sleeve_in"]
    bottom, top, high = (Fraction(sleeve[key]) for key in ("bottom", "top", "length"))
    assert wanted["sleeve_formula"] == "(b1 + b2) x h / 2"
    assert trapezium(bottom, top, high) == (bottom + top) * high / 2


@against("Y02")
def test_two_mirrored_triangles_are_a_rectangle(case):
    said, wanted = case["inputs"], case["outputs"]
    areas = [trapezium(Fraction(w), Fraction(w), Fraction(h)) for w, h in said["rectangles_in"]]
    assert areas == wanted["rect_areas"]
    assert sum(areas) == wanted["rect_total"]
    pairs = [
        2 * trapezium(exactly(w), Fraction(0), Fraction(h)) for w, h in said["triangle_pairs_in"]
    ]
    assert pairs == [exactly(area) for area in wanted["tri_areas"]]
    assert sum(pairs) == exactly(wanted["tri_total"])


@against("Y03")
def test_the_parts_of_a_vest(case):
    said, wanted = case["inputs"], case["outputs"]
    parts = [trapezium(exactly(w), exactly(w), Fraction(h)) * n for w, h, n in said["front_parts"]]
    assert parts == wanted["front_parts_in2"]
    back = said["back"][0] * said["back"][1]
    assert (sum(parts), back) == (wanted["front_in2"], wanted["back_in2"])
    swatch = said["swatch"]["size_in"][0] * said["swatch"]["size_in"][1]
    assert swatch == wanted["swatch_in2"]
    whole_vest = sum(parts) + back
    assert whole_vest == wanted["total_in2"]
    # rule of the case: area / swatch area × swatch yards
    yards = by_area(whole_vest, Fraction(swatch), Fraction(said["swatch"]["yards"]))
    assert yards * 96 == 1001 * 60


@against("Y04")
def test_chest_times_length_and_two_sleeves(case):
    said, wanted = case["inputs"], case["outputs"]
    body = said["chest_in"] * said["length_in"]
    sleeve = said["sleeve_in"][0] * said["sleeve_in"][1]
    assert body + 2 * sleeve == wanted["total_in2"]
    size = said["swatch"]["size_in"]
    assert size[0] * size[1] == wanted["swatch_in2"]
    swatch = Fraction(wanted["swatch_in2"])
    assert by_area(swatch, swatch, Fraction(20)) == said["swatch"]["yards"]


@against("Y05")
def test_stitches_by_what_a_yard_knits(case):
    said, wanted = case["inputs"], case["outputs"]
    per_inch = said["gauge_per_in"]
    gauge = Gauge(INCH / per_inch["sts"], INCH / per_inch["rows"], "")
    cast_on = stitches_across(Length(said["round_in"] * INCH), gauge).value
    rows = rows_along(Length(said["length_in"] * INCH), gauge).value
    assert (cast_on, rows) == (wanted["cast_on"], wanted["rows"])
    assert cast_on * rows == wanted["stitches"]
    body = by_stitches(cast_on * rows, Fraction(said["sts_per_yard"]))
    assert body == wanted["body_yd"]
    # the author's own way with sleeves, for the check of the published sum only
    assert whole(body / 3) == wanted["sleeves_yd"]
    assert body + whole(body / 3) == wanted["total_yd"]


@against("W02")
def test_counts_of_one_system_in_another(case):
    said, wanted = case["inputs"]["cases"], case["outputs"]
    tex = [read_yarn_count(text) for text in said]
    found = [
        yarn_count_in(tex[0], "tex"),
        yarn_count_in(tex[1], "denier"),
        yarn_count_in(tex[2], "Ne"),
        yarn_count_in(tex[3], "NeL"),
    ]
    keys = ("tex_of_60Nm", "den_of_30Ne", "Ne_of_20tex", "NeL_of_20Ne")
    # printed to two or three places, from constants of four digits
    for figure, key in zip(found, keys, strict=True):
        assert figure == pytest.approx(wanted[key], rel=2e-4)


@against("W03")
def test_a_plied_yarn_by_the_metre(case):
    tex = read_yarn_count("2/48 Nm")
    assert case["inputs"]["yarn"] == "2/48 Nm"
    assert yarn_count_in(tex, "Nm") == case["outputs"]["effective_Nm"]
    assert yarn_count_in(tex, "Ne") == pytest.approx(24 * 0.5905, rel=1e-4)  # the case's rule


@against("W04")
def test_each_trade_writes_size_and_ply_in_its_own_order(case):
    wanted = case["outputs"]
    systems = case["inputs"]["cases"]
    found = [_yards(f"{count} {system}") for system, count in systems.items()]
    assert found == wanted["yd_per_lb"]
    assert [_yards(f"1 {system}") for system in systems] == wanted["base"]


def _yards(text: str, **more: object) -> Fraction:
    return yarn_count_in(read_yarn_count(text, **more), "yards per pound")


@against("W05")
def test_worsted_written_size_first(case):
    said, wanted = case["inputs"], case["outputs"]
    assert [_yards(f"{count} cotton") for count in said["cotton"]] == wanted["cotton_ypp"]
    found = [
        _yards(f"{count} worsted", order=PlyOrder.SIZE_FIRST)
        for count in said["worsted_written_size_ply"]
    ]
    assert [float(f) for f in found] == pytest.approx(wanted["worsted_ypp"], abs=0.005)


@against("W06")
def test_strands_knitted_together(case):
    said, wanted = case["inputs"], case["outputs"]
    assert [_yards(f"{count} worsted") for count in said["worsted"]] == wanted["worsted_ypp"]
    assert [_yards(f"{count} cotton") for count in said["cotton"]] == wanted["cotton_ypp"]
    assert said["strands"] == "2 ends of 2/24"
    one = _yards("2/24 worsted")
    assert together([one, one]) == wanted["two_ends"]
    tex = read_yarn_count("2/24 worsted")
    assert yarn_count_in(2 * tex, "yards per pound") == wanted["two_ends"]


@against("W07")
def test_a_shop_that_reckons_with_hanks_of_500(case):
    base = Fraction(case["inputs"]["base"])
    found = [_yards(f"{count} worsted", hank_yards=base) for count in case["inputs"]["counts"]]
    assert found == case["outputs"]["ypp"]


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("8/2 worsted", "8 plies of size 2"),
        ("2/20 tex", "without plies"),
        ("20", "expected a yarn count"),
        ("20 furlong", "expected a yarn count"),
        ("Nm 20 Ne", "expected a yarn count"),
        ("0 Nm", "expected a yarn count"),
        ("2/0 Nm", "expected a yarn count"),
        ("20 worsted cotton", "expected a yarn count"),
    ],
)
def test_what_is_no_yarn_count_is_refused(text, part):
    with pytest.raises(UnitError, match=part):
        read_yarn_count(text)


# Amounts: a law of proportion (rule Y06: mass scales with the fabric), and one outside figure.


def _swatch(grams: int | None = None) -> Swatch:
    mass = None if grams is None else Fraction(grams)
    return Swatch(
        stitches=40,
        width=Length(Fraction(200)),
        rows=60,
        height=Length(Fraction(240)),
        mass_g=mass,
    )


def test_a_weighed_swatch_gives_the_mass_of_a_stitch():
    assert stitch_grams([_swatch(24)]) == Fraction(24, 2400)
    assert stitch_grams([_swatch(24), _swatch(26), _swatch()]) == Fraction(25, 2400)
    assert stitch_grams([_swatch()]) is None
    swatches = [_swatch(24)]
    piece = stitch_amount(swatches, measure(swatches), Fraction(2)).times(2400)
    assert (piece.grams, piece.metres, piece.basis) == (24, 48, Basis.WEIGHED)
    assert piece.with_allowance(Fraction(1, 4)).grams == 30


def test_an_unweighed_swatch_is_estimated_from_its_area():
    # the 2015 textile-engineering paper of India's graduate aptitude test, question 54
    # (textiletriangle.com): constants 4.2 and 5.5, loops of 0.5 cm, 92.4 loops in a cm²
    wale, course = 5 / Fraction("4.2"), 5 / Fraction("5.5")  # mm
    gauge = Gauge(wale, course, "")
    assert 100 / (wale * course) == Fraction("92.4")
    assert loop_millimetres(gauge) == 5
    amount = stitch_amount([_swatch()], gauge, Fraction(2))
    assert amount.basis.is_estimate
    assert amount.metres == Fraction(5, 1000)
    assert amount.grams == Fraction(5, 2000)
    assert stitch_amount([_swatch()], gauge).grams is None


def test_an_estimate_spoils_a_sum():
    weighed = Amount(Fraction(10), Fraction(20), Basis.WEIGHED, "sleeve")
    guessed = Amount(None, Fraction(30), Basis.AREA, "band")
    both = total([weighed, guessed])
    assert (both.grams, both.metres, both.basis) == (None, 50, Basis.AREA)
    assert total([weighed, weighed]).grams == 20


def test_what_is_known_by_mass_and_what_by_length_meet_in_an_estimated_length():
    """Without the yarn's count neither can be turned into the other (rule Y06 needs both)."""
    gauge = measure([_swatch()])
    by_mass = stitch_amount([_swatch(24)], gauge).times(100)
    by_length = stitch_amount([_swatch()], gauge).times(100)
    both = total([by_mass, by_length])
    assert (by_mass.metres, by_length.grams) == (None, None)
    assert (both.grams, both.metres, both.basis) == (None, 2 * by_length.metres, Basis.AREA)
    again = total([total([by_mass, by_mass]), by_length])
    assert again.metres == 3 * by_length.metres


def test_packages_are_whole():
    ball = Yarn(
        key="a", name="A", package_g=Fraction(50), package_length=Length(Fraction(100_000))
    )
    assert metres_per_gram(ball) == 2
    amount = Amount(Fraction(401), Fraction(802), Basis.WEIGHED, "all")
    count = packages(amount, ball)
    assert count is not None
    assert (count.value, str(count)) == (9, "9 packages")
    by_length = packages(Amount(None, Fraction(800), Basis.AREA, "all"), ball)
    assert by_length is not None
    assert by_length.value == 8
    assert packages(amount, Yarn(key="b", name="B")) is None
