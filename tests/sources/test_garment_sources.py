"""Sources that ask for a garment: what a sound one comes to, and what is said of others.

Expected values are those the source format states; lines and columns were counted by hand in
garment.yaml, messages written from the rules of the format.
"""

from __future__ import annotations

import time
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reading import BEDS, FILE, HERE, changed
from walebook.core.codes import CODES, GARMENT_CODES
from walebook.core.counts import ParityOf, Rounding
from walebook.core.problems import Place, Problem, has_errors
from walebook.core.units import Length
from walebook.forms.registry import FORMS
from walebook.machine.steps import Dial
from walebook.pattern.model import Fold, GarmentSpec, HemSpec, Neck, Pattern
from walebook.proof.proof import prove
from walebook.sizing.charts import Chart, change
from walebook.sizing.measures import Definition, names_in
from walebook.source import size_chart
from walebook.source.pattern import read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import Node, parse_source
from walebook_site.sources import Collection, collect

from tests.scale import examples

GARMENT = (HERE / "garment.yaml").read_text(encoding="utf-8")
MEASURES = GARMENT[GARMENT.index("  measures:"):GARMENT.index("edges:\n")]
BODY = GARMENT[GARMENT.index("  body:\n    upper"):GARMENT.index("  measures:")]
REST = GARMENT[GARMENT.index("edges:\n"):]
HEM = "  hem: {depth: 3 cm, fold: picot, dial: 3.1}\n"
SMALLEST = changed("  neck: v\n" + HEM + "  moved: 2\n" + BODY + MEASURES + REST, "", GARMENT)


def chart(name: str) -> Chart:
    text = (HERE / "women.yaml").read_text(encoding="utf-8")
    node, problems = parse_source(text, name=f"patterns/_sizes/{name}.yaml")
    assert node is not None
    assert problems == ()
    made, problems = read_chart(node, key=name)
    assert made is not None
    assert problems == ()
    return made


CHARTS: dict[str, Chart | None] = {
    name: chart(name) for name in ("women", "men", "children", "babies")}


def chart_for(form: str) -> dict[str, Chart | None]:
    """The women's chart with 40 cm for whatever else the form's own sums name."""
    women, known = chart("women"), FORMS[form].measures
    for name in {name for sum_ in known.values() for name in names_in(sum_)}:
        if name not in known and name not in women.rows:
            women = change(women, name, dict.fromkeys(women.sizes, mm(400)))
    return {"women": women}


def read(text: str, charts: dict[str, Chart | None] = CHARTS,
         ) -> tuple[Pattern | None, tuple[Problem, ...]]:
    node, problems = parse_source(text, name=FILE)
    if node is None:
        return None, problems
    pattern, more = read_pattern(node, slug="harbour-wall", beds=BEDS, charts=charts)
    return (None if problems else pattern), problems + more


def messages(text: str, charts: dict[str, Chart | None] = CHARTS) -> list[str]:
    return [str(problem).removeprefix(f"{FILE}:") for problem in read(text, charts)[1]]


def sound(text: str, charts: dict[str, Chart | None] = CHARTS) -> Pattern:
    pattern, findings = read(text, charts)
    assert findings == ()
    assert pattern is not None
    return pattern


def spec(text: str) -> GarmentSpec:
    asked = sound(text).garment
    assert asked is not None
    return asked


def mm(figure: int) -> Length:
    return Length(Fraction(figure))


def at(line: int, column: int) -> Place:
    return Place(FILE, line, column)


def test_a_garment_with_everything_said() -> None:
    asked = spec(GARMENT)
    assert (asked.form, asked.fabric, asked.neck, asked.moved) == (
        "set-in cardigan", "body", Neck.V, 2)
    assert asked.chart is CHARTS["women"]
    assert asked.hem == HemSpec(depth=mm(30), fold=Fold.PICOT, dial=Dial(10))  # 3.1: 3 × 3 + 1
    assert asked.body == {"upper_arm": {"L": mm(360)},
                          "chest": dict.fromkeys(("S", "M", "L"), mm(920))}


def test_the_sums_of_a_garment_stand_where_their_first_character_stands() -> None:
    sizes = ("S", "M", "L")
    assert spec(GARMENT).measures == {
        "ease": dict.fromkeys(sizes, Definition("10 cm", at(28, 11))),
        "body_length": {"S": Definition("54 cm", at(29, 22)), "M": Definition("55 cm", at(29, 32)),
                        "L": Definition("56 cm", at(29, 42))},
        # in quotes: one character on
        "sleeve_length": dict.fromkeys(sizes, Definition("arm_length - tuck", at(30, 21))),
        "tuck": dict.fromkeys(sizes, Definition("1 cm", at(31, 11)))}


def test_what_may_be_left_out_of_a_garment_has_its_default() -> None:
    pattern = sound(SMALLEST)
    assert pattern.garment == GarmentSpec(
        form="set-in cardigan", chart=chart("women"), fabric="body", neck=Neck.ROUND, hem=None,
        measures={}, body={}, moved=3)
    assert (pattern.edges, pattern.bands) == ({}, {})


def test_counts_are_rounded_under_the_names_they_have_on_the_page() -> None:
    text = changed("moved: 2", "round: {back cast on: {multiple: 4, plus: 1}, right_front-cast on: "
                   "up, sleeve cast on: {parity_of: back cast-on}}", GARMENT)
    assert spec(text).rounding == {
        "back cast_on": Rounding("multiple", 4, 1), "right_front cast_on": Rounding("up"),
        "sleeve cast_on": ParityOf("back cast_on")}


