"""From which neighbour an empty needle takes its loop."""

from __future__ import annotations

from ..machine.needles import Needles


def neighbour_side(empty: Needles, held: Needles) -> str:
    """On which side of each of the `empty` needles a stitch gives a loop, where these are `held`:
    the left where that neighbour holds one, as of a fully fashioned increase
    (techniques/increase.md)."""
    left, right = empty.shifted(-1) <= held, empty.shifted(1) <= held
    return "left" if left else "right" if right else \
        "left, or on its right where only that needle holds a stitch"


def under_neighbour(empty: Needles, held: Needles) -> str:
    """The loop that each of the `empty` needles gets, where these are `held`."""
    return f"the loop just below the stitch on its {neighbour_side(empty, held)}"
