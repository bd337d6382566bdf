"""A count that the designer gives outright is knitted as it stands, or a finding says why not.

Whatever stitches and rows a measure is written in: the counts of the garment have exactly these,
in every size, or the garment is refused at the line that gives them.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.catalogue.outright import Outright, outright_of
from walebook.core.counted import Count
from walebook.core.counts import outright
from walebook.core.problems import Problem, Severity
from walebook.forms.registry import FORMS
from walebook.plan.assembled import Assembled
from walebook.plan.given_counts import Given
from walebook.proof.proof import assemble_all
from walebook.words.terms.working import working_of

from tests.laws import pieces
from tests.laws.test_any_source import read
from tests.laws.test_measures_heard import BODY, GAUGE, asked, at_rest
from tests.scale import examples

REFERENCE = (Path(__file__).parents[2] / "site_src" / "source.md").read_text(encoding="utf-8")
STITCH, ROW = 100 / GAUGE[0], 100 / GAUGE[1]
# A sleeve set on straight is as wide at its top as its armhole is high.
FROM_ARMHOLE = {(form, "upper_arm_width") for form in FORMS if FORMS[form].halves}
CASES = [(form, name) for form in FORMS for name in outright_of(FORMS[form], ())
         if name in FORMS[form].measures]


def made(form: str, measures: dict[str, str], **more: object
         ) -> tuple[Assembled | None, tuple[Problem, ...]]:
    """A garment in one size, and all that is said of it."""
    source = yaml.safe_load(asked(form, "round", measures))
    source["garment"] |= more
    pattern, found = read(yaml.safe_dump(source, allow_unicode=True))
    if pattern is None:
        return None, found
    assembled, said = assemble_all(pattern, pattern)
    return assembled.get(BODY[form][1]), (*found, *said)


@cache
def default(form: str, name: str) -> float:
    return float(at_rest(form, "round", name)[name].split(" ")[0])


def count_of(assembled: Assembled, one: Outright) -> Count:
    return next(count for key, name, count in assembled.garment.counts
                if f"{key} {name}" == one.name)


def check(form: str, name: str, number: int) -> bool:
    """True where a measure of so many is kept; False where it is refused in words."""
    one = outright_of(FORMS[form], (name,))[name]
    unit = "stitches" if one.of == "stitch" else "rows"
    assembled, found = made(form, {name: f"{number} {unit}"})
    if assembled is None:
        said = [str(p) for p in found if p.severity is Severity.ERROR]
        assert said, "nothing is made and nothing said"
        return False
    assert pieces.faults(assembled.garment) == []
    if one.name:
        count = count_of(assembled, one)
        assert count.value == number
        # The measure is what so many are worth: nothing is rounded on the way to them.
        assert (count.exact == number or (form, name) in FROM_ARMHOLE
                or " so that " in working_of(count))
        return True
    counts = {f"{key} {of}": count.value for key, of, count in assembled.garment.counts}
    parts = {"back rows_to_armhole": ("back armhole_rows", "back shoulder_rows"),
             "back rows_to_raglan": ("back raglan_rows",)}[one.left]
    above = sum(counts[part] for part in parts) + (one.left == "back rows_to_raglan")
    assert counts[one.left] + above == number
    return True


def test_a_count_that_is_given_outright_names_the_entry_that_gives_it() -> None:
    """A measure of so many stitches stands under `measures`, any other count under `counts`
    (source.md)."""
    by_measure, by_count = "back cast_on", "back neck_rows"
    given_ = Given({name: outright(80) for name in (by_measure, by_count)},
                   {"chest_width": (80, Outright(by_measure))})
    assert [given_.written(name) for name in (by_measure, by_count, "sleeve cast_on")] == [
        "measures.chest_width", "counts.back_neck_rows", ""]


@pytest.mark.sampled(14)
@pytest.mark.parametrize(("form", "name"), CASES)
@given(more=st.integers(-9, 9))
@settings(max_examples=examples(4), deadline=None)
def test_a_measure_in_counts_is_kept_or_refused(form: str, name: str, more: int) -> None:
    one = outright_of(FORMS[form], ())[name]
    check(form, name, max(0, round(default(form, name) / (
        STITCH if one.of == "stitch" else ROW)) + more))


@pytest.mark.sampled(14)
@pytest.mark.parametrize(("form", "name"), CASES)
def test_every_such_measure_can_be_kept(form: str, name: str) -> None:
    """Of four neighbouring numbers near its default one at least is knitted."""
    one = outright_of(FORMS[form], ())[name]
    near = round(default(form, name) / (STITCH if one.of == "stitch" else ROW))
    assert any(check(form, name, near + more) for more in range(4))


@pytest.mark.parametrize("form", [name for name in FORMS if "hem_width" in FORMS[name].optional])
def test_shaped_sides_in_counts_are_kept(form: str) -> None:
    given_ = {"chest_width": "100 stitches", "hem_width": "116 stitches",
              "hip_width": "112 stitches", "hip_height": "17 rows", "waist_width": "92 stitches",
              "waist_height": "45 rows", "waist_straight": "7 rows", "chest_height": "80 rows"}
    assembled, found = made(form, given_, hem={"depth": "9 rows"})
    assert assembled is not None, [str(p) for p in found]
    known = outright_of(FORMS[form], given_)
    assert {name: count_of(assembled, known[name]).exact for name in given_} == {
        name: int(text.split(" ")[0]) for name, text in given_.items()}


# Own pieces have no counts before a source names them: see test_outlines.py.
COUNTED = [name for name, form in FORMS.items() if form.rounds]


@pytest.mark.sampled(8)
@pytest.mark.parametrize("form", [name for name in COUNTED if name != "triangular shawl"])
@pytest.mark.parametrize("rows", [8, 9])
@pytest.mark.parametrize("fold", ["loose", "picot"])
def test_a_hung_hem_has_any_rows(form: str, rows: int, fold: str) -> None:
    assembled, found = made(form, {}, hem={"depth": f"{rows} rows", "fold": fold})
    assert assembled is not None, [str(p) for p in found]
    assert {count.value for _, name, count in assembled.garment.counts
            if name == "hem_rows"} == {rows}
    assert pieces.faults(assembled.garment) == []


def at_rest_counts(form: str) -> dict[str, int]:
    """The counts of a form that can be given, as its measures make them."""
    rest, _ = made(form, {})
    assert rest is not None
    own = {f"{key} {name}": count.value for key, name, count in rest.garment.counts}
    return {name: own[name] for name in sorted(own.keys() & FORMS[form].rounds.keys())}


@pytest.mark.parametrize("form", COUNTED)
def test_the_counts_that_the_measures_make_are_knitted_when_given(form: str) -> None:
    """All of them at once, and each by itself: no refusal is an answer here."""
    rest = at_rest_counts(form)
    assert rest
    for given_ in (rest, *({name: number} for name, number in rest.items())):
        assembled, found = made(form, {}, counts={
            name.replace("_", " "): number for name, number in given_.items()})
        assert assembled is not None, (given_, [str(p) for p in found])
        now = {f"{key} {of}": count.value for key, of, count in assembled.garment.counts}
        assert {name: now[name] for name in rest} == rest, given_


@pytest.mark.parametrize("form", COUNTED)
def test_a_count_a_little_off_is_mostly_knitted_and_one_of_nothing_never(form: str) -> None:
    """Of two more and two fewer, by which even and odd stay as they are, two thirds at the least;
    of no stitches cast on there is no piece."""
    rest, kept = at_rest_counts(form), []
    for name, number in rest.items():
        for more in (-2, 2):
            assembled, _ = made(form, {}, counts={name.replace("_", " "): number + more})
            kept.append(assembled is not None)
    assert 3 * sum(kept) >= 2 * len(kept), (sum(kept), len(kept))
    for name in (one for one in rest if one.endswith(" cast_on")):
        assembled, found = made(form, {}, counts={name.replace("_", " "): 0})
        assert assembled is None and any(p.severity is Severity.ERROR for p in found), name


@pytest.mark.parametrize("form", COUNTED)
@given(data=st.data())
@settings(max_examples=examples(8), deadline=None)
def test_any_count_can_be_given(form: str, data: st.DataObject) -> None:
    """A stitch or row more or less than the measures give, or refused in words."""
    counts = at_rest_counts(form)
    name = data.draw(st.sampled_from(list(counts)))
    number = max(0, counts[name] + data.draw(st.integers(-6, 6)))
    assembled, found = made(form, {}, counts={name.replace("_", " "): number})
    said = [p for p in found if p.severity in (Severity.ERROR, Severity.WARNING)]
    if assembled is None:
        assert said
        return
    now = {f"{key} {of}": count for key, of, count in assembled.garment.counts}
    assert now[name].value == number
    assert pieces.faults(assembled.garment) == []
    off = abs(now[name].exact - number)
    assert (off >= 2) == any(p.code == "count-against-measures" for p in said)


@pytest.mark.parametrize(("measures", "more", "code", "found"), [
    ({"chest_width": "81 stitches", "neck_width": "30 stitches"}, {}, "count-not-kept",
     "back, cast on 81; back, neck stitches 30"),
    ({"sleeve_length": "77 rows"}, {}, "count-not-kept",
     "sleeve, rows to underarm 77, which is not even"),
    ({"body_length": "131 rows"}, {}, "count-not-kept", "body_length of 131 rows, which cannot"),
    ({"chest_width": "80 rows"}, {}, "count-not-kept", "chest_width of 80 rows"),
    ({"cap_ease": "2 rows"}, {}, "count-not-kept", "cap_ease of 2 rows"),
    ({"chest_width": "80.5 stitches"}, {}, "bad-measure", '"80.5 stitches"'),
    ({"chest_width": "80 stitches"}, {"counts": {"back cast on": 82}}, "count-not-kept",
     "chest_width of 80 stitches, which cannot stay"),
    ({}, {"counts": {"sleeve cast on": 44}, "round": {"sleeve cast on": "even"}}, "cannot-round",
     "sleeve cast on rounded, and given under counts"),
    ({}, {"counts": {"sleeve cuff": 44}}, "no-such-count", 'no count "sleeve cuff"'),
    ({}, {"counts": {"back hem rows": 8}}, "count-not-kept", "no back, hem rows in this garment"),
    ({}, {"hem": {"kind": "mock rib", "rib": "1x1", "depth": "9 rows"}}, "count-not-kept",
     "back, hem rows 9, which is not even"),
    ({"chest_width": "100 stitches"}, {"hem": {"kind": "mock rib", "rib": "2x2", "depth": "9 cm"}},
     "count-not-kept", "which is not a multiple of 4 plus 2, as the rib needs it"),
])
def test_a_count_that_cannot_stay_is_named(measures: dict[str, str], more: dict[str, object],
                                           code: str, found: str) -> None:
    _, said = made("set-in pullover", measures, **more)
    assert any(p.code == code and found in p.found for p in said), [str(p) for p in said]


def test_a_count_in_a_sum_is_a_length() -> None:
    """10 stitches at 20 to 10 cm are 5 cm."""
    one, _ = made("set-in pullover", {"chest_width": "45 cm + 10 stitches"})
    other, _ = made("set-in pullover", {"chest_width": "50 cm"})
    assert one is not None and other is not None
    assert one.measures["chest_width"].value == other.measures["chest_width"].value == 500


@pytest.mark.parametrize(("name", "number"), [
    ("armhole_straight", 24), ("cap_height", 34), ("cap_top", 18)])
def test_what_of_an_armhole_and_a_cap_is_optional_is_kept_in_counts(name: str, number: int
                                                                   ) -> None:
    """Of a few neighbouring numbers one at least is knitted, and then as it stands."""
    assert any(check("set-in pullover", name, number + more) for more in range(-6, 7))


def test_the_numbers_next_to_a_count_that_fits_no_rib_are_named() -> None:
    """Beside 100 the multiples of 4 plus 2 are 98 and 102; what is proposed can stay."""
    hem = {"kind": "mock rib", "rib": "2x2", "depth": "9 cm"}
    _, said = made("set-in pullover", {"chest_width": "100 stitches"}, hem=hem)
    assert "Write 98 or 102, or use another rib." in {p.remedy for p in said}
    _, said = made("set-in pullover", {"chest_width": "102 stitches"}, hem=hem)
    assert "count-not-kept" not in {p.code for p in said}


def test_the_reference_lists_for_each_form_the_measures_that_can_be_counts() -> None:
    """All others are refused as counts, with the same words."""
    shown = dict(re.findall(
        r"<summary>([a-z -]+)</summary>(?:(?!</details>).)*?be \[counts\][^:]*: ([^.]*)\.",
        REFERENCE, re.DOTALL))
    assert "front_neck" not in shown["raglan pullover"] and "crown" in shown["hat"]
    for form in ("raglan pullover", "drop-shoulder cardigan", "hat"):
        for name in FORMS[form].measures:
            found = [str(p) for unit in ("rows", "stitches")
                     for p in made(form, {name: f"40 {unit}"})[1]]
            refused = any(f"{name} of 40" in each and "measure alone" in each for each in found)
            assert refused != (f"`{name}`" in shown[form]), (form, name)
