"""How wide a hole is and how big a button, against published examples."""

from fractions import Fraction
from math import ceil, floor

from published import account_for, against
from walebook.core.units import Length, read_length
from walebook.plan.buttonholes import hole_stitches, reach

# B09 is of the topic that holds spacing and size together, accounted for with the spacing.
DIRECT = ("L01", "L02")

NOT_FOLLOWED = {
    "L02 typical": "which size of button suits a shirt or a jacket is the designer's choice",
}


def test_every_direct_case_is_accounted_for():
    account_for(
        globals(),
        topics={"button sizes: ligne and mm"},
        direct=DIRECT,
        not_followed=NOT_FOLLOWED,
    )


@against("B09")
def test_one_stitch_less(case):
    widths, holes = case["inputs"]["button_width_in_sts"], case["outputs"]["hole_sts"]
    for stitch in (Fraction(3), Fraction(10, 3), Fraction(127, 30), Fraction(5)):
        for covered, hole in zip(widths, holes, strict=True):
            assert hole_stitches(Length(covered * stitch), stitch).value == hole


def test_a_hole_has_at_least_two_stitches():
    """Common practice, no source: the closing takes one loop more than the hole has stitches."""
    for covered in (1, 2, 3):
        assert hole_stitches(Length(Fraction(5 * covered)), Fraction(5)).value == 2


def test_a_hole_of_two_stitches_passes_the_button_of_the_published_case_and_no_larger():
    """Clearwater Knits, "Small tailored buttonholes", clearwaterknits.com/sm-tailored-bh: 2
    stitches at 22 to 4 in "will easily fit a 5/8 in button"."""
    stitch = read_length("4 in").mm / 22
    assert reach(2, stitch).mm == read_length("5/8 in").mm
    assert hole_stitches(read_length("5/8 in"), stitch).value == 2


def test_a_hole_of_one_stitch_passes_a_centimetre_in_worsted_yarn():
    """ "Eyelet buttonhole", knitgrove.com: a stitch wide, buttons of 1 cm at most in worsted yarn,
    which has 16 to 20 stitches to 4 in (W3-091)."""
    assert reach(1, read_length("4 in").mm / 20).mm == 10
    assert reach(1, read_length("4 in").mm / 16).mm > 10


def test_no_hole_by_the_rule_is_too_small_for_its_button():
    """The rule has no case below 4: a button of 3.49 stitches covers 3, and 2 stretch to 3.44."""
    for hundredths in range(50, 1000):
        button = Length(Fraction(hundredths, 100) * 5)
        hole = hole_stitches(button, Fraction(5)).value
        assert reach(hole, Fraction(5)).mm >= button.mm, hundredths
    assert hole_stitches(Length(Fraction("17.15")), Fraction(5)).value == 2
    assert hole_stitches(Length(Fraction("17.25")), Fraction(5)).value == 3


@against("L01")
def test_a_ligne_is_a_fortieth_of_an_inch(case):
    assert case["inputs"]["rule"] == "40 ligne = 1 inch"
    assert read_length("40 ligne") == read_length("1 in")
    assert read_length("1 ligne").mm == Fraction(254, 10) / 40 == Fraction("0.635")
    for ligne, mm in case["outputs"]["table_L_to_mm"].items():
        # the table is printed to half a millimetre, now up and now down (18 L, 24 L)
        assert abs(read_length(f"{ligne} ligne").mm - Fraction(str(mm))) <= Fraction(1, 2)
        assert read_length(f"{ligne}L") == read_length(f"{ligne} ligne")


@against("L02")
def test_the_whole_millimetre_chart(case):
    for ligne, mm in case["outputs"]["table_L_to_mm"].items():
        exact = read_length(f"{ligne} ligne").mm
        assert floor(exact) <= mm <= ceil(exact)  # the chart rounds now up and now down
