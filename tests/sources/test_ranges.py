"""Figures out of all likelihood: a warning outside the plausible range, an error outside the hard
limit, before anything is planned. The table itself names its sources; here stand the messages.

The bounds of the messages are those of the table. What a figure comes to was reckoned by hand:
9 g of 1.2 m to a gram over 20 × 30 stitches are 18 mm a stitch; stitches of 7.1 by 5 mm ask for
√(23.1 × 7.1 × 5) = 28.6 mm of yarn, so that 90 g are 6.3 times it and 13 g for a sixth of the
length 0.15 of it. In plain stitches 19.0 to 23.1 (D. L. Munden, Journal of the Textile Institute
50, 1959; from memory) ask for √(19 × 7.1 × 5) = 26.0 mm to 1.15 × 28.6 = 32.9 mm.
"""

from __future__ import annotations

import ast
import html
import re
import time
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from reading import BASE, FILE, changed, messages
from reading import read as read_source
from test_garment_sources import GARMENT
from test_garment_sources import read as read_garment
from walebook.core.problems import Severity, fold_sizes, in_order
from walebook.core.ranges import COMPARED, DEPTHS, MEASURES, OWN_MEASURE, Measured, Range
from walebook.core.units import read_dial, read_length
from walebook.drawings.body_measures import piece_drawings
from walebook.forms.registry import FORMS
from walebook.pages.source_page import RANGES_MARKER, fill_lists
from walebook.pattern.fabrics import Repeat
from walebook.plan.sense import check
from walebook.proof.proof import prove
from walebook.source import spellings
from walebook.source.keys.whole import RANGES, figures_read
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source
from walebook.source.values import Figure
from walebook.words.measure_names import MEASURES as MEANINGS
from walebook.words.measure_names import NOT_DRAWN

READING = Path(__file__).parents[2] / "engine" / "source"
CHECK = "Check the figure and its unit."
YARN = "Check the swatch's mass, and the package of its yarn."
SWATCHES = "Check the figures of the swatch."
DIAL = "expected dial setting: {}. Check the figure."

