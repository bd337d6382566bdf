"""Pieces that the designer describes by points in measures, and how their edges are joined."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from ..machine.records import dataclass
from .short_rows import BesideEdge, Turning
from .slope_specs import SlopeSpec


class Going(Enum):
    """How an edge goes from the point before to the next one."""

    SLOPE = "slope"
    STEPS = "steps"


class TopEnds(Enum):
    """What becomes of the stitches at the top of a piece."""

    BOUND_OFF = "bound off"
    WAITING = "waste yarn"


class EdgeSide(Enum):
    """A side of a piece as it lies on the bed, the purl side towards the knitter."""

    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BOTTOM = "bottom"

    @property
    def is_upright(self) -> bool:
        """True for a side that runs up from the cast-on edge: its places are rows."""
        return self in (EdgeSide.LEFT, EdgeSide.RIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlinePoint:
    """A corner of an edge: the measures called `height`, from the lower edge, and `width`.

    `stretch` names the part of the edge that ends there, "" for none; it goes there `by` a slope
    or by steps that are bound off. `slope` is how the designer schedules it, None where nothing is
    asked.
    """

    height: str
    width: str
    stretch: str = ""
    by: Going = Going.SLOPE
    slope: SlopeSpec | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnShortRows:
    """Short rows of a piece, between the stitches that are held at its two edges.

    They begin at the measure called `height`, and leave at least that called `middle` in work;
    `extra` is by how much they make the middle longer, "" where a needle goes every row. So many
    `times` they come, one after another. Those over a part of the piece alone lie `beside` an edge,
    and that is as wide as the measure called `over`; else it is "".
    """

    height: str
    middle: str
    turning: Turning = Turning.BOTH
    extra: str = ""
    times: int = 1
    over: str = ""
    beside: BesideEdge = BesideEdge.RIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlinePiece:
    """A piece: the measures called `width`, of its lower edge, and `height`, and its two edges.

    Where `alike` both edges go as `left` does, and the width of a point is that of the whole piece;
    else it is measured from the middle of the lower edge outward. `times` is how often it is
    knitted, `short_rows` are those between its edges, from the lowest.
    """

    key: str
    title: str
    width: str
    height: str
    left: tuple[OutlinePoint, ...] = ()
    right: tuple[OutlinePoint, ...] = ()
    alike: bool = True
    top: TopEnds = TopEnds.BOUND_OFF
    times: int = 1
    short_rows: tuple[OwnShortRows, ...] = ()

    def points(self, side: EdgeSide) -> tuple[OutlinePoint, ...]:
        """The corners of one of its two edges."""
        return self.right if side is EdgeSide.RIGHT and not self.alike else self.left

    @property
    def measures(self) -> tuple[str, ...]:
        """The measures that it is cut by."""
        named = [self.width, self.height]
        for point in (*self.left, *self.right):
            named += [point.height, point.width]
        for short in self.short_rows:
            named += [short.height, short.middle, *filter(None, (short.extra, short.over))]
        return tuple(dict.fromkeys(named))


@dataclass(frozen=True, slots=True)
class EdgeOf:
    """A side of the piece `piece`, or the `stretch` of it that has that name."""

    piece: str
    side: EdgeSide
    stretch: str = ""

    @property
    def key(self) -> str:
        """How a source writes it: front.left.armhole."""
        return ".".join(part for part in (self.piece, self.side.value, self.stretch) if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineJoin:
    """Edges that are sewn together, one after another on either side; `ease` is the share by which
    the `other` ones are longer on purpose."""

    one: tuple[EdgeOf, ...]
    other: tuple[EdgeOf, ...]
    ease: Fraction = Fraction(0)

    @property
    def edges(self) -> tuple[EdgeOf, ...]:
        """The edges of both sides."""
        return (*self.one, *self.other)


@dataclass(frozen=True, slots=True)
class OutlineSpec:
    """The pieces of a garment of the designer's outlines, and the joins between them."""

    pieces: tuple[OutlinePiece, ...]
    joins: tuple[OutlineJoin, ...] = ()

    @property
    def measures(self) -> frozenset[str]:
        """The measures that its pieces are cut by."""
        return frozenset(name for piece in self.pieces for name in piece.measures)


NO_OUTLINE = OutlineSpec(())
