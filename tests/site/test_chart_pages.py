"""Pages of pieces knitted from a stitch chart, and the demo blanket, as a knitter reads them."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from html import unescape
from pathlib import Path

import pytest
from walebook.machine.reasons import Reason
from walebook.machine.steps import Knit, Transfer
from walebook.pages import write_pages
from walebook.pages.program import numbered
from walebook.pattern.stitch_chart import StitchChart
from walebook.proof.proof import KnittedPiece, Proof, prove
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.source import parse_source
from walebook.words.repeats import MOST_LISTED, Goes

from tests.needle_names import needle
from tests.small_patterns import cells_of

_WRITTEN: dict[int, tuple[tuple[str, str], ...]] = {}
PATTERNS = Path(__file__).parents[2] / "patterns"


@cache
def demo(lines: tuple[str, ...] = ()) -> Proof:
    """The demo blanket proved; with `lines`, from another chart, the top line first."""
    node, problems = parse_source(
        (PATTERNS / "net-loft-blanket" / "pattern.yaml").read_text(encoding="utf-8"), name="demo")
    assert node is not None and problems == ()
    bed_node, _ = parse_source((PATTERNS / "_beds" / "mid.yaml").read_text(encoding="utf-8"),
                               name="mid")
    assert bed_node is not None
    bed, _ = read_bed(bed_node, name="mid")
    assert bed is not None
    pattern, problems = read_pattern(node, slug="net-loft-blanket", beds={"mid": bed})
    assert pattern is not None and problems == ()
    if lines:
        chart = StitchChart(title="Rope & <net>", rows=tuple(map(cells_of, lines))[::-1])
        pattern = replace(pattern, stitch_charts={"mesh": chart})
    proof, problems = prove(pattern)
    assert proof is not None, [str(p) for p in problems]
    return proof


@pytest.fixture(scope="module")
def proof() -> Proof:
    return demo()


def panels(proof: Proof) -> list[KnittedPiece]:
    return [piece for size in proof.sizes for piece in size.pieces]


def page(proof: Proof, name: str) -> str:
    return next(text for path, text in files(proof) if path.endswith(name))


def files(proof: Proof) -> tuple[tuple[str, str], ...]:
    """The pages of a proof, written once: (path, text)."""
    if id(proof) not in _WRITTEN:
        _WRITTEN[id(proof)] = tuple((f.path, f.text) for f in write_pages(proof))
    return _WRITTEN[id(proof)]


def plain(html: str) -> str:
    text = unescape(re.sub(r"<[^>]+>", " ", re.sub(r"<svg.*?</svg>", " ", html, flags=re.S)))
    return re.sub(r"\s+", " ", text)


def test_the_bed_knits_every_row_of_the_lace_in_every_size(proof: Proof) -> None:
    """Each eyelet is a needle the bed found empty, and filled in the row that names it."""
    assert len(proof.sizes) == 3
    for knitted in panels(proof):
        assert knitted.trace.refusal is None
        assert knitted.trace.states[-1].counter == knitted.piece.rows
        eyelets = sum(len(s.fills) for s in knitted.program.steps
                      if isinstance(s, Knit) and s.rows == 1)
        placed = knitted.piece.placed
        assert placed is not None
        # rows 1 and 5 of 8 have an eyelet in each repeat: counted by hand in the source
        rows = sum(row % 8 in (1, 5) for row in range(1, knitted.piece.rows + 1))
        assert eyelets == placed.repeats * rows


def test_sizes_have_needles_of_their_own(proof: Proof) -> None:
    taken = {str(knitted.piece.needles) for knitted in panels(proof)}
    assert len(taken) == 3
    for size in proof.sizes:
        text = plain(page(proof, f"{size.size}.md"))
        needles = size.pieces[0].piece.needles
        assert f"{needles.first} to {needles.last}: " in text


def test_rows_are_told_as_whole_repeats_and_nothing_is_left_out(proof: Proof) -> None:
    for knitted in panels(proof):
        told = [each for _, group in numbered(knitted, proof.pattern) for each in group]
        goes = [each for each in told if isinstance(each, Goes)]
        assert sum(g.rows * g.times for g in goes) == knitted.piece.rows
        assert goes[0].rows == 8 and goes[0].times == knitted.piece.rows // 8
        assert all(end % 8 == 0 for end in goes[0].ends)
        assert goes[-1].after.counter == knitted.piece.rows
        assert len(told) < 40


def test_the_step_says_how_often_and_where_the_counter_then_is(proof: Proof) -> None:
    for size in proof.sizes:
        rows = size.pieces[0].piece.rows
        times, rest = divmod(rows, 8)
        text = plain(page(proof, f"{size.size}.md"))
        assert f"Work rows 1 to 8 of the stitch pattern {times} times , over and over, until the " \
               f"row counter shows {times * 8} ." in text
        listed = "Row counter at the end of each repeat: " + ", ".join(
            str(8 * n) for n in range(1, times + 1))
        assert (listed in text) == (times <= MOST_LISTED)
        assert ("These are the first rows of one more repeat." in text) == bool(rest)


def test_no_page_lists_thousands_of_lines(proof: Proof) -> None:
    for name, text in files(proof):
        assert text.count("<li") < 120
        assert len(text) < (120_000 if name.endswith(".json") else 100_000)


def test_drawing_key_and_words_stand_together_on_both_pages(proof: Proof) -> None:
    for name in ("index.md", "lap.md"):
        html = page(proof, name)
        assert html.count('class="wb-chart-both"') == 1
        assert html.count('class="wb-chart-rows"') == 1
        assert "Rows 2 to 4 and 6 to 8:" in plain(html)


def test_the_words_of_a_row_name_the_needles_that_the_bed_moved(proof: Proof) -> None:
    for size in proof.sizes:
        text = plain(page(proof, f"{size.size}.md"))
        moves = [s for s in size.pieces[0].program.steps
                 if isinstance(s, Transfer) and abs(s.by) == 1
                 and s.reason is not Reason.FOR_PICOTS][:2]
        said = re.findall(r"Row [15]: move the stitches of every eighth needle from ([LR]\d+) to "
                          r"([LR]\d+) .*?one needle to the (left|right)", text)
        assert [(needle(a), needle(b), side) for a, b, side in said] == [
            (m.needles.first, m.needles.last, "right" if m.by > 0 else "left") for m in moves]


def test_ids_are_used_once_and_links_lead_to_them(proof: Proof) -> None:
    for _, text in files(proof):
        ids = re.findall(r'\bid="([^"]+)"', text) + re.findall(r"\{ #([^ }]+) \}", text)
        assert len(ids) == len(set(ids))
        assert set(re.findall(r'href="#([^"]+)"', text)) <= set(ids)


@pytest.mark.parametrize(("lines", "said"), [
    (("||||||", "|//((|"), "cross in groups of 4 on"),
    (("||||", "|u||"), "tuck on"),
    (("||||", "|v||"), "slip on"),
    (("|.||",), "Out of work throughout:"),
])
def test_other_charts_are_told_in_words_too(lines: tuple[str, ...], said: str) -> None:
    made = demo(lines)
    html = page(made, "lap.md")
    assert said in plain(html)
    assert "Stitch pattern: Rope &amp; &lt;net&gt;" in html and "<net>" not in html


def test_tools_follow_from_what_the_chart_asks_for() -> None:
    assert "Two transfer tools" in page(demo(("||||||", "|//((|")), "lap.md")
    assert "A carriage that can be set to hold." in page(demo(("||||", "|u||")), "lap.md")
    assert "Two transfer tools" not in page(demo(), "lap.md")


def test_yarn_is_reckoned_for_stitches_passed_by_as_the_swatch_was() -> None:
    """A swatch counts 40 × 60 places, slipped ones among them, and so must the amount."""
    grams = []
    for lines in (("||||", "||||"), ("||||", "|v||")):
        text = plain(page(demo(lines), "lap.md"))
        grams.append(int(re.search(r"about (\d+) g", text)[1]))  # type: ignore[index]
    assert abs(grams[0] - grams[1]) <= grams[0] // 50
