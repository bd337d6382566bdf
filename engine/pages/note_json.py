"""What a note says besides its calculation, in JSON: written and read back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from ..core.counts import Rounding, Unit
from ..core.expression import Expression
from ..core.note_arguments import (
    NoteArgument,
    NotedAmount,
    NotedCalculation,
    NotedFigures,
    NotedLength,
    NotedParts,
    NotedRuns,
    NotedSchedule,
    NoteWord,
)


def note_arguments(args: tuple[NoteArgument, ...], tree: Callable[[Expression], Any]) -> list[Any]:
    """Return what stands under "with": a value for each argument; `tree` writes an expression."""
    return [_written(one, tree) for one in args]


def _written(one: NoteArgument, tree: Callable[[Expression], Any]) -> Any:
    match one:
        case NoteWord():
            return {"word": one.value}
        case NotedAmount(value, unit):
            return {"count": value, "unit": unit.value}
        case NotedLength(mm, is_exact):
            return {"mm": str(mm), **({"exact": True} if is_exact else {})}
        case NotedFigures(figures):
            return list(figures)
        case NotedRuns(runs):
            return {"runs": [[many, how.value] for many, how in runs]}
        case NotedParts(parts):
            return {"parts": [_written(one, tree) | _written(what, tree) for one, what in parts]}
        case NotedSchedule(first, blocks):
            return {"first": first, "blocks": [list(block) for block in blocks]}
        case NotedCalculation(made, unit):
            return {"of": tree(made), "unit": unit.value}
        case Rounding(rule, of, plus):
            return {"rule": rule, "multiple": of, "plus": plus}
    return one


def read_arguments(data: list[Any], tree: Callable[[Any], Expression]) -> tuple[NoteArgument, ...]:
    """Return the arguments that `note_arguments` wrote; `tree` reads an expression.

    Raises KeyError, TypeError or ValueError for what it does not write.
    """
    return tuple(_read(one, tree) for one in data)


def _read(one: Any, tree: Callable[[Any], Expression]) -> NoteArgument:
    match one:
        case {"word": word}:
            return NoteWord(word)
        case {"count": value, "unit": unit}:
            return NotedAmount(int(value), Unit(unit))
        case {"mm": mm}:
            return NotedLength(Fraction(mm), is_exact=one.get("exact", False))
        case {"runs": runs}:
            return NotedRuns(tuple((many, NoteWord(how)) for many, how in runs))
        case {"parts": parts}:
            return NotedParts(tuple((NotedAmount(int(each["count"]), Unit(each["unit"])),
                                     NoteWord(each["word"])) for each in parts))
        case {"first": first, "blocks": blocks}:
            return NotedSchedule(first, tuple((every, times) for every, times in blocks))
        case {"of": made, "unit": unit}:
            return NotedCalculation(tree(made), Unit(unit))
        case {"rule": rule, "multiple": of, "plus": plus}:
            return Rounding(rule, of, plus)
        case list():
            return NotedFigures(tuple(one))
        case None | int() | str():
            return one
    raise ValueError(one)


def argument_schema(tree: Mapping[str, Any]) -> dict[str, Any]:
    """Return the schema of one argument; `tree` is that of an expression."""
    number, text = {"type": "integer"}, {"type": "string"}
    word, pair = {"enum": [word.value for word in NoteWord]}, {
        "type": "array", "items": number, "minItems": 2, "maxItems": 2}
    part = {"count": number, "unit": text, "word": word}
    kinds: tuple[dict[str, Any], ...] = (
        {"word": word}, {"count": number, "unit": text},
        {"parts": {"type": "array", "items": {
            "type": "object", "properties": part, "additionalProperties": False,
            "required": list(part)}}},
        {"first": {"type": ["integer", "null"]}, "blocks": {"type": "array", "items": pair}},
        {"mm": text, "exact": {"const": True}}, {"of": tree, "unit": text},
        {"runs": {"type": "array", "items": {"type": "array"}}},
        {"rule": text, "multiple": number, "plus": number})
    return {"anyOf": [{"type": ["integer", "string", "null"]}, {"type": "array", "items": number},
                      *({"type": "object", "properties": kind, "additionalProperties": False,
                         "required": [key for key in kind if key != "exact"]} for kind in kinds)]}
