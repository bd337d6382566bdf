"""What must hold of the yarn a size needs, recounted from the programs and the swatches.

The mass of a stitch is that of a weighed swatch by its stitches and rows, mass scaling with the
fabric knitted (worked example Y06); the allowance of a tenth on it is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.core.counts import Unit
from walebook.core.problems import Severity
from walebook.core.units import read_length
from walebook.core.yarn_parts import Beside
from walebook.fabric.gauge import measure
from walebook.fabric.yarn import loop_millimetres
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff, Hang, TakeOff
from walebook.machine.reasons import Reason
from walebook.machine.step_keys import BindOffMethod, CastOnMethod, StepYarn
from walebook.machine.steps import Attend, CastOn, HandKnit, Knit, Thread
from walebook.pattern.fabrics import Yarn
from walebook.pattern.model import Fold, Pattern
from walebook.proof.proof import SizeProof, Strip
from walebook.proof.yarn_requirement import (
    YarnRequirement,
    unweighed,
    waste_metres,
    yarn_requirements,
)
from walebook.proof.yarn_shares import YarnShare
from walebook.shape.garment import Kindred
from walebook.words.terms.working import working_of
from walebook.words.terms.yarn_shares_named import extra_title, share_title, yarn_caution

from tests.against.wardrobe import BAND, BODIES, BODY, pattern, proved

BODY_STITCH = Fraction(10, 20 * 30)  # [g], from the swatches of the wardrobe
BAND_STITCH = Fraction(11, 20 * 30)
CARDIGAN = "set-in cardigan"


def asked(form: str, **how) -> Pattern:
    """A pattern of the form, the shawl without the hem that it cannot have."""
    return pattern(form, **({"fold": None} if "shawl" in form else {}), **how)


def only(made: Pattern) -> list[tuple[SizeProof, YarnRequirement]]:
    """Every size with what it needs of the one yarn there is."""
    pairs = [(size, yarn_requirements(made, size)) for size in proved(made).sizes]
    assert all(len(need) == 1 for _, need in pairs)
    return [(size, need[0]) for size, need in pairs]


def said_of(of: YarnRequirement | YarnShare) -> tuple[str, ...]:
    """What its amount is based on, in words."""
    return tuple(map(yarn_caution, of.cautions))


def knitted_with(size: SizeProof) -> int:
    """All stitches of the main yarn, of every piece as often as it is knitted, and every strip."""
    times = size.assembled.garment.times
    return (sum(dict(p.trace.stitches)[StepYarn.MAIN] * times.get(p.piece.key, 1)
                for p in size.pieces)
            + sum(dict(s.trace.stitches)[StepYarn.MAIN] for s in size.strips))


@pytest.mark.parametrize("form", FORMS)
def test_every_stitch_is_counted_once(form):
    for size, need in only(asked(form)):
        assert sum(p.stitches.value for p in need.parts) == knitted_with(size)
        assert all(p.stitches.unit is Unit.STITCHES for p in need.parts)


@pytest.mark.parametrize("form", BODIES)
def test_the_mass_is_that_of_the_swatches_stitch_by_stitch(form):
    """The hem is knitted at the band's dial, and there is a weighed swatch of that."""
    for size, need in only(pattern(form)):
        times = size.assembled.garment.times
        hems = sum(p.piece.hem.knitted(p.piece.stitches.value) * times.get(p.piece.key, 1)
                   for p in size.pieces if p.piece.hem)
        bands = sum(dict(s.trace.stitches)[StepYarn.MAIN] for s in size.strips)
        tight = bands + (hems if bands else 0)  # no band, no fabric of that dial
        grams = tight * BAND_STITCH + (knitted_with(size) - tight) * BODY_STITCH
        assert need.knitted.grams == grams
        more = sum(extra.amount.grams for extra in need.extras)
        assert need.amount.grams == grams * Fraction(11, 10) + more
        assert not need.cautions


PITCH = Fraction(9)  # [mm], the bed of the wardrobe
HAND = Fraction(150)  # [mm] of every tail; common practice, no source
METRES_A_GRAM = Fraction(118, 100)


def cut_for(program, needles: int) -> Fraction:
    """The yarn that is cut or worked by hand for a program [mm], its rules common practice.

    Four widths to cast on by hand, three to bind off stitch over stitch, three to draw up
    ("Mobius scarf: waste knitting", Diana Sullivan, 2015, W3-030), eight
    for a band's last row, of which three are in its stitches, three to sew waiting ones down.
    """
    mm = Fraction(0)
    for step in program.steps:
        match step:
            case CastOn(method=CastOnMethod.BY_HAND):
                mm += 4 * len(step.needles) * PITCH
            case BindOff(method=BindOffMethod.STITCH_OVER):
                mm += 3 * len(step.needles) * PITCH
            case BindOff(method=BindOffMethod.GATE_PEGS, keep_last=False):
                mm += 4 * len(step.needles) * PITCH
            case TakeOff(reason=Reason.DRAWN_UP):
                mm += 3 * (step.needles.last.place - step.needles.first.place + 1) * PITCH
            case HandKnit(cord=""):
                mm += 5 * needles * PITCH
            case Thread(yarn=StepYarn.MAIN, fresh=True):
                mm += 2 * HAND
    return mm


