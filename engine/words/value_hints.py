"""What an editor says of a value that is spelt otherwise than its key wants it."""

from __future__ import annotations

from ..core.ranges import Measured, Range
from ..source.outright_sizes import CountOrShare, LengthOrCount
from ..source.values import Text

VERSION = "expected a version such as 1.2.0"
NEEDLES = "expected an even whole number from 10 to 400"
ACCEPTED = "expected the code and the mark of a remark, such as chart-remark 1a2b3c4d"
COLOUR = "expected the name of a colour in CSS, or # and six digits"
REPEAT = "expected needles such as 2 in 1 out"
RIB_REPEAT = f"{REPEAT}, at most two out side by side"
SPAN = "expected a number or a range such as 28–30"
PLACE = "expected a distance such as 1.5 cm, or -1.5 cm from the upper end"
DEPTH = "expected a depth such as 3 cm or 20 rows"
BAND_DEPTH = "expected a depth such as 3 cm, 9 rows or, lengthwise, 5 stitches"
DISTANCE = "expected a distance such as 2 stitches or 1.5 cm"
ZIP = "expected how zips are sold, such as 5 cm, or cut"
STEP = "expected stitches of a step, a whole number from 1 to 200"
BIND_OFFS = "expected stitches such as 8, steps such as [4, 2, 1, 1], or a share such as 25 %"
EVERY_ROW = "expected a whole number from 0 to 99"
READER_CHANGE = "expected nothing, gauge within 10 %, measures within 6 cm, or both with a comma"
NAME = "expected small letters and digits, with single spaces, - or _ between words"
_FIGURES = {
    Measured.LENGTH: "expected a length such as 32 cm or 12.5 in; ",
    Measured.MASS: "expected a mass such as 50 g or 2 oz; ",
    Measured.SHARE: "expected a percentage such as 2 %; ",
    Measured.NUMBER: "expected a plain number such as 3/4; ",
    Measured.COUNT: "expected a whole number; ",
    Measured.DIAL: "expected a setting such as 6, or 6.1 and 6.2 for its dots; ",
    Measured.DATE: "expected a date such as 2026-10-30; "}


def or_count(read: LengthOrCount | CountOrShare) -> str:
    """Return what is expected of a count, or of a length or a share in its place."""
    return f"expected {read.expected}"


def figure(row: Range) -> str:
    """Return what is expected of a figure of a kind, with its limits."""
    return _FIGURES[row.measured] + row.allowed


def text(read: Text) -> str:
    """Return what is expected of a text."""
    return f"expected {read.expected}, up to {read.most} characters that can be seen"


def instead(name: str, others: tuple[str, ...]) -> str:
    """Return what is wrong where a key stands beside one that it stands instead of."""
    return f"{name} stands instead of {' or '.join(others)}; delete one of the two"
