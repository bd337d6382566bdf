"""What each edge of a garment is, and on which side, by the name by which bands take it."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from ..machine.records import dataclass
from ..machine.steps import Side
from .pocket_edges import LEFT, ONE, PAIR, RIGHT


class EdgeRole(Enum):
    """What an edge is of a garment."""

    NECK = "neck"
    FRONT = "front"
    AROUND = "front and neck"
    PLACKET = "placket"
    ARMHOLE = "armhole"
    HEM = "hem"
    BRIM = "brim"
    CUFF = "cuff"
    POCKET = "pocket"
    OUTLINE = "edge of an own piece"


@dataclass(frozen=True, slots=True)
class GarmentEdge:
    """An edge: its role, and the wearer's `side` on which it lies, None where on no one side."""

    role: EdgeRole
    side: Side | None = None


GARMENT_EDGES: Mapping[str, GarmentEdge] = {
    "neck": GarmentEdge(EdgeRole.NECK),
    "front_edge": GarmentEdge(EdgeRole.FRONT),
    "right_front.front_edge": GarmentEdge(EdgeRole.FRONT, Side.RIGHT),
    "left_front.front_edge": GarmentEdge(EdgeRole.FRONT, Side.LEFT),
    "front_and_neck": GarmentEdge(EdgeRole.AROUND),
    "placket": GarmentEdge(EdgeRole.PLACKET),
    "right_placket": GarmentEdge(EdgeRole.PLACKET, Side.RIGHT),
    "left_placket": GarmentEdge(EdgeRole.PLACKET, Side.LEFT),
    "armhole": GarmentEdge(EdgeRole.ARMHOLE),
    "right_armhole": GarmentEdge(EdgeRole.ARMHOLE, Side.RIGHT),
    "left_armhole": GarmentEdge(EdgeRole.ARMHOLE, Side.LEFT),
    "hem": GarmentEdge(EdgeRole.HEM),
    "brim": GarmentEdge(EdgeRole.BRIM),
    "cuff": GarmentEdge(EdgeRole.CUFF),
    PAIR: GarmentEdge(EdgeRole.POCKET),
    RIGHT: GarmentEdge(EdgeRole.POCKET, Side.RIGHT),
    LEFT: GarmentEdge(EdgeRole.POCKET, Side.LEFT),
    ONE: GarmentEdge(EdgeRole.POCKET),
}


def role_of(edge: str) -> EdgeRole | None:
    """Return what the edge called `edge` is, None where it is the source's own ("")."""
    if edge in GARMENT_EDGES:
        return GARMENT_EDGES[edge].role
    return EdgeRole.OUTLINE if "." in edge else None


def side_of(edge: str) -> Side | None:
    """Return the wearer's side of the edge called `edge`, None where on both or neither."""
    return GARMENT_EDGES[edge].side if edge in GARMENT_EDGES else None