def cut_for_ends(strip: Strip, swatch=BAND) -> Fraction:
    """What sews a band's short ends shut [mm]: for each three times its depth, "Sewn hem",
    victoriamarchantknits.com, and a hand's length at either end, common practice, no source."""
    each = 3 * strip.plan.depth.value * measure([swatch]).row + 2 * HAND
    shut = any(isinstance(s, Attend) and s.to == "sew ends" for s in strip.program.steps)
    return 2 * each if shut and not strip.plan.edge_path.ring else Fraction(0)


@pytest.mark.parametrize("form", FORMS)
def test_ends_are_those_that_the_steps_cut(form):
    for size, need in only(asked(form)):
        times = size.assembled.garment.times
        mm = sum(cut_for(p.program, 0) * times.get(p.piece.key, 1) for p in size.pieces)
        # three times a long edge that is sewn off, by its own length: "Mobius scarf", W3-030
        mm += sum(3 * p.piece.bound_off_to.length.mm for p in size.pieces if p.piece.bound_off_to)
        mm += sum(cut_for(s.program, len(s.layout.needles)) + cut_for_ends(s) for s in size.strips)
        ends = next(e for e in need.extras if e.part.what is Beside.ENDS)
        assert ends.amount.metres == mm / 1000
        assert ends.amount.grams == mm / 1000 / METRES_A_GRAM


@pytest.mark.parametrize("form", BODIES)
def test_a_swatch_of_every_fabric_is_counted_with_its_margin(form):
    """At the mass that it states; half as much again for the edges: common practice, no source."""
    for _, need in only(pattern(form)):
        found = {extra_title(e.part): e.amount.grams for e in need.extras
                 if e.part.what in (Beside.SWATCH, Beside.MARGINS)}
        margins = found.pop("margins of the swatches, half as much again")
        assert found.pop("swatch of the garment") == 10
        assert found in ({}, {"swatch of the hem and neckband": 11})
        assert margins == Fraction(10 + sum(found.values()), 2)


@pytest.mark.parametrize("form", BODIES)
def test_seams_take_three_times_their_length(form):
    """Every side of every piece as if it were sewn, with its hem, two to a seam, and either end of
    every band; common practice, no source. Shoulders bound off together take four times their
    width, as any chain, and a hand's length each."""
    row, stitch, high = Fraction(151, 30), Fraction(142, 20), measure([BAND]).row
    for size, need in only(pattern(form)):
        garment = size.assembled.garment
        up = sum(((p.piece.rows + p.piece.hem.rows_to_join) * row + p.piece.hem.rows
                  * (p.piece.hem.row or row)) * garment.times.get(p.piece.key, 1)
                 if p.piece.hem else p.piece.rows * row * garment.times.get(p.piece.key, 1)
                 for p in size.pieces)
        # a join that names no side is made on both
        chained, across = (sum(j.one * (1 if j.side else 2) for j in garment.joins
                               if j.kindred is Kindred.STITCHES and bool(j.method) is shoulder)
                           for shoulder in (True, False))
        hands = sum(HAND * (1 if j.side else 2) for j in garment.joins if j.method)
        # both ends of a neckband that goes round are sewn to each other with a length cut for it
        hands += sum(2 * HAND for s in size.strips
                     if s.plan.edge_path.ring and s.plan.band.edge == "neck")
        ends = sum(2 * s.plan.depth.value * high for s in size.strips)
        seams = next(e for e in need.extras if e.part.what is Beside.SEAMS)
        sewn = 3 * (up + ends + across * stitch)
        assert seams.amount.metres == (sewn + 4 * chained * stitch + hands) / 1000


def test_a_garment_in_one_piece_without_joins_has_no_seams():
    for _, need in only(asked("triangular shawl")):
        assert not [e for e in need.extras if e.part.what is Beside.SEAMS]


def test_waste_yarn_is_told_from_its_rows():
    """Eight rows and a cast-on before every hem, eight after every edge that waits; a stitch has an
    area, and a loop that is cast on counts as one (common practice, no source)."""
    made = pattern(CARDIGAN)
    for size in proved(made).sizes:
        times = size.assembled.garment.times
        stitches = sum(dict(s.trace.stitches)[StepYarn.WASTE] + len(s.layout.needles)
                       for s in size.strips)
        for piece in size.pieces:
            off = sum(len(s.needles) for s in piece.program.steps
                      if isinstance(s, TakeOff) and not s.by_needle)
            each = 9 * piece.piece.stitches.value + 8 * off
            stitches += each * times.get(piece.piece.key, 1)
        loop = loop_millimetres(measure([BODY]))
        needed = waste_metres(made.garment, made.fabrics, size).value
        assert needed - 1 < stitches * loop / 1000 <= needed


