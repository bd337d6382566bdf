"""A hat, a mitten or a body far off what it goes round gets a caution at its measure.

How far: a third that the fabric gives, a quarter (of a body three quarters) that is loose. Common
practice, no source.
"""

from __future__ import annotations

import pytest

from tests.small_sources import head, what_comes_of

LINE = 18  # of the measures
FORMS = {
    "hat": ("hat_width", "head: 56 cm", ""),
    "mitten": ("mitten_width", "", "hand_circumference: 18 cm, "),
    "drop-shoulder pullover": ("chest_width", "chest: 90 cm",
                               "sleeve_length: 45 cm, neck_width: 12 cm, "
                               "armhole: 20 cm, upper_arm_width: 40 cm, cuff_width: 24 cm, "
                               "body_length: 60 cm, ")}


def cautions(form: str, width: str) -> list[tuple[int, str]]:
    """The lines and texts of the cautions about ease in one size of a form so wide."""
    measure, body, more = FORMS[form]
    text = head() + f"""\
fabrics:
  body: {{yarn: wool, dial: 5, swatch: {{stitches: 40, width: 20 cm, rows: 50, height: 20 cm}}}}
sizes: [{{label: M, body: {{{body}}}}}]
garment:
  form: {form}
  chart: women
  fabric: body
  measures:
    {{{more}{measure}: {width}}}
"""
    proof, found = what_comes_of(text.replace(", body: {}", ""))
    assert proof is not None, [str(each) for each in found]
    return [(p.place.line, p.found) for p in found if p.code == "ease-unlikely"]


@pytest.mark.parametrize("form, sound", [
    ("hat", ["43 cm", "56 cm", "69 cm"]), ("mitten", ["14 cm", "19 cm", "22 cm"]),
    ("drop-shoulder pullover", ["35 cm", "45 cm", "78 cm"])])
def test_what_its_fabric_and_its_wearer_allow_is_not_mentioned(form: str, sound: list[str]) -> None:
    assert [cautions(form, width) for width in sound] == [[], [], []]


@pytest.mark.parametrize("form, width, text", [
    ("hat", "40 cm", "must give"), ("hat", "28 cm", "must give"), ("hat", "84 cm", "larger"),
    ("mitten", "12 cm", "must give"), ("mitten", "27 cm", "larger"),
    ("drop-shoulder pullover", "30 cm", "must give"),
    ("drop-shoulder pullover", "90 cm", "larger")])
def test_far_off_its_body_is_a_caution_at_the_measure(form: str, width: str, text: str) -> None:
    (only,) = cautions(form, width)
    assert only[0] == LINE and text in only[1]
