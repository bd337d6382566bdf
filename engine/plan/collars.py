"""What makes a band a collar, in whole stitches and rows: points, a graded dial, short rows.

Sources: TECHknitter, "Sweater shoulders: transform stair steps to short rows" (S02); University of
Brighton, "Short row or holding technique 1" (S06).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import EVEN, Unit, decimal
from ..core.expression import Operand
from ..core.operands import Role
from ..core.problems import Problem, Severity, error, note
from ..core.units import Length
from ..fabric.gauge import Gauge, counted, rows_up
from ..machine.steps import Dial
from ..pattern.model import Band, Shown
from ..pattern.places import Places
from ..shape.edging import Zone
from ..shape.shoulders import shoulder_steps
from .collar_plan import CollarPlan, ShortRows
from .graded import grade_dial
from .meeting import Meeting

PAIR = 2  # rows a pair of short rows takes: one each way (S06)
LAST_ROWS = 2  # rows over all stitches after the short ones, one for each held side


def plan_collar(places: Places, band: Band, size: str, meetings: Sequence[Meeting],
                gauge: Gauge, depth: Count) -> tuple[CollarPlan | None, list[Problem]]:
    """Return the collar's plan for a layer of `depth` rows, with findings; None where refused."""
    rows = depth.value
    points, problems = _points(places, band, size, gauge, rows)
    grades, found = _grades(places, band, size, rows)
    problems += found
    short_rows, found = _short_rows(places, band, size, meetings, gauge, depth)
    problems += found
    if points is None or grades is None or (short_rows is None and band.collar.back_depth):
        return None, problems
    if KINDS[band.kind].meets and not points.value and len(grades) == 1:
        problems.append(_rides_up(places, band, size))
    return CollarPlan(point=points, grades=grades,
                      short_rows=short_rows,
                      right_side=band.collar.shows is Shown.KNIT), problems


def _points(places: Places, band: Band, size: str, gauge: Gauge, rows: int
            ) -> tuple[Count | None, list[Problem]]:
    """A stitch at most comes to each end in a row; the first and the last row are plain."""
    length = band.collar.points[size] if band.collar.points else Length(Fraction(0))
    place = places.of(f"bands.{band.key}.points", size)
    points = counted(Operand(length.mm, Role.STATED, "points", place)
                     / Operand(gauge.stitch, Role.STITCH_WIDTH), Unit.STITCHES, gauge.stitch)
    room = max(0, rows - 2)
    if points.value <= room:
        return points, []
    return None, [error(
        "points-too-sharp", place, size=size,
        found=f"points of {points} over the {rows} rows of a layer",
        expected=f"at most a stitch a row at each end, {room} in all",
        remedy=f"Write points of at most {decimal(room * gauge.stitch / 10, 1)} cm, or give the "
               "collar more depth.")]


def _grades(places: Places, band: Band, size: str, rows: int
            ) -> tuple[tuple[tuple[int, Dial], ...] | None, list[Problem]]:
    try:
        return grade_dial(rows, band.dial, band.collar.outer_dial or band.dial), []
    except ValueError as fault:
        return None, [error(
            "dial-too-far", places.of(f"bands.{band.key}.outer_dial"), size=size,
            found=str(fault), expected="a row at least for each setting",
            remedy="Choose an outer dial nearer to the band's, or give the collar more depth.")]


def _rides_up(places: Places, band: Band, size: str) -> Problem:
    return note(Severity.WARNING, "collar-rides-up", places.of(f"bands.{band.key}.kind"),
                size=size, found="a shirt collar with an outer edge no longer than its neck edge",
                expected="a longer outer edge, or it rides up at the back when it falls over",
                remedy="Give it points, or an outer_dial looser than its dial.")


# Short rows


def _short_rows(places: Places, band: Band, size: str, meetings: Sequence[Meeting],
                gauge: Gauge, depth: Count) -> tuple[ShortRows | None, list[Problem]]:
    """The extra depth over two rows gives the pairs; steps share each slope, the wider ones
    nearer to the back (S02). What lies below the neck goes into hold with the first step."""
    if band.collar.back_depth is None:
        return None, []
    rows = depth.value
    own = Length(rows * gauge.row)
    back = band.collar.back_depth[size]
    place = places.of(f"bands.{band.key}.back_depth", size)
    deep = Operand(back.mm, Role.LENGTH, place=place)
    extra = counted(rows_up(deep, gauge) - depth.term(Role.AT_ENDS), Unit.ROWS, gauge.row, EVEN)
    if extra.value < PAIR:
        return None, [error(
            "collar-not-deeper", place, size=size,
            found=f"a back depth of {back.in_cm()} on a collar {own.in_cm()} deep at its ends",
            expected=f"at least {PAIR} rows more, {decimal(PAIR * gauge.row / 10, 1)} cm",
            remedy="Give back_depth more, or use a band of one depth.")]
    pairs = extra.value // PAIR
    sides = [_side(meetings), _side(tuple(reversed(meetings)))]
    most = min(slope for _, slope in sides)
    if pairs > most:
        return None, [error(
            "collar-too-deep", place, size=size,
            found=f"{pairs} pairs of short rows over {most} stitches from the shoulder to where "
                  "the neck begins",
            expected="a stitch at least for every pair",
            remedy="Write a back_depth of at most "
                   f"{decimal((own.mm + PAIR * most * gauge.row) / 10, 1)} cm, or make the neck "
                   "deeper at the front.")]
    if rows < LAST_ROWS + 1:
        return None, [error(
            "band-too-shallow", places.of(f"bands.{band.key}.depth", size), size=size,
            found=f"a depth of {rows} rows at the ends of a collar with short rows",
            expected=f"at least {LAST_ROWS + 1} rows", remedy="Give the band more depth.")]
    first, last = (_steps(front, slope, pairs) for front, slope in sides)
    return ShortRows(first=first, last=last, extra=extra), []


def _side(meetings: Sequence[Meeting]) -> tuple[int, int]:
    """Stitches below the neck, and from there to the back of it, at the edge's first end.

    Where nothing is known to lie behind the neck the middle third does (common practice, no
    source).
    """
    if not any(m.section.zone is Zone.BACK for m in meetings):
        return 0, sum(m.stitches.value for m in meetings) // 3
    front = slope = 0
    for meeting in meetings:
        if meeting.section.zone is Zone.BACK:
            break
        if meeting.section.zone is Zone.FRONT:
            front += meeting.stitches.value
        else:
            slope += meeting.stitches.value
    return front, slope


def _steps(front: int, slope: int, pairs: int) -> tuple[int, ...]:
    first, *more = shoulder_steps(slope, pairs)
    return (front + first, *more)
