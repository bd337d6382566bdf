"""Yarn amounts and yarn counts, from the text of a source where they are published ones."""

from fractions import Fraction

import pytest
from published_more import against
from published_pieces import account_for
from sourced import HEAD, fabrics, garment, proved, read, swatch
from walebook.core.counts import whole
from walebook.core.expression import plain
from walebook.core.problems import Problem
from walebook.core.units import Length, UnitError, read_length, read_yarn_count, yarn_count_in
from walebook.fabric.gauge import Gauge, measure
from walebook.fabric.yarn import (
    Amount,
    Basis,
    loop_millimetres,
    metres_per_gram,
    packages,
    stitch_amount,
    stitch_mass,
    total,
)
from walebook.pattern.fabrics import Swatch, Yarn
from walebook.plan.sense import check
from walebook.proof.yarn_requirement import YARD, YarnRequirement, yarn_requirements
from walebook.words.garment_text import amount_text
from walebook.words.material_text import yarn_listed

DIRECT = ("Y01", "Y02", "Y04", "Y05", "W02", "W04", "W05", "W06", "W07")

NOT_FOLLOWED = {
    "Y01 sleeve_formula": "a sleeve is counted row by row; no number is printed for it",
    "Y02 tri_areas": "no form is a triangle alone; its rectangles are knitted",
    "Y05 sleeves_yd": "sleeves are counted stitch by stitch, not guessed as a third of the body",
    "W02 constants": "the printed 5315 and 590.5 are rounded; ours come from the definitions",
}
TOLERANCE = 2e-4  # of figures printed from constants of four digits


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"yarn amount", "yarn count systems"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


# Amounts: a swatch whose yarn was measured, and what it makes of a plain rectangle


def rectangle(shown: str, wide: str, high: str) -> YarnRequirement:
    """The yarn of a plain rectangle so wide and high."""
    text = garment("panelled blanket", shown,
                   {"panels": 1, "blanket_width": wide, "blanket_length": high})
    made = proved(text)
    (need,) = yarn_requirements(made.pattern, made.sizes[0])
    return need


def yards(need: YarnRequirement) -> Fraction:
    """What is knitted, in yards, without the allowance."""
    assert need.knitted.metres is not None
    assert not need.cautions
    return need.knitted.metres / YARD


def measured(wide: object, high: object, long: object) -> str:
    """A swatch of 4 stitches and 4 rows to the inch with so many yards in it, so many inches
    large; a whole multiple of it, as a swatch is at least 10 stitches wide."""
    wide, high, long = (Fraction(str(figure)) for figure in (wide, high, long))
    return (f"{{stitches: {8 * wide}, width: {2 * wide} in, rows: {8 * high}, "
            f"height: {2 * high} in, yarn: {4 * long} yd}}")


SQUARE = measured(6, 6, 36)  # a yard to every square inch, so that yards are areas


def area(wide: object, high: object) -> Fraction:
    """The area of a rectangle [in²], by the yarn that is knitted into it."""
    return yards(rectangle(SQUARE, f"{wide} in", f"{high} in"))


@against("Y01")
def test_a_body_piece_takes_the_yarn_of_its_area(case):
    said, wanted = case["inputs"], case["outputs"]
    piece = area(*said["body_in"])
    assert piece == wanted["one_body_piece_in2"]
    assert 2 * piece == wanted["front_and_back_in2"]


@against("Y02")
def test_rectangles_by_their_yarn(case):
    said, wanted = case["inputs"], case["outputs"]
    areas = [area(wide, high) for wide, high in said["rectangles_in"]]
    assert areas == wanted["rect_areas"]
    assert sum(areas) == wanted["rect_total"]


@against("Y03")
def test_the_parts_of_a_vest_by_the_yarn_of_a_swatch(case):
    said, wanted = case["inputs"], case["outputs"]
    shown = measured(*said["swatch"]["size_in"], said["swatch"]["yards"])
    parts = [n * yards(rectangle(shown, f"{wide} in", f"{high} in"))
             for wide, high, n in [*said["front_parts"], [*said["back"], 1]]]
    # rule of the case: area / swatch area × swatch yards
    each = Fraction(said["swatch"]["yards"], wanted["swatch_in2"])
    assert parts == [part * each for part in (*wanted["front_parts_in2"], wanted["back_in2"])]
    assert sum(parts) == wanted["total_in2"] * each