# What a slip of the pen makes of a figure: (the passage, what is written, the findings).
SLIPS: dict[str, tuple[str, str, list[str]]] = {
    "grams in place of tenths": ("mass: 13 g", "mass: 90 g", [
        "24:71: warning, unlikely-value: found 90 g, 6.29 times the yarn that stitches of this "
        "size take; expected 0.4 to 2.5 times. " + YARN]),
    "grams in place of hundredths": ("mass: 13 g", "mass: 190 g", [
        "24:71: error, out-of-range: found 190 g, 13.27 times the yarn that stitches of this "
        "size take; expected 0.1 to 8 times. " + YARN]),
    "a swatch of kilograms": ("mass: 13 g", "mass: 9 kg", [
        '24:71: error, out-of-range: found "9 kg"; expected a mass above 0 g, at most 1000 g. '
        + CHECK]),
    "rows in place of tens": ("rows: 30, height: 15 cm, mass: 13 g", "rows: 300, height: 15 cm", [
        "24:46: error, out-of-range: found a row 0.5 mm high under a stitch 7.1 mm wide; "
        f"expected a stitch 0.2 to 8 times as wide as its row is high. {SWATCHES}"]),
    "rows of another swatch": ("rows: 30, height: 15 cm, mass: 13 g", "rows: 90, height: 15 cm", [
        "24:46: warning, unlikely-value: found a row 1.67 mm high under a stitch 7.1 mm wide; "
        f"expected a stitch 0.8 to 3 times as wide as its row is high. {SWATCHES}"]),
    "a width in inches": ("width: 13.2 cm", "width: 13.2 in", [
        "29:50: warning, unlikely-value: found a row 4.7 mm high under a stitch 16.76 mm wide; "
        f"expected a stitch 0.8 to 3 times as wide as its row is high. {SWATCHES}"]),
    "a dial of nothing": ("dial: 4.1", "dial: 0", [
        f'28:11: warning, unlikely-value: found "0"; {DIAL.format("1 to 10.2")}']),
    "a dial beyond all": ("dial: 4.1", "dial: 99", [
        '28:11: error, out-of-range: found "99"; expected a dial setting from 0 to 15. Check '
        "the figure."]),
    "a package of two metres": ("{mass: 100 g, length: 120 m}", "{mass: 50 g, length: 2 m}", [
        "18:35: error, out-of-range: found 2 m to 50 g, which is 4 m to 100 g; expected 10 to "
        "10000 m to 100 g. Check the mass and the length of the package."]),
    "a package of twenty metres": ("{mass: 100 g, length: 120 m}", "{mass: 100 g, length: 20 m}", [
        "18:36: warning, unlikely-value: found 20 m to 100 g, which is 20 m to 100 g; expected 40 "
        "to 3000 m to 100 g. Check the mass and the length of the package.",
        "24:71: warning, unlikely-value: found 13 g, 0.15 times the yarn that stitches of this "
        "size take; expected 0.4 to 2.5 times. " + YARN]),
    # 75 m ÷ 62.5 g = 1.2 m/g beside 600 tex, 1000/600 m/g: 0.72 times
    "a mass with a decimal, beside a count": (
        "{mass: 100 g, length: 120 m}", "{mass: 62.5 g, length: 75 m}\n    count: 600 tex", [
            "18:37: warning, unlikely-value: found 75 m to 62.5 g, 0.72 times what the yarn's "
            "count says; expected 0.8 to 1.25 times. Check the count, its order and the package; "
            "or delete the length."]),
    "the year 9999": ("date: 2026-10-30", "date: 9999-10-30", [
        '3:7: error, out-of-range: found "9999-10-30"; expected a date from 1900-01-01 to '
        "2199-12-31. Check the figure."]),
    "the year 2126": ("date: 2026-10-30", "date: 2126-10-30", [
        '3:7: warning, unlikely-value: found "2126-10-30"; expected date: 1990-01-01 to '
        "2079-12-31. Check the figure."]),
    "a button in centimetres": ("button: 22 mm", "button: 22 cm", [
        '52:15: error, out-of-range: found "22 cm"; expected a length from 3 mm to 100 mm. '
        + CHECK]),
    "a band in millimetres": ("depth: 3 cm", "depth: 3 mm", [
        '45:12: warning, unlikely-value: found "3 mm"; expected depth of a band: 5 mm to 25 '
        f"cm. {CHECK}"]),
    "an edge in inches": ("length: {XS: 50 cm, S: 51 cm, M: 52 cm}", "length: 100 in", [
        '34:13: warning, unlikely-value: found "100 in"; expected length of an edge: 2 cm '
        f"to 200 cm (0.8 in to 78.7 in). {CHECK}"]),
    "a button in inches": ("button: 22 mm", "button: 22 in", [
        '52:15: error, out-of-range: found "22 in"; expected a length from 3 mm to 100 mm '
        f"(0.2 in to 3.9 in). {CHECK}"]),
    "rows of an edge by the thousand": ("rows: 52", "rows: 1520", [
        '37:11: warning, unlikely-value: found "1520"; expected rows of an edge: 5 to 1000. '
        "Check the figure."]),
    "buttons by the dozen": ("number: {XS: 5, S: 5, M: 6}", "number: 60", [
        '54:15: warning, unlikely-value: found "60"; expected number of holes: 1 to 40. '
        "Check the figure."]),
    "one button too many": ("number: {XS: 5, S: 5, M: 6}", "number: {XS: 5, S: 15, M: 16}", [
        "54:26: warning, out-of-step: size S: found number goes from XS 5 to S 15, a step of 10, "
        "where 6 is the limit; expected sizes, the smallest first, that grow by even steps. "
        "Check the figure."]),
}


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_of_the_pen_is_found(name: str) -> None:
    old, new, expected = SLIPS[name]
    assert messages(changed(old, new)) == expected


def weighed(grams: str, **changes: Any) -> list[str]:
    """What is found of the body's swatch where it weighs so much and its fabric `changes`."""
    pattern, problems = read_source(changed("mass: 13 g", f"mass: {grams} g"))
    assert pattern is not None, problems
    body = replace(pattern.fabrics["body"], **changes)
    found = check(replace(pattern, fabrics={**pattern.fabrics, "body": body}))
    return [str(p).removeprefix(f"{FILE}:") for p in found if p.code == "swatch-yarn-unlikely"]


