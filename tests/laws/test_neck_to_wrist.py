"""The way from the centre of the back neck to the wrist, as knitted, against the measures."""

from __future__ import annotations

from fractions import Fraction
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.forms.registry import FORMS
from walebook.plan.whole_checks import with_neck_to_wrist
from walebook.proof.advice import advise_all
from walebook.shape.garment import CannotShape, Cut, Garment
from walebook.shape.outline import outline
from walebook.words.terms.body_length_names import NECK_TO_WRIST
from walebook.words.terms.working import working_of

from tests.laws import pieces
from tests.scale import examples
from tests.whole_collection import collection

ARMS = [f"{form} {what}" for form in ("drop-shoulder", "set-in", "raglan", "saddle raglan")
        for what in ("pullover", "cardigan")] + ["sideways pullover"]


def over_the_shoulder(form: str, cut: Cut) -> float:
    """From the centre back to the sleeve, by the measures alone, a shoulder along its slope."""
    half = {name: float(cut.length(name).mm) / 2 for name in cut.measures
            if cut.measures[name].is_length}
    if "raglan" in form:
        return half["neck_width"] + (0 if "saddle" in form else half["sleeve_top"])
    if form == "sideways pullover":  # straight across, without a slope
        return half["chest_width"]
    across = half["across"] if "set-in" in form else half["chest_width"]
    return half["neck_width"] + hypot(across - half["neck_width"], 2 * half["shoulder_drop"])


def shaped(form: str, cut: Cut) -> Garment | None:
    try:
        return FORMS[form].shape(cut)
    except CannotShape:
        return None


@pytest.mark.parametrize("form", ARMS)
@given(size=st.sampled_from(pieces.chart("women").sizes), stitches=st.integers(16, 36),
       rows=st.integers(22, 52), hem=st.sampled_from((None, 30)))
@settings(max_examples=examples(6), deadline=None)
def test_it_is_half_the_neck_the_shoulder_and_what_the_bed_counts_of_the_sleeve(
        form: str, size: str, stitches: int, rows: int, hem: int | None) -> None:
    gauge = pieces.gauge(stitches, rows)
    cut = pieces.cut(form, dict(pieces.chart("women").measurements(size)), gauge,
                     hem=pieces.hem(hem, pieces.Fold.LOOSE) if hem else None)
    garment = shaped(form, cut)
    if garment is None:
        return
    (sleeve,) = [p for p in garment.pieces if p.key == "sleeve"]
    rows = pieces.last_row(*pieces.knit(sleeve))
    along = rows * gauge.row + (sleeve.hem.depth(gauge.row) if sleeve.hem else 0)
    measured = with_neck_to_wrist(garment, cut)
    way, working = measured.finished[NECK_TO_WRIST].mm, working_of(measured.lengths[NECK_TO_WRIST])
    parts = [Fraction(said.split()[-1]) for said in working.partition(" = ")[0].split(" + ")]
    assert sum(parts) == way and f"= {measured.finished[NECK_TO_WRIST].in_mm()}" in working
    assert abs(parts[-1] - outline(sleeve, gauge).height) <= Fraction(1, 20)
    expected = over_the_shoulder(form, cut) + float(along)
    assert abs(float(way) - expected) <= float(2 * gauge.stitch + 2 * gauge.row)


def before_the_sleeve(garment: Garment, cut: Cut) -> Fraction:
    """The way without its last part, the sleeve as it is drawn [mm]."""
    (sleeve,) = [p for p in garment.pieces if p.key == "sleeve"]
    way = with_neck_to_wrist(garment, cut).finished[NECK_TO_WRIST].mm
    return way - outline(sleeve, cut.gauge).height


@pytest.mark.parametrize(("form", "own"), [
    ("drop-shoulder pullover", {"shoulder_drop": "0 cm"}),
    ("drop-shoulder cardigan", {"shoulder_drop": "0 cm"}), ("raglan pullover", {}),
    ("raglan cardigan", {})])
@given(size=st.sampled_from(pieces.chart("women").sizes), stitches=st.integers(16, 36),
       rows=st.integers(22, 52))
@settings(max_examples=examples(6), deadline=None)
def test_seams_take_a_stitch_of_either_side_of_the_way(
        form: str, own: dict[str, str], size: str, stitches: int, rows: int) -> None:
    """A stitch of either piece lies in a seam (G05, C09: engine/forms/body_counts.py).

    Each part of the way is a length to the tenth of a millimetre: half of one is the most by which
    a part is off.
    """
    cut = pieces.cut(form, dict(pieces.chart("women").measurements(size)),
                     pieces.gauge(stitches, rows), band=24, own=own)
    garment = shaped(form, cut)
    if garment is None:
        return
    across = {piece.key: piece.top for piece in garment.pieces}
    made = [across["back"], across["sleeve"]] if "raglan" in form else [
        next(piece.stitches.value for piece in garment.pieces if piece.key == "back")]
    expected = sum((Fraction(each - 2, 2) for each in made), Fraction(0)) * cut.gauge.stitch
    assert abs(before_the_sleeve(garment, cut) - expected) <= Fraction(3, 20)


@pytest.mark.parametrize("form", [name for name in FORMS if name not in ARMS])
def test_what_has_no_sleeve_has_no_such_way(form: str) -> None:
    chart = pieces.chart("heads" if form in ("hat", "mitten") else "women")
    known = chart.measurements(chart.sizes[0])
    if form == "mitten":
        known = pieces.chart("women").measurements("M")
    own = {"mitten_width": "20 cm", "thumb_width": "7 cm"} if form == "mitten" else None
    cut = pieces.cut(form, dict(known), pieces.gauge(28, 40), own=own)
    garment = shaped(form, cut)
    assert garment is None or NECK_TO_WRIST not in with_neck_to_wrist(garment, cut).finished


def test_a_short_sleeve_is_held_to_no_wrist() -> None:
    """Half the way to the wrist is a short sleeve, as the designer asks: no ease is given.

    That a sleeve above the elbow is no misfit is common practice, no source.
    """
    told = {proof.pattern.slug: advise_all(proof) for proof in collection().proofs}
    for slug, has in (("tide-pool-top", False), ("little-lamp-cardigan", True)):
        advice = told[slug]
        assert advice is not None
        assert all(has == any(fit.name == NECK_TO_WRIST for fit in size.fits)
                   for size in advice.sizes)
