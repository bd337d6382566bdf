"""The zip for any opening: never longer than it, and no other that is sold lies between."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walebook.core.expression import Operand
from walebook.core.operands import Role
from walebook.core.units import Length, read_length
from walebook.pages.zip_section import zip_body
from walebook.pattern.model import Fold
from walebook.pattern.specs import ZipSpec
from walebook.plan.zips import MOST_EASED, zip_for
from walebook.proof.proof import prove
from walebook.words.terms.working import working_of
from walebook.words.zip_instructions import zip_steps, zip_to_buy

from tests.site.garments import garment


@given(st.fractions(10, 1200, max_denominator=1000), st.integers(1, 30))
def test_the_longest_zip_that_is_no_longer_than_the_opening(mm: Fraction, every: int) -> None:
    opening = Operand(mm, Role.NUMBER)
    try:
        found = zip_for(opening, ZipSpec(every=every))
    except ValueError:
        assert mm < 10 * every
        return
    assert found.length.mm <= mm < found.length.mm + 10 * every
    assert found.count.value % every == 0
    assert found.count.value * 10 == found.length.mm
    assert 0 <= found.eased < 1


def test_a_zip_that_is_cut_goes_down_to_a_whole_centimetre() -> None:
    cut = zip_for(Operand(Fraction(5848, 10), Role.NUMBER), ZipSpec(cut=True)).count
    assert cut.value == 58 and working_of(cut).endswith(", a zip cut down to a whole centimetre")
    whole = zip_for(Operand(Fraction(584), Role.NUMBER), ZipSpec(every=5)).count
    assert working_of(whole).endswith(", a zip sold every 5 cm")


def test_the_published_zip_is_just_within_what_may_be_eased_in() -> None:
    """Elizabeth Knits, "Zippers in sweaters", 2016: a 12 in zip for a 13 in band."""
    band, zip_ = read_length("13 in"), read_length("12 in")
    assert 1 - zip_.mm / band.mm == MOST_EASED


def test_the_stay_is_twice_the_zip_and_13_cm() -> None:
    """The same source: about 13 cm besides twice the zip's length."""
    found = zip_for(Operand(Fraction(584), Role.NUMBER), ZipSpec(every=5))
    assert found.stay == Length(Fraction(1230))


@given(mm=st.integers(200, 900), every=st.integers(1, 10))
def test_what_is_cut_of_the_ribbon_is_what_was_bought(mm: int, every: int) -> None:
    """A stay along either tape, and a piece over the zip's end at the throat: a sum."""
    found = zip_for(Operand(Fraction(mm), Role.NUMBER), ZipSpec(every=every))
    bought = re.search(r"ribbon for its stay and the throat, ([\d.]+) cm", zip_to_buy(
        found, cut=False))
    steps = " ".join(zip_steps(found, cut=False, stands=True))
    cut = re.search(r"Cut ([\d.]+) cm .*? off the ribbon, for the throat\. Cut the rest in two, "
                    r"([\d.]+) cm", steps)
    assert bought and cut and "sew the short piece" in steps
    assert abs(Fraction(bought[1]) - Fraction(cut[1]) - 2 * Fraction(cut[2])) <= Fraction(2, 10)


@pytest.mark.parametrize(("kind", "along"), [("single", "stitch"), ("folded", "stitch"),
                                             ("facing", "row")])
def test_a_zip_is_sewn_along_the_fabric_that_is_at_its_edge(kind: str, along: str) -> None:
    """A band is knitted outward from the front: its rows run along the zip, its columns across.

    A facing is turned in, and the front's own columns run along the edge. Geometry.
    """
    whole = garment("drop-shoulder waistcoat")
    front = replace(whole.bands["front"], kind=kind, buttonholes=None, zip=ZipSpec(every=1),
                    fold=None if kind == "single" else Fold.LOOSE)
    proof, findings = prove(replace(whole, bands={"front": front}))
    assert proof is not None, findings
    said = zip_body(proof.sizes[0].plans[0])
    other = "row" if along == "stitch" else "stitch"
    assert f"{along} by {along}" in said and f"into every second {along}" in said
    assert f"{other} by {other}" not in said and f"every second {other}" not in said
    assert ("column" in said) == (along == "row") and "flap" not in said
