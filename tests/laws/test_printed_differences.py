"""A difference that is printed is the difference of the two figures printed beside it."""

from __future__ import annotations

import re
from fractions import Fraction
from unicodedata import numeric

from hypothesis import example, given
from hypothesis import strategies as st
from walebook.core.expression import plain
from walebook.core.inches import in_parts
from walebook.core.units import Length
from walebook.fabric.gauge import Gauge, rows_along, stitches_across
from walebook.pages.figures import figures
from walebook.pages.garment_facts import cell_text
from walebook.proof.advice import Fit
from walebook.shape.garment import Join, Kindred
from walebook.shape.tasks import Seam
from walebook.sizing.charts import SizeCell
from walebook.words.joins import join_text
from walebook.words.terms.working import working_of

from tests.whole_collection import collection

CM_IN_INCH = Fraction(254, 100)  # the international inch of 1959
HALF = Fraction(1, 200)  # half a hundredth, to which figures in a working are printed
lengths = st.builds(Fraction, st.integers(100, 1_500_000), st.integers(1, 997))
bodies = st.builds(Fraction, st.integers(100_000, 1_500_000), st.integers(1, 997))
_CM = r"(−?[\d.]+) cm"


def cm(text: str) -> list[Fraction]:
    """Every length in centimetres, in the order in which they are printed."""
    return [Fraction(figure.replace("−", "-")) for figure in re.findall(_CM, text)]


def inches(text: str) -> list[Fraction]:
    """Every length in inches, to a fraction."""
    found = re.findall(r"(−?)((?:\d+\u00a0)?\d+/16|\d*[¼½¾⅛⅜⅝⅞]|\d+) in", text)
    return [(-1 if sign else 1) * in_sixteenths(figure) for sign, figure in found]


def in_sixteenths(figure: str) -> Fraction:
    """A figure whose fractions are signs, or sixteenths: "17¼", "3\u00a03/16"."""
    parts = re.sub("[¼½¾⅛⅜⅝⅞]", lambda sign: f" {Fraction(numeric(sign[0]))}", figure)
    return sum(map(Fraction, parts.split()), Fraction(0))


def tenths(text: str) -> list[Fraction]:
    return [Fraction(figure) for figure in re.findall(r"\d+(?:\.\d)?", text)]


def join(one: Fraction, other: Fraction, ease: Fraction) -> Join:
    return Join(title="sleeve cap and armhole", seam=Seam.ARMHOLE, kindred=Kindred.LENGTH,
                sewn=(plain(one), plain(other)), ease=ease, tolerance=Fraction(5),
                sides=("the armhole", "the sleeve"))


@given(lengths, lengths, st.integers(-20, 20).map(Fraction))
@example(Fraction(304, 10), Fraction(308, 10), Fraction(0))
def test_how_much_longer_one_edge_is(one: Fraction, other: Fraction, ease: Fraction) -> None:
    said = join_text(join(one, other, ease))
    if "either side" in said:
        return
    assert ("nothing to ease" in said) == (abs(one - other) < 1)
    if abs(one - other) < 1:  # mm: 30.4 and 30.8 are printed as 3.0 and 3.1 cm
        return
    small = "(less than ⅛ in)" in said
    for less, more, difference in (cm(said), inches(said)):
        assert more - less == difference > 0 or (small and more == less)
    assert f"on {'the armhole' if one > other else 'the sleeve'}, the longer side" in said


@given(st.integers(8, 200_000).map(lambda n: Fraction(n, 10)))
def test_no_length_is_printed_as_nothing_in_one_unit_alone(mm: Fraction) -> None:
    """From 0.8 mm, the half of a sixteenth of an inch, on."""
    assert not re.search(r"(?<![\d/])0 in", str(Length(mm))), str(Length(mm))


@given(lengths, lengths, st.builds(Fraction, st.integers(1, 400), st.integers(1, 40)))
def test_how_far_a_cap_is_off(one: Fraction, other: Fraction, ease: Fraction) -> None:
    said = join(one, other, ease).working
    a, b, between, asked, off, _ = tenths(said)
    assert between == abs(b - a) and ("less" in said) == (b < a)
    assert off == abs(b - a - asked)


