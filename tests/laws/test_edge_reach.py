"""An edge that must be longer than its stitches is bound off in a way that reaches so far.

Round the gate pegs an edge is one peg a stitch, as wide as the work on the bed: Susan Guagliumi,
"Sinker post / gate peg bind-offs" (W3-022). A wide edge is sewn off loosely, the thread renewed:
"Swag blanket 3", brunsmachknit.blogspot.com, 2015-02-10 (W3-027). How far each stretches beyond
that: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.catalogue.methods import BIND_OFFS, PEGS_OFF, SEWN, TWO_PEGS_OFF
from walebook.core.units import Length, length_cm
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff
from walebook.machine.step_keys import BindOffMethod
from walebook.pattern.model import Fold, Pattern
from walebook.plan.edge_reach import reach
from walebook.proof.proof import prove

from tests import small_patterns as small
from tests.against import wardrobe

SHAWL = "triangular shawl"


def shawl(**asked: object) -> Pattern:
    made = wardrobe.pattern(SHAWL, fold=None)
    assert made.garment is not None
    return replace(made, bed=small.bed("bed", "7 mm", 300),
                   garment=replace(made.garment, **asked))  # type: ignore[arg-type]


def warned(pattern: Pattern) -> list[str]:
    proof, problems = prove(pattern)
    assert proof is not None, [str(p) for p in problems]
    return [p.found for p in problems if p.code == "edge-too-short"]


def test_one_peg_a_stitch_is_as_wide_as_the_needles() -> None:
    """176 stitches on needles 4.5 mm apart are 79.2 cm (arithmetic), and twice that round two."""
    pitch, stitch = Length(Fraction(9, 2)), Length(Fraction(5))
    assert reach(PEGS_OFF, 176, pitch, stitch, Fraction(0)) == length_cm(Fraction("79.2"))
    assert reach(TWO_PEGS_OFF, 176, pitch, stitch, Fraction(0)) == length_cm(Fraction("158.4"))
    assert reach(SEWN, 176, pitch, stitch, Fraction(1, 2)) == length_cm(132)


def test_a_shawl_round_the_pegs_is_warned_of_and_told_the_ways_out() -> None:
    found = warned(shawl(bind_off={"": "around the gate pegs"}))
    assert found and all("around the gate pegs" in said for said in found)
    _, problems = prove(shawl(bind_off={"": "around the gate pegs"}))
    (remedy,) = {p.remedy for p in problems if p.code == "edge-too-short"}
    assert "back-stitched" in remedy and "around two gate pegs" in remedy
    assert "bind_off_stretch" in remedy


def test_how_far_a_way_stretches_is_a_setting() -> None:
    pegs = {"bind_off": {"": "around the gate pegs"}}
    assert warned(shawl(**pegs))
    assert not warned(shawl(**pegs, bind_off_stretch={"around the gate pegs": Fraction(1)}))
    assert warned(shawl(**pegs, bind_off_stretch={"back-stitched": Fraction(1)}))


def test_the_stretch_of_a_way_that_no_long_edge_has_is_named() -> None:
    """It would be believed, and changes nothing: each source says which way it should be."""
    def unused(made: Pattern) -> list[str]:
        return [str(p).partition(": found ")[2] for p in prove(made)[1] if p.code == "unused"]

    pegs = {"bind_off": {"": "around the gate pegs"}}
    for stretch in ({}, {"around the gate pegs": Fraction(1)}):
        assert not unused(shawl(**pegs, bind_off_stretch=stretch))
    (said,) = set(unused(shawl(**pegs, bind_off_stretch={"back-stitched": Fraction(1)})))
    assert said == (
        "bind_off_stretch of back-stitched: no edge that must be longer than its stitches is "
        "bound off in this way; expected around the gate pegs. Write around the gate pegs.")
    hat = wardrobe.pattern("hat")
    assert hat.garment is not None
    hat = replace(hat, garment=replace(
        hat.garment, bind_off_stretch={"back-stitched": Fraction(1)}))
    assert [said.endswith("in this way. Delete it.") for said in set(unused(hat))] == [True]


def test_a_chain_over_pegs_closer_than_the_stitches_is_warned_of() -> None:
    """Stitches of 7.1 mm over needles 7 mm apart fit; 5 mm apart the pegs give 10 % too little."""
    def found(pitch: str) -> list[str]:
        made = shawl(cast_on={"": "chain over the gate pegs"})
        return warned(replace(made, bed=small.bed("bed", pitch, 300)))

    assert not found("7 mm")
    assert found("5 mm") and all("chain over the gate pegs" in said for said in found("5 mm"))
    assert not warned(replace(shawl(cast_on={"": "by hand"}), bed=small.bed("bed", "5 mm", 300)))


@pytest.mark.parametrize(("method", "pitch", "said"), [
    ("around two gate pegs", "4.5 mm", True), ("around two gate pegs", "3.2 mm", False),
    ("around the gate pegs", "4.5 mm", False), ("around the gate pegs", "6.8 mm", True),
    ("back-stitched", "6.8 mm", False)])
def test_a_band_whose_edge_lies_more_than_twice_as_long_is_warned_of(method: str, pitch: str,
                                                                     said: bool) -> None:
    """Band stitches of 3.3 mm take 9 mm each round two pegs 4.5 mm apart, and 6.4 mm where they
    are 3.2 mm apart (arithmetic); that twice is too much is common practice, no source."""
    made = wardrobe.pattern("drop-shoulder pullover", sizes=("M",),
                            band=small.swatch(40, "13.2 cm", 60, "14.1 cm", grams=11))
    band = replace(made.bands["neck"], kind="single", bind_off=method, fold=Fold.LOOSE)
    _, problems = prove(replace(made, bed=small.bed("bed", pitch, 400), bands={"neck": band}))
    found = [p for p in problems if p.code == "edge-too-long"]
    assert bool(found) is said
    assert all(method in p.found and "back-stitched" in p.remedy for p in found)


def test_an_edge_that_must_be_longer_may_lie_long_round_two_pegs() -> None:
    """A shawl's edge of both its sides is longer than its stitches: it is held to what it needs."""
    pattern = shawl(bind_off={"": "around two gate pegs"})
    _, problems = prove(replace(pattern, bed=small.bed("bed", "8 mm", 300)))
    assert not [p for p in problems if p.code == "edge-too-long"]
    _, problems = prove(replace(pattern, bed=small.bed("bed", "16 mm", 300)))
    assert [p for p in problems if p.code == "edge-too-long"]


