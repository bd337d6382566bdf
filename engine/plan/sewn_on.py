"""Which row of a band that is sewn on meets which place of its edge: quarters of the length, and
ends."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ..machine.records import dataclass
from ..shape.edge_lengths import place_at
from .band import BandPlan
from .meeting import Meeting

FEWEST = 16  # rows of a section that is met quarter by quarter; common practice, no source
QUARTERS = 4


@dataclass(frozen=True, slots=True)
class Met:
    """After `row` rows the band meets `place` places of the edge's section `number` [both from 1].

    Of `quarter` 4 the section ends there.
    """

    number: int
    quarter: int
    row: int
    place: int


def met(plan: BandPlan) -> tuple[Met, ...]:
    """Return where band and edge meet, from the band's first end to its last."""
    return tuple(_met(plan))


def _met(plan: BandPlan) -> Iterator[Met]:
    done = 0
    for number, meeting in enumerate(plan.meetings, 1):
        rows = meeting.stitches.value
        for quarter in range(1, QUARTERS) if _is_long(meeting) else ():
            yield Met(number, quarter, done + _share(rows, quarter),
                      place_at(meeting.section, Fraction(quarter, QUARTERS)))
        done += rows
        yield Met(number, QUARTERS, done, meeting.section.places)


def _is_long(meeting: Meeting) -> bool:
    return min(meeting.stitches.value, meeting.section.places) >= FEWEST


def _share(whole: int, quarter: int) -> int:
    """So many quarters of a number, a half up."""
    return (2 * whole * quarter + QUARTERS) // (2 * QUARTERS)


def marked_rows(plan: BandPlan) -> tuple[int, ...]:
    """Return the rows of the band that are marked as it is knitted: all but its last."""
    return tuple(one.row for one in met(plan) if one.row < plan.stitches.value)
