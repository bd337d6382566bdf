"""The cap of a set-in sleeve, solved so that its sewn edge fits the armhole: a translated lesson,
"Knit sleeve caps" (C02).
"""

from __future__ import annotations

from dataclasses import field, replace
from fractions import Fraction
from functools import cached_property
from math import isqrt

from ..core.counted import Count
from ..core.counts import Unit, decimal, tenth
from ..core.expression import Chosen, Expression, Operand, Rule, plain
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..core.text_kinds import FindingText
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from .cap_notes import above_bind_offs, cap_arguments
from .cap_slopes import cap_slope
from .counted_edge import sewn_line
from .curves import stepped
from .even_gaps import AnyNumber
from .profile import How, Profile, in_order, shifted
from .schedule import Schedule, paired_events, paired_rows
from .step_sizes import STEP_ROWS, CountedSlope, bind_off_rows, in_numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class CapAsk:
    """What a cap must be: `stitches` at the underarm, and an edge to fit an armhole.

    `underarm` computes these stitches, where a count has them. `foot` are the bind-offs of each
    side, the armhole's own first ones (C02); `crown` those before the flat top of `top` stitches.
    `armhole` is the sewn length of both armhole edges,
    front and back [mm], `ease` what the cap is longer [mm, less than 0 for shorter], and
    `tolerance` how far off it may be [mm]. `highest` is how many rows the cap may have, such as
    the armhole's, None for any. `top_give` is what the top may change [stitches];
    it changes by one where both sides would else be unequal. `by` is what the height may change
    by [rows]: 2 ends it with the carriage where it began, 1 comes nearer with the same top.
    """

    stitches: int
    foot: tuple[AnyNumber, ...]
    top: int
    gauge: Gauge
    armhole: Fraction
    ease: Fraction = Fraction(0)
    tolerance: Fraction = Fraction(5)
    crown: tuple[AnyNumber, ...] = ()
    top_give: int = 2
    highest: int | None = None
    by: int = STEP_ROWS
    underarm: Expression | None = None

    def __post_init__(self) -> None:
        if self.top < 1 or self.tolerance < 0 or self.top_give < 0:
            raise ValueError("a cap has a flat top, and a tolerance that is not below nothing")
        if any(step < 1 for step in self.bound):
            raise ValueError(f"bind-offs have stitches; got {self.bound}")

    @property
    def bound(self) -> tuple[int, ...]:
        """The bind-offs of one side, those of the foot first [stitches]."""
        return in_numbers(self.foot) + in_numbers(self.crown)

    @property
    def target(self) -> Fraction:
        """How long the cap's edge is to be [mm]."""
        return self.armhole + self.ease


