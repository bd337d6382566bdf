"""Edges that the source describes itself: their sections in one size, as a band meets them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from ..core.expression import Operand
from ..core.operands import Role
from ..core.problems import Place
from ..fabric.gauge import Gauge, measure
from ..pattern.edges import EdgeSection, EdgeShape, EdgeSpec
from ..pattern.fabrics import Fabric
from ..pattern.places import Places
from ..shape.edge_path import EdgePath
from ..shape.edging import Section, Zone, straight, waiting
from ..words.terms.section_names import named_edge, sectioned_edge
from .pickup import edge_rows


def own_edge(places: Places, fabrics: Mapping[str, Fabric], edge: EdgeSpec, size: str) -> EdgePath:
    """Return an edge of the source in `size`, every section by the gauge of the edge's fabric."""
    gauge = measure(fabrics[edge.fabric].swatches)
    if edge.sections:
        return _in_sections(edge, size, gauge, edge_place(places, edge, size))
    name = named_edge(edge.key)
    return EdgePath(key=edge.key, what=name, sections=(
                       _rows(name, edge, size, gauge, edge_place(places, edge, size)),),
                    shape=edge.shape, ends=edge.ends)


def edge_place(places: Places, edge: EdgeSpec, size: str) -> Place:
    """Where the source says how long an edge is in `size`."""
    for what in ("length", "rows"):
        if f"edges.{edge.key}.{what}" in places:
            return places.of(f"edges.{edge.key}.{what}", size)
    return places.of(f"edges.{edge.key}", size)


def _in_sections(edge: EdgeSpec, size: str, gauge: Gauge, place: Place) -> EdgePath:
    """An edge that the source gives section by section."""
    first, last = edge.sections[0].title, edge.sections[-1].title
    return EdgePath(key=edge.key, what=sectioned_edge(edge.key), span=(first, last),
                    shape=edge.shape,
                    sections=tuple(_section(edge, part, size, gauge, part.place or place)
                                   for part in edge.sections),
                    ends=edge.ends, fronts=int(edge.shape is EdgeShape.AROUND))


def _section(edge: EdgeSpec, part: EdgeSection, size: str, gauge: Gauge, place: Place) -> Section:
    if part.stitches is not None:
        stitches = part.stitches[size]
        made = Operand(Fraction(stitches), Role.SOURCE, part.title, place)
        return _lying(part, waiting(part.title, stitches, gauge, part.offer, made=made))
    whole = EdgeSpec(key=edge.key, fabric=edge.fabric, shape=edge.shape,
                     length=part.length, rows=part.rows)
    return _lying(part, _rows(part.title, whole, size, gauge, place))


def _lying(part: EdgeSection, section: Section) -> Section:
    """A section at the centre back, where the source says so."""
    if not part.centre_back:
        return section
    return replace(section, zone=Zone.BACK, centre_back=True)


def _rows(title: str, edge: EdgeSpec, size: str, gauge: Gauge, place: Place) -> Section:
    rows = edge_rows(edge, size, gauge, place=place)
    return replace(straight(title, rows.value, gauge.row), taken=rows.made)
