"""How the decreases of a sleeve's cap are spread, and how wide a cap as the armhole is.

Sources: Design Your Own Sweater, "Set-in sleeve" (C04); a magazine's lesson, "Set-in sleeve"
(W3-073).
"""

from __future__ import annotations

from ..core.units import Length
from .even_gaps import Finish, Remainder
from .schedule import Block, Schedule, schedule_of, spread_events, stacked
from .step_sizes import STEP_ROWS


def cap_slope(events: int, rows: int) -> Schedule:
    """Return the decreases of a cap between its bind-offs, a gap of plain rows after the last.

    Closer together at both ends than in the middle; on even rows where there are rows enough.
    """
    grid = STEP_ROWS if rows >= STEP_ROWS * (events + 1) else 1
    return spread_events(events, rows, finish=Finish.PLAIN,
                         remainder=Remainder.LONGER_MIDDLE, grid=grid)


def bell(events: int, first: int, last: int, rows: int | None = None) -> Schedule:
    """Return the decreases of a bell-shaped cap: `first` on every row, others farther apart, and
    `last` on every row (W3-073).

    Those between are made every 2nd row, or spread over what the two leave of the `rows`. The
    first is made at once. Raises ValueError where they do not fit.
    """
    between = events - first - last
    if between < 0:
        raise ValueError(f"{first} and {last} on every row are more than {events} in all")
    left = STEP_ROWS * between if rows is None else rows - first - last
    if left < 0:
        raise ValueError(f"{first} and {last} on every row do not fit in {rows} rows")
    slope = stacked(Schedule(first, (Block(1, first),) if first else ()),
                    spread_events(between, left, remainder=Remainder.LONGER_MIDDLE),
                    Schedule(last, (Block(1, last),) if last else ()))
    return schedule_of((row - 1 for row in slope.event_rows), slope.rows)


def cap_widths(sleeve: Length, at_once: Length, straight: Length) -> tuple[Length, Length]:
    """Return how wide a cap begins and ends, its rows being the armhole slope's (C04).

    It begins with what is bound off `at_once` at each side gone, and ends twice as wide as the
    armhole is straight at its top. Raises ValueError where it would grow wider.
    """
    begins, ends = sleeve - at_once.times(2), straight.times(2)
    if ends > begins:
        raise ValueError(f"the cap would widen from {begins} to {ends}")
    return begins, ends
