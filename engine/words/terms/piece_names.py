"""What pieces are called, and fabrics by the parts that are knitted in them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...core.piece_roles import FabricPart, FabricRole, PieceRole

PIECES: Mapping[PieceRole, str] = {
    PieceRole.BACK: "Back",
    PieceRole.FRONT: "Front",
    PieceRole.HAND: "Hand",
    PieceRole.HAT: "Hat",
    PieceRole.LEFT_FRONT: "Left front",
    PieceRole.PANEL: "Panel",
    PieceRole.RIGHT_FRONT: "Right front",
    PieceRole.SHAWL: "Shawl",
    PieceRole.SLEEVE: "Sleeve",
    PieceRole.THUMB: "Thumb",
}
FABRICS: Mapping[FabricRole, str] = {
    FabricRole.BEHIND_FOLD: "{title}, behind its fold",
    FabricRole.CUFF: "Cuff",
    FabricRole.GARMENT: "Garment",
    FabricRole.HAT: "Hat",
    FabricRole.HEM: "Hem",
    FabricRole.MITTEN: "Mitten",
    FabricRole.NAMED: "{title}",
    FabricRole.PANEL: "Panel",
    FabricRole.RIB: "Rib",
    FabricRole.SHAWL: "Shawl",
}


def piece_name(role: PieceRole) -> str:
    """Return what a piece is called that the designer gives no name."""
    return PIECES[role]


def at_front(title: str, side: str) -> str:
    """Return what a band is called at the wearer's "right" or "left" front."""
    return f"{title}, {side} front"


def part_called(part: FabricPart) -> str:
    """Return what a part is called that a fabric is knitted for, with a capital letter."""
    return FABRICS[part.role].format(title=part.title)


def parts_called(parts: Sequence[FabricPart]) -> list[str]:
    """Return the names of the parts that a fabric is knitted for, the first as a heading has it:
    "Hem", "collar", "front band"."""
    first, *others = map(part_called, parts)
    return [first, *(other.lower() for other in others)]


def fabric_in_sentence(parts: Sequence[FabricPart]) -> str:
    """Return what a fabric is called inside a sentence: "the hem, collar and front band"."""
    *most, last = parts_called(parts)
    names = f"{', '.join(most)} and {last}" if most else last
    return f"the {names[:1].lower()}{names[1:]}"
