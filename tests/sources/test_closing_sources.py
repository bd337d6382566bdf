"""Closings that cannot be had, and the exact message each gets."""

from __future__ import annotations

import pytest
from reading import FILE, messages, read
from walebook.pages.figures import figures
from walebook.proof.proof import prove

from tests.small_sources import sampler

SAMPLE = sampler() + """\
edges:
  front: {fabric: body, length: 40 cm, kind: pair of fronts}
bands:
  front:
    edge: front
    kind: single
    fabric: body
    depth: 1.4 cm
    buttonholes: {button: 14 mm, number: 5, closing: slit}
"""


def findings(text: str) -> list[str]:
    """The errors of a source that can be read, when its bands are planned."""
    pattern, problems = read(text)
    assert pattern is not None, [str(p) for p in problems]
    return [str(p).removeprefix(f"{FILE}:") for p in prove(pattern)[1]
            if p.severity.value == "error"]


def test_a_slit_wants_a_row_before_and_after_it() -> None:
    """14 mm less a tenth is 3.6 rows of 3.5 mm, 4; a band of 4 rows has 2 to its middle."""
    assert findings(SAMPLE) == [
        "25:27: error, slit-too-long: size M: found slits of 4 rows on a band with 2 rows to its "
        "middle; expected a row at least before a slit and after it. Give each layer at least 6 "
        "rows, or choose a smaller button."]
    assert findings(SAMPLE.replace("1.4 cm", "2.1 cm")) == []


def test_a_band_names_the_closings_it_can_have() -> None:
    text = SAMPLE.replace("kind: single", "kind: facing")
    assert messages(text) == [
        '25:54: error, no-such-closing: found slit in a facing band; expected loops. Write '
        "closing: loops."]


@pytest.mark.parametrize("kind", ["rolled", "ribbed"])
def test_a_band_that_can_have_no_closing_says_what_is_expected(kind: str) -> None:
    said = [one for one in messages(SAMPLE.replace("kind: single", f"kind: {kind}"))
            if "no-such-closing" in one]
    assert said and all("; expected a band without buttonholes." in one for one in said)


ZIPPED = SAMPLE.replace("    buttonholes: {button: 14 mm, number: 5, closing: slit}\n",
                        "    zip: 5 cm\n")


def test_a_zip_is_counted_for_the_band_as_knitted() -> None:
    """40 cm of edge; the band's stitches are 5 mm wide, 80 of them 40 cm: a zip of 40 cm."""
    pattern, _ = read(ZIPPED)
    assert pattern is not None
    proof, _ = prove(pattern)
    assert proof is not None
    (plan,) = proof.sizes[0].plans
    assert plan.stitches.value == 80
    assert "Length of the zip" in [f.label for f in figures(plan)]


def test_a_front_shorter_than_any_zip_and_one_far_from_its_zip() -> None:
    assert findings(ZIPPED.replace("zip: 5 cm", "zip: 30 cm").replace("40 cm", "20 cm")) == [
        "25:10: error, zip-too-long: size M: found a front of 20 cm and zips from 30 cm; expected "
        "a zip no longer than the front. Write a shorter step, or cut."]
    pattern, _ = read(ZIPPED.replace("zip: 5 cm", "zip: 30 cm"))
    assert pattern is not None
    assert "zip-far-off" in {p.code for p in prove(pattern)[1]}


def test_a_zip_and_buttonholes_are_two_answers() -> None:
    assert messages(ZIPPED.replace("zip: 5 cm", "zip: 5 cm\n    buttonholes: {button: 10 mm, "
                                                "number: 3}")) == [
        '26:5: error, two-answers: found both "zip" and "buttonholes" in band "front"; expected '
        "one of the two. Delete one of them."]


def test_a_zip_lies_along_fronts() -> None:
    text = ZIPPED.replace("  front: {fabric", "  neck: {fabric")
    text = text.replace("pair of fronts", "one edge")
    text = text.replace("edge: front", "edge: neck")
    assert messages(text) == [
        "25:10: error, zip-nowhere: found a zip along the neck; expected a band along both fronts. "
        "Give the zip to the front band."]
