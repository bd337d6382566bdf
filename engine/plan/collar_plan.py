"""What makes a band a collar in one size: its points, the settings of its dial, its short rows."""

from __future__ import annotations

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import plain
from ..machine.records import dataclass
from ..machine.steps import Dial


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortRows:
    """What is held at the collar's `first` and `last` end, step by step inward [stitches].

    `extra` is how many rows the middle has more than the ends [rows], 2 for every pair.
    """

    first: tuple[int, ...]
    last: tuple[int, ...]
    extra: Count

    @property
    def pairs(self) -> int:
        """Short rows there and back."""
        return len(self.first)


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarPlan:
    """A band's collar in one size; for any other band no points, one setting, no short rows.

    `point` are the stitches that come to each end; `grades` the dial by stretches of rows from
    the garment outward; `right_side` says that the garment hangs with its right side towards
    the knitter.
    """

    point: Count
    grades: tuple[tuple[int, Dial], ...]
    short_rows: ShortRows | None
    right_side: bool

    @property
    def points(self) -> int:
        """The stitches of each point [stitches]."""
        return self.point.value

    @property
    def outer(self) -> Dial:
        """The setting at the outer edge."""
        return self.grades[-1][1]

    @property
    def is_straight(self) -> bool:
        """True where every row is as long as the first."""
        return not self.points and self.short_rows is None


def straight(dial: Dial, rows: int) -> CollarPlan:
    """Return the plan of a band that is no collar, of one layer of so many `rows` [rows]."""
    return CollarPlan(point=Count(plain(0), Unit.STITCHES), grades=((rows, dial),),
                      short_rows=None, right_side=False)
