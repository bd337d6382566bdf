"""Published heels, toes and wedges by short rows, from the text of a source to the rows on the bed.

The published socks are knitted flat with one seam, or round; here a sock is one strip, half as wide
as it goes round: leg, heel, sole, toe, upper foot, front of the leg; or flat with one seam, up to
the toe. What is held, and row by row what is in work, is the same. The gauge where none is
published is ours, so that every published count is whole.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from published_more import CASES, against
from sourced import counts, knitted, own_outline, swatch
from walebook.machine import steps
from walebook.machine.headings import Heading
from walebook.proof.proof import KnittedPiece


def rows_of(made: KnittedPiece, heading: Heading = Heading.SHORT_ROWS) -> list[list[int]]:
    """How many stitches each row is knitted over, in every section of that name."""
    found, at = [], 0
    for section in made.program.sections:
        upto = at + len(section.steps)
        if section.heading is heading:
            found.append([len(state.loaded - state.holding) for step, state in zip(
                section.steps, made.trace.states[at:upto], strict=True)
                if isinstance(step, steps.Knit) for _ in range(step.rows)])
        at = upto
    return found


def strip(wide: int, high: int, short: list[dict[str, Any]], *, gauge: tuple[int, int] = (4, 5),
          **more: Any) -> str:
    """A strip of so many stitches and rows; the lengths of its short rows are in these too."""
    around, up = gauge
    measures = {"wide": f"{Fraction(wide, around)} in", "high": f"{Fraction(high, up)} in"}
    listed = []
    for number, one in enumerate(short):
        own = dict(one)
        for key, per in (("height", up), ("middle", around), ("extra", up)):
            if key in own:
                name = f"{key}_{'abcdef'[number]}"
                measures[name] = f"{Fraction(own[key], per)} in"
                own[key] = name
        listed.append(own)
    piece = {"width": "wide", "height": "high", "short_rows": listed, **more}
    return own_outline(swatch(around, up, "1 in"), measures, {"strip": piece})


def down_and_up(wide: int, least: int) -> list[int]:
    """A stitch less in every row down to the least, then one more in every row up to all."""
    return [*range(wide - 1, least - 1, -1), *range(least + 1, wide + 1)]


@against("W3-110")
@pytest.mark.parametrize("shoe", CASES["W3-110"]["outputs"]["foot_rows"])
def test_a_heel_and_a_toe_of_a_flat_sock(case: dict[str, Any], shoe: str) -> None:
    """One needle at the carriage before each row, then one back opposite it before each row. The
    foot is counted along its edges, the two rows of these at the heel among them."""
    said, wanted = case["inputs"], case["outputs"]
    wide, leg, foot = said["heel_needles"], said["leg_to_row"], wanted["foot_rows"][shoe]
    made = strip(wide, 2 * (leg + foot), [
        {"height": leg, "middle": said["heel_left_in_work"]},
        {"height": leg + foot, "middle": said["toe_left_in_work"]}],
        gauge=(said["sts_per_in"], said["rows_per_in"]))
    own = counts(made)["strip"]
    assert own["rows_to_short_rows_1"] == leg
    assert own["rows_to_short_rows_2"] - leg == foot
    assert (wide - own["middle_of_short_rows_1"], wide - own["middle_of_short_rows_2"]) == (
        wanted["heel_held"], wanted["toe_held"])
    heel, toe = rows_of(knitted(made, "strip"))
    assert heel == down_and_up(wide, said["heel_left_in_work"])
    assert toe == down_and_up(wide, said["toe_left_in_work"])
    assert len(heel) == 2 * wanted["heel_rows_in"]
    assert heel[wanted["heel_rows_in"]] == wanted["in_work_after_that"]


@against("W3-110")
def test_the_heel_of_a_second_sock_begins_a_row_later(case: dict[str, Any]) -> None:
    """The carriage then stands at the other side, so that its needles are held in mirror order."""
    said = case["inputs"]
    first, second = (knitted(strip(
        said["heel_needles"], 240, [{"height": row, "middle": said["heel_left_in_work"]}],
        gauge=(said["sts_per_in"], said["rows_per_in"])), "strip") for row in (84, 85))
    assert "after row 85, carriage left" in case["outputs"]["second_sock"]
    assert [[needle.name for needle in step.needles] for step in first.program.steps
            if isinstance(step, steps.Hold)] == [
        [needle.name for needle in step.needles.mirrored()] for step in second.program.steps
        if isinstance(step, steps.Hold)]


@against("W3-110")
@pytest.mark.parametrize("second", [False, True])
@pytest.mark.parametrize("shoe", CASES["W3-110"]["outputs"]["foot_rows"])
def test_a_flat_sock_with_one_seam(case: dict[str, Any], shoe: str, second: bool) -> None:
    """All 72 stitches at once: one half is held while the heel is knitted over the other, beside
    the carriage, which in the second sock stands at the left a row later."""
    said, wanted = case["inputs"], case["outputs"]
    leg, foot, half = said["leg_to_row"] + second, wanted["foot_rows"][shoe], said["heel_needles"]
    measures = {"all": f"{said['leg_sts']} stitches", "half": f"{half} stitches",
                "heel": f"{said['heel_left_in_work']} stitches", "leg": f"{leg} rows",
                "whole": f"{leg + foot} rows"}
    made = own_outline(swatch(said["sts_per_in"], said["rows_per_in"], "1 in"), measures, {"sock": {
        "width": "all", "height": "whole", "short_rows": [{
            "height": "leg", "middle": "heel", "over": "half",
            "beside": "left" if second else "right"}]}})
    sock = knitted(made, "sock")
    assert sock.piece.stitches.value == said["leg_sts"] == 2 * half
    (heel,) = rows_of(sock)
    assert heel == [*down_and_up(half, said["heel_left_in_work"]), 2 * half, 2 * half]
    assert wanted["heel_held"] == wanted["heel_rows_in"] == half - min(heel)
    assert heel[wanted["heel_rows_in"]] == wanted["in_work_after_that"]
    away = next(step for step in sock.program.steps if isinstance(step, steps.Hold))
    assert (away.needles.first.name, away.needles.last.name) == (
        ("R1", "R36") if second else ("L36", "L1"))
    assert counts(made)["sock"]["rows"] - leg == foot


@against("W3-111")
def test_a_bootie_of_one_strip(case: dict[str, Any]) -> None:
    """Top of the foot, toe, sole, heel; the sole has as many rows along its edges as the top."""
    said, wanted = case["inputs"], case["outputs"]
    wide, ankle, top = wanted["heel_needles"], said["ankle_rows"], said["top_of_foot_rows"]
    made = strip(wide, 2 * (ankle + top), [
        {"height": ankle + top, "middle": said["toe_left_in_work"]},
        {"height": ankle + 2 * top, "middle": said["heel_left_in_work"]}])
    own = counts(made)["strip"]
    sole = own["rows_to_short_rows_2"] - own["rows_to_short_rows_1"]
    assert sole == said["sole_rows"] + wanted["closing_row"] == wanted["sole_equals_top_rows"]
    assert own["rows_to_short_rows_1"] == ankle + top
    toe, heel = rows_of(knitted(made, "strip"))
    assert toe == heel == down_and_up(wide, said["heel_left_in_work"])
    assert wide - min(heel) == wanted["heel_held"]
    assert len(heel) == 2 * wanted["heel_rows_in"]


@against("W3-112")
def test_a_heel_down_to_about_three_tenths(case: dict[str, Any]) -> None:
    """Of an even number an even number is left: 12 of the published "12 or 13". Ours all come back
    one by one, the published ones from half of them on at once."""
    half, wanted = case["inputs"]["heel_half"], case["outputs"]
    (heel,) = rows_of(knitted(strip(half, 80, [{"height": 40, "middle": 12}]), "strip"))
    assert case["inputs"]["left_in_work"] == "12 or 13" and wanted["held"] == "29 or 30"
    assert heel == down_and_up(half, 12)


@against("W3-115")
def test_half_of_all_needles_is_the_heel(case: dict[str, Any]) -> None:
    wide = case["outputs"]["heel_needles"]
    assert 2 * wide == case["inputs"]["total_needles"]
    made = strip(wide, 60, [{"height": 30, "middle": 8}])
    assert counts(made)["strip"]["cast_on"] == wide


@against("W3-019")
@pytest.mark.parametrize("number", [0, 1])
def test_wedges_of_a_hat_that_is_knitted_sideways(case: dict[str, Any], number: int) -> None:
    """Two rows below the first: one and the row of grafting, in the published count."""
    said, wanted = case["inputs"], case["outputs"]
    wedges, more = said["wedges"][number], wanted["rows_per_wedge"] - said["return_rows"]
    made = strip(said["sts"], 2 + 2 * wedges, [
        {"height": 2, "middle": said["sts"] - 2 * said["held_each_end"], "rows": "shorter",
         "extra": more, "times": wedges}])
    one = knitted(made, "strip")
    sections = rows_of(one)
    assert [len(rows) for rows in sections] == [wanted["rows_per_wedge"]] * wedges
    assert all(rows == sections[0] for rows in sections)
    assert counts(made)["strip"]["middle_of_short_rows_1"] == (
        wanted["crown_sts"] + wanted["half_height_sts"])
    assert sum(step.rows for step in one.program.steps if isinstance(step, steps.Knit)
               ) == wanted["total_rows"][number]
