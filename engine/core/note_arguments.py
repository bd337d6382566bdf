"""A calculation with a note, and what this says besides: figures, lengths, words and names."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from ..machine.records import dataclass
from .counts import Rounding, Unit
from .expression import Expression
from .operands import Note


class NoteWord(Enum):
    """A word or clause of a note that is there or not, or is one of a few."""

    BOTH_LAYERS = "both layers"
    ONE_IN_MIDDLE = "one in the middle"
    IN_WORK = "in work"
    OUT_OF_WORK = "out of work"
    RIB = "rib"
    HEM = "hem"
    FABRIC = "fabric"
    DIAL = "dial"
    OF_BIND_OFFS = "of bind-offs"
    PLAIN_BELOW_TOP = "plain below the top"


@dataclass(frozen=True, slots=True)
class NotedAmount:
    """So many of what is counted."""

    value: int
    unit: Unit


@dataclass(frozen=True, slots=True)
class NotedLength:
    """A length [mm]: printed in both units, or in millimetres where it `is_exact`."""

    mm: Fraction
    is_exact: bool = False


@dataclass(frozen=True, slots=True)
class NotedFigures:
    """Figures that follow one another, such as rows."""

    figures: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class NotedRuns:
    """NotedRuns of needles from one end of a repeat: how many, and whether they are in work."""

    runs: tuple[tuple[int, NoteWord], ...]


@dataclass(frozen=True, slots=True)
class NotedParts:
    """Parts of what is counted: how many of each, and which."""

    parts: tuple[tuple[NotedAmount, NoteWord], ...]


@dataclass(frozen=True, slots=True)
class NotedSchedule:
    """On which rows a stitch is decreased at each end: the row of the first event, where that is
    named by itself, then each gap [rows] and how many times it comes."""

    first: int | None
    blocks: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class NotedCalculation:
    """Another calculation that a note names, a count of `unit`."""

    made: Expression
    unit: Unit


NoteArgument = (int | NotedAmount | NotedLength | NotedFigures | NotedRuns | NotedParts
                | NotedSchedule | NotedCalculation | NoteWord | Rounding | str | None)
"""One of them; a text is a name that the designer or a page gives, None says nothing."""


@dataclass(slots=True, unsafe_hash=True)
class Noted(Expression):
    """A calculation with a `note` about it, which prints the `arguments` too."""

    of: Expression
    note: Note
    arguments: tuple[NoteArgument, ...] = ()

    def _work_out(self) -> Fraction:
        """The value of the calculation."""
        return self.of.value
