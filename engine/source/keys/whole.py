"""All tables of keys by their names, and the ranges of all kinds of figure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ...core.ranges import Range
from .. import depths, outright_sizes, rates, spellings
from ..values import Figure
from .collection_keys import CollectionKeys
from .key import Keys, Several
from .pattern_keys import BedFileKeys, PatternKeys, SharedFileKeys
from .size_chart_keys import ChartFileKeys

ROOTS: tuple[type[Keys], ...] = (PatternKeys, BedFileKeys, ChartFileKeys, CollectionKeys)


def within(table: type[Keys]) -> Iterator[type[Keys]]:
    """Yield a table, and all that stand under its keys."""
    yield table
    for key in table.keys.values():
        if key.table is not None:
            yield from within(key.table)


def figures_read() -> Iterator[Figure[Any]]:
    """The readers of the figures of a source: under a key, in its list, within its value."""
    for key in (key for table in TABLES.values() for key in table.keys.values()):
        read = key.read.item if isinstance(key.read, Several) else key.read
        if isinstance(read, Figure):
            yield read
    yield from (*spellings.FIGURES, *depths.FIGURES, *rates.FIGURES, *outright_sizes.FIGURES)


TABLES = {table.__name__: table for root in (*ROOTS, SharedFileKeys) for table in within(root)}
RANGES: Mapping[str, Range] = {figure.range.kind: figure.range for figure in figures_read()}
