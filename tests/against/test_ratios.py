"""The best small pick-up ratio, against the continued fractions of a computer algebra library.

Every best approximation of a number by fractions of bounded denominator is a convergent or a
semiconvergent of its continued fraction (A. Ya. Khinchin, Continued Fractions, theorem 15; cited
from memory). sympy expands the fraction; the (semi)convergents are built from its quotients.
"""

from fractions import Fraction

import pytest
from sympy import Rational
from sympy.ntheory.continued_fraction import continued_fraction, continued_fraction_convergents
from walebook.plan.pickup import LARGEST_CYCLE, pick_up, small_ratio


def approximations(exact: Fraction) -> list[Fraction]:
    """All convergents and semiconvergents of `exact`."""
    quotients = continued_fraction(Rational(exact.numerator, exact.denominator))
    found: list[Fraction] = []
    for place, last in enumerate(quotients):
        for quotient in range(1 if place else int(last), int(last) + 1):
            *_, value = continued_fraction_convergents([*quotients[:place], quotient])
            found.append(Fraction(int(value.p), int(value.q)))
    return found


def nearest(exact: Fraction, largest: int) -> set[Fraction]:
    """The nearest fractions with a denominator of at most `largest`; two where they tie."""
    candidates = [each for each in approximations(exact) if each.denominator <= largest]
    least = min(abs(each - exact) for each in candidates)
    return {exact - least, exact + least}


EDGES = [
    (stitches, rows) for rows in range(9, 190, 7) for stitches in range(rows // 3, rows + 6, 5)
]


def test_the_small_ratio_is_the_best_of_at_most_eight_rows():
    assert LARGEST_CYCLE == 8 and len(EDGES) > 300
    for stitches, rows in EDGES:
        ours = small_ratio(stitches, rows).value
        assert isinstance(ours, Fraction) and ours.denominator <= 8
        assert ours in nearest(Fraction(stitches, rows), 8), (stitches, rows)
        assert pick_up(stitches, rows).ratio == ours


@pytest.mark.parametrize("largest", [1, 3, 5, 13])
def test_the_ratio_is_the_best_for_other_bounds(largest):
    for stitches, rows in EDGES[::4]:
        wanted = [max(ratio, Fraction(1, largest))  # never a ratio of no stitches at all
                  for ratio in nearest(Fraction(stitches, rows), largest)]
        assert small_ratio(stitches, rows, largest).value in wanted


def test_a_ratio_that_is_small_already_is_kept_exactly():
    for denominator in range(1, 9):
        for numerator in range(1, 2 * denominator):
            ratio = Fraction(numerator, denominator)
            for repeat in (1, 7, 23):
                assert small_ratio(numerator * repeat, denominator * repeat).value == ratio
