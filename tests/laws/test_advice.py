"""What must hold of the advice on sizes, reckoned again from the charts and the finished pieces.

That a measure between two sizes takes the nearer, and the larger of two equally near, is a rule
of the project's own.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.core.units import Length, length_cm
from walebook.pattern.model import Pattern
from walebook.proof.advice import GarmentAdvice, advise_all
from walebook.words.choosing_text import choosing

from tests.against.wardrobe import BODIES, SIZES, chart, pattern, proved
from tests.site import quay_lamp

CARDIGAN = "set-in cardigan"


def advice(made: Pattern) -> GarmentAdvice:
    found = advise_all(proved(made))
    assert found is not None
    return found


@pytest.mark.parametrize("form", BODIES)
def test_ease_is_what_is_knitted_less_the_body(form):
    found = advice(pattern(form))
    assert [s.size for s in found.sizes] == list(SIZES)
    for size in found.sizes:
        cell = chart("women").rows["chest"].cells[size.size]
        chest = next(f for f in size.fits if f.name == "chest")
        finished = dict(size.finished)["chest"]
        assert chest.ease == (Length(finished.mm - cell.high.mm),
                              Length(finished.mm - cell.low.mm))
        assert chest.label == "bust"
        assert chest.ease[0] < chest.ease[1]


def test_ease_of_a_single_figure_is_a_single_figure():
    """The babies' chart has one chest a size; a hat takes in 2 cm of the head's middle."""
    found = advice(pattern("raglan pullover", of="babies", sizes=("3 mo", "12 mo")))
    for size in found.sizes:
        least, most = next(f.ease for f in size.fits if f.name == "chest")
        assert least == most
    hat = advice(pattern("hat", sizes=("M",))).sizes[0].fits[0]
    middle = chart("women").rows["head"].cells["M"].middle
    assert abs(hat.finished.mm - middle.mm + 20) <= Fraction(71, 10)  # a stitch
    assert "−" in hat.ease_text


def test_what_rounds_to_nothing_has_no_sign():
    for form in BODIES:
        for size in advice(pattern(form)).sizes:
            for fit in size.fits:
                assert "−0 in" not in fit.ease_text
                assert "−0 cm" not in fit.ease_text


def test_rows_are_those_that_the_measures_name():
    """Read off the set-in form's sums, and one of the designer's own in their place."""
    made = pattern(CARDIGAN)
    size = advice(made).sizes[0]
    assert [label for label, _ in size.body] == [
        chart("women").rows[row].label for row in
        ("chest", "neck_to_wrist", "back_waist_length", "cross_back", "arm_length", "upper_arm",
         "armhole_depth")]
    drop = advice(pattern("set-in waistcoat")).sizes[0]
    assert {label for label, _ in drop.body} <= {label for label, _ in size.body}


def test_the_tight_upper_arm_of_larger_sizes_is_told():
    """The chart's own remark, from wearers and a survey, on L and above."""
    found = advice(pattern(CARDIGAN, sizes=("M", "L", "XL")))
    (sizes,) = [sizes for remark, sizes in found.remarks if "tight at the upper arm" in remark.text]
    assert sizes == ("L", "XL")
    assert all(remark.source for remark, _ in found.remarks)


def test_a_designers_own_measurement_is_what_ease_is_reckoned_from():
    made = pattern(CARDIGAN)
    own = replace(made, garment=replace(made.garment, body={"cross_back": {"M": length_cm(38)}}))
    size = next(s for s in advice(own).sizes if s.size == "M")
    across = next(f for f in size.fits if f.name == "across")
    assert across.body.middle == length_cm(38)
    assert any("designer" in r.text for r in size.remarks)


def test_the_words_name_the_gap_and_the_rule():
    """Sizes S and M part at a bust of 86 to 91.5 cm, and M and L at 96.5 to 101.5 cm, by the
    published table of women's sizes (tests/against/sizes)."""
    found = advice(pattern(CARDIGAN, sizes=("S", "M", "L")))
    said = " ".join(choosing(found.sizes))
    assert "86–91.5 cm (34–36 in) between S and M" in said
    assert "96.5–101.5 cm" in said
    assert "the larger where both are equally near" in said


def test_a_chart_of_single_figures_asks_for_the_nearest():
    found = advice(pattern("raglan pullover", of="babies", sizes=("3 mo", "12 mo")))
    assert choosing(found.sizes)[0].startswith(
        "Measure the wearer's chest and take the size nearest to it")
    assert not [said for said in choosing(found.sizes) if "gaps" in said]


def test_a_garment_that_no_body_decides_is_chosen_by_its_size():
    found = advice(pattern("panelled blanket", sizes=("M",)))
    assert choosing(found.sizes) == (
        "This garment has no measure that a body decides: choose by what is knitted.",)


def test_bands_alone_have_no_advice():
    assert advise_all(quay_lamp.proved(quay_lamp.worked())) is None
