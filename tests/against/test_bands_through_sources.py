"""Published cases of bands, from the text of a pattern source to the counts of its data."""

from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest
from published_more import against
from sourced import banded, counts, proved, read, swatch
from walebook.core.units import read_length
from walebook.machine.needles import Needle, every_other
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, Knit, Transfer
from walebook.proof.proof import prove

PLAIN = swatch(20, 25)  # a stitch is 5 mm wide and a row 4 mm high


def holes(number: int, each: int, end: int, **more: object) -> str:
    """Buttonholes at the published places, of which nothing may give."""
    said = {"button": "20 mm", "stitches": each, "number": number, "ends": f"{end} stitches",
            "end_give": 0, "band_give": 0, **more}
    return f"buttonholes: {{{', '.join(f'{k}: {v}' for k, v in said.items())}}}"


def band(rows: int, said: str) -> dict[str, object]:
    """The counts of a band with a stitch for every row of its edge."""
    return counts(banded(f"rows: {rows}", f"pick_up: 1, {said}", PLAIN))["front"]


def rows_of(*figures: int) -> str:
    """The rows of a band in their order."""
    keys = ("to_holes", "holes_to_fold", "fold_to_holes", "to_finish")
    return f"rows: {{{', '.join(f'{k}: {n}' for k, n in zip(keys, figures, strict=True))}}}"


@against("P04")
@pytest.mark.parametrize("parity", ["even", "odd"])
def test_a_quarter_fewer_stitches_in_the_parity_of_the_rib(case, parity):
    wanted = case["outputs"]
    assert wanted["parity"] == "even for 2x2 rib, odd for 1x1 rib"
    for rows in (40, 100, 101, 102, 103):
        text = banded(f"rows: {rows}", f"pick_up: {wanted['factor']}, round: {parity}, depth: 3 cm",
                      PLAIN)
        made = counts(text)["front"]["band_stitches"]
        assert made % 2 == (parity == "odd") and abs(made - rows * wanted["factor"]) <= 1


@against("P06")
def test_an_edge_by_both_gauges(case):
    said, wanted = case["inputs"], case["outputs"]
    shown = swatch(said["sts_per_4in"], said["rows_per_4in"], "4 in")
    made = counts(banded(f"length: {said['length_in']} in", "fabric: band, depth: 3 cm", shown,
                         shown))["front"]
    assert (made["edge_rows"], made["band_stitches"]) == (wanted["rows"], wanted["sts"])


@against("P08")
def test_rows_over_stitches(case):
    said = case["inputs"]
    rule = Fraction(said["sts"], said["rows"])
    made = counts(banded(f"rows: {said['rows']}", f"pick_up: {rule}, depth: 3 cm", PLAIN))["front"]
    assert (made["edge_rows"], made["band_stitches"]) == (said["rows"], said["sts"])


@against("P09")
@pytest.mark.parametrize("per_inch", [6, 7])
def test_a_rib_by_its_own_gauge(case, per_inch):
    """Ten inches of edge: 5 stitches for every 6 or 7 rows."""
    rib = case["inputs"]["rib_sts_per_in"]
    text = banded(f"rows: {10 * per_inch}", "fabric: band, depth: 3 cm",
                  swatch(4, per_inch, "1 in"), swatch(rib, 7, "1 in"))
    assert counts(text)["front"]["band_stitches"] == 10 * rib


def along(rows: int, said: str, stretch: str = "0 %"
          ) -> tuple[dict[str, object], tuple[int, ...]]:
    """The counts of a band knitted lengthwise along so many rows of the band's fabric, and the rows
    of the counter after which its holes are made."""
    text = banded(f"rows: {rows}", f"kind: lengthwise, fabric: body, stretch: {stretch}, {said}",
                  PLAIN)
    strip = next(s for s in proved(text).sizes[0].strips if s.with_holes)
    made = [strip.trace.states[n].counter for n, step in enumerate(strip.program.steps)
            if isinstance(step, Attend) and step.to == "choose holes"]
    return counts(text)["front"], tuple(made)


