"""A garment's pieces as they lie once they are sewn: edges without what the seams take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from fractions import Fraction

from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import SLEEVE, piece_fabric
from ..machine.records import dataclass
from ..pattern.model import Neck, Pattern
from ..plan.armhole_bands import under_armhole_bands
from ..plan.assembled import Assembled
from ..plan.band import BandPlan
from ..proof.proof import SizeProof
from ..shape.dimension_names import NECK, SHOULDER, SLIT_DEPTH, TO_UNDERARM, TOP
from ..shape.piece import Piece
from ..shape.polygon import Outline
from ..shape.profile import Point
from .garment_conventions import FLATTEN, ROUND_REACH, STEP
from .garment_pen import (
    Line,
    PenPoint,
    Tile,
    bent_to_one_side,
    flattened,
    hundredths,
    moved_right,
    smoothed,
    soft,
)

SEAM = 1  # the stitch that a seam takes of every edge, as in the forms


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """A piece from its middle, or from its front edge, to its side seam, which is at the right.

    `side` runs up from the lower edge to the shoulder or the end of the raglan, `neck` from the
    top of that shoulder down to the middle or to the front edge. `edge` is where its front edge
    is, or 0 at the middle. All in hundredths of a millimetre, the seam's stitch left out. Where
    `stepped`, the side runs on straight up from the underarm, a step further in or out.
    """

    side: Line
    neck: Line
    edge: int
    underarm: int
    foot: int
    stepped: bool = False

    @property
    def width(self) -> int:
        """From the middle to the side seam at the lower edge."""
        return self.side[0].x

    @property
    def shoulder(self) -> PenPoint:
        """Where the armhole ends at the shoulder."""
        return self.side[-1]

    @property
    def top(self) -> PenPoint:
        """Where the neck meets the shoulder, or the end of a raglan."""
        return self.neck[0]

    def moved(self, right: int) -> Half:
        """The same, so far to the right."""
        return replace(self, side=moved_right(self.side, right),
                       neck=moved_right(self.neck, right), edge=self.edge + right)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnParts:
    """What a sketch is drawn from: the size, its pieces with their outlines, its bands.

    `gauges` are those of the pieces' fabrics. `tiles` keeps the repeats of charts by piece, for a
    piece is drawn in both views.
    """

    pattern: Pattern
    size: SizeProof
    assembled: Assembled
    gauges: dict[str, Gauge]
    outlines: dict[str, Outline]
    pieces: dict[str, Piece]
    plans: tuple[BandPlan, ...] = ()
    tiles: dict[str, Tile | None] = field(default_factory=dict)

    def stitch(self, key: str) -> int:
        """The width of a stitch of a piece."""
        return hundredths(self.gauges[key].stitch)

    @property
    def neck(self) -> Neck:
        """The neckline."""
        assert self.pattern.garment is not None
        return self.pattern.garment.neck

    @property
    def opens(self) -> bool:
        """True where it has two fronts."""
        return "right_front" in self.pieces

    def length(self, name: str) -> int:
        """A finished length by name [hundredths of a mm]."""
        return hundredths(self.assembled.garment.finished[name].mm)

    @property
    def at_armhole(self) -> Fraction:
        """What an armhole takes of the edge [stitches]: a seam with a sleeve, or the band hung on
        it; where one side alone has a band, half of that at either."""
        return Fraction(SEAM) if SLEEVE in self.pieces else \
            under_armhole_bands(self.pattern.bands).value / 2

    def half(self, key: str) -> Half:
        """A piece of the body, from its middle or its front edge to its side."""
        stitch = self.gauges[key].stitch
        return half_of(self.outlines[key], stitch * SEAM, at_armhole=stitch * self.at_armhole,
                       round_neck=self.neck is not Neck.SQUARE or key == "back")


def parts_of(pattern: Pattern, size: SizeProof, outlines: Sequence[Outline]) -> DrawnParts | None:
    """Return what a garment's sketch is drawn from; None where the pattern has none."""
    if size.assembled is None or pattern.garment is None:
        return None
    gauges = {o.key: measure(piece_fabric(pattern.garment, pattern.fabrics, o.key).swatches)
              for o in outlines}
    return DrawnParts(pattern=pattern, size=size, assembled=size.assembled, gauges=gauges,
                      outlines={o.key: o for o in outlines},
                      pieces={p.key: p for p in size.assembled.garment.pieces}, plans=size.plans)


