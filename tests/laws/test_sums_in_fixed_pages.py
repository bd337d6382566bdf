"""What a fixed page reckons as an example, done again with the figures that it prints.

The sums are arithmetic: each is done here from the page's text alone.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

SITE = Path(__file__).parents[2] / "site_src"
NUMBER = r"\d+(?:\.\d+)?"
LAID = re.compile(rf"\b({NUMBER}) (?:stitches |rows )?of ({NUMBER}) mm are ({NUMBER}) cm\b")
AS_LONG = re.compile(rf"({NUMBER}) cm, and so are ({NUMBER}) of ({NUMBER}) mm\b")
SUM = re.compile(rf"(?<![\d.×÷+−/] )\b({NUMBER}(?: [×÷] {NUMBER})+) = ({NUMBER})"
                 r"(?!\.?\d|/| [×÷+−/])")


def value(sum_: str) -> Fraction:
    """What figures with × and ÷ between them come to, from left to right."""
    first, *rest = sum_.split()
    made = Fraction(first)
    for sign, figure in zip(rest[::2], rest[1::2], strict=True):
        made = made * Fraction(figure) if sign == "×" else made / Fraction(figure)
    return made


def faults(text: str) -> list[str]:
    """The lengths and sums that their own figures do not come to, to the last printed digit."""
    running = " ".join(text.split())
    found = [(said[0], Fraction(said[1]) * Fraction(said[2]) / 10, said[3])
             for said in LAID.finditer(running)]
    found += [(said[0], Fraction(said[2]) * Fraction(said[3]) / 10, said[1])
              for said in AS_LONG.finditer(running)]
    found += [(said[0], value(said[1]), said[2]) for said in SUM.finditer(running)]
    return [said for said, exact, printed in found if nearest(exact, printed) != Fraction(printed)]


def nearest(exact: Fraction, printed: str) -> Fraction:
    """The figure to as many decimals as are printed; a half goes up."""
    unit = 10 ** len(printed.partition(".")[2])
    return Fraction(int(exact * unit + Fraction(1, 2)), unit)


@pytest.mark.parametrize("page", sorted(SITE.rglob("*.md")), ids=lambda page: page.stem)
def test_an_example_comes_to_what_it_says(page: Path) -> None:
    assert not faults(page.read_text("utf-8"))


def test_a_length_a_millimetre_off_is_found() -> None:
    """The first was printed: 52 of 4.4 mm are 22.88 cm."""
    assert faults("46 of 4.95 mm are 22.8 cm, and so are 52\nof 4.4 mm.") == [
        "22.8 cm, and so are 52 of 4.4 mm"]
    assert faults("and 52 of 4.4 mm are 22.8 cm") and not faults("and 52 of 4.4 mm are 22.9 cm")
    assert faults("so 12 × 1.5 = 17.") and not faults("so 12 × 1.5 = 18.")
