"""The edge of a held neck as a band meets it: its stitches on one length of waste yarn, and the
rows beside them up to the shoulders.

Sources: a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07); Mary Anne Oger,
"Backtracking: V neck by short rows", 2020 (W3-039).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate

from ..core.branched import Branched
from ..core.counted import Count
from ..core.counts import Unit
from ..core.edge_parts import SectionDetail, SectionRole
from ..core.expression import Expression, Operand, Term, plain
from ..core.operands import Role
from ..fabric.gauge import Gauge
from .counted_edge import NamedSlope, counted_segments, line_along
from .edging import Section, falling, shaped, waiting
from .openings import Opening
from .profile import EdgeSegment, length_along
from .smooth_line import along_corners
from .step_sizes import SteppedSlope

STEP_ROWS = 2  # rows a held step takes (S07)


def held_sections(opening: Opening, role: SectionRole, gauge: Gauge, counts: tuple[Count, Count], *,
                  last: int, waits: str, centre_back: bool,
                  slopes: tuple[NamedSlope, ...] = ()) -> list[Section | None]:
    """Return the neck of a whole back or front from shoulder to shoulder: the rows down to its
    first stitch, all its stitches, the rows up from its last one.

    `counts` are the stitches of the neck and the rows of its depth, `last` the rows knitted above
    those of its edges; its stitches wait as `waits`; `slopes` compute its steps.
    """
    segments = counted_segments(opening.line.drawn(last), slopes)
    level = max((n for n, segment in enumerate(segments, 1) if segment.stitches), default=0)
    below, above = segments[:level], segments[level:]
    neck, deep = counts
    side = shaped(role, above, gauge, details=(SectionDetail.SIDE,),
                  counted=_rows_beside(above, deep, slopes))
    live = waiting(role, neck.value, gauge, waits=waits, centre_back=centre_back, made=neck.made)
    return [falling(side), _stepped(live, opening, below, gauge, slopes), side]


def _rows_beside(above: tuple[EdgeSegment, ...], deep: Count,
                 slopes: tuple[NamedSlope, ...]) -> Count:
    """The rows above the last step: those of the neck's depth less the rows of its steps."""
    rows = sum(segment.rows for segment in above)
    steps, over = divmod(deep.value - rows, STEP_ROWS)
    less: Expression = Branched(plain(over)) if over else \
        plain(STEP_ROWS) * held_steps(steps, slopes)
    return Count(deep.term(Role.ROWS) - less, Unit.ROWS)


def _stepped(live: Section, opening: Opening, below: tuple[EdgeSegment, ...], gauge: Gauge,
             slopes: tuple[NamedSlope, ...]) -> Section:
    """The section of all stitches, as long as its line, with the turns at which that rises."""
    turns = tuple(_turns(opening))
    if not turns:
        return live
    middle = (EdgeSegment(opening.centre, 0, None),) if opening.centre else ()
    line = [*along_corners(below), *along_corners(below), *middle]
    return replace(live, turns=turns, held=held_steps(len(turns) // 2, slopes),
                   length=length_along(line, gauge), line=line_along(line, gauge))


def held_steps(steps: int, slopes: tuple[NamedSlope, ...]) -> Expression:
    """Return so many held steps, as many as the schedule of the neck has, or one more or fewer."""
    times = [one.figure(one.of.steps.times, "times") for one in slopes
             if isinstance(one.of, SteppedSlope)]
    more = steps - int(times[0].value) if len(times) == 1 else 0
    if len(times) != 1 or abs(more) > 1:
        return Operand(Fraction(steps), Role.HELD_STEPS)
    made = {0: times[0], 1: times[0] + plain(1), -1: times[0] - plain(1)}[more]
    return Term(made, Role.HELD_STEPS)


def _turns(opening: Opening) -> Iterator[int]:
    """After which of the neck's stitches its edge rises, or falls, by a step."""
    steps = opening.steps
    groups = [*reversed(steps), opening.centre, *steps]
    ends = list(accumulate(groups))[:-1]
    middle = len(steps)
    yield from (end for n, end in enumerate(ends)
                if opening.centre or n not in (middle - 1, middle))
