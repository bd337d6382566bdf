"""The uppermost row of what a program knits, by the row counter."""

from __future__ import annotations

from collections.abc import Iterable

from .rib_steps import KnitBeds, Zigzag
from .steps import Knit, Step
from .trace import State

_ROWS = (Knit, KnitBeds, Zigzag)


def top_row(steps: Iterable[Step], states: Iterable[State]) -> int:
    """Return the most that the row counter shows after a row [rows], 0 where none is knitted.

    `states` has the bed after each of the `steps`. The counter also counts the passes that take
    stitches off on waste yarn, and free passes: no row of the work is among them.
    """
    return max((state.counter for step, state in zip(steps, states, strict=True)
                if isinstance(step, _ROWS)), default=0)
