"""Every figure of a piece that is knitted first is held to something else on its page."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pytest

from tests.reader import page
from tests.reader.trial_pieces import TITLE

CHANGES = [
    ("62 rows", "63 rows"), ("20 stitches (L10", "21 stitches (L10"), ("L10 to R10", "L10 to R11"),
    ("off all 20", "off all 19"), ("dial to 5", "dial to 6"),
    ("24 stitches (L12", "23 stitches (L12"), ("over the 24", "over the 25"),
    ("about 8 rows of waste", "about 0 rows of waste"),
    ("Keep your feet clear, and take the weights off. Bind", "Bind"),
    (" Set the row counter to 0. Knit 62", " Knit 62"),
    ("with Chandlery Double Knitting", "with Chandlery Lining Thread"), ("Knit 62 rows. ", "")]


def section_of(text: str) -> tuple[int, int]:
    """Where the section of the pieces begins and ends in a page."""
    begin = text.index(f">{TITLE}</h2>")
    return begin, text.index("<h2", begin)


def faults(text: str) -> list[str]:
    """What is wrong with the section of the pieces."""
    return [str(f) for f in page.read(text).faults if f.section == TITLE]


@pytest.mark.parametrize(("said", "other"), CHANGES)
def test_a_changed_figure_of_a_piece_is_refused(pages: dict[str, str], said: str, other: str
                                                ) -> None:
    text = pages["chandlery-closings/trial"]
    assert not faults(text)
    begin, end = section_of(text)
    told = text[begin:end]
    plain = re.sub(r"</?(?:a|b|em)\b[^>]*>", "", told)
    assert said in plain
    spoiled = text[:begin] + plain.replace(said, other, 1) + text[end:]
    assert faults(spoiled), other


def test_the_pieces_are_read_on_every_page_that_hangs_bands_on_none_of_its_own(
        readings: Mapping[str, page.Reading]) -> None:
    found = {name.partition("/")[0] for name, one in readings.items() if one.group(TITLE)}
    assert not [f"{name}: {f}" for name, one in readings.items() for f in one.faults
                if f.section == TITLE]
    assert found == {"boatshed-buttonholes", "chandlery-closings", "practice-band"}