def test_pairs_are_named_by_what_they_are_called_together() -> None:
    assert spec(GARMENT).side_by_side == ()
    text = changed("moved: 2", "side_by_side: [sleeves, fronts, sleeves]", GARMENT)
    assert spec(text).side_by_side == (("sleeve",), ("right_front", "left_front"))


def test_every_pair_of_a_form_is_of_pieces_that_it_has() -> None:
    for form in FORMS.values():
        pieces = {name.partition(" ")[0] for name in form.rounds}
        pieces |= {piece.replace("right", "left") for piece in pieces}  # counted as the right is
        assert {key for pair in form.pairs.values() for key in pair} <= pieces, form.name


def test_a_rounding_that_a_size_cannot_have_is_refused_in_that_size() -> None:
    text = changed("  fabric: body\n", "  fabric: body\n  round: {back neck_rows: odd}\n", SMALLEST)
    proof, problems = prove(sound(text))
    assert proof is None
    assert [str(p).removeprefix(f"{FILE}:") for p in problems] == [
        f"21:3: error, cannot-round: size {size}: found back, neck rows rounded to odd, which is "
        "never even; expected the rounding asked for. Ask for a rounding that can be even, or "
        "leave it out." for size in ("S", "M", "L")]


def test_hem_rows_of_a_garment_without_a_hem_cannot_be_rounded() -> None:
    text = changed("  fabric: body\n", "  fabric: body\n  round: {back hem rows: up}\n", SMALLEST)
    _, problems = prove(sound(text))
    assert {p.found for p in problems} == {"no back, hem rows in this garment"}


def test_a_hem_folds_loosely_two_dial_numbers_below_its_fabric() -> None:
    assert spec(changed(HEM, "  hem: {depth: 1 in}\n", GARMENT)).hem == HemSpec(
        depth=Length(Fraction(254, 10)), fold=Fold.LOOSE, dial=Dial(12))  # 4, below 6


# What is knitted sideways has a boat neck; an own outline has the corners that its source gives.
SHAPED = [form for form in FORMS if "neck" in FORMS[form].edges and "sideways" not in form]


@pytest.mark.parametrize("form", SHAPED)
@pytest.mark.parametrize("neck", ["round", "v", "square", "boat", "high"])
def test_every_form_and_neck_can_be_asked_for(form: str, neck: str) -> None:
    text = changed("set-in cardigan\n", f"{form}\n", SMALLEST)
    text = changed("  fabric: body\n", f"  fabric: body\n  neck: {neck}\n", text)
    asked = sound(text, chart_for(form)).garment
    assert asked is not None
    assert (asked.form, asked.neck.value) == (form, neck)


@pytest.mark.parametrize(("form", "edge"), [(f, e) for f in FORMS for e in FORMS[f].edges])
def test_a_band_takes_an_edge_of_the_garment_in_its_fabric(form: str, edge: str) -> None:
    slit = "  placket: 12 cm\n" if edge == "placket" else ""
    neck = "  neck: v\n" if form in SHAPED else ""
    band = f"{neck}{slit}bands:\n  trim: {{edge: {edge}, pick_up: 3/4, depth: 3 cm}}\n"
    pattern = sound(changed("set-in cardigan\n", f"{form}\n", SMALLEST) + band, chart_for(form))
    made = pattern.bands["trim"]
    assert (made.edge, made.yarn, made.dial) == (edge, "main", Dial(18))  # 6, the edge's fabric


def test_a_band_may_take_an_edge_of_the_source_beside_the_garments() -> None:
    assert {band.edge for band in sound(GARMENT).bands.values()} == {"front_edge", "pocket"}


def test_sizes_of_several_words_come_from_a_chart() -> None:
    text = (HERE / "women.yaml").read_text(encoding="utf-8")
    for old, new in (("S: ", "3 mo: "), ("M: ", "6 mo: "), (" L: ", " 12 mo: "),
                     ("[S, M, L, ", "[3 mo, 6 mo, 12 mo, ")):
        text = text.replace(old, new)
    node, _ = parse_source(text, name="babies.yaml")
    assert node is not None
    babies, problems = read_chart(node, key="babies")
    assert problems == ()
    source = changed("chart: women", "chart: babies", changed("[S, M, L]", "[3 mo, 12 mo]", changed(
        "wearer: women", "wearer: babies", SMALLEST)))
    pattern, findings = read(source, {"babies": babies})
    assert findings == ()
    assert pattern is not None
    assert pattern.sizes == ("3 mo", "12 mo")


def test_the_patterns_own_chart_is_called_own() -> None:
    own = replace(chart("women"), key="own")
    pattern, findings = read(changed("chart: women", "chart: own", SMALLEST), {"own": own})
    assert findings == ()
    assert pattern is not None and pattern.garment is not None
    assert pattern.garment.chart is own


def test_a_chart_with_faults_of_its_own_is_not_blamed_on_the_pattern() -> None:
    assert read(GARMENT, {"women": None}) == (None, ())


def test_a_measurement_given_for_a_size_fills_a_chart_that_lacks_it() -> None:
    text = changed("tuck: 1 cm", "tuck: waist / 60", changed("    chest: 92 cm\n",
                   "    chest: 92 cm\n    waist: {L: 80 cm}\n", GARMENT))
    assert spec(text).body["waist"] == {"L": mm(800)}


def test_a_change_for_a_size_has_its_place() -> None:
    pattern = sound(GARMENT)
    assert pattern.places.of("garment.body.upper arm", "L") == at(25, 20)
    assert pattern.places.of("garment.measures.sleeve_length", "M") == at(30, 20)
    assert pattern.places.of("garment.measures.body_length", "M") == at(29, 32)
    assert pattern.places.of("garment.chart") == at(19, 10)


