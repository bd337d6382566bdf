"""What stitches are labelled with that wait on waste yarn, and what edges that wait are called."""

from __future__ import annotations

from collections.abc import Mapping

from ...core.join_parts import WaitRole

WAITS: Mapping[WaitRole, str] = {
    WaitRole.BACK_NECK: "back neck",
    WaitRole.CROWN: "crown",
    WaitRole.NECK: "neck",
    WaitRole.NECK_CENTRE: "neck centre",
    WaitRole.SLEEVE_TOP: "sleeve top",
    WaitRole.STRAP: "strap, neck end",
    WaitRole.THUMB_TIP: "thumb tip",
}
HALF_TOPS = "right top", "left top"
"""The tops of a front with an opening, as worn."""
POCKET_TOP = "the pocket's upper edge"
BAND_FIRST_ROW, BAND_LAST_ROW = "the band's first row", "the band's last row"
BAND_SEAM_LINE = "the line where the band begins"
HEM_FIRST_ROW, RIB_FIRST_ROW = "the hem's first row", "the rib's first row"
FOLD_STITCHES = "stitches of the fold"
"""As they wait on waste yarn for the facing's own fabric."""


def wait_name(role: WaitRole) -> str:
    """Return the label of stitches that wait."""
    return WAITS[role]


def neck_waits(piece: str, role: WaitRole) -> str:
    """Return the label of the stitches of a neck, by the key of their piece."""
    return f"{piece}, {WAITS[role]}"


def front_centre() -> str:
    """Return the label of the centre of a raglan's front neck."""
    return f"front {WAITS[WaitRole.NECK_CENTRE]}"


def half_shoulder(side: str) -> str:
    """Return the label of the shoulder of a half front at the wearer's "right" or "left"."""
    return f"{side} front, shoulder"


def shoulder_waits(piece: str, side: str) -> str:
    """Return the label of a shoulder of a whole piece, by its key."""
    return f"{piece}, {shoulder_worn(side)}"


def shoulder_worn(side: str) -> str:
    """Return what a shoulder is called at the wearer's "right" or "left"."""
    return f"{side} shoulder"


def crown_quarter(number: int) -> str:
    """Return the label of a quarter of a crown, by its number from 1."""
    return f"{WAITS[WaitRole.CROWN]}, quarter {number}"


def upper_edge_of(title: str) -> str:
    """Return the label of the top of a piece, by its title."""
    return f"{title.lower()}, upper edge"


def lower_edge_of(title: str) -> str:
    """Return the label of the first row of a piece, by its title."""
    return f"{title.lower()}, lower edge"


def tops_of(title: str, *, opened: bool, spread: bool) -> tuple[str, ...]:
    """Return the labels of the top of a piece: of one that is `opened` both halves, the right
    first, of one that is `spread` over slopes both short sides."""
    last = "both short sides" if spread else "upper edge"
    return tuple(f"{title.lower()}, {top}" for top in (HALF_TOPS if opened else (last,)))


def facing_waits(part: int | None) -> str:
    """Return the label of a facing, by the number of its part: parts are sewn down together."""
    of_part = "" if part is None else f", part {part}"
    return f"facing{of_part}, to be sewn down inside"


def half_names(name: str) -> tuple[str, str]:
    """Return what the halves of a back neck are called as worn, on two strips of waste yarn.

    The right one, which a band meets first, lies at the left of the bed: the inside of the back
    faces the knitter.
    """
    return f"{name}, its right half", f"{name}, its left half"
