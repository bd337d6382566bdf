"""How an edge of an own piece comes to a corner: a slope, steps, or stitches bound off at once."""

from __future__ import annotations

from dataclasses import replace

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Expression, Rounded, Rule, Term, plain
from ..core.operands import ChoiceReason, Role
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..pattern.outlines import EdgeSide, Going, OutlinePiece
from ..shape.even_gaps import Remainder
from ..shape.garment import CannotShape, Cut
from ..shape.profile import Change, How, shifted
from ..shape.shoulders import shoulder_sizes
from ..shape.slopes import (
    CannotFollow,
    SlopeRequest,
    Usual,
    even_slope,
    request_at,
    slope_counts,
    slope_schedule,
)
from ..shape.step_sizes import STEP_ROWS, CountedSlope, SteppedSlope

_FROM_MIDDLE: FindingText = (
    "The width of a corner under left or right is measured from the middle of the lower edge: "
    "write 0 cm or more, or draw the piece with its lower edge moved.")
_WIDE: FindingText = "Write a width of 0 cm or more, such as 4 cm."
_HIGH: FindingText = "Write a height of 0 cm or more, such as 4 cm."

CornerCounts = tuple[tuple[str, Count], ...]
ShapedCorner = tuple[tuple[Change, ...], tuple[CountedSlope, ...], CornerCounts]
"""What changes on the way to a corner, its calculation, and its counts where the designer schedules
it, by name."""
NO_CHANGE: ShapedCorner = (), (), ()


def check_corners(cut: Cut, piece: OutlinePiece) -> None:
    """Raise CannotShape for a corner below the lower edge of a piece, or past its middle."""
    for side in (EdgeSide.LEFT,) if piece.alike else (EdgeSide.LEFT, EdgeSide.RIGHT):
        key = "sides" if piece.alike else side.value
        for number, point in enumerate(piece.points(side)):
            at = f"pieces.{piece.key}.{key}.{number}"
            where: FindingText = f"{piece.title.lower()}, corner {number + 1} of {key}"
            if (high := cut.length(point.height)).mm < 0:
                raise CannotShape(f"{where}: {high.in_cm()} high, below the lower edge", _HIGH,
                                  f"{at}.height")
            if (wide := cut.length(point.width)).mm < 0:
                past: FindingText = "" if piece.alike else ", past the middle of the lower edge"
                raise CannotShape(f"{where}: {wide.in_cm()} wide{past}",
                                  _WIDE if piece.alike else _FROM_MIDDLE, f"{at}.width")


def corner_request(cut: Cut, piece: OutlinePiece, side: EdgeSide, number: int
                   ) -> SlopeRequest | None:
    """Return what the designer asks of the edge that leads to a corner; None for nothing."""
    spec = piece.points(side)[number].slope
    if spec is None:
        return None
    key = "sides" if piece.alike else side.value
    request = request_at(cut, spec.of(cut.size), f"pieces.{piece.key}.{key}.{number}.slope")
    edge: FindingText = f"{piece.title.lower()}, corner {number + 1} of {key}"
    return replace(request, edge=edge)