@pytest.mark.parametrize("method", ["", "back-stitched", "around two gate pegs"])
def test_a_shawl_left_to_itself_is_sewn_off_and_reaches(method: str) -> None:
    pattern = shawl(bind_off={"": method} if method else {})
    assert not warned(pattern)
    proof, _ = prove(pattern)
    assert proof is not None
    for size in proof.sizes:
        methods = [s.method for s in size.pieces[0].program.steps if isinstance(s, BindOff)]
        assert methods == ([BindOffMethod.TWO_GATE_PEGS] if "pegs" in method else [])


def test_stitches_that_wait_are_labelled_by_an_edge_that_a_knitter_can_see() -> None:
    """A triangle knitted from its long edge has no top: its last row is both short sides."""
    made = [shawl(bind_off={"": "back-stitched"}), *(
        wardrobe.pattern(form, fold=None) for form in FORMS if form != SHAWL)]
    labels = {label for pattern in made for size in wardrobe.proved(pattern).sizes
              for piece in size.pieces for label in piece.piece.waits}
    assert "shawl, both short sides" in labels
    assert not [label for label in labels if label.endswith(", top")]


@pytest.mark.parametrize("form", FORMS)
def test_nothing_is_published_that_no_way_could_do(form: str) -> None:
    """Every edge that a piece asks to be longer is within its way, with all defaults."""
    fold = None if form == SHAWL else Fold.LOOSE
    made = wardrobe.pattern(form, fold=fold)
    assert not warned(made)
    for size in wardrobe.proved(made).sizes:
        for piece in (knitted.piece for knitted in size.pieces if knitted.piece.bound_off_to):
            method = BIND_OFFS[piece.bind_off_method]
            own = piece.stitches.value * method.pegs * made.bed.pitch.mm
            assert piece.bound_off_to is not None
            assert method is SEWN or own * Fraction(11, 10) >= piece.bound_off_to.length.mm
