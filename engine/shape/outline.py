"""The outline of a knitted piece as a closed polygon, exactly to measure, and its key measures."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..core.units import Length
from ..fabric.gauge import Gauge
from .dart_lines import bust_rows, dart_lines, held_lines, own_extra, own_lines, own_over, tail_line
from .dimension_names import (
    ABOVE_HEM,
    ABOVE_RIB,
    ABOVE_UNDERARM,
    ACROSS,
    ARMHOLE,
    CAST_ON,
    FRONT_EDGE,
    GATHERED,
    HEM,
    MARKS,
    NECK,
    NECK_DEPTH,
    RIB,
    SHOULDER,
    SLIT_DEPTH,
    SLOPE,
    TO_MARK,
    TO_UNDERARM,
    TOP,
    UNDERARM,
    WEDGED,
    WHOLE,
    DimensionName,
)
from .heights import heights, hem_height
from .openings import Ending, Opening
from .piece import Piece
from .pocket_slots import slot_spots
from .polygon import Outline, dimension_between
from .profile import Change, How, Point, Profile, joined
from .ribs import Rib
from .side_levels import level_measures, seam_ends
from .walked import QUARTERS, Spot, leaning, petals, walk

ABOVE = 10 ** 6  # a row above every piece


def outline(piece: Piece, gauge: Gauge) -> Outline:
    """Return the outline of `piece` in a fabric of `gauge`.

    Edges run as `Profile.drawn` says. The steps of a held shoulder are one
    straight slope, which covers as much as equal steps do. Seam stitches are part of the piece.
    """
    shape = _Shape(piece)
    hem, height_of = hem_height(piece, gauge), heights(piece, gauge)

    wide: dict[int, Fraction] = {}
    high: dict[int, Fraction] = {}

    def measured(at: Spot) -> Point:
        """Each place across and up the piece is measured once: most are those of many spots."""
        x, y = at
        if x not in wide:
            wide[x] = Fraction(x * gauge.stitch.numerator, QUARTERS * gauge.stitch.denominator)
        if y not in high:
            high[y] = height_of(y)
        return wide[x], high[y]

    corners = tuple(map(measured, _without_repeats(shape.corners())))
    named = [dimension_between(name, measured(a), measured(b)) for name, a, b in shape.measures()]
    if hem:
        left = measured(shape.bottom[0])[0]
        foot = RIB if isinstance(piece.hem, Rib) else HEM
        named.append(dimension_between(foot, (left, Fraction(0)), (left, hem)))
    lies = piece.hem.width(piece.stitches.value) if isinstance(piece.hem, Rib) else None
    return Outline(key=piece.key, title=piece.title, corners=corners, hem=hem,
                   dimensions=tuple(d for d in named if d.length.mm > 0),
                   slots=tuple((measured(a), measured(b)) for a, b in slot_spots(
                       piece.pockets, -_half(piece), mirrored=piece.mirrored)),
                   darts=tuple(tuple(map(measured, line)) for line in dart_lines(
                       shape.left, shape.right, shape.bottom)),
                   bust=tuple(tuple(map(measured, line)) for line in held_lines(piece, shape._x)),
                   bust_deep=Length(bust_rows(piece) * gauge.row),
                   short=tuple(tuple(map(measured, line)) for line in own_lines(piece, shape._x)),
                   short_deep=own_extra(piece, gauge.row), short_over=own_over(piece, gauge.stitch),
                   tail=tuple(
                       (measured((x, 0))[0], y * gauge.row)
                       for x, y in tail_line(piece, shape.bottom)),
                   rib=Length(lies) if lies else None)


def _half(piece: Piece) -> int:
    """Half the width of the first stitches [quarters of a stitch]."""
    return piece.stitches.value * QUARTERS // 2


def last_row(piece: Piece) -> int:
    """Return how many rows are knitted above the edges' last one [rows].

    One over held stitches, or over decreases made at the very top, unless these come off as they
    are; two where stitches are held at both sides, one for either side.
    """
    if piece.opening is None and piece.left.held and piece.right.held:
        return 2
    tops = (piece.opening.outer, piece.opening.line) if piece.opening else \
        (piece.left, piece.right)
    over = () if piece.no_row_over else (How.DECREASE,)
    return int(any(c.how is How.HOLD or (c.row == edge.rows and c.how in over)
                   for edge in tops for c in edge.changes))


def _lowest(piece: Piece) -> DimensionName:
    """What the width of a piece's first stitches is called, by the fabric they are in."""
    if piece.hem is None:
        return CAST_ON
    return ABOVE_RIB if isinstance(piece.hem, Rib) else ABOVE_HEM


