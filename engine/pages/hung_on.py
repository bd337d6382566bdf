"""Pieces that bands are hung on where a pattern knits no garment: what must be knitted first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import UP, Unit
from ..core.expression import Expression, Operand, Rounded, Sum, Term
from ..core.operands import Role
from ..fabric.yarn import stitch_mass
from ..markup.html import esc, fold, items
from ..pattern.edges import EdgeShape, EdgeSpec, Offer
from ..pattern.fabrics import Fabric, Materials, Yarn
from ..pattern.model import GarmentSpec
from ..plan.band import BandPlan
from ..proof.proof import SizeProof
from ..shape.edging import Section
from ..words.pieces_first import HEADING, LEAD, mass_text, piece_text, pieces_listed, side_taken

WIDE, HIGH = 20, 20  # stitches beside a side edge, rows below waiting ones; common practice
ANCHOR = "pieces-first"


def pieces_first(spec: GarmentSpec | None, materials: Materials, edges: Mapping[str, EdgeSpec],
                 size: SizeProof) -> str:
    """Return what names the pieces, as HTML; "" where the bands are hung on a garment's."""
    plans = _alone(spec, size)
    return LEAD + items((_for_band(materials, edges, size, plan) for plan in plans),
                        "wb-list") if plans else ""


def pieces_folded(spec: GarmentSpec | None, materials: Materials, edges: Mapping[str, EdgeSpec],
                  size: SizeProof) -> str:
    """The same for the page of a size, closed until it is opened."""
    pieces = pieces_first(spec, materials, edges, size)
    return fold(HEADING, ANCHOR, pieces) if pieces else ""


def listed(spec: GarmentSpec | None, size: SizeProof) -> Iterator[str]:
    """The entry of the materials, where there are such pieces."""
    plans = _alone(spec, size)
    if plans:
        pieces = sum(_number(plan) for plan in plans)
        yield pieces_listed(pieces, f"#{ANCHOR}")


def _alone(spec: GarmentSpec | None, size: SizeProof) -> Sequence[BandPlan]:
    """The bands that take an edge which nothing on the page knits."""
    return [plan for plan in size.plans if spec is None]


def _strips(size: SizeProof, plan: BandPlan) -> int:
    """How many edges a band takes: one for each front that is knitted."""
    return max(1, len({strip.front for strip in size.strips
                       if strip.plan.band.key == plan.band.key}))


def _number(plan: BandPlan) -> int:
    """The pieces of a band: one with two side edges serves two fronts."""
    return len(plan.edge_path.sections) if plan.edge_path.shape is not EdgeShape.FRONT else 1


def _for_band(materials: Materials, edges: Mapping[str, EdgeSpec], size: SizeProof, plan: BandPlan
             ) -> str:
    fabric = materials.fabrics[edges[plan.band.edge].fabric]
    sections = "".join(_piece(materials.yarns, fabric, section, len(plan.edge_path.sections) > 1)
                       for section in plan.edge_path.sections)
    grams, mass = _grams(fabric, plan), ""
    if grams is not None:
        mass = mass_text(grams.value, several=_number(plan) != 1)
    return f"<strong>{esc(plan.band.title)}:</strong>{sections}{mass}{_sides(size, plan)}"


def counts(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], edges: Mapping[str, EdgeSpec],
           size: SizeProof) -> Iterator[tuple[str, Count]]:
    """Yield the mass of what must be knitted first for every band, by name."""
    for plan in _alone(spec, size):
        grams = _grams(fabrics[edges[plan.band.edge].fabric], plan)
        if grams is not None:
            yield f"{plan.band.key}_edge_grams", grams


def _grams(fabric: Fabric, plan: BandPlan) -> Count | None:
    """The mass of the pieces that a band is hung on [g, up]; None where no swatch was weighed."""
    each = stitch_mass(fabric.swatches)
    if each is None:
        return None
    places = Sum(tuple(map(_places, plan.edge_path.sections)))
    return Count(Rounded(places * Term(each, Role.STITCH_GRAMS, fabric.key), UP), Unit.GRAMS)


def _piece(yarns: Mapping[str, Yarn], fabric: Fabric, section: Section, several: bool) -> str:
    """A piece in sentences, by the name of its section where there are several."""
    wide, high = _measured(section)
    offer = section.offer
    named = f" <em>{esc(section.title)}:</em>" if several else ""
    text = piece_text(wide, high, offer, yarn=yarns[fabric.yarn].called, dial=fabric.dial,
                      label=section.title, plain=fabric.repeat is None and not fabric.chart)
    return f"{named} {text}"


def _places(section: Section) -> Expression:
    """The stitches of a piece: as many across as it has, by as many rows."""
    if section.offer is Offer.ROWS:
        return Operand(Fraction(WIDE), Role.STITCHES) * Term(section.taken, Role.ROWS)
    return Term(section.taken, Role.STITCHES) * Operand(Fraction(HIGH), Role.ROWS)


def _measured(section: Section) -> tuple[int, int]:
    """The stitches and the rows of a piece."""
    if section.offer is Offer.ROWS:
        return WIDE, section.places
    return section.places, HIGH


def _sides(size: SizeProof, plan: BandPlan) -> str:
    if plan.edge_path.shape is not EdgeShape.FRONT:
        return ""
    return side_taken(fronts=_strips(size, plan))
