"""The expression that computes a count: operands, operators, one rounding, and choices."""

from __future__ import annotations

from abc import abstractmethod
from fractions import Fraction
from math import floor

from ..machine.members import Members
from ..machine.records import dataclass
from .counts import NEAREST, Rounding, whole
from .operands import ChoiceReason, Role
from .problems import Place
from .text_kinds import TableKey


class Expression:
    """What comes to an exact figure; expressions are added, subtracted, multiplied, divided.

    No kind of it can be made that does not say how its value is worked out. (Python's own abstract
    classes take five times as long to ask what something is, which sentences ask all the time.)
    Nothing changes an expression once it is made. Its kinds are not frozen all the same: a frozen
    one takes four times as long to make, and a pattern has twenty thousand.
    """

    __slots__ = ("_value",)
    _value: Fraction

    def __init_subclass__(cls) -> None:
        if "_work_out" not in vars(cls):
            raise TypeError(f"{cls.__name__} does not say how its value is worked out")

    @property
    def value(self) -> Fraction:
        """What it comes to; worked out once, for other counts and sentences ask for it again."""
        try:
            return self._value
        except AttributeError:
            self._value = self._work_out()
            return self._value

    @abstractmethod
    def _work_out(self) -> Fraction:
        """The exact value."""

    def __add__(self, other: Expression) -> Sum:
        return Sum((*self.parts, other) if isinstance(self, Sum) else (self, other))

    def __sub__(self, other: Expression) -> Difference:
        return Difference(self, other)

    def __mul__(self, other: Expression) -> Product:
        return Product((*self.parts, other) if isinstance(self, Product) else (self, other))

    def __truediv__(self, other: Expression) -> Quotient:
        return Quotient(self, other)


@dataclass(slots=True, unsafe_hash=True)
class Operand(Expression):
    """A stated number, a measure or a gauge: its exact value in the unit of its role.

    `name` is what the source or the page calls it, `place` where the source states it.
    """

    figure: Fraction
    role: Role
    name: str = ""
    place: Place | None = None

    def _work_out(self) -> Fraction:
        """The figure."""
        return self.figure


NOTHING = Operand(Fraction(0), Role.NUMBER)


@dataclass(slots=True, unsafe_hash=True)
class Term(Expression):
    """Another count, as an operand with its own expression."""

    of: Expression
    role: Role
    name: str = ""

    def _work_out(self) -> Fraction:
        """The value of that count."""
        return self.of.value


@dataclass(slots=True, unsafe_hash=True)
class Sum(Expression):
    """All its parts added up."""

    parts: tuple[Expression, ...]

    def _work_out(self) -> Fraction:
        """The sum."""
        over, under = 0, 1
        for part in self.parts:  # whole numbers until the end: a fraction for each takes longer
            value = part.value
            over, under = over * value.denominator + value.numerator * under, \
                under * value.denominator
        return Fraction(over, under)


@dataclass(slots=True, unsafe_hash=True)
class Difference(Expression):
    """What is left of one when another is taken from it."""

    of: Expression
    less: Expression

    def _work_out(self) -> Fraction:
        """The difference."""
        return self.of.value - self.less.value


@dataclass(slots=True, unsafe_hash=True)
class Product(Expression):
    """All its parts multiplied."""

    parts: tuple[Expression, ...]

    def _work_out(self) -> Fraction:
        """The product."""
        over, under = 1, 1
        for part in self.parts:
            value = part.value
            over, under = over * value.numerator, under * value.denominator
        return Fraction(over, under)


@dataclass(slots=True, unsafe_hash=True)
class Quotient(Expression):
    """One divided by another, which is not 0."""

    of: Expression
    by: Expression

    def _work_out(self) -> Fraction:
        """The quotient."""
        return self.of.value / self.by.value


@dataclass(slots=True, unsafe_hash=True)
class Opposite(Expression):
    """One with a minus before it."""

    of: Expression

    def _work_out(self) -> Fraction:
        """The opposite."""
        return -self.of.value


