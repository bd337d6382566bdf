"""A whole garment in one size: its pieces, how they are joined, the edges bands can take."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from fractions import Fraction

from ..catalogue.forms import Construction
from ..core.counted import Count, Reckoned
from ..core.counts import Rounding, decimal, tenth
from ..core.expression import NOTHING, Expression, Operand, Term
from ..core.operands import Role
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..machine.steps import Dial, Side
from ..pattern.conventions import Conventions
from ..pattern.fabrics import Repeat
from ..pattern.model import Alignment, HemSpec, Neck, RibSpec
from ..pattern.slopes import Slope, SlopeAsk
from ..pattern.specs import PLAIN_CROWN, CrownSpec
from ..pattern.stitch_chart import StitchChart
from ..sizing.quantities import Quantity
from .edging import EdgePath
from .piece import FRONTS, Piece
from .profile import How
from .tasks import Seam, Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """What a form is cut from, in one size.

    `hem_gauge` is that of the hem's dial where it was swatched. `measures` are the lengths by
    name; `bands` the finished depth of the front bands that lie over one another [mm], 0 where
    fronts meet without one, and `hidden` the stitches an enclosing band takes in. `repeat` is the
    fabric's, where needles are left out of work, `chart` its stitch chart, laid as `align` says.
    `rounding` is what the designer asks for, by the count's name, such as "back cast_on".
    `placket` is how far a slit goes down from the front neck; `bands` is then the depth of its
    bands. `crown` is that of a hat, `slopes` what the designer asks of the rows of single slopes,
    `conventions` how armholes, caps, necks and shoulders are shaped.
    """

    size: str
    measures: Mapping[str, Quantity]
    gauge: Gauge
    dial: Dial
    neck: Neck
    hem: HemSpec | RibSpec | None = None
    hem_gauge: Gauge | None = None
    bands: Expression = NOTHING
    hidden: int = 2
    moved: int = 3
    repeat: Repeat | None = None
    chart: StitchChart | None = None
    rounding: Mapping[str, Rounding] = field(default_factory=dict)
    placket: Length | None = None
    align: Alignment = Alignment.CENTRE
    crown: CrownSpec = PLAIN_CROWN
    slopes: Mapping[Slope, SlopeAsk] = field(default_factory=dict)
    conventions: Conventions = field(default_factory=Conventions)

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
class Bars:
    """Rows that are sewn to stitches, how many of each: a row gives a bar, the thread between its
    first two stitches. `row_edge` and `stitch_edge` name the edges that have them."""

    rows: int
    row_edge: str
    stitches: int
    stitch_edge: str

    @property
    def shares(self) -> tuple[tuple[int, int], ...]:
        """How many stitches take how many bars, fewest bars first; where there are fewer rows than
        stitches, how many bars take how many stitches.

        Each takes as many as the rest, or one more: Holli Yeoh, "Mattress graft", 2009, by groups.
        """
        takers, taken = sorted((self.rows, self.stitches))
        each, more = divmod(taken, takers)
        return tuple((n, size) for n, size in ((takers - more, each), (more, each + 1)) if n)


@dataclass(frozen=True, slots=True, kw_only=True)
class CapTop:
    """The flat top of a sleeve cap at the armhole: its stitches and their rows, and how far it
    reaches on either side of the shoulder seam [rows, mm]."""

    bars: Bars
    rows: int
    reach: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Where two edges meet: what each side has, the ease declared, and how far off it may be.

    `one` and `other` are in rows, stitches or [mm] as `kindred` says; `ease` is how much more
    `other` has on purpose, `tolerance` the rest that is allowed, both in the same unit. `method`
    names how stitches on waste yarn are joined, where it was chosen; `sides` are the edges that
    `one` and `other` measure, where they may differ; `bars` has how many rows of one are sewn to
    how many stitches of the other, `top` where the top of a sleeve cap lies. `title` is for
    people, `seam` says which join it is, and `side` on which of the wearer's sides, None where on
    both or in the middle.
    """

    title: str
    seam: Seam
    kindred: Kindred
    one: Fraction
    other: Fraction
    ease: Fraction = Fraction(0)
    tolerance: Fraction = Fraction(0)
    method: str = ""
    sides: tuple[str, str] = ("one side", "the other")
    side: Side | None = None
    bars: Bars | None = None
    top: CapTop | None = None

    @property
    def off(self) -> Fraction:
        """How much `other` has more than it should."""
        return self.other - self.one - self.ease

    @property
    def closes(self) -> bool:
        """True when the join is within its tolerance."""
        return abs(self.off) <= self.tolerance

    @property
    def working(self) -> str:
        """Both sides and the difference, in words."""
        unit = {Kindred.ROWS: "rows", Kindred.STITCHES: "stitches", Kindred.LENGTH: "mm"}
        name = unit[self.kindred]
        one, other, ease = (tenth(figure) for figure in (self.one, self.other, self.ease))
        eased = (f", {decimal(abs(other - one), 1)} {name} {'less' if other < one else 'more'} "
                 f"where {decimal(ease, 1)} {name} are asked for") if self.ease else ""
        return (f"{decimal(one, 1)} and {decimal(other, 1)} {name}{eased}: "
                f"{decimal(abs(other - one - ease), 1)} off, "
                f"{decimal(self.tolerance, 1)} allowed")


