"""Events spread evenly over rows: how far apart they are and how many times, as calculations.

Sources: Jimmy Simmons, "Decrease and increase formulas" (R01, R02, R03); a knitwear maker's "Guide
to Basic Knitwear Design: Shaping" (R05); Lynne Vogel (author inferred), "Twisted Sisters Knit
Sweaters" (C09); Knitting Fiendishly, "Further sock mathery".
"""

from __future__ import annotations

from enum import Enum
from fractions import Fraction
from itertools import pairwise

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import (
    NOTHING,
    Chosen,
    Expression,
    Operand,
    Rounded,
    Rule,
    Sum,
    Term,
    plain,
)
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..machine.records import dataclass
from ..words.terms.part_names import part_name
from .profile import How

AnyNumber = Expression | int


class Finish(Enum):
    """What the last event is followed by."""

    EVENT = "event"  # it lands on the last row: a straight part follows anyway (R03)
    PLAIN = "plain"  # plain rows follow within these rows: one gap more than events (R01, R02)


class Remainder(Enum):
    """What becomes of the rows when they do not divide by the gaps."""

    PLAIN_AT_TOP = "plain at the top"  # one gap for all, the rows left over stay plain (R05)
    SHORTER_FIRST = "shorter first"  # two gaps, shorter ones first: "Further sock mathery"
    LONGER_FIRST = "longer first"  # two gaps: the longer ones worked first
    LONGER_MIDDLE = "longer in the middle"  # the shorter ones at both ends, as on a sleeve cap
    MIXED = "mixed"  # two gaps evenly mixed, as 6, 4, 6, 4 ("Twisted Sisters")
    MIXED_LATE = "mixed, a shorter one first"  # the same, as 4, 6, 4, 6


