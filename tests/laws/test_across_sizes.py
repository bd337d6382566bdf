"""What must hold from each size to the next: figures that follow the body do so steadily."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.problems import Place
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.plan.across_bands import out_of_step
from walebook.shape.garment import CannotShape, Garment
from walebook.shape.profile import How

from tests.laws import pieces
from tests.laws.test_any_source import judged
from tests.scale import examples


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
@settings(max_examples=examples(7), deadline=None)
def test_the_flat_top_of_a_cap_is_a_quarter_of_the_sleeve_in_every_size(
        key: str, gauge: Gauge, ease: int) -> None:
    made = [g for g in sizes_of(key, gauge, ease) if is_free(g)]
    for garment in made:
        assert abs(flat_top(garment) - max(4, Fraction(upper_arm(garment), 4))) <= 1
    by_arm = sorted((upper_arm(g), flat_top(g)) for g in made)
    tops = [top for _, top in by_arm]
    assert tops == sorted(tops)


@given(st.sampled_from(("women", "children")), gauges(), st.integers(0, 20))
@settings(max_examples=examples(7), deadline=None)
def test_every_cap_fits_its_armhole_within_a_row_and_is_knitted(
        key: str, gauge: Gauge, ease: int) -> None:
    for garment in sizes_of(key, gauge, ease):
        cap = garment.joins[-1]
        assert cap.title == "sleeve cap and armhole" and cap.closes
        assert abs(cap.other - cap.one - ease) <= max(5, gauge.row)
        assert pieces.knit(garment.pieces[-1])[1].refusal is None


SLACK_TIDE = (pieces.SIZES.parent / "slack-tide-cardigan/pattern.yaml").read_text(encoding="utf-8")


def out_of(text: str) -> list[str]:
    return [f"{p.size}: {p.found}" for p in judged(text)[1] if p.code == "out-of-step"]


def test_a_neck_that_falls_where_its_neighbours_rise_is_reported() -> None:
    """Fronts rounded each for itself: 49 cm of neck in XS, 47.6 in S, 51.9 in M."""
    assert out_of(SLACK_TIDE) == []
    old = SLACK_TIDE.replace("  neck: round\n", "  neck: round\n  round: {right front cast on: "
                             "nearest}\n")
    assert [said.partition(" falls")[0] for said in out_of(old)] == [
        "S: edge neck [cm]", "XL: edge neck [cm]", "XL: edge front and neck [cm]"]


def test_of_a_designers_measure_that_jumps_nothing_is_said_that_follows_from_it() -> None:
    """An ease of 30 cm in one size makes its chest, its counts and its edges jump too."""
    sizes = ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X")
    ease = ", ".join(f"{size}: {30 if size == 'L' else 8} cm" for size in sizes)
    told = out_of(SLACK_TIDE.replace("ease: 8 cm", f"ease: {{{ease}}}"))
    assert told and {said.partition(": ")[2].partition(" [")[0] for said in told} == {"ease"}


def band_in(lengths: dict[str, str], depths: dict[str, int]) -> list[str]:
    """What is found of a neckband of so many cm and rows on an edge that rises steadily."""
    plans = [SimpleNamespace(size=size, stitches=SimpleNamespace(value=Fraction(cm)),
                             deep=SimpleNamespace(value=Fraction(5 * depths[size])),
                             gauge=SimpleNamespace(stitch=10),
                             edge_path=SimpleNamespace(length=Fraction(400 + 20 * n)))
             for n, (size, cm) in enumerate(lengths.items())]
    band = SimpleNamespace(key="neck", title="Neckband", edge="neck")
    places = SimpleNamespace(of=lambda *_: Place("law", 1, 1))
    return [f"{p.size}: {p.found}" for p in out_of_step(places, {}, band, plans)]  # type: ignore[arg-type]


def test_a_band_alone_that_runs_against_its_neighbours_is_reported() -> None:
    even = dict.fromkeys(("XS", "S", "M", "L"), 12)
    assert band_in({"XS": "44.6", "S": "46", "M": "47.5", "L": "49"}, even) == []
    assert band_in({"XS": "44.6", "S": "43.2", "M": "47.5", "L": "49"}, even) == [
        "S: Neckband, length [cm] falls from XS 44.6 to S 43.2, against its neighbours"]
    (jump,) = band_in({"XS": "44.6", "S": "46", "M": "47.5", "L": "69"}, even)
    assert jump.startswith("L: Neckband, length [cm] goes from M 47.5 to L 69")
    (shallow,) = band_in({"XS": "44.6", "S": "46", "M": "47.5", "L": "49"},
                         {"XS": 12, "S": 16, "M": 8, "L": 20})
    assert shallow.startswith("M: Neckband, depth [cm] falls")


@given(st.sampled_from(("drop-shoulder cardigan", "set-in cardigan", "set-in waistcoat")),
       st.sampled_from(("women", "men", "children", "babies")), gauges(), st.integers(0, 60))
@settings(max_examples=examples(8), deadline=None)
def test_a_front_is_within_a_stitch_of_its_width_and_has_the_better_neck(
        form: str, key: str, gauge: Gauge, band: int) -> None:
    """Of two fronts next to the exact width the one with the better neck: never a stitch off."""
    for size in pieces.chart(key).sizes:
        known = pieces.chart(key).measurements(size)
        own = {"body_length": "back_hip_length"} if key == "men" else {}
        cut = pieces.cut(form, known, gauge, band=band, own=own)
        try:
            garment = FORMS[form].shape(cut)
        except CannotShape:
            continue
        counts = {(part, name): count for part, name, count in garment.counts}
        width = counts["right_front", "cast_on"]
        assert abs(width.value - width.exact) < 1
        wanted = (cut.length("neck_width").mm - band) / 2 / gauge.stitch + cut.hidden
        off = counts["right_front", "neck_stitches"].value - wanted
        other = off + (1 if width.value < width.exact else -1)
        assert width.value == width.exact or abs(off) <= abs(other)
