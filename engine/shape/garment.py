"""A whole garment in one size: its pieces, how they are joined, the edges bands can take."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field, replace
from enum import Enum
from fractions import Fraction

from ..catalogue.forms import Construction
from ..core.counted import Count, Reckoned
from ..core.counts import Rounding
from ..core.expression import NOTHING, Expression, Operand, Term
from ..core.join_parts import SewnSide
from ..core.operands import Role
from ..core.problems import Place
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..machine.steps import Dial, Side
from ..pattern.conventions import Conventions
from ..pattern.fabrics import Repeat
from ..pattern.model import HemSpec, Neck
from ..pattern.outlines import NO_OUTLINE, OutlineSpec
from ..pattern.rib_specs import RibSpec
from ..pattern.slope_specs import Slope, SlopeAsk
from ..pattern.specs import PLAIN_CROWN, CrownSpec
from ..pattern.stitch_chart import Alignment, StitchChart
from ..sizing.quantities import Quantity
from ..words.terms.join_names import sewn_sides
from ..words.terms.meeting_working import meeting_working
from .bars import Bars, BoundOff, CapTop, SteppedSeam, Uneven
from .cloth import Cloth
from .edge_path import EdgePath
from .own_corners import OwnCorner
from .piece import Piece
from .tasks import Seam, Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """What a form is cut from, in one size.

    `hem_gauge` is that of the hem's dial where it was swatched; `cuff` and `cuff_gauge` are those
    of sleeves that begin otherwise. `measures` are the lengths by name; `bands` the finished depth
    of the front bands that lie over one another [mm], 0 where fronts meet without one, and `hidden`
    the stitches an enclosing band takes in; `armholes` are the stitches that the bands on both
    armholes take of a back. `repeat` is the fabric's, where needles are left out of work, `chart`
    its stitch chart, laid as `align` says. `rounding` is what the designer asks for, by the count's
    name, such as "back cast_on". `placket` is how far a slit goes down from the front neck, as a
    length or in rows; `bands` is then the depth of its bands. `crown` is that of a hat, `slopes`
    what the designer asks of the rows of single slopes, `conventions` how armholes, caps, necks and
    shoulders are shaped, `outline` the designer's own pieces. `cloths` are those of pieces in other
    fabrics by their keys, and under "" that of all others; none where all are in one. `stated` says
    where a path of the source stands for a size, and `band` is the key of the band that hides
    stitches.
    """

    size: str
    measures: Mapping[str, Quantity]
    gauge: Gauge
    dial: Dial
    neck: Neck
    hem: HemSpec | RibSpec | None = None
    hem_gauge: Gauge | None = None
    cuff: HemSpec | RibSpec | None = None
    cuff_gauge: Gauge | None = None
    bands: Expression = NOTHING
    hidden: int = 2
    armholes: Expression = NOTHING
    moved: int = 3
    repeat: Repeat | None = None
    chart: StitchChart | None = None
    rounding: Mapping[str, Rounding] = field(default_factory=dict)
    placket: Length | int | None = None
    align: Alignment = Alignment.CENTRE
    crown: CrownSpec = PLAIN_CROWN
    slopes: Mapping[Slope, SlopeAsk] = field(default_factory=dict)
    conventions: Conventions = field(default_factory=Conventions)
    outline: OutlineSpec = NO_OUTLINE
    cloths: Mapping[str, Cloth] = field(default_factory=dict)
    stated: Callable[[str, str], Place] | None = field(default=None, compare=False, repr=False)
    band: str = ""

    def place(self, path: str) -> Place | None:
        """Where the source states an entry of the garment, such as "hem.depth", for this size."""
        return self.stated(f"garment.{path}", self.size) if self.stated else None

    @property
    def inside(self) -> Operand:
        """The `hidden` stitches of an edge as an operand."""
        place = self.stated(f"bands.{self.band}.stitches_in", "") if self.stated else None
        return Operand(Fraction(self.hidden), Role.INSIDE, place=place)

    def of(self, piece: str) -> Cut:
        """What the piece with that key is cut from: the same, in its own fabric."""
        if not self.cloths:
            return self
        own = self.cloths.get(piece, self.cloths[""])
        return replace(self, gauge=own.gauge, dial=own.dial, hem_gauge=own.hem_gauge,
                       cuff_gauge=own.cuff_gauge, repeat=own.repeat, chart=own.chart)

    def alike(self, *pieces: str) -> bool:
        """True where the pieces with those keys are all in one fabric."""
        return len({self.cloths[key if key in self.cloths else ""].key for key in pieces
                    if self.cloths}) < 2

    @property
    def overlap(self) -> Term:
        """The depth of the front bands as an operand [mm]."""
        return Term(self.bands, Role.BANDS, "band")

    def length(self, name: str) -> Length:
        """The measure called `name`. Raises KeyError where the form has none.

        Raises CannotShape where the designer made it a plain number.
        """
        measure = self.measures[name]
        if not measure.is_length:
            raise CannotShape(f"a plain number for {name}: {measure.working}",
                              "Write its unit, such as 5 cm.")
        return measure.length

    def measure(self, name: str) -> Operand:
        """The measure called `name` as an operand. Raises as `length` does."""
        return Operand(self.length(name).mm, Role.MEASURE, name, self.measures[name].place)


class Kindred(Enum):
    """In what the two sides of a join must agree."""

    ROWS = "rows"
    STITCHES = "stitches"
    LENGTH = "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Where two edges meet: what each side has, the ease declared, and how far off it may be.

    `sewn` are the expressions of both sides, in rows, stitches or [mm] as `kindred` says; `ease` is
    how much more the second has on purpose, `tolerance` the rest that is allowed, both in the same
    unit; `share` is the ease as a part of the first side, where it is declared so. `method` names
    how stitches on waste yarn are joined, where it was chosen; `sides` are the edges that `sewn`
    measure, where they may differ; `number` tells joins apart that a source declares, each sewn on
    so many `copies` of a piece; `bars` has how many rows of one are sewn to how many stitches of
    the other, `top` where the top of a sleeve cap lies; `bound_off` what else holds the ends of
    bound-off stitches, `stepped` how these climb; `at_top` says that the longer side has its last
    row more, below stitches that are bound off a row later. `title` is for people, `seam` says
    which join it is, and `side` on which of the wearer's sides, None where on both or in the
    middle.
    """

    title: str
    seam: Seam
    kindred: Kindred
    sewn: tuple[Expression, Expression]
    ease: Fraction = Fraction(0)
    share: Fraction = Fraction(0)
    tolerance: Fraction = Fraction(0)
    method: str = ""
    sides: tuple[str, str] = sewn_sides(SewnSide.ONE, SewnSide.OTHER)
    side: Side | None = None
    bars: Bars | None = None
    uneven: Uneven | None = None
    top: CapTop | None = None
    number: int = 0
    copies: int = 1
    bound_off: BoundOff | None = None
    at_top: bool = False
    stepped: SteppedSeam | None = None

    @property
    def one(self) -> Fraction:
        """What the first side has."""
        return self.sewn[0].value

    @property
    def other(self) -> Fraction:
        """What the second side has."""
        return self.sewn[1].value

    @property
    def unit(self) -> str:
        """What both sides are counted in."""
        return "mm" if self.kindred is Kindred.LENGTH else self.kindred.value

    @property
    def off(self) -> Fraction:
        """How much the second side has more than it should."""
        return self.other - self.one - self.ease

    @property
    def closes(self) -> bool:
        """True when the join is within its tolerance."""
        return abs(self.off) <= self.tolerance

    @property
    def working(self) -> str:
        """Both sides and the difference, in words."""
        return meeting_working(self.sewn, self.ease, self.tolerance, self.unit, self.share)


