"""On which rows a slope is shaped: as the designer asks, else as its form spreads it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from fractions import Fraction
from itertools import accumulate, cycle, islice

from ..core.counted import Count, stated
from ..core.counts import NEAREST, Unit
from ..core.expression import Expression, Operand, Term
from ..core.operands import Role
from ..core.problems import Place
from ..core.text_kinds import FindingText
from ..fabric.gauge import rows_along
from ..machine.records import dataclass
from ..pattern.slope_specs import Order, PlainStretch, Rate, Slope, SlopeAsk
from .even_gaps import AnyNumber, EvenSlope, Finish, Remainder, number
from .garment import CannotShape, Cut
from .profile import How
from .rate_rows import (
    mixed_gaps,
    rate_that_fits,
    rows_of_rate,
    rows_of_rates,
    times_that_fit,
)
from .schedule import Schedule, schedule_of, spread_events

REMAINDERS: Mapping[Order, Remainder] = {
    Order.FAST_FIRST: Remainder.SHORTER_FIRST, Order.SLOW_FIRST: Remainder.LONGER_FIRST,
    Order.MIXED: Remainder.MIXED, Order.ONE_RATE: Remainder.PLAIN_AT_TOP}
PLACES: Mapping[Slope, FindingText] = {
    Slope.SLEEVE: "sleeve", Slope.RAGLAN_BODY: "raglan line of the body",
    Slope.RAGLAN_SLEEVE: "raglan line of the sleeve", Slope.V_NECK: "V neck",
    Slope.SIDE_TO_HIP: "side up to the hip", Slope.SIDE_TO_WAIST: "side up to the waist",
    Slope.SIDE_TO_CHEST: "side up to the chest"}


class CannotFollow(CannotShape):
    """A slope that cannot be shaped as asked: `at` is the entry that stands against it, `expected`
    what its measures make."""

    def __init__(self, at: str, found: str, expected: str, remedy: str) -> None:
        super().__init__(found, remedy, at, expected)


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """How a slope is spread where nothing is asked: in which `order`, with `end` plain rows at its
    end, events `grid` rows apart or a multiple of it where there are rows enough.

    `gap_after` is true where the rows after the last event count as a gap. `least_end` are the
    plain rows that it cannot do without, `least_first` is the earliest row of its first event.
    """

    order: Remainder = Remainder.SHORTER_FIRST
    end: int = 0
    grid: int = 1
    gap_after: bool = False
    least_end: int = 0
    least_first: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeRequest:
    """What is asked of a slope in one size, its plain stretches as counted rows; `first` is where
    the source says on which row it begins, `rates` where it has the designer's own. Each of its
    events is a `change`. It stands at a `path` of the garment, and findings call its `edge` so."""

    ask: SlopeAsk
    start: Count | None = None
    end: Count | None = None
    first: Place | None = field(default=None, compare=False)
    rates: Place | None = field(default=None, compare=False)
    change: FindingText = "shaped row"
    path: str = ""
    edge: FindingText = ""

    @property
    def counts(self) -> tuple[tuple[str, Count], ...]:
        """Its plain stretches that are given as lengths, by name."""
        both = (("plain_rows_first", self.ask.plain_start, self.start),
                ("plain_rows_last", self.ask.plain_end, self.end))
        return tuple((name, count) for name, stretch, count in both
                     if stretch is not None and stretch.length is not None and count is not None)


def slope_request(cut: Cut, slope: Slope) -> SlopeRequest | None:
    """Return what the designer asks of a slope; None where it is shaped as its form has it."""
    ask = cut.slopes.get(slope)
    if ask is None:
        return None
    return replace(request_at(cut, ask, f"slopes.{slope.value}"), change=slope.change,
                   edge=PLACES[slope])


def request_at(cut: Cut, ask: SlopeAsk, path: str) -> SlopeRequest:
    """Return what is asked of a slope whose entries stand at a `path` of the garment."""
    return SlopeRequest(ask=ask, start=_stretch(cut, ask.plain_start, f"{path}.plain_start"),
                        end=_stretch(cut, ask.plain_end, f"{path}.plain_end"), path=path,
                        first=cut.place(f"{path}.first_row"), rates=cut.place(f"{path}.rates"))


def _stretch(cut: Cut, stretch: PlainStretch | None, path: str) -> Count | None:
    """The rows of a plain stretch that the source has at a `path`."""
    if stretch is None:
        return None
    if stretch.length is not None:
        return rows_along(stretch.length, cut.gauge, NEAREST,
                          Operand(stretch.length.mm, Role.STATED, path.rpartition(".")[2],
                                  cut.place(path)))
    return stated(stretch.rows or 0, Unit.ROWS, cut.place(path))


def slope_schedule(request: SlopeRequest | None, of: AnyNumber, over: AnyNumber,
                   usual: Usual) -> Schedule:
    """Return the events `of` a slope `over` its rows, numbers or expressions, as `request` has it.

    Two rates are neighbouring ones, or those of the designer, as published: Sheila, "All-in-one
    baby cardi" (2012, W3-056, W3-057), and "V-neck baby cardigan" (W3-058, W3-071) give one rate
    after another and leave the rest of the rows plain. Raises CannotFollow for what does not fit
    the slope, ValueError where more events than rows are usual.
    """
    if request is None:
        return _spread(of, over, usual, usual.order, None, (0, usual.end),
                       gap_after=usual.gap_after)
    events, rows = (int(number(one).value) for one in (of, over))
    if not events and not any(rate.times for rate in request.ask.rates):
        return Schedule(rows)
    start, end = _ends(request, rows, usual)
    if request.ask.rates:
        at = _by_rates(request, events, rows - start - end, start)
        made = schedule_of((start + row for row in at), rows)
        places = (request.first, request.rates)
        return replace(made, counted=rows_of_rates(request.ask, made, (of, over), places))
    order = usual.order if request.ask.order is None else REMAINDERS[request.ask.order]
    first = request.ask.first_row
    try:
        row = None if first is None else Operand(Fraction(first), Role.SOURCE, "row", request.first)
        return _spread(of, over, usual, order, row, _counted_ends(request, start, end),
                       gap_after=usual.gap_after and request.end is None)
    except ValueError as fault:
        key = next(name for name, value in (
            ("first_row", first), ("plain_end", request.end), ("plain_start", request.start),
            ("order", order)) if value is not None)
        room = rows - start - end - (first or 0)
        raise _refusal(request, key, f"{_many(request, events)} in {max(0, room)} of {rows} rows",
                       f"a row for each {request.change}",
                       "Leave fewer rows plain, or begin earlier.") from fault


def _counted_ends(request: SlopeRequest, start: int, end: int) -> tuple[AnyNumber, AnyNumber]:
    """The plain rows at both ends, as they were counted where the designer has them."""
    first, last = request.start, request.end
    return (first.term(Role.ROWS) if first and start else start,
            last.term(Role.ROWS) if last and last.value == end and end else end)


def _spread(of: AnyNumber, over: AnyNumber, usual: Usual, order: Remainder,
            first: Operand | None, ends: tuple[AnyNumber, AnyNumber], *, gap_after: bool
            ) -> Schedule:
    """The events over the rows between the plain `ends`, on the grid where it has room for them."""
    events, rows, start, end = (int(number(one).value) for one in (of, over, *ends))
    finish = Finish.PLAIN if gap_after else Finish.EVENT
    room = rows - start - end
    parts = events - (first is not None) + gap_after
    begins = int(first.value) if first else 0
    grid = usual.grid if parts <= (room - begins) // usual.grid else 1
    left = number(over)
    for plain_rows in ends:
        if number(plain_rows).value:
            left = left - number(plain_rows)
    made = spread_events(of, left, finish=finish, remainder=order, grid=grid, first=first)
    moved = schedule_of((start + row for row in made.event_rows), rows)
    return replace(moved, gaps=made.gaps and replace(
        made.gaps, before=number(ends[0]), after=number(ends[1])))


def _ends(request: SlopeRequest, rows: int, usual: Usual) -> tuple[int, int]:
    """The plain rows at the start and the end of a slope. Raises CannotFollow for too many."""
    start = request.start.value if request.start else 0
    end = max(request.end.value, usual.least_end) if request.end else (
        usual.least_end if request.ask.rates else usual.end)
    first = request.ask.first_row
    if first is not None and first < usual.least_first:
        raise _refusal(request, "first_row", f"the first {request.change} on row {first}",
                       f"row {usual.least_first} or a later one",
                       f"Write first_row: {usual.least_first}.")
    if start + end + (first or 0) > rows:
        key = "plain_start" if request.start else "plain_end" if request.end else "first_row"
        raise _refusal(request, key, f"{start + end + (first or 0)} rows of a slope of {rows} that "
                       "are to stay plain", f"fewer than {rows}", "Leave fewer rows plain.")
    return start, end


def _by_rates(request: SlopeRequest, events: int, room: int, start: int) -> list[int]:
    """The rows of the events, above the plain ones at the start, by the designer's own rates."""
    ask, first = request.ask, request.ask.first_row
    closed = _closed(request, events - (first is not None), room - (first or 0), events)
    gaps = [gap for rate in closed for gap in islice(cycle(rate.every), rate.times)]
    at = list(accumulate(gaps, initial=first or 0))[first is None:]
    if at and at[-1] > room:
        fits = rate_that_fits(closed, room - (first or 0))
        raise _refusal(request, "rates",
                       f"rates that take {at[-1]} rows for {_many(request, events)}",
                       f"at most {room} rows{f' above {start} plain ones' if start else ''}",
                       fits or "Write fewer rows between them, or fewer times the slow rate.")
    assert len(at) == events, ask
    return at


