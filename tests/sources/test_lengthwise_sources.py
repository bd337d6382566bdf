"""What a band knitted lengthwise cannot have, each in words with its way out."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from reading import read
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
        "  front: {fabric: body, length: 40 cm}",
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


@pytest.mark.parametrize("needles", ["2 in 1 out", "1 in 1 out", "3 in 2 out"])
@pytest.mark.parametrize("depth", [2, 3, 4, 5])
def test_needles_left_out_leave_both_edges_alike(needles: str, depth: int) -> None:
    """Whole repeats across the band, with the seam's stitch: the groups of needles in work are
    the same from either end, and so far apart as the source says (arithmetic)."""
    text = TEXT.replace("    zip: 5 cm\n", "    bind_off: back-stitched\n").replace(
        "    dial: 5\n", f"    dial: 5\n    needles: {needles}\n").replace(
        "depth: 3 cm", f"depth: {depth} cm").replace("folded lengthwise", "lengthwise")
    pattern, found = read(text)
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