@pytest.mark.parametrize(("wearer", "chart_", "remedy"), [
    ("women", "babies", "Use another chart, or write wearer: babies, so that the cautions are "
                        "shown."),
    ("anyone", "children", "Use another chart, or write wearer: children, so that the cautions "
                           "are shown."),
    ("babies", "women", "Use another chart, or write wearer: women."),
    ("women", "men", "Use another chart, or write wearer: men.")])
def test_a_chart_for_others_is_warned_of(wearer: str, chart_: str, remedy: str) -> None:
    text = changed("wearer: women", f"wearer: {wearer}",
                   changed("chart: women", f"chart: {chart_}", SMALLEST))
    assert messages(text) == [
        f'19:10: warning, wearer-chart: found the chart "{chart_}" in a pattern for {wearer}; '
        f"expected a chart of the wearer's. {remedy}"]
    assert read(text)[0] is not None


@pytest.mark.parametrize("chart_", ["women", "men"])
def test_anyone_may_wear_what_is_graded_for_grown_bodies(chart_: str) -> None:
    sound(changed("wearer: women", "wearer: anyone",
                  changed("chart: women", f"chart: {chart_}", SMALLEST)))


COUNT_LIST = ", ".join(name.replace("_", " ") for name in FORMS["set-in cardigan"].rounds)
FORM_LIST = ", ".join(FORMS)  # whatever forms there are

