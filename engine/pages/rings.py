"""What a piece measures that its own seam makes a ring: all round, and how high with its bands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..core.counted import Reckoned
from ..core.edge_parts import RingSeam
from ..core.expression import Expression, Operand, Term
from ..core.operands import Role
from ..fabric.gauge import measure
from ..fabric.piece_fabrics import piece_fabric
from ..markup.html import esc
from ..pattern.fabrics import Fabric
from ..pattern.model import GarmentSpec
from ..plan.band import BandPlan
from ..proof.proof import SizeProof
from ..words import garment_text as words
from .band_lengths import finished


def rings(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], size: SizeProof
         ) -> Iterator[tuple[str, Reckoned]]:
    """Yield both measures of every piece whose upper edge is sewn to its lower one, as a cowl's,
    each with its label (HTML): its length goes round, and its width is how high it is.

    The seam is sewn inside the chains of both edges and takes no row. A band is hung so many
    stitches in, and as deep as it is finished (common practice, no source).
    """
    assert size.assembled is not None
    garment = size.assembled.garment
    for piece in garment.pieces:
        sides = [f"{piece.key}.{side}" for side in ("left", "right")]
        if not all(edge in garment.edges and garment.edges[edge].seam is RingSeam.OWN_ENDS
                   for edge in sides):
            continue
        named = piece.key.replace("_", " ")
        yield esc(words.all_round(piece.title)), garment.lengths[f"{named} height"]
        on = [plan for plan in size.plans if plan.band.garment_edge in sides]
        if on:
            stitch = measure(piece_fabric(spec, fabrics, piece.key).swatches).stitch
            high = garment.lengths[f"{named} width"].made
            yield esc(words.high_with_bands(piece.title)), Reckoned(_banded(high, on, stitch))


def _banded(high: Expression, on: list[BandPlan], stitch: Fraction) -> Expression:
    """The height with those bands, less what lies inside each [mm]."""
    for plan in on:
        hidden = Operand(Fraction(plan.band.stitches_in), Role.INSIDE)
        deep = Term(finished(plan).depth.made, Role.BANDS, plan.band.title.lower())
        high = high - hidden * Operand(stitch, Role.STITCH_WIDTH) + deep
    return high
