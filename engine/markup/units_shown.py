"""Pages with the units that a collection asks for: centimetres first, inches first, or no inches.

What a page has in inches alone stays, such as the size of a button that is sold so.
"""

from __future__ import annotations

import re

from ..pattern.collection import CM_ONLY, INCHES_FIRST
from .inches_first import LABELS, PAIR, ROWS, SPANS, inches_first

_CHOICE = re.compile(r'<fieldset class="wb-unit-choice">.*?</fieldset>', re.DOTALL)


def in_units(page: str, units: str) -> str:
    """Return a page, as it is written, with the units of a collection's setting."""
    if units == INCHES_FIRST:
        return inches_first(page)
    return _cm_only(page) if units == CM_ONLY else page


def _cm_only(page: str) -> str:
    """The page without the inches of each pair of figures, rows and labels, and without a choice.

    An empty place of the choice stays: a script puts the reader's own size behind it. What is left
    is of no unit that a reader could hide.
    """
    page = PAIR.sub(r"\1", page)
    page = SPANS.sub(lambda m: m[1].replace('"wb-cm"', '"wb-one"'), page)
    page = ROWS.sub(lambda m: m[1].replace('"wb-cm"', '"wb-one"', 1), page)
    page = LABELS.sub(r"\1wb-one\3\4</text>", page)
    return _CHOICE.sub('<fieldset class="wb-unit-choice" hidden></fieldset>', page)
