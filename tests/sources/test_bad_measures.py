"""Bad measures and bad size charts, each with the exact message it gets."""

from pathlib import Path

import pytest
from walebook.core.codes import SIZE_CODES
from walebook.core.problems import Place, Problem
from walebook.core.units import length_cm
from walebook.sizing.charts import Chart
from walebook.sizing.measures import Definition, evaluate
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

from tests.small_patterns import given_length, given_number

KNOWN = {"chest": given_length(length_cm(94)), "upper arm": given_length(length_cm(28)),
         "parts": given_number(3)}
GOOD = (Path(__file__).parent / "own-sizes.yaml").read_text(encoding="utf-8")

SUM = "expected names, numbers, lengths, + - * / and brackets."
LIKE = "expected lengths added to lengths, and multiplied or divided by numbers."
UNIT = "Write the unit behind a length, such as 2 cm."
BETWEEN = "expected an operator between two things."
SAMPLE = "Write sums of names, numbers and lengths, such as (chest + 5 cm) / 2."
DIGITS = ("Write a number with one point at most, and behind it an operator, % or one of mm, cm, "
          "m, in.")
OPERAND = "expected a name, number or length."

# The expression, the column of the fault in it (from 1), its code, and the rest of the message.
MEASURES = [
    ("", 1, "bad-measure", f"found an empty measure; {OPERAND} "
                           "Write a sum such as (chest + 5 cm) / 2."),
    ("chest +", 8, "bad-measure", f"found the end of the measure; {OPERAND} "
                                  "Write a sum such as (chest + 5 cm) / 2."),
    ("(chest + 2 cm", 1, "bad-measure", "found a bracket that is not closed. "
                                        "Add the ) that is missing."),
    ("chest + 2 cm)", 13, "bad-measure", f"found a ) that closes nothing; {BETWEEN} "
                                         "Delete it, or write the ( it closes."),
    ("chest 2", 7, "bad-measure", f'found "2" here; {BETWEEN} Write + - * or / before it.'),
    ("2 chest", 3, "bad-measure", f'found "chest" here; {BETWEEN} Write * for a product, or one '
                                  "of mm, cm, m, in for a unit."),
    ("5 ft", 3, "bad-measure", f'found "ft" here; {BETWEEN} Write * for a product, or one of mm, '
                               "cm, m, in for a unit."),
    ("upper arm / 2", 7, "bad-measure", f'found "arm" here; {BETWEEN} Write _ for a space in a '
                                        "name, or an operator."),
    ("chest + 2,5 cm", 10, "bad-measure", f'found "," here; {BETWEEN} Write a point for the '
                                          "decimal comma."),
    ("(chest, 2 cm)", 7, "bad-measure", f'found "," here; {BETWEEN} Use commas in min, max and '
                                        "round_to only."),
    ("chest ** 2", 8, "bad-measure", f'found "*" here; {OPERAND} '
                                     "Check the sign or bracket before it."),
    ("--chest", 2, "bad-measure", f'found "-" here; {OPERAND} '
                                  "Check the sign or bracket before it."),
    ("chest.mm", 6, "bad-measure", f'found ".mm"; {SUM} {SAMPLE}'),
    ("chest[0]", 6, "bad-measure", f'found "["; {SUM} {SAMPLE}'),
    ("chest^2", 6, "bad-measure", f'found "^"; {SUM} Write a product.'),
    ("⅕ in", 1, "bad-measure", f'found "⅕"; {SUM} {SAMPLE}'),
    ("__import__(1)", 1, "bad-measure", 'found "__import__(…)"; expected one of min, max, '
     "round_to. Write one of these, or * between two things that are multiplied."),
    ("__import__('os')", 12, "bad-measure", f'found "\'"; {SUM} {SAMPLE}'),
    ("lambda: 0", 7, "bad-measure", f'found ":"; {SUM} {SAMPLE}'),
    ("1e9 cm", 1, "bad-measure", f'found "1e9"; {SUM} {DIGITS}'),
    ("1234567890123 mm", 1, "huge-measure", "found a figure of 13 digits; expected figures of a "
                                            "garment. Check the figure."),
    ("17 1/0 in", 1, "bad-measure", 'found "17 1/0 in"; expected a length such as 32 cm or '
                                    "12.5 in. Write a number below the line that is not 0."),
    ("cm", 1, "bad-measure", 'found the unit "cm" without a number; expected a length such as '
                             "2 cm. Write the number before it."),
    ("chest(2)", 1, "bad-measure", 'found "chest(…)"; expected one of min, max, round_to. '
                                   "Write one of these, or * between two things that are "
                                   "multiplied."),
    ("mim(chest, 2 cm)", 1, "bad-measure", 'found "mim(…)"; expected "min". Write min.'),
    ("min(chest)", 1, "bad-measure", "found min(…) of 1; expected 2 to 20 things in it. "
                                     "Write min(one, another)."),
    ("round_to(chest)", 1, "bad-measure", "found round_to(…) of 1; expected 2 things in it. "
                                          "Write round_to(length, step)."),
    ("+".join(["parts"] * 40), 1, "long-measure", "found a measure of 239 characters; expected at "
                                                  "most 200. Break it into several measures."),
    ("+".join(["1"] * 31), 61, "long-measure", "found a measure of more than 60 parts; expected "
                                               "at most 60. Break it into several measures."),
    ("(" * 17 + "chest" + ")" * 17, 17, "long-measure", "found more than 16 levels of brackets; "
     "expected at most 16. Break it into several measures."),
    ("chst / 2", 1, "unknown-measure", 'found nothing called "chst"; expected "chest". '
                                       "Write chest."),
    ("it + 1 cm", 1, "circular-measure", "found measures that use each other: it → it; "
     "expected measures that come back to the body or to a figure. Give one of them outright."),
    ("upper_arm + 5", 11, "unlike-measures", f"found a length + a number; {LIKE} {UNIT}"),
    ("chest * chest", 7, "unlike-measures", f"found a length * a length; {LIKE} {UNIT}"),
    ("2 / chest", 3, "unlike-measures", f"found a number / a length; {LIKE} {UNIT}"),
    ("min(chest, 2)", 1, "unlike-measures", f"found lengths and numbers in one min(…); {LIKE} "
                                            f"{UNIT}"),
    ("chest / (parts - 3)", 7, "division-by-nothing", "found a division by 0; expected a divisor "
     "other than 0. Check what it is divided by."),
    ("round_to(chest, 0 cm)", 1, "division-by-nothing", "found a step that is not above 0; "
     "expected a step such as 0.5 cm. Check the step."),
    # 26 factors of 19.93 bits are over 512 bits; the 25th sign joins the 26th factor.
    ("*".join(["999999"] * 28), 175, "huge-measure", "found a figure beyond all measure; expected "
     "figures of a garment. Check the sums that it uses."),
]


