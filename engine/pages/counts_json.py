"""counts.json: every count of a pattern for other programs to read, and its JSON Schema."""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from ..core.counted import Count
from ..core.counts import Unit, whole
from ..core.expression import Expression, Noted, plain
from ..core.operands import Note
from ..proof.advice import GarmentAdvice
from ..proof.proof import KnittedPiece, Proof, SizeProof
from ..proof.yarn_shares import free_key
from .expression_json import VERSION, expression_schema, place_schema, placed, tree_json
from .figures import Figure
from .materials import needles_of
from .shared import Shared


def counts_json(proof: Proof, common: Shared, advice: GarmentAdvice | None = None) -> str:
    """Return the counts of all sizes as JSON text, a garment's finished lengths and yarn too."""
    pattern = proof.pattern
    sizes = ",\n".join(_named(size.size, _places(size, common)) for size in proof.sizes)
    more = f"{_lengths(proof)}{_measures(proof)}{_yarn(common)}" if advice else ""
    return (f'{{"pattern": {_json(pattern.slug)},\n"version": {_json(pattern.version)},\n'
            f'"expression_version": {VERSION},\n'
            f'"sizes": {_json(list(pattern.sizes))},\n"counts": {{\n{sizes}\n}}{more}}}\n')


def _places(size: SizeProof, common: Shared) -> str:
    """A line a count, so that two versions of a file can be compared line by line."""
    bands = [_named(plan.band.key, ",\n".join(
        f"{_json(f.name)}: {_json(_entry(f))}" for f in common.figures[size.size, plan.band.key]))
        for plan in size.plans]
    taken = {plan.band.key for plan in size.plans}
    pieces = [_named(free_key(p.piece.key, "piece", taken), ",\n".join(
        f"{_json(name)}: {_json(_counted(count))}" for name, count in piece_counts(size, p)))
        for p in size.pieces]
    return ",\n".join((*bands, *pieces))


def piece_counts(size: SizeProof, knitted: KnittedPiece) -> Iterator[tuple[str, Count]]:
    """A piece's own counts by name, its rows from 0 and the needles it takes at its widest."""
    assert size.assembled is not None
    piece = knitted.piece
    for key, name, count in size.assembled.garment.counts:
        if key == piece.key:
            yield name, count
    if (piece.key, "stitches") not in {(k, n) for k, n, _ in size.assembled.garment.counts}:
        yield "stitches", piece.stitches
    top = max(state.counter for state in knitted.run.states)
    yield "rows", Count(Noted(plain(top), Note.TOP_ROW), Unit.ROWS)
    yield "widest", Count(Noted(plain(needles_of(knitted)), Note.WIDEST), Unit.NEEDLES)


def _lengths(proof: Proof) -> str:
    """Finished lengths of every size, to a hundredth of a millimetre."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(name)}: " + _json({"mm": hundredths(one.length.mm), "working": one.working,
                                    **_expressed(one.made)})
        for name, one in size.assembled.garment.lengths.items()))
        for size in proof.sizes if size.assembled)
    return f',\n"lengths": {{\n{sizes}\n}}'


def _measures(proof: Proof) -> str:
    """The measures that every size is cut by, down to the size chart."""
    sizes = ",\n".join(_named(size.size, ",\n".join(
        f"{_json(one.name)}: " + _json({"mm" if one.is_length else "number": hundredths(one.value),
                                       "working": one.working, **_expressed(one.made),
                                       **placed(one.place)})
        for one in size.assembled.measures.values()))
        for size in proof.sizes if size.assembled)
    return f',\n"measures": {{\n{sizes}\n}}'


def hundredths(value: Fraction) -> str:
    """Return a length [mm], or a plain number, to a hundredth: "510.00", "-2.50"."""
    ones, rest = divmod(whole(abs(value) * 100), 100)
    return f"{'-' if value < 0 else ''}{ones}.{rest:02d}"


def _yarn(common: Shared) -> str:
    sizes = ",\n".join(_named(size, ",\n".join(
        _named(need.yarn.key, ",\n".join(f"{_json(name)}: {_json(_counted(count))}"
                                         for name, count in need.counts))
        for need in needed)) for size, needed in common.needs.items())
    return f',\n"yarn": {{\n{sizes}\n}}'


def _named(name: str, inside: str) -> str:
    return f"{_json(name)}: {{\n{inside}\n}}"


_json = json.JSONEncoder(ensure_ascii=False).encode


def _entry(figure: Figure) -> dict[str, Any]:
    return {"value": figure.value, "unit": figure.unit, "working": figure.working,
            **_expressed(figure.made)}


def _counted(count: Count) -> dict[str, Any]:
    return {"value": count.value, "unit": count.unit.value, "working": count.working,
            **_expressed(count.made)}


def _expressed(made: Expression | tuple[Expression, ...]) -> dict[str, Any]:
    """The expression of a count, or of every one of a list."""
    return {"expression": [tree_json(one) for one in made] if isinstance(made, tuple)
            else tree_json(made)}


_ONE = ("edge_rows", "band_stitches", "buttonholes", "hole_stitches", "lower_end", "upper_end",
        "closing_loops", "depth_rows", "rows_to_holes", "rows_holes_to_fold", "fold_rows",
        "rows_fold_to_holes", "rows_to_finish")
_MANY = ("gaps", "closing_gaps", "parts")


def counts_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) that every counts.json meets."""
    names: dict[str, Any] = {name: {"$ref": "#/$defs/count"} for name in _ONE}
    names |= {name: {"$ref": "#/$defs/counts"} for name in _MANY}
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
        },
        "$defs": {
            "whole": {"type": "integer", "minimum": 0},
            "expression": expression_schema(),
            "count": _with_value({"$ref": "#/$defs/whole"}, {"$ref": "#/$defs/expression"}),
            "counts": _with_value({"type": "array", "items": {"$ref": "#/$defs/whole"}},
                                  {"type": "array", "items": {"$ref": "#/$defs/expression"}}),
            "place": {"anyOf": [{"$ref": "#/$defs/band"}, {
                "$ref": "#/$defs/piece", "required": ["stitches", "rows", "widest"]}]},
            "band": {"type": "object", "properties": names, "required": sorted(names)},
            "piece": {"type": "object", "additionalProperties": {"$ref": "#/$defs/count"}},
            "length": {
                "type": "object", "required": ["mm", "working", "expression"],
                "additionalProperties": False,
                "properties": {"mm": {"type": "string", "pattern": r"^[0-9]+\.[0-9]{2}$"},
                               "working": {"type": "string", "minLength": 1},
                               "expression": {"$ref": "#/$defs/expression"}}},
            "measure": _measure_schema(),
        },
    }


def _with_value(value: dict[str, Any], expression: dict[str, Any]) -> dict[str, Any]:
    text = {"type": "string", "minLength": 1}
    return {"type": "object", "required": ["value", "unit", "working", "expression"],
            "additionalProperties": False,
            "properties": {"value": value, "unit": text, "working": text,
                           "expression": expression}}


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
