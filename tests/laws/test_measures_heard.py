"""Every measure that is given is heard: it changes what is knitted, or a finding says why not.

Each measure of each form is changed alone, once with all others at their defaults and once with
all of them given. One that a form takes and does not need begins near the chest or the armhole,
with a measure beside it where it shapes nothing alone.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from random import Random

import pytest
import yaml
from walebook.core.problems import Problem, Severity
from walebook.forms.registry import FORMS
from walebook.plan.assembled import Assembled
from walebook.proof.proof import assemble_all
from walebook.shape.garment import Garment
from walebook.sizing.quantities import Quantity
from walebook.words.terms.working import working_of

from tests.laws import pieces
from tests.laws.test_any_source import read
from tests.laws.test_defaults_worn import source

BODY = {name: ("heads", "woman") if name == "hat" else ("women", "M") if form.is_worn
        else ("", "one") for name, form in FORMS.items()}
GAUGE = (20, 28)
# Where optional measures begin: any value that a garment could have, common practice, no source.
START = {"hem_width": "chest_width * 108 %", "hip_width": "chest_width * 104 %",
         "waist_width": "chest_width * 88 %", "chest_height": "body_length * 54 %",
         "armhole_straight": "armhole / 3", "cap_height": "armhole * 65 %",
         "cap_top": "upper_arm_width / 4", "sleeve_ease": "1 cm"}
CASES = [(form, name, given, change) for form in FORMS for name in FORMS[form].names
         for given in (False, True) for change in ("more", "less", "none", "tiny")]
SOME = Random(10).sample(CASES, 120)


def start(name: str) -> str:
    assert name in START, f"give START of tests/laws/test_measures_heard.py a value of {name}"
    return START[name]


def asked(form: str, neck: str, measures: dict[str, str]) -> str:
    """A pattern of one size with these measures."""
    key, size = BODY[form]
    made = yaml.safe_load(source(form, key, neck, GAUGE))
    made["sizes"] = [size]
    made["garment"] |= {"measures": measures} if measures else {}
    return yaml.safe_dump(made, allow_unicode=True)


@cache
def made(form: str, neck: str, measures: tuple[tuple[str, str], ...]
         ) -> tuple[Assembled | None, tuple[Problem, ...]]:
    pattern, found = read(asked(form, neck, dict(measures)))
    if pattern is None:
        return None, found
    assembled, more = assemble_all(pattern, pattern)
    return assembled.get(BODY[form][1]), (*found, *more)


def beside(form: str, name: str) -> dict[str, str]:
    """What is given so that an optional measure is there and shapes something."""
    one = FORMS[form].optional.get(name)
    if one is None:
        return {}
    others = {other: start(other) for other in one.beside[-1:]}
    return others if one.sum else {**others, name: start(name)}


def at_rest(form: str, neck: str, name: str) -> dict[str, str]:
    """All measures of a form as they are by default and with what stands beside one, written out.
    """
    assembled, found = made(form, neck, tuple(beside(form, name).items()))
    assert assembled is not None, [str(p) for p in found]
    return {name: f"{float(q.value):.6f} mm".replace(".000000", "") if q.is_length else str(q.value)
            for name, q in assembled.measures.items()}


def knitted(garment: Garment) -> object:
    """What a knitter sees of a garment: pieces, joins, what it measures, how it is made up."""
    return (garment.pieces, dict(garment.finished), garment.tasks, garment.times)


def changed(name: str, value: str, change: str) -> str:
    if name == "panels":
        return {"more": "4", "less": "2", "none": "0", "tiny": "1"}[change]
    mm = float(value.split(" ")[0])
    new = {"more": mm * 1.3 + 20, "less": mm * 0.75 - (8 if mm < 20 else 0), "none": 0.0,
           "tiny": 1.0}[change]
    return f"{new:.3f} mm"


def silent(form: str, neck: str, name: str, given: bool, change: str) -> str:
    """What is wrong with how a changed measure is taken, "" where nothing is."""
    rest = at_rest(form, neck, name)
    before = dict(rest) if given else beside(form, name)
    after = {**before, name: changed(name, rest[name], change)}
    if float(after[name].split(" ")[0]) == float(rest[name].split(" ")[0]):
        return ""
    old, _ = made(form, neck, tuple(before.items()))
    new, found = made(form, neck, tuple(after.items()))
    told = [str(p) for p in found if p.severity in (Severity.ERROR, Severity.WARNING)]
    if any(name in said for said in told):
        return ""
    if new is None:
        return "" if told else "nothing is made and nothing said"
    assert old is not None
    if knitted(old.garment) == knitted(new.garment):
        return f"{name} {rest[name]} to {after[name]}: nothing changes, nothing is said " \
               f"{told}; where only another measure takes it, name it in the form's `followed`"
    return ""


def unknittable(form: str, neck: str, name: str, change: str) -> list[str]:
    """What the bed refuses, and the joins that stay open, with one measure at nothing or tiny."""
    after = {**beside(form, name),
             name: changed(name, at_rest(form, neck, name)[name], change)}
    assembled, _ = made(form, neck, tuple(after.items()))
    return pieces.faults(assembled.garment) if assembled else []


@pytest.mark.parametrize("form", FORMS)
def test_every_measure_is_heard_when_it_is_larger(form: str) -> None:
    """With the others at their defaults: each pair of a form and a measure is tried here."""
    assert [said for name in FORMS[form].names
            if (said := silent(form, "round", name, False, "more"))] == []


@pytest.mark.sampled(40, each=("form", "name", "change"))
@pytest.mark.parametrize(("form", "name", "given", "change"), SOME)
def test_a_measure_is_heard(form: str, name: str, given: bool, change: str) -> None:
    assert silent(form, "round", name, given, change) == ""


@pytest.mark.parametrize(("form", "name", "given", "change"),
                         [case for case in SOME if case[3] in ("none", "tiny")])
def test_a_measure_of_next_to_nothing_is_refused_or_knitted(form: str, name: str, given: bool,
                                                            change: str) -> None:
    assert unknittable(form, "round", name, change) == []


@pytest.mark.long
@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("neck", ["round", "v", "square", "boat", "high"])
def test_every_measure_of_a_form_is_heard(form: str, neck: str) -> None:
    mine = [case for case in CASES if case[0] == form]
    assert [said for _, name, given, change in mine
            if (said := silent(form, neck, name, given, change))] == []
    assert [said for _, name, given, change in mine if change in ("none", "tiny") and not given
            for said in unknittable(form, neck, name, change)] == []


class Read(dict[str, Quantity]):
    """Measures that remember which of them were looked at."""

    def __init__(self, measures: dict[str, Quantity]) -> None:
        super().__init__(measures)
        self.seen: set[str] = set()

    def __getitem__(self, name: str) -> Quantity:
        self.seen.add(name)
        return super().__getitem__(name)


@pytest.mark.parametrize("form", FORMS)
def test_what_is_said_to_be_followed_alone_is_what_no_piece_is_cut_by(form: str) -> None:
    key, size = BODY[form]
    known = dict(pieces.chart(key).measurements(size)) if key else {}
    cut = pieces.cut(form, known, pieces.gauge(*GAUGE))
    measures = Read(dict(cut.measures))
    FORMS[form].shape(replace(cut, measures=measures))
    through, said = FORMS[form].measures.keys() - measures.seen, FORMS[form].followed.keys()
    assert through == said, (
        f"no piece is cut by {', '.join(sorted(through - said)) or 'none more'}: say in the form's "
        f"`followed` when; cut by, and there: {', '.join(sorted(said - through)) or 'none'}")


@pytest.mark.parametrize("form", [f for f in FORMS if FORMS[f].halves])
def test_an_upper_arm_that_is_asked_for_is_knitted_or_overruled_in_words(form: str) -> None:
    """30 cm at 20 stitches to 10 cm are 60 stitches, and 2 for the seams."""
    assembled, found = made(form, "round", (("upper_arm_width", "30 cm"),))
    assert assembled is not None and not any("upper_arm_width" in str(p) for p in found)
    assert next(c.value for key, name, c in assembled.garment.counts
                if (key, name) == ("sleeve", "upper_arm")) == 62
    assembled, found = made(form, "round", (("armhole", "22 cm"), ("upper_arm_width", "30 cm")))
    assert assembled is not None
    assert [p.code for p in found if "upper_arm_width" in p.found] == ["overruled-measure"]


@pytest.mark.parametrize(("form", "rows"), [("raglan pullover", 57), ("raglan cardigan", 56)])
def test_a_neck_deeper_than_a_raglans_line_leaves_room_for_is_cut_back_in_words(form: str, rows: int
                                                                                ) -> None:
    """24 cm at 28 rows to 10 cm are 67.2 rows, even 68; the line of 22 cm has 61.6, even 62, of
    which the lowest 6 stay below the neck (common practice, no source): 56 are left. A whole front
    has the row over the last decreases above them; at a front edge the neck begins a row later."""
    assembled, found = made(form, "round", (("raglan_depth", "22 cm"), ("front_neck", "24 cm")))
    assert assembled is not None
    said = [p for p in found if p.code == "overruled-measure"]
    assert len(said) == 1 and f"front_neck knitted as {rows} rows" in said[0].found
    deep = next(c for _, name, c in assembled.garment.counts if name == "neck_rows")
    assert deep.value == rows
    assert f"{rows} so that it begins 6 rows above the underarm" in working_of(deep)
    assembled, found = made(form, "round", (("raglan_depth", "22 cm"), ("front_neck", "12 cm")))
    assert assembled is not None and not any(p.code == "overruled-measure" for p in found)


def test_across_is_heard_in_a_cardigan_only_where_the_neck_follows_it() -> None:
    form = "drop-shoulder cardigan"
    assert silent(form, "round", "across", False, "more") == ""
    _, found = made(form, "round", (("across", "38 cm"), ("neck_width", "17 cm")))
    assert ['found the measure "across", which nothing uses: neck_width is given' in str(p)
            for p in found if p.code == "unused-measure"] == [True]
