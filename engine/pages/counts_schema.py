"""The JSON Schema that every counts.json meets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..shape.even_gaps import Remainder
from ..shape.profile import How
from .expression_json import EXACT, VERSION, expression_schema, place_schema

_ONE = ("edge_rows", "band_stitches", "buttonholes", "hole_stitches", "lower_end", "upper_end",
        "closing_loops", "depth_rows", "rows_to_holes", "rows_holes_to_fold", "fold_rows",
        "rows_fold_to_holes", "rows_to_finish")
# Of a band whose rows run along its edge, and that is sewn on.
_ONE_ALONG = ("edge_rows", "band_rows", "cast_on_stitches", "depth_stitches", "buttonholes",
              "hole_stitches", "lower_end", "upper_end")
_MANY = ("gaps", "closing_gaps", "parts")


def counts_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) that every counts.json meets."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Counts of a pattern in all its sizes",
        "type": "object",
        "required": ["pattern", "version", "expression_version", "sizes", "counts"],
        "additionalProperties": False,
        "properties": {
            "pattern": {"type": "string", "pattern": "^[a-z0-9][a-z0-9_-]*$"},
            "version": {"type": "string"},
            "expression_version": {"const": VERSION},
            "sizes": {"type": "array", "items": {"type": "string"}, "minItems": 1,
                      "uniqueItems": True},
            "counts": {"type": "object", "additionalProperties": {
                "description": "a size", "type": "object",
                "additionalProperties": {"$ref": "#/$defs/place"}}},
            "lengths": {"type": "object", "additionalProperties": {
                "description": "a size", "type": "object",
                "additionalProperties": {"$ref": "#/$defs/length"}}},
            "measures": {"type": "object", "additionalProperties": {
                "description": "a size", "type": "object",
                "additionalProperties": {"$ref": "#/$defs/measure"}}},
            "yarn": {"type": "object", "additionalProperties": {
                "description": "a size", "type": "object",
                "additionalProperties": {"$ref": "#/$defs/piece"}}},
            "joins": {"type": "object", "additionalProperties": {
                "description": "a size", "type": "object",
                "additionalProperties": _join_schema()}},
            "bands": _exact_schema(),
            "materials": {"type": "object", "additionalProperties": {"$ref": "#/$defs/piece"}},
            "gauges": {"type": "object", "additionalProperties": _gauge_schema()},
            "schedules": _schedule_schema(),
        },
        "$defs": {
            "whole": {"type": "integer", "minimum": 0},
            "expression": expression_schema(),
            "count": _with_value({"$ref": "#/$defs/whole"}, {"$ref": "#/$defs/expression"}),
            "counts": _with_value({"type": "array", "items": {"$ref": "#/$defs/whole"}},
                                  {"type": "array", "items": {"$ref": "#/$defs/expression"}}),
            "place": {"anyOf": [{"$ref": "#/$defs/band"}, {"$ref": "#/$defs/sewn_band"}, {
                "$ref": "#/$defs/piece", "required": ["stitches", "rows", "widest"]}]},
            "band": _band_schema(_ONE, _MANY),
            "sewn_band": _band_schema(_ONE_ALONG, ("gaps",)),
            "piece": {"type": "object", "additionalProperties": {"$ref": "#/$defs/count"}},
            "length": _length_schema(),
            "measure": _measure_schema(),
        },
    }


def _length_schema() -> dict[str, Any]:
    """A finished length, to a hundredth of a millimetre."""
    return {"type": "object", "required": ["mm", "working", "expression"],
            "additionalProperties": False,
            "properties": {"mm": {"type": "string", "pattern": r"^[0-9]+\.[0-9]{2}$"},
                           "working": {"type": "string", "minLength": 1},
                           "expression": {"$ref": "#/$defs/expression"}}}


def _exact_schema() -> dict[str, Any]:
    """What is computed of every band of a size and not rounded."""
    figure = _with_value(EXACT, {"$ref": "#/$defs/expression"})
    band = {"description": "a band", "type": "object", "additionalProperties": figure}
    return {"type": "object", "additionalProperties": {
        "description": "a size", "type": "object", "additionalProperties": band}}


def _band_schema(one: Sequence[str], many: Sequence[str]) -> dict[str, Any]:
    """The counts of a band: each by itself, or several of a kind."""
    names: dict[str, Any] = {name: {"$ref": "#/$defs/count"} for name in one}
    names |= {name: {"$ref": "#/$defs/counts"} for name in many}
    return {"type": "object", "properties": names, "required": sorted(names)}


def _with_value(value: dict[str, Any], expression: dict[str, Any]) -> dict[str, Any]:
    text = {"type": "string", "minLength": 1}
    return {"type": "object", "required": ["value", "unit", "working", "expression"],
            "additionalProperties": False,
            "properties": {"value": value, "unit": text, "working": text,
                           "expression": expression}}


def _exactly(name: str) -> dict[str, Any]:
    """An exact figure under `name`, with its expression."""
    return {"type": "object", "required": [name, "expression"], "additionalProperties": False,
            "properties": {name: EXACT, "expression": {"$ref": "#/$defs/expression"}}}


def _join_schema() -> dict[str, Any]:
    """A join: both sides in a unit; how much more the second is to have, has, and may have."""
    text = {"type": "string", "minLength": 1}
    names: dict[str, Any] = {
        "unit": text, "working": text, "one": _exactly("value"), "other": _exactly("value"),
        "ease": EXACT, "off": EXACT, "allowed": EXACT}
    return {"type": "object", "required": list(names), "additionalProperties": False,
            "properties": names}


def _gauge_schema() -> dict[str, Any]:
    """The gauge of a fabric, and the yarn in a stitch of it: all exactly."""
    of_stitch = {"grams": _exactly("value"), "metres": _exactly("value")}
    return {"description": "a fabric", "type": "object",
            "required": ["working", "stitch", "row", "yarn"], "additionalProperties": False,
            "properties": {"working": {"type": "string", "minLength": 1},
                           "stitch": _exactly("mm"), "row": _exactly("mm"),
                           "yarn": {"type": "object", "additionalProperties": False,
                                    "properties": of_stitch}}}


def _schedule_schema() -> dict[str, Any]:
    """The slopes of every piece of a size: spread evenly in an order, or in steps."""
    slope = {"oneOf": [_even_schema(), _stepped_schema()]}
    piece = {"description": "a piece", "type": "object", "additionalProperties": slope}
    return {"type": "object", "additionalProperties": {
        "description": "a size", "type": "object", "additionalProperties": piece}}


def _even_schema() -> dict[str, Any]:
    """An even slope: its numbers, and the order of its gaps."""
    count = {"$ref": "#/$defs/count"}
    names: dict[str, Any] = dict.fromkeys(
        ("rows_below", "rows", "events", "shorter_gap", "shorter_times", "longer_gap",
         "longer_times", "rows_left"), count)
    needed = ["shaping", "order", *names]
    names |= {"first_row": count, "shaping": {"enum": [how.value for how in How]},
              "order": {"enum": [order.value for order in Remainder]}}
    return {"type": "object", "required": needed, "additionalProperties": False,
            "properties": names}


def _stepped_schema() -> dict[str, Any]:
    """Stitches that go in steps: how many at each, what they are computed from."""
    count = {"$ref": "#/$defs/count"}
    names: dict[str, Any] = dict.fromkeys(("rows_below", "rows_apart", "stitches", "times"), count)
    needed = ["shaping", "steps", *names]
    names |= dict.fromkeys(("stitches_above", "times_above", "stair", "repeated", "widened"), count)
    names |= {"shaping": {"enum": [how.value for how in How]},
              "steps": {"type": "array", "items": count, "minItems": 1}}
    return {"type": "object", "required": needed, "additionalProperties": False,
            "properties": names}


def _measure_schema() -> dict[str, Any]:
    """A measure: a length, or a plain number; `source` where the designer's pattern has it."""
    exact = {"type": "string", "pattern": r"^-?[0-9]+\.[0-9]{2}$"}
    return {"type": "object", "required": ["working", "expression"],
            "oneOf": [{"required": ["mm"]}, {"required": ["number"]}],
            "additionalProperties": False,
            "properties": {"mm": exact, "number": exact,
                           "working": {"type": "string", "minLength": 1},
                           "expression": {"$ref": "#/$defs/expression"},
                           "source": place_schema()}}