def _closed(request: SlopeRequest, left: int, room: int, events: int) -> tuple[Rate, ...]:
    """The rates with what the last one leaves open: how many times, or how many rows apart."""
    *before, last = request.ask.rates
    rest = left - sum(rate.times or 0 for rate in before)
    times = rest if last.times is None else last.times
    if times != rest or rest < 0:
        first: FindingText = "" if request.ask.first_row is None else " with the one on first_row"
        shown = events - rest + times if last.times is not None else events - rest
        raise _refusal(request, "rates", f"rates of {shown} {_plural(request, shown)}{first}",
                       f"{_many(request, events)}, as the measures make",
                       times_that_fit(rest, len(request.ask.rates)))
    over = room - sum(map(rows_of_rate, before))
    if last.mixed and times:
        return (*before, Rate(mixed_gaps(last.every, times, over), times))
    if last.every:
        return (*before, Rate(last.every, times))
    if not times:
        return tuple(before)
    if over < times:
        raise _refusal(request, "rates", f"{times} {_plural(request, times)} in the {max(0, over)} "
                       "rows that are left for the last rate", "a row for each",
                       "Write fewer rows or fewer times before it.")
    return (*before, Rate((over // times,), times))


def _refusal(request: SlopeRequest, key: str, found: str, expected: str, remedy: str
             ) -> CannotFollow:
    edge: FindingText = f" ({request.edge})" if request.edge else ""
    return CannotFollow(f"{request.path}.{key}", found + edge, expected, remedy)


def _many(request: SlopeRequest, events: int) -> str:
    return f"{events} {_plural(request, events)}"


def _plural(request: SlopeRequest, events: int) -> str:
    return request.change + "s" * (events != 1)


def even_slope(named: tuple[str, How], below: Expression, schedule: Schedule
               ) -> tuple[EvenSlope, ...]:
    """Return a slope above so many rows as its calculation, where it is spread evenly; else
    nothing. It is `named` with how it is shaped. Plain rows at its start lie below its gaps."""
    if schedule.gaps is None:
        return ()
    if (start := schedule.gaps.before).value:
        below = below + Term(start, Role.ROWS) if below.value else start
    return (EvenSlope(name=named[0], how=named[1], below=below, gaps=schedule.gaps),)


def slope_counts(piece: str, name: str, request: SlopeRequest | None, schedule: Schedule
                 ) -> tuple[tuple[str, str, Count], ...]:
    """Return the counts of a slope that the designer schedules, for the counts of its `piece`.

    All its rows, by its rates, and its plain stretches; `name` stands before theirs.
    """
    if request is None:
        return ()
    rows = Count(schedule.made, Unit.ROWS)
    return ((piece, f"{name}rows_shaped", rows),
            *((piece, f"{name}{own}", count) for own, count in request.counts))