def fitted(finished: Fraction, one: Fraction, other: Fraction, printed: bool) -> Fit:
    """A body from a chart printed in centimetres to the millimetre, and in inches where asked."""
    low, high = sorted((Length(one), Length(other)))
    ends = [str(x).partition("(")[2].removesuffix(" in)") for x in (low, high)]
    body = SizeCell(low=low, high=high, inches="–".join(dict.fromkeys(ends)) if printed else "")
    return Fit(name="chest", label="bust", finished=Length(finished), body=body,
               ease=(Length(finished) - high, Length(finished) - low))


@given(lengths, bodies, bodies)
def test_ease_is_what_is_knitted_less_the_body(finished: Fraction, one: Fraction, other: Fraction
                                               ) -> None:
    fit = fitted(finished, one, other, printed=True)
    low, high = fit.body.low, fit.body.high
    for read in (cm, inches):
        (knitted,), (least,), (most,) = (read(str(x)) for x in (fit.finished, low, high))
        expected = [knitted - most, knitted - least]
        assert read(fit.ease_text) == expected[:1 if low == high else 2]


@given(lengths, bodies, bodies)
def test_a_difference_agrees_in_both_units_as_far_as_its_figures_do(
        finished: Fraction, one: Fraction, other: Fraction) -> None:
    """The inches are those of the printed centimetres: two are rounded, by 1/16 in at most."""
    said = fitted(finished, one, other, printed=True).ease_text
    for in_cm, inch in zip(cm(said), inches(said), strict=True):
        assert abs(in_cm - inch * CM_IN_INCH) <= CM_IN_INCH / 8


@given(lengths, bodies, bodies)
def test_an_ease_in_inches_is_that_of_the_inches_that_the_page_works_out(
        finished: Fraction, one: Fraction, other: Fraction) -> None:
    """A chart may print a body in centimetres alone: the page prints its inches all the same."""
    fit = fitted(finished, one, other, printed=False)
    shown = inches(cell_text(fit.body).rpartition("(")[2].replace("–", " in–"))
    (knitted,) = inches(str(fit.finished))
    expected = [knitted - shown[-1], knitted - shown[0]]
    assert inches(fit.ease_text) == expected[:len(inches(fit.ease_text))]


@given(st.integers(50, 15000).map(lambda n: Fraction(n, 10)), st.integers(30, 600),
       st.integers(30, 600))
def test_a_count_can_be_worked_again_from_its_own_figures(width: Fraction, wide: int, high: int
                                                          ) -> None:
    """Half a hundredth of either factor, and of the product, is all that rounding may be worth."""
    gauge = Gauge(1000 / Fraction(wide), 1000 / Fraction(high))
    for count in (stitches_across(Length(width), gauge), rows_along(Length(width), gauge)):
        cm_, per, exact = map(Fraction, re.findall(r"\d+(?:\.\d+)?", re.sub(
            "to 10 cm", "", working_of(count)))[:3])
        assert abs(cm_ * per / 10 - exact) <= (cm_ + per) * HALF / 10 + 2 * HALF


def test_holes_asked_for_by_their_distance_say_how_far_apart_they_came() -> None:
    """8.5 cm were asked for, and no figure beside it said that the holes lie 7.2 cm apart."""
    told = 0
    for proof in collection().proofs:
        plans = [plan for size in proof.sizes for plan in size.plans
                 if plan.placing and (asked := plan.band.buttonholes) and asked.every
                 and asked.in_hem is None and asked.through is None]
        for plan in plans:
            assert plan.placing is not None
            starts = plan.placing.starts
            said = next(f.working for f in figures(plan) if "asked for" in f.working)
            far = (starts[-1] - starts[0]) * plan.gauge.stitch / (len(starts) - 1) / 10
            assert abs(cm(said)[-1] - far) <= Fraction(51, 1000), said
            told += said.endswith("apart")
    assert told


def test_a_difference_in_sixteenths_of_an_inch_is_printed_to_the_sixteenth() -> None:
    """Figures of a chart in sixteenths differ by sixteenths (arithmetic). Those with decimals of an
    inch have no such fraction: they are printed to the eighth.
    """
    for sixteenths in range(1, 60):
        assert inches(in_parts(Fraction(sixteenths, 16))) == [Fraction(sixteenths, 16)]
    for tenths in (6, 7, 12, 13, 18):
        (said,) = inches(in_parts(Fraction(tenths, 10)))
        assert said.denominator in (1, 2, 4, 8)
        assert abs(said - Fraction(tenths, 10)) <= Fraction(1, 16)
