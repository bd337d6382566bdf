"""What must hold for every slit with its bands, and for the necks that begin and end on them."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from walebook.core.units import Length, read_length
from walebook.fabric.gauge import measure
from walebook.forms.registry import FORMS
from walebook.machine.steps import Side
from walebook.pattern.holes import Buttonholes, Distance
from walebook.pattern.model import CollarSpec, Fold, Neck, Pattern, Wearer
from walebook.proof.proof import SizeProof, prove
from walebook.shape.garment import CannotShape, Cut
from walebook.shape.piece import Ending

from tests.against import wardrobe
from tests.laws import pieces
from tests.scale import examples
from tests.site.garments import made_up
from tests.site.quay_lamp import built
from tests.whole_collection import collection

CLOSED = [name for name, form in FORMS.items() if "placket" in form.edges]


def mm(length: int) -> Length:
    return Length(Fraction(length))


@st.composite
def cuts(draw: st.DrawFn, form: str) -> Cut:
    key = draw(st.sampled_from(("women", "children")))
    chart = pieces.chart(key)
    around = Fraction(draw(st.integers(12, 40)))
    cut = pieces.cut(
        form, chart.measurements(draw(st.sampled_from(chart.sizes))),
        pieces.gauge(around, around * Fraction(draw(st.integers(115, 170)), 100)),
        own={"ease": f"{draw(st.integers(0, 20))} cm"},
        neck=draw(st.sampled_from(Neck)), band=draw(st.integers(8, 60)),
        hidden=draw(st.integers(1, 2)),
        hem=draw(st.none() | st.just(pieces.hem(30, Fold.LOOSE))))
    return replace(cut, placket=mm(draw(st.integers(30, 400))))


@pytest.mark.parametrize("form", CLOSED)
@given(data=st.data())
@settings(max_examples=examples(13), deadline=None,
          suppress_health_check=[HealthCheck.too_slow])
def test_a_slit_is_refused_with_figures_or_knitted_with_every_join_closed(
        form: str, data: st.DataObject) -> None:
    cut = data.draw(cuts(form))
    try:
        made = FORMS[form].shape(cut)
    except CannotShape as fault:
        assert any(mark.isdigit() for mark in fault.found) and fault.remedy
        return
    assert pieces.faults(made) == []
    front = next(p for p in made.pieces if p.key == "front")
    opening = front.opening
    assert opening is not None and opening.centre_ends is Ending.BIND_OFF
    # The slit, less what the bands hide, is as wide as a band, to a stitch.
    wide = (opening.centre + 2 * cut.hidden) * cut.gauge.stitch
    assert abs(wide - cut.bands.value) <= cut.gauge.stitch
    # Its two edges are alike, and so are the two sides of the neck that begins there.
    assert made.edges["right_placket"].places == made.edges["left_placket"].places
    sections = made.edges["neck"].sections
    assert [s.places for s in sections] == [s.places for s in sections[::-1]] or "raglan" in form
    assert not made.edges["neck"].ring


def with_placket(form: str, *, kind: str, wearer: Wearer = Wearer.WOMEN) -> Pattern:
    source = wardrobe.pattern(form)
    band = next(iter(source.bands.values()), None)
    assert band is not None and source.garment is not None
    sizes = source.sizes
    hole = Buttonholes(button=read_length("15 mm"), stitches=None,
                       buttonhole_count=dict.fromkeys(sizes, 3),
                       every=None, lower=Distance(stitches=3), upper=Distance(stitches=3),
                       front=Side.LEFT if wearer is Wearer.MEN else Side.RIGHT)
    depth = dict.fromkeys(sizes, read_length("4 cm"))
    bands = {"placket": replace(band, key="placket", edge="placket", kind="enclosing", depth=depth,
                                rows=None, buttonholes=hole, stitches_in=1),
             "neck": replace(band, key="neck", edge="neck", kind=kind, buttonholes=None,
                             collar=CollarSpec())}
    spec = replace(source.garment, placket=dict.fromkeys(sizes, read_length("14 cm")))
    return replace(source, bands=bands, garment=spec, wearer=wearer)


def proved(source: Pattern) -> tuple[SizeProof, ...]:
    proof, problems = prove(source)
    assert proof is not None, [str(p) for p in problems if p.severity.value == "error"]
    return proof.sizes


@pytest.mark.sampled(6, each=("form", "kind"))
@pytest.mark.parametrize("form", CLOSED)
@pytest.mark.parametrize("kind", ["folded", "enclosing", "stand collar", "shirt collar"])
def test_the_neck_begins_and_ends_on_the_placket_bands(form: str, kind: str) -> None:
    for size in proved(with_placket(form, kind=kind)):
        slit, neck = size.plans
        first, last = neck.edge_path.sections[0], neck.edge_path.sections[-1]
        rows = slit.depth.value
        assert first.places == last.places == ((rows + 1) // 2 if kind == "shirt collar" else rows)
        plain, holed, _ = size.strips
        assert (holed.front, plain.front) == (Side.RIGHT, Side.LEFT)
        assert holed.with_holes and not plain.with_holes


def test_the_left_placket_band_has_the_holes_for_men() -> None:
    """The Naked Sheep, The One-Row Buttonhole (B09): holes on women's right, men's left front."""
    for size in proved(with_placket("set-in pullover", kind="folded", wearer=Wearer.MEN)):
        assert [s.front for s in size.strips if s.with_holes] == [Side.LEFT]


@pytest.mark.parametrize(("wearer", "front"), [(Wearer.MEN, "left"), (Wearer.WOMEN, "right")])
def test_without_holes_the_same_band_lies_on_top(wearer: Wearer, front: str) -> None:
    source = with_placket("set-in pullover", kind="folded", wearer=wearer)
    plain = replace(source.bands["placket"], buttonholes=None)
    for size in proved(replace(source, bands={**source.bands, "placket": plain})):
        assert size.assembled is not None
        assert any(f"the {front} band on top" in s for s in made_up(size.assembled.garment))


def test_a_slit_as_wide_as_its_band_in_a_printed_example() -> None:
    """The placket page's printed handbook: a slit as wide as the band, 6 stitches in its example.

    Six stitches of 5 mm are a band of 30 mm that hides none of either edge.
    """
    known = pieces.chart("women").measurements("M")
    cut = replace(pieces.cut("drop-shoulder pullover", known, pieces.gauge(20, 28), band=30,
                             hidden=0), placket=mm(140))
    front = next(p for p in FORMS["drop-shoulder pullover"].shape(cut).pieces if p.key == "front")
    assert front.opening is not None and front.opening.centre == 6


@pytest.mark.parametrize("slug", ["mudlark-pullover", "harbour-master-pullover"])
def test_a_slits_bands_are_sewn_over_as_many_stitches_as_they_are_deep(slug: str) -> None:
    """Fewer are bound off than that: the bands reach over stitches on either side of them."""
    proof = next(p for p in collection().proofs if p.pattern.slug == slug)
    for size in proof.sizes:
        assert size.assembled is not None
        join = next(j for j in size.assembled.garment.joins if j.title.startswith("placket"))
        said = next(s for s in made_up(size.assembled.garment) if "foot of the slit" in s)
        over = re.search(r"Sew each end over (\d+) stitches", said)
        assert over, said
        stitch = measure(proof.pattern.fabrics["body"].swatches).stitch
        assert abs(int(over[1]) * stitch - join.one) <= join.tolerance


def test_both_placket_bands_are_closed_at_their_ends_and_told_from_the_foot() -> None:
    proof, _ = prove(with_placket("raglan pullover", kind="double shirt collar"))
    assert proof is not None
    (text,) = [page for path, page in built(proof).items() if path.endswith("/m.md")]
    slit = text[text.index('<h2 id="placket-left">'):text.index('<h2 id="neck-right">')]
    assert slit.count("two short ends shut") == 2
    assert "The foot is at the left" in slit and "The foot is at the right" in slit
    assert "centre front" in text[text.index('<h2 id="neck-right">'):]
    assert "on top, the other one beneath it" in text[text.index('<h2 id="making-up">'):]


@pytest.mark.parametrize("kind", ["enclosing", "stand collar", "shirt collar"])
def test_the_neck_goes_on_where_the_placket_band_was_hung(kind: str) -> None:
    """What a band takes in of the slit's edge lies beneath its top: no band hangs there again.

    From slit to shoulder a round front neck is as wide as half the neck less half the slit;
    counted here from the piece: the stitches its front loses beside the slit (geometry).
    """
    for size in proved(with_placket("set-in pullover", kind=kind)):
        slit, neck = size.plans
        front = next(p.piece for p in size.pieces if p.piece.key == "front")
        assert front.opening is not None
        at_once = front.opening.inner.changes[0]
        whole = next(s.places for s in size.assembled.garment.edges["neck"].sections) \
            if size.assembled else 0
        assert at_once.how.is_level and at_once.stitches > slit.band.stitches_in
        assert neck.edge_path.sections[1].places == neck.edge_path.sections[-2].places \
            == whole - slit.band.stitches_in