@pytest.mark.parametrize(("text", "column", "code", "message"), MEASURES,
                         ids=[text[:24] or "empty" for text, *_ in MEASURES])
def test_a_bad_measure_is_refused_at_its_place(text: str, column: int, code: str,
                                               message: str) -> None:
    found, problems = evaluate({"it": Definition(text, Place("p.yaml", 4, 10))}, KNOWN)
    assert not found
    assert [str(p) for p in problems] == [f"p.yaml:4:{column + 9}: error, {code}: {message}"]


def findings(**texts: str) -> list[str]:
    """The findings of several measures, one a line."""
    _, problems = evaluate({name.replace("__", "-"): Definition(text, Place("p", line, 1))
                            for line, (name, text) in enumerate(texts.items(), start=1)}, KNOWN)
    return [str(p) for p in problems]


def test_a_circle_is_told_once_and_its_followers_not_at_all() -> None:
    assert findings(a="b", b="2 cm + c", c="a", d="a + 1 cm", e="d / 0") == [
        "p:1:1: error, circular-measure: found measures that use each other: a → b → c → a; "
        "expected measures that come back to the body or to a figure. Give one of them outright."]


def test_every_circle_is_told() -> None:
    assert [line[:5] for line in findings(a="b", b="a", c="1 cm", d="d + c")] == ["p:1:1", "p:4:1"]


