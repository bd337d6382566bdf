"""What is to be said of the designer's own pieces: edges that do not meet, tops that are left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..core.problems import Problem, error
from ..pattern.model import Band, GarmentSpec
from ..pattern.outlines import EdgeOf, EdgeSide, TopEnds
from ..pattern.places import Places
from ..shape.garment import Join


def edges_apart(places: Places, size: str, join: Join) -> Problem:
    """Return the finding that a declared join is not closed in `size`."""
    return error("edges-apart", places.of(f"garment.joins.{join.number - 1}"), size=size,
                 found=f"{join.title}: {join.working}",
                 expected="two edges that meet within the tolerance",
                 remedy="Change the measures of one of the two, or give the join an ease.")


def tops_left(places: Places, bands: Mapping[str, Band], spec: GarmentSpec) -> Iterator[Problem]:
    """Yield an error for every piece whose top waits and is taken by no band."""
    taken = {band.garment_edge for band in bands.values()}
    for piece in spec.outline.pieces:
        key = EdgeOf(piece.key, EdgeSide.TOP).key
        if piece.top is TopEnds.WAITING and key not in taken:
            yield error("top-waits", places.of(f"garment.pieces.{piece.key}.top"),
                        found=f"the stitches at the top of {piece.key} on waste yarn, which no "
                              "band takes", expected=f"a band with edge: {key}",
                        remedy="Add one, or write top: bound off.")
