"""A folded band in one size, in whole stitches and rows: what the program is made from.

Source: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04).
"""

from __future__ import annotations

from dataclasses import field
from fractions import Fraction
from typing import TYPE_CHECKING

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, plain
from ..core.note_arguments import Noted, NotedAmount
from ..core.operands import Note
from ..fabric.arrangement import needles_taken
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..machine.steps import Dial, Side
from ..pattern.band_places import place_in
from ..pattern.fabrics import Repeat
from ..pattern.holes import ButtonholeKind
from ..pattern.model import Band, BandRows
from ..shape.edge_path import EdgePath
from .buttonholes import Placing
from .casing_plan import CasingPlan
from .collar_plan import CollarPlan
from .graded import row_dials
from .hole_sizes import slit_rows
from .layers import fold_rows
from .meeting import Meeting
from .pickup import PickUp

if TYPE_CHECKING:
    from .facings import FacingPlan
    from .mitres import MitrePlan


UNSEWN = 3  # stitches of a facing at each open end, sewn down last; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPart:
    """Which part of a band this is: the `number` from 1, `of` how many, and where it is cut.

    `first` and `last` say what is at either end, "" where that is the band's own; `buttons` are
    those of the whole band, and `shares` the stitches of every part at its free edge, without those
    for the joins.
    """

    number: int
    of: int
    first: str
    last: str
    buttons: int
    shares: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BandPlan:
    """One band in one size.

    `edge_path` is the edge, `meetings` how the band takes it section by section, `pick_up` all of
    them as one. `edge_rows` and `stitches` are the garment's and the band's; `by_edge` the
    stitches before the holes asked for more or fewer. `gauge` is the band's own, or the one
    its rule implies, and `repeat` its needles in and out of work where not all are in.
    `hole` and `placing` are None where there are no buttonholes. A band longer than the bed is
    knitted in `parts`, plans of their own with a stitch for every join; `part` says which it is.
    `left` is the band of a pair at the wearer's left, where its edge has other rows than the right
    one: of as many stitches, taken by its own rows.

    `deep` is the finished depth [mm], of one layer.

    One that `is_lengthwise` is sewn on: its `stitches` are the rows along the edge, its `depth` the
    stitches across it that are seen, and its `gauge` is turned by a quarter.
    """

    band: Band
    size: str
    edge_path: EdgePath
    meetings: tuple[Meeting, ...]
    edge_rows: Count
    by_edge: Count
    stitches: Count
    pick_up: PickUp
    gauge: Gauge
    rows: BandRows
    depth: Count
    deep: Expression
    hole: Count | None
    placing: Placing | None
    collar: CollarPlan
    mitre: MitrePlan | None = None
    casing: CasingPlan = field(default_factory=CasingPlan)
    facing: FacingPlan | None = None
    repeat: Repeat | None = None
    parts: tuple[BandPlan, ...] = ()
    part: BandPart | None = None
    left: BandPlan | None = None

    @property
    def widest(self) -> int:
        """The most needles it ever takes up, with a collar's points or a facing [needles]."""
        if self.is_lengthwise:
            return needles_taken(self.needles, self.repeat)
        behind = self.facing.stitches.value if self.facing else 0
        taken = needles_taken(self.stitches.value, self.repeat)
        taken += max(0, self.mitre.wider) if self.mitre else 0
        return max(behind, taken + 2 * self.collar.points)

    @property
    def is_lengthwise(self) -> bool:
        """True where its rows run along the edge."""
        return KINDS[self.band.kind].lengthwise

    @property
    def needles(self) -> int:
        """The stitches on the bed: along the edge, or across it with one for each seam."""
        if not self.is_lengthwise:
            return self.stitches.value
        return KINDS[self.band.kind].layers * (self.depth.value + 1)

    @property
    def along(self) -> Fraction:
        """What a stitch, or a row, of the finished band measures along its edge [mm]."""
        return self.gauge.stitch * (1 + self.band.stretch)

    @property
    def strips(self) -> tuple[BandPlan, ...]:
        """What is knitted one by one: the parts, or the whole."""
        return self.parts or (self,)

    def at(self, front: Side) -> BandPlan:
        """The plan of a pair's band at the wearer's right or left."""
        return self.left if self.left and front is Side.LEFT else self

    def knits(self, strip: BandPlan) -> bool:
        """True for a plan that is knitted for this band, at either side."""
        return any(strip is one for front in Side for one in self.at(front).strips)

    @property
    def buttons(self) -> int:
        """How many buttons the whole band has."""
        if self.part:
            return self.part.buttons
        return self.placing.buttonhole_count if self.placing else 0

    @property
    def joins(self) -> tuple[int, int]:
        """The stitches for a join at the first end and at the last [stitches]."""
        return (int(bool(self.part.first)), int(bool(self.part.last))) if self.part else (0, 0)

    @property
    def fold_rows(self) -> Count:
        """The rows the fold itself takes [rows]: a picot is made by transfers and takes none."""
        return fold_rows(self.band.fold)

    @property
    def row_dials(self) -> tuple[Dial, ...]:
        """The dial of each row of a layer, from the garment's edge to the fold."""
        return row_dials(self.band.dials or (self.band.dial,), self.depth.value)

    @property
    def closing_loops(self) -> Count:
        """Loops on each hole's upper edge: n stitches inside a fabric offer n + 1 (D04)."""
        n = self.placing.hole if self.placing else 0
        buttonholes = self.band.buttonholes
        if not n or not buttonholes or buttonholes.kind is not ButtonholeKind.ENCLOSED:
            return Count(Noted(plain(0), Note.NO_LOOPS), Unit.LOOPS)
        return Count(Noted(plain(n, "hole_stitches") + plain(1), Note.HOLE_OFFERS,
                           (NotedAmount(n, Unit.STITCHES),)), Unit.LOOPS)

    @property
    def slit(self) -> Count | None:
        """The rows of a slit, None where the band has none."""
        buttonholes = self.band.buttonholes
        if self.casing.slit:
            return self.casing.slit
        if buttonholes is None or buttonholes.kind is not ButtonholeKind.SLIT:
            return None
        return slit_rows(buttonholes.button, self.gauge.row,
                         place_in(self.band, "buttonholes.button"))


def depth_mm(plan: BandPlan) -> Fraction:
    """The finished depth of the folded band [mm]: one layer's rows, or its stitches across."""
    return plan.deep.value


