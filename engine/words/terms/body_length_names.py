"""What lengths along a body are called: from the neck to the wrist and its parts, and of a hand."""

from __future__ import annotations

NECK_TO_WRIST = "centre back neck to wrist"
HAND_LONG = "hand from wrist to fingertip"
HAND_ROUND = "hand round the palm"
NECK, SLEEVE_TOP = "neck", "the sleeve's top"


def half_of(many: str, what: str) -> str:
    """Return the name of half of so many stitches or rows of something."""
    return f"half of {many} of {what}"


def of_shoulder(many: str, sloping: str = "") -> str:
    """Return the name of the length along a shoulder, `sloping` over so many rows or none."""
    return f"{many} of shoulder, sloping over {sloping}," if sloping else f"{many} of shoulder"


def with_foot(foot: str) -> str:
    """Return what a sleeve is measured with: its "hem" or "rib"."""
    return f", with its {foot},"
