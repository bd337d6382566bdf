"""A shoulder knitted in held short rows: how many needles go into hold, and on which rows.

Sources: aisteb1973, "Modern Vintage Knitting Patterns: Apple Juice" (S04); University of Brighton,
"Short row or holding technique 1" (S06); a web lesson, "Crew neck collar on a drop-shoulder
sweater" (S07).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from ..pattern.conventions import Larger
from .profile import Change, How

STEP_ROWS = 2  # rows a step takes: toward the held needles and back (S04, S06)


class Wrap(Enum):
    """How the yarn is kept from leaving a hole beside the held needles."""

    BY_HAND = "by hand"  # under the first held needle; a step goes into hold at once
    AUTOMATIC = "automatic"  # all of a step but one, a row, then that one (S07)


def shoulder_steps(stitches: int, steps: int, larger: Larger = Larger.NECK) -> tuple[int, ...]:
    """Return the steps of a shoulder from armhole to neck [stitches].

    Raises ValueError when there are fewer stitches than steps.
    """
    if not 0 < steps <= stitches:
        raise ValueError(f"a shoulder of {stitches} stitches cannot have {steps} steps")
    each, over = divmod(stitches, steps)
    if larger is Larger.LAST_STEP:
        return (each,) * (steps - 1) + (each + over,)
    plain, wide = (each,) * (steps - over), (each + 1,) * over
    return plain + wide if larger is Larger.NECK else wide + plain


def held_steps(stitches: int, steps: Sequence[int]) -> tuple[int, ...]:
    """Return the `steps` of a shoulder, from its armhole, and what they leave as the last (S04).

    Raises ValueError for steps of more stitches than there are.
    """
    left = stitches - sum(steps)
    if left < 0:
        raise ValueError(f"steps of {sum(steps)} stitches in a shoulder of {stitches}")
    return (*steps, left) if left else tuple(steps)


@dataclass(frozen=True, slots=True)
class HeldShoulder:
    """A shoulder of `steps`, from armhole to neck; all but the last are held, one by one.

    The first step goes into hold with the carriage at the other side (S06). Each takes 2 rows;
    one final row runs over all needles, then waste yarn or the join (common practice).
    """

    steps: tuple[int, ...]
    wrap: Wrap = Wrap.BY_HAND

    def __post_init__(self) -> None:
        if not self.steps or min(self.steps) < 1:
            raise ValueError(f"every step of a shoulder has stitches; got {self.steps}")

    @property
    def stitches(self) -> int:
        """The whole shoulder [stitches]."""
        return sum(self.steps)

    @property
    def rows(self) -> int:
        """The rows from the first hold to the last one's return [rows]; the final row is more."""
        return STEP_ROWS * (len(self.steps) - 1)

    def changes(self, start: int = 0) -> tuple[Change, ...]:
        """What goes into hold from row `start`, the carriage then being at the other side.

        Wrapped automatically, n needles go as n − 1, and a row later, with the carriage on
        their side, the last one; a single needle goes only then (S07).
        """
        held: list[Change] = []
        for i, step in enumerate(self.steps[:-1]):
            row = start + STEP_ROWS * i
            last = 1 if self.wrap is Wrap.AUTOMATIC else 0
            if step > last:
                held.append(Change(row, step - last, How.HOLD))
            if last:
                held.append(Change(row + 1, 1, How.HOLD))
        return tuple(held)
