"""Short rows between the edges of an own piece: what a heel and a toe must tell, row by row.

How needles are held and put back is common practice: Mary Anne Oger and others, in
`tests/against`; that a turn without a wrap leaves a hole is common practice, no source.
"""

from __future__ import annotations

import re

import pytest

from tests.reader import page

NAME = "fender-slippers/man"


def plain(text: str) -> str:
    """A page without the tags inside its sentences."""
    return re.sub(r"</?(?:b|em|i)\b[^>]*>", "", text)


def refused(text: str) -> set[str]:
    """The kinds of fault that the reader finds in a page."""
    return {fault.kind for fault in page.read(text).faults}


@pytest.mark.parametrize(("told", "instead", "kinds"), [
    # the turn at the narrowest row, and which needle the yarn goes round there
    (r" Before the carriage goes back, lay the yarn by hand under the held needle R\d+, so that no "
     r"hole is left\.", "", {"no-wrap"}),
    (r"(lay the yarn by hand under the held needle )R\d+", r"\g<1>R12", {"range"}),
    (r"Before the carriage returns, lay the yarn under the next held needle, so that no hole is "
     r"left\. ?", "", {"no-wrap", "left-out"}),
    # a line of the table: at the other side from the carriage, the innermost needle
    (r"put back 1: L6", "put back 1: L7", {"range"}),
    (r"hold 1: R14", "hold 1: R13", {"range"}),
    # the rows of the edges, and what is counted
    (r"Set the row counter to \d+, back from (\d+)", r"Set the row counter to 70, back from \1",
     {"counter"}),
    (r"Middle of short rows 1, 10 stitches", "Middle of short rows 1, 12 stitches", {"working"}),
    (r"Rows to short rows 2, 106 rows", "Rows to short rows 2, 104 rows", {"working"})])
def test_a_heel_that_is_told_otherwise_is_refused(pages: dict[str, str], told: str, instead: str,
                                                  kinds: set[str]) -> None:
    text = plain(pages[NAME])
    assert refused(text) <= refused(pages[NAME]) == set()
    spoiled, times = re.subn(told, instead, text, count=1)
    assert times == 1, told
    assert refused(spoiled) & kinds, refused(spoiled)
