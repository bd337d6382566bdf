"""Fabrics knitted from a stitch chart in sources: what is read, and the message of every fault."""

from __future__ import annotations

import pytest
from walebook.machine.step_keys import StepYarn
from walebook.pattern.model import Pattern
from walebook.plan.sense import check
from walebook.proof.proof import prove
from walebook.proof.yarn_requirement import yarn_requirements

from tests.small_patterns import cells_of
from tests.sources.reading import messages, read

BLANKET = """\
title: Net Loft blanket
version: 1.0.0
date: 2026-11-25
designer: Isolde Penhallow
licence: CC BY-NC 4.0
summary: Panels of lace.
wearer: anyone
bed: standard
yarns: {main: {name: Net Loft Lambswool}}
charts:
  mesh:
    repeat: |
      ||||||
      ||<|||
fabrics:
  lace:
    yarn: main
    dial: 8
    chart: mesh
    swatch: {stitches: 40, width: 16 cm, rows: 60, height: 18 cm}
sizes: [lap, sofa]
garment:
  form: panelled blanket
  fabric: lace
"""
MESH = "charts:\n  mesh:\n    repeat: |\n      ||||||\n      ||<|||\n"
BAND = """\
bands:
  front:
    edge: front
    fabric: lace
    depth: 3 cm
edges: {front: {fabric: lace, length: 60 cm, kind: pair of fronts}}
"""


def told(pattern: Pattern) -> list[str]:
    """The messages on its charts; a swatch of parts of a repeat has its own test."""
    return [p.message for p in check(pattern) if p.code != "swatch-cuts-repeat"]


def replaced(old: str, new: str) -> str:
    assert BLANKET.count(old) == 1
    return BLANKET.replace(old, new)


def test_a_fabric_names_its_chart_and_a_blanket_needs_no_size_chart() -> None:
    pattern, problems = read(BLANKET)
    assert problems == ()
    assert pattern is not None and pattern.garment is not None
    assert pattern.fabrics["lace"].chart == "mesh"
    assert pattern.stitch_charts["mesh"].rows[0] == cells_of("||<|||")
    assert pattern.garment.chart.rows == {}
    proof, problems = prove(pattern)
    assert proof is not None
    assert [p.title for size in proof.sizes for k in size.pieces
            if (p := k.piece).chart] == ["Panel", "Panel"]


@pytest.mark.parametrize(("text", "said"), [
    (replaced("chart: mesh", "chart: mush"), [
        '19:12: error, unknown-name: found no chart called "mush"; expected "mesh". '
        "Write mesh."]),
    (replaced("    chart: mesh\n", "    chart: mesh\n    needles: 2 in 1 out\n"), [
        '20:5: error, two-answers: found both "needles" and "chart" in fabric "lace"; expected '
        "one of the two. Delete one of them."]),
    (replaced("||<|||", "||x|||"), [
        '16:3: error, chart-contrast: found no "contrast" in fabric "lace", whose chart "mesh" has '
        'the mark "x"; expected the yarn of the second colour. Add a line such as "contrast: '
        'lamp".']),
    (replaced("    chart: mesh\n", "    chart: mesh\n    contrast: main\n"), [
        '20:15: error, chart-contrast: found a contrast yarn in fabric "lace" without a second '
        'colour; expected a chart with the mark "x". Write the mark, or delete the line.']),
    (replaced("||<|||", "||x|||").replace("chart: mesh\n", "chart: mesh\n    contrast: lamp\n"), [
        '20:15: error, unknown-name: found no yarn called "lamp"; expected "main". Use one of '
        "these, or add the yarn."]),
    (replaced("||<|||", "||q|||"), [
        '14:9: error, chart-mark: found "q" at stitch 3 of row 1; expected one of the marks '
        "| . < > / ( ) \\ u v x. The page about sources explains them."]),
    (BLANKET + BAND, [
        '28:13: error, chart-in-band: found the fabric "lace" of a band, with the chart "mesh"; '
        "expected a band in a plain fabric. Give the band a separate fabric."]),
    (replaced("    chart: mesh\n", ""), [
        '11:3: warning, unused: found chart "mesh", which nothing uses. Use it, or delete it.']),
    (replaced("charts:\n  mesh:", "charts: {}\nchart:\n  mesh:"), [
        '10:1: error, empty-value: found an empty mapping; expected charts as a mapping. Write it '
        'as {ladder: {repeat: "|.||"}}.',
        '11:1: error, unknown-key: found the unknown key "chart" in the pattern; expected '
        '"charts". Write charts.']),
    (replaced("form: panelled blanket", "form: hat"), [
        '22:1: error, missing-key: found no "chart" in the garment. Add a line such as "chart: '
        'women".']),
    (replaced("    chart: mesh\n", "").replace(MESH, "") + "  align: side seam\n", [
        "19:10: error, align-without-chart: found align in a garment of the plain fabric "
        '"lace"; expected a fabric knitted from a stitch chart. Name a chart in the fabric, or '
        "delete it."]),
    (BLANKET + "  align: middle\n", [
        '25:10: error, unknown-word: found "middle"; expected one of centre, front edge, side '
        "seam. Use one of these words."]),
    (BLANKET + "  drawing: body\n", [
        "25:12: warning, unused: found the body drawn in a garment that is cut for no chest. "
        "Delete it."]),
    (BLANKET + "  body: {chest: {lap: 80 cm}}\n", [
        '25:10: error, unknown-name: found no measurement called "chest" without a size chart; '
        "expected a measurement of a size chart. Name a size chart, or put the length under "
        "measures."]),
])
def test_a_fault_is_told_where_it_stands(text: str, said: list[str]) -> None:
    assert messages(text) == said


