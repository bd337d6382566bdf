"""The sides of a body below its underarms: any widths and heights are knitted, or refused in words.

The edges are read from the pieces that the bed knits, not from the counts that planned them.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from walebook.forms.registry import FORMS
from walebook.pattern.model import Fold, Neck
from walebook.shape.dimension_names import DimensionKind, DimensionName
from walebook.shape.garment import CannotShape, Cut, Garment
from walebook.shape.piece import Piece
from walebook.shape.profile import Change

from tests.laws import pieces
from tests.laws.test_measures_heard import knitted
from tests.laws.test_measures_heard import made as made_of_source
from tests.laws.test_sketch_measures import NEAR, case
from tests.scale import examples

SHAPED = [name for name, form in FORMS.items() if "hem_width" in form.optional]
SEAMS = 2


@st.composite
def cuts(draw: st.DrawFn) -> tuple[str, Cut]:
    """A body with random widths between 0.7 and 1.5 of its chest, each there or not."""
    form = draw(st.sampled_from(SHAPED))
    chart = pieces.chart("women")
    known = chart.measurements(draw(st.sampled_from(chart.sizes)))
    around = Fraction(draw(st.integers(12, 36)))
    own = {name: f"chest_width * {draw(st.integers(70, 150))} / 100"
           for name in ("hem_width", "hip_width", "waist_width") if draw(st.booleans())}
    assume(own)
    if "hip_width" in own:
        own["hip_height"] = f"body_length * {draw(st.integers(0, 30))} / 100"
    if "waist_width" in own:
        own["waist_height"] = f"body_length * {draw(st.integers(20, 60))} / 100"
        own["waist_straight"] = f"{draw(st.integers(0, 50))} mm"
    if draw(st.booleans()):
        own["chest_height"] = f"body_length * {draw(st.integers(40, 70))} / 100"
    hem = draw(st.none() | st.builds(pieces.hem, st.integers(10, 60), st.just(Fold.LOOSE)))
    neck = draw(st.sampled_from((Neck.ROUND, Neck.V)))
    if neck is Neck.V:  # some open below the underarms
        own["front_neck"] = f"body_length * {draw(st.integers(30, 70))} / 100"
    return form, pieces.cut(
        form, known, pieces.gauge(around, around * Fraction(draw(st.integers(110, 180)), 100)),
        own=own, hem=hem, neck=neck, band=draw(st.sampled_from((0, 30))))


def shape(form: str, cut: Cut) -> Garment | None:
    """The garment; None once it is seen that it was refused with its figures."""
    try:
        return FORMS[form].shape(cut)
    except CannotShape as fault:
        assert any(mark.isdigit() for mark in fault.found) and fault.remedy
        return None


def side(piece: Piece) -> list[Change]:
    """Every change of the right edge as drawn, those above an opening too."""
    above = piece.opening.outer.changes if piece.opening else ()
    return [*piece.right.changes, *(c._replace(row=c.row + piece.opening.row) for c in above
                                    if piece.opening)]


def below(piece: Piece) -> list[Change]:
    """The changes of a side seam: those below its underarm."""
    return [c for c in side(piece) if piece.levels and c.row < piece.levels[-1][1]]


@given(cuts())
@settings(max_examples=examples(30), deadline=None,
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_any_sides_are_refused_with_figures_or_knitted_and_closed(
        drawn: tuple[str, Cut]) -> None:
    garment = shape(*drawn)
    if garment is not None:
        assert pieces.faults(garment) == []


@given(cuts())
@settings(max_examples=examples(30), deadline=None,
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_front_and_back_are_shaped_alike_row_for_row(drawn: tuple[str, Cut]) -> None:
    """Whoever sews a side seam meets decrease with decrease."""
    garment = shape(*drawn)
    if garment is None:
        return
    back, *fronts = (p for p in garment.pieces if p.key.endswith(("back", "front")))
    for front in fronts:
        assert below(front) == below(back)
        assert len(below(front)) == sum(c.stitches for c in below(front))  # one at a time


@given(cuts())
@settings(max_examples=examples(30), deadline=None,
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_every_width_is_reached_at_its_height(drawn: tuple[str, Cut]) -> None:
    """Within a stitch, as both sides are alike, and within half a row."""
    form, cut = drawn
    garment = shape(form, cut)
    if garment is None:
        return
    back = garment.pieces[0]
    foot = back.hem.rows * (back.hem.row or cut.gauge.row) + back.hem.rows_to_join * cut.gauge.row \
        if back.hem else Fraction(0)
    for name in ("hip", "waist"):
        if f"{name}_width" not in cut.measures or not back.levels:
            continue
        row = dict(back.levels)[name]
        wide = back.stitches.value + 2 * sum(c.outward for c in side(back) if c.row <= row)
        asked = cut.length(f"{name}_width").mm / cut.gauge.stitch + SEAMS
        assert abs(wide - asked) <= 1
        assert abs(row * cut.gauge.row + foot - cut.length(f"{name}_height").mm) \
            <= cut.gauge.row / 2
    if "hem_width" in cut.measures:
        asked = cut.length("hem_width").mm / cut.gauge.stitch + SEAMS
        assert abs(back.stitches.value - asked) <= 1


@given(cuts())
@settings(max_examples=examples(20), deadline=None,
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_gaps_of_one_slope_differ_by_a_row(drawn: tuple[str, Cut]) -> None:
    """Between two changes of one kind with no level between them."""
    garment = shape(*drawn)
    if garment is None:
        return
    back = garment.pieces[0]
    levels = [0, *(row for _, row in back.levels)]
    for low, high in pairwise(sorted(set(levels))):
        rows = [c.row for c in below(back) if low < c.row <= high]
        gaps = {b - a for a, b in pairwise(rows)}
        kinds = {c.how for c in below(back) if low < c.row <= high}
        if len(kinds) == 1 and gaps and low != dict(back.levels).get("waist"):
            assert max(gaps) - min(gaps) <= 1


@pytest.mark.parametrize("form", SHAPED)
def test_without_a_width_the_sides_are_straight(form: str) -> None:
    assembled, _ = made_of_source(form, "round", ())
    assert assembled is not None
    assert all(not piece.levels for piece in assembled.garment.pieces)


ALL = {"hem_width": "56 cm", "hip_width": "54 cm", "hip_height": "6 cm", "waist_width": "44 cm",
       "waist_height": "15 cm", "waist_straight": "3 cm", "chest_height": "30 cm"}


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("form", SHAPED)
def test_each_measure_of_the_sides_is_heard(form: str, name: str) -> None:
    """2 cm more of one of them alone changes what is knitted."""
    assert FORMS[form].optional.keys() >= ALL.keys()
    one, other = (made_of_source(form, "round", tuple(given.items()))[0] for given in (
        ALL, {**ALL, name: f"{ALL[name]} + 2 cm"}))
    assert one is not None and other is not None
    assert knitted(one.garment) != knitted(other.garment)


@pytest.mark.parametrize("form", SHAPED)
def test_a_sketch_has_its_waist_and_its_hem(form: str) -> None:
    """Where the drawn side is, across and up, against the counts times the gauge of the law."""
    one = case(form, (("hem_width", "60 cm"), ("waist_width", "40 cm"), ("waist_height", "18 cm"),
                      ("waist_straight", "4 cm")))
    assert one is not None
    assert max(one.body.xs) == pytest.approx(one.sts("back", "cast_on", 2) / 2, abs=NEAR)
    waist = one.rows("back", "rows_to_waist"), one.sts("back", "waist", 2) / 2
    assert any(y == pytest.approx(waist[0], abs=NEAR) and x == pytest.approx(waist[1], abs=NEAR)
               for x, y in one.body.points)
    wide, high = (one.measured["back", DimensionName(kind)]
                  for kind in (DimensionKind.WAIST_WIDTH, DimensionKind.TO_WAIST))
    assert wide == pytest.approx(one.sts("back", "waist"), abs=0.1)
    assert high == pytest.approx(waist[0], abs=0.1)


@pytest.mark.parametrize(("measures", "said"), [
    ({"waist_height": "20 cm"}, "which nothing uses: without waist_width the sides are straight"),
    ({"chest_height": "20 cm"}, "without hem_width or hip_width or waist_width"),
    ({"hem_width": "90 cm", "chest_height": "6 cm"}, "stitches to go or to come at each side"),
    ({"waist_width": "40 cm", "hip_width": "50 cm", "hip_height": "30 cm",
      "waist_height": "20 cm"}, "the waist at row"),
    ({"hip_width": "50 cm", "hip_height": "5 cm", "waist_width": "40 cm", "waist_height": "60 cm"},
     "the underarm at row"),
])
def test_sides_that_cannot_be_are_named(measures: dict[str, str], said: str) -> None:
    _, found = made_of_source("set-in pullover", "round", tuple(measures.items()))
    assert any(said in str(problem) for problem in found), [str(p) for p in found]


@given(cuts())
@settings(max_examples=examples(20), deadline=None,
          suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
def test_the_schedules_of_a_side_make_its_changes(drawn: tuple[str, Cut]) -> None:
    """Gap after gap, from their published numbers, row for row of each piece of the body."""
    garment = shape(*drawn)
    if garment is None:
        return
    for piece in garment.pieces:
        if not piece.key.endswith(("back", "front")):
            continue
        found = []
        for slope in piece.slopes:
            if not slope.name.startswith("side_to_"):
                continue
            of = {name: count.value for name, count in slope.figures}
            gaps = [of["shorter_gap"]] * of["shorter_times"] \
                + [of["longer_gap"]] * of["longer_times"]
            at = list(accumulate(gaps, initial=of["rows_below"]))
            assert at[-1] + of["rows_left"] == of["rows_below"] + of["rows"]
            found += [(row, slope.how) for row in at[1:]]
        assert found == [(change.row, change.how) for change in below(piece)]
