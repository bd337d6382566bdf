"""Ribs at the beginning of a piece: which stitches stand out, which lie back, and how many fit.

A rib is a repeat of stitches that show knit on the outer side and others that lie back: out of
work in a mock rib, latched up in a latched one, on the second bed in one of two beds. Names
count the stitches as they lie side by side, those that stand out first (Knitting Technology,
third edition, 7.3.1): 2x1 is two and one.

    1x1  k p k p k p       2x1  k k p k k p k k       2x2  k k p p k k p p k k

A seam takes a stitch of either edge, and the rib runs on across it: without those two stitches
the rest is whole repeats. So 2x1 and 2x2 end as they begin, and 1x1 is completed by the seam.
Without a seam a rib ends as it begins. A designer can ask for that at seams too, where 1x1 then has
an odd count ("Ribs", zanotowane.pl: odd for 1x1, 4 n + 2 for 2x2), or for any count.
A rib can have more or fewer stitches than its piece: these are spread evenly above it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from fractions import Fraction
from itertools import groupby
from types import MappingProxyType

from ..core.counted import Count
from ..core.counts import NEAREST, Rounding
from ..core.expression import Expression
from ..core.text_kinds import SourceName
from ..machine.needles import Needles, of
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..pattern.model import Fold
from ..pattern.rib_specs import RibEnds, RibMake, RibStitches

RIBS: MappingProxyType[SourceName, tuple[bool, ...]] = MappingProxyType({
    "1x1": (True, False), "2x1": (True, True, False), "2x2": (True, True, False, False),
    "full needle": (True,)})
ONE_BED = MappingProxyType({name: works for name, works in RIBS.items() if not all(works)})


@dataclass(frozen=True, slots=True, kw_only=True)
class Rib:
    """A rib that a piece begins with: `rows` [rows] at `dial`, of the repeat `works`.

    True are the stitches that stand out; where all do, every needle of both beds knits. `row` is
    the height of its rows and `stitch` the width of its stitches [mm] where the rib was swatched
    as `fabric`, else the piece's. `joining` is the dial of the row that joins a folded one.
    `made` is how its rows are counted. Where its count is not that of the piece above it, it has
    `stitches`; before pieces have them, `own_stitches` has them by the pieces' keys.
    """

    make: RibMake
    works: tuple[bool, ...]
    rows: int
    dial: Dial
    row: Fraction | None = None
    stitch: Fraction | None = None
    fabric: str = ""
    joining: Dial | None = None
    made: Expression | None = field(default=None, compare=False)
    ends: RibEnds = RibEnds.RUN_ON
    stitches: Count | None = None
    own_stitches: Mapping[str, RibStitches] = field(default_factory=dict, compare=False)

    @property
    def folded(self) -> bool:
        """True where it has two layers, hung together as a hem is."""
        return self.make is RibMake.HUNG

    @property
    def fold(self) -> Fold | None:
        """How it folds, None where it does not."""
        return Fold.LOOSE if self.folded else None

    @property
    def full(self) -> bool:
        """True where every needle of both beds knits."""
        return all(self.works)

    @property
    def rows_to_join(self) -> int:
        """The rows between the rib and row 0: the one that closes a folded one."""
        return 1 if self.folded else 0

    @property
    def height(self) -> int:
        """Rows of the finished rib, as the piece's edge has them."""
        return self.rows + self.rows_to_join

    @property
    def turns_carriage(self) -> bool:
        """True where an odd number of rows is knitted before row 0."""
        return self.make in (RibMake.HUNG, RibMake.TWO_BED)

    def depth(self, row: Fraction) -> Fraction:
        """The finished height [mm], where a row of the piece is `row` high."""
        return self.rows * (self.row or row) + self.rows_to_join * row

    def tried(self, row: Fraction) -> Fraction:
        """The height that a trial measures [mm]: the whole."""
        return self.depth(row)

    def fits(self, *, seamed: bool) -> Rounding | None:
        """Return the counts that it fits between sides that are `seamed` or not; None for any."""
        if self.ends is RibEnds.ANY:
            return None
        return fitting(self.works, seamed=seamed and self.ends is RibEnds.RUN_ON)

    def across(self, piece: int) -> int:
        """Return its stitches, where the piece above it has so many."""
        return piece if self.stitches is None else self.stitches.value

    def width(self, piece: int) -> Fraction | None:
        """How wide it lies unstretched below a piece of so many [stitches], a single layer [mm].

        None where it was not swatched, and where it lies double, held by the row that joins it.
        """
        return None if self.stitch is None or self.folded else self.in_row(piece) * self.stitch

    def place(self, stitch: Fraction) -> Fraction:
        """Return what a stitch more in its count adds to its width, where one is `stitch` wide
        [mm]: two where all needles of both beds knit, of a repeat only those that are in work."""
        if self.make is RibMake.LATCHED:
            return stitch
        if self.make is RibMake.TWO_BED:
            return stitch * (1 + self.full)
        return stitch * Fraction(sum(self.works), len(self.works))

    def knitted(self, piece: int) -> int:
        """Return the stitches knitted at its dial below a piece of so many [stitches]."""
        each = self.in_row(piece)
        if self.make is RibMake.TWO_BED:
            return (self.rows + 2) * each
        return (2 * self.rows + 1 if self.folded else self.rows) * each

    def in_row(self, piece: int) -> int:
        """Return the stitches of a row of it, as its swatch counts them, below a piece of so many:
        those of both beds, none left out."""
        across = self.across(piece)
        if self.make is RibMake.LATCHED:
            return across
        if self.make is RibMake.TWO_BED:
            return 2 * across - 1 if self.full else across
        return sum(faces(across, self.works, self.make))


