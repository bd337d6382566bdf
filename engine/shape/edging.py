"""The sections of an edge as a band meets them: what can be hung from each, and its length."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from enum import Enum
from fractions import Fraction
from itertools import groupby, takewhile

from ..core.branched import Branched
from ..core.counted import Count
from ..core.counts import Unit
from ..core.edge_parts import (
    EndedBand,
    SectionDetail,
    SectionRole,
    Worn,
)
from ..core.expression import NOTHING, Difference, Expression, Operand, Sum, Term, plain_of
from ..core.note_arguments import Noted
from ..core.operand_parts import PartRole
from ..core.operands import Note, Role
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..pattern.edges import Offer
from ..words.terms import section_names as words
from ..words.terms.part_names import part_name
from ..words.terms.working import working
from .counted_edge import NamedSlope, counted_segments, line_along, stitches_level
from .edge_counts import one_for_one, rows_of_edge
from .profile import EdgeSegment, length_along
from .smooth_line import along_corners


class Zone(Enum):
    """Where a section lies for a collar: below the neck, up the side of it, or behind it."""

    FRONT = "front"
    SIDE = "side"
    BACK = "back"


class Stretch(Enum):
    """Of what a section is the edge."""

    GARMENT = "garment"
    HEM = "hem"  # a hem or rib that a piece begins with
    BAND_TOP = "band's top"  # of a front band, under a neckband
    BAND_END = "band's end"  # of a neckband, above a front edge
    POCKET = "pocket"  # below a pocket's opening, on its cord


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A stretch of an edge: `places` to hang from, `length` along the fabric [mm].

    `pitch` is how high a row of its fabric is, or how wide a stitch [mm]; of a shaped edge, whose
    rows it is, a stitch is `wide` [mm]. `layers` are how many
    lie one on the other, all hung together; `half` of a band's top is taken by a collar that ends
    at the centre front. The middle of one at the `centre_back` is the garment's, where a long band
    can be cut. `segments` are those of a shaped edge, from its beginning at a front up to the
    shoulder; a section without is straight, as long as its places are. One that `falls` is met from
    its top down. `waits` is what its stitches were
    called when a piece took them off on waste yarn, of a half on a separate strip also what the
    whole is (`half_of`), `seams` at which of its ends one stitch more
    waits there, which lies in a seam and is hung with its neighbour (common practice, no source).
    `covered` more of its rows, or of the stitches bound off in it, lie `within` the end of a band.
    Where `at_seam`, one stitch more was bound off at its outer end, which is not hung: a seam has
    it.
    `faced` of its topmost rows lie before a facing that is turned in, and are hung through it.
    A thread is `tied` into its piece where it ends and a V neck begins, or an armhole does; where
    it is the V neck that begins there, the section lies `above_tied`.
    `across` is how wide the piece is in each of a shaped edge's rows, upward, where that is known
    [stitches]. `role` says what it is of the garment; one of the source's, or of an own outline,
    has its `own` title. `details` say more of it, and `worn` where it lies on whoever wears it,
    where another section has its role. `line` computes the length of a shaped edge, and `up` its
    rows. After each of
    its `turns` [stitches] the edge of a held neck rises by a step: a loop is lifted there. `held`
    computes its steps at either side.
    """

    role: SectionRole
    offer: Offer
    places: int
    pitch: Fraction
    length: Fraction
    taken: Expression
    zone: Zone = Zone.SIDE
    stretch: Stretch = Stretch.GARMENT
    layers: int = 1
    half: bool = False
    centre_back: bool = False
    segments: tuple[EdgeSegment, ...] = ()
    waits: str = ""
    half_of: str = ""
    seams: tuple[bool, bool] = (False, False)
    covered: int = 0
    at_seam: bool = False
    within: EndedBand | None = None
    joins_hem: bool = False
    faced: int = 0
    tied: bool = False
    above_tied: bool = False
    across: tuple[int, ...] = ()
    own: str = ""
    details: tuple[SectionDetail, ...] = ()
    worn: Worn | None = None
    falls: bool = False
    wide: Fraction = Fraction(0)
    line: Expression | None = None
    up: Expression | None = None
    turns: tuple[int, ...] = ()
    held: Expression | None = None

    def __post_init__(self) -> None:
        if self.places < 1 or self.length <= 0 or self.layers < 1:
            raise ValueError(f"{self.name}: a section has places, a length and a layer")
        if not (self.segments or self.turns) and self.length != self.places * self.pitch:
            raise ValueError(f"{self.name}: a straight section is as long as its places")

    @property
    def long(self) -> Expression:
        """Its length as an expression [mm]: along its line, or its places by the gauge."""
        many, each = (Role.ROWS, Role.ROW_HEIGHT) if self.offer is Offer.ROWS else \
            (Role.STITCHES, Role.STITCH_WIDTH)
        return self.line or Term(self.taken, many) * Operand(self.pitch, each)

    @property
    def name(self) -> str:
        """What it is called, for people."""
        return words.section_name(self.role, self.own)

    @property
    def title(self) -> str:
        """Its name and what waits there, for people."""
        return words.section_title(self.name, self.details)

    @property
    def called(self) -> str:
        """Its title as no other section of its edge has it: "left front neck, side"."""
        return words.worn_title(self.worn, self.title)

    @property
    def working(self) -> str:
        """What its places are, in words."""
        return working(self.taken, Unit.ROWS if self.is_straight_rows else Unit.STITCHES)

    @property
    def is_straight_rows(self) -> bool:
        """True for a straight side, each place of which is a row."""
        return self.offer is Offer.ROWS and not self.segments

    @property
    def is_summed(self) -> bool:
        """True for straight rows that are more, or fewer, than a piece knits in one."""
        return self.is_straight_rows and isinstance(self.taken, Sum | Difference)

    @property
    def level(self) -> int:
        """The stitches bound off or held among its places [stitches]."""
        return sum(abs(segment.stitches) for segment in self.segments if is_level(segment))

    @property
    def order(self) -> tuple[tuple[int, Unit], ...]:
        """The rows of a shaped edge and the stitches bound off or held among them, as a band meets
        them, each with its unit."""
        up = groupby(self.segments, is_level)
        found = [(sum(abs(r.stitches) for r in segments), Unit.STITCHES) if level else
                 (sum(r.rows for r in segments), Unit.ROWS) for level, segments in up]
        return tuple(found[::-1] if self.falls else found)

    def narrow(self, stitches: int) -> tuple[int, ...]:
        """How wide the topmost rows are that have no more than so many [stitches], downward."""
        return tuple(takewhile(lambda wide: wide <= stitches, reversed(self.across)))


