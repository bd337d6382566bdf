"""Where a band lies on the bed: its needles, its holes, the sections of its edge, its ends."""

from __future__ import annotations

from ..fabric.arrangement import lay
from ..machine.needles import Needle, Needles, between, of
from ..machine.records import dataclass
from ..machine.steps import Side
from ..pattern.edges import Offer
from ..pattern.fabrics import Repeat
from ..pattern.holes import Lean
from ..plan.band import BandPlan
from ..plan.meeting import Meeting
from ..shape.corners import feet


@dataclass(frozen=True, slots=True)
class Layout:
    """Where a band lies on the bed: its needles, and on which side the garment's hem is.

    The garment lies back over the bed, right side up, its edge towards the knitter: so a right
    front's hem lies at the left of the bed, and a left front's at the right (common practice,
    no source).
    """

    needles: Needles
    hem: Side

    def at(self, stitch: int) -> Needle:
        """The needle of a stitch counted from 1 at the hem's end."""
        if self.leaves_out:
            along = list(self.needles)
            return along[stitch - 1] if self.hem is Side.LEFT else along[-stitch]
        if self.hem is Side.LEFT:
            return Needle(self.needles.first.place + stitch - 1)
        return Needle(self.needles.last.place - stitch + 1)

    def span(self, first: int, last: int) -> Needles:
        """The needles of the stitches from `first` to `last`, counted from the hem's end."""
        a, b = sorted((self.at(first), self.at(last)))
        every = between(a, b)
        return every & self.needles if self.leaves_out else every

    @property
    def leaves_out(self) -> bool:
        """True where needles between its stitches are left out of work."""
        return not self.needles.is_unbroken


def lay_out(stitches: int, front: Side, repeat: Repeat | None = None) -> Layout:
    """Return the layout of a band of `stitches` for the wearer's right or left front.

    A `repeat` of needles in and out of work begins at the hem's end.
    """
    hem = front.other
    return Layout(lay(stitches, repeat, mirrored=hem is Side.RIGHT), hem)


def lay_out_band(plan: BandPlan, front: Side) -> Layout:
    """Return where a band lies, the other way round where the garment hangs right side out, and
    along an edge whose first end is at the right."""
    turned = plan.collar.right_side is not plan.edge_path.mirrored
    return lay_out(plan.needles, front.other if turned else front, plan.repeat)


def hole_spans(plan: BandPlan, layout: Layout) -> tuple[Needles, ...]:
    if plan.placing is None:
        return ()
    return tuple(layout.span(start, start + plan.placing.hole - 1)
                 for start in plan.placing.starts)


def sections(plan: BandPlan, layout: Layout) -> tuple[tuple[str, Meeting, Needles], ...]:
    """The sections of the edge in order from the band's first end: name, meeting, needles.

    A name begins with the section's number, as none of our own names on the bed does.
    """
    out, at = [], 1 + plan.joins[0]
    for number, meeting in enumerate(plan.meetings, 1):
        last = at + meeting.stitches.value - 1
        out.append((f"{number}: {meeting.section.title}", meeting, layout.span(at, last)))
        at = last + 1
    return tuple(out)


@dataclass(frozen=True, slots=True)
class CornerLoop:
    """A loop of a hollow corner: with which section it hangs, beside which row, on what needle.

    It goes with the end of a side of rows beside stitches that wait (bands/facing.md).
    """

    section: int
    row: int
    needle: Needle


def corner_loops(plan: BandPlan, layout: Layout) -> tuple[CornerLoop, ...]:
    """Return the loops of the hollow corners that a band goes round, in their order."""
    hung = sections(plan, layout)
    loops = []
    for before in feet([meeting.section for _, meeting, _ in hung]):
        last = hung[before - 1][1].section.offer is Offer.ROWS
        number = before if last else before + 1
        _, meeting, needles = hung[number - 1]
        at_right = last is (layout.hem is Side.LEFT)
        loops.append(CornerLoop(number, meeting.section.places if last else 1,
                                needles.last if at_right else needles.first))
    return tuple(loops)


def join_needles(plan: BandPlan, layout: Layout) -> Needles:
    """The needles of the stitches that a seam will take, at the ends where parts meet."""
    count = plan.stitches.value
    ends = [at for at, join in zip((1, count), plan.joins, strict=True) if join]
    return of(*(layout.at(stitch) for stitch in ends))


def lean_of(plan: BandPlan, layout: Layout) -> Side:
    """The side of the bed to which hung loops go; away from the hem where there are no holes."""
    holes = plan.band.buttonholes
    return layout.hem if holes and holes.lean is Lean.HEM else layout.hem.other


def all_of(spans: tuple[Needles, ...]) -> Needles:
    mask = 0
    for span in spans:
        mask |= span.mask
    return Needles(mask)
