"""Stitch charts in sources: what sound ones come to, and the exact message of every fault.

Lines and columns were counted by hand in the texts below; messages are written from the rules of
the format.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.codes import CHART_CODES
from walebook.pattern.cells import Cell
from walebook.pattern.stitch_chart import StitchChart
from walebook.source.fields import Findings
from walebook.source.source import parse_source
from walebook.source.stitch_chart_reading import MOST_FLAWS, read_stitch_charts
from walebook.source.values import Entry

from tests.scale import examples
from tests.small_patterns import cells_of

FILE = "patterns/slack-tide/pattern.yaml"
MARKS = "| . < > / ( ) \\ u v x"


def read(text: str) -> tuple[dict[str, StitchChart | None], Findings]:
    node, problems = parse_source(text, name=FILE)
    assert problems == ()
    assert node is not None
    findings = Findings()
    return read_stitch_charts(findings, Entry("charts", node, "charts", node.place)), findings


def sound(text: str) -> dict[str, StitchChart]:
    charts, findings = read(text)
    assert findings.problems == []
    return {key: chart for key, chart in charts.items() if chart is not None}


def messages(text: str) -> list[str]:
    return [str(problem).removeprefix(f"{FILE}:") for problem in read(text)[1].problems]


def block(*lines: str, rest: str = "") -> str:
    """One chart, its block from line 3 on, its marks from column 5 on."""
    return "ladder:\n  repeat: |\n" + "".join(f"    {line}\n" for line in lines) + rest


def test_a_chart_with_everything_said() -> None:
    charts = sound(block("|.|>", "|.||", rest='  title: Quay ladder\n  edge: 2\n'
                                              '  key: {".": a ladder, ">": moved}\n'))
    assert charts == {"ladder": StitchChart(
        title="Quay ladder", edge=2, rows=(cells_of("|.||"), cells_of("|.|>")),
        words=((Cell.OUT, "a ladder"), (Cell.RIGHT, "moved")))}


def test_what_may_be_left_out_has_its_default() -> None:
    chart = sound("quay-ladder: {repeat: '|.||'}\n")["quay-ladder"]
    assert (chart.title, chart.edge, chart.words, chart.height) == ("quay ladder", 1, (), 1)
    assert sound(block("|v", "||", rest="  key: {}\n"))["ladder"].words == ()


def test_the_lowest_row_is_row_one() -> None:
    chart = sound(block("|x", "|u"))["ladder"]
    assert [row[1] for row in chart.rows] == [Cell.TUCK, Cell.SECOND]


def test_all_marks_are_read() -> None:
    charts = sound(block("|.|<|>|//((|))\\\\u||v|", "|.|x" + 17 * "|"))
    assert charts["ladder"].cells == frozenset(Cell)


@pytest.mark.parametrize(("text", "said"), [
    (block("|q||", "||||"), [
        f'3:6: error, chart-mark: found "q" at stitch 2 of row 2; expected one of the marks {MARKS}'
        ". The page about sources explains them."]),
    (block("||||", "|oI|"), [
        f'4:6: error, chart-mark: found "o" at stitch 2 of row 1; expected one of the marks {MARKS}'
        ". Write < or > for the stitch that is moved; its needle is the eyelet.",
        f'4:7: error, chart-mark: found "I" at stitch 3 of row 1; expected one of the marks {MARKS}'
        ". Write | for a plain stitch."]),
    (block("||||", "|| |"), [
        f'4:7: error, chart-mark: found " " at stitch 3 of row 1; expected one of the marks {MARKS}'
        ". Write . for a needle out of work, and start every row at one column."]),
    ('ladder: {repeat: "|-|"}\n', [
        '1:20: error, chart-mark: found "-" at stitch 2 of row 1; '
        f"expected one of the marks {MARKS}. The page about sources explains them."]),
    (block("|||", "", "||||"), [
        "4:5: error, chart-uneven: found 0 marks in row 2; expected 4 as in row 1, the lowest. "
        "Give every row of the repeat the same width.",
        "3:7: error, chart-uneven: found 3 marks in row 3; expected 4 as in row 1, the lowest. "
        "Give every row of the repeat the same width."]),
    (block("|//|((|"), [
        '3:6: error, chart-crossing: found "/" without those it crosses at stitch 2 of row 1; '
        "expected a whole crossing inside the repeat, such as //(( or ))\\\\. "
        "Write the stitches that change places side by side in one row.",
        '3:7: error, chart-crossing: found "/" without those it crosses at stitch 3 of row 1; '
        "expected a whole crossing inside the repeat, such as //(( or ))\\\\. "
        "Write the stitches that change places side by side in one row.",
        '3:9: error, chart-crossing: found "(" without those it crosses at stitch 5 of row 1; '
        "expected a whole crossing inside the repeat, such as //(( or ))\\\\. "
        "Write the stitches that change places side by side in one row.",
        '3:10: error, chart-crossing: found "(" without those it crosses at stitch 6 of row 1; '
        "expected a whole crossing inside the repeat, such as //(( or ))\\\\. "
        "Write the stitches that change places side by side in one row."]),
    (block("|.<|", "|.||"), [
        '3:7: error, chart-move: found "<" towards "." at stitch 3 of row 2; expected a plain '
        "stitch beside it to take the one that moves. Leave the stitch it is moved onto plain."]),
    (block("||<>"), [
        "3:7: error, chart-move: found two needles left empty side by side at stitch 3 of row 1; "
        "expected a stitch between two eyelets. Leave a plain stitch between them."]),
    (block(">||<"), [  # the next repeat's first stitch is the neighbour of this one's last
        "3:8: error, chart-move: found two needles left empty side by side at stitch 4 of row 1; "
        "expected a stitch between two eyelets. Leave a plain stitch between them."]),
    (block("<<"), [
        "3:5: error, chart-move: found nothing but stitches that move one way at stitch 1 of row "
        "1; expected a stitch that stays and takes another. Leave one plain stitch."]),
    (block("|.||", "||||"), [
        '3:6: error, chart-column: found "." in some rows only at stitch 2; expected a needle in '
        'work in all rows or in none. Write "." in every row, or in none.']),
    (block("|u", "|v"), [
        "4:6: error, chart-column: found no row that knits at stitch 2; expected a stitch that is "
        "knitted in one row at least. Knit it in the row above: a loop held for ever cannot be "
        "knitted off."]),
    (block(*["|u"] * 7, "||"), [
        "3:6: error, chart-tucks: found 7 rows that tuck at stitch 2; expected at most 6 before "
        "the needle knits. Knit it in between: no hook holds more loops."]),
    (block(".."), [
        "3:5: error, chart-column: found a repeat without a needle in work; expected one stitch "
        "at least. Write | for a stitch."]),
    (block("<||", rest="  edge: 0\n"), [
        "3:5: error, chart-edge: found a stitch moved out of the piece at stitch 1 of row 1; "
        "expected an edge stitch at each side. Write edge: 1."]),
    (block("||.", rest="  edge: 0\n"), [
        "3:7: error, chart-edge: found a needle left out of the piece at stitch 3 of row 1; "
        "expected an edge stitch at each side. Write edge: 1."]),
    (block("|.", rest='  key: {"<": moved, ".": a ladder}\n'), [
        '4:9: error, chart-key: found words for "<" in chart "ladder"; expected a mark of the '
        "chart: | .. Delete the line."]),
    ("ladder: {title: Ladder}\n", [
        '1:1: error, missing-key: found no "repeat" in chart "ladder". '
        'Add a line such as "repeat: "|.||"".']),
    ("ladder: {repeat: [a, b]}\n", [
        "1:10: error, wrong-shape: found a list; expected rows of marks. Write repeat: | and a "
        f"row such as |.|| below. The marks are {MARKS}"]),
    ("ladder:\n  repeat:\n", [
        '2:3: error, empty-value: found nothing after "repeat"; expected rows of marks. Write '
        f"repeat: | and a row such as |.|| below. The marks are {MARKS}"]),
    (block("|" * 61), [
        "2:11: error, too-many: found a repeat of 61 marks and 1 rows; expected at most 60 marks "
        "and 120 rows. Write what repeats, and once only."]),
    (block("|xu", "|||"), [
        '3:7: error, chart-two-yarns: found "u" in a row of two colours at stitch 3 of row 2; '
        "expected rows that tuck or slip to have one. Tuck or slip in a separate row."]),
    (block("xx"), [
        "3:5: error, chart-two-yarns: found nothing but the second colour at stitch 1 of row 1; "
        "expected a stitch of each colour in a row of two. Write | for one stitch at least: both "
        "yarns run through the row."]),
    (block("|", rest="  edge: 11\n"), [
        '4:9: error, out-of-range: found "11"; expected a whole number from 0 to 10. Check the '
        "figure."]),
    (block("|", rest="  egde: 1\n"), [
        '4:3: error, unknown-key: found the unknown key "egde" in chart "ladder"; expected '
        '"edge". Write edge.']),
    ("Ladder: {repeat: '|'}\n", [
        '1:1: error, bad-name: found the name "Ladder"; expected small letters and digits, with '
        "single spaces, - or _ between words. Rename it ladder; a title may hold anything."]),
])
def test_a_fault_is_told_at_its_row(text: str, said: list[str]) -> None:
    assert messages(text) == said


def test_every_code_of_charts_is_earned_above() -> None:
    marks = test_a_fault_is_told_at_its_row.pytestmark
    told = "".join(line for _, lines in marks[0].args[1] for line in lines)
    assert all(f"error, {code}:" in told for code in CHART_CODES
               if code not in ("chart-in-band", "chart-contrast"))  # in test_chart_fabrics


def test_a_chart_full_of_faults_does_not_flood_the_page() -> None:
    assert len(messages(block("/" * 60))) == MOST_FLAWS
    assert len(messages(block("q" * 60, "z" * 60))) == 2


def test_blank_lines_above_a_block_keep_the_places_right() -> None:
    assert messages("ladder:\n  repeat: |\n\n    ||\n    |q\n")[0].startswith("5:6: ")


@settings(max_examples=examples(60), deadline=None)
@given(st.lists(st.text("|.<>/()\\uvxq I", min_size=1, max_size=9), min_size=1, max_size=5))
def test_any_block_is_a_chart_or_has_a_finding(lines: list[str]) -> None:
    lines = [line.strip() or "|" for line in lines]
    charts, findings = read(block(*lines))
    assert (charts["ladder"] is None) == bool(findings.problems)
    assert all(1 <= p.place.line <= 2 + len(lines) for p in findings.problems)
