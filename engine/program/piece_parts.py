"""The steps of how some pieces begin, divide and end, each imported where a piece does so."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

PIECE_PARTS: Mapping[str, str] = {
    "divide": "halves.divide", "divide_held": "held_neck.divide_held",
    "folded_row": "hems.folded_row", "hang_on": "pocket.hang_on", "knit_hem": "hems.knit_hem",
    "knit_quarters": "quarters.knit_quarters", "knit_rib": "rib.knit_rib",
    "pocket_edges": "pocket.pocket_edges"}
"""What writes the steps, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what PIECE_PARTS names
    from .halves import divide as divide
    from .held_neck import divide_held as divide_held
    from .hems import folded_row as folded_row
    from .hems import knit_hem as knit_hem
    from .pocket import hang_on as hang_on
    from .pocket import pocket_edges as pocket_edges
    from .quarters import knit_quarters as knit_quarters
    from .rib import knit_rib as knit_rib
else:
    __getattr__ = by_table(__package__, PIECE_PARTS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, PIECE_PARTS.values())
