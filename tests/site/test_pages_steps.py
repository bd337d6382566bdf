"""The steps and amounts of the size pages, read back as a knitter would follow them.

What is done at the bed in which order is common practice, no source, unless a test names one.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from html import unescape
from math import ceil
from pathlib import Path

import pytest
from walebook.core.units import Length, length_cm
from walebook.machine.step_keys import Topic
from walebook.machine.steps import Dial, Side
from walebook.pattern.fabrics import Fabric, Swatch
from walebook.pattern.holes import Lean
from walebook.proof.proof import Proof
from walebook.proof.yarn_ends import CLOSING, HOLE, LAST_ROW, RAVEL
from walebook.words.hands import ATTENTION

from tests.needle_names import needle
from tests.site.quay_lamp import PATTERNS, one, pages, proved, steps_of, where, with_band, worked

SITE = Path(__file__).parents[2] / "site_src"


@pytest.fixture(scope="module", params=PATTERNS, ids=lambda name: name.replace(" ", "-"))
def proof(request) -> Proof:
    return proved(PATTERNS[request.param])


def test_the_garment_lies_back_over_the_bed_right_side_up(proof):
    """Common practice, no source: hanging in front, its body would be shut into the fold."""
    told = steps_of(proof)
    hung = where(told, "back over the bed")
    assert len(hung) == len(where(told, "behind the needles; the garment will lie on it")) == 2
    assert not where(told, "wrong side facing")
    for step in hung:
        assert "with its right side up, its body away from you and the hem" in told[step]
        side = re.search(r"garment's (left|right) front", told[step])[1]
        assert f"and the hem on the {'left' if side == 'right' else 'right'}." in told[step]


def test_weights_come_off_and_go_on_in_turn(proof):
    told = steps_of(proof)
    weights = re.findall(r"([Hh]ang the|Take all) weights", " ".join(told))
    assert all((said == "Take all") == (n % 2 == 1) for n, said in enumerate(weights))
    off = "Support the work with one hand, and keep your feet clear. Take all weights off. "
    for said in ("Lay a clean cloth", "Turn the work", "Fold the first layer up"):
        for step in where(told, said):
            assert told[step].startswith(off + said)
    for turn in where(told, "Turn the work"):
        assert told[turn + 1].startswith("Hang the weights on again")


def test_after_a_free_pass_the_carriage_is_set_to_knit_again():
    told = steps_of(proved(worked()))
    back = where(told, "Put the main yarn back into the feeder")
    assert len(back) == len(where(told, "Make a free pass")) == 4
    assert all("Set the carriage to knit" in told[step] and "latches open" in told[step]
               for step in back)


def test_the_edges_of_a_hole_are_named_as_the_folded_band_shows_them():
    told = " ".join(steps_of(proved(worked())))
    assert "edge of each hole towards the fold (now the lower one)" in told
    assert "edge towards the waste yarn (now above)" in told
    assert "out at the top, between the layers" in told
    assert "upper edge" not in told and "lower edge of" not in told


@pytest.mark.parametrize("lean", Lean)
@pytest.mark.parametrize("front", Side)
def test_holes_are_bound_off_in_the_direction_of_work(front, lean):
    holes = replace(worked().bands["front"].buttonholes, front=front, lean=lean)
    told = steps_of(proved(with_band(buttonholes=holes)))
    step = told[where(told, "Bind off across each hole")[0]]
    left = "towards the left" in step
    ranges = [(needle(a).place, needle(b).place, needle(c).place) for a, b, c in re.findall(
        r"([LR]\d+) to ([LR]\d+); the last loop stays on ([LR]\d+)", step)]
    assert len(ranges) == 5
    assert all((a > b) is left and stays == b + (-1 if left else 1) for a, b, stays in ranges)
    assert [a for a, _, _ in ranges] == sorted((a for a, _, _ in ranges), reverse=left)
    first = re.search(r"Begin at (hole \d)", step)[1]
    assert step.index(first.capitalize()) < step.index("; the last loop stays")
    assert first == ("hole 1" if lean is Lean.NECK else "hole 5")


def test_the_cord_is_taken_out_whole_and_used_again(proof):
    told = steps_of(proof)
    assert not [step for step in told if "Cut the ravel cord" in step]
    assert len(where(told, "Take the ravel cord out of the feeder")) == 2


def test_a_band_without_holes_is_knitted_on_past_the_holes_row(proof):
    plan = next(s for s in proof.sizes if s.size == "M").plans[0]
    told = steps_of(proof)
    knitted = where(told, f"Knit {plan.depth.value} rows to the end of the second layer")
    assert len(knitted) == (1 if plan.placing else 2)
    assert len(where(told, "to the buttonholes' row")) == (1 if plan.placing else 0)


def test_both_bands_are_finished_by_hand(proof):
    told = steps_of(proof)
    for said in ("two short ends shut", "Darn in every end", "Count everything back in"):
        assert len(where(told, said)) == 2
    holes = next(s for s in proof.sizes if s.size == "M").plans[0].placing
    assert len(where(told, "opposite the buttonholes")) == (1 if holes else 0)
    many = holes.buttonhole_count if holes else 0
    assert not many or where(told, f"{many} buttonhole cords, {2 * many} clips")


def test_mixed_runs_of_rows_are_told_in_their_order():
    """Read back, they take and miss every row of the edge once (a law)."""
    pattern = worked()
    edge = replace(pattern.edges["front"], rows=one(130))
    proof = proved(replace(pattern, edges={"front": edge}, bands={
        "front": replace(pattern.bands["front"], pick_up=Fraction(7, 9))}))
    page = unescape(pages(proof)["patterns/quay-lamp/m.md"])
    said = re.search(r"From the hem take rows in groups and miss one row between groups; rows in "
                     r"each group: ([^.]*)\.", page)[1]
    groups = re.findall(r"(?:(\d+)|\(([\d, ]+)\))(?: (\d+) times)?(?:, |$)", said)
    runs = [int(run) for one, several, times in groups
            for run in (one or several).split(", ") * int(times or 1)]
    rows, at = [], 0
    for run in runs:
        rows += range(at + 1, at + run + 1)
        at += run + 1
    assert at - 1 == 130 and tuple(rows) == proof.sizes[1].plans[0].pick_up.rows


def test_rows_no_sentence_can_tell_are_listed_needle_by_needle():
    proof = proved(with_band(pick_up=Fraction(6, 5)))
    page = pages(proof)["patterns/quay-lamp/m.md"]
    listed = re.findall(r"Every needle and its row</summary><p>([^<]*)</p>", page)
    rows = proof.sizes[1].plans[0].pick_up.rows
    assert [tuple(int(row) for row in re.findall(r": (\d+)", told)) for told in listed] == [
        rows, rows]


@pytest.mark.parametrize(("mm", "said"), [
    (Fraction(254, 10), "2.5 cm (1 in)"), (Fraction(3175, 1000), "0.3 cm (⅛ in)"),
    (Fraction(508, 10) + Fraction(15875, 1000), "6.7 cm (2⅝ in)"), (Fraction(0), "0 cm (0 in)")])
def test_places_of_buttons_are_told_in_eighths_of_an_inch(mm, said):
    """An inch is 25.4 mm exactly (international yard and pound, 1959)."""
    assert str(Length(mm)) == said


def test_a_figure_of_exactly_a_half_says_that_it_goes_up():
    """54 rows at 3/4 are 40.5."""
    pattern = worked()
    edge = replace(pattern.edges["front"], rows=one(54))
    page = pages(proved(replace(pattern, edges={"front": edge})))["patterns/quay-lamp/m.md"]
    assert "= 40.5, rounded, a half goes up: 41" in page
    assert "a half goes up" not in pages(proved(worked()))["patterns/quay-lamp/m.md"]


def test_yarn_is_given_with_its_cut_ends_and_a_swatch_or_said_to_be_an_estimate():
    """Arithmetic: 5 mg a stitch, 18 rows and a tenth more, 1/3 g a metre of ends.

    The ends are 9 widths of the bed with holes, 5 without, beside the last row's own stitches,
    and two tails of 15 cm. Each of two short ends takes three times its depth of 8 rows of 3 mm
    ("Sewn hem", victoriamarchantknits.com) and two tails. A swatch has half as much again
    around it (the rest common practice, no source). The pitch is 4.5 mm.
    """
    pattern = worked()
    assert "no swatch of the garment was weighed" in pages(proved(pattern))[
        "patterns/quay-lamp/m.md"]
    weighed = Swatch(stitches=40, width=length_cm(16), rows=60, height=length_cm(18),
                     mass_g=Fraction(12))
    band = Fabric(key="band", yarn="wool", dial=Dial(18), swatches=(weighed,))
    proof = proved(replace(
        pattern, fabrics={**pattern.fabrics, "band": band},
        bands={"front": replace(pattern.bands["front"], fabric="band", pick_up=None)}))
    page = pages(proof)["patterns/quay-lamp/m.md"]
    needles = proof.sizes[1].plans[0].stitches.value
    mg = Fraction(12, 2400)
    stitches = 2 * needles * (4 + 4 + 1 + 4 + 4 + 1)
    metres = sum(Fraction(needles * 9 * times, 2000) + Fraction(30, 100) for times in (9, 5))
    metres += 2 * 2 * Fraction(3 * 8 * 3 + 300, 1000)
    grams = stitches * mg * Fraction(11, 10) + metres / 3 + 40 * 60 * Fraction(3, 2) * mg
    told = Fraction(re.search(r"Working: Tideline Sport</summary><p>.*? = ([\d.]+), rounded up: "
                              r"\d+[.<]",
                              page)[1])
    assert abs(told - grams) <= Fraction(1, 20)
    assert f"about {ceil(grams)} g" in page


@pytest.mark.parametrize(("page", "said", "times"), [
    ("waste-start", "about six times the", RAVEL),
    ("closing-holes", "about four times the width of the band", CLOSING),
    ("loose-row-and-chain-off", "about eight times the width of the band", LAST_ROW),
    ("buttonholes-by-hand", "about four times the", HOLE)])
def test_technique_pages_ask_for_as_much_yarn_as_the_steps(page, said, times):
    """Common practice, no source; they must agree."""
    text = " ".join((SITE / "techniques" / f"{page}.md").read_text(encoding="utf-8").split())
    assert said in text
    assert times == {"four": 4, "six": 6, "eight": 8}[said.split()[1]]


def test_every_topic_is_told():
    assert set(ATTENTION) == set(Topic)