UP_FROM = "from the lower edge"
AT_LEFT = "the edge that lay at the left of the bed"


def seam_up(seam: Seam, title: str, one: tuple[Piece, int], other: tuple[Piece, int], *,
            tolerance: int = 0) -> Join:
    """Return a seam sewn row to row from the lower edges, up to a row of each piece.

    Every such seam is counted in one way, as its rows can be counted from the right side: those
    of a rib, or of the outer layer of a hem, with those above.
    """
    first, last = (Fraction(rows + (piece.hem.height if piece.hem else 0))
                   for piece, rows in (one, other))
    later = bound_off_later(*one) and not other[0].mirrored
    return Join(title=f"{title}, {UP_FROM}", seam=seam, kindred=Kindred.ROWS, one=first + later,
                other=last, tolerance=Fraction(max(tolerance, later)),
                side=FRONTS.get(other[0].key),
                sides=(AT_LEFT, "one edge") if later else ("one side", "the other"))


def side_seams(back: tuple[Piece, int], front: tuple[Piece, int], *, tolerance: int = 0
               ) -> tuple[Join, ...]:
    """Return the side seams of a back and a front, up to a row of each; right and left where they
    differ."""
    seam = seam_up(Seam.SIDE, f"side seam, {front[0].title.lower()} and back", back, front,
                   tolerance=tolerance)
    if not (bound_off_later(*back) and opens_below(front[0])):
        return (seam,)
    return right_and_left(seam, replace(seam, one=seam.one - 1, tolerance=Fraction(tolerance)))


def right_and_left(right: Join, left: Join) -> tuple[Join, Join]:
    """Return the joins at the wearer's right and left, of which only the right is a row off."""
    return (replace(right, title=f"right {right.title}", side=Side.RIGHT),
            replace(left, title=f"left {left.title}", side=Side.LEFT,
                    sides=("one side", "the other")))


def opens_below(front: Piece) -> bool:
    """True where a front opens below the underarms: both halves bind off there in the same row.

    The left half meets its neighbours row for row, as a front does that is knitted mirrored.
    """
    whole, half = (any(c.how is How.BIND_OFF for c in edge.changes) for edge in (
        front.right, front.opening.outer if front.opening else front.right))
    return half and not whole


def bound_off_later(piece: Piece, row: int) -> bool:
    """True where the left edge of a piece is bound off a row above its right one, at `row`.

    The carriage is at the other side by then. A left edge as knitted meets a right one in every
    seam, but at a front that is knitted mirrored: there the right edges as drawn meet.
    """
    starts = [next((c.row for c in edge.changes if c.how is How.BIND_OFF), None)
              for edge in (piece.right, piece.left)]
    return starts == [row, row + 1]


def sleeve_seam(sleeve: Piece, rows: int) -> Join:
    """Return the seam of a sleeve, `rows` above its hem or rib."""
    return seam_up(Seam.SLEEVE, "sleeve seam", (sleeve, rows), (sleeve, rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class Garment:
    """A garment in one size.

    `counts` are the whole numbers behind the pieces: (piece key, name, count). `tasks` are
    what is done after knitting; once they are put in order, all of the work. `lengths` are its
    finished measures, computed from what is knitted. `times` says how often a piece is knitted,
    where not once; `sewn_below` are the keys of those whose first row lies in a seam, or is drawn
    up.
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

    @property
    def finished(self) -> Mapping[str, Length]:
        """The finished lengths by name."""
        return {name: one.length for name, one in self.lengths.items()}


class CannotShape(ValueError):
    """A form that has no whole numbers for its measures: what was `found`, and a way out.

    `at` is the entry of the garment that stands against it.
    """

    def __init__(self, found: str, remedy: str, at: str = "measures") -> None:
        super().__init__(found)
        self.found, self.remedy, self.at = found, remedy, at


class CannotRound(CannotShape):
    """A count that cannot be rounded as the designer asks."""


class CannotKeep(CannotRound):
    """The count called `name`, which cannot stay as the designer gives it."""

    def __init__(self, name: str, found: str, remedy: str) -> None:
        super().__init__(found, remedy)
        self.name = name
