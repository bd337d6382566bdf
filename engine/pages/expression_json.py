"""The expression of a count as JSON, and its part of the schema of counts.json."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..core.counts import Rounding
from ..core.expression import Chosen, Expression, LookUp, Noted, Operand, Rounded, Term
from ..core.expression_parts import inside
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..sizing.written import source_of
from ..words.terms.operands import WORDS
from .expression_kinds import CALCULATIONS

VERSION = 5  # of the form of counts.json; a change that a reader must know of raises it
READ = (4, VERSION)  # those whose expressions are as they are now; 4 had no schedules

EXACT = {"type": "string", "pattern": r"^-?[0-9]+(/[1-9][0-9]*)?$"}
"""The schema of an exact figure: a whole number, or a fraction."""

# Each is published once, under its own name.
_MEASURES = (Role.MEASURE, Role.PLAIN_MEASURE)
_OF_FABRICS = (Role.STITCH_GRAMS, Role.STITCH_METRES)


Beside = Mapping[int, str]
"""The names of figures that stand beside an expression, by the identity of theirs."""
_NOTHING: Beside = {}


def tree_json(tree: Expression, beside: Beside = _NOTHING) -> dict[str, Any]:
    """Return an expression as nested JSON objects, every figure as an exact fraction in text.

    What stands `beside` it is an operand with its name. Raises TypeError for what is no expression.
    """
    if isinstance(tree, Operand):
        return {"is": "operand", "role": tree.role.value, "value": str(tree.value),
                **_unit(tree.role), **_named(tree.name), **placed(tree.place)}
    if isinstance(tree, Term) and ((tree.role in _MEASURES and not source_of(tree.of))
                                   or (tree.role in _OF_FABRICS and tree.name)
                                   or id(tree.of) in beside):
        return {"is": "operand", "role": tree.role.value, "value": str(tree.value),
                **_unit(tree.role), **_named(beside.get(id(tree.of), tree.name))}
    if isinstance(tree, Term):
        return {"is": "count", "role": tree.role.value, **_named(tree.name),
                "of": tree_json(tree.of, beside)}
    if kind := CALCULATIONS.get(type(tree)):
        of = [tree_json(part, beside) for part in inside(tree)]
        return {"is": kind.name, "of": of[0] if kind.parts == 1 else of}
    if isinstance(tree, LookUp):
        return {"is": "look-up", "table": tree.table, "key": tree.key,
                "entries": dict(tree.entries)}
    if isinstance(tree, Rounded):
        return _rounded(tree, beside)
    if isinstance(tree, Noted):
        return {"is": "noted", "note": _name(tree.note), "of": tree_json(tree.of, beside)}
    if isinstance(tree, Chosen):
        return _chosen(tree, beside)
    raise TypeError(f"{type(tree).__name__} has no JSON")


def _named(name: str) -> dict[str, str]:
    return {"name": name.strip(" ,")} if name else {}


def _unit(role: Role) -> dict[str, str]:
    unit = WORDS[role].unit
    return {"unit": unit} if unit else {}


def placed(place: Place | None) -> dict[str, Any]:
    """Where the source states a figure, under "source"; nothing where that is not known."""
    if place is None:
        return {}
    return {"source": {"file": place.file, "line": place.line, "column": place.column}}


def place_schema() -> dict[str, Any]:
    """Return the schema of such a place."""
    number = {"type": "integer"}
    return {"type": "object", "required": ["file", "line", "column"],
            "additionalProperties": False,
            "properties": {"file": {"type": "string", "minLength": 1}, "line": number,
                           "column": number}}


def _rounded(tree: Rounded, beside: Beside) -> dict[str, Any]:
    rounding: Rounding = tree.rounding
    of, plus = rounding.kind
    found: dict[str, Any] = {"is": "rounded", "rule": rounding.rule,
                             "of": tree_json(tree.of, beside)}
    if (of, plus) != (1, 0):
        found |= {"multiple": of, "plus": plus}
    return found if tree.pitch is None else found | {"mm_each": str(tree.pitch)}


def _chosen(tree: Chosen, beside: Beside) -> dict[str, Any]:
    given = {"given": [tree_json(one, beside) for one in tree.given]} if tree.given else {}
    return {"is": "choice", "rule": tree.rule.value, "reason": _name(tree.why),
            "candidates": [tree_json(one, beside) for one in tree.candidates], **given,
            "taken": [one is tree.taken for one in tree.candidates].index(True),
            "value": str(tree.value)}


def _name(words: Note | ChoiceReason) -> str:
    return words.name.lower().replace("_", " ")


def expression_schema() -> dict[str, Any]:
    """Return the definition of an expression for the schema of counts.json, draft 2020-12."""
    tree, text = {"$ref": "#/$defs/expression"}, {"type": "string", "minLength": 1}
    some, number = {"type": "array", "items": tree, "minItems": 1}, {"type": "integer"}
    return {
        "type": "object", "required": ["is"],
        "properties": {
            "is": {"enum": list(_KEYS)}, "role": text, "value": EXACT, "unit": text, "name": text,
            "source": place_schema(), "rule": text, "multiple": number, "plus": number,
            "mm_each": EXACT, "note": text, "reason": text, "candidates": some, "given": some,
            "taken": number, "table": text, "key": text,
            "entries": {"type": "object", "additionalProperties": number},
            "of": {"if": {"type": "array"}, "then": some, "else": tree}},
        "allOf": [{"if": {"properties": {"is": {"const": kind}}},
                   "then": {"required": needed.split(), "propertyNames": {
                       "enum": ["is", *needed.split(), *more.split()]}}}
                  for kind, (needed, more) in _KEYS.items()]}


# The keys of every kind of expression, those it always has and those it may have.
_KEYS = {
    "operand": ("role value", "unit name source"), "count": ("role of", "name"),
    **dict.fromkeys((kind.name for kind in CALCULATIONS.values()), ("of", "")),
    "look-up": ("table key entries", ""),
    "rounded": ("rule of", "multiple plus mm_each"), "noted": ("note of", ""),
    "choice": ("rule reason candidates taken value", "given")}
