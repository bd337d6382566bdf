"""Where the source has an entry of a band."""

from __future__ import annotations

from ..core.problems import Place
from .model import Band


def place_in(band: Band, path: str) -> Place | None:
    """Return where an entry of a band stands, such as "buttonholes.ends.lower", else the nearest
    thing that holds it; None for a band that comes from no source."""
    while path and path not in band.places:
        path = path.rpartition(".")[0]
    return band.places.get(path)