def fitting(works: tuple[bool, ...], *, seamed: bool) -> Rounding:
    """Return the stitch counts that a rib fits, those with a seam at either end where `seamed`."""
    size = len(works)
    if size < 2:
        return NEAREST
    return Rounding("multiple", size, 2 % size if seamed else works.index(False))


def faces(stitches: int, works: tuple[bool, ...], make: RibMake) -> tuple[bool, ...]:
    """Return for each stitch from the piece's left, whether it stands out.

    It ends as it begins where so many stitches allow it. On one bed both edge stitches stand
    out: a needle out of work there leaves a gap, and an edge column cannot be latched.
    """
    size = len(works)
    kept = make is not RibMake.TWO_BED
    shifts = [tuple((kept and at in (0, stitches - 1)) or works[(at + shift) % size]
                    for at in range(stitches)) for shift in range(size)]
    return min(shifts, key=_lopsided)


def inside_edges(stitches: int, rib: Rib, inside: int) -> tuple[bool, bool]:
    """Return whether the stitch that lies so many `inside` the left and the right edge of a piece
    stands out [stitches]: the first that a band leaves, which is hung so many in."""
    shown = faces(rib.across(stitches), rib.works, rib.make)
    return shown[inside], shown[-1 - inside]


def _lopsided(shown: Sequence[bool]) -> tuple[bool, bool, int]:
    """How little a rib suits: other ends, ends that lie back, ends that are unlike in width."""
    runs = [(key, len(list(run))) for key, run in groupby(shown)]
    return (tuple(shown) != tuple(shown[::-1]), not shown[0],
            abs(runs[0][1] - runs[-1][1]) if runs else 0)


def standing_out(needles: Needles, works: tuple[bool, ...], make: RibMake, *,
                 mirrored: bool = False) -> Needles:
    """Return those of `needles`, all there are, whose stitches stand out in a rib.

    From left to right in every piece, a left front too: each seam joins the right of one piece to
    the left of another, so that whole repeats follow each other round the garment. The bands of
    two fronts are each other's mirror image, and so are ribs that do not run on across seams.
    """
    shown = faces(len(needles), works, make)
    return of(*(needle for needle, on in zip(needles, shown[::-1] if mirrored else shown,
                                             strict=True) if on))
