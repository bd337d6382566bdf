"""What a band knitted lengthwise cannot have, each in words with its way out."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from reading import read
from walebook.machine.headings import Heading
from walebook.machine.steps import CastOn, Knit
from walebook.pages.band_lengths import finished
from walebook.plan.band import depth_mm
from walebook.plan.band_counts import finished_depth
from walebook.proof.proof import prove

TEXT = (Path(__file__).parent / "codes" / "not-lengthwise.yaml").read_text(encoding="utf-8")
ELSE = ("expected it only in a band of another kind, such as enclosing, folded, single, rolled, "
        "ribbed, facing or casing.")


@pytest.mark.parametrize(("line", "said"), [
    ("    zip: 5 cm\n", "25:10: error, not-lengthwise: found a zip, which lies behind a hung "
     f"edge, in a folded lengthwise band; {ELSE} Choose kind: facing or kind: folded for the edge "
     "beside a zip."),
    ("    fold: picot\n", "25:11: error, not-lengthwise: found a fold that is knitted, in a "
     f"folded lengthwise band; {ELSE} Delete it: such a band is folded along its middle."),
    ("    ease: -2 %\n", "25:11: error, not-lengthwise: found an ease of the whole band, in a "
     f"folded lengthwise band; {ELSE} Write stretch: and the share, such as 2 %."),
    ("    buttonholes: {button: 15 mm, number: 3, ends: 4 stitches}\n",
     "25:51: error, not-lengthwise: found ends in stitches in a folded lengthwise band; expected "
     'rows, which lie along its edge, or a length. Write "ends: 4 rows", or a length.')])
def test_what_it_cannot_have_is_refused(line: str, said: str) -> None:
    _, found = read(TEXT.replace("    zip: 5 cm\n", line))
    assert [str(one).split(".yaml:", 1)[1] for one in found] == [said]


def test_rows_of_holes_belong_to_a_lengthwise_band() -> None:
    text = TEXT.replace("    kind: folded lengthwise\n", "    kind: single\n").replace(
        "    zip: 5 cm\n",
        "    buttonholes: {button: 15 mm, number: 3, rows: {first: 4, every: 9}}\n")
    _, found = read(text)
    assert [one.code for one in found] == ["not-lengthwise"]
    assert "Delete rows, or write kind: lengthwise." in found[0].message


def test_an_edge_whose_stitches_wait_is_refused() -> None:
    """No seam holds stitches that would run."""
    text = TEXT.replace("    zip: 5 cm\n", "").replace(
        "  front: {fabric: body, length: 40 cm, kind: pair of fronts}",
        "  front: {fabric: body, kind: one edge, sections: [{title: back neck, stitches: 30, "
        "stitches_are: on waste yarn}]}")
    source, found = read(text)
    assert source is not None, [one.message for one in found]
    proof, problems = prove(source)
    assert proof is None and [one.code for one in problems] == ["not-lengthwise"]
    assert "30 stitches wait (back neck)" in problems[0].message


def test_holes_that_run_off_the_band_are_refused() -> None:
    text = TEXT.replace(
        "    zip: 5 cm\n",
        "    buttonholes: {button: 12 mm, number: 12, rows: {first: 4, every: 16}}\n")
    source, found = read(text)
    assert source is not None, [one.message for one in found]
    proof, problems = prove(source)
    assert proof is None and [one.code for one in problems] == ["holes-too-close"]
    assert "12 holes, the first after 4 rows and the last after 180" in problems[0].message


PLAIN = ("  plain:\n    yarn: main\n    dial: 5\n"
         "    swatch: {stitches: 30, width: 12 cm, rows: 40, height: 14 cm}\n")


def laid_out(needles: str, depth: int, plain: str = PLAIN) -> str:
    """A band of one layer, its needles left out, in a pattern with a fabric of every needle."""
    return TEXT.replace("    zip: 5 cm\n", "    bind_off: back-stitched\n").replace(
        "    dial: 5\n", f"    dial: 5\n    needles: {needles}\n").replace(
        "depth: 3 cm", f"depth: {depth} cm").replace("folded lengthwise", "lengthwise").replace(
        "sizes: [M]", f"{plain}sizes: [M]")


def test_a_lengthwise_band_is_cast_on_knitted_and_bound_off_under_three_headings() -> None:
    """No row is knitted under the first, and no stitch cast on or bound off under the second."""
    pattern, found = read(laid_out("2 in 1 out", 3))
    assert pattern is not None, found
    proof, _ = prove(pattern)
    assert proof is not None
    cast_on, band, off, *_ = proof.sizes[0].strips[0].program.sections
    assert [part.heading for part in (cast_on, band, off)] == [
        Heading.CAST_ON, Heading.BAND, Heading.BINDING_OFF]
    has = {part.heading: {type(step) for step in part.steps} for part in (cast_on, band)}
    assert CastOn in has[Heading.CAST_ON] - has[Heading.BAND]
    assert Knit in has[Heading.BAND] - has[Heading.CAST_ON]


@pytest.mark.parametrize("needles", ["2 in 1 out", "1 in 1 out", "3 in 2 out"])
@pytest.mark.parametrize("depth", [2, 3, 4, 5])
def test_needles_left_out_leave_both_edges_alike(needles: str, depth: int) -> None:
    """Whole repeats across the band, with the seam's stitch: the groups of needles in work are
    the same from either end, and so far apart as the source says (arithmetic)."""
    pattern, found = read(laid_out(needles, depth))
    assert pattern is not None, found
    proof, _ = prove(pattern)
    assert proof is not None
    strip, *_ = proof.sizes[0].strips
    spans = list(strip.layout.needles.spans())
    wide = [last.place - first.place + 1 for first, last in spans]
    apart = [after.place - before.place - 1
             for (_, before), (after, _) in pairwise(spans)]
    assert wide == wide[::-1]
    assert set(apart) <= {int(needles.split()[2])}
    assert sum(wide) == strip.plan.needles == strip.plan.depth.value + 1


@pytest.mark.parametrize("needles", ["2 in 1 out", "1 in 1 out", "3 in 2 out",
                                     "3 in 1 out, 1 in 1 out", "2 in 1 out, 1 in 2 out"])
@pytest.mark.parametrize("depth", [3, 4, 5, 7])
def test_a_band_is_as_deep_as_its_stitches_and_ladders(needles: str, depth: int) -> None:
    """Every stitch that is seen as wide as in the swatch on every needle, 4 mm, and every ladder
    between two of them as wide as the other swatch leaves for it: 5 mm a stitch of a repeat, less
    4 (arithmetic). One stitch, at an edge, lies in the seam."""
    pattern, found = read(laid_out(needles, depth))
    assert pattern is not None and not found, found
    proof, problems = prove(pattern)
    assert proof is not None, problems
    strip, *_ = proof.sizes[0].strips
    works = [(int(one.split()[0]), int(one.split()[2])) for one in needles.split(", ")]
    each_out = Fraction(sum(one for one, _ in works) * (5 - 4), sum(out for _, out in works))
    every = list(strip.layout.needles)
    out = every[-1].place - every[0].place + 1 - len(every)
    exact = (len(every) - 1) * 4 + out * each_out
    assert depth_mm(strip.plan) == exact
    assert finished_depth(pattern, strip.plan.band, "M").value == exact
    assert finished(strip.plan).depth.length.mm == exact
    assert abs(exact - 10 * depth) <= sum(5 * one for one, _ in works) / 2


def test_a_band_of_ladders_needs_the_width_of_a_stitch_without_one() -> None:
    pattern, _ = read(laid_out("1 in 1 out", 3, ""))
    assert pattern is not None
    proof, found = prove(pattern)
    assert proof is None and [str(one).split(".yaml:", 1)[1] for one in found] == [
        '24:13: error, needles-in-band: found rows along its edge in a band of the fabric "body", '
        "with needles 1 in, 1 out of work; expected another fabric of the same yarn at the same "
        "dial, with every needle in work: its swatch tells the width of the stitches that stand "
        "side by side at the band's edges. Knit that swatch, and describe it as a fabric, or name "
        "a fabric of every needle."]


def test_a_fabric_that_tells_the_width_of_a_stitch_is_used() -> None:
    """It leads to no knitting, but to a depth; beside a band on every needle nothing uses it."""
    assert read(laid_out("1 in 1 out", 3))[1] == ()
    (found,) = read(laid_out("1 in 1 out", 3).replace("    needles: 1 in 1 out\n", ""))[1]
    assert found.code == "unused" and 'fabric "plain"' in found.message
