"""A garment as it is planned in one size, and the edges that its bands take."""

from __future__ import annotations

from collections.abc import Mapping

from ..catalogue.pocket_edges import PAIR, RIGHT
from ..machine.records import dataclass
from ..pattern.edges import EdgeSpec
from ..pattern.fabrics import Fabric
from ..pattern.model import Band
from ..pattern.places import Places
from ..shape.edge_path import EdgePath
from ..shape.garment import Garment
from ..sizing.quantities import Quantity
from .own_edges import own_edge

PAIRS: Mapping[str, str] = {"front_edge": "right_front.front_edge", "armhole": "right_armhole",
                            "placket": "right_placket", PAIR: RIGHT}


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembled:
    """A garment in one size with the measures it was cut from.

    A `short_sleeve` ends far above the wrist, as the designer asks.
    """

    garment: Garment
    measures: Mapping[str, Quantity]
    short_sleeve: bool = False


def band_edge(places: Places, fabrics: Mapping[str, Fabric], edges: Mapping[str, EdgeSpec],
              band: Band, size: str, assembled: Assembled | None) -> EdgePath:
    """Return the edge a band takes in `size`: one of the garment's, or one the source gives.

    Raises KeyError where there is no such edge.
    """
    if band.edge in edges:
        return own_edge(places, fabrics, edges[band.edge], size)
    if assembled is None:
        raise KeyError(band.edge)
    return assembled.garment.edges[PAIRS.get(band.edge, band.edge)]


def left_of_pair(edge_specs: Mapping[str, EdgeSpec], band: Band, assembled: Assembled | None
                ) -> EdgePath | None:
    """Return the left edge of the pair that a band takes, where it has other rows than the right
    one; None where both are alike."""
    if assembled is None or band.edge in edge_specs or band.edge not in PAIRS:
        return None
    edges, key = assembled.garment.edges, PAIRS[band.edge]
    both = edges[key], edges[key.replace("right", "left", 1)]
    one, other = ([(s.places, s.segments) for s in edge.sections] for edge in both)
    return None if one == other else both[1]