def test_a_plain_swatch_that_is_too_light_is_found() -> None:
    """4.36 × √(7.1 × 5) = 26.0 mm a stitch; 4.36 to 4.81 × the same over 600, at the middle 13.7 g.
    """
    assert weighed("9") == [
        "24:71: warning, swatch-yarn-unlikely: found 9 g for 20 stitches and 30 rows, so 18 mm of "
        "yarn in a stitch 7.1 mm wide and 5 mm high; expected 26 to 32.9 mm in a plain stitch "
        "of this size, so 13 to 16.5 g. Weigh the swatch again and write the mass of these "
        "stitches and rows alone, such as mass: 13.7 g; or check its width and height, and the "
        "mass and length of the yarn's package."]


@pytest.mark.parametrize(("grams", "found"), [("12.9", 1), ("13", 0), ("16.4", 0), ("16.5", 1)])
def test_a_plain_swatch_has_the_yarn_of_its_stitches(grams: str, found: int) -> None:
    """25.97 and 32.93 mm for each of 600 stitches, at 1.2 m to a gram, are 12.99 and 16.47 g."""
    assert len(weighed(grams)) == found


@pytest.mark.parametrize("other", [
    {"repeat": Repeat(works=(True, False))}, {"chart": "tucks"}, {"contrast": "main"}])
def test_only_plain_stitches_are_judged_by_their_yarn(other: dict[str, object]) -> None:
    """Needles out of work, stitch charts and a second yarn change what a stitch takes."""
    assert weighed("9") and not weighed("9", **other)


def measured(measures: str, sizes: str = "[S, M]", form: str = "set-in cardigan",
             head: str = "") -> list[str]:
    """The findings of a garment with those measures, as the command has them."""
    text = f"""{GARMENT[:GARMENT.index("sizes:")]}sizes: {sizes}
garment:
  form: {form}
  chart: women
  fabric: body
{head}  measures: {measures}
"""
    pattern, problems = read_garment(text)
    assert pattern is not None, problems
    told = fold_sizes(in_order([*problems, *prove(pattern)[1]]))
    return [str(p).removeprefix(f"{FILE}:") for p in told if p.code != "chart-remark"]


AT = 21  # the line of the measures
GROW = "expected a step like its neighbours'. Change the measure, or leave it if you mean it."
# Measures: (the measures, the sizes, the findings).
SUMS: dict[str, tuple[str, str, list[str]]] = {
    "a body in hundreds of metres": ("{body_length: 500 m}", "[S, M]", [
        "21:27: error, out-of-range: sizes S and M: found body_length 50000 cm; expected "
        f"body_length: 2 cm to 300 cm. {CHECK}"]),
    "a body of 67 inches": ("{body_length: 67 in}", "[S, M]", [
        "21:27: warning, unlikely-value: sizes S and M: found body_length 170.18 cm; expected "
        f"body_length: 12 cm to 130 cm. {CHECK}"]),
    "12 mm of ease in one size": ("{ease: {S: 12 cm, M: 12 mm, L: 12 cm}}", "[S, M, L]", [
        "21:34: warning, out-of-step: size M: found ease [cm] falls from S 12 to M 1.2, against "
        f"its neighbours; {GROW}"]),
    "12 mm of ease in one of two sizes": ("{ease: {S: 12 cm, M: 12 mm}}", "[S, M]", [
        "21:3: warning, out-of-step: size M: found chest_width [cm] falls from S 47.75 to M "
        f"47.6, though the sizes grow; {GROW}"]),
    "lengths that fall in two sizes": ("{body_length: {S: 56 cm, M: 52 cm}}", "[S, M]", [
        "21:41: warning, out-of-step: size M: found body_length [cm] falls from S 56 to M 52, "
        f"though the sizes grow; {GROW}"]),
    "sleeves that fall in three": ("{sleeve_length: {S: 46 cm, M: 44 cm, L: 42 cm}}", "[S, M, L]", [
        f"21:{at}: warning, out-of-step: size {b}: found sleeve_length [cm] falls from {a} {x} to "
        f"{b} {y}, though the sizes grow; {GROW}"
        for at, a, b, x, y in ((43, "S", "M", 46, 44), (53, "M", "L", 44, 42))]),
    "a length that leaps in two sizes": ("{body_length: {S: 54 cm, M: 125 cm}}", "[S, M]", [
        "21:41: warning, out-of-step: size M: found body_length [cm] goes from S 54 to M 125, a "
        f"step of 71, where 61.79 is the limit; {GROW}"]),
    "ease in inches": ('{ease: 3"}', "[S, M]", []),
    "ease without a unit": ("{ease: 3}", "[S, M]", [
        "21:20: error, unlike-measures: found ease: 3, a number without a unit; expected a length "
        "for ease, such as 5 cm or 2 in. Write the unit after the number."]),
}