@dataclass(slots=True, unsafe_hash=True)
class Stepped(Expression):
    """The multiple of a step that is nearest to a figure, a half upward; the step is above 0."""

    of: Expression
    step: Expression

    def _work_out(self) -> Fraction:
        """The multiple."""
        step = self.step.value
        return floor(self.of.value / step + Fraction(1, 2)) * step


@dataclass(slots=True, unsafe_hash=True)
class LookUp(Expression):
    """The entry of a small table under a key."""

    table: TableKey
    key: str
    entries: tuple[tuple[str, int], ...]

    def _work_out(self) -> Fraction:
        """The entry. Raises KeyError where there is none."""
        return Fraction(dict(self.entries)[self.key])


@dataclass(slots=True, unsafe_hash=True)
class Rounded(Expression):
    """An exact figure made whole by its rule; one of what it counts is worth `pitch` [mm]."""

    of: Expression
    rounding: Rounding = NEAREST
    pitch: Fraction | None = None

    def _work_out(self) -> Fraction:
        """The whole number."""
        return Fraction(whole(self.of.value, self.rounding))


class Rule(Members):
    """How one of several candidates is chosen; of equals the first, where nothing else is said.

    LEAST is a search: `given` has a figure for every candidate but the first, such as what a
    placing costs, and the rejected ones stand there with theirs.
    """

    LARGEST = "the largest"
    SMALLEST = "the smallest"
    NEAREST_TO = "nearest to the first figure given"
    ADDS_UP = "adds up with the other figures given to the first"
    REACHES = "the first that, times the second figure given, reaches the first"
    LEAST = "of all but the first, the one whose figure given in its place is least; " \
        "of equals the last"


@dataclass(slots=True, unsafe_hash=True)
class Chosen(Expression):
    """One of several candidates, by a rule over the figures it is `given`; the rest are rejected.

    The first candidate is what would have been taken without the choice.
    """

    candidates: tuple[Expression, ...]
    rule: Rule
    why: ChoiceReason
    given: tuple[Expression, ...] = ()

    @property
    def taken(self) -> Expression:
        """The candidate that was chosen. Raises ValueError where none meets the rule."""
        return _choose(self)

    def _work_out(self) -> Fraction:
        """The value of the candidate that was chosen."""
        return self.taken.value


def _choose(choice: Chosen) -> Expression:
    if choice.rule is Rule.LARGEST:
        return max(choice.candidates, key=lambda one: one.value)
    if choice.rule is Rule.SMALLEST:
        return min(choice.candidates, key=lambda one: one.value)
    if choice.rule is Rule.NEAREST_TO:
        wanted = choice.given[0].value
        return min(choice.candidates, key=lambda one: abs(one.value - wanted))
    if choice.rule is Rule.REACHES:
        far, each = (one.value for one in choice.given)
        return next((one for one in choice.candidates if one.value * each >= far),
                    choice.candidates[-1])
    if choice.rule is Rule.LEAST:
        pairs = zip(choice.given, choice.candidates[1:], strict=True)
        return min(reversed(list(pairs)), key=lambda pair: pair[0].value)[1]
    total, *others = (one.value for one in choice.given)
    for one in choice.candidates:
        if one.value + sum(others) == total:
            return one
    raise ValueError(f"no candidate adds up to {total}")


def plain(value: int | Fraction, name: str = "") -> Operand:
    """A plain number; `name` is that of the count beside it whose value it is, if it is one."""
    return Operand(Fraction(value), Role.NUMBER, name)


def so_often(times: int, one: Expression) -> Expression:
    """Return an expression so many times; once, as it is."""
    return one if times == 1 else plain(times) * one


def tried_figure(figure: int) -> Operand:
    """A figure that a search tries, among its candidates."""
    return Operand(Fraction(figure), Role.TRIED)


def plain_of(value: int, made: Expression, role: Role = Role.NUMBER, name: str = ""
             ) -> Operand | Term:
    """A number, plain or of a `role`, as what it is `made` from, where that comes to it."""
    return Term(made, role, name) if made.value == value else \
        Operand(Fraction(value), role, name)
