"""What a thread that is tied into the edge of a piece marks."""

from __future__ import annotations

from enum import Enum


class MarkRole(Enum):
    """What begins or ends at the row of a mark; making up calls the mark by it."""

    ARMHOLE = "the armhole begins"
    SLIT_BEGINS = "the slit for a thumb begins"
    SLIT_ENDS = "the slit for a thumb ends"
    NECK_BEGINS = "the neck of a piece knitted sideways begins"
    NECK_ENDS = "the neck of a piece knitted sideways ends"
    FOLD = "the piece is folded"
    FOLD_ENDS = "the part ends that is folded up"
    CORNER = "a corner of the designer's own outline"