@against("Y04")
def test_chest_times_length_and_two_sleeves(case):
    said, wanted = case["inputs"], case["outputs"]
    shown = measured(*said["swatch"]["size_in"], said["swatch"]["yards"])
    body = yards(rectangle(shown, f"{said['chest_in']} in", f"{said['length_in']} in"))
    sleeve = yards(rectangle(shown, *(f"{side} in" for side in said["sleeve_in"])))
    each = Fraction(said["swatch"]["yards"], wanted["swatch_in2"])
    assert body + 2 * sleeve == wanted["total_in2"] * each


@against("Y05")
def test_stitches_by_what_a_yard_knits(case):
    said, wanted = case["inputs"], case["outputs"]
    per_inch, side = said["gauge_per_in"], 9
    stitches, rows = side * per_inch["sts"], side * per_inch["rows"]
    shown = (f"{{stitches: {stitches}, width: {side} in, rows: {rows}, height: {side} in, "
             f"yarn: {Fraction(stitches * rows, said['sts_per_yard'])} yd}}")
    body = rectangle(shown, f"{said['round_in']} in", f"{said['length_in']} in")
    assert body.parts[0].stitches.value == wanted["stitches"]
    assert wanted["cast_on"] * wanted["rows"] == wanted["stitches"]
    assert yards(body) == wanted["body_yd"]


# Counts, as a source has them


def spun(count: str, **more: object) -> Yarn:
    """The yarn of a source with this count, and what else it says."""
    said = "".join(f", {key}: {value}" for key, value in more.items())
    return read(_source(f"count: {count}{said}")).yarns["wool"]


def _source(said: str, bed: str = "") -> str:
    """A practice band in a yarn of which this is `said`, on the bed that is named by its pitch."""
    head = HEAD.replace("name: Harbour wool", f"name: Harbour wool, {said}")
    if bed:
        head = head.replace("pitch: 4.5 mm", f"pitch: {bed}")
    return (head + fabrics(body=swatch(20, 30)) + "sizes: [M]\nedges: {front: {fabric: body, "
            "kind: pair of fronts, rows: 60}}\n"
            "bands: {front: {title: Band, edge: front, kind: single, depth: 3 cm, "
            "pick_up: 3/4}}\n")


def _count(yarn: Yarn, system: str) -> Fraction:
    """The count of one end in a system; its ends together by their length by mass."""
    assert yarn.tex is not None
    return yarn_count_in(yarn.tex, system)


def _yards(count: str, **more: object) -> Fraction:
    """Yards to the pound of the ends together."""
    long = metres_per_gram(spun(count, **more))
    assert long is not None
    return long * yarn_count_in(Fraction(1), "yards per pound") / yarn_count_in(
        Fraction(1), "metres per gram")


@against("W02")
def test_counts_of_one_system_in_another(case):
    said, wanted = case["inputs"]["cases"], case["outputs"]
    systems = {"tex_of_60Nm": "tex", "den_of_30Ne": "denier", "Ne_of_20tex": "Ne",
               "NeL_of_20Ne": "NeL"}
    for count, (key, system) in zip(said, systems.items(), strict=True):
        assert _count(spun(count), system) == pytest.approx(wanted[key], rel=TOLERANCE)


@against("W03")
def test_a_plied_yarn_by_the_metre(case):
    yarn = spun(case["inputs"]["yarn"])
    assert _count(yarn, "Nm") == case["outputs"]["effective_Nm"]
    assert _count(yarn, "Ne") == pytest.approx(24 * 0.5905, rel=1e-4)  # the case's rule
    assert metres_per_gram(yarn) == case["outputs"]["effective_Nm"]


@against("W04")
def test_each_trade_writes_size_and_ply_in_its_own_order(case):
    wanted = case["outputs"]
    systems = case["inputs"]["cases"]
    found = [_yards(f"{count} {system}") for system, count in systems.items()]
    assert found == wanted["yd_per_lb"]
    assert [_yards(f"1 {system}") for system in systems] == wanted["base"]


@against("W05")
def test_worsted_written_size_first(case):
    said, wanted = case["inputs"], case["outputs"]
    assert [_yards(f"{count} cotton") for count in said["cotton"]] == wanted["cotton_ypp"]
    found = [_yards(f"{count} worsted", count_order="size/ply")
             for count in said["worsted_written_size_ply"]]
    assert [float(f) for f in found] == pytest.approx(wanted["worsted_ypp"], abs=0.005)