@dataclass(frozen=True, slots=True)
class OutlineCorner:
    """How an edge comes to the corner `number`, from the row `low` to the row `high`; all are below
    `top`. Its schedule has a `name` in counts.json; `request` is what the designer asks of it."""

    piece: OutlinePiece
    side: EdgeSide
    number: int
    low: Expression
    high: Expression
    top: int
    name: str
    request: SlopeRequest | None = None

    def made(self, by: Going, go: int, events: Expression, *, plain_after: bool) -> ShapedCorner:
        """What changes where `go` stitches go, or come where less than 0; `events` computes how
        many they are."""
        low, high = int(self.low.value), int(self.high.value)
        rows = high - low
        if rows < 0:
            raise self._cannot(f"a corner at row {high}, below the one at row {low}",
                               "Write corners from the lowest up, or change their heights.")
        if high > self.top:
            raise self._cannot(f"a corner at row {high}, above the top at row {self.top}",
                               f"Write height: {self.piece.height}, or a lower height.")
        if not go and self.request is None:
            return NO_CHANGE
        if go and self.request and not rows:
            raise CannotFollow(self.request.path, f"rows for a corner that is as high as the one "
                               f"below it ({self.request.edge})", "a corner above the one below "
                               "it", "Leave slope out: a level edge is bound off at once.")
        if go and (not rows or (by is Going.STEPS and go > 0)):
            return self._bound_off(go, events, low, high)
        if by is Going.STEPS:
            raise self._cannot(f"steps by which {-go} stitches come: only what goes is bound off",
                               "Leave the steps out, so that they come one by one.")
        return self._slope(go, events, rows, plain_after=plain_after)

    def _bound_off(self, go: int, events: Expression, low: int, high: int) -> ShapedCorner:
        if go < 0:
            raise self._cannot(f"{Unit.STITCHES.of(-go)} that come at row {low}, all at once",
                               "Give the corner more height than the one below it.")
        start, below = low, self.low
        if low < high and low < STEP_ROWS:
            start, below = STEP_ROWS, plain(STEP_ROWS)  # the first two rows hold the edge
        times = self._times(events, below, flat=low == high)
        many = int(times.value)
        if start < STEP_ROWS or start + STEP_ROWS * many > self.top:
            raise self._cannot(
                f"{Unit.STITCHES.of(go)} bound off from row {start} in a piece of "
                f"{Unit.ROWS.of(self.top)}", "Leave two rows below it, and two above it.")
        if start % STEP_ROWS:
            raise self._cannot(f"{Unit.STITCHES.of(go)} bound off from row {start}, where the "
                               "carriage is at the other edge", "Give an even number of rows.")
        later, steps = self.side is EdgeSide.LEFT, shoulder_sizes(events, times)
        changes = tuple(Change(start + STEP_ROWS * n + later, stitches, How.BIND_OFF)
                        for n, stitches in enumerate(steps.in_turn))
        slope = SteppedSlope(name=self.name, how=How.BIND_OFF, below=below, steps=steps)
        return changes, (slope,), ()

    def _times(self, events: Expression, below: Expression, *, flat: bool) -> Expression:
        """In how many steps stitches go above so many rows: one in two rows, a stitch at least in
        each; at once where the edge is level."""
        if flat:
            return plain(1)
        rows = Term(self.high, Role.ROWS) - Term(below, Role.ROWS)
        room = Chosen((Rounded(rows / plain(STEP_ROWS), DOWN), plain(1)), Rule.LARGEST,
                      ChoiceReason.LEAST_ONE)
        return Chosen((room, Term(events, Role.STITCHES)), Rule.SMALLEST, ChoiceReason.STITCH_EACH)

    def _slope(self, go: int, events: Expression, rows: int, *, plain_after: bool) -> ShapedCorner:
        many = abs(go)
        if rows < many + plain_after:
            remedy: FindingText = \
                "Write by: steps, give it more height, or less width." if go > 0 else \
                "Give it more height, or less width."
            raise self._cannot(f"{Unit.STITCHES.of(many)} to {'go' if go > 0 else 'come'} in "
                               f"{Unit.ROWS.of(rows)}", remedy)
        how = How.DECREASE if go > 0 else How.INCREASE
        usual = Usual(order=Remainder.MIXED, gap_after=plain_after, least_end=int(plain_after))
        request = self.request and (replace(self.request, change=how.value) if go else self.request)
        high = Term(self.high, Role.ROWS)
        over = high - Term(self.low, Role.ROWS) if self.low.value else high
        slope = slope_schedule(request, events, over, usual)
        counts = slope_counts("", f"{self.name}_", request, slope) if go else ()
        return (shifted(slope.changes(how), int(self.low.value)),
                even_slope((self.name, how), self.low, slope),
                tuple((name, count) for _, name, count in counts))

    def _cannot(self, found: str, remedy: str) -> CannotShape:
        key = "sides" if self.piece.alike else self.side.value
        return CannotShape(f"{self.piece.title.lower()}, corner {self.number + 1} of {key}: "
                           f"{found}", remedy, f"pieces.{self.piece.key}.{key}.{self.number}")
