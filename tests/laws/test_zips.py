"""The zip for any opening: never longer than it, and no other that is sold lies between."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from walebook.core.units import Length, read_length
from walebook.pattern.wishes import ZipWish
from walebook.plan.zips import MOST_EASED, zip_for


@given(st.fractions(10, 1200, max_denominator=1000), st.integers(1, 30))
def test_the_longest_zip_that_is_no_longer_than_the_opening(mm: Fraction, every: int) -> None:
    opening = Length(mm)
    try:
        found = zip_for(opening, ZipWish(every=every))
    except ValueError:
        assert mm < 10 * every
        return
    assert found.length.mm <= mm < found.length.mm + 10 * every
    assert found.count.value % every == 0
    assert found.count.value * 10 == found.length.mm
    assert 0 <= found.eased < 1


def test_a_zip_that_is_cut_goes_down_to_a_whole_centimetre() -> None:
    assert zip_for(Length(Fraction(5848, 10)), ZipWish(cut=True)).count.value == 58


def test_the_published_zip_is_just_within_what_may_be_eased_in() -> None:
    """Elizabeth Knits, "Zippers in sweaters", 2016: a 12 in zip for a 13 in band."""
    band, zip_ = read_length("13 in"), read_length("12 in")
    assert 1 - zip_.mm / band.mm == MOST_EASED


def test_the_stay_is_twice_the_zip_and_13_cm() -> None:
    """The same source: about 13 cm besides twice the zip's length."""
    assert zip_for(Length(Fraction(584)), ZipWish(every=5)).stay == Length(Fraction(1230))
