"""What a designer asks of a band that is a collar: points, outer dial, back depth, side shown."""

from __future__ import annotations

from ..catalogue.bands import BandKind
from ..pattern.model import CollarSpec
from .fields import Fields
from .keys.band_keys import BandKeys


def read_collar(band: Fields, kind: BandKind, sizes: tuple[str, ...]) -> CollarSpec:
    """The collar asked for."""
    for name in kind.needs:
        band.required(BandKeys.keys[name])
    shows = band.get(BandKeys.shows)
    return CollarSpec(points=band.sized(BandKeys.points, sizes),
                      outer_dial=band.get(BandKeys.outer_dial),
                      back_depth=band.sized(BandKeys.back_depth, sizes),
                      shows=shows if "shows" in kind.asks else None)
