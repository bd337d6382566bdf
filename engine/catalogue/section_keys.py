"""What a source calls the sections of a garment's edges: keys, whatever pages call them."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.edge_parts import SectionRole
from ..core.text_kinds import SourceName

SECTION_KEYS: Mapping[SectionRole, SourceName] = {
    SectionRole.ARMHOLE: "armhole",
    SectionRole.BACK: "back",
    SectionRole.BACK_NECK: "back neck",
    SectionRole.BESIDE_POCKET: "stitch beside the pocket",
    SectionRole.COLLAR_END: "end of the collar",
    SectionRole.FACING_END: "end of the facing",
    SectionRole.FRONT: "front",
    SectionRole.FRONT_EDGE: "front edge",
    SectionRole.FRONT_NECK: "front neck",
    SectionRole.HEM: "hem",
    SectionRole.LEFT_BAND_TOP: "top of the left band",
    SectionRole.LOWER_EDGE: "lower edge",
    SectionRole.NECKBAND_END: "end of the neckband",
    SectionRole.PLACKET: "placket edge",
    SectionRole.POCKET: "pocket's stitches",
    SectionRole.RIB: "rib",
    SectionRole.RIGHT_BAND_TOP: "top of the right band",
    SectionRole.SLEEVE_TOP: "sleeve top",
    SectionRole.STRAP: "strap",
    SectionRole.UNDERARM: "underarm",
}


def section_key(role: SectionRole, own: str) -> str:
    """Return what a source calls a section; one that is not the garment's by its `own` title."""
    return own if role is SectionRole.OWN else SECTION_KEYS[role]
