"""The sloped lines where a raglan's body and sleeve meet: stitches, rows, and both alike.

Sources: a yarn maker's lesson, "Substituting yarns and adjusting patterns" (C07); Slipped Stitches,
"Baby sweater design: raglan sleeve" (C08).
"""

from __future__ import annotations

from ..core.expression import plain
from ..machine.records import dataclass
from .curves import of_side, removed
from .even_gaps import AnyNumber, number
from .profile import How, Profile, in_order
from .schedule import Schedule, paired_events
from .slopes import SlopeRequest, Usual, slope_schedule
from .step_sizes import STEP_ROWS


def raglan(stitches: AnyNumber, top: AnyNumber, rows: AnyNumber, *, bind_off: AnyNumber = 0,
           parity: int = 0, request: SlopeRequest | None = None) -> Profile:
    """Return one raglan line of a piece that narrows from `stitches` to `top` over `rows`.

    `bind_off` stitches go first at each side, the rest as `raglan_slope` has them; each is a
    number or its expression. Raises ValueError when the sides come out unequal or do not fit.
    """
    slope = raglan_slope(stitches, top, rows, bind_off=bind_off, request=request)
    high, off = (int(number(one).value) for one in (rows, bind_off))
    return Profile(high, in_order(removed(of_side(parity), off),
                                  slope.changes(How.DECREASE)))


def raglan_slope(stitches: AnyNumber, top: AnyNumber, rows: AnyNumber, *, bind_off: AnyNumber = 0,
                 request: SlopeRequest | None = None) -> Schedule:
    """Return the decreases of a raglan line above its `bind_off`, one by one at both sides at once.

    As `request`; else on even rows where there are rows enough (C08), closer together at the start
    (C07 leaves the order open). Raises ValueError when the sides come out unequal or do not fit.
    """
    wide, narrow, off = (int(number(one).value) for one in (stitches, top, bind_off))
    paired_events(wide - narrow - 2 * off)
    if wide - narrow < 2 * off:
        raise ValueError(f"{wide} stitches less 2 × {off} are fewer than {narrow}")
    events = (number(stitches) - number(top)) / plain(2) - number(bind_off)
    return slope_schedule(request, events, rows, Usual(grid=STEP_ROWS, least_first=STEP_ROWS))


@dataclass(frozen=True, slots=True)
class RaglanSeam:
    """Body and sleeve along one raglan line. Cannot be built with unequal rows."""

    body: Profile
    sleeve: Profile

    def __post_init__(self) -> None:
        if self.body.rows != self.sleeve.rows:
            raise ValueError(f"the body's raglan has {self.body.rows} rows, the sleeve's "
                             f"{self.sleeve.rows}; they must be equal")
