"""The loops on the main bed's needles: layer by layer, and how many rows lie above each."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..machine.needles import NONE, Needles


@dataclass(slots=True, kw_only=True)
class OnNeedles:
    """What is on the needles.

    `layers` are the loops on the needles, oldest first; a layer has at most one loop a needle.
    `columns` are needles with a stitch by the number of rows, of the `passed` rows in all, that
    were knitted before its column began.
    """

    passed: int = 0
    columns: dict[int, Needles] = field(default_factory=dict)
    layers: list[tuple[str, Needles]] = field(default_factory=list)

    @property
    def loaded(self) -> Needles:
        """The needles that hold at least one loop."""
        mask = 0
        for _, on in self.layers:
            mask |= on.mask
        return Needles(mask)

    @property
    def doubled(self) -> Needles:
        """The needles that hold more than one loop."""
        seen = twice = 0
        for _, on in self.layers:
            twice |= seen & on.mask
            seen |= on.mask
        return Needles(twice)

    @property
    def loops(self) -> int:
        """All loops on all needles."""
        return sum(len(on) for _, on in self.layers)

    def lift(self, needles: Needles) -> list[tuple[str, Needles]]:
        """Take every loop off `needles` and return them, layer by layer, oldest first."""
        lifted = [(loop, on & needles) for loop, on in self.layers if on & needles]
        self.layers = [(loop, on - needles) for loop, on in self.layers if on - needles]
        self.columns = {at: on - needles for at, on in self.columns.items() if on - needles}
        return lifted

    def lay(self, loop: str, needles: Needles) -> None:
        """Put one loop called `loop` on each of `needles`, on top of what they hold.

        What lies below it can no longer be unravelled: a column begins with it.
        """
        self._begin_columns(needles, self.passed)
        for place in range(len(self.layers) - 1, -1, -1):
            name, on = self.layers[place]
            if on & needles:
                break
            if name == loop:  # nothing above it there, so the order on every needle stays
                self.layers[place] = (name, on | needles)
                return
        self.layers.append((loop, needles))

    def _begin_columns(self, needles: Needles, at: int) -> None:
        self.columns = {start: on - needles for start, on in self.columns.items() if on - needles}
        self.columns[at] = self.columns.get(at, NONE) | needles

    def grow_columns(self, before: dict[int, Needles], row: Needles, rows: int) -> None:
        """Lengthen the columns that were there `before` by `rows` [rows] over the needles `row`.

        Needles of the row that were bare begin one, with the loop that they took in its first.
        """
        self.columns = {}
        begun = row
        for at, on in before.items():
            begun -= on
            for start, part in ((at, on & row), (at + rows, on - row)):
                if part:
                    self.columns[start] = self.columns.get(start, NONE) | part
        if begun:
            self.columns[self.passed + 1] = self.columns.get(self.passed + 1, NONE) | begun
        self.passed += rows

    def at_least_high(self, rows: int) -> Needles:
        """The needles whose columns have so many rows [rows] above the loop they began with."""
        mask = 0
        for at, on in self.columns.items():
            mask |= on.mask if self.passed - at >= rows else 0
        return Needles(mask)