@against("W06")
def test_strands_knitted_together(case):
    said, wanted = case["inputs"], case["outputs"]
    assert [_yards(f"{count} worsted") for count in said["worsted"]] == wanted["worsted_ypp"]
    assert [_yards(f"{count} cotton") for count in said["cotton"]] == wanted["cotton_ypp"]
    number, _, count = said["strands"].partition(" ends of ")
    assert _yards(f"{count} worsted", ends=number) == wanted["two_ends"]


@pytest.mark.parametrize("ends", [1, 2, 3])
def test_a_size_is_bought_in_cones_by_mass(ends):
    """A law: a metre of n ends weighs n times a metre of one; a part of a cone is a whole one."""
    head = HEAD.replace("name: Harbour wool",
                        f"name: Harbour wool, count: 2/12 Nm, ends: {ends}, shade: Fog 14, "
                        "package: {mass: 25 g}")
    text = garment("panelled blanket", SQUARE,
                   {"panels": 1, "blanket_width": "20 in", "blanket_length": "28 in"})
    made = proved(text.replace(HEAD, head))
    (need,) = yarn_requirements(made.pattern, made.sizes[0])
    assert need.amount.metres is not None
    assert need.amount.grams == need.amount.metres * ends / 6  # 12/2 m to the gram
    assert need.packages is not None
    assert (need.packages.value - 1) * 25 < need.amount.grams <= need.packages.value * 25
    told = amount_text(need)
    assert told.endswith(f": {need.packages.value} × 25 g")
    assert (f"of {ends} ends together" in told) is (ends > 1)
    listed = yarn_listed("Main yarn", need.yarn, (), need.grams and need.grams.value)
    assert "Harbour wool Fog 14" in listed
    assert "2/12 Nm" in listed
    assert ("for each end that has no cone" in listed) is (ends > 1)


@against("W07")
def test_a_shop_that_reckons_with_hanks_of_500(case):
    hank = f"{case['inputs']['base']} yd"
    found = [_yards(f"{count} worsted", hank=hank) for count in case["inputs"]["counts"]]
    assert found == case["outputs"]["ypp"]


@against("W3-093")
def test_yards_to_100_g_by_the_class_of_a_yarn(case):
    said = {name: str(text) for name, text in case["outputs"].items() if name != "m_per_100g"}
    metres = dict(part.rsplit(" ", 1) for part in case["outputs"]["m_per_100g"].lower().split(", "))
    for name, ends in said.items():
        for yards_in, metres_in in zip(ends.split("-"), metres[name.replace("_", " ")].split("-"),
                                       strict=True):
            ball = read(_source(f'package: {{mass: 100 g, length: {yards_in} yd}}')).yarns["wool"]
            long = metres_per_gram(ball)
            assert long is not None
            assert whole(long * 100) == int(metres_in)


@against("W3-094")
def test_metres_to_100_g_by_the_metric_count(case):
    counts = case["inputs"]["Nm"].replace("+", "").replace("-", " | ").split(" | ")
    metres = case["outputs"]["m_per_100g"].replace("+", "").replace("-", " | ").split(" | ")
    assert [metres_per_gram(spun(f"{count} Nm")) for count in counts] == [
        Fraction(each, 100) for each in map(int, metres)]


@against("W3-095")
def test_a_cone_by_its_mass_and_its_metric_count(case):
    for count, printed in zip(case["inputs"]["counts"].split(" | "),
                              case["outputs"]["yards"].split(" | "), strict=True):
        cone = spun(f"{count} Nm", package=f"{{mass: {case['inputs']['cone_g']} g}}")
        long = metres_per_gram(cone)
        assert long is not None
        assert cone.package_g is not None
        # all printed yardages are rounded to 5 to 50 yd (the case's note)
        assert cone.package_g * long / YARD == pytest.approx(int(printed), abs=30)


@against("W3-099")
def test_a_yarn_that_the_bed_is_not_made_for_is_told_what_is(case):
    for pitch, metres in zip(case["inputs"]["pitch_mm"], case["outputs"]["metres_per_100g"],
                             strict=True):
        assert not _off_bed(f"{metres / 100} Nm", f"{pitch} mm")
        (thin,) = _off_bed(f"{metres * 2.1 / 100:.2f} Nm", f"{pitch} mm")
        (thick,) = _off_bed(f"{metres * 0.45 / 100:.2f} Nm", f"{pitch} mm")
        assert thin.expected == thick.expected
        assert "So thin" in thin.remedy
        assert "So thick" in thick.remedy
        told = int(thin.expected.split()[1])
        assert told == pytest.approx(metres, rel=0.01)  # the case's metres are rounded