@pytest.mark.parametrize(("name", "why"), [
    ("chest", "which is given already"), ("upper__arm", "which is given already"),
    ("min", "which means something else in a sum"), ("cm", "which means something else in a sum")])
def test_a_measures_name_is_its_own(name: str, why: str) -> None:
    shown = name.replace("__", "-")
    assert findings(**{name: "2 cm"}) == [
        f'p:1:1: error, bad-measure-name: found the measure "{shown}", {why}; expected another '
        "name. Rename it."]


def test_names_that_differ_only_in_their_joints_are_one() -> None:
    assert findings(half_width="2 cm", half__width="3 cm") == [
        'p:2:1: error, bad-measure-name: found the measure "half-width", which is there already; '
        "expected another name. Rename it."]


def test_too_many_measures_are_refused_without_being_read() -> None:
    found, problems = evaluate({f"m{n}": Definition("1 cm" if n < 200 else "(", Place("p", n, 1))
                                for n in range(300)}, {})
    assert len(found) == 200
    assert [str(p) for p in problems] == [
        "p:200:1: error, too-many: found more than 200 measures; expected at most 200. "
        "Leave some out."]


def read(text: str) -> tuple[Chart | None, tuple[Problem, ...]]:
    """The chart that `text` says, and the findings."""
    node, problems = parse_source(text, name="own-sizes.yaml")
    assert node is not None
    found, more = read_chart(node, key="friends")
    return found, problems + more


def test_a_designers_own_chart_is_read() -> None:
    chart, problems = read(GOOD)
    assert chart is not None
    assert not problems
    assert chart.measurement("chest", "L").source == (
        "friends L, bust 101.5-106.5 cm (40–42 in), middle")
    assert chart.rows["upper_arm"].cells["L"].filled == "from the inches"
    assert [r.text for r in chart.remarks_on("chest", "M")] == ["Friends are tall."]
    assert chart.remarks_on("chest", "S") == chart.remarks_on("hips", "M") == ()


def test_a_chart_may_count_by_its_inches() -> None:
    chart, problems = read(GOOD.replace("authority: cm", "authority: in").replace(
        "      cm: {L: 30.5}\n      how: from the inches\n", "").replace("    filled:\n", ""))
    assert chart is not None
    assert not problems
    assert chart.measurement("upper_arm", "S").length.inches == 10.25
    assert str(chart.measurement("chest", "M")) == "93.98 cm"