@pytest.mark.parametrize("name", SUMS)
def test_a_slip_in_a_measure_is_found(name: str) -> None:
    measures, sizes, expected = SUMS[name]
    assert measured(measures, sizes) == expected


def test_a_body_measurement_far_from_the_charts_is_found() -> None:
    # The chart has 28 cm for the upper arm of M: 28 mm are a tenth of it, 28 in 2.54 times.
    def found(figure: str) -> list[str]:
        head = f"  body: {{upper arm: {{M: {figure}}}}}\n"
        return [m for m in measured("{ease: 8 cm}", head=head)
                if "upper arm" in m]
    tell = "upper arm {} in size M, {} times the chart's 28 cm; expected {} times. " + CHECK
    assert found("28 in") == [
        f"21:25: warning, unlikely-value: found {tell.format('71.1 cm', '2.54', '0.7 to 1.4')}"]
    assert found("30 cm") == []


def test_two_sizes_of_an_edge_are_compared() -> None:
    step = "expected sizes, the smallest first, that grow by even steps. Check the figure."
    assert out_of_step("{S: 51 cm, M: 49 cm}") == [
        '34:27: warning, out-of-step: size M: found edge "front" in cm falls from S 51 to M 49, '
        f"though the sizes grow; {step}"]
    assert out_of_step("{S: 51 cm, M: 132 cm}") == [
        '34:27: warning, out-of-step: size M: found edge "front" in cm goes from S 51 to M 132, a '
        f"step of 81, where 51.5 is the limit; {step}"]
    assert out_of_step("{S: 51 cm, M: 52 cm}") == []


def test_a_figure_by_size_that_falls_is_found_where_it_is_read() -> None:
    text = changed("depth: 3 cm", "depth: {XS: 3 cm, S: 1.5 cm, M: 3 cm}")
    assert messages(text) == [
        "45:26: warning, out-of-step: size S: found depth in cm falls from XS 3 to S 1.5, though "
        "the sizes grow; expected sizes, the smallest first, that grow by even steps. Check the "
        "figure."]


def out_of_step(edge: str) -> list[str]:
    text = BASE.replace("[XS, S, M]", "[S, M]").replace("XS: 5, ", "")
    pattern, problems = read_source(changed("{XS: 50 cm, S: 51 cm, M: 52 cm}", edge, text))
    assert pattern is not None, problems
    return [str(p).removeprefix(f"{FILE}:") for p in check(pattern) if p.code == "out-of-step"]


@pytest.mark.parametrize("measure", ["blanket_length: 10000 m", "blanket_length: 10000000 m",
                                     "panels: 100000", "blanket_width: 10 km"])
def test_a_blanket_beyond_all_measure_is_refused_before_it_is_planned(measure: str) -> None:
    """One line of 10000 m took 95 s and 2.7 GB: nothing is planned for it now."""
    text = GARMENT[:GARMENT.index("garment:")] + (
        f"garment:\n  form: panelled blanket\n  fabric: body\n  measures: {{{measure}}}\n")
    began = time.perf_counter()
    pattern, problems = read_garment(text)
    found = [*problems, *(prove(pattern)[1] if pattern else ())]
    assert [p.code for p in found if p.severity is Severity.ERROR]
    assert {p.code for p in found} <= {"out-of-range", "bad-measure"}
    assert time.perf_counter() - began < 2  # a guard, not a measurement


def missing(name: str) -> list[str]:
    """What a measure of a form lacks, and where it is written."""
    has = {"a range in MEASURES of core/ranges.py": name in MEASURES,
           "its meaning in MEASURES of words/measure_names.py": name in MEANINGS,
           "its line in drawings/body_measures.py, or in NOT_DRAWN of words/measure_names.py":
               name in NOT_DRAWN or bool(re.search(rf"\d {name}\b", piece_drawings()))}
    return [f"{name} lacks {what}" for what, there in has.items() if not there]


