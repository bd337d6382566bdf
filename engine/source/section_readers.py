"""The readers of a source's sections, and of the files beside it, each imported for its use."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

SECTIONS: Mapping[str, str] = {
    "BandContext": "band_reading.BandContext", "Ground": "garment_reading.Ground",
    "read_bands": "band_reading.read_bands", "read_chart": "size_chart.read_chart",
    "read_collection": "collection_reading.read_collection",
    "read_edges": "edge_reading.read_edges", "read_garment": "garment_reading.read_garment",
    "with_shared": "shared.with_shared", "with_shared_texts": "shared.with_shared_texts",
    "with_swatches": "own_swatch.with_swatches"}
"""What reads a section, and what it takes, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what SECTIONS names
    from .band_reading import BandContext as BandContext
    from .band_reading import read_bands as read_bands
    from .collection_reading import read_collection as read_collection
    from .edge_reading import read_edges as read_edges
    from .garment_reading import Ground as Ground
    from .garment_reading import read_garment as read_garment
    from .own_swatch import with_swatches as with_swatches
    from .shared import with_shared as with_shared
    from .shared import with_shared_texts as with_shared_texts
    from .size_chart import read_chart as read_chart
else:
    __getattr__ = by_table(__package__, SECTIONS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, SECTIONS.values())