@pytest.mark.parametrize(("text", "found", "remedy"), [
    (replaced("form: panelled blanket", "form: triangular shawl\n  align: front edge"),
     "repeats from the front edge of a triangular shawl, which has none",
     "Write align: centre, or use a form that is open at the front."),
    (BLANKET + "  measures: {blanket_width: 1 cm, panels: 1}\n",
     "2 stitches for blanket_width 1 cm", "Make blanket_width wider."),
])
def test_a_form_that_cannot_be_knitted_from_the_chart(text: str, found: str, remedy: str) -> None:
    pattern, _ = read(text)
    assert pattern is not None
    proof, problems = prove(pattern)
    assert proof is None
    refused = [p for p in problems if p.code == "cannot-shape"]
    assert {(p.found, p.remedy) for p in refused} == {(found, remedy)}


def test_a_shaped_form_leaves_no_needles_of_a_chart_out_of_work() -> None:
    pattern, _ = read(BLANKET.replace("||<|||", ".|<|||").replace("||||||", ".|||||").replace(
        "form: panelled blanket", "form: triangular shawl"))
    assert pattern is not None
    _, problems = prove(pattern)
    refused = [p for p in problems if p.code == "cannot-shape"]
    assert len(refused) == 2  # once a size
    for problem in refused:
        assert problem.found.startswith("shawl, shaped with ")
        assert problem.found.endswith('of a fabric with the chart "mesh", which leaves 1 of 6 '
                                      "needles out of work")
        assert "a panelled blanket" in problem.remedy


def two_colours(row: str, plain: str) -> str:
    """The blanket in two colours, its chart a row of these marks below a plain one."""
    return replaced("||||||\n", plain + "\n").replace("||<|||", row).replace(
        "chart: mesh\n", "chart: mesh\n    contrast: lamp\n").replace(
        "yarns: {", "yarns: {lamp: {name: Lamp Wool}, ")


@pytest.mark.parametrize(("row", "said"), [
    # 40 stitches in 16 cm are 4 mm each: six stitches are 2.4 cm, seven 2.8 cm
    ("x||||||", []),
    ("x|||||||", ['12:13: warning, long-float: found a float past 7 stitches, 2.8 cm, in row 1 of '
                  'the chart "mesh"; expected floats of at most 2.5 cm. Set a stitch of the other '
                  "colour between, or have it caught by hand."]),
    ("|xxxxxxx", ['12:13: warning, long-float: found a float past 7 stitches, 2.8 cm, in row 1 of '
                  'the chart "mesh"; expected floats of at most 2.5 cm. Set a stitch of the other '
                  "colour between, or have it caught by hand."]),
])
def test_a_long_float_is_told(row: str, said: list[str]) -> None:
    pattern, problems = read(two_colours(row, len(row) * "|"))
    assert pattern is not None and problems == ()
    assert pattern.fabrics["lace"].contrast == "lamp"
    assert [str(p).partition("pattern.yaml:")[2] for p in check(pattern)
            if p.code != "swatch-cuts-repeat"] == said


