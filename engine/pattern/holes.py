"""What a designer asks of the buttonholes of a band."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from fractions import Fraction

from ..core.units import Length
from ..machine.records import dataclass
from ..machine.steps import Side


class ButtonholeKind(Enum):
    """The kinds of buttonhole a band can have."""

    ENCLOSED = "enclosed"
    ONE_STITCH = "one stitch"
    TWO_STITCHES = "two stitches"
    BOUND_OFF = "bound off"
    EYELET = "eyelet"
    SLIT = "slit"
    LOOPS = "loops"


class Lean(Enum):
    """To which end of a band its hung loops are taken, as they sit half a stitch to one side."""

    NECK = "neck"
    HEM = "hem"


class OddGap(Enum):
    """Where the gaps go that must differ by a stitch from the others."""

    SPREAD = "spread"
    LOWEST = "lowest"
    HIGHEST = "highest"
    CENTRE = "centre"


class Gaps(Enum):
    """What becomes of stitches, or rows, that do not divide among the gaps between holes."""

    NEAREST = "nearest"
    EVEN = "even"
    ONE = "one takes the rest"


@dataclass(frozen=True, slots=True)
class Distance:
    """A distance along a band, as a length or as whole stitches, as the designer gave it.

    Of a band whose rows run along its edge they are `rows`, counted as `stitches`.
    """

    length: Length | None = None
    stitches: int | None = None
    rows: bool = False

    def __post_init__(self) -> None:
        if (self.length is None) == (self.stitches is None):
            raise ValueError("a distance is a length or stitches, one of the two")


@dataclass(frozen=True, slots=True, kw_only=True)
class HemHoles:
    """Separate holes in a hem or rib `depth` deep, their middles `ends` from its borders."""

    buttonhole_count: int
    depth: Mapping[str, Length]
    ends: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleRows:
    """Holes by the row counter: the first after `first` rows, then one `every` so many rows."""

    first: Mapping[str, int]
    every: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Buttonholes:
    """What the designer asks of the holes of a band.

    `button` is the button's diameter. `stitches` a hole has are left to the rule when None.
    One of `buttonhole_count`, `every`, how far apart their starts lie, or `at`, where their
    middles lie from the lower end (less than 0: from the upper one). One hole lies `through` a
    chosen measure, the others about it; some lie `in_hem`, and `buttonhole_count` or `every`
    is then that of the others; with a `centre_hole` their number is odd. Along a band knitted
    lengthwise they can be made by `rows` of the counter. `gaps` says what becomes of a remainder.
    `lower` and `upper` are the distances from the band's ends, `ends_by_default` where the designer
    gives none and the upper one may grow until no hole lies on a join; `end_give` how far a remedy
    may move each of them [stitches], `band_give` how many stitches it may add or take [stitches, at
    most 2], within `tolerance`, a share of the edge's length.
    """

    button: Length
    stitches: Mapping[str, int] | None
    buttonhole_count: Mapping[str, int] | None
    every: Length | None
    lower: Distance
    upper: Distance
    front: Side
    ends_by_default: bool = False
    at: Mapping[str, tuple[Length, ...]] | None = None
    through: Mapping[str, str] | None = None
    in_hem: HemHoles | None = None
    centre_hole: bool = False
    rows: HoleRows | None = None
    gaps: Gaps = Gaps.NEAREST
    kind: ButtonholeKind = ButtonholeKind.ENCLOSED
    odd_gap: OddGap = OddGap.SPREAD
    lean: Lean = Lean.NECK
    end_give: int = 2
    band_give: int = 2
    tolerance: Fraction = Fraction(1, 50)
