"""An armhole in whole stitches and rows: as its body's counts give it, and as a designer asks.

Sources: Design Your Own Sweater, "Set in sleeves" (C03); ozlorna, "Armhole shaping by thirds"
(C05).
"""

from __future__ import annotations

from collections.abc import Sequence

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Expression, Rounded, Rule, Sum, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..core.text_kinds import FindingText
from ..fabric.gauge import rows_along
from ..machine.records import dataclass
from ..pattern.conventions import ArmholeCurve, ArmholeSpec
from ..shape.armholes import Armhole, bound_off, foot_made, slope_by_thirds, spread_slope
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
    stitches, foot = int(going.made.value), foot_of(cut, going)
    at_once = foot[0] if len(foot) == 1 else Sum(foot)
    if at_once.value > stitches:
        raise CannotShape(f"bind-offs of {at_once.value} stitches at an armhole where {stitches} "
                          "go",
                          f"Bind off {stitches} at most, narrow across or widen the chest.",
                          at="armhole.bind_off")
    left = going.made - Term(at_once, Role.STITCHES)
    made = Armhole(foot, _slope(cut, left, rows, foot))
    if made.rows > rows.value - LEAST:
        more: FindingText = f"Make {STRAIGHT} more" if STRAIGHT in cut.measures else "Widen across"
        raise CannotShape(f"{stitches} stitches to go at each armhole of {rows}, the last {LEAST} "
                          f"of them straight", f"{more}, narrow the chest or deepen the armhole.")
    return made


def foot_of(cut: Cut, going: ArmholeStitches) -> tuple[Expression, ...]:
    """Return the bind-offs of one side of an armhole."""
    return bound_off(going.made, cut.conventions.armhole, cut.place("armhole.bind_off"))


def straight_rows(cut: Cut) -> Count | None:
    """Return the rows that the designer keeps straight below the shoulder, None where not asked."""
    if STRAIGHT not in cut.measures:
        return None
    return rows_along(cut.length(STRAIGHT), cut.gauge, measure=cut.measure(STRAIGHT))


def _slope(cut: Cut, going: Expression, rows: Count, foot: Sequence[Expression]) -> Schedule:
    """The slope of what is still `going` above the bind-offs of the `foot`, whose rows are the
    armhole's too.

    Where a straight part is asked for, the first of these is one of the slope's (C03: of 26 cm 16
    are shaped, 10 straight).
    """
    straight, head, left = straight_rows(cut), foot_made(foot), int(going.value)
    room: Expression
    if straight is None:
        room = Rounded(rows.term(Role.ROWS) / plain(3), DOWN) - head
    else:
        room = rows.term(Role.ROWS) - straight.term(Role.ROWS)
        room = room - (head - plain(1)) if len(foot) > 1 else room
    by_thirds = cut.conventions.armhole.curve is ArmholeCurve.THIRDS
    if straight is None and not by_thirds:
        room = Chosen((room, Term(going, Role.NUMBER)), Rule.LARGEST, ChoiceReason.ROW_EACH)
    slope = slope_by_thirds(going) if by_thirds else None
    needs = slope.rows if slope else left
    if needs > room.value:
        remedy: FindingText = f"Make {STRAIGHT} less" if straight else \
            f"Give {STRAIGHT} under measures"
        how: FindingText = "on every row and every 2nd row" if slope else "on every row"
        raise CannotShape(f"{left} stitches to go {how} above the bind-off, in "
                          f"{max(0, int(room.value))} of the armhole's {rows.value} rows",
                          f"{remedy}, bind off more at once, or deepen the armhole.",
                          at=f"measures.{STRAIGHT}" if straight else "armhole")
    return slope or spread_slope(going, room)


def armhole_counts(cut: Cut, going: ArmholeStitches, rows: Count) -> list[tuple[str, str, Count]]:
    """Return the counts of an armhole that the designer shapes: its bind-offs, its slope's rows,
    and what stays straight. None where nothing is asked, or nothing goes."""
    straight = straight_rows(cut)
    if not going.made.value or (straight is None and cut.conventions.armhole == ArmholeSpec()):
        return []
    steps = foot_of(cut, going)
    slope = armhole(cut, going, rows).slope
    bound = Count(steps[0] if len(steps) == 1 else Sum(steps), Unit.STITCHES)
    counts = [("armhole_bind_off", bound),
              ("armhole_slope_rows", Count(slope.made, Unit.ROWS) if slope.events else None),
              ("armhole_straight_rows", straight and _straight_noted(straight, slope))]
    return [("back", name, count) for name, count in counts if count]


def _straight_noted(straight: Count, slope: Schedule) -> Count:
    """The straight rows, of which one lies below the `slope`, where there is one."""
    return Count(Noted(straight.made, Note.BETWEEN), straight.unit) if slope.events else straight
