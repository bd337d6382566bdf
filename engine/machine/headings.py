"""The headings under which a program's steps stand: which part of the work they are."""

from __future__ import annotations

from enum import Enum, auto


class Heading(Enum):
    """Which part of the work a section of a program is."""

    CAST_ON = auto()
    HEM = auto()
    RIB = auto()
    HANGING = auto()
    BODY = auto()
    FIRST_ROWS = auto()
    TAIL = auto()
    TO_BUST = auto()
    BUST = auto()
    TO_TOP = auto()
    ENDING = auto()
    CHART = auto()
    LAST_ROW = auto()
    SLIT = auto()
    NECK_OPENING = auto()
    NECK = auto()
    WASTE_START = auto()
    FIRST_LAYER = auto()
    FOLD = auto()
    SECOND_LAYER = auto()
    CLOSING_BUTTONHOLES = auto()
    LAST_ROWS = auto()
    CLOSING_AROUND = auto()
    BY_HAND = auto()
    JOINING_ROW = auto()
    FACING = auto()
    SEWING_DOWN = auto()
    CLOSING_INSIDE = auto()
    BINDING_OFF = auto()
    ANOTHER_FABRIC = auto()
    COLLAR = auto()
    OVER_ALL = auto()
    LAST_ROWS_BEHIND = auto()
    SHORT_ROWS_BEHIND = auto()
    SHORT_ROWS = auto()
    OUTER_LAYER = auto()
    INNER_LAYER = auto()
    BAND = auto()
    HALF = auto()
    QUARTERS = auto()
    FIRST_QUARTER = auto()
    SECOND_QUARTER = auto()
    THIRD_QUARTER = auto()
    LAST_QUARTER = auto()
