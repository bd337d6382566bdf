"""A body knitted sideways is a straight body's outline turned: its width is rows, its length
stitches."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.forms.registry import FORMS
from walebook.pattern.model import Fold
from walebook.shape.garment import CannotShape, Garment

from tests.laws import pieces
from tests.scale import examples

FORM = "sideways pullover"


def garment_of(size: str, stitches: int, rows: int, hem: int | None) -> Garment | None:
    known = dict(pieces.chart("women").measurements(size))
    cut = pieces.cut(FORM, known, pieces.gauge(stitches, rows),
                     hem=pieces.hem(hem, Fold.LOOSE) if hem else None)
    try:
        return FORMS[FORM].shape(cut)
    except CannotShape:
        return None


@given(size=st.sampled_from(pieces.chart("women").sizes), stitches=st.integers(8, 40),
       rows=st.integers(12, 60), hem=st.sampled_from((None, 30)))
@settings(max_examples=examples(30), deadline=None)
def test_its_width_is_knitted_in_rows_and_its_length_in_stitches(
        size: str, stitches: int, rows: int, hem: int | None) -> None:
    made = garment_of(size, stitches, rows, hem)
    if made is None:
        return
    assert pieces.faults(made) == []
    gauge = pieces.gauge(stitches, rows)
    chart = pieces.chart("women")
    chest = chart.measurement("chest", size).value / 2 + 40  # (chest + 8 cm) / 2
    length = chart.measurement("back_waist_length", size).value * Fraction(135, 100)
    back, front, _ = made.pieces
    assert (back.stitches, back.marks, back.rows) == (front.stitches, front.marks, front.rows)
    program, run = pieces.knit(back)
    on = max(len(state.loaded) for state in run.states)
    assert abs((on - 1) * gauge.stitch - length) <= gauge.stitch / 2  # a stitch for the shoulder
    assert abs(pieces.last_row(program, run) * gauge.row - chest) <= gauge.row / 2
    before, after = back.marks
    assert before == back.rows - after  # the neck lies in the middle


@given(size=st.sampled_from(pieces.chart("women").sizes), stitches=st.integers(8, 40),
       rows=st.integers(12, 60))
@settings(max_examples=examples(15), deadline=None)
def test_its_sleeves_meet_the_armholes_stitch_for_stitch(size: str, stitches: int, rows: int
                                                         ) -> None:
    made = garment_of(size, stitches, rows, None)
    if made is None:
        return
    counts = {(key, name): count.value for key, name, count in made.counts}
    _, run = pieces.knit(made.pieces[2])
    most = max(len(state.loaded) for state in run.states)
    assert most - 2 == 2 * counts["back", "armhole_stitches"]