# what is wrong: (passage of garment.yaml, what stands there instead, the findings)
CASES: dict[str, tuple[str, str, list[str]]] = {
    "a form misspelt": ("form: set-in cardigan", "form: set-in cardigen", [
        f'18:9: error, unknown-form: found no form called "set-in cardigen"; expected one of '
        f"{FORM_LIST}. Write set-in cardigan."]),
    "a form there is not": ("form: set-in cardigan", "form: poncho", [
        f'18:9: error, unknown-form: found no form called "poncho"; expected one of {FORM_LIST}. '
        "Use one of these."]),
    "no form": ("  form: set-in cardigan\n", "", [
        '17:1: error, missing-key: found no "form" in the garment. '
        'Add a line such as "form: set-in cardigan".']),
    "no chart": ("  chart: women\n", "", [
        '17:1: error, missing-key: found no "chart" in the garment. '
        'Add a line such as "chart: women".']),
    "a chart misspelt": ("chart: women", "chart: woman", [
        '19:10: error, unknown-name: found no size chart called "woman"; expected "women". '
        "Write women."]),
    "a chart there is not": ("chart: women", "chart: giants", [
        '19:10: error, unknown-name: found no size chart called "giants"; expected one of women, '
        "men, children, babies. Use one of these, or write own and put the pattern's own "
        "chart.yaml into its folder."]),
    "a chart by its path": ("chart: women", "chart: ../../etc/passwd", [
        '19:10: error, unknown-name: found no size chart called "../../etc/passwd"; expected one '
        "of women, men, children, babies. Use one of these, or write own and put the pattern's "
        "own chart.yaml into its folder."]),
    "an own chart that is not there": ("chart: women", "chart: own", [
        "19:10: error, unknown-name: found no chart.yaml in the pattern's folder; expected the "
        "pattern's own size chart there. Write it, or use another chart by its name."]),
    "a fabric misspelt": ("  fabric: body\n  neck", "  fabric: bdy\n  neck", [
        '20:11: error, unknown-name: found no fabric called "bdy"; expected "body". '
        "Write body."]),
    "a neck there is not": ("neck: v", "neck: cowl", [
        '21:9: error, unknown-word: found "cowl"; expected one of round, v, square, boat, high. '
        "Use one of these words."]),
    "a hem with a turned fold": ("fold: picot", "fold: turned", [
        '22:28: error, unknown-word: found "turned"; expected one of loose, picot. '
        "Use one of these words."]),
    "a hem without a depth": ("{depth: 3 cm, fold: picot, dial: 3.1}", "{fold: picot}", [
        '22:3: error, missing-key: found no "depth" in the hem. '
        'Add a line such as "depth: 3 cm".']),
    "a hem too shallow": ("hem: {depth: 3 cm", "hem: {depth: 4 mm", [
        '22:16: error, out-of-range: found "4 mm"; expected a length from 5 mm to 20 cm. '
        "Check the figure and its unit."]),
    "a hem as a length": ("{depth: 3 cm, fold: picot, dial: 3.1}", "3 cm", [
        '22:8: error, wrong-shape: found "3 cm"; expected the hem as a mapping. '
        "Write it as {depth: 3 cm}."]),
    "eight stitches moved": ("moved: 2", "moved: 8", [
        '23:10: error, out-of-range: found "8"; expected a whole number from 1 to 7. '
        "Check the figure."]),
    "a pair there is not": ("moved: 2", "side_by_side: [fronts, sleeve]", [
        '23:26: error, unknown-word: found "sleeve"; expected "sleeves". Write sleeves.']),
    "a pair without brackets": ("moved: 2", "side_by_side: fronts", [
        '23:17: error, wrong-shape: found "fronts"; expected a list of pairs of pieces. Write it '
        "as [sleeves]."]),
    "a form of many": ("form: set-in cardigan", "form: cardigan", [
        '18:9: error, unknown-form: found no form called "cardigan"; expected one of '
        f"{', '.join(FORMS)}. Write drop-shoulder cardigan, set-in cardigan, raglan cardigan or "
        "saddle raglan cardigan."]),
    "a measure as a list": ("{S: 54 cm, M: 55 cm, L: 56 cm}", "[54 cm, 55 cm, 56 cm]", [
        '29:5: error, wrong-shape: found a list; expected one value for all sizes, or one for '
        "each. Write {S: 54 cm, M: 55 cm, L: 56 cm}."]),
    "a measure with sizes in brackets": ("{S: 54 cm, M: 55 cm, L: 56 cm}", "54 (55, 56) cm", [
        '29:21: error, bad-measure: found "(" here; expected an operator between two things. '
        "Write * for a product. Values by size are written as {S: 54 cm, M: 55 cm}."]),
    "a key misspelt": ("moved: 2", "mooved: 2", [
        '23:3: error, unknown-key: found the unknown key "mooved" in the garment; '
        'expected "moved". Write moved.']),
    "a size not in the chart": ("[S, M, L]", "[S, M, 9X]", [
        '16:15: error, size-not-in-chart: found the size "9X", which is not in the chart '
        '"women"; expected sizes among S, M, L, XL. Use one of these, or write {label: 9X, as: '
        "SIZE} with the chart's size that it is for, or take another chart.",
        '25:17: error, unknown-size: found the unknown size "L"; expected one of S, M, 9X. '
        "Delete it, or add it to sizes.",
        "29:5: error, missing-size: found no body_length for 9X; expected a value for each of "
        "S, M, 9X. Add 9X.",
        '29:39: error, unknown-size: found the unknown size "L"; expected one of S, M, 9X. '
        "Delete it, or add it to sizes."]),
    "a size by the chart's name": ("[S, M, L]", "[S, M, {label: 12, as: L}]", [
        '25:17: error, unknown-size: found the unknown size "L"; expected "12", as sizes calls it. '
        "Write 12.",
        "29:5: error, missing-size: found no body_length for 12; expected a value for each of "
        "S, M, 12. Add 12.",
        '29:39: error, unknown-size: found the unknown size "L"; expected "12", as sizes calls it. '
        "Write 12."]),
    "sizes out of the chart's order": ("[S, M, L]", "[L, S, M]", [
        '16:1: error, size-order: found the sizes L, S, M; expected the order of the chart '
        '"women". Write [S, M, L].']),
    "a body measurement misspelt": ("upper arm: {L: 36 cm}", "uper arm: {L: 36 cm}", [
        '25:5: error, unknown-name: found no measurement called "uper arm" in the chart "women"; '
        'expected "upper_arm". Write upper_arm.']),
    "a body measurement like no other": ("chest: 92 cm", "tail: 92 cm", [
        '26:5: error, unknown-name: found no measurement called "tail" in the chart "women"; '
        "expected one of chest, cross_back, back_waist_length, armhole_depth, upper_arm, "
        "arm_length, waist. Use one of these, or put the length under measures."]),
    "a body measurement for no size there is": ("{L: 36 cm}", "{5X: 36 cm}", [
        '25:17: error, unknown-size: found the unknown size "5X"; expected one of S, M, L. '
        "Delete it, or add it to sizes."]),
    "a body measurement as a sum": ("chest: 92 cm", "chest: waist + 20 cm", [
        '26:12: error, bad-length: found "waist + 20 cm"; expected a length such as 32 cm or '
        "12.5 in. Give it in mm, cm, m, in, yd or ligne."]),
    "an arm of five metres": ("36 cm", "5 m", [
        '25:20: error, out-of-range: found "5 m"; expected a length from 1 cm to 400 cm. '
        "Check the figure and its unit."]),
    "a sum with a misspelt name": ('"arm_length - tuck"', '"arm_lenght - tuck"', [
        '30:21: error, unknown-measure: found nothing called "arm_lenght"; '
        'expected "arm_length". Write arm_length.']),
    "a sum that is not closed": ("ease: 10 cm", "ease: (10 cm", [
        "28:11: error, bad-measure: found a bracket that is not closed. "
        "Add the ) that is missing."]),
    "a slip within quotes": ('"arm_length - tuck"', "'arm_length - - - tuck'", [
        '30:36: error, bad-measure: found "-" here; expected a name, number or length. '
        "Check the sign or bracket before it."]),
    "a sum over two lines": ("tuck: 1 cm", "tuck: 1 cm\n      + 2 cm", [
        "31:11: error, bad-measure: found a measure over 2 lines; expected one line. "
        "Write it on one line, or break it into several measures."]),
    "a measure without a size": (", L: 56 cm}", "}", [
        "29:5: error, missing-size: found no body_length for L; expected a value for each of "
        "S, M, L. Add L."]),
    "nothing after a measure": ("ease: 10 cm", "ease:", [
        '28:5: error, empty-value: found nothing after "ease"; expected a sum such as '
        "(chest + 8 cm) / 2. Write it out."]),
    "a measure of the form misspelt": ("body_length: {", "body_lenght: {", [
        '29:5: error, unknown-measure: found the measure "body_lenght", which nothing uses; '
        'expected "body_length". Write body_length.']),
    "a measure of other forms": ("tuck: 1 cm", "tuck: 1 cm\n    saddle_width: 8 cm", [
        '32:5: warning, unused-measure: found the measure "saddle_width", which nothing uses: a '
        "measure of the forms saddle raglan pullover and saddle raglan cardigan; expected a "
        "measure of a set-in cardigan. Delete it."]),
    "a measure like one of the form, three letters off": (
        "tuck: 1 cm", "tuck: 1 cm\n    pocket_height: 2 cm", [
            '32:5: warning, unused-measure: found the measure "pocket_height", which nothing uses. '
            "Use it in another measure, or delete it."]),
    "a measure like one that is given": ("tuck: 1 cm", "tuck: 1 cm\n    eese: 2 cm", [
        '32:5: warning, unused-measure: found the measure "eese", which nothing uses. '
        "Use it in another measure, or delete it."]),
    "a measure that nothing uses": ("tuck: 1 cm", "tuck: 1 cm\n    zzz: 2 cm", [
        '32:5: warning, unused-measure: found the measure "zzz", which nothing uses. '
        "Use it in another measure, or delete it."]),
    "a measure called as a measurement": ("tuck: 1 cm", "tuck: 1 cm\n    waist: 2 cm", [
        '32:5: error, bad-measure-name: found the measure "waist", which is a body measurement '
        'of the chart "women"; expected another name. Rename it, or change the measurement '
        "under body."]),
    "a measure called as a unit": ("tuck: 1 cm", "tuck: 1 cm\n    cm: 2 cm", [
        '32:5: error, bad-measure-name: found the measure "cm", which means something else in a '
        "sum; expected another name. Rename it."]),
    "a measurement that one size lacks": ("tuck: 1 cm", "tuck: waist / 60", [
        '31:11: error, missing-measurement: found no waist in the chart "women" for L; expected '
        "a figure for each size. If the chart is yours, add it there, measured or under filled; or "
        "give it under body, or write the measure in another way."]),
    "a sum with a measurement of other charts": ("tuck: 1 cm", "tuck: hips / 60", [
        '31:11: error, missing-measurement: found no hips in the chart "women"; expected one of '
        "chest, cross_back, back_waist_length, armhole_depth, upper_arm, arm_length, waist. Use "
        "one of these, or a chart that has it."]),
    "a body measurement of other charts": ("chest: 92 cm", "hips: 92 cm", [
        '26:5: error, missing-measurement: found no hips in the chart "women"; expected one of '
        "chest, cross_back, back_waist_length, armhole_depth, upper_arm, arm_length, waist. Use "
        "one of these, or a chart that has it."]),
    "a band on an edge misspelt": ("edge: front_edge", "edge: front-edge", [
        '36:11: error, unknown-name: found no edge called "front-edge"; expected "front_edge". '
        "Write front_edge."]),
    "a band on an edge like no other": ("edge: front_edge", "edge: zzz", [
        '36:11: error, unknown-name: found no edge called "zzz"; expected one of front_edge, '
        "right_front.front_edge, left_front.front_edge, neck, front_and_neck, pocket. Use one of "
        "these, or add the edge."]),
    "a count there is not": ("moved: 2", "round: {bak cast on: even}", [
        f'23:11: error, no-such-count: found no count "bak cast on" in the form set-in cardigan '
        f"that can be rounded; expected one of {COUNT_LIST}. Write back cast on."]),
    "a count that follows from others": ("moved: 2", "round: {cap_rows: even}", [
        f'23:11: error, no-such-count: found no count "cap_rows" in the form set-in cardigan '
        f"that can be rounded; expected one of {COUNT_LIST}. The other counts follow from these."]),
    "a rounding there is not": ("moved: 2", "round: {back cast on: ups}", [
        '23:25: error, unknown-word: found "ups"; expected "up". Write up.']),
    "a parity of nothing known": ("moved: 2", "round: {back across: {parity_of: front}}", [
        f'23:36: error, no-such-count: found no count "front" in the form set-in cardigan '
        f"that can be rounded; expected one of {COUNT_LIST}. The other counts follow from these."]),
    "a parity and a multiple": ("moved: 2", "round: {back across: {parity_of: back cast on, "
                                "multiple: 4}}", [
        '23:50: error, two-answers: found both "multiple" and "parity_of" in the rounding; '
        "expected one of the two. Delete one of them."]),
    "neither a parity nor a multiple": ("moved: 2", "round: {back across: {plus: 1}}", [
        '23:11: error, missing-key: found neither "multiple" nor "parity_of" in the rounding; '
        'expected one of the two. Add a line such as "multiple: 4".']),
    "more than a multiple": ("moved: 2", "round: {back across: {multiple: 4, plus: 4}}", [
        '23:44: error, out-of-range: found "4"; expected a whole number from 0 to 3. '
        "Check the figure."]),
    "a parity in a circle": ("moved: 2", "round: {back across: {parity_of: sleeve cast on}, "
                             "sleeve cast on: {parity_of: back across}}", [
        "23:11: error, cannot-round: found a parity taken in a circle: back across of sleeve cast "
        "on of back across; expected one that is rounded outright. Round one of them to even or "
        "odd."]),
    "counts as a word": ("moved: 2", "round: even", [
        '23:10: error, wrong-shape: found "even"; expected counts to round as a mapping. '
        "Write it as {back cast on: even}."]),
}


