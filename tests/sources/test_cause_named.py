"""A slip whose finding led away from it: each names the figure or the entry that is wrong.

Figures are worked in the docstrings from what each source says.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from reading import BEDS, FILE, changed
from walebook.core.problems import Problem
from walebook.pages import write_pages
from walebook.pattern.model import Pattern
from walebook.proof.proof import prove
from walebook.proof.verdict import judge
from walebook.sizing.charts import Chart
from walebook.sizing.grading import look_across
from walebook.source.pattern import read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

PATTERNS = Path(__file__).parents[2] / "patterns"


def text_of(name: str) -> str:
    return (PATTERNS / name / "pattern.yaml").read_text(encoding="utf-8").replace(
        "bed: mid", "bed: standard")


BAG, CARDIGAN = text_of("pursers-bag"), text_of("ropewalk-cardigan")


def children() -> Chart:
    node, _ = parse_source((PATTERNS / "_sizes" / "children.yaml").read_text(encoding="utf-8"),
                           name="patterns/_sizes/children.yaml")
    assert node is not None
    chart, _ = read_chart(node, key="children")
    assert chart is not None
    return chart


def read(text: str) -> tuple[Pattern | None, tuple[Problem, ...]]:
    node, problems = parse_source(text, name=FILE)
    assert node is not None, problems
    return read_pattern(node, slug="trial", beds=BEDS, charts={"children": children()})


def found_in(text: str) -> list[Problem]:
    pattern, found = read(text)
    return [*found, *(judge(pattern)[1] if pattern else ())]


@pytest.mark.parametrize("rule", ("1", "3/4"))
def test_a_band_by_a_rule_is_as_wide_as_an_edge_without_rows(rule: str) -> None:
    """Every stitch that waits has one of the facing's. The two swatches have 60 stitches in
    14.3 + 14.4 cm, which makes each 287/60 mm wide, whatever the rule for rows."""
    pattern, _ = read(changed(
        "    kind: folded\n    fabric: band\n    depth: 2 cm\n    fold: loose\n",
        f"    kind: facing\n    pick_up: {rule}\n    depth: 2 cm\n", BAG))
    assert pattern is not None
    proof, _ = prove(pattern)
    assert proof is not None
    for size in proof.sizes:
        (plan,) = size.plans
        assert plan.gauge.stitch == Fraction(287, 60)


def test_an_unlikely_figure_is_named_where_the_piece_cannot_be_shaped() -> None:
    """An ease of 100 cm, ten times what was meant, at its own line."""
    found = found_in(changed("    ease: 8 cm", "    ease: 100 cm", CARDIGAN))
    line = CARDIGAN[:CARDIGAN.index("    ease: 8 cm")].count("\n") + 1
    assert {p.code for p in found} >= {"cannot-shape", "unlikely-value"}
    assert any(p.code == "unlikely-value" and p.place.line == line and "ease 100 cm" in p.found
               for p in found)
    shaped = next(p for p in found if p.code == "cannot-shape")
    assert "whole numbers" not in shaped.expected
    assert "stitches to go in" in shaped.expected


def test_a_piece_too_wide_for_its_bed_is_not_sent_to_what_no_form_can_do() -> None:
    """No key of these forms knits a piece in two; and no size but those below is a way out."""
    bed = re.search("^bed: .*$", CARDIGAN, re.MULTILINE)
    assert bed
    found = [p for p in found_in(changed(bed[0], "bed: {pitch: 4.5 mm, needles: 60}", CARDIGAN))
             if p.code == "bed-too-short" and p.place.file.endswith("pattern.yaml")
             and "Lessen" in p.remedy]
    assert found
    for problem in found:
        assert problem.remedy == ("Lessen the ease or a width, or use a thicker yarn or a bed with "
                                  "more needles.")


def test_the_overview_names_the_needles_of_the_size_whose_tools_it_lists() -> None:
    """It had those of the widest size, among the amounts of the middle one."""
    pattern, _ = read(CARDIGAN)
    assert pattern is not None
    proof, _ = prove(pattern)
    assert proof is not None
    pages = {page.path.rpartition("/")[2]: page.text for page in write_pages(proof)}
    listed = re.search(r"Tools and materials for size ([^<]+)<.*?at least (\d+) needles",
                       pages["index.md"], re.DOTALL)
    assert listed
    needles = {text[1] for text in [re.search(r"at least (\d+) needles", page)
                                    for page in pages.values()] if text}
    assert len(needles) > 1
    own = re.search(r"at least (\d+) needles", pages[f"{listed[1].lower()}.md"])
    assert own and own[1] == listed[2]


def test_no_measure_is_called_unused_beside_a_join_that_was_not_read() -> None:
    """The edge of a join is misspelt; what the pieces are cut by is used all the same."""
    idle = "    idle: 3 cm\n    bag_half: bag_width / 2\n"
    base = changed("    bag_half: bag_width / 2\n", idle, BAG)
    assert any(p.code == "unused-measure" for p in found_in(base))
    found = found_in(changed("to: bag.left.upper", "to: bag.left.uper", base))
    assert any(p.severity.value == "error" for p in found)
    assert not any(p.code == "unused-measure" for p in found)


@pytest.mark.parametrize("typed", ("#6f8f5a", ""))
def test_a_colour_behind_a_remark_is_to_stand_in_quotes(typed: str) -> None:
    """In YAML 1.2 (6.6, "Comments") a # after a space begins a comment."""
    (found,) = [p for p in found_in(changed('colour: "#7a6a3f"', f"colour: {typed}", BAG))
                if p.code == "empty-value"]
    assert '"#708090"' in found.expected
    assert "quotes" in found.remedy


def test_sizes_that_are_numbers_are_called_sizes() -> None:
    (found,) = [f for f in look_across("ease [cm]", [("2", Fraction(10)), ("4", Fraction(12)),
                                                     ("6", Fraction(4)), ("8", Fraction(14))])
                if f.kind == "against"]
    assert found.text.startswith("ease [cm] falls from 12 in size 4 to 4 in size 6")


def test_a_size_between_two_of_the_chart_may_be_either() -> None:
    text = CARDIGAN[:CARDIGAN.index("\nsizes:")] + '\nsizes: ["4", "5"]\n' + \
        CARDIGAN[CARDIGAN.index("garment:\n"):]
    (found,) = [p for p in found_in(text) if p.code == "size-not-in-chart"]
    assert "{label: 5, as: 4} or {label: 5, as: 6}" in found.remedy
    (found,) = [p for p in found_in(text.replace('"5"', "large")) if p.code == "size-not-in-chart"]
    assert "as: 2}" not in found.remedy


def test_an_end_without_its_unit_may_be_stitches_or_a_length() -> None:
    start = CARDIGAN.index("      ends: ")
    end = CARDIGAN.index("\n", start)
    found = [p for p in found_in(f"{CARDIGAN[:start]}      ends: 5{CARDIGAN[end:]}")
             if p.code == "bad-length"]
    assert [p.remedy for p in found] == ["Write 5 stitches, or the unit of a length, as in 5 cm."]
