"""Of which stitches or rows an operand is, behind its figure and unit in a calculation."""

from __future__ import annotations

from collections.abc import Mapping

from ...core.operand_parts import FixedHole, PartRole

PARTS: Mapping[PartRole, str] = {
    PartRole.ABOVE_GATHERING: " above the gathering",
    PartRole.ABOVE_IT: " above it",
    PartRole.ABOVE_SHAPING: " above the shaping",
    PartRole.ABOVE_SLOPE: " above the slope",
    PartRole.ACROSS: " across",
    PartRole.ALONG_SHOULDER: " along the shoulder",
    PartRole.AT_CENTRE: " at the centre",
    PartRole.AT_CHEST: " at the chest",
    PartRole.AT_EDGES: " at the edges",
    PartRole.AT_LEFT: " at the left",
    PartRole.OF_SAME_WIDTH: " that the source gives for the same width",
    PartRole.AT_RIGHT: " at the right",
    PartRole.AT_TOP: " at the top",
    PartRole.BEFORE_THESE: " before the first of these",
    PartRole.BELOW_RAGLAN: " below the raglan",
    PartRole.BELOW_SHOULDER: " at the side, below the shoulder",
    PartRole.BETWEEN_SHAPED_ROWS: " from one row with shaping to the next",
    PartRole.BETWEEN_STEPS: " from one step to the next",
    PartRole.BOUND_OFF: " bound off",
    PartRole.CAST_ON: " cast on",
    PartRole.HELD_AT_SIDE: " held at a side",
    PartRole.OF_ARMHOLE: " of the armhole",
    PartRole.OF_ARMHOLES: " of armhole",
    PartRole.OF_ARMHOLE_SLOPE: " of the armhole's slope",
    PartRole.OF_A_FRONT: " of a front",
    PartRole.OF_CROWN: " of the crown",
    PartRole.OF_EDGE: " of the edge",
    PartRole.OF_ENDS: " of ends",
    PartRole.OF_FRONT_NECK: " of the front neck",
    PartRole.OF_HEM: " of hem",
    PartRole.OF_MAIN_BED: " of the main bed",
    PartRole.OF_NECK: " of the neck",
    PartRole.OF_PLACKET: " of the placket",
    PartRole.OF_RAGLAN: " of the raglan",
    PartRole.OF_RIB: " of the rib",
    PartRole.OF_SECOND_BED: " of the second bed",
    PartRole.OF_SHOULDER: " of the shoulder",
    PartRole.OF_SLIT: " of the slit",
    PartRole.OF_STITCHES: "of the stitches",
    PartRole.OF_THE_HEM: " of the hem",
    PartRole.OF_THUMB: " of the thumb",
    PartRole.ONE_FOR_ONE: ", one for one",
    PartRole.OVER_LAST_DECREASES: " over the last decreases",
    PartRole.ROUND_HEM: " round the hem",
    PartRole.THERE: " there",
    PartRole.TO_ARMHOLE: " to the armhole",
    PartRole.WITH_LADDER: " with its ladder",
}
HOLES: Mapping[FixedHole, str] = {
    FixedHole.EYELET: "an eyelet, the stitch that is moved and the one it is moved onto",
    FixedHole.ONE_STITCH: "a hole of one stitch",
    FixedHole.SLIT: "a slit, the stitch at either side of it",
    FixedHole.TWO_STITCHES: "a hole of two stitches",
}


def part_name(part: PartRole) -> str:
    """Return what stands behind the unit of an operand: " of the shoulder" behind "20 rows"."""
    return PARTS[part]


def of_piece(title: str) -> str:
    """Return of which piece the stitches or rows of an operand are."""
    return f" of the {title}"


def of_foot(name: str) -> str:
    """Return of which hem, rib or cuff the depth of an operand is."""
    return f" of {name}"


def above_part(name: str) -> str:
    """Return above which part of an edge the rows of an operand lie."""
    return f" above the {name}"
