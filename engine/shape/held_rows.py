"""Short rows of a piece: knitted between its edges, which are held step by step."""

from __future__ import annotations

from ..machine.records import dataclass

LAST_ROWS = 2  # one over the held stitches of either side: the edges have these two alone


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldRows:
    """Short rows that begin when the counter reads `row`, an even row.

    `steps` are the stitches that are held at either side, one step for every pair of rows, from the
    edge inward. All between them has two rows more for every step than the edges have. Where it
    `grows` all steps are held at once, and put back one by one from the middle outward.
    """

    row: int
    steps: tuple[int, ...]
    grows: bool = False

    def __post_init__(self) -> None:
        if self.row % 2 or not self.steps or min(self.steps) < 1:
            raise ValueError(f"short rows from row {self.row} in steps of {self.steps}")

    @property
    def extra(self) -> int:
        """The rows that the middle has more than the edges [rows]."""
        return 2 * len(self.steps)

    @property
    def held(self) -> int:
        """The stitches that are held at either side in the end [stitches]."""
        return sum(self.steps)
