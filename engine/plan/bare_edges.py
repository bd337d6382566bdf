"""Edges of pieces that roll: bare stocking stitch, without a hem, a rib, a band or a seam."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum

from ..catalogue.edge_roles import EdgeRole, role_of
from ..machine.records import dataclass
from ..pattern.model import Band, GarmentSpec
from ..pattern.outlines import EdgeOf, EdgeSide, Going, OutlinePiece
from ..shape.garment import Garment
from ..shape.piece import Piece


class Rolls(Enum):
    """To which side of the fabric an edge rolls."""

    KNIT = "knit"
    PURL = "purl"


def rolls_below(bands: Mapping[str, Band], garment: Garment, piece: Piece) -> Rolls | None:
    """Return to which side the lower edge of a piece rolls, None where it lies flat or in a seam.

    The first row of stocking stitch rolls to the knit side, the ends of its rows to the purl side
    (common practice, no source). A stitch chart, or needles left out of work, can keep an edge
    flat: nothing is said of these.
    """
    if piece.hem or piece.hung_on or piece.chart or piece.repeat:
        return None
    banded = {role_of(band.garment_edge) for band in bands.values()}
    if piece.key in garment.sewn_below:
        ends = "hem" in garment.edges and EdgeRole.HEM not in banded
        return Rolls.PURL if ends else None
    return None if banded & {EdgeRole.BRIM, EdgeRole.CUFF} else Rolls.KNIT


@dataclass(frozen=True, slots=True)
class BareSides:
    """What is bare of one side of a piece, or of both: from the row counter at `low` to `high`."""

    sides: tuple[EdgeSide, ...]
    low: int
    high: int


def bare_sides(garment_spec: GarmentSpec | None, bands: Mapping[str, Band], piece: Piece
              ) -> tuple[BareSides, ...]:
    """Return what of the sides of a designer's own piece lies in no join and takes no band.

    What is bound off there is left out, and a piece with a chart or needles left out, which can lie
    flat.
    """
    spec = garment_spec.outline if garment_spec else None
    own = next((one for one in spec.pieces if one.key == piece.key), None) if spec else None
    if own is None or spec is None or piece.chart or piece.repeat:
        return ()
    taken = {edge.key for join in spec.joins for edge in join.edges} | {
        band.garment_edge for band in bands.values()}
    found: dict[tuple[int, int], list[EdgeSide]] = {}
    for side in (EdgeSide.LEFT, EdgeSide.RIGHT):
        if EdgeOf(piece.key, side).key not in taken:
            for part in _merged(_bare(own, piece, side, taken)):
                found.setdefault(part, []).append(side)
    return tuple(BareSides(tuple(sides), *part) for part, sides in found.items())


def _bare(own: OutlinePiece, piece: Piece, side: EdgeSide, taken: set[str]
          ) -> Iterator[tuple[int, int]]:
    """The rows of each part of a side that is bare."""
    points, corners = own.points(side), list(piece.corners or ())
    if side is EdgeSide.RIGHT and not own.alike:
        corners = corners[len(own.left):]
    low = 0
    for point, corner in zip(points, corners, strict=False):
        is_taken = point.stretch and EdgeOf(piece.key, side, point.stretch).key in taken
        if corner.row > low and point.by is Going.SLOPE and not is_taken:
            yield low, corner.row
        low = corner.row
    if low < piece.left.rows:
        yield low, piece.left.rows


def _merged(parts: Iterator[tuple[int, int]]) -> list[tuple[int, int]]:
    """Parts that follow one another as one."""
    out: list[tuple[int, int]] = []
    for low, high in parts:
        follows = bool(out) and out[-1][1] == low
        out.append((out.pop()[0] if follows else low, high))
    return out
