"""The steps of what few pieces have at some of their rows, each imported where a piece has it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

ROW_PARTS: Mapping[str, str] = {
    "knit_held_rows": "short_row_steps.knit_held_rows", "open_pocket": "pocket.open_pocket",
    "shape_dart": "dart_steps.shape_dart"}
"""What writes the steps, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what ROW_PARTS names
    from .dart_steps import shape_dart as shape_dart
    from .pocket import open_pocket as open_pocket
    from .short_row_steps import knit_held_rows as knit_held_rows
else:
    __getattr__ = by_table(__package__, ROW_PARTS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, ROW_PARTS.values())