@pytest.mark.parametrize("fold", [Fold.LOOSE, Fold.PICOT])
def test_the_stitches_of_a_hem_are_those_before_the_row_that_closes_it(fold):
    for k in proved(pattern(CARDIGAN, fold=fold)).sizes[0].pieces:
        rows = 0
        for step, state in zip(k.program.steps, k.trace.states, strict=True):
            if isinstance(step, Hang):
                break
            if isinstance(step, Knit) and state.feeder == StepYarn.MAIN:
                rows += step.rows
        assert k.piece.hem.knitted(k.piece.stitches.value) == k.piece.stitches.value * rows


@pytest.mark.parametrize("form", BODIES)
def test_metres_and_packages_follow_the_package(form):
    """A package of 100 g is 118 m long, as the wardrobe has it; a part of one counts whole."""
    for _, need in only(pattern(form)):
        assert need.amount.metres == need.amount.grams * METRES_A_GRAM
        assert (need.packages.value - 1) * 100 < need.amount.grams <= need.packages.value * 100
        assert need.metres.value - 1 < need.amount.metres <= need.metres.value
        assert need.grams.value - 1 < need.amount.grams <= need.grams.value
        assert need.yards * Fraction("0.9144") >= need.amount.metres
        assert {name for name, _ in need.counts} >= {"grams", "metres", "packages"}


@pytest.mark.parametrize("form", BODIES)
def test_what_is_knitted_again_is_summed_up_once_in_words(form):
    for size, need in only(pattern(form)):
        again = [p for p in need.parts if p.times > 1]
        assert all(share_title(p.part).count("together") == 1 for p in again)
        said = working_of(need.grams)
        assert said.count("together") == len(again)
        assert bool(again) == bool({*size.assembled.garment.times.values()} - {1} or
                                   len({s.plan.band.key for s in size.strips}) < len(size.strips))


@pytest.mark.parametrize("form", BODIES)
def test_larger_sizes_need_more(form):
    grams = [need.amount.grams for _, need in only(pattern(form))]
    assert grams == sorted(grams)
    assert len(set(grams)) == len(grams)


def test_mass_scales_with_the_swatch():
    light = only(pattern(CARDIGAN, band=None))
    heavy = only(pattern(CARDIGAN, band=None, body=replace(BODY, mass_g=Fraction(30))))
    for (_, a), (_, b) in zip(light, heavy, strict=True):
        assert b.knitted.grams == 3 * a.knitted.grams


def test_what_was_not_weighed_is_an_estimate_and_says_so():
    made = pattern(CARDIGAN, body=replace(BODY, mass_g=None), band=BAND)
    for _, need in only(made):
        assert need.knitted.basis.is_estimate
        assert said_of(need) == ("no swatch of the garment was weighed: its yarn is estimated from "
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
        assert said_of(need) == ("its package tells no length: ends and seams come on top",)
    unweighed_too = replace(bare, fabrics={
        key: replace(f, swatches=tuple(replace(s, mass_g=None) for s in f.swatches))
        for key, f in bare.fabrics.items()})
    for _, need in only(unweighed_too):
        assert (need.grams, need.packages) == (None, None)
        assert need.metres.value > 0
        assert "Back" in working_of(need.metres)


def test_a_band_that_was_not_swatched_leans_on_its_edge_or_on_its_area():
    made = pattern(CARDIGAN)
    ruled = replace(made, bands={"neck": replace(made.bands["neck"], fabric=None,
                                                 pick_up=Fraction(3, 4))})
    for size, need in only(ruled):
        part = next(p for p in need.parts if p.key == "neck")
        stitches = sum(dict(s.trace.stitches)[StepYarn.MAIN] for s in size.strips)
        assert part.amount.grams == stitches * BODY_STITCH
        assert said_of(part) == ("the neckband was not swatched: its stitches are taken to need as "
                                 "much yarn as those of the edge that it is knitted on",)
    other = replace(ruled, bands={"neck": replace(ruled.bands["neck"], yarn="silk")}, yarns={
        **made.yarns, "silk": Yarn(key="silk", name="Lantern Silk", package_g=Fraction(50),
                                   package_length=read_length("200 m"))})
    for size in proved(other).sizes:
        wool, silk = yarn_requirements(other, size)
        assert {p.key for p in silk.parts} == {"neck"}
        assert "neck" not in {p.key for p in wool.parts}
        assert said_of(silk) == ("the neckband was not swatched: its yarn is estimated from the "
                                 "area of its stitches",)
