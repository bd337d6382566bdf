"""A count typed as a measure of an own outline, or under `counts`, is the one on the bed."""

from __future__ import annotations

import pytest
from walebook.core.problems import Severity

from tests.small_sources import head, what_comes_of

STRAIGHT = """\
    slip:
      width: low
      height: whole
      sides:
        - {height: half, width: low, name: lower}
        - {height: whole, width: high, name: upper}
"""
SEWN = "  joins: [{sew: slip.left.lower, to: slip.left.upper}]\n"


def source(measures: str, more: str = "", piece: str = STRAIGHT) -> str:
    """A strip of two stretches on 30 stitches to 15 cm and 40 rows to 16 cm, with no hem."""
    return head() + f"""\
fabrics:
  body: {{yarn: wool, dial: 5, swatch: {{stitches: 30, width: 15 cm, rows: 40, height: 16 cm}}}}
sizes: [M]
garment:
  form: own outline
  fabric: body
  measures: {{{measures}}}
  pieces:
{piece}{more}"""


def counts(text: str) -> dict[str, int]:
    """The counts of the one piece. Fails with the findings where there are errors."""
    proof, found = what_comes_of(text)
    assert proof is not None, [str(each) for each in found]
    assembled = proof.sizes[0].assembled
    assert assembled is not None
    return {name: count.value for _, name, count in assembled.garment.counts}


def refusals(text: str) -> list[str]:
    """The codes and texts of its errors."""
    _, found = what_comes_of(text)
    return [f"{p.code}: {p.found}" for p in found if p.severity is Severity.ERROR]


@pytest.mark.parametrize("stitches", [18, 19, 20, 21])
def test_a_width_in_stitches_is_cast_on_as_typed_even_or_odd(stitches: int) -> None:
    """Its other corner is a length of 20.4 stitches: the nearest one that leaves the sides alike.
    """
    made = counts(source(f"low: {stitches} stitches, high: 10.2 cm, half: 20 rows, whole: 40 rows"))
    assert made["cast_on"] == made["at_lower"] == stitches
    assert made["at_upper"] == (20 if stitches % 2 == 0 else 21)


def test_the_stitches_of_a_seam_come_on_top() -> None:
    made = counts(source("low: 19 stitches, high: 19 stitches, half: 20 rows, whole: 40 rows",
                         SEWN))
    assert made["cast_on"] == made["at_lower"] == made["at_upper"] == 19 + 1


@pytest.mark.parametrize("measures, name", [
    ("low: 19 stitches, high: 20 stitches, half: 20 rows, whole: 40 rows", "high of 20 stitches"),
    ("low: 18 stitches, high: 18 stitches, half: 21 rows, whole: 40 rows", "half of 21 rows"),
])
def test_a_count_that_cannot_stay_is_refused_at_its_line(measures: str, name: str) -> None:
    (only,) = refusals(source(measures))
    assert only.startswith(f"count-not-kept: {name}")


def test_the_middle_of_short_rows_is_not_rounded_in_silence() -> None:
    strip = ("    slip:\n      width: low\n      height: whole\n"
             "      short_rows: [{height: half, middle: mid}]\n")
    measures = "low: 18 stitches, mid: 9 stitches, half: 20 rows, whole: 40 rows"
    (only,) = refusals(source(measures, piece=strip))
    assert only.startswith("count-not-kept: mid of 9 stitches")


def test_a_count_outright_goes_for_every_corner_of_its_measure() -> None:
    measures = "low: 11 cm, high: 14 cm, half: 20 rows, whole: 40 rows"
    made = counts(source(measures, "  counts: {slip cast on: 20}\n"))
    assert (made["cast_on"], made["at_lower"], made["at_upper"]) == (20, 20, 28)
    made = counts(source(measures, "  counts: {slip at lower: 24}\n"))
    assert made["cast_on"] == made["at_lower"] == 24


def test_an_odd_count_is_not_rounded_up_in_both_halves() -> None:
    piece = ("    slip:\n      width: low\n      height: whole\n"
             "      left: [{height: whole, width: reach}]\n")
    measures = "low: 19 stitches, reach: 12 stitches, whole: 40 rows"
    made = counts(source(measures, piece=piece))
    assert made["cast_on"] == 19 and made["left_at_corner_1"] == 12
