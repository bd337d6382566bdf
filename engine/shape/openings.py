"""Where a piece divides at its neck, and how a piece's top ends."""

from __future__ import annotations

from enum import Enum

from ..machine.records import dataclass
from .profile import How, Profile


class Ending(Enum):
    """What becomes of the stitches that are left at a piece's top."""

    BIND_OFF = "bind off"
    WASTE = "waste yarn"
    DRAWN_UP = "drawn up"  # the yarn's own end through every stitch, and pulled tight


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Where a piece divides at the neck, when the counter reads `row` (an even row).

    `centre` stitches lie between the halves, put on waste yarn or bound off as `centre_ends`
    says. `outer` and `inner` are a half's edges above `row`, as for the half at the right of
    the bed: rows counted from the opening, what is bound off at the neck on odd rows. The half
    at the left is the same, mirrored. Where the neck is `held` its inner edge loses held stitches
    alone: they and the centre stay on the bed, and a row over all of them is knitted last.
    """

    row: int
    centre: int
    centre_ends: Ending
    outer: Profile
    inner: Profile
    held: bool = False

    def __post_init__(self) -> None:
        if self.row % 2 or self.centre < 0 or self.outer.rows != self.inner.rows:
            raise ValueError("an opening lies on an even row, its edges are equally high")
        if self.held and any(c.how is not How.HOLD or c.row >= self.inner.rows
                             for c in self.inner.changes):
            raise ValueError("a held neck is shaped by held stitches alone, below its last row")

    @property
    def rise(self) -> int:
        """The rows from where it divides to where the neck's edge lies: of a held one the row that
        is knitted over all its stitches [rows]."""
        return int(self.held)

    @property
    def line(self) -> Profile:
        """The edge of the neck of the half at the right, from its `rise` up.

        The row over what was held lies above it: each step of a held neck is a row higher than
        where its needles went into hold.
        """
        if not self.held:
            return self.inner
        return Profile(self.inner.rows - self.rise, tuple(
            c._replace(how=How.BIND_OFF) for c in self.inner.changes))

    @property
    def steps(self) -> tuple[int, ...]:
        """The stitches of each held step, from the centre: the last of a step is held on an odd
        row, with the carriage on its side [stitches]."""
        made, step = [], 0
        for change in self.inner.changes:
            step += change.stitches
            if change.row % 2:
                made.append(step)
                step = 0
        return tuple(made)
