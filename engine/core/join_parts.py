"""What a seam joins, and what stitches wait for: roles, to be worded in words/."""

from __future__ import annotations

from ..machine.members import Members


class JoinRole(Members):
    """What a join of a garment is, where no piece tells it from another."""

    BACK_OF_DOUBLE_HAT = "back of a hat with two crowns"
    BACK_OF_HAT = "back of a hat"
    CAP = "cap and armhole"
    HAND_SIDE = "side of a hand"
    PANELS = "panels"
    PLACKET = "placket"
    QUARTERS = "quarters"
    SHOULDER = "shoulder"
    SIDE = "side"
    SLEEVE = "sleeve"
    SLEEVE_TOP = "sleeve top and armhole"
    STRAP = "strap"
    THUMB = "thumb"
    THUMB_SLIT = "thumb and slit"
    UNDERARM = "underarm"


class SewnSide(Members):
    """Which of its two sides a join measures."""

    ARMHOLE = "armhole"
    BAND = "band"
    CAP = "cap"
    LEFT_OF_BED = "left of the bed"
    NECK = "neck"
    ONE = "one"
    ONE_EDGE = "one edge"
    OTHER = "other"
    RIGHT_OF_BED = "right of the bed"
    SHOULDER = "shoulder"
    SLEEVE_TOP = "sleeve top"
    SLIT = "slit"
    STRAP = "strap"
    THUMB = "thumb"


class WaitRole(Members):
    """What stitches that wait on waste yarn are of a garment."""

    BACK_NECK = "back neck"
    CROWN = "crown"
    NECK = "neck"
    NECK_CENTRE = "neck centre"
    SLEEVE_TOP = "sleeve top"
    STRAP = "strap"
    THUMB_TIP = "thumb tip"
