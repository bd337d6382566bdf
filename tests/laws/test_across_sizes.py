"""What must hold from each size to the next: figures that follow the body do so steadily."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.shape.garment import CannotShape, Garment
from walebook.shape.profile import How

from tests.laws import pieces


@st.composite
def gauges(draw: st.DrawFn) -> Gauge:
    """From a bulky bed's to a fine one's."""
    around = Fraction(draw(st.integers(18, 80)), 2)
    return pieces.gauge(around, around * Fraction(draw(st.integers(120, 160)), 100))


def sizes_of(key: str, gauge: Gauge, ease: int) -> list[Garment]:
    """A set-in pullover in all the sizes of a chart that can be shaped, with so much cap ease."""
    made = []
    for size in pieces.chart(key).sizes:
        cut = pieces.cut("set-in pullover", pieces.chart(key).measurements(size), gauge,
                         own={"cap_ease": f"{ease} mm"})
        try:
            made.append(FORMS["set-in pullover"].shape(cut))
        except CannotShape:
            continue
    return made


def flat_top(garment: Garment) -> int:
    """The stitches at the top of the sleeve, bound off at once."""
    return garment.pieces[-1].top


def upper_arm(garment: Garment) -> int:
    return next(c.value for key, name, c in garment.counts
                if (key, name) == ("sleeve", "upper_arm"))


def is_free(garment: Garment) -> bool:
    """True where the cap is neither as high as the armhole nor decreased on every row."""
    sleeve = garment.pieces[-1]
    up = sleeve.rows - next(c.value for key, name, c in garment.counts
                            if (key, name) == ("sleeve", "cap_rows"))
    rows = [c.row for c in sleeve.right.changes if c.how is How.DECREASE and c.row > up]
    armhole = next(c.value for _, name, c in garment.counts if name == "armhole_rows")
    return sleeve.rows - up < armhole and len(rows) + 4 < sleeve.rows - up


@given(st.sampled_from(("women", "children")), gauges(), st.integers(0, 20))
@settings(max_examples=pieces.examples(25), deadline=None)
def test_the_flat_top_of_a_cap_is_a_quarter_of_the_sleeve_in_every_size(
        key: str, gauge: Gauge, ease: int) -> None:
    made = [g for g in sizes_of(key, gauge, ease) if is_free(g)]
    for garment in made:
        assert abs(flat_top(garment) - max(4, Fraction(upper_arm(garment), 4))) <= 1
    by_arm = sorted((upper_arm(g), flat_top(g)) for g in made)
    tops = [top for _, top in by_arm]
    assert tops == sorted(tops)


@given(st.sampled_from(("women", "children")), gauges(), st.integers(0, 20))
@settings(max_examples=pieces.examples(25), deadline=None)
def test_every_cap_fits_its_armhole_within_a_row_and_is_knitted(
        key: str, gauge: Gauge, ease: int) -> None:
    for garment in sizes_of(key, gauge, ease):
        cap = garment.joins[-1]
        assert cap.title == "sleeve cap and armhole" and cap.closes
        assert abs(cap.other - cap.one - ease) <= max(5, gauge.row)
        assert pieces.knit(garment.pieces[-1])[1].refusal is None
