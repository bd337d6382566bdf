"""Stitches that go in steps, one every two rows: how many go at each, as calculations.

Source: TECHknitter, "Sweater shoulders: transform stair steps to short rows" (S02).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import NOTHING, Expression, Operand, Sum, plain
from ..core.expression_parts import inside
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.problems import Place
from ..machine.records import dataclass
from ..words.terms.part_names import part_name
from .even_gaps import AnyNumber, EvenSlope, number
from .profile import How

STEP_ROWS = 2  # a side is reached with the carriage every second row
APART = Operand(Fraction(STEP_ROWS), Role.ROWS, part_name(PartRole.BETWEEN_STEPS))


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSizes:
    """`stitches` that go in so many `times`, and how many of them at each, in `sizes`; `helps` are
    what the sizes are computed from besides, each with its name and its unit."""

    stitches: Expression
    times: Expression
    sizes: tuple[Expression, ...]
    helps: tuple[tuple[str, Unit, Expression], ...] = ()

    @property
    def in_turn(self) -> tuple[int, ...]:
        """How many go at each step [stitches]."""
        return tuple(int(size.value) for size in self.sizes)


def listed_sizes(sizes: Sequence[Expression]) -> StepSizes:
    """Return steps of which each size is known by itself: their sum is what goes."""
    return StepSizes(stitches=sizes[0] if len(sizes) == 1 else Sum(tuple(sizes)),
                     times=as_many(sizes), sizes=tuple(sizes))


def as_many(sizes: Sequence[AnyNumber]) -> Expression:
    """Return how many steps there are: one, or as many as the designer writes."""
    many = len(sizes)
    if many < 2:
        return plain(many)
    places = (_place(one) for one in sizes if isinstance(one, Expression))
    return Operand(Fraction(many), Role.SOURCE, "steps", next(filter(None, places), None))


def in_numbers(steps: Sequence[AnyNumber]) -> tuple[int, ...]:
    """Return what is bound off at each step [stitches]."""
    return tuple(int(number(step).value) for step in steps)


def bind_off_rows(*steps: Sequence[AnyNumber]) -> Expression:
    """Return the rows in which stitches are bound off at both edges, step by step."""
    made = [plain(STEP_ROWS) * as_many(each) for each in steps if each]
    if not made:
        return NOTHING
    return made[0] if len(made) == 1 else Sum(tuple(made))


def _place(size: Expression) -> Place | None:
    """Where the source states the first figure of a step that it states at all."""
    if isinstance(size, Operand):
        return size.place
    return next(filter(None, map(_place, inside(size))), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class SteppedSlope:
    """A slope of a piece at whose edges stitches go in steps, as `how` says: the first when the row
    counter reads what `below` comes to, or a row later at the left edge; `name` is what its
    schedule is called in counts.json."""

    name: str
    how: How
    below: Expression
    steps: StepSizes

    @property
    def figures(self) -> tuple[tuple[str, Count], ...]:
        """Each of its numbers as a count, by name; the steps themselves are in `sizes`."""
        steps = self.steps
        return tuple((name, Count(made, unit)) for name, unit, made in (
            ("rows_below", Unit.ROWS, self.below), ("rows_apart", Unit.ROWS, APART),
            ("stitches", Unit.STITCHES, steps.stitches), ("times", Unit.TIMES, steps.times),
            *((name, unit, made) for name, unit, made in steps.helps)))

    @property
    def sizes(self) -> tuple[Count, ...]:
        """How many stitches go at each step."""
        return tuple(Count(size, Unit.STITCHES) for size in self.steps.sizes)


CountedSlope = EvenSlope | SteppedSlope
"""A slope of a piece as its calculation: spread evenly, or in steps."""
