"""A flat-knitted piece in whole stitches and rows: its two edges, its opening, how it ends."""

from __future__ import annotations

from ..catalogue.methods import BY_HAND
from ..core.counted import Count, Reckoned
from ..fabric.arrangement import gathering, lay, needles_taken
from ..fabric.chart_on_bed import Align, Placed, begins_at, place_over, place_repeat
from ..machine.needles import NONE, Needle, Needles, between, centred
from ..machine.records import dataclass
from ..machine.steps import Side
from ..pattern.fabrics import Repeat
from ..pattern.stitch_chart import StitchChart
from ..words.terms.waiting_names import lower_edge_of
from .crowns import QUARTERS, Closed, Tighter, Top
from .foot import Foot
from .held_rows import HeldRows
from .mark_roles import MarkRole
from .openings import Ending, Opening
from .own_corners import OwnCorner
from .pocket_slots import PocketSlot
from .profile import How, Profile, outward
from .ribs import Rib
from .step_sizes import CountedSlope
from .striping import Striped

# The fronts by their keys, and the wearer's side on which half a front lies.
FRONTS = {"front": None, "right_front": Side.RIGHT, "left_front": Side.LEFT}


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece from its cast-on upward.

    `left` and `right` are its edges as the knitter sees them, up to the top or to the
    `opening`; what is bound off at the right lies on even rows, at the left on odd ones (the
    carriage starts at the right at 0). A `mirrored` piece is knitted with left and right
    exchanged. `moved` stitches are moved inward with each decrease (fully fashioned). `ends`
    says what happens to the stitches left, and `waits` names the edges put on waste yarn: the
    whole top, or (right half, left half) above an opening; `centre_waits` the neck's centre.
    Where `waits` names several parts of a whole top, each on a separate strip of waste yarn,
    `shares` are their stitches from the left. What `halves` names first waits on two strips, of so
    many stitches from the left: two parts of a band take it. `halves_worn` is what the halves above
    an opening are as worn, in the order of `waits`. The outermost stitches of those `in_seams` lie
    in the seams of the sides. `marks` are rows with a thread in both edges, or without `marks_left`
    in the right one, and at a `neck_mark` in the left one, where a front edge ends at a V neck;
    `mark_roles` say of each of the marks what begins or ends there.
    At each row of `gathers` every second stitch is moved onto its neighbour:
    nothing else shapes the piece from there on. `closes` are the rows at which all stitches are
    taken off and hung again on fewer needles. `tightens` are rows at which the dial is set
    tighter. `repeat` leaves needles out of work, in a straight piece. Every row is knitted from a
    `chart`, row 1 of it above the cast-on or hem, up to a gathering; `align` says where its repeats
    lie, as seen in a piece that is not mirrored. A shaped piece cuts them at its edges.
    `bound_off_to` is how long the bound-off edge must be, where longer than its stitches are wide;
    no seam holds one whose `top_is_free`. `cast_on_method` and `bind_off_method` name how it begins
    and ends (catalogue/methods.py); one that begins on waste yarn leaves its `lower_edge` open; it
    is `drawn_below` where that is drawn up. Where it has `quarters`, each of the four is knitted
    alone above its edges, and this is either edge of each. `pockets` open where stitches are
    knitted by hand with a cord. One that is `hung_on` begins on the loops of that edge; a `striped`
    one has a yarn for each row above the hem. `short_rows` count no row of its edges but two; an
    own outline has its `corners`. `slopes` are those of its edges that come from calculations.
    Where `no_row_over`, decreases on its last row come off as they are, with no row above."""

    key: str
    title: str
    stitches: Count
    left: Profile
    right: Profile
    opening: Opening | None = None
    mirrored: bool = False
    hem: Foot | None = None
    moved: int = 3
    ends: Ending = Ending.BIND_OFF
    waits: tuple[str, ...] = ()
    shares: tuple[int, ...] = ()
    centre_waits: str = ""
    halves: tuple[str, int, int] | None = None
    in_seams: tuple[str, ...] = ()
    halves_worn: tuple[str, str] | None = None
    bound_off_to: Reckoned | None = None
    top_is_free: bool = False
    marks: tuple[int, ...] = ()
    mark_roles: tuple[MarkRole, ...] = ()
    marks_left: bool = True
    neck_mark: int = 0
    levels: tuple[tuple[str, int], ...] = ()  # rows of a shaped side by name, the underarm last
    gathers: tuple[int, ...] = ()
    closes: tuple[Closed, ...] = ()
    tightens: tuple[Tighter, ...] = ()
    repeat: Repeat | None = None
    chart: StitchChart | None = None
    cast_on_method: str = BY_HAND.name
    bind_off_method: str = ""
    align: Align = Align.WHOLE
    pockets: tuple[PocketSlot, ...] = ()
    hung_on: str = ""
    drawn_below: bool = False
    striped: Striped | None = None
    quarters: Profile | None = None
    short_rows: tuple[HeldRows, ...] = ()
    corners: tuple[OwnCorner, ...] | None = None
    slopes: tuple[CountedSlope, ...] = ()
    no_row_over: bool = False

    def __post_init__(self) -> None:
        self._need_straight()
        self._need_room()
        if self.stitches.value < 1:
            raise ValueError(f"{self.title}: {self.stitches} to cast on")
        if self.left.rows != self.right.rows:
            raise ValueError(f"{self.title}: edges of {self.left.rows} and {self.right.rows} rows")
        if self.opening and any(c.row == self.opening.row
                                for c in self.left.changes + self.right.changes):
            raise ValueError(f"{self.title}: shaped at the very row where the neck opens")
        if self.opening and self.opening.row != self.left.rows:
            raise ValueError(f"{self.title}: a neck that opens elsewhere than its edges end")
        if self.top < 1 or (self.opening and self.half < 1):
            raise ValueError(f"{self.title}: nothing is left of it at its top")
        if any(c.how is How.BIND_OFF and c.row % 2 != odd for profile, odd in
               ((self.right, 0), (self.left, 1)) for c in profile.changes):
            raise ValueError(f"{self.title}: bound off where the carriage is not")

    def _need_room(self) -> None:
        """A pocket's stitches all lie in work, inside what is moved with a decrease."""
        for slot in self.pockets:
            if self.chart or self.leaves_out:
                raise ValueError(f"{self.title}: a pocket in a stitch chart or with needles left "
                                 "out of work")
            lower, upper = self.room(slot.row)
            if slot.row >= self.left.rows or not lower <= slot.start <= upper - slot.stitches:
                raise ValueError(f"{self.title}: no room for {slot.name} at row {slot.row}")

    def room(self, row: int) -> tuple[int, int]:
        """Between which stitches of the cast-on a pocket may lie at `row`, from its left end;
        nothing where stitches are held by then."""
        if any(c.how is How.HOLD and c.row <= row for e in (self.left, self.right)
               for c in e.changes):
            return 0, 0
        left, right = (sum(c.outward for c in e.changes if c.row < row)
                       for e in (self.left, self.right))
        level = max((c.stitches for e in (self.left, self.right) for c in e.changes
                     if c.row == row and c.how.is_level), default=0)
        beside = max(self.moved, level) + 1
        return beside - left, self.stitches.value + right - beside

    def _need_straight(self) -> None:
        """Needles left out of work, or a gathered top, leave no place for other shaping."""
        changes = self.left.changes + self.right.changes
        if self.repeat and (changes or self.opening or self.ends is Ending.BIND_OFF):
            raise ValueError(f"{self.title}: shaped or bound off, with needles left out of work")
        if self.chart:
            self._need_whole_chart(self.chart)
        if self.leaves_out and isinstance(self.hem, Rib):
            raise ValueError(f"{self.title}: a rib below needles left out of work")
        if self.closes and (self.leaves_out or self.gathers):
            raise ValueError(f"{self.title}: closed up, with needles left out of work")
        narrows = self.narrowing.narrows
        if self.quarters and (self.top % QUARTERS or changes or narrows or self.opening
                              or self.leaves_out):
            raise ValueError(f"{self.title}: quarters that are not alike")
        if narrows and (self.opening or any(c.row >= narrows[0] for c in changes)):
            raise ValueError(f"{self.title}: shaped above the row where it is gathered")
        if narrows and not 0 < narrows[0] <= narrows[-1] < self.left.rows:
            raise ValueError(f"{self.title}: gathered where it has no rows")
        needles_taken(self.stitches.value, self.repeat)

    def _need_whole_chart(self, chart: StitchChart) -> None:
        if self.repeat:
            raise ValueError(f"{self.title}: a stitch chart and an arrangement of needles")
        if chart.leaves_out and not self.is_straight:
            raise ValueError(f'{self.title}: shaped, with needles out of work in "{chart.title}"')
        if chart.leaves_out and self.ends is Ending.BIND_OFF:
            raise ValueError(f"{self.title}: bound off, with needles left out of work")
        if self.placed is None or self.placed.repeats < 1:
            raise ValueError(f"{self.title}: no whole repeat of its chart")

    def mark_role(self, row: int) -> MarkRole | None:
        """What a thread at `row` marks; None where none is tied in, or nothing says what."""
        return dict(zip(self.marks, self.mark_roles, strict=False)).get(row)

    @property
    def is_straight(self) -> bool:
        """True where all rows are alike from the cast-on to the top: no shaping, nothing marked."""
        return not (self.left.changes or self.right.changes or self.opening
                    or self.narrowing.narrows or self.marks or self.quarters)

    @property
    def placed(self) -> Placed | None:
        """The chart on the piece's needles; None where it is plain.

        On a straight piece with its edge stitches; on a shaped one over all needles that it
        ever takes up, without.
        """
        if self.chart is None:
            return None
        if self.is_straight:
            align = self.align.mirrored if self.mirrored else self.align
            return place_repeat(self.chart, self.stitches.value, align=align,
                                mirror=self.mirrored)
        align = Align.CENTRE if self.align is Align.WHOLE else self.align
        return place_over(self.chart, self.reach, begins_at(self.chart, self.stitches.value, align),
                          mirror=self.mirrored)

    @property
    def reach(self) -> Needles:
        """Every needle that it ever takes up, where none is left out of work."""
        above = self.opening.outer if self.opening else None
        left, right = (max(outward(edge, above)) for edge in (self.left, self.right))
        start = centred(self.stitches.value)
        all_ = between(Needle(start.first.place - left), Needle(start.last.place + right))
        return all_.mirrored() if self.mirrored else all_

    @property
    def leaves_out(self) -> bool:
        """True where needles between its stitches are left out of work."""
        return self.repeat is not None or (self.chart is not None and self.chart.leaves_out)

    @property
    def row_one_ends(self) -> Side:
        """The side of the bed at which its first row ends."""
        return Side.RIGHT if self.mirrored else Side.LEFT

    @property
    def lower_edge(self) -> str:
        """The name of its first row, where that waits."""
        return lower_edge_of(self.title)

    @property
    def top(self) -> int:
        """Stitches left when its edges end: at the top, or where the neck opens [stitches]."""
        return self.stitches.value + self.left.net + self.right.net

    @property
    def narrowing(self) -> Top:
        """What narrows its top without shaping its edges."""
        return Top(self.gathers, self.closes, self.tightens)

    @property
    def crown_row(self) -> int:
        """The row at which its gathered top begins, the tightened rows with it [rows]."""
        return min((*self.narrowing.narrows, *(each.row for each in self.tightens)))

    @property
    def drawn(self) -> int:
        """Stitches left at the top after every gathering, where there is one [stitches]."""
        left, needles = self.top - sum(each.fewer for each in self.closes), self.needles
        left += 2 * QUARTERS * self.quarters.net if self.quarters else 0
        for _ in self.gathers:
            needles, _ = gathering(needles, mirrored=self.mirrored)
            left -= left // 2
        return len(needles) if self.repeat else left

    @property
    def half(self) -> int:
        """Stitches of each half above the opening, before its own shaping [stitches]."""
        assert self.opening is not None
        return (self.top - self.opening.centre) // 2

    @property
    def rows(self) -> int:
        """All rows from 0 to the top, the last row over all held stitches included [rows]."""
        above = self.opening.outer.rows if self.opening else 0
        above += self.quarters.rows if self.quarters else 0
        return self.left.rows + above

    @property
    def widest(self) -> int:
        """The most needles it ever takes up, with those left out of work [needles]."""
        if self.is_straight and (placed := self.placed):
            return len(placed.taken)
        changes = sorted((c.row, c.outward) for p in (self.left, self.right) for c in p.changes
                         if c.how is not How.HOLD)
        most = now = self.stitches.value
        most = max(most, len(self.rib_needles))
        for _, gone in changes:
            now += gone
            most = max(most, now)
        return most + needles_taken(self.stitches.value, self.repeat) - self.stitches.value

    @property
    def rib_needles(self) -> Needles:
        """The needles of a rib that has other stitches than the piece; none otherwise."""
        own = self.hem.stitches if isinstance(self.hem, Rib) else None
        return lay(own.value, None, mirrored=self.mirrored) if own else NONE

    @property
    def needles(self) -> Needles:
        """The needles it is cast on, all that it takes up lying centred on the bed."""
        if self.is_straight and (placed := self.placed):
            return placed.needles
        return lay(self.stitches.value, self.repeat, mirrored=self.mirrored)
