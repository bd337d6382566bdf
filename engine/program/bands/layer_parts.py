"""The layers of bands that few bands have, each imported where a band has them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ...core.on_use import by_table, import_all_of

LAYER_PARTS: Mapping[str, str] = {
    "mitred_first_layer": "mitre.mitred_first_layer",
    "mitred_second_layer": "mitre.mitred_second_layer"}
"""What writes the steps, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what LAYER_PARTS names
    from .mitre import (
        mitred_first_layer as mitred_first_layer,
    )
    from .mitre import (
        mitred_second_layer as mitred_second_layer,
    )
else:
    __getattr__ = by_table(__package__, LAYER_PARTS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, LAYER_PARTS.values())
