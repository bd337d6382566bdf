"""The JSON Schemas that are published: of the sources, of counts.json and of a page's facts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from ..source.keys.collection_keys import CollectionKeys
from ..source.keys.pattern_keys import BedFileKeys, PatternKeys, SharedFileKeys
from ..source.keys.size_chart_keys import ChartFileKeys
from .counts_schema import counts_schema
from .page_facts import facts_schema
from .source_schema import source_schema

SCHEMAS: Mapping[str, Callable[[], dict[str, Any]]] = {
    "counts": counts_schema, "facts": facts_schema,
    "pattern": partial(source_schema, PatternKeys), "bed": partial(source_schema, BedFileKeys),
    "size-chart": partial(source_schema, ChartFileKeys),
    "collection": partial(source_schema, CollectionKeys),
    "shared": partial(source_schema, SharedFileKeys)}
"""What makes each JSON Schema that is published, by the name of its file."""