@dataclass(frozen=True, slots=True)
class EvenGaps:
    """How `events` are spread over `rows`, each an expression, as the gaps between them.

    They are so many `shorter` rows apart `shorter_times`, and so many `longer` rows apart
    `longer_times`, in this `order`; rows that are `left` over stay plain above the last one. The
    first gap ends at the first event; where that is on a separate row, `first`, it begins there.
    Plain rows that are no part of these `rows` lie `before` and `after` them.
    """

    events: Expression
    rows: Expression
    first: Expression
    shorter: Expression
    shorter_times: Expression
    longer: Expression
    longer_times: Expression
    left: Expression
    order: Remainder
    finish: Finish
    before: Expression = NOTHING
    after: Expression = NOTHING

    @property
    def made(self) -> Expression:
        """All its rows as an expression: of every gap, and the plain ones at both ends."""
        short, far = (self.shorter_times, self.shorter), (self.longer_times, self.longer)
        both = (far, short) if self.order is Remainder.LONGER_FIRST else (short, far)
        gaps = [Term(times, Role.NUMBER) * Term(rows, Role.NUMBER)
                for times, rows in both if times.value]
        ends = [Term(rows, role, name) for rows, role, name in (
            (self.before, Role.ROWS, _BELOW), (self.first, Role.ROWS_BEFORE, ""),
            (_added(self.left, self.after), Role.ROWS_AFTER, "")) if rows.value]
        return Sum((*gaps, *ends))

    @property
    def is_in_two(self) -> bool:
        """True where all gaps of one length come first, and then those of the other."""
        return self.order not in (Remainder.MIXED, Remainder.MIXED_LATE,
                                  Remainder.LONGER_MIDDLE)

    @property
    def in_turn(self) -> tuple[int, ...]:
        """The gaps in the order in which they are worked [rows]."""
        short, far, few, many = (int(one.value) for one in (
            self.shorter, self.longer, self.shorter_times, self.longer_times))
        after = self.finish is Finish.PLAIN
        if self.order in (Remainder.MIXED, Remainder.MIXED_LATE):
            parts, late = few + many + after, self.order is Remainder.MIXED_LATE
            marks = [i * many // parts if late else -(-i * many // parts)
                     for i in range(few + many + 1)] if parts else []
            return tuple(far if b > a else short for a, b in pairwise(marks))
        before = {Remainder.LONGER_FIRST: 0,
                  Remainder.LONGER_MIDDLE: min(few, (few + 1 + after) // 2)}.get(self.order, few)
        return (short,) * before + (far,) * many + (short,) * (few - before)


def _added(one: Expression, other: Expression) -> Expression:
    """Both together, or the one that there is."""
    if not other.value:
        return one
    return one + other if one.value else other


def number(figure: AnyNumber) -> Expression:
    """Return a figure as an expression: itself, or a plain number."""
    return figure if isinstance(figure, Expression) else plain(figure)


def even_gaps(events: AnyNumber, rows: AnyNumber, *, finish: Finish, remainder: Remainder,
              first: AnyNumber | None, grid: int) -> EvenGaps:
    """Return how `events` are spread over `rows`, a multiple of `grid` rows apart.

    There is an event at least. Raises ValueError, with the figures, where they do not fit.
    """
    many, high = number(events), number(rows)
    start = NOTHING if first is None else number(first)
    fixed = first is not None
    _check(int(many.value), int(high.value), int(start.value) if fixed else None, finish, grid)
    gaps: Expression = Term(many, Role.NUMBER)
    if fixed:
        gaps = gaps - plain(1)
    parts = gaps + plain(1) if finish is Finish.PLAIN else gaps
    room = high - Term(start, Role.ROWS) if fixed else high
    each = Operand(Fraction(grid), Role.ROWS, _APART)
    units: Expression = Term(Rounded(room / each, DOWN), Role.NUMBER) if grid > 1 else room
    if not parts.value:
        return EvenGaps(many, high, start, NOTHING, NOTHING, NOTHING, NOTHING, room, remainder,
                        finish)
    fewer = Rounded(units / parts, DOWN)
    apart = Term(fewer, Role.NUMBER)
    few, far = _times(gaps, parts, units - apart * parts, remainder, finish)
    short: Expression = apart * each if grid > 1 else fewer
    long: Expression = (apart + plain(1)) * each if grid > 1 else apart + plain(1)
    left = room - Term(few, Role.NUMBER) * Term(short, Role.ROWS) \
        - Term(far, Role.NUMBER) * Term(long, Role.ROWS)
    return EvenGaps(many, high, start, short, few, long, far, left, remainder, finish)


_APART = part_name(PartRole.BETWEEN_SHAPED_ROWS)
_BELOW = part_name(PartRole.BEFORE_THESE)


def _times(gaps: Expression, parts: Expression, over: Expression, remainder: Remainder,
           finish: Finish) -> tuple[Expression, Expression]:
    """How many of the `gaps` are the shorter ones and the longer ones; `over` units are left when
    all `parts` are the shorter ones, of which the last may be the plain rows at the end."""
    if remainder is Remainder.PLAIN_AT_TOP or not gaps.value:
        return gaps, NOTHING
    few: Expression = parts - over
    if finish is Finish.PLAIN:
        if remainder is Remainder.SHORTER_FIRST:
            few = Chosen((gaps, few), Rule.SMALLEST, ChoiceReason.LEAST_ONE)
        elif remainder is Remainder.LONGER_MIDDLE:
            few = Chosen((few - plain(1), plain(1)), Rule.LARGEST, ChoiceReason.LEAST_ONE)
        else:
            few = few - plain(1)
    return few, gaps - Term(few, Role.NUMBER)


def _check(events: int, rows: int, first: int | None, finish: Finish, grid: int) -> None:
    """Raise ValueError where there are more events than rows for them."""
    start = first or 0
    parts = events - (first is not None) + (finish is Finish.PLAIN)
    if start > rows or (rows - start) // grid < parts:
        raise ValueError(f"{events} events at least {grid} apart do not fit "
                         f"{f'from row {first} to' if first else 'in'} {rows} rows"
                         f"{' with plain rows after them' if finish is Finish.PLAIN else ''}")


@dataclass(frozen=True, slots=True, kw_only=True)
class EvenSlope:
    """A slope of a piece that is shaped evenly: a stitch comes or goes at both edges, as `how`
    says, at each event of its `gaps`, which lie above the row that `below` comes to. At a dart it
    is a stitch on either side. `name` is what its schedule is called in counts.json."""

    name: str
    how: How
    below: Expression
    gaps: EvenGaps

    @property
    def figures(self) -> tuple[tuple[str, Count], ...]:
        """Each of its numbers as a count, by name."""
        gaps = self.gaps
        first = (("first_row", Unit.ROWS, gaps.first),) if gaps.first.value else ()
        return tuple((name, Count(made, unit)) for name, unit, made in (
            ("rows_below", Unit.ROWS, self.below), ("rows", Unit.ROWS, gaps.rows),
            ("events", Unit.TIMES, gaps.events), *first,
            ("shorter_gap", Unit.ROWS, gaps.shorter),
            ("shorter_times", Unit.TIMES, gaps.shorter_times),
            ("longer_gap", Unit.ROWS, gaps.longer),
            ("longer_times", Unit.TIMES, gaps.longer_times),
            ("rows_left", Unit.ROWS, gaps.left)))


def events_by(slope: EvenSlope, row: Expression) -> Expression | None:
    """Return how many events of a slope lie at a `row` of its piece or below it; None where its
    gaps are not all of one length first and then of the other."""
    gaps = slope.gaps
    if slope.below.value + sum(gaps.in_turn) <= row.value and not gaps.first.value:
        return gaps.events
    if gaps.first.value or not gaps.is_in_two:
        return None
    short, far = (gaps.shorter, gaps.shorter_times), (gaps.longer, gaps.longer_times)
    both = (far, short) if gaps.order is Remainder.LONGER_FIRST else (short, far)
    up = Term(row, Role.ROWS) - Term(slope.below, Role.ROWS) if slope.below.value else row
    made: list[Expression] = []
    for each, times in both:
        if times.value and up.value > 0:
            fit = Rounded(up / Term(each, Role.ROWS), DOWN)
            made.append(Chosen((fit, Term(times, Role.NUMBER)), Rule.SMALLEST,
                               ChoiceReason.LEAST_STEP))
            up = up - Term(times, Role.NUMBER) * Term(each, Role.ROWS)
    return made[0] if len(made) == 1 else Sum(tuple(made)) if made else NOTHING
