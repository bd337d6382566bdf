"""One side edge of a piece from its cast-on upward: what changes on it, when, its length."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import accumulate, groupby
from math import lcm
from typing import NamedTuple

from ..core.expression import Expression
from ..core.roots import added_roots
from ..fabric.gauge import Gauge
from ..machine.members import Members
from ..machine.records import dataclass

FEW = 4  # rows between a step and a change that lie on one slope; common practice, no source

Point = tuple[Fraction, Fraction]  # outward from where the edge begins, up from the cast-on [mm]


class How(Members):
    """How stitches come to an edge or leave it."""

    DECREASE = "decrease"
    INCREASE = "increase"
    BIND_OFF = "bind off"
    CAST_ON = "cast on"
    HOLD = "hold"
    DART_LESS = "decrease at a dart"
    DART_MORE = "increase at a dart"

    @property
    def is_outward(self) -> bool:
        """True where the piece grows wider."""
        return self in _OUTWARD

    @property
    def at_dart(self) -> bool:
        """True where stitches go or come at a dart, inside the edge that moves by them."""
        return self is How.DART_LESS or self is How.DART_MORE

    @property
    def is_level(self) -> bool:
        """True where the edge runs along a row: bound off, cast on or held, stitch by stitch."""
        return self is How.BIND_OFF or self is How.CAST_ON or self is How.HOLD


_OUTWARD = {How.INCREASE, How.CAST_ON, How.DART_MORE}
class Change(NamedTuple):
    """`stitches` leave the edge or come to it when the row counter reads `row`.

    At a dart `inset` stitches lie between the edge and the dart's middle stitch before them.
    """

    row: int
    stitches: int
    how: How
    inset: int = 0

    @property
    def outward(self) -> int:
        """The stitches, less than 0 where the piece grows narrower [stitches]."""
        return self.stitches if self.how in _OUTWARD else -self.stitches


class EdgeSegment(NamedTuple):
    """A straight stretch of an edge: `stitches` outward over `rows` upward.

    `how` is the change that ends it, None for the plain rows after the last one. `wide` and `high`
    compute its stitches and its rows, where a slope of its piece does, which has `times` such.
    """

    stitches: int
    rows: int
    how: How | None
    wide: Expression | None = None
    high: Expression | None = None
    times: Expression | None = None


@dataclass(frozen=True, slots=True)
class Profile:
    """One side edge of `rows` rows, with its changes in the order in which they are made.

    A change is made before the row that follows the counter's reading, so that row 0 is the
    cast-on edge and `rows` the last row knitted.
    """

    rows: int
    changes: tuple[Change, ...] = ()

    def __post_init__(self) -> None:
        if self.rows < 0:
            raise ValueError(f"an edge cannot have {self.rows} rows")
        before = 0
        for row, stitches, how, _ in self.changes:
            if stitches < 1:
                raise ValueError(f"row {row}: {how.value} {stitches} stitches changes nothing")
            if not before <= row <= self.rows:
                raise ValueError(f"row {row} is out of order or above the {self.rows} rows")
            before = row

    @property
    def net(self) -> int:
        """The stitches the edge gains from its cast-on to its top, less than 0 if it loses."""
        return sum(c.outward for c in self.changes)

    @property
    def held(self) -> int:
        """The stitches that are held, not bound off [stitches]."""
        return sum(c.stitches for c in self.changes if c.how is How.HOLD)

    def widths(self) -> tuple[int, ...]:
        """Where the edge is, outward from its beginning, in each row from the first [stitches].

        One more than there are rows: the last is what is left above the last row.
        """
        moves = [0] * (self.rows + 1)
        for change in self.changes:
            moves[change.row] += change.outward
        return tuple(accumulate(moves))

    def segments(self) -> tuple[EdgeSegment, ...]:
        """The straight stretches of the edge.

        Decreases and increases are joined by sloped lines, each from the change before it;
        what is bound off, cast on or held is a level step at its row; plain rows after the
        last change are upright.
        """
        segments, at = [], 0
        for change in _with_darts(self.changes):
            up, at = change.row - at, change.row
            if not change.how.is_level:
                segments.append(EdgeSegment(change.outward, up, change.how))
                continue
            if up:
                segments.append(EdgeSegment(0, up, None))
            segments.append(EdgeSegment(change.outward, 0, change.how))
        if self.rows > at:
            segments.append(EdgeSegment(0, self.rows - at, None))
        return tuple(segments)

    def drawn(self, last: int = 0) -> tuple[EdgeSegment, ...]:
        """The straight stretches of the edge as it is drawn, with `last` rows above its own.

        As `segments`, but a slope above more than `FEW` plain rows begins as far below its first
        change as the next one above lies over it, at most 2 rows below where there is no such one.
        Where stitches are held the edge ends: the piece's top begins there.
        """
        segments: list[EdgeSegment] = []
        at, changes = 0, _with_darts(self.changes)
        for i, change in enumerate(changes):
            if change.how is How.HOLD:
                return (*segments, *_upright(change.row + last - at))
            slope = 0 if change.how.is_level else _reach(changes, i, change.row - at)
            segments += _upright(change.row - slope - at)
            segments.append(EdgeSegment(change.outward, slope, change.how))
            at = change.row
        return (*segments, *_upright(self.rows + last - at))

    def points(self, gauge: Gauge) -> tuple[Point, ...]:
        """The corners of the edge, outward and up from where it begins [mm]."""
        steps = accumulate(self.segments(), lambda at, line: (at[0] + line[0], at[1] + line[1]),
                           initial=(0, 0))
        return tuple((x * gauge.stitch, y * gauge.row) for x, y in steps)

    def sewn_length(self, gauge: Gauge) -> Fraction:
        """The length along the knitted edge [mm], to a thousandth (see `length_along`)."""
        return length_along(self.segments(), gauge)


def _upright(rows: int) -> tuple[EdgeSegment, ...]:
    """Plain rows, where there are any."""
    return (EdgeSegment(0, rows, None),) if rows else ()


def _reach(changes: Sequence[Change], i: int, below: int) -> int:
    """How many of the rows `below` a decrease or increase its slope takes in."""
    if below <= FEW or (i and _one_slope(changes[i - 1].how, changes[i].how)):
        return below
    above = next((c for c in changes[i + 1:] if c.row > changes[i].row), None)
    if above and _one_slope(above.how, changes[i].how):
        return min(below, above.row - changes[i].row)
    return 2


def _with_darts(changes: Sequence[Change]) -> Sequence[Change]:
    """The changes, those of a dart and of its side in one row as one: the edge has one slope."""
    if not any(change.how.at_dart for change in changes):
        return changes
    made: list[Change] = []
    for change in changes:
        if made and made[-1].row == change.row and made[-1].how.at_dart and _one_slope(
                made[-1].how, change.how):
            made[-1] = made[-1]._replace(stitches=made[-1].stitches + change.stitches)
        else:
            made.append(change)
    return made


def _one_slope(one: How, other: How) -> bool:
    """True where both make the piece narrower, or both wider, by a slope: at a dart or beside."""
    return (one.is_outward, one.is_level) == (other.is_outward, other.is_level)


def length_along(segments: Iterable[EdgeSegment], gauge: Gauge) -> Fraction:
    """Return the length of a chain of straight segments [mm], to a thousandth of a millimetre.

    Each slope is the side of a right-angled triangle; only the sum is rounded, a half upward.
    """
    scale = lcm(gauge.stitch.denominator, gauge.row.denominator)
    wide, high = int(gauge.stitch * scale), int(gauge.row * scale)
    return added_roots((times, (stitches * wide) ** 2 + (rows * high) ** 2, scale * scale)
                       for (stitches, rows), times in _alike(segments).items())


def _alike(segments: Iterable[EdgeSegment]) -> Counter[tuple[int, int]]:
    """How often each kind of straight run comes, by its stitches and rows."""
    return Counter((segment.stitches, segment.rows) for segment in segments)


def joined(lower: Profile, upper: Profile) -> Profile:
    """Return the edge that runs up `lower` and then up `upper`."""
    return Profile(lower.rows + upper.rows,
                   lower.changes + shifted(upper.changes, lower.rows))


def outward(edge: Profile, above: Profile | None) -> list[int]:
    """Return how far an edge is outward of its beginning in every row, in those `above` it too
    [stitches]."""
    return [*edge.widths(), *(edge.net + width for width in (above.widths() if above else ()))]


def shifted(changes: Iterable[Change], rows: int) -> tuple[Change, ...]:
    """Return the changes, each made `rows` rows later (earlier where less than 0)."""
    return tuple(Change(c.row + rows, c.stitches, c.how, c.inset) for c in changes)


def in_order(*lists: Iterable[Change]) -> tuple[Change, ...]:
    """Return the changes of several lists as one, by row; equal rows keep the lists' order."""
    return tuple(sorted((c for changes in lists for c in changes), key=lambda c: c.row))


def merged(*profiles: Profile) -> tuple[int, ...]:
    """Return the rows on which anything changes on any of these edges, in order."""
    return tuple(sorted({c.row for p in profiles for c in p.changes}))


def at_row(profile: Profile, row: int) -> tuple[Change, ...]:
    """Return the changes of an edge at one row."""
    return tuple(c for c in profile.changes if c.row == row)


def by_row(profile: Profile) -> dict[int, tuple[Change, ...]]:
    """Return the changes of an edge by their rows, from the lowest."""
    return {row: tuple(changes) for row, changes in groupby(profile.changes, key=lambda c: c.row)}