@against("W3-082")
@pytest.mark.parametrize("size", range(8))
def test_holes_of_a_lengthwise_band_by_the_row_counter(case, size):
    """The printed needles and rows, along an edge that asks for a row more; its holes every so many
    rows."""
    said, wanted = case["inputs"], case["outputs"]
    first, every, number = (said["first_hole_row"], said["every_rows"][size], said["holes"][size])
    rows_along = wanted["band_total_rows"][size]
    made, rows = along(rows_along + 1, f"depth: {said['needles'][size]} stitches, "
                       f"rows_along: {rows_along}, buttonholes: {{button: 6 mm, number: {number}, "
                       "closing: one stitch, "
                       f"rows: {{first: {first}, every: {every}}}}}")
    assert made["cast_on_stitches"] == said["needles"][size]
    assert made["band_rows"] == wanted["band_total_rows"][size]
    assert rows[0] == first and rows[-1] == wanted["last_hole_row"][size]
    assert {b - a for a, b in pairwise(rows)} == {every}
    assert said["v_starts_row"][size] - rows[-1] == wanted["rows_below_v_start"][size]


@against("W3-083")
def test_a_lengthwise_band_fits_when_it_is_slightly_stretched(case):
    """Its stitches are those of the cast-on that the front has not; sewn on it is as long as the
    edge, and has fewer rows before."""
    said, wanted = case["inputs"], case["outputs"]
    assert said["cast_on"] - wanted["front_sts"] == said["band_sts"]
    holes_ = "buttonholes: {button: 6 mm, number: 2, closing: one stitch}"
    for share in (1, 3, 5):
        made, _ = along(200, f"depth: {5 * (said['band_sts'] - 1)} mm, {holes_}", f"{share} %")
        assert made["cast_on_stitches"] == said["band_sts"]
        assert abs(made["band_rows"] * (1 + Fraction(share, 100)) - 200) <= 1


@against("W3-085")
def test_a_hole_on_row_7_and_every_14th_after_it(case):
    """On row 7 means after 6: that row is knitted over the hole."""
    said, wanted = case["inputs"], case["outputs"]
    made, rows = along(60, f"depth: {said['border_sts']} stitches, buttonholes: {{button: "
                       f"12 mm, number: 4, rows: {{first: {said['first_hole_row'] - 1}, "
                       f"every: {said['every_rows']}}}}}")
    assert made["cast_on_stitches"] == said["border_sts"]
    assert [row + 1 for row in rows] == wanted["hole_rows"]


@against("W3-081")
def test_a_band_over_a_front_and_half_of_a_neck(case):
    """As many stitches and rows as the entry prints; by its own gauge, which it calls 30.5 stitches
    and 42.8 rows to 10 cm elsewhere (W3-056), the edge would ask for fewer."""
    said, wanted = case["inputs"], case["outputs"]
    assert wanted["edge_rows"] == said["front_rows"] + said["rib_rows"]
    assert wanted["half_back_neck"] == said["back_neck_sts"] // 2
    edge = (f"sections: [{{title: front, rows: {wanted['edge_rows']}}}, "
            f"{{title: neck, stitches: {wanted['half_back_neck']}, stitches_are: bound off}}]")
    text = banded(edge, f"kind: single, pick_up: 3/4, stitches: {said['band_sts']}, "
                  f"depth: {said['band_rows']} rows, dial: {said['band_dial']}, "
                  + holes(said["holes"], 1, 4, closing="one stitch", button="4 mm"),
                  swatch(30.5, 42.8))
    made = counts(text)["front"]
    assert (made["band_stitches"], made["depth_rows"]) == (said["band_sts"], said["band_rows"])
    assert (made["buttonholes"], made["rows_to_holes"]) == (said["holes"], said["buttonhole_row"])
    _, found = prove(read(text))
    (caution,) = [each for each in found if each.code == "count-against-edge"]
    # 124 rows x 3/4 = 93, and 18 stitches one for one: 111; 129 are 16.2 % more.
    assert "129 stitches on an edge that asks for 111 stitches: 16.2 % more" in caution.found