def straight(what: SectionRole | str, rows: int, row: Fraction, *, layers: int = 1,
             stretch: Stretch = Stretch.GARMENT, details: tuple[SectionDetail, ...] = (),
             made: Expression | None = None) -> Section:
    """A straight side of `rows` rows, each `row` high [mm], in so many `layers`.

    It has a role or its own title. `made` is how the rows are counted.
    """
    role, own = _named(what)
    through = words.THROUGH_BOTH if layers > 1 else ""
    return Section(role=role, own=own, details=details, offer=Offer.ROWS, places=rows, pitch=row,
                   length=rows * row, taken=made or Operand(Fraction(rows), Role.ROWS, through),
                   layers=layers, stretch=stretch)


def _named(what: SectionRole | str) -> tuple[SectionRole, str]:
    """The role of a section, and its own title where it has one."""
    return (SectionRole.OWN, what) if isinstance(what, str) else (what, "")


def waiting(what: SectionRole | str, stitches: int, gauge: Gauge, offer: Offer = Offer.WAITING, *,
            centre_back: bool = False, waits: str = "", seams: bool = False,
            made: Expression | None = None) -> Section:
    """`stitches` that wait, or were bound off or cast on, hung one for one.

    Between `seams` a stitch more waits at either end. `made` is how they are counted.
    """
    role, own = _named(what)
    details = (SectionDetail.WAITING,) if offer is Offer.WAITING else ()
    return Section(role=role, own=own, details=details, offer=offer, places=stitches,
                   pitch=gauge.stitch, length=stitches * gauge.stitch,
                   taken=one_for_one(stitches, made), centre_back=centre_back, waits=waits,
                   seams=(seams, seams))


def shaped(what: SectionRole | str, segments: Iterable[EdgeSegment], gauge: Gauge,
           across: Sequence[int] = (), *, details: tuple[SectionDetail, ...] = (),
           counted: Count | None = None, slopes: Sequence[NamedSlope] = (),
           up: Expression | None = None) -> Section | None:
    """A shaped edge: a place for every row and for every stitch bound off or held on the way.

    `faced` of its topmost rows lie before a facing that is turned in, and are hung through it.
    `across` is how wide its piece is in each row, up to the edge's top [stitches]. `counted` is the
    count that its rows come of, or `up` computes them; `slopes` compute its stretches.

    Its length is that along the knitted edge, small steps taken along their corners. None where
    there is nothing.
    """
    segments = counted_segments(tuple(segments), slopes) if slopes else tuple(segments)
    rows = sum(r.rows for r in segments)
    level = sum(abs(r.stitches) for r in segments if is_level(r))
    if not rows + level:
        return None
    up = up or rows_of_edge(rows, counted)
    taken, cornered = up, tuple(along_corners(segments))
    if level:
        steps = stitches_level([r for r in segments if is_level(r)]) or NOTHING
        off = plain_of(level, Branched(steps),  # no other steps would be bound off
                       Role.STITCHES, part_name(PartRole.BOUND_OFF))
        taken = Noted(taken + off, Note.BOUND_OFF, (rows, level))
    role, own = _named(what)
    return Section(role=role, own=own, details=details, offer=Offer.ROWS, places=rows + level,
                   pitch=gauge.row,
                   length=length_along(cornered, gauge), taken=taken, segments=segments,
                   wide=gauge.stitch, line=line_along(cornered, gauge, up), up=up,
                   across=tuple(across[-rows:]) if rows else ())


def is_level(segment: EdgeSegment) -> bool:
    """True for stitches bound off or held along a row; a decrease leaves none to be hung."""
    return bool(segment.stitches) and not segment.rows and (segment.how is None
                                                            or segment.how.is_level)


def begins_level(section: Section) -> bool:
    """True where a shaped edge begins along a row: a round neck, but no V."""
    return bool(section.segments) and is_level(section.segments[0])


def falling(section: Section | None) -> Section | None:
    """The section as a band meets it that comes down from its top."""
    return section and replace(section, falls=True)


def lying(zone: Zone, sections: Iterable[Section | None]) -> list[Section | None]:
    """The sections, each lying in `zone`."""
    return [None if s is None else replace(s, zone=zone) for s in sections]
