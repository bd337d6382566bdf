"""What must hold of the yarn a size needs, recounted from the programs and the swatches.

The mass of a stitch is that of a weighed swatch by its stitches and rows, mass scaling with the
fabric knitted (worked example Y06); the allowance of a tenth is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.counts import Unit
from walebook.forms.registry import FORMS
from walebook.model import Fold, Pattern, Yarn
from walebook.need import YarnNeed, needs, unweighed
from walebook.problems import Severity
from walebook.program import MAIN
from walebook.proof import SizeProof
from walebook.steps import Hang, Knit
from walebook.units import read_length

from tests.against.wardrobe import BAND, BODIES, BODY, pattern, proved

BODY_STITCH = Fraction(10, 20 * 30)  # [g], from the swatches of the wardrobe
BAND_STITCH = Fraction(11, 20 * 30)
CARDIGAN = "set-in cardigan"


def asked(form: str, **how) -> Pattern:
    """A pattern of the form, the shawl without the hem that it cannot have."""
    return pattern(form, **({"fold": None} if "shawl" in form else {}), **how)


def only(made: Pattern) -> list[tuple[SizeProof, YarnNeed]]:
    """Every size with what it needs of the one yarn there is."""
    pairs = [(size, needs(made, size)) for size in proved(made).sizes]
    assert all(len(need) == 1 for _, need in pairs)
    return [(size, need[0]) for size, need in pairs]


def knitted_with(size: SizeProof) -> int:
    """All stitches of the main yarn, of every piece as often as it is knitted, and every strip."""
    times = size.dressed.garment.times
    return (sum(dict(p.run.stitches)[MAIN] * times.get(p.piece.key, 1) for p in size.pieces)
            + sum(dict(s.run.stitches)[MAIN] for s in size.strips))


@pytest.mark.parametrize("form", FORMS)
def test_every_stitch_is_counted_once(form):
    for size, need in only(asked(form)):
        assert sum(p.stitches.value for p in need.parts) == knitted_with(size)
        assert all(p.stitches.unit is Unit.STITCHES for p in need.parts)


@pytest.mark.parametrize("form", BODIES)
def test_the_mass_is_that_of_the_swatches_stitch_by_stitch(form):
    """The hem is knitted at the band's dial, and there is a weighed swatch of that."""
    for size, need in only(pattern(form)):
        times = size.dressed.garment.times
        hems = sum(p.piece.hem.knitted(p.piece.stitches.value) * times.get(p.piece.key, 1)
                   for p in size.pieces if p.piece.hem)
        bands = sum(dict(s.run.stitches)[MAIN] for s in size.strips)
        tight = bands + (hems if bands else 0)  # no band, no fabric of that dial
        grams = tight * BAND_STITCH + (knitted_with(size) - tight) * BODY_STITCH
        assert need.knitted.grams == grams
        assert need.amount.grams == grams * Fraction(11, 10)
        assert not need.cautions


@pytest.mark.parametrize("fold", [Fold.LOOSE, Fold.PICOT])
def test_the_stitches_of_a_hem_are_those_before_the_row_that_closes_it(fold):
    for k in proved(pattern(CARDIGAN, fold=fold)).sizes[0].pieces:
        rows = 0
        for step, state in zip(k.program.steps, k.run.states, strict=True):
            if isinstance(step, Hang):
                break
            if isinstance(step, Knit) and state.feeder == MAIN:
                rows += step.rows
        assert k.piece.hem.knitted(k.piece.stitches.value) == k.piece.stitches.value * rows


@pytest.mark.parametrize("form", BODIES)
def test_metres_and_packages_follow_the_package(form):
    """A package of 100 g is 118 m long, as the wardrobe has it; a part of one counts whole."""
    for _, need in only(pattern(form)):
        assert need.amount.metres == need.amount.grams * Fraction(118, 100)
        assert (need.packages.value - 1) * 100 < need.amount.grams <= need.packages.value * 100
        assert need.metres.value - 1 < need.amount.metres <= need.metres.value
        assert need.grams.value - 1 < need.amount.grams <= need.grams.value
        assert need.yards * Fraction("0.9144") >= need.amount.metres
        assert {name for name, _ in need.counts} >= {"grams", "metres", "packages"}


@pytest.mark.parametrize("form", BODIES)
def test_larger_sizes_need_more(form):
    grams = [need.amount.grams for _, need in only(pattern(form))]
    assert grams == sorted(grams)
    assert len(set(grams)) == len(grams)


def test_mass_scales_with_the_swatch():
    light = only(pattern(CARDIGAN, band=None))
    heavy = only(pattern(CARDIGAN, band=None, body=replace(BODY, mass_g=Fraction(30))))
    for (_, a), (_, b) in zip(light, heavy, strict=True):
        assert b.amount.grams == 3 * a.amount.grams


def test_what_was_not_weighed_is_an_estimate_and_says_so():
    made = pattern(CARDIGAN, body=replace(BODY, mass_g=None), band=BAND)
    for _, need in only(made):
        assert need.knitted.basis.is_estimate
        assert need.cautions == ("no swatch of fabric body was weighed: its yarn is estimated from "
                                 "the area of a stitch",)
    found = unweighed(made, proved(made).sizes)
    assert [(p.severity, p.code) for p in found] == [(Severity.CAUTION, "yarn-not-weighed")]


def test_without_a_label_there_are_no_packages_and_one_figure():
    made = pattern(CARDIGAN)
    bare = replace(made, yarns={"wool": Yarn(key="wool", name="Breakwater Bulky")})
    for _, need in only(bare):
        assert need.packages is None
        assert need.metres is None
        assert need.grams.value > 0
    unweighed_too = replace(bare, fabrics={
        key: replace(f, swatches=tuple(replace(s, mass_g=None) for s in f.swatches))
        for key, f in bare.fabrics.items()})
    for _, need in only(unweighed_too):
        assert (need.grams, need.packages) == (None, None)
        assert need.metres.value > 0
        assert "Back" in need.metres.working


def test_a_band_that_was_not_swatched_leans_on_its_edge_or_on_its_area():
    made = pattern(CARDIGAN)
    ruled = replace(made, bands={"neck": replace(made.bands["neck"], fabric=None,
                                                 pick_up=Fraction(3, 4))})
    for size, need in only(ruled):
        part = next(p for p in need.parts if p.key == "neck")
        stitches = sum(dict(s.run.stitches)[MAIN] for s in size.strips)
        assert part.amount.grams == stitches * BODY_STITCH
        assert part.cautions == ("the neckband was not swatched: its stitches are taken to need as "
                                 "much yarn as those of fabric body",)
    other = replace(ruled, bands={"neck": replace(ruled.bands["neck"], yarn="silk")}, yarns={
        **made.yarns, "silk": Yarn(key="silk", name="Lantern Silk", package_g=Fraction(50),
                                   package_length=read_length("200 m"))})
    for size in proved(other).sizes:
        wool, silk = needs(other, size)
        assert {p.key for p in silk.parts} == {"neck"}
        assert "neck" not in {p.key for p in wool.parts}
        assert silk.cautions == ("the neckband was not swatched: its yarn is estimated from the "
                                 "area of its stitches",)