@dataclass(frozen=True)
class Cap:
    """A sleeve cap: `slope` above the foot, `top` stitches bound off at the end.

    `tried` are those among which it was found, itself the last. Where its rows are asked for
    instead, `given` is the expression that counts them, and where they follow from its decreases,
    `followed`. Once it is found, `slopes` are its bind-offs and decreases as calculations, and
    `counted` is the count of its rows, on which these lead on.

    `near` is the edge whose bind-offs come first, `far` the other, whose come a row later;
    they decrease on the same rows.
    """

    ask: CapAsk
    slope: Schedule
    top: int
    tried: tuple[Cap, ...] = field(default=(), repr=False, compare=False)
    given: Expression | None = None
    followed: Expression | None = None
    slopes: tuple[CountedSlope, ...] = field(default=(), repr=False, compare=False)
    counted: Count | None = field(default=None, repr=False, compare=False)

    @cached_property
    def near(self) -> Profile:
        """The edge bound off on even rows."""
        return self._edge(0)

    @cached_property
    def far(self) -> Profile:
        """The edge bound off on odd rows."""
        return self._edge(1)

    def _edge(self, parity: int) -> Profile:
        foot, crown = in_numbers(self.ask.foot), in_numbers(self.ask.crown)
        up = STEP_ROWS * len(foot)
        changes = in_order(stepped(foot, parity),
                           shifted(self.slope.changes(How.DECREASE), up),
                           stepped(crown, up + self.slope.rows + parity))
        return Profile(self.rows, changes)

    @property
    def rows(self) -> int:
        """The rows from the first bind-off to the flat top."""
        return STEP_ROWS * (len(self.ask.foot) + len(self.ask.crown)) + self.slope.rows

    @cached_property
    def length(self) -> Fraction:
        """The edge as it is sewn: both sides and the flat top [mm]."""
        gauge = self.ask.gauge
        return edge_lengths(self.near, self.far, gauge=gauge) + self.top * gauge.stitch

    @property
    def sewn(self) -> Expression:
        """The same edge as an expression: one side, the other, and the flat top."""
        top, gauge = Operand(Fraction(self.top), Role.STITCHES), self.ask.gauge
        sides = sewn_line(self.near, gauge) + sewn_line(begun(self.far), gauge)
        return sides + top * Operand(gauge.stitch, Role.STITCH_WIDTH)

    @property
    def reach(self) -> Fraction:
        """How far the flat top reaches along the armhole, on either side of the shoulder [mm].

        What the cap is longer lies in the upper third of its edge; what it is shorter, in all of it
        (common practice, no source).
        """
        half, longer = self.top * self.ask.gauge.stitch / 2, self.length - self.ask.armhole
        if longer <= 0:
            return half * self.ask.armhole / self.length
        third = self.length / 6
        return half - min(half, third) / third * longer / 2

    @property
    def off(self) -> Fraction:
        """How much longer the edge is than it was to be [mm]."""
        return self.length - self.ask.target

    @property
    def count(self) -> Count:
        """The rows from the first bind-off to the flat top: those bound off in, and the slope's."""
        if self.counted:
            return self.counted
        ask = self.ask
        figures = cap_arguments(
            above_bind_offs(ask.underarm or plain(ask.stitches), ask.foot), self.slope, self.top,
            self.rows, (self.length, ask.armhole, ask.ease, self._printed_off))
        note = Note.CAP if self.given is None else Note.CAP_GIVEN
        return Count(Noted(self._sought, note, figures), Unit.ROWS)

    @property
    def _tried_rows(self) -> Expression:
        """The rows: those of the bind-offs, and the slope's, as they were tried."""
        rows = Operand(Fraction(self.slope.rows), Role.TRIED)
        return bind_off_rows(self.ask.foot, self.ask.crown) + rows

    @property
    def _sought(self) -> Expression:
        """The rows as they were found: of all caps tried, those of the one that is least off."""
        if made := self.given or self.followed:
            return made
        tried = self.tried or (self,)
        return Chosen((self._tried_rows, *(cap._tried_rows for cap in tried)), Rule.LEAST,
                      ChoiceReason.CAP_FITS,
                      tuple(Operand(abs(cap.off), Role.OFF) for cap in tried))

    @property
    def _printed_off(self) -> Fraction:
        """How far off the edge is by the figures as they are printed [mm]."""
        ask = self.ask
        return tenth(self.length) - tenth(ask.armhole) - tenth(ask.ease)


@dataclass(frozen=True, slots=True)
class NoCap:
    """No cap meets what was asked: `found` says why with the figures, `remedy` a way out."""

    found: FindingText
    remedy: FindingText
    nearest: Cap | None = None


def solve_cap(ask: CapAsk) -> Cap | NoCap:
    """Return the cap whose sewn edge comes nearest to the armhole's and its ease.

    Searched in whole numbers: the height for the top asked for, then the tops that `top_give`
    allows, each with the heights that enclose the length. The least error wins, then the top
    nearest to the one asked for, then the lower cap. The decreases are closer together at both
    ends than in the middle, on even rows where there are rows enough.
    """
    give = max(ask.top_give, _spare(ask, ask.top) % 2)
    tops = [top for top in range(max(1, ask.top - give), ask.top + give + 1)
            if _spare(ask, top) >= 0 and _spare(ask, top) % 2 == 0]
    if not tops:
        return NoCap(f"{ask.stitches} stitches at the underarm less bind-offs of "
                     f"{sum(ask.bound)} at each side leave "
                     f"{_spare(ask, 0)} for a top of {ask.top}",
                     "Widen the sleeve at the underarm, narrow the top or bind off less.")
    caps = [cap for top in tops for cap in _enclosing(ask, top)]
    if not caps:
        return NoCap(f"the bind-offs and a decrease on every row take more than {ask.highest} rows",
                     "Narrow the sleeve at the underarm or deepen the armhole.")
    caps.sort(key=lambda cap: (abs(cap.off), abs(cap.top - ask.top), cap.rows), reverse=True)
    best = replace(caps[-1], tried=tuple(caps))
    return best if abs(best.off) <= ask.tolerance else _refused(best)


