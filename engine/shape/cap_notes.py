"""What the calculation of a sleeve cap's rows says besides: the bind-offs, decreases and edge."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..core.counts import Unit
from ..core.expression import Expression, Sum, Term, plain
from ..core.note_arguments import (
    NoteArgument,
    NotedAmount,
    NotedCalculation,
    NotedLength,
    NotedParts,
    NotedSchedule,
    NoteWord,
)
from ..core.operands import Role
from .even_gaps import AnyNumber, number
from .schedule import Schedule


def cap_arguments(above: NotedCalculation | None, slope: Schedule, top: int, rows: int,
                  lengths: Iterable[Fraction]) -> tuple[NoteArgument, ...]:
    """Return what is said of a cap with so many `rows` and a flat `top` [stitches]; `lengths` are
    those of its edge, the armhole, the ease and how far off the edge is [mm]."""
    return (above, top, rows, NotedSchedule(slope.first, slope.blocks),
            _other_rows(slope, rows - slope.rows),
            *(NotedLength(length, is_exact=True) for length in lengths))


def above_bind_offs(underarm: Expression, foot: Sequence[AnyNumber]) -> NotedCalculation | None:
    """Return the stitches that are left above the bind-offs at the `foot` of both sides, None where
    nothing is bound off there."""
    if not foot:
        return None
    every = Term(Sum(tuple(map(number, foot))), Role.NUMBER)
    return NotedCalculation(Term(underarm, Role.NUMBER) - plain(2) * every, Unit.STITCHES)


def _other_rows(slope: Schedule, bound: int) -> NotedParts | None:
    """The rows of bind-offs, and those above the last decrease; None where there are none."""
    above = slope.rows - max(slope.event_rows, default=0)
    parts = tuple((NotedAmount(rows, Unit.ROWS), which) for rows, which in (
        (bound, NoteWord.OF_BIND_OFFS), (above, NoteWord.PLAIN_BELOW_TOP)) if rows)
    return NotedParts(parts) if parts else None
