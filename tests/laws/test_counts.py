"""What holds for every rounding and every unit."""

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from walebook.core.counts import DOWN, EVEN, NEAREST, ODD, UP, Rounding, Unit, decimal, whole
from walebook.core.units import Length, UnitError, length_cm, read_dial, read_length, read_number

HUNDREDTHS = st.integers(0, 50_000_000)
"""Figures with up to four decimals, as so many ten-thousandths."""

FIGURES = st.fractions(0, 5_000, max_denominator=1_000)
RULES = st.sampled_from((NEAREST, UP, DOWN, EVEN, ODD))


@st.composite
def multiples(draw):
    """A multiple of something, plus something smaller."""
    of = draw(st.integers(1, 24))
    return Rounding("multiple", of=of, plus=draw(st.integers(0, of - 1)))


@given(HUNDREDTHS)
def test_rounding_agrees_with_decimal_arithmetic(parts):
    """The standard library's decimal module is the second opinion: half up, up and down."""
    figure, text = Fraction(parts, 10_000), Decimal(parts).scaleb(-4)
    for rule, mode in ((NEAREST, ROUND_HALF_UP), (UP, ROUND_CEILING), (DOWN, ROUND_FLOOR)):
        assert whole(figure, rule) == int(text.to_integral_value(rounding=mode))


@given(st.integers(0, 10_000))
def test_a_half_goes_up(number):
    """needlesofsteel, Calculating gauge from a swatch, needlesofsteel.blogspot.com, 2022-08
    (G01): round half up."""
    assert whole(number + Fraction(1, 2)) == number + 1
    assert whole(number + Fraction(1, 2) - Fraction(1, 10**12)) == number


@given(FIGURES)
def test_even_is_even_and_odd_is_odd_and_both_are_nearest(figure):
    even, odd = whole(figure, EVEN), whole(figure, ODD)
    assert even % 2 == 0 and odd % 2 == 1
    assert abs(even - figure) <= 1
    assert abs(odd - figure) <= 1
    assert even + odd == 2 * int(figure) + 1 or figure.denominator == 1
    if figure.denominator == 1:
        assert {abs(even - figure), abs(odd - figure)} == {0, 1}
        assert max(even, odd) == (figure + 1)  # of two equally near the larger


@given(FIGURES, multiples())
def test_a_multiple_plus_is_the_nearest_of_its_kind(figure, rule):
    count = whole(figure, rule)
    assert count % rule.of == rule.plus and count >= 0
    assert abs(count + rule.of - figure) > abs(count - figure)  # of two the larger
    assert abs(count - rule.of - figure) >= abs(count - figure) or count < rule.of


@given(FIGURES, FIGURES, st.one_of(RULES, multiples()))
def test_a_larger_figure_never_gives_a_smaller_count(one, other, rule):
    low, high = sorted((one, other))
    assert whole(low, rule) <= whole(high, rule)


@given(st.integers(0, 10_000), st.sampled_from((NEAREST, UP, DOWN)))
def test_a_whole_number_stays(number, rule):
    assert whole(Fraction(number), rule) == number


@given(FIGURES, st.one_of(RULES, multiples()))
def test_a_count_that_was_rounded_stays(figure, rule):
    count = whole(figure, rule)
    assert whole(Fraction(count), rule) == count


@given(st.one_of(RULES, multiples()), st.one_of(RULES, multiples()), FIGURES)
def test_a_rounding_among_anothers_numbers_leads_to_numbers_of_both_kinds(rule, other, figure):
    """Every number up to the common multiple is tried: none of both kinds, or the nearest one."""
    def kind(number):
        return all((number - one.kind[1]) % one.kind[0] == 0 and number >= one.kind[1]
                   for one in (rule, other))
    made = rule.among(other)
    both = [n for n in range(6_300) if kind(n)]
    assert (made is None) == (not both)
    if made is None:
        return
    count = whole(figure, made)
    assert kind(count)
    if rule.rule == "up":
        assert count == next(n for n in both if n >= figure)
    elif rule.rule == "down":
        assert count == next((n for n in reversed(both) if n <= figure), both[0])
    else:
        assert abs(count - figure) == min(abs(n - figure) for n in both)


