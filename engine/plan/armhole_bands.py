"""What the bands on both armholes take of a back between them."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..catalogue.edge_roles import EdgeRole, role_of, side_of
from ..core.expression import NOTHING, Expression, Operand, plain
from ..core.operands import Role
from ..pattern.band_places import place_in
from ..pattern.model import Band


def under_armhole_bands(bands: Mapping[str, Band]) -> Expression:
    """Return the stitches of a back that lie under the bands on its armholes, each hung so many in
    from the edge as its source says; none where no armhole has a band (geometry)."""
    made: Expression = NOTHING
    for band in bands.values():
        if role_of(band.garment_edge) is EdgeRole.ARMHOLE:
            own = _under(band)
            made = own if made is NOTHING else made + own
    return made


def _under(band: Band) -> Expression:
    """What one band takes, of both armholes or of the one whose edge it has."""
    one = Operand(Fraction(band.stitches_in), Role.ARMHOLE_BAND,
                  place=place_in(band, "stitches_in"))
    return one if side_of(band.garment_edge) else plain(2) * one
