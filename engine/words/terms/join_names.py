"""What joins and their sides are called, in findings and on pages."""

from __future__ import annotations

from collections.abc import Mapping

from ...core.join_parts import JoinRole, SewnSide

JOINS: Mapping[JoinRole, str] = {
    JoinRole.BACK_OF_DOUBLE_HAT: "back seam, from ring to ring",
    JoinRole.BACK_OF_HAT: "back seam, from the crown to the lower edge",
    JoinRole.CAP: "sleeve cap and armhole",
    JoinRole.HAND_SIDE: "side seam of the hand, without the slit",
    JoinRole.PANELS: "panel to panel",
    JoinRole.PLACKET: "placket bands, their depth and the width of the slit",
    JoinRole.QUARTERS: "seams between the quarters",
    JoinRole.SHOULDER: "shoulder, front and back",
    JoinRole.SIDE: "side seam, front and back",
    JoinRole.SLEEVE: "sleeve seam",
    JoinRole.SLEEVE_TOP: "sleeve top and armhole",
    JoinRole.STRAP: "strap and shoulder",
    JoinRole.THUMB: "thumb seam",
    JoinRole.THUMB_SLIT: "thumb and its slit",
    JoinRole.UNDERARM: "underarm, body and sleeve",
}
SIDES: Mapping[SewnSide, str] = {
    SewnSide.ARMHOLE: "the armhole",
    SewnSide.BAND: "the band",
    SewnSide.CAP: "the sleeve cap",
    SewnSide.LEFT_OF_BED: "the edge that lay at the left of the bed",
    SewnSide.NECK: "the neck",
    SewnSide.ONE: "one side",
    SewnSide.ONE_EDGE: "one edge",
    SewnSide.OTHER: "the other",
    SewnSide.RIGHT_OF_BED: "the edge that lay at the right of the bed",
    SewnSide.SHOULDER: "the shoulder",
    SewnSide.SLEEVE_TOP: "the sleeve top",
    SewnSide.SLIT: "the slit",
    SewnSide.STRAP: "the strap",
    SewnSide.THUMB: "the thumb",
}


def join_name(role: JoinRole) -> str:
    """Return what a join is called."""
    return JOINS[role]


def shoulder_name(front: str) -> str:
    """Return what the shoulder of a front is called, by the title of the piece."""
    return f"shoulder, {front.lower()} and back"


def under_strap_name(front: str) -> str:
    """Return what the stitches of a front and of the back that a strap is sewn to are called, by
    the title of the piece."""
    return f"stitches that wait for the strap, {front.lower()} and back"


def side_name(front: str) -> str:
    """Return what the side seam of a front is called, by the title of the piece."""
    return f"side seam, {front.lower()} and back"


def raglan_name(piece: str) -> str:
    """Return what the raglan seam of a piece of the body is called, by the title of the piece."""
    return f"raglan, {piece.lower()} and sleeve"


def from_below(name: str) -> str:
    """Return the name of a join that is sewn from the lower edges."""
    return f"{name}, from the lower edge"


def worn_at(side: str, name: str) -> str:
    """Return the name of a join at the wearer's "right" or "left"."""
    return f"{side} {name}"


def sewn_side(side: SewnSide) -> str:
    """Return what one side of a join is called."""
    return SIDES[side]


def sewn_sides(one: SewnSide, other: SewnSide) -> tuple[str, str]:
    """Return what both sides of a join are called."""
    return SIDES[one], SIDES[other]


def side_of_piece(name: str) -> str:
    """Return what one side of a join is called, by the name of its edge or piece."""
    return f"the {name}"


def declared_name(one: str, other: str) -> str:
    """Return the name of a join that the source declares, by the names of both its edges."""
    return f"{one} to {other}"


def declared_edge(side: str, stretch: str, copy: str, title: str) -> str:
    """Return the name of an edge of a `copy` of an own piece, of all of a side of it or of a
    `stretch` that has a name."""
    return f"{side} {stretch or 'edge'} of {copy} {title.lower()}"


COPY, EACH_COPY, SAME_COPY = "the", "each", "the same"
"""Which copy of a piece is sewn: the only one, each of several, that to which the first goes."""
LENGTHWISE_ENDS, CROSSWISE_ENDS = ("lower end", "upper end"), ("left end", "right end")
"""The ends of an edge that runs up a piece, and of one that runs across it."""
_ORDER = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
          "tenth", "eleventh", "twelfth")


def numbered_copy(number: int) -> str:
    """Return which of several copies of a piece is sewn, by its number from 1."""
    return f"the {_ORDER[number - 1]}" if number <= len(_ORDER) else f"the {number}th"