@against("W3-086")
def test_a_neckband_of_a_number_that_its_rib_can_have(case):
    """Its stitches come to 106 when those of the cables are decreased; the rib is 4 n + 2."""
    said, wanted = case["inputs"], case["outputs"]
    front, back = wanted["front_left"], wanted["back_left"]
    assert front == said["front_holder"] - said["front_decreases"]
    assert back == said["back_holder"] - said["back_decreases"]
    parts = [("front", front), ("back", back)]
    edge = "sections: [" + ", ".join(
        f"{{title: {title}, stitches: {many}, stitches_are: bound off}}" for title, many in parts) \
        + f", {{title: sides, stitches: {2 * said['side'] + 2 * said['back_corner']}, " \
        "stitches_are: bound off}]"
    own = f"kind: ribbed, rib: 2x2, pick_up: 1, depth: 10 rows, stitches: {wanted['total']}"
    assert counts(banded(edge, own, PLAIN))["front"]["band_stitches"] == wanted["total"]
    wrong = own.replace(str(wanted["total"]), str(wanted["total"] + 1))
    with pytest.raises(AssertionError, match="a multiple of 4 plus 2, as its rib"):
        counts(banded(edge, wrong, PLAIN))


@against("B04")
def test_the_lowest_gap_takes_the_rest_where_that_is_asked(case):
    """By the key that leaves the ends and all other gaps alone."""
    said, wanted = case["inputs"], case["outputs"]
    made = band(said["band_sts"], "depth: 3 cm, " + holes(
        said["buttonholes"], said["hole_sts"], said["ends"][0], gaps="one takes the rest"))
    assert made["band_stitches"] == said["band_sts"]
    assert made["gaps"] == wanted["spaces_used"] and made["lower_end"] == said["ends"][0]


@pytest.mark.parametrize(("rows", "number"), [(101, 4), (118, 5), (90, 7)])
def test_even_gaps_leave_the_rest_to_the_lower_end(rows, number):
    """StudioKnits, chapter 26 (B12): only the distance from the hem to the first hole changes."""
    made = band(rows, "depth: 3 cm, " + holes(number, 3, 2, gaps="even"))
    (gap,) = set(made["gaps"])
    rest = rows - 4 - 3 * number - gap * (number - 1)
    assert 0 <= rest < number - 1
    assert (made["lower_end"], made["upper_end"]) == (2 + rest, 2)


@against("B02")
def test_spaces_differ_by_one(case):
    said, wanted = case["inputs"], case["outputs"]
    made = band(said["band_sts"], "depth: 3 cm, " + holes(
        said["buttonholes"], said["hole_sts"], said["ends"][0]))
    assert made["band_stitches"] == said["band_sts"]
    assert [made["lower_end"], made["upper_end"]] == said["ends"]
    assert Counter(made["gaps"]) == Counter(wanted["spaces_used"])


@against("B04")
def test_the_odd_space_is_the_lowest(case):
    said, wanted = case["inputs"], case["outputs"]
    made = band(said["band_sts"], "depth: 3 cm, " + holes(
        said["buttonholes"], said["hole_sts"], said["ends"][0], odd_gap="lowest"))
    assert made["gaps"] == wanted["spaces_used"]
    assert [made["lower_end"], made["upper_end"]] == said["ends"]


@against("B09")
def test_a_hole_has_one_stitch_less_than_its_button_covers(case):
    """A stitch is 5 mm wide."""
    said, wanted = case["inputs"], case["outputs"]
    for covered, hole in zip(said["button_width_in_sts"], wanted["hole_sts"], strict=True):
        text = banded("rows: 80", f"fabric: band, depth: 3 cm, buttonholes: {{button: "
                      f"{covered * 5} mm, number: 4}}", PLAIN, PLAIN)
        assert counts(text)["front"]["hole_stitches"] == hole


@against("B11")
def test_of_seven_holes_one_is_in_the_middle(case):
    number, side = case["inputs"]["buttons"], case["outputs"]["remaining_per_side"]
    made = band(2 * 3 + 3 * number + 8 * (number - 1), "depth: 3 cm, " + holes(number, 3, 3))
    spaces = made["gaps"]
    assert made["buttonholes"] == number == 1 + 2 * (side + 1)
    assert made["lower_end"] == made["upper_end"] and set(spaces) == {8}


