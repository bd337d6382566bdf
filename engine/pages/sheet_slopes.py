"""The even slopes of a piece as formulas: how often it is shaped, and how many rows apart.

The increases of a sleeve and the lines of a raglan are spread evenly over their rows: a workbook
can do that sum. What curves, and what the designer schedules herself, is no such sum.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Term, plain
from ..core.operands import ChoiceReason, Role
from ..shape.piece import Piece
from ..shape.profile import How
from ..words import sheet as words

Named = tuple[str, str, Expression]
Counts = Mapping[str, Count]


@dataclass(frozen=True, slots=True)
class _Slope:
    """So many `events` over so many `rows`, on every row or on every second one (`grid`); with a
    `gap_after` the last one as many plain rows follow as lie between two."""

    how: How
    start: int
    events: Expression
    rows: Expression
    grid: int
    gap_after: bool

    @property
    def figures(self) -> tuple[Expression, Expression, Expression, Expression]:
        """The rows apart at first and how many times, the rows apart then and how many times."""
        events = Term(self.events, Role.NUMBER)
        parts: Expression = events + plain(1) if self.gap_after else events
        units = self.rows if self.grid == 1 else Rounded(self.rows / self._step, DOWN)
        fewer = Rounded(units / parts, DOWN)
        longer = units - Term(fewer, Role.NUMBER) * parts
        first = Chosen((events, parts - longer), Rule.SMALLEST, ChoiceReason.LEAST_ONE)
        many = Term(fewer, Role.NUMBER)
        return (many * self._step if self.grid > 1 else fewer, first,
                (many + plain(1)) * self._step if self.grid > 1 else many + plain(1),
                events - Term(first, Role.NUMBER))

    @property
    def _step(self) -> Operand:
        return Operand(Fraction(self.grid), Role.ROWS, words.STEP)

    def is_of(self, piece: Piece) -> bool:
        """True where the piece is shaped so, row for row."""
        short, first, far, then = (int(one.value) for one in self.figures)
        mine = list(accumulate([short] * first + [far] * then, initial=self.start))[1:]
        made = [change.row for change in piece.right.changes if change.how is self.how
                and self.start <= change.row <= self.start + self.rows.value]
        return made == mine


def slopes(piece: Piece, counts: Counts) -> Iterator[Named]:
    """Yield the figures of each even slope of a piece; `counts` are its own and those of the piece
    that it is like, by name."""
    for slope in (*_increases(counts), *_raglan(counts)):
        if slope.events.value > 0 and slope.is_of(piece):
            name, figures = words.SHAPED_BY[slope.how], slope.figures
            yield name, words.TIMES, slope.events
            for what, unit, made in zip(words.SPREAD, (Unit.ROWS.value, words.TIMES) * 2, figures,
                                        strict=True):
                yield words.spread_said(name, what), unit, made


def _increases(counts: Counts) -> Iterator[_Slope]:
    """A sleeve, from its cuff to the upper arm."""
    rows = counts.get("rows_to_underarm") or counts.get("rows_to_raglan")
    if rows and "upper_arm" in counts:
        yield _Slope(How.INCREASE, 0, _halved(counts["upper_arm"], counts["cast_on"]),
                     rows.term(Role.ROWS), 1, gap_after=True)


def _raglan(counts: Counts) -> Iterator[_Slope]:
    """A line of a raglan, from what is bound off at the underarm up."""
    if "raglan_rows" not in counts:
        return
    wide = next(counts[name] for name in ("upper_arm", "chest", "cast_on") if name in counts)
    ends = [counts[name] for name in ("strap", "top", "neck_stitches") if name in counts][:1]
    for end in ends:
        under = counts["underarm"].term(Role.STITCHES)
        events: Expression = _halved(wide, end) - under
        if "shoulder" in counts and "strap" not in counts:
            events = events - counts["shoulder"].term(Role.STITCHES)
        rows = counts["raglan_rows"]
        grid = 2 if events.value <= rows.value // 2 else 1
        yield _Slope(How.DECREASE, counts["rows_to_raglan"].value, events,
                     rows.term(Role.ROWS), grid, gap_after=False)


def _halved(wide: Count, narrow: Count) -> Expression:
    """What goes at each side from one width to another."""
    return (wide.term(Role.STITCHES) - narrow.term(Role.STITCHES)) / plain(2)
