"""Darts and shirt tails that cannot be knitted as asked: what is said, and what helps.

The pullover of `test_convention_sources`: a stitch is 5 mm wide and a row 4 mm high, and 100
stitches are cast on. The figures of the messages are reckoned from these by hand.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
from test_convention_sources import found, source
from test_garment_sources import CHARTS, FILE, read
from walebook.pages.materials import materials
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page
from walebook.proof.proof import prove

WAIST = {"waist_width": "410 mm", "waist_height": "20 cm"}
CASES: list[tuple[dict[str, Any], dict[str, str | None], str, str]] = [
    ({"darts": {"inset": "9 cm"}}, {}, "no pair",
     "found darts that take 100 %, and no pair of stitches for one between two of the widths; "
     "expected figures that make a set-in pullover. Give hem_width, hip_width or waist_width as "
     "well, or a larger share."),
    # 84 at the waist: 8 go at each side, a tenth of which is no pair
    ({"darts": {"share": "10 %"}}, WAIST, "no pair",
     "found darts that take 10 %, and no pair of stitches for one between two of the widths; "
     "expected figures that make a set-in pullover. Give hem_width, hip_width or waist_width as "
     "well, or a larger share."),
    # 25 mm are 5 stitches, and one in the seam; one less after the first of 4 pairs in 50 rows,
    # which are 12, 12, 13 and 13 rows apart
    ({"darts": {"inset": "25 mm"}}, WAIST, "too near the edge",
     "found back: darts with 5 stitches outside their middle one at row 24, where it takes 6; "
     "expected figures that make a set-in pullover. Make inset more, or the difference of the "
     "widths less."),
    # 48 + 1 stitches and the middle one at each side of 100
    ({"darts": {"inset": "24 cm"}}, WAIST, "too near each other",
     "found back: 0 stitches inside its darts at row 12, where it takes 4; expected figures that "
     "make a set-in pullover. Make inset less."),
]


@pytest.mark.parametrize(("garment", "measures", "_", "said"), CASES, ids=[c[2] for c in CASES])
def test_darts_that_cannot_be_are_named(garment: dict[str, Any], measures: dict[str, str | None],
                                        _: str, said: str) -> None:
    text = source(garment, **measures)
    (problem,) = found(text)
    assert str(problem).removeprefix(f"{FILE}:").split(", ", 1)[1].split(": ", 1)[1].removeprefix(
        "size M: ") == said
    assert "darts:" in text.splitlines()[problem.place.line - 1]


# 125 rows from the shoulder to the lower edge, less 50 and 4: 72 to the underarm, an even number
BUST: list[tuple[dict[str, Any], dict[str, str | None], str]] = [
    # 7.5 rows of 30 mm are 8, in 4 steps; 5 and 6 stitches, and the one in the seam
    ({"extra": "30 mm", "reach": "30 mm"}, {},
     "found 6 stitches to the first turn and 7 stitches to the last, for 4 steps; expected figures "
     "that make a set-in pullover. Make reach more, or extra less."),
    ({"extra": "30 mm", "reach": "26 cm"}, {},
     "found 0 stitches between bust darts of 53 stitches each, where it takes 4; expected figures "
     "that make a set-in pullover. Make reach less."),
    ({"extra": "30 mm", "below": "35 cm"}, {},
     "found bust darts 88 rows below the underarm, which lies 72 rows above the lower edge; "
     "expected figures that make a set-in pullover. Make below less."),
    # 126 rows less 62 of the neck; 6 rows of 25 mm below the underarm
    ({"extra": "30 mm"}, {"front_neck": "248 mm"},
     "found bust darts at row 66, and a neck that opens at row 64; expected figures that make a "
     "set-in pullover. Make below more, or the neck less deep."),
]


@pytest.mark.parametrize(("darts", "measures", "said"), BUST, ids=[c[2][6:40] for c in BUST])
def test_bust_darts_that_cannot_be_are_named(darts: dict[str, Any],
                                             measures: dict[str, str | None], said: str) -> None:
    text = source({"bust_darts": darts}, **measures)
    (problem,) = found(text)
    assert str(problem).removeprefix(f"{FILE}:").split(", ", 1)[1].split(": ", 1)[1].removeprefix(
        "size M: ") == said
    assert "bust_darts:" in text.splitlines()[problem.place.line - 1]


# 100 stitches at the lower edge; 40 mm are 10 rows, 5 steps
TAILS: list[tuple[dict[str, Any], dict[str, Any], str]] = [
    ({"depth": "40 mm", "reach": "26 cm"}, {},
     "found 0 stitches between the 53 stitches at either side of a shirt tail, where it takes 4; "
     "expected figures that make a set-in pullover. Make reach less."),
    ({"depth": "120 mm", "reach": "5 cm"}, {},
     "found a shirt tail of 30 rows that reaches over 11 stitches; expected figures that make a "
     "set-in pullover. Change its depth, or make reach more."),
    ({"depth": "40 mm"}, {"hem": {"depth": "3 cm"}},
     "found a shirt tail above a hem or rib, which is knitted straight; expected figures that make "
     "a set-in pullover. Leave the hem out, or delete shirt_tail."),
]


@pytest.mark.parametrize(("tail", "garment", "said"), TAILS, ids=[c[2][6:40] for c in TAILS])
def test_shirt_tails_that_cannot_be_are_named(tail: dict[str, Any], garment: dict[str, Any],
                                              said: str) -> None:
    text = source({**garment, "shirt_tail": tail})
    (problem,) = found(text)
    assert str(problem).removeprefix(f"{FILE}:").split(", ", 1)[1].split(": ", 1)[1].removeprefix(
        "size M: ") == said
    assert "shirt_tail:" in text.splitlines()[problem.place.line - 1]


def test_bust_darts_in_two_fronts_are_named() -> None:
    said = [str(p) for p in found(source({"form": "set-in cardigan",
                                          "bust_darts": {"extra": "3 cm"}}))]
    assert any("bust darts in a set-in cardigan" in one for one in said), said


def test_darts_of_a_form_without_sides_are_named() -> None:
    said = [str(p) for p in found(source({"form": "sideways pullover",
                                          "darts": {"inset": "9 cm"}}))]
    assert any("darts in a sideways pullover" in one for one in said), said


def test_an_inset_by_size_is_read() -> None:
    assert not found(source({"darts": {"inset": {"M": "9 cm"}, "share": "60 %"}}, **WAIST))


def test_the_tools_name_the_widest_row_that_a_dart_moves() -> None:
    """As many as a line of the table names, three in a go: the program's goes are of twelve."""
    pattern, _ = read(source({"darts": {"share": "60 %"}}, **WAIST), CHARTS)
    assert pattern is not None
    proof, problems = prove(pattern)
    assert proof is not None, [str(p) for p in problems]
    size = proof.sizes[0]
    lines = re.findall(r"dart, 2 [^<]*?([LR])(\d+) to ([LR])(\d+) by 2",
                       size_page(pattern, size, shared(proof), None))
    most = max(abs(int(b) - int(a)) + 1 if one == other else int(a) + int(b)
               for one, a, other, b in lines)
    assert most > 12
    assert f"{most} stitches side by side are moved in {-(-most // 3)} goes" in materials(
        pattern, size)