@pytest.mark.parametrize(("most", "warned"), [("5", True), ("6", False)])
def test_a_float_longer_than_a_stated_number_of_needles_is_told(most: str, warned: bool) -> None:
    """Five needles at most on a standard bed (W3-102), six is where to act (W3-103, W3-106): six
    stitches of 4 mm are less than the 2.5 cm that hold where no number is stated."""
    text = two_colours("x||||||", "|||||||").replace(
        "contrast: lamp\n", f"contrast: lamp\n    longest_float: {most}\n")
    pattern, problems = read(text)
    assert pattern is not None and problems == ()
    assert told(pattern) == (
        ['found a float past 6 stitches, 2.4 cm, in row 1 of the chart "mesh"; expected floats of '
         "at most 5 stitches. Set a stitch of the other colour between, or have it caught by "
         "hand."] if warned else [])


def test_a_number_of_floats_without_a_chart_is_told() -> None:
    _, problems = read(replaced("chart: mesh\n", "longest_float: 5\n"))
    assert any("longest_float in fabric \"lace\", which has no chart" in p.message
               for p in problems)


def lined(*lines: str) -> str:
    """The blanket with these rows, the topmost first."""
    rows = "".join(" " * 6 + line + "\n" for line in lines)
    return replaced("      ||||||\n", rows).replace("      ||<|||\n", "")


@pytest.mark.parametrize("rows", range(3, 7))
def test_a_stitch_slipped_in_more_rows_than_the_example_is_told(rows: int) -> None:
    """alessandrina, Slip stitches: the published example slips a needle in four rows."""
    pattern, problems = read(lined("||||||", *["||v|||"] * rows))
    assert pattern is not None and problems == ()
    assert told(pattern) == ([] if rows <= 4 else [
        f'found a needle that {rows} rows slip, at stitch 3 of the chart "mesh"; expected at most '
        "4 rows before it knits. Knit it in between, or try it on a swatch: its stitch is "
        "stretched over all of them."])


def test_a_row_floats_past_the_needles_that_it_slips() -> None:
    """Seven slipped needles of 4 mm are 2.8 cm; the run goes on into the next repeat."""
    pattern, _ = read(lined("||||||||", "vvv|vvvv"))
    assert pattern is not None
    assert told(pattern) == [
        'found a float past 7 stitches, 2.8 cm, in row 1 of the chart "mesh"; expected floats of '
        "at most 2.5 cm. Knit a needle between, or have it caught by hand."]


def test_needles_side_by_side_that_tuck_are_told() -> None:
    """A tucking needle has knitting needles on both sides (W3-102's page); across the ends of two
    repeats as well."""
    for row in ("|uu|||", "u||||u"):
        pattern, _ = read(lined("||||||", "||||||", row))
        assert pattern is not None
        assert told(pattern) == [
            'found needles side by side that tuck in row 1 of the chart "mesh"; expected a needle '
            "that knits at both sides of one that tucks. Leave a stitch between them, or try it on "
            "a swatch: one long loop lies over both."]


@pytest.mark.parametrize("rows", range(1, 7))
def test_more_loops_than_usual_on_one_needle_are_told(rows: int) -> None:
    """Four rows are usual on one needle, six with thin yarn: worked examples W3-105 and W3-107."""
    lines = "\n".join(" " * 6 + line for line in ["||||||", *["||u|||"] * rows])
    text = replaced("      ||||||\n", lines + "\n").replace("||<|||", "||||||")
    pattern, problems = read(text)
    assert pattern is not None and problems == ()
    said = [p.message for p in check(pattern) if p.code == "long-tuck"]
    assert said == ([] if rows <= 4 else [
        f'found a needle that tucks in {rows} rows, at stitch 3 of the chart "mesh"; expected at '
        "most 4 rows before it knits. Knit it in between, or try it on a swatch: the loops may "
        "jump off."])
    proof, _ = prove(pattern)
    assert proof is not None


def test_two_colours_are_knitted_and_counted_each_in_its_yarn() -> None:
    pattern, _ = read(two_colours("x||", "|||"))
    assert pattern is not None
    proof, problems = prove(pattern)
    assert proof is not None, problems
    for size in proof.sizes:
        panel = size.pieces[0]
        placed = panel.piece.placed
        assert placed is not None
        rows = (panel.piece.rows + 1) // 2  # every other row from row 1 has a stitch a repeat
        assert dict(panel.trace.stitches)[StepYarn.CONTRAST] == rows * placed.repeats
        assert dict(panel.trace.rows)[StepYarn.CONTRAST] == rows
        main, lamp = yarn_requirements(pattern, size)
        assert (main.yarn.key, lamp.yarn.key) == ("main", "lamp")
        assert lamp.parts[0].stitches.value == rows * placed.repeats * size.assembled.garment.times[
            "panel"]  # type: ignore[union-attr]