@against("W3-099")
def test_the_coarsest_yarns_have_more_plies_than_their_size(case):
    """8/7 to 8/9 on two needles to the inch, which is 0.88 to 1.13 by the case's note."""
    typical = case["inputs"]["typical"].rpartition("2 npi: ")[2].split(" to ")
    found = [_count(spun(f"{count} worsted", count_order="ply/size"), "worsted")
             for count in typical]
    assert [round(float(each), 3) for each in found] == [0.875, 1.125]


def _off_bed(count: str, pitch: str) -> list[Problem]:
    return [p for p in check(read(_source(f"count: {count}", pitch))) if p.code == "yarn-off-bed"]


@against("W3-101")
def test_cones_that_run_shorter_than_their_count(case):
    """The printed yards to the pound are read as a cone's, and by a hank of the printed base."""
    for count, printed, base in zip(case["inputs"]["yarns"], case["outputs"]["yards_per_lb"],
                                    case["outputs"]["base_yards"], strict=True):
        for yards_in, base_in in zip(str(printed).split("-"), str(base).split("-"), strict=True):
            cone = spun(f"{count} worsted", package=f"{{mass: 1 lb, length: {yards_in} yd}}")
            assert cone.package_length == read_length(f"{yards_in} yd")
            plies, size = map(int, count.split("/"))
            assert _yards(f"{count} worsted", hank=f"{base_in} yd") == Fraction(
                size * int(base_in), plies)
            assert size * int(base_in) / plies == pytest.approx(int(yards_in), abs=8)


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


@pytest.mark.parametrize(("cone", "text"), [
    ("2/12nm", "2/12 Nm"), ("NM 2/12", "2/12 Nm"), ("20/2 nec", "20/2 NeC"), ("40 TEX", "40 tex"),
    ("2/28 Worsted", "2/28 worsted")])
def test_capitals_do_not_matter_in_a_yarn_count(cone: str, text: str) -> None:
    """Cones are labelled in any capitals: common practice, no source."""
    assert read_yarn_count(cone) == read_yarn_count(text)


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
    for swatches, mass in ([_swatch(24)], 24), ([_swatch(24), _swatch(26), _swatch()], 25):
        made = stitch_mass(swatches)
        assert made is not None and made.value == Fraction(mass, 2400)
    assert stitch_mass([_swatch()]) is None
    swatches = [_swatch(24)]
    piece = stitch_amount(swatches, measure(swatches), plain(2)).times(plain(2400))
    assert (piece.grams, piece.metres, piece.basis) == (24, 48, Basis.WEIGHED)
    assert piece.with_allowance(Fraction(1, 4)).grams == 30


def test_an_unweighed_swatch_is_estimated_from_its_area():
    # the 2015 textile-engineering paper of India's graduate aptitude test, question 54
    # (textiletriangle.com): constants 4.2 and 5.5, loops of 0.5 cm, 92.4 loops in a cm²
    wale, course = 5 / Fraction("4.2"), 5 / Fraction("5.5")  # mm
    gauge = Gauge(wale, course)
    assert 100 / (wale * course) == Fraction("92.4")
    assert loop_millimetres(gauge) == 5
    amount = stitch_amount([_swatch()], gauge, plain(2))
    assert amount.basis.is_estimate
    assert amount.metres == Fraction(5, 1000)
    assert amount.grams == Fraction(5, 2000)
    assert stitch_amount([_swatch()], gauge).grams is None


def test_an_estimate_spoils_a_sum():
    weighed = Amount(plain(10), plain(20), Basis.WEIGHED)
    guessed = Amount(None, plain(30), Basis.AREA)
    both = total([weighed, guessed])
    assert (both.grams, both.metres, both.basis) == (None, 50, Basis.AREA)
    assert total([weighed, weighed]).grams == 20


def test_what_is_known_by_mass_and_what_by_length_meet_in_an_estimated_length():
    """Without the yarn's count neither can be turned into the other (rule Y06 needs both)."""
    gauge = measure([_swatch()])
    by_mass = stitch_amount([_swatch(24)], gauge).times(plain(100))
    by_length = stitch_amount([_swatch()], gauge).times(plain(100))
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
    amount = Amount(plain(401), plain(802), Basis.WEIGHED)
    count = packages(amount, ball)
    assert count is not None
    assert (count.value, str(count)) == (9, "9 packages")
    by_length = packages(Amount(None, plain(800), Basis.AREA), ball)
    assert by_length is not None
    assert by_length.value == 8
    assert packages(amount, Yarn(key="b", name="B")) is None
