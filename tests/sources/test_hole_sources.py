"""Buttonholes that would lie on a join, on the wrong front or at a sewn end: what each gets.

Expected figures are worked in the docstrings; the rule is that of the page about sources.
"""

from __future__ import annotations

import pytest
from reading import HERE, read
from test_garment_sources import sound
from walebook.proof.proof import prove
from walebook.words.figure_text import given_up

from tests.small_sources import sampler

OWN = sampler("20 cm") + """\
edges:
  front:
    kind: pair of fronts
    fabric: body
    sections: [{title: side, rows: 60}, {title: collar end, rows: 6}]
bands:
  front:
    edge: front
    fabric: body
    depth: 4 cm
    buttonholes: {button: 15 mm, stitches: 2, number: 5, ends: 3 stitches, end_give: 0}
"""


def errors(text: str) -> list[str]:
    return [f"{p.code}: {p.found}; {p.remedy}" for p in prove(sound(text))[1]
            if p.severity.value == "error"]


def test_a_hole_across_a_mark_says_where_it_may_lie() -> None:
    """60 and 6 rows of 5 mm on stitches of 5 mm; the top hole ends 3 from the end, the mark lies
    6 below it: a hole of 2 keeps 3 stitches from it when 6 + 3 = 9 stitches lie above it."""
    (found,) = errors(OWN)
    assert found == (
        "hole-at-join: 5 holes of 2 stitches, of which one lies across a join of the edge or less "
        "than 3 stitches from it: the collar end meets the side 6 stitches from the upper end; "
        "Write ends: {lower: 3 stitches, upper: 9 stitches}, or another number of holes.")
    assert errors(OWN.replace("ends: 3 stitches", "ends: {lower: 3 stitches, upper: 9 stitches}")
                  ) == []


def test_the_upper_end_left_out_grows_until_no_hole_lies_on_the_mark() -> None:
    """15 mm are 3 stitches of 5 mm, so that the holes lie as above, where the designer says so."""
    pattern = sound(OWN.replace(", ends: 3 stitches", ""))
    proof, found = prove(pattern)
    assert not [p for p in found if p.severity.value in ("error", "warning")]
    placing = proof.sizes[0].strips[0].plan.placing
    assert placing.upper >= 6 + 3
    assert "9 stitches after the last one instead of 3, so that no buttonhole lies on a join" in \
        given_up(placing)


def test_a_hole_put_on_a_mark_is_refused() -> None:
    """Its middle 30 cm up, which is the mark."""
    (found,) = errors(OWN.replace("number: 5, ends: 3 stitches, end_give: 0",
                                "at: [4 cm, 30 cm]"))
    assert found.startswith("hole-at-join: a hole across a join of the edge, or less than 3 "
                            "stitches from it: the collar end meets the side 30 cm from the lower "
                            "end; Move the hole")


def test_a_stitch_beside_a_sewn_end_is_too_few() -> None:
    (found,) = errors(OWN.replace("ends: 3 stitches", "ends: 1 stitches"))
    assert found == ("hole-at-end: holes 1 and 1 stitches from the ends of a band, whose ends are "
                     "sewn; Give the ends 2 stitches or more.")
    assert not [e for e in errors(OWN.replace("ends: 3 stitches", "ends: 1 stitches").replace(
        "    depth: 4 cm\n", "    depth: 4 cm\n    kind: single\n")) if "hole-at-end" in e]


def test_holes_along_a_neck_lie_on_one_front() -> None:
    text = OWN[:OWN.index("edges:\n")] + (
        "garment: {form: drop-shoulder waistcoat, chart: women, fabric: body}\n"
        "bands:\n  neck: {edge: neck, fabric: body, depth: 4 cm, "
        "buttonholes: {button: 15 mm, number: 2, front: left}}\n")
    (found,) = {e.partition(": ")[2] for e in errors(text)}
    assert found == ("2 buttonholes along a neck that opens, not all of them on the left front; "
                     "Write number: 1, or places near that end, such as at: [-2 cm].")
    assert errors(text.replace("number: 2", "number: 1")) == []
    assert errors(text.replace("number: 2", 'at: ["-2.5 cm"]')) == []


@pytest.mark.parametrize(("key", "asked"), [
    ("through", "through: 80 cm"), ("in_hem", "in_hem: {number: 9, depth: 6 cm}")])
def test_holes_too_close_are_found_where_their_place_is_asked_for(key: str, asked: str) -> None:
    """The finding stands at the key that is to be changed, not at the whole band."""
    text = (HERE / "codes" / "holes-too-close.yaml").read_text("utf-8").replace(
        "through: 80 cm", asked)
    pattern, problems = read(text)
    assert pattern is not None, problems
    found = [p for p in prove(pattern)[1] if p.code == "holes-too-close"]
    assert found
    assert {text.splitlines()[p.place.line - 1].split(":")[0].strip() for p in found} == {key}
