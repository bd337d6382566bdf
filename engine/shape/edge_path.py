"""A whole edge as a band meets it: its sections in their order, and how it turns."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..core.counted import Count
from ..core.edge_parts import PathName, PathSpan, RingSeam
from ..core.expression import Expression, Operand, plain_of
from ..core.operands import Role
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..pattern.edges import EdgeShape
from ..words.terms import section_names as words
from .counted_edge import NamedSlope, stitches_gone
from .edge_counts import rows_of_edge
from .edging import Section
from .profile import EdgeSegment


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """The point of a V: `before` sections lie before it, then one stitch of its `own` or none.

    `steep` computes how high either side goes for its width, as lengths.
    """

    before: int
    own: bool
    steep: Expression


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgePath:
    """A whole edge, its sections in the order in which a band meets them.

    `what` it is of the garment, or what the source calls it. `span` says where it begins, or from
    which section of the source's to which it goes. `ends` name its two ends where the source does,
    `seam` is the one at which those of a round edge meet. `fronts` sections at either end lie along
    a front of an opening; 0 where the edge is none. `times` says how many of it there are, all
    alike, where not one: each takes a band. A band along it can be mitred at its `corner`. A
    `mirrored` one has its first end at the right when its wrong side is towards the knitter, and
    hangs so.
    """

    key: str
    what: PathName | str
    sections: tuple[Section, ...]
    shape: EdgeShape = EdgeShape.OPEN
    ends: tuple[str, str] = ("", "")
    fronts: int = 0
    times: int = 1
    corner: Corner | None = None
    span: PathSpan | tuple[str, str] | None = None
    seam: RingSeam | None = None
    mirrored: bool = False

    @property
    def name(self) -> str:
        """What it is called, for people."""
        return words.path_name(self.what)

    @property
    def title(self) -> str:
        """Its name and where it begins and ends, for people."""
        return words.path_title(self.what, self.span)

    @property
    def closes(self) -> str:
        """What the seam is called at which its ends meet, for people; "" where none is named."""
        return words.RING_SEAMS[self.seam] if self.seam else ""

    @property
    def ring(self) -> bool:
        """True where it goes all round an opening."""
        return self.shape is EdgeShape.ROUND

    @property
    def places(self) -> int:
        """Everything that can be hung."""
        return sum(s.places for s in self.sections)

    @property
    def length(self) -> Fraction:
        """Along the fabric [mm]."""
        return sum((s.length for s in self.sections), Fraction(0))


def point_of(before: int, side: Iterable[EdgeSegment], centre: int, gauge: Gauge, *,
             slopes: Sequence[NamedSlope] = (), counted: Count | None = None) -> Corner | None:
    """The point of a V whose sides go as `side` does; None where it is level at the bottom.

    `slopes` compute what goes at a side, `counted` are the rows that it comes of.
    """
    side = tuple(side)
    wide = sum(abs(r.stitches) for r in side)
    high = sum(r.rows for r in side)
    if centre > 1 or not wide or not high:
        return None
    going = plain_of(wide, stitches_gone(slopes), Role.STITCHES)
    steep = (rows_of_edge(high, counted) * Operand(gauge.row, Role.ROW_HEIGHT)) \
        / (going * Operand(gauge.stitch, Role.STITCH_WIDTH))
    return Corner(before=before, own=bool(centre), steep=steep)


def run_of(key: str, what: PathName | str, sections: Iterable[Section | None], *,
           span: PathSpan | None = None, shape: EdgeShape = EdgeShape.OPEN, fronts: int = 0,
           times: int = 1, corner: Corner | None = None, seam: RingSeam | None = None) -> EdgePath:
    """An edge of those sections that there are."""
    return EdgePath(
        key=key,
        what=what,
        span=span,
        sections=tuple(s for s in sections if s is not None),
        shape=shape,
        fronts=fronts,
        times=times,
        corner=corner,
        seam=seam,
    )
