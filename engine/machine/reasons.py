"""Why a step of a program is done: what decides its wording, never a phrase."""

from __future__ import annotations

from enum import auto
from typing import TypeAlias

from .members import Members


class Reason(Members):
    """Why a step is done. Its phrase, where it has one, is made in the folder of words."""

    NONE = auto()
    # Rows.
    TO_FOLD = auto()
    FOLD_ROW = auto()
    LOOSE_FOLD_ROW = auto()
    TO_EYELETS = auto()
    TO_CORD_EYELETS = auto()
    TO_END_OF_HEM = auto()
    TO_JOIN_HEM = auto()
    TO_JOIN_RIB = auto()
    TO_BRING_CARRIAGE_BACK = auto()
    OF_RIB = auto()
    TO_END_OF_RIB = auto()
    TO_CLOSE_EDGE = auto()
    OF_WASTE_YARN = auto()
    OF_RAVEL_CORD = auto()
    TO_BUTTONHOLES = auto()
    TO_BUTTONHOLE = auto()  # with its number
    TO_MARK = auto()
    FROM_FOLD_TO_BUTTONHOLES = auto()
    OVER_EMPTY_NEEDLES = auto()
    TO_SLITS = auto()
    OVER_FIRST_PART = auto()
    OVER_PART = auto()
    OVER_ALL_PARTS = auto()
    TO_FIRST_MITRE_PAIR = auto()
    TO_MITRE_PAIR = auto()
    TO_END_OF_SECOND_LAYER = auto()
    TO_END_OF_INNER_LAYER = auto()
    TO_END_OF_BAND = auto()
    TO_FACING_DEPTH = auto()
    TO_OUTER_EDGE = auto()
    TO_FILL_PICOTS = auto()
    AT_GARMENT_DIAL = auto()
    FIRST_OF_BAND = auto()
    AT_THIS_SETTING = auto()
    OVER_ALL = auto()
    OVER_THESE_TOO = auto()
    PLAIN_OVER_ALL = auto()
    OVER_LAST_DECREASES = auto()
    ABOVE_GATHERING = auto()
    LOOSE_FOR_CHAIN = auto()
    # Settings of the dial.
    FOR_FIRST_ROW = auto()
    FOR_BAND = auto()
    FOR_PIECE = auto()
    FOR_NEXT_ROW = auto()
    FOR_NEXT_ROWS = auto()
    FOR_LAST_ROW_ONLY = auto()
    FOR_FOLD_ROW = auto()
    FOR_JOINING_ROW = auto()
    FOR_SECOND_LAYER = auto()
    FOR_OTHER_LAYER = auto()
    FOR_OTHER_LAYER_OF_RIB = auto()
    FOR_FACING = auto()
    FOR_ZIGZAG = auto()
    FOR_CLOSING_ROWS = auto()
    TO_NARROW_TOP = auto()
    FOR_GATHERING = auto()
    TOWARDS_OUTER_EDGE = auto()
    TOWARDS_NECK = auto()
    # The row counter, a free pass, the carriage, the second bed.
    WHERE_DIVIDED = auto()
    WHERE_SLITS_BEGAN = auto()
    WHERE_NECK_BEGAN = auto()
    ROWS_OF_SIDES = auto()
    NO_ROW = auto()
    BEFORE_WASTE = auto()
    TO_SIDE_OF_HALF = auto()
    TO_SIDE_OF_QUARTER = auto()
    TO_SIDE_OF_PARTS = auto()
    TO_SIDE_OF_YARN = auto()
    TO_SIDE_WHERE_YARN_HANGS = auto()
    FOR_TUCK_ROWS = auto()
    BEFORE_HELD = auto()  # needles are held before the yarn is used again
    STRIPE = auto()  # with the rows of the stripe, or those for which a yarn rests
    FOR_RIB = auto()
    NEEDLE_FACES_NEEDLE = auto()
    TO_SET_RIB = auto()
    ALL_OF_THEM = auto()
    # Needles into holding position and back.
    ALL_BUT_FIRST_HALF = auto()
    ALL_BUT_HALF_OF_NECK = auto()  # beside a held neck: the yarn goes round its first needle
    SECOND_HALF_OF_NECK = auto()
    FOR_NECK_ROW = auto()
    SECOND_HALF = auto()
    ALL_BUT_FIRST_QUARTER = auto()
    NEXT_QUARTER = auto()
    ALL_BUT_FIRST_PART = auto()
    PART = auto()
    FOR_ROWS_OVER_ALL = auto()
    AT_LEFT = auto()
    AT_RIGHT = auto()
    FOR_LAST_ROW = auto()
    FOR_LAST_ROW_BUT_ONE = auto()
    FOR_SHORT_ROWS = auto()
    BACK_TO_SHORT_ROWS = auto()
    AWAY_FROM_CARRIAGE = auto()
    AFTER_CAST_ON = auto()
    # Stitches moved, needles filled.
    FOR_BUTTONHOLES = auto()
    FOR_CORD = auto()
    FOR_PICOTS = auto()
    FOR_MITRE = auto()
    FOR_JOIN = auto()
    FOR_STEPS = auto()  # of a held neck
    DART_LESS = auto()
    DART_MORE = auto()
    TO_FILL_RIB = auto()
    ABOVE_RIB = auto()  # where a piece has other stitches than its rib
    # Weights hung on again.
    AGAIN = auto()
    AGAIN_ALONG_FOLD = auto()
    AGAIN_ON_HEM = auto()
    AGAIN_ON_RIB = auto()
    # Ends of yarn, what comes off.
    TO_SEW_OFF = auto()
    TO_SEW_DOWN = auto()
    TO_SEW_SLIT = auto()
    TO_DRAW_THROUGH = auto()
    DRAWN_UP = auto()
    FOOT_OF_PLACKET = auto()
    # What a step is about.
    BUTTONHOLE = auto()
    BAND = auto()


Because: TypeAlias = Reason | tuple[Reason, int]
"""A reason, or a reason with the number that belongs to it: of a buttonhole, a part, of rows."""