class _Shape:
    """A piece on its grid of stitches and rows, left and right as on the bed."""

    def __init__(self, piece: Piece) -> None:
        half = _half(piece)
        self.lowest, self.marks = _lowest(piece), piece.marks
        self.piece, self.opening = piece, piece.opening
        self.crown = _crown(piece)
        self.closes = tuple(each for each in piece.closes if not each.halves)
        self.left, self.right = (piece.right, piece.left) if piece.mirrored else \
            (piece.left, piece.right)
        self.bottom = ((-half, 0), (half, 0))
        self.last = last_row(piece)
        self.top = piece.rows + self.last
        self.each = piece.half if piece.opening else 0
        self.alike = _alike(piece.left, piece.right)
        self.is_plain = self.alike and self.opening is None  # no neck: a sleeve, a shawl
        self.seam = -1 if piece.mirrored and not self.alike else 1  # side of the seam, or right

    def edge(self, side: int) -> list[Spot]:
        """An outer edge from the cast-on to its top; `side` is -1 at the left, 1 at the right."""
        profile = self.left if side < 0 else self.right
        if self.opening:
            profile = joined(profile, self.opening.outer)
        spots = walk(profile, self.last, self.bottom[side > 0], side)
        return leaning(spots, side, self.closes)

    def neck(self, side: int, opening: Opening) -> list[Spot]:
        """The neck edge of one half, upward from where the piece divides."""
        profile = self.left if side < 0 else self.right
        outer = self.bottom[side > 0][0] + side * profile.net * QUARTERS
        start = (outer - side * self.each * QUARTERS, opening.row + opening.rise)
        return walk(opening.line, self.last, start, -side)

    def corners(self) -> Iterable[Spot]:
        """All corners, from the left end of the cast-on edge round by the right."""
        left, right = self.edge(-1), self.edge(1)
        yield self.bottom[0]
        yield from right
        if self.piece.quarters:
            yield from petals(self.piece.quarters, left[-1], right[-1])
        elif self.opening:
            yield from reversed(self.neck(1, self.opening))
            yield from self.neck(-1, self.opening)
        elif self.left.held and self.right.held:
            yield (left[-1][0] + right[-1][0]) // 2, self.top
        yield from reversed(left[1:])

    def measures(self) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        """Every key measure: its name and both ends."""
        yield self.lowest, *self.bottom
        own = self.piece.corners is not None
        yield from self._top() if own else self._widths()
        yield from level_measures(self.piece, self._x, self.seam, self.top)
        yield from () if own else self._heights()
        x = self.bottom[self.seam < 0][0]
        yield WHOLE, (x, 0), (x, self.top)

    def _side(self) -> tuple[Change, ...]:
        """All changes of the edge with the seam, from the cast-on upward."""
        lower = self.left if self.seam < 0 else self.right
        return joined(lower, self.opening.outer).changes if self.opening else lower.changes

    def _underarm(self) -> int | None:
        """The row at which the body ends and the armhole, cap or raglan begins."""
        if self.crown is not None and not self.marks:
            return None
        if self.marks:
            return None if self.is_plain else self.marks[0]
        for how in (How.BIND_OFF, How.DECREASE):
            for change in self._side():
                if change.how is how and change.row >= seam_ends(self.piece):
                    return change.row
        return None

    def _x(self, row: int, side: int) -> int:
        """Where an outer edge is at `row`, before what is changed there."""
        changes = self._side() if self.alike or side == self.seam else \
            (self.left if side < 0 else self.right).changes
        moved = sum(c.outward for c in changes if c.row < row)
        return self.bottom[side > 0][0] + side * moved * QUARTERS

    def _level(self, name: DimensionName, row: int) -> tuple[DimensionName, Spot, Spot]:
        return name, (self._x(row, -1), row), (self._x(row, 1), row)

    def _top(self) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        if self.left.changes or self.right.changes:
            yield TOP, (self._x(ABOVE, -1), self.top), (self._x(ABOVE, 1), self.top)

    def _widths(self) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        underarm, hold = self._underarm(), self._hold()
        shaped = any(c.row < (underarm or 0) for c in self._side())
        if underarm is not None and shaped:
            yield self._level(UNDERARM, underarm)
        if hold is None and self.is_plain:
            yield from self._top()
        if hold is not None and self.opening and underarm is not None and not self.marks:
            yield self._level(ACROSS, hold)
        yield from self._neck_widths(hold)

    def _neck_widths(self, hold: int | None) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        inner = self._inner()
        if inner is not None:
            if hold is not None:
                outer = self._x(hold, self.seam)
                yield SHOULDER, *_in_order((outer, self.top), (inner, self.top))
            other = -inner if self.opening else self.bottom[self.seam < 0][0]
            yield NECK, *_in_order((inner, self.top), (other, self.top))

    def _inner(self) -> int | None:
        """Where the neck edge ends at the top, on the seam's side; None where there is none."""
        if self.opening:
            return self.neck(self.seam, self.opening)[-1][0]
        return None if self.alike else self._x(ABOVE, -self.seam)

    def _hold(self) -> int | None:
        return next((c.row for c in self._side() if c.how is How.HOLD), None)

    def _heights(self) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        underarm, hold = self._underarm(), self._hold()
        if underarm is not None:
            x = self._x(underarm, self.seam)
            yield TO_UNDERARM, (x, 0), (x, underarm)
            shoulder = self.top if hold is None else hold + self.last
            yield ABOVE_UNDERARM if hold is None else ARMHOLE, (x, underarm), (x, shoulder)
        yield from self._rests()
        if hold is not None and not self.is_plain:
            x = self._x(hold, self.seam)
            yield SLOPE, (x, hold + self.last), (x, self.top)
        if self.opening:
            name = SLIT_DEPTH if self.opening.centre_ends is Ending.BIND_OFF else NECK_DEPTH
            yield name, (0, self.opening.row + self.opening.rise), (0, self.top)
        elif not self.alike:
            yield from self._front()

    def _rests(self) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        """The heights of a piece without armholes: its marks, and what is gathered."""
        x, at = self.bottom[1][0], 0
        if self.is_plain:
            for name, row in zip((TO_MARK, MARKS), self.marks, strict=False):
                yield name, (x, at), (x, row)
                at = row
        if self.crown is not None:
            shaped = self.closes or self._side() or self.piece.quarters
            yield WEDGED if shaped else GATHERED, (x, self.crown), (x, self.top)

    def _front(self) -> Iterable[tuple[DimensionName, Spot, Spot]]:
        edge = self.edge(-self.seam)
        x = self.bottom[self.seam < 0][0]
        begins = max((y for at, y in edge if at == x), default=0)
        yield FRONT_EDGE, (x, 0), (x, begins)
        yield NECK_DEPTH, (x, begins), (x, self.top)


def _crown(piece: Piece) -> int | None:
    """The row at which the crown of a piece that is drawn up begins; None where it has none."""
    if piece.narrowing.narrows:
        return piece.crown_row
    if piece.quarters:
        return piece.left.rows
    drawn = piece.ends is Ending.DRAWN_UP and piece.left.changes
    return piece.left.changes[0].row if drawn else None


def _alike(left: Profile, right: Profile) -> bool:
    """True where both edges have the same changes, but for a row's difference in when."""
    return len(left.changes) == len(right.changes) and all(
        a.stitches == b.stitches and a.how is b.how and abs(a.row - b.row) <= 1
        for a, b in zip(left.changes, right.changes, strict=True))


def _in_order(a: Spot, b: Spot) -> tuple[Spot, Spot]:
    return (a, b) if a <= b else (b, a)


def _without_repeats(spots: Iterable[Spot]) -> tuple[Spot, ...]:
    found: list[Spot] = []
    for spot in spots:
        if not found or found[-1] != spot:
            found.append(spot)
    return tuple(found[:-1] if found[0] == found[-1] else found)
