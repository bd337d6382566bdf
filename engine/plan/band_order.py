"""In which order a garment's bands are worked, and over which other bands' ends each runs.

Sources: a yarn shop's lesson, "The One-Row Buttonhole" (B09); Yateley Machine Knitting Club,
"February 2013: buttonholes and bands" (P05).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..catalogue.edge_roles import EdgeRole, role_of, side_of
from ..core.counted import Count
from ..core.counts import whole
from ..core.edge_parts import EndedBand, SectionDetail, SectionRole
from ..core.expression import Chosen, Rounded, Rule, plain
from ..core.note_arguments import Noted, NoteWord
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place, Problem, error
from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import piece_fabric
from ..machine.steps import Side
from ..pattern.band_places import place_in
from ..pattern.edges import EdgeSpec
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec, Neck, Wearer
from ..pattern.places import Places
from ..shape.corners import squares
from ..shape.edge_path import EdgePath
from ..shape.edging import Stretch, Zone, begins_level, straight
from ..shape.under_bands import below_band, beneath
from ..words.terms.section_names import rows_of_band
from .band import BandPlan

NECK, PLACKET, AROUND = "neck", "placket", "front_and_neck"
_TURNS: dict[EdgeRole | None, int] = {EdgeRole.POCKET: 0, EdgeRole.PLACKET: 1,
                                      EdgeRole.ARMHOLE: 5}
_ENDS = {EndedBand.COLLAR: SectionRole.COLLAR_END, EndedBand.FACING: SectionRole.FACING_END,
         EndedBand.NECKBAND: SectionRole.NECKBAND_END}
FRONT_EDGES = ("front_edge", "right_front.front_edge", "left_front.front_edge")


def in_working_order(bands: Iterable[Band]) -> list[Band]:
    """Return the bands as the making up has them: a pocket's first, while the fronts lie flat, a
    placket's, then the neckband, then the fronts' (P05), and the armholes' after those.

    A collar whose ends meet at the centre front comes after the bands over whose tops it runs.
    """
    return sorted(bands, key=_turn)


def _turn(band: Band) -> int:
    role = role_of(band.garment_edge)
    if role is EdgeRole.NECK:
        return 4 if KINDS[band.kind].meets else 2
    return _TURNS.get(role, 3)


def whole_edge(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric],
               edges: Mapping[str, EdgeSpec], band: Band, edge_path: EdgePath,
               before: Sequence[BandPlan]) -> EdgePath:
    """Return the edge a band takes with the ends of the bands worked `before` it."""
    if band.edge in edges:
        return edge_path
    if band.garment_edge == NECK:
        return _over_tops(spec, fabrics, band, edge_path, before)
    if band.garment_edge == AROUND:
        return _round_corners(spec, fabrics, edge_path, band)
    neck = next((p for p in before if p.band.garment_edge == NECK), None)
    if band.garment_edge not in FRONT_EDGES or neck is None or ends_at_tops(spec):
        return edge_path
    kind = KINDS[neck.band.kind]
    # Rows that lie in the neckband, or are turned in with it.
    if begins_level(neck.edge_path.sections[0]):
        top = below_band(edge_path.sections[-1], neck.band.stitches_in, _band_at(neck),
                         _inside(neck.band))
        if kind.faces:
            top = replace(top, faced=min(top.places, _rows_deep(neck, top.pitch)))
        edge_path = replace(edge_path, sections=(*edge_path.sections[:-1], top))
    if not kind.stands:
        return edge_path
    return with_neckband(edge_path, neck.depth, neck.gauge.row, kind.layers, _band_at(neck))


def _inside(band: Band) -> Place | None:
    """Where the source says how many stitches of the edge a band takes in."""
    return place_in(band, "stitches_in")


def _round_corners(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], edge_path: EdgePath,
                   band: Band) -> EdgePath:
    """A front edge and a level neck up to where the lines cross on which a band is hung: what is
    beyond lies in the corner, which the band goes round (geometry)."""
    sections, gauge = list(edge_path.sections), _body_gauge(spec, fabrics)
    for corner in squares(edge_path.sections):
        if corner.juts:
            front, neck = corner.before - 1, corner.before
            if not sections[front].is_straight_rows:
                front, neck = neck, front
            sections[front] = below_band(sections[front], band.stitches_in, EndedBand.CORNER,
                                         _inside(band))
            sections[neck] = beneath(sections[neck], band.stitches_in, gauge, EndedBand.CORNER,
                                     _inside(band))
    return replace(edge_path, sections=tuple(sections))


def _body_gauge(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric]) -> Gauge:
    return measure(piece_fabric(spec, fabrics, "back").swatches)


def _band_at(neck: BandPlan) -> EndedBand:
    """What the band at a neck is."""
    kind = KINDS[neck.band.kind]
    return EndedBand.COLLAR if kind.collar else \
        EndedBand.FACING if kind.faces else EndedBand.NECKBAND


def _rows_deep(facing: BandPlan, row: Fraction) -> int:
    """How many rows of so much height [mm] a facing is deep that is turned in along them."""
    own = facing.facing
    deep = own.rows.value * own.gauge.row if own else facing.depth.value * facing.gauge.row
    return max(1, whole(deep / row))


def with_neckband(edge_path: EdgePath, rows: Count, row: Fraction, layers: int,
                  what: EndedBand = EndedBand.NECKBAND) -> EdgePath:
    """Return a front edge with the end of the neckband above it, knitted on first (P05).

    `rows` are those of one of the neckband's `layers`, `row` their height [mm].
    """
    end = straight(_ENDS[what], rows.value, row, layers=layers, stretch=Stretch.BAND_END)
    end = replace(end, taken=rows.term(Role.ROWS, rows_of_band(what, layers)))
    return replace(edge_path, sections=(*edge_path.sections, end))


def with_band_tops(edge_path: EdgePath, front: Side, rows: Count, row: Fraction, *, share: Fraction,
                   layers: int) -> EdgePath:
    """Return a neck edge with the top of the `front` band at its end, worked before it (P05).

    `rows` are those of one of the band's `layers`, `row` their height [mm], `share` how much of
    the top is taken: a collar that begins at the centre front takes the inner half (common
    practice, no source). The right front's end is the first.
    """
    chosen = Chosen((Rounded(rows.term(Role.NUMBER) * plain(share)), plain(1)), Rule.LARGEST,
                    ChoiceReason.LEAST_ONE)
    taken = int(chosen.value)
    part = (SectionDetail.HALF_TOP,) if share < 1 else ()
    role = SectionRole.RIGHT_BAND_TOP if front is Side.RIGHT else SectionRole.LEFT_BAND_TOP
    top = straight(role, taken, row, layers=layers, stretch=Stretch.BAND_TOP, details=part)
    through = NoteWord.BOTH_LAYERS if layers > 1 else None
    top = replace(top, zone=Zone.FRONT, half=share < 1,
                  taken=Noted(chosen, Note.BAND_TOP, (taken, rows.value, through)))
    sections = (top, *edge_path.sections) if front is Side.RIGHT else (*edge_path.sections, top)
    return replace(edge_path, sections=sections)


def ends_at_tops(spec: GarmentSpec | None) -> bool:
    """True where the neckband's ends lie along the tops of the front bands, not along the fronts.

    Up a V the neckband stands out from the slope as the front band does from the front edge
    below it: the end of the one meets the top of the other, and a band hung over both would have
    to turn a corner (geometry, no source).
    """
    return bool(spec and spec.neck is Neck.V)


def _over_tops(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], band: Band,
               edge_path: EdgePath, before: Sequence[BandPlan]) -> EdgePath:
    """A neck that begins and ends on the tops of the bands at the front, all of each or half."""
    at_front = [p for p in before if p.band.garment_edge in (PLACKET, *FRONT_EDGES)]
    for side in (Side.RIGHT, Side.LEFT):
        plan = next((p for p in at_front if side_of(p.band.garment_edge) is not side.other), None)
        if plan is not None and KINDS[plan.band.kind].stands:
            share = Fraction(1, 2) if KINDS[band.kind].meets else Fraction(1)
            edge_path = _beside_band(spec, fabrics, edge_path, side, plan.band)
            edge_path = with_band_tops(edge_path, side, plan.depth, plan.gauge.row, share=share,
                                 layers=KINDS[plan.band.kind].layers)
    return edge_path


def _beside_band(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], edge_path: EdgePath,
                 front: Side, band: Band) -> EdgePath:
    """The neck from where the `front` band was hung: what it took in lies beneath its top."""
    gauge = _body_gauge(spec, fabrics)
    what = EndedBand.PLACKET_BAND if band.garment_edge == PLACKET else EndedBand.FRONT_BAND
    first, *others = edge_path.sections if front is Side.RIGHT else edge_path.sections[::-1]
    sections = (beneath(first, band.stitches_in, gauge, what, _inside(band)), *others)
    return replace(edge_path, sections=sections if front is Side.RIGHT else sections[::-1])


def closed_all_round(places: Places, band: Band, size: str, edge_path: EdgePath) -> list[Problem]:
    """Return an error for a collar that falls over on a neck without an opening."""
    if not (KINDS[band.kind].falls and edge_path.ring):
        return []
    return [error(
        "collar-needs-opening", places.of(f"bands.{band.key}.kind"), size=size,
        found=f"a {band.kind} on a neck that is closed all round",
        expected="a neck that opens at the front, where the collar begins and ends",
        remedy="Give the garment a placket, choose a cardigan, or use a stand collar.")]


def upper_front(wearer: Wearer) -> Side:
    """Return the front that lies on top: men's left, else the right (B09, as for buttonholes)."""
    return Side.LEFT if wearer is Wearer.MEN else Side.RIGHT
