"""All tables of keys, by their names: of a pattern, of a bed's file, of a size chart's file."""

from __future__ import annotations

from collections.abc import Iterator

from .head import BedFileKeys, PatternKeys
from .key import Keys
from .sizes import ChartFileKeys

ROOTS: tuple[type[Keys], ...] = (PatternKeys, BedFileKeys, ChartFileKeys)


def _within(table: type[Keys]) -> Iterator[type[Keys]]:
    """A table, and all that stand under its keys."""
    yield table
    for key in table.keys.values():
        if key.table is not None:
            yield from _within(key.table)


TABLES = {table.__name__: table for root in ROOTS for table in _within(root)}
