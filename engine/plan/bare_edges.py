"""Lower edges of pieces that roll: bare stocking stitch, without a hem, a rib or a band."""

from __future__ import annotations

from enum import Enum

from ..catalogue.edges import EdgeRole, role_of
from ..pattern.model import Pattern
from ..shape.garment import Garment
from ..shape.piece import Piece


class Rolls(Enum):
    """To which side of the fabric an edge rolls."""

    KNIT = "knit"
    PURL = "purl"


def rolls_below(pattern: Pattern, garment: Garment, piece: Piece) -> Rolls | None:
    """Return to which side the lower edge of a piece rolls, None where it lies flat or in a seam.

    The first row of stocking stitch rolls to the knit side, the ends of its rows to the purl side
    (common practice, no source). A stitch chart, or needles left out of work, can keep an edge
    flat: nothing is said of these.
    """
    if piece.hem or piece.hung_on or piece.chart or piece.repeat:
        return None
    banded = {role_of(band.garment_edge) for band in pattern.bands.values()}
    if piece.key in garment.sewn_below:
        ends = "hem" in garment.edges and EdgeRole.HEM not in banded
        return Rolls.PURL if ends else None
    return None if banded & {EdgeRole.BRIM, EdgeRole.CUFF} else Rolls.KNIT