def test_every_measure_of_every_form_has_all_that_a_measure_needs() -> None:
    names = dict.fromkeys(name for form in FORMS.values() for name in form.names)
    lacking = [said for name in names for said in missing(name)]
    assert not lacking, "\n".join(lacking)
    assert not set(MEASURES) - set(names), "a range of a measure that no form has"


def test_a_measure_that_is_nowhere_lacks_all_three() -> None:
    assert len(missing("pompom")) == 3 and not missing("hat_width") + missing("ease")


@pytest.mark.parametrize("row", [*RANGES.values(), *COMPARED.values(), *DEPTHS.values(),
                                 *MEASURES.values(), OWN_MEASURE],
                         ids=lambda row: row.kind)
def test_what_is_plausible_lies_within_what_is_allowed_and_says_its_source(row: Range) -> None:
    ends = {Measured.LENGTH: lambda text: read_length(text).mm,
            Measured.DIAL: lambda text: Fraction(read_dial(text).thirds),
            Measured.DATE: str}
    number = lambda text: Fraction(text.split()[0])  # noqa: E731
    least, low, high, most = (ends.get(row.measured, number)(text)
                              for text in (row.least, row.low, row.high, row.most))
    assert least <= low < high <= most
    assert len(row.source) > 10


def test_figures_are_read_through_the_readers_that_have_ranges() -> None:
    """The charts of bodies and the sums of measures are the two other doors: both have their own
    limits (LARGEST_LENGTH and BODY, MEASURES)."""
    for path in READING.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        raw = {alias.name for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)
               for alias in node.names} & {"read_length", "read_mass", "read_dial", "read_number",
                                           "read_percent"}
        assert not raw or path.name == "values.py" or (path.name, raw) == (
            "band_reading.py", {"read_length"}), path  # to guess what an unknown key was to be
        made = {node.func.id for node in ast.walk(tree)
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
        assert path.name in ("values.py", "dates.py") or not made & {"Figure", "figure_range"}, path


def test_a_kind_of_figure_has_one_range_and_every_kind_is_listed() -> None:
    figures = list(figures_read())
    assert len(RANGES) > 45
    assert all(RANGES[figure.range.kind] == figure.range for figure in figures)
    values = {name for name, value in vars(spellings).items() if isinstance(value, Figure)}
    listed = {name for name in values if getattr(spellings, name) in spellings.FIGURES}
    assert values == listed


def test_the_page_lists_every_range() -> None:
    page = html.unescape(fill_lists(RANGES_MARKER))
    assert all(f">{row.kind.replace('_', ' ')}<" in page
               for row in (*RANGES.values(), *COMPARED.values(), *DEPTHS.values(),
                           *MEASURES.values()))


def test_rows_that_make_no_likely_edge_are_found() -> None:
    # The mean of 15 and 15.1 cm over 30 rows is 5.017 mm: 520 rows are 260.9 cm.
    pattern, problems = read_source(changed("rows: 52", "rows: 520"))
    assert pattern is not None, problems
    assert [str(p).removeprefix(f"{FILE}:") for p in fold_sizes(check(pattern))] == [
        "37:11: warning, unlikely-value: sizes XS, S and M: found 520 rows of 5 mm, 260.9 cm; "
        "expected length of an edge: 2 cm to 200 cm. Check the rows, and the swatch of the fabric."]


def test_a_figure_of_a_chart_that_falls_or_leaps_is_found() -> None:
    text = (Path(__file__).parent / "own-sizes.yaml").read_text(encoding="utf-8")
    for wrong, said in (("M: 9.5–9.6", "falls from S 83.5 to M 9.55"),
                        ("M: 191.5–196.5", "goes from S 83.5 to M 194, a step of 110.5")):
        node, _ = parse_source(text.replace("M: 91.5–96.5", wrong), name="chart.yaml")
        assert node is not None
        found = [p for p in read_chart(node, key="own")[1] if p.code == "out-of-step"]
        assert found[0].found.startswith(f"bust in cm {said}")
