"""What goes through a band that is a casing, and where it comes out."""

from __future__ import annotations

from ..core.counted import Count
from ..core.expression import Expression
from ..machine.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CasingPlan:
    """The openings of a casing and what goes through it.

    `outlets` are the first of the two stitches of each opening, as expressions, counted from 1 at
    the band's first end; none where its own ends are the openings. Those are `free` along an edge
    that does not go round. `slit` has the rows of each [rows], None for eyelets
    and open ends; `cord` the length to cut [cm], None for elastic.
    """

    outlets: tuple[Expression, ...] = ()
    slit: Count | None = None
    cord: Count | None = None
    free: bool = False

    @property
    def openings(self) -> tuple[int, ...]:
        """The first of the two stitches of each opening, from 1 at the band's first end."""
        return tuple(int(one.value) for one in self.outlets)
