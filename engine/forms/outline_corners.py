"""How an edge of an own piece comes to a corner: a slope, steps, or stitches bound off at once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..core.counts import Unit
from ..core.text_kinds import FindingText
from ..pattern.outlines import EdgeSide, Going, OutlinePiece
from ..shape.even_gaps import Finish, Remainder
from ..shape.garment import CannotShape
from ..shape.profile import Change, How, shifted
from ..shape.schedule import spread_events
from ..shape.shoulders import shoulder_steps

STEP_ROWS = 2  # bound off where the carriage is: every second row at either edge


@dataclass(frozen=True, slots=True)
class OutlineCorner:
    """How an edge comes to the corner `number`, between two of its rows; all are below `top`."""

    piece: OutlinePiece
    side: EdgeSide
    number: int
    low: int
    high: int
    top: int

    def changes(self, by: Going, go: int, *, plain_after: bool) -> Iterable[Change]:
        """What changes where `go` stitches go, or come where less than 0."""
        rows = self.high - self.low
        if rows < 0:
            raise self._cannot(f"a corner at row {self.high}, below the one at row {self.low}",
                               "Write corners from the lowest up, or change their heights.")
        if self.high > self.top:
            raise self._cannot(f"a corner at row {self.high}, above the top at row {self.top}",
                               f"Write height: {self.piece.height}, or a lower height.")
        if not go:
            return ()
        if not rows or (by is Going.STEPS and go > 0):
            return self._bound_off(go, rows)
        if by is Going.STEPS:
            raise self._cannot(f"steps by which {-go} stitches come: only what goes is bound off",
                               "Leave the steps out, so that they come one by one.")
        return self._slope(go, rows, plain_after=plain_after)

    def _bound_off(self, go: int, rows: int) -> Iterable[Change]:
        if go < 0:
            raise self._cannot(f"{Unit.STITCHES.of(-go)} that come at row {self.low}, all at once",
                               "Give the corner more height than the one below it.")
        start = max(self.low, STEP_ROWS if rows else 0)  # the first two rows hold the edge
        times = min(go, max(1, (self.high - start) // STEP_ROWS))
        if start < STEP_ROWS or start + STEP_ROWS * times > self.top:
            raise self._cannot(
                f"{Unit.STITCHES.of(go)} bound off from row {start} in a piece of "
                f"{Unit.ROWS.of(self.top)}", "Leave two rows below it, and two above it.")
        if start % STEP_ROWS:
            raise self._cannot(f"{Unit.STITCHES.of(go)} bound off from row {start}, where the "
                               "carriage is at the other edge", "Give an even number of rows.")
        later = self.side is EdgeSide.LEFT
        return (Change(start + STEP_ROWS * n + later, stitches, How.BIND_OFF)
                for n, stitches in enumerate(shoulder_steps(go, times)))

    def _slope(self, go: int, rows: int, *, plain_after: bool) -> Iterable[Change]:
        events = abs(go)
        if rows < events + plain_after:
            way: FindingText = \
                "Write by: steps, give it more height, or less width." if go > 0 else \
                "Give it more height, or less width."
            raise self._cannot(f"{Unit.STITCHES.of(events)} to {'go' if go > 0 else 'come'} in "
                               f"{Unit.ROWS.of(rows)}", way)
        how = How.DECREASE if go > 0 else How.INCREASE
        ends = Finish.PLAIN if plain_after else Finish.EVENT
        return shifted(spread_events(events, rows, finish=ends,
                                     remainder=Remainder.MIXED).changes(how), self.low)

    def _cannot(self, found: str, remedy: str) -> CannotShape:
        key = "sides" if self.piece.alike else self.side.value
        return CannotShape(f"{self.piece.title.lower()}, corner {self.number + 1} of {key}: "
                           f"{found}", remedy, f"pieces.{self.piece.key}.{key}.{self.number}")
