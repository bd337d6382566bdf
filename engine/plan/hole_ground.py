"""What a band offers its buttonholes, and where they are asked for along it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field, replace

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import NEAREST, Unit, whole
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..machine.steps import Side
from ..pattern.holes import Buttonholes, Distance
from ..pattern.model import Band, BandRows
from ..pattern.places import Places
from ..shape.edge_path import EdgePath
from ..sizing.quantities import Quantity
from .buttonholes import BandSpec, number_every, place
from .hole_joins import EdgeJoin, grow_below, joins_along
from .lengthwise_counts import runs_along
from .meeting import Meeting, all_stitches


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleGround:
    """What a band offers its buttonholes in one size.

    `places` are those of the source. `along` are the stitches among which they lie, from the lower
    end, before they move them; `beyond` those of the band above them; `measures` what the garment
    was cut from. `meets` are places along them that holes keep clear of, their upper end among them
    where the band goes on; `grows_below` says that what the band grows by lies below all others. An
    end that is `sewn` takes a stitch. Along a neck that opens the holes lie `only_on` one front;
    the first end is the right one's.
    """

    places: Places
    band: Band
    size: str
    gauge: Gauge
    rows: BandRows
    along: Count
    beyond: int = 0
    meets: tuple[EdgeJoin, ...] = ()
    grows_below: bool = True
    sewn: bool = False
    only_on: Side | None = None
    measures: Mapping[str, Quantity] = field(default_factory=dict)

    @property
    def buttonholes(self) -> Buttonholes:
        """What the band asks of its holes. Raises ValueError for a band without."""
        if self.band.buttonholes is None:
            raise ValueError(f"band {self.band.key} has no buttonholes")
        return self.band.buttonholes

    @property
    def joins(self) -> tuple[int, ...]:
        """After how many stitches two parts of the edge meet, within those along the band."""
        return tuple(one.after for one in self.meets if one.after < self.along.value)

    @property
    def unit(self) -> Unit:
        """What lies along the band."""
        return self.along.unit

    @property
    def fabric(self) -> Gauge:
        """The gauge of the band's fabric, as it lies on the bed."""
        return self.gauge.turned if runs_along(self.band) else self.gauge

    @property
    def clear(self) -> int:
        """How far holes keep from a join: as far as from the nearer end [stitches]."""
        return min(stitches_of(end, self.gauge)
                   for end in (self.buttonholes.lower, self.buttonholes.upper))

    @property
    def least(self) -> int:
        """The fewest stitches between a hole and an end: one that a seam takes, and one more."""
        return 2 if self.sewn else 1

    @property
    def path(self) -> str:
        """Where the source says so."""
        return f"bands.{self.band.key}.buttonholes"


def spec_of(ground: HoleGround, hole: int) -> BandSpec:
    """Return what is asked of holes of so many stitches, spread from the upper end to the lower.

    Where the designer gives no ends and a hole would lie on a join, the upper end grows. It does
    not for holes that have no room wherever they lie.
    """
    spec = _band_spec(ground, hole)
    if not ground.buttonholes.ends_by_default or not spec.joins or place(spec) is not None \
            or place(replace(spec, joins=())) is None:
        return spec
    upper = clear_upper(ground, hole)
    if upper is None:
        return spec
    return replace(_band_spec(with_upper(ground, upper), hole),
                   usual_upper=stitches_of(ground.buttonholes.upper, ground.gauge))


def clear_upper(ground: HoleGround, hole: int) -> int | None:
    """Return the shortest upper end with which no hole lies on a join, longer than the one asked
    for by a hole's distance from the next at most [stitches]; None where there is none.

    A longer one would leave room for another hole. Common practice, no source.
    """
    least = stitches_of(ground.buttonholes.upper, ground.gauge) + 1
    spec = _band_spec(ground, hole)
    apart = (spec.stitches - spec.lower - spec.upper) // max(1, spec.buttonhole_count - 1)
    return next((upper for upper in range(least, min(least + apart, ground.along.value))
                 if place(_band_spec(with_upper(ground, upper), hole)) is not None), None)


def with_upper(ground: HoleGround, upper: int) -> HoleGround:
    """Return the same ground whose holes end `upper` stitches from the band's upper end."""
    buttonholes = replace(ground.buttonholes, upper=Distance(stitches=upper))
    return replace(ground, band=replace(ground.band, buttonholes=buttonholes))


def _band_spec(ground: HoleGround, hole: int) -> BandSpec:
    holes, gauge, along = ground.buttonholes, ground.gauge, ground.along
    lower = stitches_of(holes.lower, gauge)
    upper = stitches_of(holes.upper, gauge)
    joins = tuple(one.after for one in ground.meets)
    span = along.value - lower - upper
    if holes.buttonhole_count is not None:
        buttonhole_count = holes.buttonhole_count[ground.size]
    else:
        assert holes.every is not None
        buttonhole_count = number_every(span, hole, holes.every.mm / gauge.stitch,
                                        odd=holes.centre_hole)
    # Where the band goes on above its holes, both its fronts must keep their length.
    fixed = bool(ground.band.along) or ground.beyond or (ground.joins and not ground.grows_below)
    give = 0 if fixed else whole(along.exact * holes.tolerance)
    at_first = buttonhole_count == 1 and ground.only_on is Side.RIGHT
    if at_first:
        lower, upper = upper, lower
    return BandSpec(stitches=along.value, buttonhole_count=buttonhole_count, hole=hole, lower=lower,
                    upper=upper, end_give=holes.end_give, band_give=min(holes.band_give, give),
                    odd_gap=holes.odd_gap, gaps=holes.gaps, least=ground.least, clear=ground.clear,
                    joins=tuple(along.value - join for join in joins),
                    at_first=at_first)


def stitches_of(distance: Distance, gauge: Gauge) -> int:
    """Return a distance along a band in its stitches, a half up."""
    if distance.stitches is not None:
        return distance.stitches
    assert distance.length is not None
    return whole(distance.length.mm / gauge.stitch, NEAREST)


def ground_of(places: Places, band: Band, size: str, edge_path: EdgePath,
              meetings: Sequence[Meeting], gauge: Gauge, rows: BandRows,
              measures: Mapping[str, Quantity]) -> HoleGround:
    """Return what the band offers its buttonholes, of one from hem to hem one front's edge."""
    by_edge = all_stitches(meetings)
    among = meetings[:edge_path.fronts] if edge_path.fronts else meetings
    within, joins = all_stitches(among), joins_along(edge_path, among)
    # Where the band goes on above its holes, their upper end is a join as well.
    tops = joins_along(edge_path, meetings)[len(joins):len(joins) + 1] if edge_path.fronts else ()
    buttonholes = band.buttonholes
    assert buttonholes is not None
    opens = band.garment_edge == "neck" and not edge_path.ring
    return HoleGround(
        places=places, band=band, size=size, gauge=gauge, rows=rows, along=within,
        beyond=by_edge.value - within.value, measures=measures, meets=(*joins, *tops),
        grows_below=grow_below(joins, among), sewn=_ends_sewn(band, edge_path),
        only_on=buttonholes.front if opens else None)


def _ends_sewn(band: Band, edge_path: EdgePath) -> bool:
    """True where a seam takes the band's ends, or they are sewn shut, or to a placket's foot."""
    return edge_path.ring or KINDS[band.kind].ends_sewn or band.garment_edge == "placket"