@pytest.mark.parametrize("name", CASES)
def test_the_findings_of_a_bad_garment(name: str) -> None:
    old, new, expected = CASES[name]
    assert messages(changed(old, new, GARMENT)) == expected


def test_a_hem_whose_dial_cannot_be_worked_out() -> None:
    text = changed("dial: 6", "dial: 1", changed("  fabric: body\n", "  fabric: body\n"
                   "  hem: {depth: 3 cm}\n", SMALLEST))
    assert messages(text) == [
        "21:3: error, no-dial: found no dial in the hem, and two numbers below the 1 of its "
        'fabric is off the dial. Add a line such as "dial: 1".']


def test_a_chart_without_what_the_form_needs() -> None:
    women = chart("women")
    rows = {name: row for name, row in women.rows.items() if name != "back_waist_length"}
    rows["upper_arm"] = replace(rows["upper_arm"], cells={
        s: c for s, c in rows["upper_arm"].cells.items() if s != "M"})
    assert messages(SMALLEST, {"women": replace(women, rows=rows)}) == [
        '19:10: error, missing-measurement: found no back_waist_length in the chart "women"; '
        "expected what the form's body_length is worked out from: back_waist_length * 1.35. "
        "If the chart is yours, add it there, measured or under filled; or give body_length under "
        "measures.",
        '19:10: error, missing-measurement: found no upper_arm in the chart "women" for M; '
        "expected what the form's upper_arm_width is worked out from: min(upper_arm + 5 cm, "
        "upper_arm * 1.2). If the chart is yours, add it there, measured or under filled; or give "
        "upper_arm_width under measures, or upper_arm under body."]


