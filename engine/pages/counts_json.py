"""counts.json: every count of a pattern for other programs to read, and its JSON Schema."""

from __future__ import annotations

import json
from typing import Any

from ..proof import Proof, SizeProof
from .figures import Figure, figures


def counts_json(proof: Proof) -> str:
    """Return the counts of all sizes as JSON text."""
    pattern = proof.pattern
    sizes = ",\n".join(_named(size.size, _places(size)) for size in proof.sizes)
    return (f'{{"pattern": {_json(pattern.slug)},\n"version": {_json(pattern.version)},\n'
            f'"sizes": {_json(list(pattern.sizes))},\n"counts": {{\n{sizes}\n}}}}\n')


def _places(size: SizeProof) -> str:
    """A line a count, so that two versions of a file can be compared line by line."""
    places = (_named(plan.band.key, ",\n".join(
        f"{_json(f.name)}: {_json(_entry(f))}" for f in figures(plan))) for plan in size.plans)
    return ",\n".join(places)


def _named(name: str, inside: str) -> str:
    return f"{_json(name)}: {{\n{inside}\n}}"


_json = json.JSONEncoder(ensure_ascii=False).encode


def _entry(figure: Figure) -> dict[str, Any]:
    return {"value": figure.value, "unit": figure.unit, "working": figure.working}


_ONE = ("edge_rows", "band_stitches", "buttonholes", "hole_stitches", "lower_end", "upper_end",
        "closing_loops", "depth_rows", "rows_to_holes", "rows_holes_to_fold", "fold_rows",
        "rows_fold_to_holes", "rows_to_finish")
_MANY = ("gaps", "closing_gaps")


def counts_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) that every counts.json meets."""
    names: dict[str, Any] = {name: {"$ref": "#/$defs/count"} for name in _ONE}
    names |= {name: {"$ref": "#/$defs/counts"} for name in _MANY}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Counts of a pattern in all its sizes",
        "type": "object",
        "required": ["pattern", "version", "sizes", "counts"],
        "additionalProperties": False,
        "properties": {
            "pattern": {"type": "string", "pattern": "^[a-z0-9][a-z0-9_-]*$"},
            "version": {"type": "string"},
            "sizes": {"type": "array", "items": {"type": "string"}, "minItems": 1,
                      "uniqueItems": True},
            "counts": {"type": "object", "additionalProperties": {
                "description": "a size", "type": "object",
                "additionalProperties": {"$ref": "#/$defs/place"}}},
        },
        "$defs": {
            "whole": {"type": "integer", "minimum": 0},
            "count": _with_value({"$ref": "#/$defs/whole"}),
            "counts": _with_value({"type": "array", "items": {"$ref": "#/$defs/whole"}}),
            "place": {"description": "a band", "type": "object", "properties": names,
                      "required": sorted(names)},
        },
    }


def _with_value(value: dict[str, Any]) -> dict[str, Any]:
    text = {"type": "string", "minLength": 1}
    return {"type": "object", "required": ["value", "unit", "working"],
            "additionalProperties": False,
            "properties": {"value": value, "unit": text, "working": text}}
