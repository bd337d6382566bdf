"""On which rows to shape: events spread over rows.

Sources: Slipped Stitches, "Baby sweater design: raglan sleeve" (C08); Lynne Vogel (author
inferred), "Twisted Sisters Knit Sweaters" (C09); a reprinted handbook, "Knit Perfect" (G06); a yarn
maker's lesson, "Knitting tip: round neckline" (N02); Jimmy Simmons, "Decrease and increase
formulas" (R01, R02, R03); a knitwear maker's "Guide to Basic Knitwear Design: Shaping" (R05); Tess
Knits, "Provence Baby Cardigan part 4" (R07); Kristen TenDyke, "How to increase evenly along a set
number of rows" (R08); Paper Moon Knits, "Math Monday: Increasing, Part I"; Natalie in Stitches,
"Pattern Writing and Applied Maths"; Knitting Fiendishly, "Further sock mathery".
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import field, replace
from fractions import Fraction
from functools import cached_property
from itertools import accumulate, groupby, pairwise
from typing import NamedTuple

from ..core.expression import NOTHING, Expression, Operand, Sum, plain
from ..core.operands import Role
from ..machine.records import dataclass
from ..words.terms.schedules import MANY, event_rows, take_turns
from .even_gaps import AnyNumber, EvenGaps, Finish, Remainder, even_gaps, number
from .profile import Change, How


class Block(NamedTuple):
    """Events `every` so many rows, so many `times`."""

    every: int
    times: int

    @property
    def rows(self) -> int:
        """The rows the block takes ("Pattern Writing": spacing × count)."""
        return self.every * self.times


@dataclass(frozen=True)
class Schedule:
    """The events of `rows` rows: the first on row `first`, then by `blocks`.

    Where `first` is None the first event ends the first block's first gap. `gaps` are the
    calculation of one that is spread evenly from counts, and not from mere numbers; `counted` are
    the rows of one by the designer's rates. Raises ValueError when the blocks do not fit the rows
    or one of them holds nothing.
    """

    rows: int
    blocks: tuple[Block, ...] = ()
    first: int | None = None
    gaps: EvenGaps | None = field(default=None, compare=False)
    counted: Expression | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if any(b.every < 1 or b.times < 1 for b in self.blocks):
            raise ValueError(f"a block holds events some rows apart; got {self.blocks}")
        if self.first is not None and self.first < 0:
            raise ValueError(f"there is no row {self.first}")
        used = (self.first or 0) + sum(b.rows for b in self.blocks)
        if used > self.rows:
            raise ValueError(f"the events take {used} rows; there are {self.rows}")

    @property
    def made(self) -> Expression:
        """The rows as an expression: up to the first event, those of every block, those after.

        Of many blocks those are put together that have one gap. Where it is spread evenly, each
        figure is that of its gaps.
        """
        if self.gaps or self.counted:
            return self.gaps.made if self.gaps else self.counted or NOTHING
        used = (self.first or 0) + sum(b.rows for b in self.blocks)
        each: Iterable[tuple[int, int]] = self.blocks
        if len(self.blocks) > MANY:
            gaps = Counter({every: 0 for every, _ in self.blocks})
            for every, times in self.blocks:
                gaps[every] += times
            each = gaps.items()
        blocks = (plain(times) * plain(every) for every, times in each)
        ends = (Operand(Fraction(rows), role) for rows, role in (
            (self.first or 0, Role.ROWS_BEFORE), (self.rows - used, Role.ROWS_AFTER)) if rows)
        return Sum((*blocks, *ends))

    @property
    def events(self) -> int:
        """How many events there are."""
        return len(self.event_rows)

    @cached_property
    def event_rows(self) -> tuple[int, ...]:
        """What the row counter reads at each event."""
        return event_rows(self)

    def changes(self, how: How, stitches: int = 1) -> tuple[Change, ...]:
        """The events as changes of one edge, `stitches` each."""
        return tuple(Change(row, stitches, how) for row in self.event_rows)


def schedule_of(event_rows: Iterable[int], rows: int) -> Schedule:
    """Return the schedule with events on these rows, equal gaps gathered into blocks.

    A first gap unlike the second is named as a separate row, as patterns do (R07).
    Raises ValueError when the rows do not rise or do not fit.
    """
    at = tuple(event_rows)
    if any(b <= a for a, b in pairwise(at)):
        raise ValueError(f"event rows must rise; got {at}")
    gaps = [b - a for a, b in pairwise((0, *at))]
    first = None
    odd_one = len(gaps) > 1 and gaps[0] != gaps[1] and not take_turns(gaps)
    if at and (at[0] == 0 or odd_one):
        first, gaps = at[0], gaps[1:]
    return Schedule(rows, tuple(Block(gap, len(list(same))) for gap, same in groupby(gaps)), first)


def spread_events(events: AnyNumber, rows: AnyNumber, *, finish: Finish = Finish.EVENT,
                  remainder: Remainder = Remainder.SHORTER_FIRST, first: AnyNumber | None = None,
                  grid: int = 1) -> Schedule:
    """Return `events` spread over `rows` [rows], each a number or its expression.

    `first` fixes the first event's row; the rest share the rows above it (R07; "Math
    Monday"). Events are a multiple of `grid` rows apart: 2 keeps them on even rows (C08 and
    "Twisted Sisters"), whatever does not divide stays plain. The gaps differ by one
    `grid`; `remainder` says in which order, `finish` whether the rows after the last event count as
    a gap. Raises ValueError, with the figures, when there are more events than rows for them.
    """
    many, high = (int(number(one).value) for one in (events, rows))
    if many < 0 or high < 0 or grid < 1:
        raise ValueError(f"cannot spread {many} events over {high} rows, {grid} apart")
    if not many:
        return Schedule(high)
    gaps = even_gaps(events, rows, finish=finish, remainder=remainder, first=first, grid=grid)
    at = list(accumulate(gaps.in_turn, initial=int(gaps.first.value)))[first is None:]
    made = schedule_of(at, high)
    counted = isinstance(events, Expression) or isinstance(rows, Expression)
    return replace(made, gaps=gaps) if counted else made


def stacked(*schedules: Schedule) -> Schedule:
    """Return schedules worked one after the other as one, each starting where the last ended."""
    at, rows = [], 0
    for schedule in schedules:
        at += [rows + row for row in schedule.event_rows]
        rows += schedule.rows
    return schedule_of(at, rows)


def paired_rows(rows: Fraction | int) -> int:
    """Return `rows` down to an even number, so that the carriage ends where it began (G06, C09).

    Stitches shared by two sides go the same way (N02).
    """
    pairs = Fraction(rows) / 2
    return pairs.numerator // pairs.denominator * 2


def paired_events(change: int) -> int:
    """Return how many times to shape both sides at once for `change` stitches in all.

    Raises ValueError for an odd number: the two ends of the shaping must be both even or both
    odd (R08).
    """
    if change % 2:
        raise ValueError(f"{abs(change)} stitches cannot be shared by two sides")
    return abs(change) // 2