def test_a_straight_body_asks_for_no_width_across_that_nothing_follows() -> None:
    """It is as wide as its chest up to the shoulders: only the neck may follow the width across."""
    women = chart("women")
    rows = {name: row for name, row in women.rows.items() if name != "cross_back"}
    without: dict[str, Chart | None] = {"women": replace(women, rows=rows)}
    dropped = SMALLEST.replace("set-in cardigan", "drop-shoulder cardigan").replace(
        "  chart: women\n", "  chart: women\n  measures: {sleeve_length: 43 cm}\n")
    assert [each.partition(";")[0] for each in messages(dropped, without)] == [
        '19:10: error, missing-measurement: found no cross_back in the chart "women"']
    assert sound(dropped.replace("43 cm}", "43 cm, neck_width: 17 cm}"), without)


def test_a_chart_that_takes_a_name_of_the_form() -> None:
    women = chart("women")
    rows = {**women.rows, "ease": replace(women.rows["chest"], name="ease")}
    assert messages(SMALLEST, {"women": replace(women, rows=rows)}) == [
        '19:10: error, bad-measure-name: found the body measurement "ease" in the chart "women", '
        "which is a measure of the form set-in cardigan; expected another name. Rename it in "
        "the chart."]


def test_neither_a_garment_nor_bands() -> None:
    text = SMALLEST[:SMALLEST.index("garment:")]
    assert messages(text) == [
        '1:1: error, missing-key: found no "edges" in the pattern. '
        'Add a line such as "edges: {front: {kind: pair of fronts, fabric: body, length: 52 cm}}".',
        '1:1: error, missing-key: found no "bands" in the pattern. '
        'Add a line such as "bands: {front: {edge: front, pick_up: 3/4, depth: 3 cm}}".']


def test_fronts_and_a_square_neck_are_no_single_edge() -> None:
    band = "bands:\n  trim: {edge: front_and_neck, pick_up: 3/4, depth: 3 cm}\n"
    assert messages(SMALLEST + band) == []  # a round neck
    assert messages(SMALLEST + "  neck: square\n" + band) == [
        '23:16: error, no-such-edge: found the edge "front_and_neck" of a garment with a square '
        "neck; expected a round or v neck, whose fronts and neck are one edge. Write neck: v, or "
        "give the fronts and the neck bands of their own."]


def test_a_garment_without_a_slit_has_no_placket_edge() -> None:
    band = "bands:\n  trim: {edge: placket, pick_up: 3/4, depth: 3 cm}\n"
    assert messages(changed("set-in cardigan\n", "set-in pullover\n", SMALLEST) + band) == [
        '22:16: error, no-such-edge: found the edge "placket" of a garment with no placket; '
        "expected a slit at the front. Add a line such as placket: 12 cm to the garment."]


def test_a_garment_that_opens_at_the_front_has_no_slit() -> None:
    assert messages(SMALLEST + "  placket: 12 cm\n") == [
        "21:3: error, no-such-placket: found a placket in a set-in cardigan; expected it in one "
        "of drop-shoulder pullover, set-in pullover, set-in slipover, raglan pullover. Delete it, "
        "or choose another form."]


def test_a_garment_misspelt_is_one_finding() -> None:
    assert messages(changed("garment:", "garmnet:", GARMENT)) == [
        '17:1: error, unknown-key: found the unknown key "garmnet" in the pattern; expected '
        '"garment". Write garment.']


def test_a_fabric_that_neither_garment_nor_band_uses() -> None:
    extra = ("  lining:\n    yarn: main\n    dial: 4\n"
             "    swatch: {stitches: 30, width: 10 cm, rows: 42, height: 10 cm}\nsizes:")
    assert messages(changed("sizes:", extra, SMALLEST)) == [
        '16:3: warning, unused: found fabric "lining", which nothing uses. Use it, or delete it.']


def test_every_code_of_garments_has_a_source_here_that_gets_it() -> None:
    texts = [changed(old, new, GARMENT) for old, new, _ in CASES.values()]
    texts.append(changed("wearer: women", "wearer: babies", GARMENT))
    texts.append(changed("neck: v", "neck: high", changed("front_edge", "front_and_neck", GARMENT)))
    seen = {problem.code for text in texts for problem in read(text)[1]}
    assert {"unknown-form", "size-not-in-chart", "size-order", "wearer-chart", "no-such-edge",
            "missing-measurement", "unused-measure"} <= seen & set(GARMENT_CODES)
    assert seen <= set(CODES)


