"""Where a piece is opened for a pocket."""

from __future__ import annotations

from collections.abc import Iterable

from ..machine.records import dataclass
from .walked import QUARTERS, Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketSlot:
    """Where a piece is opened for a pocket, when the counter reads `row`.

    `stitches` lie there from the one `start` stitches in from the left end of the cast-on, as
    for a piece that is not mirrored.
    """

    key: str
    row: int
    start: int
    stitches: int

    @property
    def name(self) -> str:
        """What its edges are called on their cord."""
        return self.key.replace("_", " ")

    def __post_init__(self) -> None:
        if self.row < 1 or self.stitches < 1:
            raise ValueError(f"{self.key}: a pocket lies above the cast-on and has stitches")


def slot_spots(pockets: Iterable[PocketSlot], left: int, *, mirrored: bool
               ) -> Iterable[tuple[Spot, Spot]]:
    """Yield the openings of pockets, each from end to end; `left` is the left end of the cast-on
    [quarters of a stitch]."""
    for slot in pockets:
        ends = (left + slot.start * QUARTERS, left + (slot.start + slot.stitches) * QUARTERS)
        start, end = sorted(-x if mirrored else x for x in ends)
        yield (start, slot.row), (end, slot.row)
