"""An armhole in whole stitches and rows: as its body's counts give it, and as a designer asks.

Sources: Design Your Own Sweater, "Set in sleeves" (C03); ozlorna, "Armhole shaping by thirds"
(C05).
"""

from __future__ import annotations

from dataclasses import dataclass

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Sum, plain
from ..core.operands import Role
from ..fabric.gauge import rows_along
from ..pattern.conventions import ArmholeCurve, ArmholeSpec
from ..shape.armholes import Armhole, bound_off, foot_rows, slope_by_thirds, spread_slope
from ..shape.garment import CannotShape, Cut
from ..shape.schedule import Schedule

STRAIGHT = "armhole_straight"
LEAST = 4  # rows of an armhole that stay straight below the shoulder: common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmholeStitches:
    """The stitches that go at each armhole, from a back's `width` to what is left `across` it."""

    width: Count
    across: Count

    @property
    def made(self) -> Expression:
        """How many they are."""
        return (self.width.term(Role.STITCHES) - self.across.term(Role.STITCHES)) / plain(2)


def armhole(cut: Cut, going: ArmholeStitches, rows: Count) -> Armhole:
    """Return the armhole of a body, `rows` high to the shoulder, at which stitches are `going`.

    Shaped over its lowest third (C05), or up to where it is straight. Raises CannotShape.
    """
    spec, stitches = cut.conventions.armhole, int(going.made.value)
    foot = tuple(int(step.value) for step in bound_off(going.made, spec))
    left = stitches - sum(foot)
    if left < 0:
        raise CannotShape(f"bind-offs of {sum(foot)} stitches at an armhole where {stitches} go",
                          f"Bind off {stitches} at most, narrow across or widen the chest.",
                          at="armhole.bind_off")
    slope = _slope(cut, left, rows.value, foot_rows(foot))
    made = Armhole(foot, slope)
    if made.rows > rows.value - LEAST:
        more = f"Make {STRAIGHT} more" if STRAIGHT in cut.measures else "Widen across"
        raise CannotShape(f"{stitches} stitches to go at each armhole of {rows}, the last {LEAST} "
                          f"of them straight", f"{more}, narrow the chest or deepen the armhole.")
    return made


def straight_rows(cut: Cut) -> Count | None:
    """Return the rows that the designer keeps straight below the shoulder, None where not asked."""
    if STRAIGHT not in cut.measures:
        return None
    return rows_along(cut.length(STRAIGHT), cut.gauge, measure=cut.measure(STRAIGHT))


def _slope(cut: Cut, left: int, rows: int, head: int) -> Schedule:
    """The slope of what is `left` above the bind-offs, which take `head` rows of the armhole's.

    Where a straight part is asked for, the first of these is one of the slope's (C03: of 26 cm 16
    are shaped, 10 straight).
    """
    straight = straight_rows(cut)
    room = rows // 3 - head if straight is None else rows - straight.value - (head - 1)
    by_thirds = cut.conventions.armhole.curve is ArmholeCurve.THIRDS
    if straight is None and not by_thirds:
        room = max(room, left)
    slope = slope_by_thirds(left) if by_thirds else None
    needs = slope.rows if slope else left
    if needs > room:
        way = f"Make {STRAIGHT} less" if straight else f"Give {STRAIGHT} under measures"
        how = "on every row and every 2nd row" if slope else "on every row"
        raise CannotShape(f"{left} stitches to go {how} above the bind-off, in {max(0, room)} of "
                          f"the armhole's {rows} rows",
                          f"{way}, bind off more at once, or deepen the armhole.",
                          at=f"measures.{STRAIGHT}" if straight else "armhole")
    return slope or spread_slope(left, room)


def armhole_counts(cut: Cut, going: ArmholeStitches, rows: Count) -> list[tuple[str, str, Count]]:
    """Return the counts of an armhole that the designer shapes: its bind-offs, its slope's rows,
    and what stays straight. None where nothing is asked, or nothing goes."""
    straight = straight_rows(cut)
    if not going.made.value or (straight is None and cut.conventions.armhole == ArmholeSpec()):
        return []
    steps = bound_off(going.made, cut.conventions.armhole)
    slope = armhole(cut, going, rows).slope
    bound = Count(steps[0] if len(steps) == 1 else Sum(steps), Unit.STITCHES)
    counts = [("armhole_bind_off", bound),
              ("armhole_slope_rows", Count(slope.made, Unit.ROWS) if slope.events else None),
              ("armhole_straight_rows", straight)]
    return [("back", name, count) for name, count in counts if count]