# what is tried in place of 10 cm: the findings
HOSTILE: dict[str, tuple[str, list[str]]] = {
    "a call": ("__import__(os)", [
        "28:11: error, bad-measure: found \"__import__(…)\"; expected one of min, max, round_to. "
        "Write one of these, or * between two things that are multiplied."]),
    "an attribute": ("chest.__class__", [
        '28:16: error, bad-measure: found ".__class__"; expected names, numbers, lengths, + - * / '
        "and brackets. Write sums of names, numbers and lengths, such as (chest + 5 cm) / 2."]),
    "a power": ("9 ** 9 ** 9", [
        '28:14: error, bad-measure: found "*" here; expected a name, number or length. '
        "Check the sign or bracket before it."]),
    "a figure as long as a book": ("9" * 150, [
        "28:11: error, huge-measure: found a figure of 150 digits; expected figures of a garment. "
        "Check the figure."]),
    "brackets without end": ("(" * 90, [
        "28:71: error, long-measure: found a measure of more than 60 parts; expected at most 60. "
        "Break it into several measures."]),
    "a sum as long as a book": ("chest + " * 3000, [
        "28:11: error, long-measure: found a measure of 23999 characters; expected at most 200. "
        "Break it into several measures."]),
    "a script": ('"<script>alert(1)</script>"', [
        '28:12: error, bad-measure: found "<"; expected names, numbers, lengths, + - * / and '
        "brackets. Write sums of names, numbers and lengths, such as (chest + 5 cm) / 2."]),
    "text that runs backwards": (r'"\u202emc 01"', [
        "28:11: error, control-character: found the control character U+202E; "
        "expected text that can be seen. Delete it."]),
    "figures of another script": ("١٠ cm", [
        '28:11: error, bad-measure: found "١٠"; expected names, numbers, lengths, + - * / and '
        "brackets. Write the digits 0 to 9."]),
    "a list": ("[10 cm]", [
        "28:5: error, wrong-shape: found a list; expected a sum such as (chest + 8 cm) / 2. "
        "Write the value alone, not as a list."]),
}


def test_no_edge_is_offered_that_the_garment_has_not() -> None:
    """The next finding then was that this garment has none such."""
    text = changed("edge: front_edge", "edge: zzz", changed("neck: v", "neck: square", GARMENT))
    assert messages(text) == [
        '36:11: error, unknown-name: found no edge called "zzz"; expected one of front_edge, '
        "right_front.front_edge, left_front.front_edge, neck, pocket. Use one of these, or add the "
        "edge."]


@pytest.mark.parametrize("name", HOSTILE)
def test_the_findings_of_a_hostile_sum(name: str) -> None:
    sum_, expected = HOSTILE[name]
    begin = time.perf_counter()
    assert messages(changed("ease: 10 cm", f"ease: {sum_}", GARMENT)) == expected
    assert time.perf_counter() - begin < 1


def test_measures_by_the_hundred() -> None:
    many = "".join(f"    m{n}: m{n + 1}\n" for n in range(100))
    findings = messages(changed("    ease: 10 cm\n", many, GARMENT))
    assert "88:5: error, too-many: found more than 60 measures; expected at most 60. " \
           "Split the pattern." in findings


ODDITIES = ["", "{}", "[]", "~", "S", "own", "{S: 1 cm}", "10", "1 cm", "ease + ease", "(((", "'",
            '"', "|", ">-\n   x", "-1 cm", "1/0", "a: b", "min()", "9" * 60, "²", "&a", "!!x", "\t"]


@given(st.data())
@settings(max_examples=examples(500), deadline=None)
def test_any_garment_is_read_or_refused_at_its_place(data: st.DataObject) -> None:
    lines = GARMENT.splitlines(keepends=True)
    for _ in range(data.draw(st.integers(1, 4))):
        number = data.draw(st.integers(15, len(lines) - 1))
        key = lines[number].partition(":")[0]
        lines[number] = f"{key}: {data.draw(st.sampled_from(ODDITIES))}\n"
    text = "".join(lines)
    pattern, findings = read(text)
    assert (pattern is None) == has_errors(findings)
    last = len(text.splitlines()) + 1
    assert all(1 <= f.place.line <= last and f.place.column >= 1 for f in findings)
    assert all(f.found and "\n" not in f.message for f in findings)


def collection(root: Path, **charts: str) -> Collection:
    """What is found in a folder with one garment in it; `charts` by place, __ for a slash."""
    pattern = root / "patterns" / "harbour-wall"
    pattern.mkdir(parents=True)
    (root / "patterns" / "_sizes").mkdir()
    (pattern / "pattern.yaml").write_text(changed("bed: standard", "bed: {pitch: 4.5 mm, "
                                                  "needles: 200}", SMALLEST), encoding="utf-8")
    for place, text in charts.items():
        (root / "patterns" / f"{place.replace('__', '/')}.yaml").write_text(text, encoding="utf-8")
    return collect(root)


WOMEN = (HERE / "women.yaml").read_text(encoding="utf-8")


def test_a_chart_that_no_pattern_names_is_not_read(tmp_path: Path) -> None:
    found = collection(tmp_path, _sizes__women=WOMEN, _sizes__men="authority: yd")
    assert found.is_sound
    assert "patterns/_sizes/women.yaml" in found.lines
    assert "patterns/_sizes/men.yaml" not in found.lines


def test_the_faults_of_a_chart_stop_the_pattern_that_names_it(tmp_path: Path) -> None:
    found = collection(tmp_path, _sizes__women=changed("authority: cm", "authority: yd", WOMEN))
    assert [str(problem) for problem in found.problems] == [
        'patterns/_sizes/women.yaml:4:12: error, unknown-word: found "yd"; expected one of cm, '
        "in. Use one of these words."]
    assert found.proofs == ()


def test_a_chart_is_read_once_for_all_patterns(tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
                                               ) -> None:
    asked: list[str] = []

    def counted(node: Node, *, key: str) -> tuple[Chart | None, tuple[Problem, ...]]:
        asked.append(key)
        return read_chart(node, key=key)

    monkeypatch.setattr(size_chart, "read_chart", counted)
    for folder in ("second-wall", "third-wall"):
        (tmp_path / "patterns" / folder).mkdir(parents=True)
        (tmp_path / "patterns" / folder / "pattern.yaml").write_text(
            changed("bed: standard", "bed: {pitch: 4.5 mm, needles: 200}", SMALLEST),
            encoding="utf-8")
    found = collection(tmp_path, _sizes__women=WOMEN)
    assert asked == ["women"]
    assert len(found.proofs) == 3


