"""The sloped lines where a raglan's body and sleeve meet: stitches, rows, and both alike.

Sources: a yarn maker's lesson, "Substituting yarns and adjusting patterns" (C07); Slipped Stitches,
"Baby sweater design: raglan sleeve" (C08).
"""

from __future__ import annotations

from dataclasses import dataclass

from .curves import STEP_ROWS, of_side, removed
from .profile import How, Profile, in_order
from .schedule import Schedule, paired_events
from .slopes import Asked, Usual, slope_schedule


def raglan(stitches: int, top: int, rows: int, *, bind_off: int = 0,
           parity: int = 0, asked: Asked | None = None) -> Profile:
    """Return one raglan line of a piece that narrows from `stitches` to `top` over `rows`.

    `bind_off` stitches go first at each side, the rest as `raglan_slope` has them. Raises
    ValueError when the sides come out unequal or do not fit.
    """
    slope = raglan_slope(stitches, top, rows, bind_off=bind_off, asked=asked)
    return Profile(rows, in_order(removed(of_side(parity), bind_off),
                                  slope.changes(How.DECREASE)))


def raglan_slope(stitches: int, top: int, rows: int, *, bind_off: int = 0,
                 asked: Asked | None = None) -> Schedule:
    """Return the decreases of a raglan line above its `bind_off`, one by one at both sides at once.

    As `asked`; else on even rows where there are rows enough (C08), closer together at the start
    (C07 leaves the order open). Raises ValueError when the sides come out unequal or do not fit.
    """
    events = paired_events(stitches - top - 2 * bind_off)
    if events < 0 or stitches - top < 2 * bind_off:
        raise ValueError(f"{stitches} stitches less 2 × {bind_off} are fewer than {top}")
    return slope_schedule(asked, events, rows, Usual(grid=STEP_ROWS, least_first=STEP_ROWS))


@dataclass(frozen=True, slots=True)
class RaglanSeam:
    """Body and sleeve along one raglan line. Cannot be built with unequal rows."""

    body: Profile
    sleeve: Profile

    def __post_init__(self) -> None:
        if self.body.rows != self.sleeve.rows:
            raise ValueError(f"the body's raglan has {self.body.rows} rows, the sleeve's "
                             f"{self.sleeve.rows}; they must be equal")