@given(st.integers(0, 6), st.integers(0, 6))
def test_numbers_that_are_even_and_odd_there_are_none(one, other):
    even, odd = (Rounding("multiple", 2 * n + 2, p) for n, p in ((one, 0), (other, 1)))
    assert even.among(odd) is None and even.parity == 0 and odd.parity == 1


@given(FIGURES, st.integers(0, 6))
def test_decimals_agree_with_decimal_arithmetic(figure, places):
    with localcontext() as context:
        context.prec = 60  # so that the quotient's own rounding is far from the last place
        quotient = Decimal(figure.numerator) / Decimal(figure.denominator)
        wanted = quotient.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    shown = decimal(figure, places)
    assert Decimal(shown) == wanted
    assert "." not in shown or not shown.endswith(("0", "."))


MM_PER = {
    "mm": Decimal(1),
    "cm": Decimal(10),
    "m": Decimal(1000),
    "in": Decimal("25.4"),
    '"': Decimal("25.4"),
    " ligne": Decimal("0.635"),
    "L": Decimal("0.635"),
}
"""By definition: an inch is 25.4 mm, a ligne a fortieth of an inch."""


@given(st.integers(1, 9_999_999), st.sampled_from(sorted(MM_PER)))
def test_a_length_in_any_unit_is_exact(parts, unit):
    number = Decimal(parts).scaleb(-3)
    read = read_length(f"{number:f}{unit}")
    assert read.mm == Fraction(number * MM_PER[unit])
    assert read.mm == read.cm * 10 == read.inches * Fraction("25.4")


@given(st.integers(0, 200), st.integers(1, 15), st.sampled_from((2, 4, 8, 16)))
def test_inches_and_a_fraction(inches, over, of):
    assume(over < of)
    exact = (inches + Fraction(over, of)) * Fraction("25.4")
    written = f"{inches} {over}/{of}" if inches else f"{over}/{of}"
    for unit in (" in", '"'):
        assert read_length(written + unit).mm == exact
    assert read_number(f"{over}/{of}") == Fraction(over, of)


@given(st.integers(1, 50_000))
def test_what_is_shown_reads_back_to_within_half_its_last_place(tenths):
    length = Length(Fraction(tenths, 10))
    for shown, half in (
        (length.in_mm(), Fraction(1, 20)),
        (length.in_cm(), Fraction(1, 2)),
        (length.in_inches(), Fraction("25.4") / 16 + Fraction(1, 2)),
    ):
        try:
            read = read_length(shown)
        except UnitError:
            assert length.mm <= half  # shown as nothing
            continue
        assert abs(read.mm - length.mm) <= half


@given(st.integers(1, 3_000))
def test_whole_millimetres_are_shown_exactly(mm):
    length = Length(Fraction(mm))
    assert read_length(length.in_cm()) == length == length_cm(Fraction(mm, 10))


@given(st.integers(1, 800))
def test_eighths_of_an_inch_are_shown_exactly(eighths):
    length = Length(Fraction(eighths, 8) * Fraction("25.4"))
    assert read_length(length.in_inches()) == length


@given(st.integers(1, 5_000), st.integers(1, 5_000))
def test_lengths_add_and_order_as_their_millimetres_do(one, other):
    first, second = Length(Fraction(one, 7)), Length(Fraction(other, 7))
    assert (first + second).mm == first.mm + second.mm
    assert (first + second) - second == first
    assert (first <= second) == (one <= other)
    assert first.times(Fraction(1, 3)).times(3) == first


@given(st.integers(0, 10), st.integers(0, 2))
def test_dial_dots_are_thirds(number, dots):
    """Val Paino's list, 1997, in the trade's notes: two dots between whole numbers are thirds."""
    text = f"{number}.{dots}" if dots else str(number)
    assume(number or dots)
    assert read_dial(text).thirds == 3 * number + dots


@pytest.mark.parametrize("text", ["44", "44 g", "three cm", "", "4 kg", "10 cm2", "1/0 in"])
def test_what_is_no_length_is_refused(text):
    with pytest.raises(UnitError):
        read_length(text)


def test_one_of_anything_is_said_in_the_singular():
    assert [unit.of(1) for unit in (Unit.STITCHES, Unit.ROWS, Unit.HOLES, Unit.TIMES)] == [
        "1 stitch", "1 row", "1 buttonhole", "1 time"]
    assert all(unit.of(many) == f"{many} {unit.value}" for unit in Unit for many in (0, 2, 39))