def test_the_chart_beside_a_source_is_the_patterns_own(tmp_path: Path) -> None:
    text = changed("bed: standard", "bed: {pitch: 4.5 mm, needles: 200}",
                   changed("chart: women", "chart: own", SMALLEST))
    other = tmp_path / "patterns" / "own-wall"
    other.mkdir(parents=True)
    (other / "pattern.yaml").write_text(text, encoding="utf-8")
    (other / "chart.yaml").write_text(WOMEN, encoding="utf-8")
    found = collection(tmp_path, _sizes__women=WOMEN, _sizes__own="authority: yd")
    assert found.is_sound
    assert "patterns/_sizes/own.yaml" not in found.lines
    garments = [proof.pattern.garment for proof in found.proofs]
    assert [garment.chart.key for garment in garments if garment] == ["women", "own"]


def test_a_chart_outside_the_folder_is_not_read(tmp_path: Path) -> None:
    elsewhere = tmp_path / "secret.yaml"
    elsewhere.write_text(WOMEN, encoding="utf-8")
    (tmp_path / "patterns" / "own-wall").mkdir(parents=True)
    (tmp_path / "patterns" / "own-wall" / "chart.yaml").symlink_to(elsewhere)
    (tmp_path / "patterns" / "own-wall" / "pattern.yaml").write_text(
        changed("bed: standard", "bed: {pitch: 4.5 mm, needles: 200}",
                changed("chart: women", "chart: own", SMALLEST)), encoding="utf-8")
    found = collection(tmp_path, _sizes__women=WOMEN)
    assert [str(problem) for problem in found.problems if problem.code == "outside-folder"] == [
        "patterns/own-wall/chart.yaml:1:1: error, outside-folder: found a link to a file outside "
        "the pattern's folder; expected a file in its own folder. Put the file itself here."]
    assert found.unproved == ("own-wall",)


@pytest.mark.parametrize("measure", FORMS["set-in cardigan"].measures)
@pytest.mark.parametrize("figure", ["5", "0 cm", "-5 cm", "900000 cm", "0.001 mm"])
def test_a_measure_that_no_garment_has_raises_nothing(measure: str, figure: str) -> None:
    pattern, findings = read(f"{SMALLEST}  measures: {{{measure}: {figure}}}\n")
    assert findings == ()
    assert pattern is not None
    prove(pattern)


def test_a_plain_number_for_a_length_is_refused() -> None:
    pattern, _ = read(f"{SMALLEST}  measures: {{body_length: 54}}\n")
    assert pattern is not None
    _, findings = prove(pattern)
    assert str(findings[0]).removeprefix(f"{FILE}:") == (
        "21:27: error, unlike-measures: found body_length: 54, a number without a unit; expected "
        "a length for body_length, such as 5 cm or 2 in. Write the unit after the number.")


def findings_of(text: str, code: str, charts: dict[str, Chart | None] = CHARTS) -> list[str]:
    pattern, _ = read(text, charts)
    assert pattern is not None
    return [str(p).removeprefix(f"{FILE}:") for p in prove(pattern)[1] if p.code == code]


def test_a_hem_at_a_dial_without_a_swatch_is_remarked_once() -> None:
    text = changed("  fabric: body\n", "  fabric: body\n  hem: {depth: 3 cm}\n", SMALLEST)
    assert findings_of(text, "hem-not-swatched") == [
        "21:3: remark, hem-not-swatched: found a hem at dial 4 counted by the rows of fabric body; "
        "expected a swatch at the hem's dial. Give a fabric of the same yarn at that dial with its "
        "swatch."]
    swatched = changed("sizes: [S", "  inner: {yarn: main, dial: 4, swatch: {stitches: 32, width: "
                       "10 cm, rows: 46, height: 10 cm}}\nsizes: [S", text)
    assert findings_of(swatched, "hem-not-swatched") == []


def test_a_closed_neck_must_go_over_the_charts_head() -> None:
    women = chart("women")
    # half as wide again as the largest neck there is here: any closed one is too small
    heads = {"women": change(replace(women, rows={**women.rows, "head": replace(
        women.rows["chest"], name="head")}), "head", dict.fromkeys(women.sizes, mm(900)))}
    closed = changed("set-in cardigan\n", "set-in pullover\n", SMALLEST)
    assert findings_of(closed, "neck-over-head", heads) == []  # the default follows the head
    closed += "  measures: {neck_width: across * 0.42}\n"
    found = findings_of(closed, "neck-over-head", heads)
    assert [one.partition(": found")[0] for one in found] == [
        f"21:3: warning, neck-over-head: size {size}" for size in ("S", "M", "L")]
    assert all("cm around for a head of 90 cm: it must give" in one for one in found)
    assert findings_of(SMALLEST, "neck-over-head", heads) == []
    assert findings_of(closed, "neck-over-head") == []


def test_a_sleeve_is_reckoned_from_the_back_neck_to_the_charts_wrist() -> None:
    women = chart("women")

    def said(reach: int, text: str = SMALLEST) -> list[str]:
        changed_chart = change(women, "neck_to_wrist", dict.fromkeys(women.sizes, mm(reach)))
        return findings_of(text, "neck-to-wrist", {"women": changed_chart})

    assert all("too long; expected at most 10 %" in one for one in said(400))
    assert all("too short; expected at most 10 %" in one for one in said(1200))
    own = changed("  fabric: body\n", "  fabric: body\n  measures: {sleeve_length: 30 cm}\n",
                  SMALLEST)
    assert said(1200, own) == [] and len(said(400, own)) == 3  # a short sleeve is a wish
