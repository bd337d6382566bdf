"""What the pieces of a garment are, and the parts of it that a fabric is knitted for: roles, to be
worded in words/."""

from __future__ import annotations

from enum import Enum

from ..machine.members import Members
from ..machine.records import dataclass


class PieceRole(Members):
    """A piece of a form, by its key; own pieces have none."""

    BACK = "back"
    FRONT = "front"
    HAND = "hand"
    HAT = "hat"
    LEFT_FRONT = "left_front"
    PANEL = "panel"
    RIGHT_FRONT = "right_front"
    SHAWL = "shawl"
    SLEEVE = "sleeve"
    THUMB = "thumb"


class FabricRole(Enum):
    """What a fabric is knitted for. All that is knitted as a whole has the key by which the
    designer can name it."""

    GARMENT = "garment"
    HAT = "hat"
    MITTEN = "mitten"
    PANEL = "panel"
    SHAWL = "shawl"
    BEHIND_FOLD = "behind a fold"
    CUFF = "cuff"
    HEM = "hem"
    NAMED = "named"
    RIB = "rib"


@dataclass(frozen=True, slots=True)
class FabricPart:
    """A part that a fabric is knitted for. What is NAMED has the `title` of a piece or band, or one
    of the designer's; BEHIND_FOLD that of the band."""

    role: FabricRole
    title: str = ""
