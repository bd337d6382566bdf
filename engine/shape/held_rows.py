"""Short rows of a piece: knitted between its edges, which are held step by step."""

from __future__ import annotations

from ..machine.headings import Heading
from ..machine.records import dataclass
from ..pattern.short_rows import Turning

LAST_ROWS = 2  # one over the held stitches of either side: the edges have these two alone


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldRows:
    """Short rows that begin when the counter reads `row`.

    `steps` are the stitches that are held at either side, one step for every pair of rows, from the
    edge inward. All between them has two rows more for every step than the edges have. Where the
    rows get LONGER all steps are held at once, and put back one by one from the middle outward.
    Where they get shorter and then longer, BOTH, every step is one stitch, held before the row away
    from it, and put back before the row towards it. Where all steps are of one stitch, one edge has
    one row, and the other three.
    Where they are knitted `over` so many stitches alone, beside the bed's right edge or its left
    one (`at_left`), the others are held meanwhile; both rows of the edges are knitted over all
    afterwards, and the edge beside them has one row more.
    The rows have a `heading`, and so have those `before` them.
    """

    row: int
    steps: tuple[int, ...]
    turning: Turning = Turning.SHORTER
    heading: Heading = Heading.SHORT_ROWS
    before: Heading = Heading.TO_SHORT_ROWS
    over: int = 0
    at_left: bool = False

    def __post_init__(self) -> None:
        if not self.steps or min(self.steps) < 1:
            raise ValueError(f"short rows from row {self.row} in steps of {self.steps}")
        if self.turning is Turning.BOTH and max(self.steps) > 1:
            raise ValueError(f"steps of {self.steps} where one goes every row")
        if self.over and (self.turning is not Turning.BOTH or self.over <= 2 * self.held):
            raise ValueError(f"{2 * self.held} stitches held of {self.over}")

    @property
    def grows(self) -> bool:
        """True where all rows get longer: the lower edge of the piece can hang there."""
        return self.turning is Turning.LONGER

    @property
    def extra(self) -> int:
        """The rows that the middle has more than the edges [rows]."""
        if self.over:
            return 4 * len(self.steps)
        both = self.turning is Turning.BOTH
        return 4 * len(self.steps) - LAST_ROWS if both else 2 * len(self.steps)

    @property
    def held(self) -> int:
        """The stitches that are held at either side in the end [stitches]."""
        return sum(self.steps)
