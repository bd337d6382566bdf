"""The loops on the main bed's needles: layer by layer, and how many rows lie above each."""

from __future__ import annotations

from dataclasses import field

from ..machine.needles import Needles, doubled
from ..machine.records import dataclass


@dataclass(slots=True, kw_only=True)
class OnNeedles:
    """What is on the needles.

    `layers` are the loops on the needles, oldest first; a layer has at most one loop a needle.
    `columns` are needles with a stitch, as masks, by the number of rows, of the `passed` rows in
    all, that were knitted before its column began: while every needle knits, none of them changes.
    """

    passed: int = 0
    columns: dict[int, int] = field(default_factory=dict)
    layers: list[tuple[str, Needles]] = field(default_factory=list)

    @property
    def loaded(self) -> Needles:
        """The needles that hold at least one loop."""
        if len(self.layers) == 1:
            return self.layers[0][1]
        mask = 0
        for _, on in self.layers:
            mask |= on.mask
        return Needles(mask)

    @property
    def doubled(self) -> Needles:
        """The needles that hold more than one loop."""
        return doubled(self.layers)

    @property
    def counted(self) -> tuple[int, int]:
        """The needles that hold at least one loop, and all loops on all needles."""
        if len(self.layers) == 1:
            number = self.layers[0][1].mask.bit_count()
            return number, number
        mask = loops = 0
        for _, on in self.layers:
            mask |= on.mask
            loops += on.mask.bit_count()
        return mask.bit_count(), loops

    def lift(self, needles: Needles) -> list[tuple[str, Needles]]:
        """Take every loop off `needles` and return them, layer by layer, oldest first."""
        lifted = self._lift_loops(needles)
        self._end_columns(needles)
        return lifted

    def _lift_loops(self, needles: Needles) -> list[tuple[str, Needles]]:
        lifted, left = [], []
        for loop, on in self.layers:
            if off := on & needles:
                lifted.append((loop, off))
            if stays := on - needles:
                left.append((loop, stays))
        self.layers = left
        return lifted

    def lay(self, loop: str, needles: Needles) -> None:
        """Put one loop called `loop` on each of `needles`, on top of what they hold.

        What lies below it can no longer be unravelled: a column begins with it.
        """
        self._end_columns(needles)
        self.columns[self.passed] = self.columns.get(self.passed, 0) | needles.mask
        self._lay_loops(loop, needles)

    def _lay_loops(self, loop: str, needles: Needles) -> None:
        for place in range(len(self.layers) - 1, -1, -1):
            name, on = self.layers[place]
            if on & needles:
                break
            if name == loop:  # nothing above it there, so the order on every needle stays
                self.layers[place] = (name, on | needles)
                return
        self.layers.append((loop, needles))

    def _end_columns(self, needles: Needles) -> None:
        """A needle has one column at most: those that began last are looked at first."""
        rest = needles.mask
        for at in reversed(self.columns):
            if ended := self.columns[at] & rest:
                self.columns[at] ^= ended
                rest ^= ended
                if not rest:
                    return

    def knit_loops(self, loop: str, row: Needles, rows: int) -> None:
        """Knit all that hangs on the needles `row` through, `rows` [rows] times, into one `loop`
        each.

        Their columns grow. Needles that were bare begin one, with the loop of the first row.
        """
        if self.loaded != row:  # else all columns grow, and none begins
            self._grow_columns(row, rows)
        self.passed += rows
        if not (len(self.layers) == 1 and self.layers[0] == (loop, row)):
            self._lift_loops(row)
            self._lay_loops(loop, row)

    def _grow_columns(self, row: Needles, rows: int) -> None:
        columns: dict[int, int] = {}
        begun = row.mask
        for at, on in self.columns.items():
            begun &= ~on
            if knitted := on & row.mask:
                columns[at] = columns.get(at, 0) | knitted
            if passed_over := on & ~row.mask:
                columns[at + rows] = columns.get(at + rows, 0) | passed_over
        if begun:
            columns[self.passed + 1] = columns.get(self.passed + 1, 0) | begun
        self.columns = columns

    def at_least_high(self, rows: int) -> Needles:
        """The needles whose columns have so many rows [rows] above the loop they began with."""
        mask = 0
        for at, on in self.columns.items():
            mask |= on if self.passed - at >= rows else 0
        return Needles(mask)
