"""What an edge of a garment and each of its sections is: roles, to be worded in words/."""

from __future__ import annotations

from enum import Enum

from ..machine.members import Members


class SectionRole(Members):
    """What a section of an edge is of a garment."""

    ARMHOLE = "armhole"
    BACK = "back"
    BACK_NECK = "back neck"
    BESIDE_POCKET = "beside a pocket"
    COLLAR_END = "collar end"
    FACING_END = "facing end"
    FRONT = "front"
    FRONT_EDGE = "front edge"
    FRONT_NECK = "front neck"
    HEM = "hem"
    LEFT_BAND_TOP = "left band top"
    LOWER_EDGE = "lower edge"
    NECKBAND_END = "neckband end"
    OWN = "own"  # of an edge that the source describes, or of an own outline
    PLACKET = "placket"
    POCKET = "pocket"
    RIB = "rib"
    RIGHT_BAND_TOP = "right band top"
    SLEEVE_TOP = "sleeve top"
    STRAP = "strap"
    UNDERARM = "underarm"


class SectionDetail(Enum):
    """What more there is to a section than its role."""

    ALONG_CORD = "along a cord"
    FROM_CENTRE_BACK = "from the centre back"
    HALF_TOP = "half of a band's top"
    LOWER = "lower"
    ON_CORD = "on a cord"
    SIDE = "side"
    TO_CENTRE_BACK = "to the centre back"
    WAITING = "waiting"


class Worn(Enum):
    """Where a section lies on whoever wears it, or at a pocket."""

    BACK = "back"
    FRONT = "front"
    INNER = "inner"
    LEFT = "left"
    OUTER = "outer"
    RIGHT = "right"


class EndedBand(Enum):
    """A band within whose end, or round whose corner, a part of an edge lies."""

    COLLAR = "collar"
    CORNER = "corner"
    FACING = "facing's end"
    FRONT_BAND = "front band"
    NECKBAND = "neckband"
    PLACKET_BAND = "placket band"


class PathName(Enum):
    """What a whole edge of a garment is."""

    AROUND = "around"
    BRIM = "brim"
    CUFF = "cuff"
    HEM = "hem"
    LEFT_ARMHOLE = "left armhole"
    LEFT_FRONT = "left front"
    LEFT_PLACKET = "left placket"
    NECK = "neck"
    RIGHT_ARMHOLE = "right armhole"
    RIGHT_FRONT = "right front"
    RIGHT_PLACKET = "right placket"


class PathSpan(Enum):
    """Where a whole edge begins, and how it goes on."""

    FRONT_TO_FRONT = "front to front"
    FRONTS_OF_PLACKET = "fronts of the placket"
    FROM_FOOT = "from the foot"
    FROM_HEM = "from the hem"
    FROM_UNDERARM = "from the underarm"
    ROUND_FROM_LEFT_SHOULDER = "round from the left shoulder"
    ROUND_FROM_LEFT_SIDE = "round from the left side"
    ROUND_FROM_LEFT_SLEEVE = "round from the left sleeve"
    ROUND_FROM_LEFT_STRAP = "round from the left strap"
    SEAM_TO_SEAM = "seam to seam"


class RingSeam(Enum):
    """The seam at which the ends of a round edge meet."""

    BACK = "back"
    LEFT_BACK_RAGLAN = "left back raglan"
    LEFT_SHOULDER = "left shoulder"
    LEFT_SIDE = "left side"
    LEFT_STRAP = "left strap"
    OWN_ENDS = "ends of an own piece"
    OWN_SIDES = "sides of an own piece"
    SIDE = "side"
