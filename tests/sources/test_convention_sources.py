"""Armholes, caps, necks and shoulders that cannot be shaped as asked: what is said, and what helps.

A stitch is 5 mm wide and a row 4 mm high. 100 stitches are cast on and 80 left across, so that 10
go at each armhole of 50 rows; 32 are for the neck, 24 for each shoulder. The figures of the
messages are reckoned from these by hand.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
import yaml
from test_garment_sources import CHARTS, FILE
from test_garment_sources import read as read_source
from walebook.core.problems import Problem, has_errors
from walebook.proof.proof import prove

MEASURES = {"chest_width": "490 mm", "across": "390 mm", "armhole": "200 mm",
            "neck_width": "160 mm", "front_neck": "96 mm", "back_neck": "24 mm",
            "body_length": "50 cm", "shoulder_drop": "16 mm", "upper_arm_width": "300 mm"}


def source(garment: dict[str, Any], **measures: str | None) -> str:
    """A set-in pullover with these entries; a measure that is None is left out."""
    given = {name: said for name, said in {**MEASURES, **measures}.items() if said}
    return yaml.safe_dump({
        "title": "Trial", "version": "1", "date": "2026-11-29", "designer": "Wren Ashdown",
        "licence": "CC0-1.0", "summary": "A trial.", "wearer": "women",
        "bed": {"pitch": "5 mm", "needles": "200"}, "yarns": {"main": {"name": "Pier"}},
        "fabrics": {"body": {"yarn": "main", "dial": "6", "swatch": {
            "stitches": "20", "width": "10 cm", "rows": "25", "height": "10 cm"}}},
        "sizes": ["M"], "garment": {"form": "set-in pullover", "chart": "women",
                                    "fabric": "body", **garment, "measures": given}},
        sort_keys=False)


COUNTED = {"cuff_width": "250 mm", "sleeve_length": "40 cm"}


def test_a_sleeve_that_narrows_upward_is_refused_at_the_count_that_is_given() -> None:
    """"Lengthen the sleeve, widen the cuff or narrow the upper arm" made it worse. The cuff has
    50 stitches and 2 in the seam."""
    text = source({"counts": {"sleeve upper arm": "40"}}, **COUNTED)
    line = 1 + text.split("\n").index("    sleeve upper arm: '40'")
    assert [str(p).partition("yaml:")[2] for p in found(text)] == [
        f"{line}:23: error, cannot-shape: size M: found 40 stitches at the upper arm, fewer than "
        "the 52 at the cuff; expected at least 52. Make the upper arm wider, or the cuff "
        "narrower."]


def test_a_body_as_short_as_its_armhole_is_refused_in_words() -> None:
    raglan = {"form": "raglan pullover"}
    (problem,) = found(source(raglan, body_length="20 cm", raglan_depth="20 cm", across=None,
                              armhole=None, back_neck=None, shoulder_drop=None))
    assert problem.code == "cannot-shape"
    assert ("found the underarm at the cast-on; expected the underarm above the cast-on. Change "
            "the heights, so that the underarm lies higher.") in str(problem)


def found(text: str) -> list[Problem]:
    """Every error of a source, read and planned."""
    pattern, problems = read_source(text, CHARTS)
    more = prove(pattern)[1] if pattern and not has_errors(problems) else ()
    return [p for p in (*problems, *more) if has_errors([p])]


CASES: list[tuple[dict[str, Any], dict[str, str | None], str, str]] = [
    ({"armhole": {"bind_off": ["6", "5"]}}, {}, "armhole",
     "found bind-offs of 11 stitches at an armhole where 10 go; expected figures that make a "
     "set-in pullover. Bind off 10 at most, narrow across or widen the chest."),
    # 32 for the neck are 16 at either side; 40 mm are 10 of 125 rows, and it opens on an even one
    ({"neck": "v"}, {"front_neck": "40 mm"}, "front_neck",
     "found 16 stitches to go at either side of a neck 9 rows deep; expected figures that make a "
     "set-in pullover. Make front_neck more or neck_width less."),
    # 390 mm are 78 stitches of the 80 across
    ({}, {"neck_width": "390 mm"}, "neck_width",
     "found shoulders of 1 stitch each: 80 across and 78 for the neck; expected figures that make "
     "a set-in pullover. Narrow neck_width or widen across."),
    # the slope would have the 50 − 2 rows that are not straight, after one of the bind-off
    ({}, {"armhole_straight": "8 mm"}, "measures",
     "found 10 stitches to go at each armhole of 50 rows, the last 4 of them straight; expected "
     "figures that make a set-in pullover. Make armhole_straight more, narrow the chest or deepen "
     "the armhole."),
    # a third of 10 is 3, 7 are left for 50 − 46 rows
    ({}, {"armhole_straight": "184 mm"}, "armhole_straight",
     "found 7 stitches to go on every row above the bind-off, in 4 of the armhole's 50 rows; "
     "expected figures that make a set-in pullover. Make armhole_straight less, bind off more at "
     "once, or deepen the armhole."),
    # 20 go: 7 at once, 7 on every row, 6 on every 2nd row, 19 rows; a third of 50 less one is 15
    ({"armhole": {"curve": "by thirds"}}, {"across": "290 mm"}, "armhole",
     "found 13 stitches to go on every row and every 2nd row above the bind-off, in 15 of the "
     "armhole's 50 rows; expected figures that make a set-in pullover. Give armhole_straight under "
     "measures, bind off more at once, or deepen the armhole."),
    ({"neckline": {"front_centre": "13"}}, {}, "neckline",
     "found a centre of 13 of the 32 stitches of a neck, which leaves no equal sides; expected "
     "figures that make a set-in pullover. Write 14."),
    ({"neckline": {"front_steps": ["10", "7"]}}, {}, "neckline",
     "found steps of 10 + 7 = 17 stitches at either side of a neck of 32; expected figures that "
     "make a set-in pullover. Write steps of 16 stitches at most."),
    ({"neckline": {"front_steps": ["3", "2"], "front_centre": "12"}}, {}, "neckline",
     "found steps of 3 + 2 = 5 stitches, where 10 go at either side of the neck's centre; expected "
     "figures that make a set-in pullover. Write 10 stitches more for the centre, or leave one of "
     "the two out."),
    ({"shoulders": {"steps": ["20", "10"]}}, {"shoulder_drop": None}, "steps",
     "found steps of 20 + 10 = 30 stitches in shoulders of 24; expected figures that make a set-in "
     "pullover. Write steps of 24 stitches at most; what they leave is the last step."),
    ({"shoulders": {"steps": ["8", "8"]}}, {}, "shoulder_drop",
     "found both shoulder_drop and the steps of the shoulders; expected one of the two. Delete "
     "shoulder_drop: every held step takes 2 rows."),
    # 62 stitches, 3 bound off at each side, a top of 16: 20 decreases at each side
    ({"cap": {"curve": "bell", "every_row": ["20", "20"]}}, {}, "every_row",
     "found the decreases of a bell-shaped cap: 20 and 20 on every row are more than 20 in all; "
     "expected figures that make a set-in pullover. Write other numbers in every_row."),
    ({"cap": {"curve": "slope", "every_row": ["2", "2"]}}, {}, "every_row",
     "found every_row in a cap whose curve is slope; expected it in a cap that is a bell. Write "
     "curve: bell, or delete it."),
    ({"cap": {"every_row": ["2"], "curve": "bell"}}, {}, "every_row",
     "found a list of 1; expected two numbers, such as [9, 7]. Write the first ones, then the "
     "last."),
    # 62 less 2 × 3 are 56 stitches
    ({}, {"cap_top": "300 mm", "cap_height": "100 mm"}, "cap_height",
     "found a cap of 62 stitches, which bind-offs of 3 at each side and a top of 60 use up; "
     "expected figures that make a set-in pullover. Make cap_top less, or upper_arm_width more."),
    ({"armhole": {"bind_off": "95 %"}}, {}, "bind_off",
     'found "95 %"; expected a percentage from 1 % to 90 %. Check the figure.'),
    ({"armhole": {"bind_off": ["0"]}}, {}, "bind_off",
     'found "0"; expected a whole number from 1 to 200. Check the figure.'),
    ({"armhole": {"bind_off": "a few"}}, {}, "bind_off",
     'found "a few"; expected a whole number from 1 to 200. Write digits only.'),
    ({"armhole": {"bind_off": {"M": {"first": "8"}}}}, {}, "M",
     "found a mapping; expected stitches such as 8, steps such as [4, 2, 1, 1], or a share "
     "such as 25 %. Write one of these."),
    ({"armhole": {"bind_off": ["1"] * 41}}, {}, "bind_off",
     "found 41 steps in stitches; expected at most 40. Leave some out."),
    ({"neck": "boat", "neckline": {"back_centre": "20"}}, {}, "back_centre",
     "found back_centre of a boat neck; expected it in a round or high neck. Delete it, or choose "
     "another neck."),
    ({"neck": "v", "neckline": {"front_sides": "held"}}, {}, "front_sides",
     "found front_sides of a v neck; expected it in a round or high neck. Delete it, or choose "
     "another neck."),
    ({"form": "raglan pullover", "neckline": {"front_sides": "held"}},
     dict.fromkeys(("across", "armhole", "shoulder_drop", "back_neck")), "front_sides",
     "found front_sides in a raglan pullover; expected it of a front in one piece that has "
     "shoulders. Delete it: what is bound off there is taken by the band as well."),
    ({"form": "saddle raglan pullover", "neckline": {"back_sides": "held"}},
     dict.fromkeys(("across", "armhole", "shoulder_drop", "back_neck")), "back_sides",
     "found back_sides in a saddle raglan pullover; expected it of a back that has shoulders. "
     "Delete it: what is bound off there is taken by the band as well."),
    ({"form": "set-in cardigan", "neckline": {"front_sides": "held"}}, {}, "front_sides",
     "found front_sides in a set-in cardigan; expected it of a front in one piece that has "
     "shoulders. Delete it: what is bound off there is taken by the band as well."),
    # 96 mm and the row over the neck are 25 rows, even: 26, of which the last is the shoulders';
    # 2 lie below the first step, and a row above the last one
    ({"neckline": {"front_sides": "held", "front_steps": ["1"] * 13}}, {}, "neckline",
     "found 13 steps, one every 2nd row, at the sides of a neck with 22 rows for them; expected "
     "figures that make a set-in pullover. Write 11 steps at most, or make the neck deeper."),
    ({"form": "set-in slipover", "cap": {"curve": "bell"}}, {"upper_arm_width": None}, "cap",
     "found cap in a set-in slipover; expected it in one of set-in pullover, set-in cardigan. "
     "Delete it, or choose another form."),
]


@pytest.mark.parametrize(("garment", "measures", "at", "said"), CASES,
                         ids=[said[6:46] for *_, said in CASES])
def test_what_cannot_be_shaped_says_why_and_where(garment: dict[str, Any],
                                                 measures: dict[str, str | None], at: str,
                                                 said: str) -> None:
    text = source(garment, **measures)
    (problem,) = found(text)
    assert str(problem).removeprefix(f"{FILE}:").split(", ", 1)[1].split(": ", 1)[1].removeprefix(
        "size M: ") == said
    line = text.splitlines()[problem.place.line - 1]
    assert f"{at}:" in line or f"{at}:" in text.splitlines()[problem.place.line - 2], line


@pytest.mark.parametrize("height", ["30 mm", "60 mm", "90 mm", "180 mm", "400 mm"])
def test_the_height_that_is_proposed_for_a_cap_fits(height: str) -> None:
    (problem,) = found(source({}, cap_height=height))
    assert "cap_height" in source({}, cap_height=height).splitlines()[problem.place.line - 1]
    proposed = re.search(r"cap_height: ([\d.]+ cm)", problem.remedy)
    assert proposed, problem
    assert found(source({}, cap_height=proposed[1])) == []


@pytest.mark.parametrize("height", ["128 mm", "152 mm"])
def test_the_ease_that_is_proposed_for_a_cap_fits(height: str) -> None:
    (problem,) = found(source({}, cap_height=height))
    proposed = re.search(r"cap_ease: (−?[\d.]+ cm)", problem.remedy)
    assert proposed, problem
    assert found(source({}, cap_height=height, cap_ease=proposed[1])) == []


def refused_neck(garment: dict[str, Any], **more: Any) -> str:
    """The one finding of a pullover whose front neck is to be held."""
    written = yaml.safe_load(source({**garment, "neckline": {"front_sides": "held"}}))
    for key, value in more.items():
        written[key] = {**written.get(key, {}), **value}
    text = yaml.safe_dump(written, sort_keys=False)
    (problem,) = found(text)
    assert "neckline:" in text.splitlines()[problem.place.line - 1]
    return str(problem)


def test_a_held_neck_above_a_placket_is_refused() -> None:
    said = refused_neck({"placket": "12 cm"}, bands={"placket": {
        "title": "Placket", "edge": "placket", "kind": "single", "fabric": "body",
        "depth": "3 cm"}})
    assert "found a held front neck above a placket, whose foot is bound off;" in said
    assert said.endswith("Bind its sides off, or leave out the placket.")


def test_a_held_neck_in_a_stitch_chart_is_refused() -> None:
    written = yaml.safe_load(source({"neckline": {"back_sides": "held"}}))
    written["charts"] = {"pin": {"title": "Pin", "repeat": "||||\n|u||\n"}}
    written["fabrics"]["body"]["chart"] = "pin"
    (problem,) = found(yaml.safe_dump(written, sort_keys=False))
    assert "found a held neck in a fabric with a stitch chart or with needles left out" in str(
        problem)


def test_a_band_closed_around_a_held_neck_is_refused() -> None:
    written = yaml.safe_load(source({"neckline": {"front_sides": "held"}}))
    written["bands"] = {"neck": {"edge": "neck", "kind": "enclosing", "fabric": "body",
                                 "depth": "3 cm"}}
    text = yaml.safe_dump(written, sort_keys=False)
    (problem,) = found(text)
    assert "kind: enclosing" in text.splitlines()[problem.place.line - 1]
    assert str(problem).endswith(
        "error, band-on-held-neck: size M: found an enclosing band along Neck, from the left "
        "shoulder round the front, which is held: its needles are full when the neck is hung, and "
        "none is left for the loops at its steps; expected a band that is knitted onto the neck. "
        "Write kind: folded or kind: single, or have the neck's sides bound off.")
