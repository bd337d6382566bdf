"""What a designer asks of a band that is a collar: points, outer dial, back depth, side shown."""

from __future__ import annotations

from ..catalogue.bands import KINDS, BandKind
from ..pattern.model import Collar
from .fields import Fields
from .keys.bands import BandKeys

COLLAR_KEYS = (BandKeys.points, BandKeys.outer_dial, BandKeys.back_depth, BandKeys.shows)


def read_collar(band: Fields, kind: BandKind, sizes: tuple[str, ...]) -> Collar:
    """The collar asked for, each key only of a kind of band that takes it."""
    for key in COLLAR_KEYS:
        if key.name in band and key.name not in kind.asks:
            able = [one.name for one in KINDS.values() if key.name in one.asks]
            band.findings.fault(
                "not-this-kind", band.table.entries[key.name].place,
                f"{key.name} in a {kind.name} band", f"it only in a {' or a '.join(able)}",
                "Delete it, or choose another kind of band.")
    for name in kind.needs:
        band.required(BandKeys.keys[name])
    shows = band.get(BandKeys.shows)
    return Collar(points=band.sized(BandKeys.points, sizes),
                  outer_dial=band.get(BandKeys.outer_dial),
                  back_depth=band.sized(BandKeys.back_depth, sizes),
                  shows=shows if "shows" in kind.asks else None)
