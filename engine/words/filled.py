"""From which neighbour an empty needle takes its loop."""

from __future__ import annotations

from ..machine.needles import Needles


def under_neighbour(empty: Needles, held: Needles, stitch: str = "stitch") -> str:
    """The loop that each of the `empty` needles gets, where these are `held`, below which `stitch`:
    from the left where that neighbour holds one, as of a fully fashioned increase
    (techniques/increase.md)."""
    left, right = empty.shifted(-1) <= held, empty.shifted(1) <= held
    side = "left" if left else "right" if right else \
        "left, or on its right where only that needle holds a stitch"
    return f"the loop of the row before that lies below the {stitch} on its {side}"