@against("L01", "L02")
def test_a_button_in_lignes(case):
    near = Fraction(1, 2) if "typical" not in case["outputs"] else 1
    for lignes, mm in case["outputs"]["table_L_to_mm"].items():
        text = banded("rows: 120", "pick_up: 1, depth: 3 cm, buttonholes: {number: 2, stitches: 4, "
                      f"button: {lignes} ligne}}", PLAIN)
        asked = read(text).bands["front"].buttonholes
        # tables to half a millimetre, or to a whole one either way
        assert asked is not None and abs(asked.button.mm - Fraction(str(mm))) <= near


@against("D02")
def test_a_picot_band(case):
    """The stitches moved are every second one from the second on; the needles stay in work."""
    said, wanted = case["inputs"], case["outputs"]
    half = wanted["rows_before_fold"] // 2
    text = banded("rows: 28", f"pick_up: 3/4, fold: picot, dial: {wanted['hem_tension']}, "
                  + rows_of(half, half, half, half), PLAIN)
    strip = proved(text).sizes[0].strips[0]  # of the two fronts
    steps = list(strip.program.steps)
    assert counts(text)["front"]["band_stitches"] == said["sts"]
    (at,) = (n for n, step in enumerate(steps) if isinstance(step, Transfer))
    on = strip.trace.states[at - 1].loaded
    moved = steps[at]
    assert isinstance(moved, Transfer) and not moved.rest
    assert moved.needles == every_other(Needle(on.first.place + 1), on.last)
    before, after = (sum(step.rows for step in part if isinstance(step, Knit)
                         and step.yarn == StepYarn.MAIN) for part in (steps[:at], steps[at:]))
    assert (before, after) == (wanted["rows_before_fold"], wanted["rows_after_fold"])


@against("D04")
def test_holes_as_far_below_the_fold_as_above_it(case):
    wanted = case["outputs"]
    to_holes = wanted["rows_to_buttonholes"] + 1  # "first row 1 at garment tension"
    figures = (to_holes, wanted["rows_buttonhole_to_fold"],
               wanted["rows_fold_to_second_half_buttonholes"], to_holes)
    made = counts(banded("rows: 52", "pick_up: 3/4, fold: loose, " + rows_of(*figures) + ", "
                         + holes(5, 3, 2), PLAIN))["front"]
    named = ("rows_to_holes", "rows_holes_to_fold", "rows_fold_to_holes", "rows_to_finish")
    assert tuple(made[name] for name in named) == figures
    assert made["fold_rows"] == 1
    assert made["closing_loops"] == made["hole_stitches"] + 1  # "n + 1"


@against("D06")
def test_a_long_band_lies_about_the_middle_and_starts_on_waste(case):
    said, wanted = case["inputs"], case["outputs"]
    left, _, right = map(int, wanted["needles"].split("-"))
    fewest, most = map(int, wanted["waste_rows"].split(" to "))
    text = banded(f"rows: {said['neck_sts']}", "pick_up: 1, depth: 3 cm", PLAIN)
    strip = proved(text).sizes[0].strips[0]  # of the two fronts
    on = max((state.loaded for state in strip.trace.states), key=len)
    assert (on.first.place, on.last.place, len(on)) == (-left, right - 1, said["neck_sts"])
    waste = next(step for step in strip.program.steps
                 if isinstance(step, Knit) and step.yarn == StepYarn.WASTE)
    assert fewest <= waste.rows <= most


@against("D11")
def test_a_folded_band_is_knitted_at_twice_its_depth(case):
    said, wanted = case["inputs"], case["outputs"]
    shown = swatch(5, 8, "1 in")
    made = counts(banded("rows: 80", f"fabric: band, depth: {said['finished_in']} in", shown,
                         shown))["front"]
    knitted = sum(made[f"rows_{part}"] for part in ("to_holes", "holes_to_fold", "fold_to_holes",
                                                    "to_finish"))
    assert knitted == 2 * made["depth_rows"]
    work = read_length(f"{wanted['work_in']} in")
    assert knitted * Fraction(254, 80) == work.mm