def half_of(outline: Outline, seam: Fraction, *, at_armhole: Fraction, round_neck: bool = True
            ) -> Half:
    """Return half a piece, or a front that opens, `seam` [mm] taken off at its side and
    `at_armhole` above its underarm.

    A left front is turned over, so that its side seam lies at the right as the others' do.
    """
    corners = list(outline.corners)
    if outline.key == "left_front":
        corners = [(-x, y) for x, y in corners]
        corners = [corners[1], corners[0], *corners[:1:-1]]
    inner = _inner(outline)
    at = corners.index((inner, outline.height))
    # A raglan that leaves nothing beside the neck ends in it, and its seam takes a stitch there.
    ends_in_neck = not outline.dimension(SHOULDER) and corners[at - 1][1] < outline.height
    side = corners[1:at + 1] if ends_in_neck else corners[1:at]
    up = outline.dimension(TO_UNDERARM)
    whole = outline.key in ("back", "front")
    begins = [(inner - seam, outline.height), *corners[at + 1:]] if ends_in_neck else corners[at:]
    neck = _to_middle(begins) if whole else begins
    edge = hundredths(neck[-1][0])
    lower, upper = _at_underarm([(x - seam, y) for x, y in side], up.end[1] if up else None)
    more = at_armhole - seam
    stepped = bool(more) and len(upper) == 1
    if more:
        upper = _above(up.end[1] if up else upper[0][1], upper, more)
    # An armhole is pulled smooth by its sleeve or its band; a raglan line is straight as it is.
    curved = outline.dimension(SHOULDER) is not None and not stepped
    return Half(side=(*lower[:-1], *_line(upper, soften=curved)),
                neck=_neck(outline, neck, soften=round_neck), edge=0 if whole else edge,
                underarm=hundredths(up.end[1]) if up else 0, foot=hundredths(outline.hem),
                stepped=stepped)


def _neck(outline: Outline, neck: Sequence[Point], *, soften: bool) -> Line:
    """A neckline; below it the slit of a placket stays as it is."""
    if not outline.dimension(SLIT_DEPTH):
        return _line(neck, soften=soften)
    return (*_line(neck[:-2], soften=soften), *_line(neck[-2:], soften=False))


def _at_underarm(side: Sequence[Point], up: Fraction | None) -> tuple[Line, Sequence[Point]]:
    """A side as far `up` as its underarm, or where there is none to where it first leaves its own
    line, and from there on."""
    if up is None:
        at = next((i for i, (x, _) in enumerate(side) if x != side[0][0]), len(side)) - 1
    else:
        at = max((i for i, (_, y) in enumerate(side) if y < up), default=-1) + 1
    if not at:
        return tuple(_line(side[:1], soften=False)) * 2, side
    return _line(side[:at + 1], soften=False), side[at:]


def _above(underarm: Fraction, upper: Sequence[Point], more: Fraction) -> list[Point]:
    """The line from the underarm up, with so much `more` taken off it than off the side."""
    side = upper[0][0]
    rest = [] if upper[0][1] > underarm else upper[1:]  # the side may run on, straight up
    if not rest or rest[0][1] > underarm:
        rest = [(side, underarm), *(rest or upper)]
    return [(side, underarm), *((x - more, y) for x, y in rest)]


def _inner(outline: Outline) -> Fraction:
    """Where the neck ends at the top, or the whole top of a piece without one."""
    found = outline.dimension(NECK) or outline.dimension(TOP)
    assert found is not None
    if outline.key == "right_front":
        return max(found.start[0], found.end[0])
    if outline.key == "left_front":
        return max(-found.start[0], -found.end[0])
    return max(found.start[0], found.end[0])


def _to_middle(corners: Sequence[tuple[Fraction, Fraction]]
               ) -> list[tuple[Fraction, Fraction]]:
    """The corners down to the middle of a piece that is alike on both sides."""
    out: list[Point] = []
    for x, y in corners:
        if x <= 0:
            return [*out, (Fraction(0), y)] if out[-1][0] else out
        out.append((x, y))
    return out


def _line(corners: Sequence[tuple[Fraction, Fraction]], *, soften: bool) -> Line:
    nodes = [PenPoint(hundredths(x), hundredths(y)) for x, y in corners]
    if not soften:
        return flattened(nodes, FLATTEN)
    return soft(flattened(bent_to_one_side(smoothed(nodes, STEP)), FLATTEN), ROUND_REACH)
