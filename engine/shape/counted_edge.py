"""The stretches of an edge as the slopes of its piece compute them: how wide, how high, how often.

A stretch that its piece has a calculation of is an expression; any other stays a mere number.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

from ..core.branched import Branched
from ..core.expression import NOTHING, Expression, Operand, Sum, Term, plain
from ..core.operands import Role
from ..core.roots import Along
from ..fabric.gauge import Gauge
from .even_gaps import EvenGaps, EvenSlope
from .profile import EdgeSegment, Profile
from .step_sizes import APART, CountedSlope

if TYPE_CHECKING:
    from .piece import Piece

NECK, ARMHOLE = "neck", "armhole"  # by which the schedules of these edges are called
ONE = plain(1)
FEW_TIMES = 4  # stretches of a slope that are drawn otherwise than its others, at most
_REACH = 2  # rows below a first change at which its slope begins where no other follows: `drawn`


class _Event(NamedTuple):
    """A change of an edge: its stitches, the rows since the one before it, and how many times its
    slope has such rows. The `first` of a slope lies a row higher or lower at one side of the bed;
    of one in steps nothing says what is below it."""

    wide: Expression
    gap: Expression | None
    times: Expression
    first: bool


class NamedSlope(NamedTuple):
    """A slope with the piece and the name by which counts.json has its schedule: "front.neck"."""

    name: str
    of: CountedSlope

    def figure(self, made: Expression, name: str) -> Expression:
        """Return a figure of the schedule as an operand; a plain figure as it is."""
        return made if isinstance(made, Operand) else Term(
            made, Role.OF_SCHEDULE, f"{self.name}.{name}")


def slopes_named(piece: Piece, what: str) -> tuple[NamedSlope, ...]:
    """Return the slopes of a piece along one of its edges: `what` their schedules are called by."""
    return tuple(NamedSlope(f"{piece.key}.{one.name}", one) for one in piece.slopes
                 if one.name.startswith(what))


def counted_segments(segments: Sequence[EdgeSegment], slopes: Iterable[NamedSlope], *,
                     begun: bool = False) -> tuple[EdgeSegment, ...]:
    """Return the stretches of an edge with their calculations, by the `slopes` that shape it, from
    the lowest; as they are, where these shape it otherwise. The first change of one that has
    `begun` lies where the edge does."""
    events = [one for slope in slopes for one in _events(slope)][begun:]
    made: list[EdgeSegment] = []
    rows = 0
    for segment in segments:
        if not segment.stitches:
            made.append(segment)
            rows = segment.rows
            continue
        event, after = events[0] if events else None, events[1:2]
        apart = None if event is None or event.wide.value != abs(segment.stitches) else \
            _apart(event, after, rows + segment.rows)
        if event is None or apart is None:
            return tuple(segments)
        made += _with_rows(made.pop() if rows else None, segment, apart, event, after)
        events, rows = events[1:], 0
    return tuple(made)


def _events(slope: NamedSlope) -> Iterator[_Event]:
    """The changes of a slope in their order; a step of no stitches changes nothing."""
    if isinstance(slope.of, EvenSlope):
        yield from _evenly(slope, slope.of.gaps)
        return
    before = 0
    for n, size in enumerate(slope.of.steps.sizes):
        if size.value:
            apart = APART if before == 1 else plain(before) * APART
            yield _Event(slope.figure(size, f"steps.{n}"), apart if before else None, ONE,
                         first=not before)
            before = 0
        before += 1


def _evenly(slope: NamedSlope, gaps: EvenGaps) -> Iterator[_Event]:
    short, far = ((slope.figure(one, f"{name}_gap"), slope.figure(times, f"{name}_times"))
                  for name, one, times in (
        ("shorter", gaps.shorter, gaps.shorter_times), ("longer", gaps.longer, gaps.longer_times)))
    if gaps.events.value > len(gaps.in_turn):
        yield _Event(ONE, slope.figure(gaps.first, "first_row"), ONE, first=True)
    for n, gap in enumerate(gaps.in_turn, int(gaps.events.value) - len(gaps.in_turn)):
        each, times = short if gap == gaps.shorter.value else far
        yield _Event(ONE, each, times, first=not n)


def _apart(event: _Event, after: Sequence[_Event], rows: int) -> Expression | None:
    """So many rows below a change as they are computed; None where nothing computes them."""
    if event.gap is None:
        return {0: NOTHING, 1: ONE}.get(rows)
    if event.gap.value == rows:
        return event.gap
    if not event.first:
        return None
    below = Term(event.gap, Role.ROWS)
    more = {1: below + ONE, -1: below - ONE}
    return next((one.gap for one in after if one.gap and one.gap.value == rows),
                more.get(int(rows - event.gap.value)))


def _with_rows(plain_rows: EdgeSegment | None, segment: EdgeSegment, apart: Expression,
               event: _Event, after: Sequence[_Event]) -> Iterator[EdgeSegment]:
    """A change with its stitches, and the rows since the one before it: plain ones, its own, or
    those of both, of which its own are as many as lie below the next change."""
    if plain_rows is None:
        yield segment._replace(wide=event.wide, high=apart if segment.rows else None,
                           times=next((one.times for one in (event, *after)
                                       if one.gap is apart), None))
        return
    if not segment.rows:
        yield plain_rows._replace(high=apart)
        yield segment._replace(wide=event.wide)
        return
    own = next((one.gap for one in after if one.gap and one.gap.value == segment.rows),
               plain(_REACH) if segment.rows == _REACH else None)
    if own is None:
        yield from (plain_rows, segment)
        return
    yield plain_rows._replace(high=Term(apart, Role.ROWS) - Term(own, Role.ROWS))
    yield segment._replace(wide=event.wide, high=own)


def sewn_line(edge: Profile, gauge: Gauge) -> Expression:
    """Return the length along a knitted edge [mm], as `Profile.sewn_length` has it."""
    return line_along(edge.segments(), gauge)


def stitches_gone(slopes: Sequence[NamedSlope]) -> Expression:
    """Return the stitches that go at an edge by all its slopes."""
    made = tuple(slope.figure(slope.of.gaps.events, "events") if isinstance(slope.of, EvenSlope)
                 else slope.figure(slope.of.steps.stitches, "stitches") for slope in slopes)
    return NOTHING if not made else made[0] if len(made) == 1 else Sum(made)


def stitches_level(segments: Sequence[EdgeSegment]) -> Expression | None:
    """Return the stitches of level stretches as they are computed; None where some are not."""
    found = [segment.wide for segment in segments]
    made = tuple(one for one in found if one is not None)
    if len(made) < len(found) or not made:
        return None
    return made[0] if len(made) == 1 else Sum(made)


def line_along(segments: Iterable[EdgeSegment], gauge: Gauge,
               rows: Expression | None = None) -> Expression:
    """Return the length of a chain of straight stretches [mm]: stitches and rows by the gauge.

    `rows` are all of them: what the others leave are those of one whose rows nothing else computes.
    """
    kinds: dict[tuple[int, ...], list[EdgeSegment]] = {}
    for segment in segments:
        alone = len(kinds) if segment.times is ONE else 0  # a step has a size to itself
        key = (abs(segment.stitches), segment.rows, id(segment.wide), id(segment.high), alone)
        kinds.setdefault(key, []).append(segment)
    stretches = [(_times(alike), alike[0]) for alike in kinds.values()]
    left = [n for n, (_, segment) in enumerate(stretches) if segment.rows and segment.high is None]
    if rows is not None and len(left) == 1:
        at = left[0]
        if stretches[at][0].value == 1:
            rest = tuple(_taken(times, segment) for n, (times, segment) in enumerate(stretches)
                         if segment.rows and n != at)
            stretches[at] = (ONE, stretches[at][1]._replace(high=_less(rows, rest)))
    stitch, row = Operand(gauge.stitch, Role.STITCH_WIDTH), Operand(gauge.row, Role.ROW_HEIGHT)
    flat = tuple(chain.from_iterable((
        times, _by(segment.wide, abs(segment.stitches), Role.STITCHES, stitch),
        _by(segment.high, segment.rows, Role.ROWS, row)) for times, segment in stretches))
    if not flat:
        return NOTHING
    return Branched(Along(flat)) if any(one.stitches for _, one in stretches) else Along(flat)


def _taken(times: Expression, segment: EdgeSegment) -> Expression:
    """The rows of stretches that are alike."""
    high = Operand(Fraction(segment.rows), Role.ROWS) if segment.high is None else \
        Term(segment.high, Role.ROWS)
    return high if times.value == 1 else times * high


def _less(rows: Expression, rest: tuple[Expression, ...]) -> Expression:
    if not rest:
        return rows
    return Term(rows, Role.ROWS) - (rest[0] if len(rest) == 1 else Sum(rest))


def _times(alike: Sequence[EdgeSegment]) -> Expression:
    """How many stretches are alike: as many as their slope has, but for a few drawn otherwise."""
    many, of = len(alike), alike[0].times
    if many == 1:
        return ONE
    if of is None or abs(of.value - many) > FEW_TIMES:
        return plain(many)
    more = many - int(of.value)
    return of if not more else of + plain(more) if more > 0 else of - plain(-more)


def _by(made: Expression | None, number: int, role: Role, each: Operand) -> Expression:
    if not number:
        return NOTHING
    if made is None or made.value != number:
        return Operand(Fraction(number), role) * each
    return Term(made, role) * each
