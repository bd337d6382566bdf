"""What the measures of a piece are: typed names, which words/schematic_text.py words."""

from __future__ import annotations

from typing import NamedTuple

from ..machine.members import Members


class DimensionKind(Members):
    """What of a piece a dimension measures."""

    CAST_ON = "cast on"
    ABOVE_HEM = "above hem"
    ABOVE_RIB = "above rib"
    UNDERARM = "underarm"
    ACROSS = "across"
    SHOULDER = "shoulder"
    NECK = "neck"
    TOP = "top"
    HEM = "hem"
    RIB = "rib"
    TO_UNDERARM = "to underarm"
    ARMHOLE = "armhole"
    ABOVE_UNDERARM = "above underarm"
    SLOPE = "slope"
    NECK_DEPTH = "neck depth"
    SLIT_DEPTH = "slit depth"
    FRONT_EDGE = "front edge"
    TO_MARK = "to mark"
    MARKS = "marks"
    GATHERED = "gathered"
    WEDGED = "wedged"
    WHOLE = "whole"
    HIP_WIDTH = "hip width"
    WAIST_WIDTH = "waist width"
    TO_HIP = "to the hip"
    TO_WAIST = "to the waist"
    CORNER_WIDTH = "corner width"  # of an own outline
    TO_CORNER = "to a corner"
    TO_LAST_CORNER = "from a corner to one at the top"


class DimensionName(NamedTuple):
    """What a dimension measures; of one at a corner of an own outline also which corner, and from
    which one `below` it."""

    what: DimensionKind
    corner: str = ""
    below: str = ""


CAST_ON = DimensionName(DimensionKind.CAST_ON)
ABOVE_HEM = DimensionName(DimensionKind.ABOVE_HEM)
ABOVE_RIB = DimensionName(DimensionKind.ABOVE_RIB)
UNDERARM = DimensionName(DimensionKind.UNDERARM)
ACROSS = DimensionName(DimensionKind.ACROSS)
SHOULDER = DimensionName(DimensionKind.SHOULDER)
NECK = DimensionName(DimensionKind.NECK)
TOP = DimensionName(DimensionKind.TOP)
HEM = DimensionName(DimensionKind.HEM)
RIB = DimensionName(DimensionKind.RIB)
TO_UNDERARM = DimensionName(DimensionKind.TO_UNDERARM)
ARMHOLE = DimensionName(DimensionKind.ARMHOLE)
ABOVE_UNDERARM = DimensionName(DimensionKind.ABOVE_UNDERARM)
SLOPE = DimensionName(DimensionKind.SLOPE)
NECK_DEPTH = DimensionName(DimensionKind.NECK_DEPTH)
SLIT_DEPTH = DimensionName(DimensionKind.SLIT_DEPTH)
FRONT_EDGE = DimensionName(DimensionKind.FRONT_EDGE)
TO_MARK = DimensionName(DimensionKind.TO_MARK)
MARKS = DimensionName(DimensionKind.MARKS)
GATHERED = DimensionName(DimensionKind.GATHERED)
WEDGED = DimensionName(DimensionKind.WEDGED)
WHOLE = DimensionName(DimensionKind.WHOLE)