class Extent(Enum):
    """How a piece of an own outline is measured."""

    WIDTH = "width"
    HEIGHT = "height"
    DEPTH = "depth"  # when it is folded

    def of(self, piece: str) -> str:
        """What that length of a piece is called, by the key of the piece."""
        return f"{piece}_{self.value}"


@dataclass(frozen=True, slots=True)
class OwnLength:
    """Which piece a length is of, by its key, which of its lengths, and whether a seam is sewn."""

    piece: str
    extent: Extent
    sewn: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Garment:
    """A garment in one size; of an own outline `own_lengths` says what each finished measure is of.

    `counts` are the whole numbers behind the pieces: (piece key, name, count). `tasks` are
    what is done after knitting; once they are put in order, all of the work. `lengths` are its
    finished measures, computed from what is knitted. `times` says how often a piece is knitted,
    where not once; `sewn_below` are the keys of those whose first row lies in a seam, or is drawn
    up. `workings` are the counts of necks and armholes that no table or file lists: pages show how
    each is worked out.
    """

    form: Construction
    size: str
    pieces: tuple[Piece, ...]
    counts: tuple[tuple[str, str, Count], ...]
    joins: tuple[Join, ...]
    edges: Mapping[str, EdgePath]
    tasks: tuple[Task, ...]
    lengths: Mapping[str, Reckoned]
    times: Mapping[str, int]
    sewn_below: frozenset[str] = frozenset()
    workings: tuple[tuple[str, str, Count], ...] = ()

    @property
    def own_lengths(self) -> Mapping[str, OwnLength]:
        """Of which piece a finished length of an own outline is, by its name."""
        sewn = bool(self.joins)
        return {extent.of(piece.key).replace("_", " "): OwnLength(piece.key, extent, sewn)
                for piece in self.pieces for extent in Extent} if self.as_knitted else {}

    @property
    def as_knitted(self) -> bool:
        """True where its finished lengths are those of single pieces, before a seam is sewn."""
        return self.form is Construction.OUTLINE

    @property
    def own_corners(self) -> Iterator[OwnCorner]:
        """The corners of the designer's own outlines."""
        return (corner for piece in self.pieces for corner in piece.corners or ())

    @property
    def finished(self) -> Mapping[str, Length]:
        """The finished lengths by name."""
        return {name: one.length for name, one in self.lengths.items()}


class CannotShape(ValueError):
    """A form that has no whole numbers for its measures: what was `found`, and a way out.

    `at` is the entry of the garment that stands against it, or the measure that it comes of;
    `expected` what would do, where that is known; `count` the name of the count that is at fault,
    which the source may give outright.
    """

    def __init__(self, found: str, remedy: str, at: str = "measures", expected: str = "",
                 count: str = "") -> None:
        super().__init__(found)
        self.found, self.remedy, self.at, self.expected = found, remedy, at, expected
        self.count = count


class CannotRound(CannotShape):
    """A count that cannot be rounded as the designer asks."""


class CannotKeep(CannotRound):
    """The count called `name`, which cannot stay as the designer gives it, `at` an entry of the
    garment where that is not the count's own."""

    def __init__(self, name: str, found: str, remedy: str, at: str = "") -> None:
        super().__init__(found, remedy, at)
        self.name = name
