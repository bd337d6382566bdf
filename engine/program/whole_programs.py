"""The program of a piece of a garment, imported where a pattern has a garment."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..core.on_use import by_table, import_all_of

PROGRAMS: Mapping[str, str] = {
    "piece_program": "piece_program.piece_program"}
"""What writes a whole program, by the name that it has here."""

if TYPE_CHECKING:  # who reads imports, calls and types sees here what PROGRAMS names
    from .piece_program import piece_program as piece_program
else:
    __getattr__ = by_table(__package__, PROGRAMS)


def import_all() -> None:
    """Import all of these modules, for whoever divides into processes that share them."""
    import_all_of(__package__, PROGRAMS.values())
