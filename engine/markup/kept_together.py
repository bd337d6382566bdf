"""What stays on one line of a page: a figure and its unit, and the needles of a range."""

from __future__ import annotations

import re

# The space between a figure and its unit in a text, and those between the needles of a range, at
# which no line may end. A fraction stands before no other "in" than inches. Both begin with a sign
# that is looked for at once; what stands before it is asked where it is found.
_UNIT = re.compile(r" (?:(?=in(?:[).,;:<\n]| to |$)|(?:cm|mm|g|m|yd|ligne)\b)"
                   r"(?<=[0-9¼½¾⅛⅜⅝⅞] )|(?=in\b)(?<=[¼½¾⅛⅜⅝⅞] )|(?=\d)(?<=\b[Dd]ial ))(?![^<>]*>)")
_RANGE = re.compile(r"([LR](?<!\w[LR])\d+) to ([LR]\d+)\b(?![^<>]*>)")


def kept_together(html: str) -> str:
    """Return a part of a page with spaces that no line ends at, where it must not.

    What stands in the attributes of its tags is as it was.
    """
    return _RANGE.sub("\\1\u00a0to\u00a0\\2", _UNIT.sub("\u00a0", html))
