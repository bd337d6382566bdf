"""What a designer asks of a band that is a collar: points, outer dial, back depth, side shown."""

from __future__ import annotations

from ..catalogue.bands import KINDS, BandKind
from ..pattern.model import Collar, Shown
from .fields import Fields
from .materials import by_size
from .values import dial, length, word

COLLAR_KEYS = ("points", "outer_dial", "back_depth", "shows")
EXAMPLES = {"back_depth": "12 cm"}


def read_collar(band: Fields, kind: BandKind, sizes: tuple[str, ...]) -> Collar:
    """The collar asked for, each key only of a kind of band that takes it."""
    for key in COLLAR_KEYS:
        if key in band and key not in kind.asks:
            band.findings.fault(
                "not-this-kind", band.table.entries[key].place, f"{key} in a {kind.name} band",
                f"it only in a {' or a '.join(_able(key))}",
                "Delete it, or choose another kind of band.")
    for key in kind.needs:
        band.required(key, EXAMPLES[key])
    shows = band.get("shows", word({s.value: s for s in Shown}), Shown.KNIT)
    return Collar(points=by_size(band, "points", length("point of a collar"), sizes),
                  outer_dial=band.get("outer_dial", dial(), None),
                  back_depth=by_size(band, "back_depth", length("back depth of a collar"), sizes),
                  shows=shows if "shows" in kind.asks else None)


def _able(key: str) -> list[str]:
    return [kind.name for kind in KINDS.values() if key in kind.asks]
