"""How an edge of an own piece comes to a corner: a slope, steps, or stitches bound off at once."""

from __future__ import annotations

from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Expression, Rounded, Rule, Term, plain
from ..core.operands import ChoiceReason, Role
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..pattern.outlines import EdgeSide, Going, OutlinePiece
from ..shape.even_gaps import Finish, Remainder
from ..shape.garment import CannotShape, Cut
from ..shape.profile import Change, How, shifted
from ..shape.schedule import spread_events
from ..shape.shoulders import shoulder_sizes
from ..shape.slopes import even_slope
from ..shape.step_sizes import STEP_ROWS, CountedSlope, SteppedSlope

_FROM_MIDDLE: FindingText = (
    "The width of a corner under left or right is measured from the middle of the lower edge: "
    "write 0 cm or more, or draw the piece with its lower edge moved.")
_WIDE: FindingText = "Write a width of 0 cm or more, such as 4 cm."
_HIGH: FindingText = "Write a height of 0 cm or more, such as 4 cm."

ShapedCorner = tuple[tuple[Change, ...], tuple[CountedSlope, ...]]
"""What changes on the way to a corner, and its calculation."""


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


@dataclass(frozen=True, slots=True)
class OutlineCorner:
    """How an edge comes to the corner `number`, from the row `low` to the row `high`; all are below
    `top`. Its schedule has a `name` in counts.json."""

    piece: OutlinePiece
    side: EdgeSide
    number: int
    low: Expression
    high: Expression
    top: int
    name: str

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
        if not go:
            return (), ()
        if not rows or (by is Going.STEPS and go > 0):
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
        return changes, (SteppedSlope(name=self.name, how=How.BIND_OFF, below=below, steps=steps),)

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
        ends = Finish.PLAIN if plain_after else Finish.EVENT
        high = Term(self.high, Role.ROWS)
        over = high - Term(self.low, Role.ROWS) if self.low.value else high
        slope = spread_events(events, over, finish=ends, remainder=Remainder.MIXED)
        return shifted(slope.changes(how), int(self.low.value)), even_slope(
            (self.name, how), self.low, slope)

    def _cannot(self, found: str, remedy: str) -> CannotShape:
        key = "sides" if self.piece.alike else self.side.value
        return CannotShape(f"{self.piece.title.lower()}, corner {self.number + 1} of {key}: "
                           f"{found}", remedy, f"pieces.{self.piece.key}.{key}.{self.number}")
