"""How rows and stitches of two edges are shared out where they are sewn to each other."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counts import Unit
from ..machine.records import dataclass
from ..machine.steps import Side


def shared_out(one: int, other: int) -> tuple[tuple[int, int], ...]:
    """Return how many of the fewer take how many of the more, the least first.

    Each takes as many as the rest, or one more: Holli Yeoh, "Mattress graft", 2009, by groups.
    """
    takers, taken = sorted((one, other))
    each, more = divmod(taken, takers)
    return tuple((n, size) for n, size in ((takers - more, each), (more, each + 1)) if n)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """Rows that are sewn to stitches, how many of each: a row gives a bar, the thread between its
    first two stitches. `row_edge` and `stitch_edge` name the edges that have them; where the join
    is called by both of them, `first` says which it names first."""

    rows: int
    row_edge: str
    stitches: int
    stitch_edge: str
    first: Unit | None = None

    @property
    def shares(self) -> tuple[tuple[int, int], ...]:
        """How many stitches take how many bars, fewest bars first; where there are fewer rows than
        stitches, how many bars take how many stitches."""
        return shared_out(self.rows, self.stitches)


@dataclass(frozen=True, slots=True, kw_only=True)
class Uneven:
    """Rows that are sewn to rows, or stitches to stitches, in two fabrics: how many there are of
    either, as `counted`, and what the edges are called that have them. Where left edges are bound
    off a row `later`, each has one row less than that, and meets a right one."""

    counted: Unit
    counts: tuple[int, int]
    edges: tuple[str, str]
    later: bool = False

    @property
    def by_side(self) -> tuple[tuple[Side, Uneven], ...]:
        """Where left edges are bound off a row later, the rows where the first of the two edges
        lay at the right of the bed, and where it lay at the left."""
        one, other = self.counts
        return ((Side.RIGHT, replace(self, counts=(one, other - 1), later=False)),
                (Side.LEFT, replace(self, counts=(one - 1, other), later=False)))

    @property
    def fewer(self) -> tuple[int, str]:
        """The fewer of them, and the edge that has these; of as many the first."""
        return min(zip(self.counts, self.edges, strict=True), key=lambda each: each[0])

    @property
    def more(self) -> tuple[int, str]:
        """The others, and the edge that has them."""
        at = 1 - self.edges.index(self.fewer[1])
        return self.counts[at], self.edges[at]

    @property
    def shares(self) -> tuple[tuple[int, int], ...]:
        """How many of the fewer take how many of the others, the least first."""
        return shared_out(*self.counts)


@dataclass(frozen=True, slots=True, kw_only=True)
class CapTop:
    """The flat top of a sleeve cap at the armhole: its stitches and their rows, how far it reaches
    on either side of the shoulder seam [rows, mm], and how wide it is by itself [mm]. Where it
    `takes_all`, an armhole has no more ease than lies there."""

    bars: Bars
    rows: int
    reach: Fraction
    width: Fraction
    takes_all: bool = False

    @property
    def eased(self) -> Fraction:
        """How much more its stitches have than the rows that they are sewn to [mm]."""
        return self.width - 2 * self.reach


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundOff:
    """So many bound-off stitches of an edge that is joined, and the parts of the edge below and
    above them, whose own seams take a stitch at either end; "" where none does."""

    stitches: int
    below: str
    above: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SteppedSeam:
    """Two bound-off edges that are sewn to each other: in how many `steps` they were bound off,
    each so many rows (`climb`) above the one before, and how many rows either has `above` its last
    step, up to the piece's upper edge."""

    steps: int
    climb: int
    above: tuple[int, int]