def _spare(ask: CapAsk, top: int) -> int:
    """The stitches that are left to decrease above the foot and below the crown, both sides."""
    return ask.stitches - 2 * sum(ask.bound) - top


def _enclosing(ask: CapAsk, top: int) -> tuple[Cap, ...]:
    """The highest cap that is too short and the lowest that is not, as far as there are any."""
    events = paired_events(_spare(ask, top))
    lowest, highest = _slope_limits(ask, events)
    if lowest > highest:
        return ()
    above = _cap(ask, top, events,
                 min(highest, max(lowest, _straight_rows(ask, top, events))))
    below = above
    while above.length < ask.target and above.slope.rows < highest:
        below, above = above, _cap(ask, top, events, above.slope.rows + ask.by)
    while below.length >= ask.target and below.slope.rows > lowest:
        above, below = below, _cap(ask, top, events, below.slope.rows - ask.by)
    return below, above


def _slope_limits(ask: CapAsk, events: int) -> tuple[int, int]:
    """The fewest and most rows of the slope, multiples of what it may change by [rows]."""
    steps = STEP_ROWS * len(ask.foot + ask.crown)
    most = ask.target / ask.gauge.row if ask.highest is None else Fraction(ask.highest - steps)
    lowest = _up(events + 1, ask.by)
    top = paired_rows(most) if ask.by == STEP_ROWS else int(most)
    return lowest, max(lowest, top) if ask.highest is None else top


def _straight_rows(ask: CapAsk, top: int, events: int) -> int:
    """About how many rows the slope has: as if it were one straight line. A start, no more."""
    gauge, steps = ask.gauge, ask.bound
    level = sum(steps) * gauge.stitch + STEP_ROWS * len(steps) * gauge.row
    line = max(Fraction(0), (ask.target - top * gauge.stitch) / 2 - level)
    upright = max(Fraction(0), line ** 2 - (events * gauge.stitch) ** 2) / gauge.row ** 2
    return _up(isqrt(int(upright)), ask.by)


def _up(rows: int, by: int) -> int:
    return -(-rows // by) * by


def _cap(ask: CapAsk, top: int, events: int, rows: int) -> Cap:
    return Cap(ask, cap_slope(events, rows), top)


def _refused(best: Cap) -> NoCap:
    found: FindingText = (
             f"the nearest cap has an edge of {_mm(best.length)}; the armhole of "
             f"{_mm(best.ask.armhole)} with {_mm(best.ask.ease)} ease asks for "
             f"{_mm(best.ask.target)}, within {_mm(best.ask.tolerance)}")
    flattest = best.slope.rows <= _up(best.slope.events + 1, best.ask.by)
    if flattest and best.off > 0:
        return NoCap(f"{found}; it already decreases on every row",
                     "Narrow the sleeve at the underarm or deepen the armhole.", best)
    highest = best.ask.highest
    if best.off < 0 and highest is not None and best.rows + best.ask.by > highest:
        return NoCap(f"{found}; it is as high as it may be, {best.rows} rows",
                     "Widen the sleeve at the underarm or its top, or ease the sleeve less.", best)
    return NoCap(found, "Allow more tolerance, or let the top give more stitches.", best)


def _mm(length: Fraction) -> str:
    return f"{decimal(length, 1)} mm"


def edge_lengths(*edges: Profile, gauge: Gauge) -> Fraction:
    """Return the sewn length of several edges together, such as front and back armhole [mm]."""
    return sum((begun(edge).sewn_length(gauge) for edge in edges), Fraction(0))


def begun(edge: Profile) -> Profile:
    """Return an edge of a cap or an armhole from its first bind-off up.

    The row below one that is bound off a row later lies in the seam of the sleeve or the side.
    """
    first = next(iter(edge.changes), None)
    if first is None or first.row != 1 or first.how is not How.BIND_OFF:
        return edge
    return Profile(edge.rows - 1, shifted(edge.changes, -1))
