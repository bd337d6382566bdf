"""How the decreases of a sleeve's cap are spread, and how wide a cap as the armhole is.

Sources: Design Your Own Sweater, "Set-in sleeve" (C04); a magazine's lesson, "Set-in sleeve"
(W3-073).
"""

from __future__ import annotations

from ..core.expression import Expression, Term, plain
from ..core.operands import Role
from ..core.text_kinds import FindingText
from ..core.units import Length
from .even_gaps import AnyNumber, Finish, Remainder, number
from .schedule import Schedule, schedule_of, spread_events, stacked
from .step_sizes import STEP_ROWS


def cap_slope(events: AnyNumber, rows: AnyNumber) -> Schedule:
    """Return the decreases of a cap between its bind-offs, a gap of plain rows after the last.

    Closer together at both ends than in the middle; on even rows where there are rows enough.
    """
    enough = number(rows).value >= STEP_ROWS * (number(events).value + 1)
    grid = STEP_ROWS if enough else 1
    return spread_events(events, rows, finish=Finish.PLAIN,
                         remainder=Remainder.LONGER_MIDDLE, grid=grid)


def bell_rows(events: AnyNumber, first: AnyNumber, last: AnyNumber) -> Expression:
    """Return the rows of a bell whose height is not asked for: those between `first` and `last` are
    made every 2nd row (W3-073)."""
    return (Term(number(first), Role.NUMBER) + Term(number(last), Role.NUMBER)
            + plain(STEP_ROWS) * _between(events, first, last))


def bell_parts(events: AnyNumber, first: AnyNumber, last: AnyNumber, rows: AnyNumber
               ) -> tuple[Schedule, ...]:
    """Return the decreases of a bell-shaped cap as three schedules, one above the other: `first` on
    every row, others farther apart, and `last` on every row (W3-073).

    Those between are spread over what the two leave of the `rows`. Raises ValueError where they do
    not fit.
    """
    least, most = number(first), number(last)
    both: FindingText = f"{least.value} and {most.value} on every row"
    if _between(events, first, last).value < 0:
        raise ValueError(f"{both} are more than {number(events).value} in all")
    left = number(rows) - Term(least, Role.NUMBER) - Term(most, Role.NUMBER)
    if left.value < 0:
        raise ValueError(f"{both} do not fit in {number(rows).value} rows")
    return (spread_events(first, first),
            spread_events(_between(events, first, last), left, remainder=Remainder.LONGER_MIDDLE),
            spread_events(last, last))


def bell(parts: tuple[Schedule, ...]) -> Schedule:
    """Return the parts of a bell-shaped cap as one schedule, whose first decrease is made at once.
    """
    slope = stacked(*parts)
    return schedule_of((row - 1 for row in slope.event_rows), slope.rows)


def _between(events: AnyNumber, first: AnyNumber, last: AnyNumber) -> Expression:
    """The decreases that are not made on every row."""
    return number(events) - Term(number(first), Role.NUMBER) - Term(number(last), Role.NUMBER)


def cap_widths(sleeve: Length, at_once: Length, straight: Length) -> tuple[Length, Length]:
    """Return how wide a cap begins and ends, its rows being the armhole slope's (C04).

    It begins with what is bound off `at_once` at each side gone, and ends twice as wide as the
    armhole is straight at its top. Raises ValueError where it would grow wider.
    """
    begins, ends = sleeve - at_once.times(2), straight.times(2)
    if ends > begins:
        raise ValueError(f"the cap would widen from {begins} to {ends}")
    return begins, ends