# A passage of own-sizes.yaml, what stands there instead, and the finding.
CHARTS = [
    ("S: 81–86", "S: 86–81", '9:13: error, bad-span: found "86–81"; expected figures above 0, the '
                             "smaller first. Check the figures."),
    ("S: 81–86", "S: 81–86 cm", '9:13: error, bad-span: found "81–86 cm"; expected a number such '
                                "as 16.5, or a range such as 28–30. Leave the unit out."),
    ("S: 81–86", "S: wide", '9:13: error, bad-span: found "wide"; expected a number such as 16.5, '
                            "or a range such as 28–30. Check the figures."),
    ("S: 81–86", "S: 8100", '9:13: error, out-of-range: found "8100" cm; expected at most 400 cm. '
                            "Check the figure and its column."),
    ("S: 81–86", "S: 81–860", '9:13: error, out-of-range: found "81–860" cm; expected at most '
                              "400 cm. Check the figure and its column."),
    ("S: 81–86", "S: 80–86", "7:3: warning, units-apart: found chest S: 32 in is 81.3 cm, printed "
     "80; expected units that agree within 0.5 cm. Say under mended which of the two holds, and "
     "how that is known."),
    ("S: 81–86, M: 91.5–96.5, L", "S: 81–86, M: 91.5–96.5, XL",
     '9:34: error, unknown-size: found the unknown size "XL"; expected one of S, M, L. Delete it, '
     "or add it to sizes."),
    ("      cm: {L: 30.5}\n", "      cm: {L: 30.5}\n      in: {L: 12}\n",
     '16:7: warning, unused: found in filled in measurement "upper_arm", which nothing uses; '
     "expected figures in cm, the column that counts. Delete it."),
    ("L: 30.5", "L: 30.5, M: 28", "15:24: error, two-answers: found size M both printed in cm and "
     "filled; expected one of the two. Replace a printed error under mended."),
    ("    filled:\n      cm: {L: 30.5}\n      how: from the inches\n", "",
     '11:3: warning, missing-size: found no cm in measurement "upper_arm" for L; expected figures '
     "in the column that counts. Add them under filled, saying how they follow from the other "
     "column."),
    ("    cm: {S: 81–86, M: 91.5–96.5, L: 101.5-106.5}\n", "",
     '7:3: error, missing-key: found no column "cm" in measurement "chest", though authority says '
     "cm; expected figures in the column that counts. Write authority: in, or add the figures of "
     "your sizes, such as cm: {S: 81–86}."),
    ("      how: from the inches\n", "",
     '14:5: error, missing-key: found no "how" in filled. Add a line such as "how: the mean of 40 '
     'friends".'),
    ("    label: bust\n", "    mended: {M: {cm: 92}}\n",
     '8:14: error, missing-key: found no "how" in the mending of size M. Add a line such as "how: '
     '26.5 in is 67.3 cm".'),
    ("authority: cm", "authority: yd",
     '4:12: error, unknown-word: found "yd"; expected one of cm, in. Use one of these words.'),
    ("rows: [chest]", "rows: [chst]", '20:12: error, unknown-name: found no measurement called '
                                      '"chst"; expected "chest". Write chest.'),
    ("    source: Wren Ashdown\n", "",
     '18:5: error, missing-key: found no "source" in a remark. Add a line such as "source: who '
     'says so".'),
    ("label: bust", "lable: bust", '8:5: error, unknown-key: found the unknown key "lable" in '
                                   'measurement "chest"; expected "label". Write label.'),
]


@pytest.mark.parametrize(("old", "new", "message"), CHARTS)
def test_a_bad_chart_is_refused_at_its_place(old: str, new: str, message: str) -> None:
    assert GOOD.count(old) == 1
    chart, problems = read(GOOD.replace(old, new))
    assert [str(p).removeprefix("own-sizes.yaml:") for p in problems] == [message]
    assert (chart is None) == ("error, " in message)


def test_a_figure_of_a_chart_in_millimetres_is_asked_about() -> None:
    """370 for 37 cm went through, and the pattern had an error at its form."""
    chart, problems = read(GOOD.replace("L: 30.5", "L: 305"))
    assert chart is not None
    assert [str(p).removeprefix("own-sizes.yaml:") for p in problems
            if p.code == "unlikely-value"] == [
        '15:15: warning, unlikely-value: found "305 cm"; expected body measurement: 3 cm to '
        "200 cm. Check the figure: this column is in cm."]


def test_a_mending_that_is_said_silences_the_warning() -> None:
    chart, problems = read(GOOD.replace("S: 81–86", "S: 80–86").replace(
        "    label: bust\n", "    mended: {S: {cm: 81–86, how: 32 in is 81.3 cm}}\n"))
    assert chart is not None
    assert not problems
    assert chart.measurement("chest", "S").source == (
        "friends S, chest 80–86 cm (the chart prints 32–34 in), mended to 81–86 cm, middle")


def test_every_code_of_sizes_and_measures_is_met_here() -> None:
    met = {code for _, _, code, _ in MEASURES} | {m.split(": ")[1].split(", ")[1]
                                                  for _, _, m in CHARTS}
    assert set(SIZE_CODES) <= met | {"bad-measure-name"}
