"""The names by which bands take the edges of pockets."""

from __future__ import annotations

PAIR, RIGHT, LEFT, ONE = "pocket", "right_pocket", "left_pocket", "front_pocket"
LINING = "pocket_lining"
EDGES = (PAIR, RIGHT, LEFT, ONE)


def edge_names(*, opens: bool, number: int) -> tuple[str, ...]:
    """Return the edges of `number` pockets, on fronts that open or on a whole one."""
    if number == 2:
        return PAIR, RIGHT, LEFT
    return (LEFT,) if opens else (ONE,)
