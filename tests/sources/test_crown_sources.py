"""Sources that ask for a crown: what is said of one that no hat can have.

A stitch and a row of the swatch are 1 cm by half that; two stitches of a hat are for its seam.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from reading import FILE
from walebook.core.problems import Problem, has_errors
from walebook.pattern.model import Pattern
from walebook.proof.proof import Proof, prove
from walebook.shape.tasks import Seam, TaskKind
from walebook.source.pattern import read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

from tests.small_sources import head

CHART = Path(__file__).parents[2] / "patterns" / "_sizes" / "heads.yaml"
HAT = head(200) + """\
fabrics:
  body: {yarn: wool, dial: 6, swatch: {stitches: 20, width: 20 cm, rows: 40, height: 20 cm}}
sizes: [woman]
garment:
  form: hat
  chart: heads
  fabric: body
  measures: {hat_width: 50 cm, hat_length: 20 cm}
"""


def read(crown: str, text: str) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """The pattern of a hat with this crown, and what is found in it."""
    node, faults = parse_source(text + f"  crown: {crown}\n", name=FILE)
    chart, _ = parse_source(CHART.read_text(encoding="utf-8"), name="chart")
    assert node is not None and chart is not None, faults
    return read_pattern(node, slug="mole", beds={}, charts={
        "heads": read_chart(chart, key="heads")[0]})


def proved(crown: str) -> Proof:
    """The proof of a hat with this crown."""
    pattern, problems = read(crown, HAT)
    assert pattern is not None, [str(each) for each in problems]
    proof, problems = prove(pattern)
    assert proof is not None, [str(each) for each in problems]
    return proof


def found(crown: str, text: str = HAT) -> list[str]:
    """What is found in a hat with this crown, read and proved."""
    pattern, problems = read(crown, text)
    if pattern is not None and not has_errors(problems):
        problems = prove(pattern)[1]
    return [str(each).removeprefix(f"{FILE}:") for each in problems
            if each.severity.value in ("error", "warning")]


@pytest.mark.parametrize("crown", [
    "{shape: wedges, wedges: 10}", "{shape: halvings}", "{shape: gathered, step: 1}",
    "{step: 0.2, step_rows: 3, looser: yes, rows_after: 2}", "{both_ends: yes}",
    "{shape: wedges, both_ends: yes}", "{shape: side decreases, every: 1, remain: 20}",
    "{shape: quarters}", "{shape: quarters, every: 3, remain: 5}",
    "{shape: quarters, both_ends: yes}"])
def test_a_sound_crown_is_knitted(crown: str) -> None:
    assert [said for said in found(crown) if ", unlikely-value: " not in said] == []


@pytest.mark.parametrize(("crown", "said"), [
    ("{shape: halvings, wedges: 10}",
     '18:36: error, not-of-kind: found "wedges" in a crown of the shape halvings; expected only '
     "shape, halvings, both_ends. Delete it, or change the shape."),
    ("{shape: wedges, step: 1}",
     '18:32: error, not-of-kind: found "step" in a crown of the shape wedges; expected only '
     "shape, wedges, beside, every, remain, both_ends. "
     "Delete it, or change the shape."),
    ("{wedges: 10}",
     '18:19: error, not-of-kind: found "wedges" in a crown of the shape gathered; expected only '
     "shape, step, step_rows, looser, rows_after, both_ends. "
     "Delete it, or change the shape."),
    ("{shape: cone}",
     '18:18: error, unknown-word: found "cone"; expected one of gathered, wedges, halvings, '
     "side decreases, quarters. Use one of these words."),
    ("{shape: wedges, wedges: 1}",
     '18:34: error, out-of-range: found "1"; expected a whole number from 2 to 24. Check the '
     "figure."),
    ("{step: 6.3}",
     '18:17: error, bad-dial: found "6.3"; expected a dial setting such as 6, or 6.1 and 6.2 for '
     "its dots. The dial has two dots between whole numbers."),
    ("{shape: wedges, wedges: 10, remain: 5}",  # 52 are 5 each and 2 beside
     "17:3: error, cannot-shape: size woman: found 10 wedges of 5 stitches, to be decreased to 5; "
     "expected figures that make a hat. Make hat_width wider, or the wedges fewer."),
    ("{shape: wedges, every: 10, wedges: 10}",  # 4 decreases, 10 rows each
     "17:3: error, cannot-shape: size woman: found a crown of 40 rows in a hat of 40 rows; "
     "expected figures that make a hat. Make the hat longer, or its crown less deep."),
])
def test_a_crown_that_cannot_be(crown: str, said: str) -> None:
    assert said in found(crown)


def test_needles_left_out_of_work_cannot_be_closed_up() -> None:
    ribbed = HAT.replace("dial: 6,", "dial: 6, needles: 2 in 1 out,")
    assert any("found a crown of wedges in a fabric with needles left out of work" in said
               for said in found("{shape: wedges}", ribbed))


def test_a_rounding_that_no_wedges_have_is_refused() -> None:
    """8 wedges and 2 beside are an even number."""
    odd = HAT.replace("  measures:", "  round: {hat cast on: odd}\n  measures:")
    assert any("hat, cast on rounded to odd, which is never a multiple of 8 plus 2"
               in said for said in found("{shape: wedges}", odd))


def test_the_measure_of_a_gathered_crown_says_nothing_beside_wedges() -> None:
    """50 stitches less 2 are 6 a wedge: 5 decreases, two rows each."""
    deep = HAT.replace("hat_length: 20 cm", "hat_length: 20 cm, crown: 3 cm")
    (said,) = found("{shape: wedges}", deep)
    assert "overruled-measure: size woman: found crown 3 cm, where the wedges take 10 rows; " \
        "expected a gathered crown" in said
    assert not any("overruled" in each for each in found("{step: 1}", deep))


def test_a_hat_of_two_layers_has_no_hem_and_no_brim() -> None:
    hemmed = HAT.replace("  measures:", "  hem: {depth: 4 cm}\n  measures:")
    assert any("cannot-shape: size woman: found a hem below a hat with a crown at both ends; "
               "expected figures that make a hat. Leave the hem out, or both_ends." in said
               for said in found("{both_ends: yes}", hemmed))
    banded = "bands:\n  brim: {edge: brim, pick_up: 3/4, depth: 3 cm}\n" + HAT
    assert ('2:16: error, no-such-edge: found the edge "brim" of a garment with a crown at both '
            "ends; expected a hat with a lower edge. Delete both_ends, or the band.") in found(
        "{both_ends: yes}", banded)


def test_a_hat_of_two_layers_begins_on_waste_yarn_alone() -> None:
    asked = HAT.replace("  measures:", "  cast_on: {hat: by hand}\n  measures:")
    assert any("no-such-way: found by hand for the hat, where its first stitches are drawn up, off "
               "waste yarn" in said for said in found("{both_ends: yes}", asked))


def test_a_hat_of_two_layers_is_twice_as_long_as_it_is_worn() -> None:
    """20 cm are 40 rows of 5 mm, in each layer; at the bed its first row is left waiting."""
    (made,) = proved("{both_ends: yes}").sizes[0].pieces
    assert made.piece.left.rows == 80
    assert made.trace.states[-1].waiting == (("hat, lower edge", 52), ("crown", 26))
    lengths = proved("{both_ends: yes}").sizes[0].assembled.garment.finished
    assert lengths["length"].mm == 200


def test_side_decreases_take_a_stitch_of_either_edge() -> None:
    """52 stitches less 20 are 16 decreases, a row each: rows 24 to 39 of 40."""
    (made,) = proved("{shape: side decreases, every: 1, remain: 20}").sizes[0].pieces
    assert [change.row for change in made.piece.left.changes] == [*range(24, 40)]
    assert made.piece.left == made.piece.right
    states = [state for state in made.trace.states if state.counter >= 24 and state.loaded]
    assert [len(state.loaded) for state in states][-1] == 20
    assert made.trace.states[-1].waiting == (("crown", 20),)


@pytest.mark.parametrize(("remain", "moved", "is_good"), [
    (8, 3, True), (6, 3, False), (7, 3, True), (4, 1, True), (2, 1, False)])
def test_the_last_side_decreases_are_alike_at_both_edges(remain: int, moved: int, is_good: bool
                                                         ) -> None:
    """Of an even number of stitches, fewer are moved at the second edge than at the first."""
    long = HAT.replace("  measures:", f"  moved: {moved}\n  measures:").replace(
        "length: 20 cm", "length: 60 cm")
    said = found(f"{{shape: side decreases, remain: {remain}}}", long)
    assert (not [each for each in said if "error" in each]) is is_good
    if not is_good:
        assert (f"found {remain} stitches left of side decreases that move {moved}; expected "
                f"figures that make a hat. Write remain: {2 * moved + 2}, or an odd number, or "
                "make moved less.") in said[0]


def test_a_crown_in_quarters_is_sewn_before_the_back_seam() -> None:
    """52 are 13 a quarter, 3 of which are left: 5 decreases, two rows each."""
    size = proved("{shape: quarters}").sizes[0]
    (made,) = size.pieces
    assert made.piece.quarters is not None and made.piece.quarters.rows == 10
    assert made.trace.states[-1].waiting == tuple((f"crown, quarter {n}", 3) for n in range(1, 5))
    assert size.assembled is not None
    garment = size.assembled.garment
    assert [(join.seam, join.one, join.other) for join in garment.joins] == [
        (Seam.QUARTERS, 10, 10), (Seam.BACK, 40, 40)]
    kinds = [task.kind for task in garment.tasks]
    assert kinds.index(TaskKind.QUARTER_SEAMS) < kinds.index(TaskKind.CROWN_SEAM)


def test_quarters_too_small_to_be_decreased_are_refused() -> None:
    narrow = HAT.replace("hat_width: 50 cm", "hat_width: 8 cm")  # 10 and 2: 12 are 3 a quarter
    assert any("found quarters of 3 stitches, to be decreased to 3; expected figures that make a "
               "hat. Make hat_width wider." in said for said in found("{shape: quarters}", narrow))


TWO = HAT.replace("fabrics:", 'charts:\n  lamps: {repeat: "||\\nx|\\n"}\nfabrics:').replace(
    "yarn: wool, dial: 6,", "yarn: wool, contrast: lamp, chart: lamps, dial: 6,").replace(
    "yarns: {wool: {name: Harbour wool}}",
    "yarns: {wool: {name: Harbour wool}, lamp: {name: Harbour lamp}}").replace(
    "hat_length: 20 cm", "hat_length: 40 cm")


def test_two_colours_end_below_a_crown_and_cannot_narrow_at_both_edges() -> None:
    assert any("found side decreases in a fabric of two colours; expected figures that make a hat. "
               "Use a fabric of one yarn, or another shape of crown, which is plain." in said
               for said in found("{shape: side decreases, every: 1}", TWO))
    for crown in ("{shape: wedges}", "{shape: halvings}", "{shape: quarters, every: 1}"):
        assert not [said for said in found(crown, TWO) if "error" in said]


def test_stripes_are_for_crowns_that_are_one_piece_of_rows() -> None:
    """Each quarter has a new end of yarn, and a tube of two layers begins on waste yarn."""
    striped = HAT.replace("{wool: {name: Harbour wool}}",
                          "{wool: {name: Harbour wool}, lamp: {name: Harbour lamp}}") \
        + "  stripes: {sequence: [{yarn: wool, rows: 4}, {yarn: lamp, rows: 2}]}\n"
    for crown, how in (("{shape: quarters}", "in quarters"), ("{both_ends: yes}", "at both ends")):
        assert any(f"stripes-not-here: found stripes in a hat with a crown {how}; " in said
                   for said in found(crown, striped)), found(crown, striped)
    for crown in ("{shape: wedges}", "{shape: halvings}", "{step: 1}"):
        assert not [said for said in found(crown, striped) if "error" in said]


def test_a_crown_of_no_depth_is_no_unlikely_one() -> None:
    """The reference gives it for a hat whose dial steps come after its gathering."""
    text = HAT.replace("hat_length: 20 cm", "hat_length: 20 cm, crown: 0 cm")
    said = found("{shape: gathered, step: 1}", text)
    assert [each for each in said if "unlikely-value" in each] == []
