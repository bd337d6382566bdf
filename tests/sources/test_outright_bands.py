"""Bands whose stitches and rows the designer gives outright: what is kept, and what is said.

The edge has a stitch for every row by its rule, so that one of 100 rows asks for 100 stitches.
"""

from __future__ import annotations

import pytest
from walebook.core.problems import Problem
from walebook.plan.band import BandPlan
from walebook.proof.proof import prove
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source

from tests.small_sources import head

SOURCE = head() + """\
fabrics:
  body: {yarn: wool, dial: 6, swatch: {stitches: 40, width: 20 cm, rows: 50, height: 20 cm}}
sizes: [S, M]
edges:
  front: {kind: pair of fronts, fabric: body, rows: {S: 100, M: 110}}
bands:
  front: {title: Band, edge: front, BAND}
"""
HOLES = "buttonholes: {button: 8 mm, number: 4, closing: one stitch}"
GIVING = "buttonholes: {button: 13 mm, stitches: 3, number: 6, ends: 2 stitches, end_give: 0}"


def found(band: str) -> tuple[list[BandPlan], list[Problem]]:
    """The plans of a band in both sizes, and all that is said of it."""
    node, faults = parse_source(SOURCE.replace("BAND", band), name="pattern.yaml")
    assert node is not None, faults
    pattern, problems = read_pattern(node, slug="net", beds={}, charts={})
    if pattern is None:
        return [], list(problems)
    proof, more = prove(pattern)
    plans = [plan for size in proof.sizes for plan in size.plans] if proof else []
    return plans, [*problems, *more]


@pytest.mark.parametrize("more", ["", HOLES])
@pytest.mark.parametrize("kind", ["single", "folded", "enclosing"])
def test_a_band_has_the_stitches_and_rows_that_are_given(kind: str, more: str) -> None:
    if kind != "single":
        more = more.replace(", closing: one stitch", "")
    plans, said = found(f"kind: {kind}, pick_up: 1, stitches: {{S: 97, M: 112}}, depth: 11 rows"
                        + f", {more}" * bool(more))
    assert [(p.stitches.value, p.depth.value) for p in plans] == [(97, 11), (112, 11)], said


@pytest.mark.parametrize("stitches", range(98, 103))
def test_holes_change_no_count_that_is_given(stitches: int) -> None:
    """Some of five numbers do not divide: without `stitches` the band would give one."""
    plans, said = found(f"pick_up: 1, stitches: {stitches}, depth: 10 rows, {GIVING}")
    assert [p.stitches.value for p in plans] == [stitches, stitches], said


def test_a_lengthwise_band_has_its_needles_and_rows() -> None:
    """Of two layers it has twice as many needles as are seen, with a stitch for each seam."""
    for kind, across, seen in (("lengthwise", 7, 6), ("folded lengthwise", 14, 6)):
        plans, said = found(f"kind: {kind}, fabric: body, depth: {across} stitches, "
                            "rows_along: {S: 98, M: 109}")
        assert [(p.stitches.value, p.depth.value, p.needles) for p in plans] == [
            (98, seen, across), (109, seen, across)], said


@pytest.mark.parametrize(("stitches", "cautioned"), [(88, False), (87, True), (104, False),
                                                     (105, True), (100, False)])
def test_a_count_far_from_what_the_edge_asks_for_is_a_caution(stitches: int, cautioned: bool
                                                             ) -> None:
    """100 are asked for; 12 fewer and 4 more are let pass."""
    _, said = found(f"kind: single, pick_up: 1, stitches: {{S: {stitches}, M: 110}}, depth: 3 cm")
    cautions = [p for p in said if p.code == "count-against-edge"]
    assert bool(cautions) == cautioned
    assert all(f"{stitches} stitches" in p.found and "100 stitches" in p.found and p.size == "S"
               for p in cautions)


@pytest.mark.parametrize(("band", "code", "text"), [
    ("kind: single, pick_up: 1, stitches: 100, round: odd, depth: 3 cm", "two-answers", "stitches"),
    ("kind: single, pick_up: 1, depth: 5 stitches", "not-this-kind", "9 rows"),
    ("kind: lengthwise, fabric: body, depth: 9 rows", "not-this-kind", "5 stitches"),
    ("kind: lengthwise, fabric: body, depth: 3 cm, stitches: 100", "not-lengthwise", "rows_along"),
    ("kind: single, pick_up: 1, depth: 3 cm, rows_along: 100", "not-this-kind", "lengthwise"),
    ("kind: folded lengthwise, fabric: body, depth: 11 stitches", "cannot-round", "even"),
    ("kind: lengthwise, fabric: body, depth: 2 stitches", "band-too-shallow", "at least 3"),
    ("kind: ribbed, fabric: body, stitches: 100, depth: 3 cm", "cannot-round", "an odd number"),
    ("kind: single, pick_up: 1, depth: 1 rows", "out-of-range", "2 to 200"),
])
def test_what_cannot_be_is_refused_with_what_to_write(band: str, code: str, text: str) -> None:
    plans, said = found(band)
    assert plans == []
    assert [p.code for p in said if p.severity.value == "error"][:1] == [code], list(map(str, said))
    assert any(p.code == code and text in str(p) for p in said), list(map(str, said))
