"""What a designer asks of pockets, a zip and a cord."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from ..core.units import Length
from ..machine.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketSpec:
    """Pockets let into a garment's fronts, by size; a number is a count of stitches or rows.

    Each is `width` wide, its opening `height` above the garment's lower edge, its lining `depth`
    deep (None: down to the hem) and its outer end `from_side` from the side seam (None: in the
    middle of its front). Of two each front, or each half of a whole one, has one; of one it is
    the left front's, or in the middle of a whole front.
    """

    width: Mapping[str, Length | int]
    height: Mapping[str, Length | int]
    depth: Mapping[str, Length | int] | None = None
    from_side: Mapping[str, Length | int] | None = None
    number: int = 2


class CrownShape(Enum):
    """How the top of a hat is shaped."""

    GATHERED = "gathered"
    WEDGES = "wedges"
    HALVINGS = "halvings"
    SIDES = "side decreases"
    QUARTERS = "quarters"


@dataclass(frozen=True, slots=True, kw_only=True)
class CrownSpec:
    """The crown of a hat as asked.

    Of wedges: how many, the stitches `beside` them all, a decrease in each `every` so many rows,
    down to `remain` stitches a wedge. Of side decreases one at both edges, down to `remain` in all,
    of quarters one at both edges of each; None for what is usual. Of `halvings`: the rows knitted
    after each. Gathered: the dial goes by `step` [thirds of a number] every `step_rows`, up where
    `looser`, and `rows_after` lie above the gathering; None for what the measure `crown` makes of
    either. A hat with a crown at `both_ends` is twice as long, and pushed into itself.
    """

    shape: CrownShape = CrownShape.GATHERED
    wedges: int = 8
    beside: int = 2
    every: int = 2
    remain: int | None = None
    halvings: tuple[int, ...] = (4, 2, 1)
    step: int | None = None
    step_rows: int = 2
    looser: bool = False
    rows_after: int | None = None
    both_ends: bool = False

    @property
    def left(self) -> int:
        """The stitches that are left of a wedge, or of all [stitches]."""
        if self.remain is not None:
            return self.remain
        return {CrownShape.WEDGES: 1, CrownShape.QUARTERS: 3}.get(self.shape, 8)


PLAIN_CROWN = CrownSpec()  # gathered, as the measures of the hat have it


@dataclass(frozen=True, slots=True)
class ZipSpec:
    """A zip along a front band: sold `every` so many whole centimetres, or `cut` to length."""

    every: int = 1
    cut: bool = False


class Openings(Enum):
    """Where a cord comes out of a casing."""

    EYELETS = "eyelets"
    SLITS = "slits"
    ENDS = "ends"


@dataclass(frozen=True, slots=True)
class CordSpec:
    """A cord through a garment's hem: its `width`, and the `ties` that hang out at full width."""

    width: Length
    ties: Length


@dataclass(frozen=True, slots=True)
class BandCord(CordSpec):
    """A cord through a casing, out at two `openings` in the middle of the section `at`.

    Without a name they lie in the middle of the front, or of the band. An edge that is not the
    garment's lies `below_neck` where the source says so, else at head or neck.
    """

    openings: Openings = Openings.EYELETS
    at: str = ""
    below_neck: bool = False
