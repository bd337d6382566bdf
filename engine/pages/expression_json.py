"""The expression of a count as JSON, and its part of the schema of counts.json."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from ..core.body_figures import BodyOperand
from ..core.branched import Branched
from ..core.counts import RULES
from ..core.expression import Chosen, Expression, LookUp, Operand, Rounded, Rule, Term
from ..core.expression_parts import inside
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..sizing.measure_text import source_of
from ..words.terms.operand_words import WORDS
from .expression_kinds import CALCULATIONS
from .note_json import argument_schema, note_arguments

VERSION = 10  # of the form of counts.json; a change that a reader must know of raises it
# Those whose expressions are as now; 4 had no schedules, 5 no steps, 6 none of darts, of caps and
# of the necks of raglans, whose gaps can be mixed with a shorter one first, 7 none of own outlines,
# and no count that names a figure of a schedule, 8 not what notes say besides,
# 9 this of sleeve caps as texts.
READ = (4, 5, 6, 7, 8, 9, VERSION)

EXACT = {"type": "string", "pattern": r"^-?[0-9]+(/[1-9][0-9]*)?$"}
"""The schema of an exact figure: a whole number, or a fraction."""

# Each is published once, under its own name.
_MEASURES = (Role.MEASURE, Role.PLAIN_MEASURE)
_NAMED = (Role.STITCH_GRAMS, Role.STITCH_METRES, Role.OF_SCHEDULE)


NamedParts = Mapping[int, str]
"""The names of figures that stand beside an expression, by the identity of theirs."""
_NOTHING: NamedParts = {}


class TreeWriter:
    """Writes expressions of one document as JSON text, every figure as an exact fraction.

    What stands `beside` them is an operand with its name.

    The counts of a size stand within each other: two thirds of all expressions have been written
    when they are met. So each is written once, by identity, and its text stands in all that have
    it: objects would be encoded again wherever they stand.
    """

    __slots__ = ("_beside", "_written")

    def __init__(self, beside: NamedParts = _NOTHING) -> None:
        self._beside = beside
        # The expression too: while it lives no other has its identity.
        self._written: dict[int, tuple[Expression, str]] = {}

    def of(self, tree: Expression) -> str:
        """Return an expression as nested JSON objects. Raises TypeError for what is none."""
        if known := self._written.get(id(tree)):
            return known[1]
        write = _WRITES.get(type(tree))
        if write is None:
            raise TypeError(f"{type(tree).__name__} has no JSON")
        written = f"{{{write(self, tree)}}}"
        self._written[id(tree)] = tree, written
        return written

    def every(self, trees: Iterable[Expression]) -> str:
        """Return expressions as a JSON array."""
        return f"[{', '.join(map(self.of, trees))}]"

    def operand(self, tree: Operand) -> str:
        """A figure, with the place that states it."""
        return _figure(tree, tree.name) + (
            f", {as_text(placed(tree.place))[1:-1]}" if tree.place else "")

    def term(self, tree: Term) -> str:
        """Another count; one that is published under a name is a figure with that name."""
        if ((tree.role in _MEASURES and not source_of(tree.of))
                or (tree.role in _NAMED and tree.name) or id(tree.of) in self._beside):
            return _figure(tree, self._beside.get(id(tree.of), tree.name))
        return f'{_COUNTS[tree.role]}{_named(tree.name)}, "of": {self.of(tree.of)}'

    def calculation(self, tree: Expression) -> str:
        """A calculation of parts."""
        kind, parts = CALCULATIONS[type(tree)], inside(tree)
        of = self.of(parts[0]) if kind.parts == 1 else self.every(parts)
        return f"{_CALCULATED[type(tree)]}{of}"

    def branched(self, tree: Branched) -> str:
        """The calculation that was chosen."""
        return self.of(tree.of)[1:-1]

    def look_up(self, tree: LookUp) -> str:
        """The entry of a table."""
        return as_text({"is": "look-up", "table": tree.table, "key": tree.key,
                        "entries": dict(tree.entries)})[1:-1]

    def rounded(self, tree: Rounded) -> str:
        """A figure made whole."""
        of, plus = tree.rounding.kind
        multiple = "" if (of, plus) == (1, 0) else f', "multiple": {of}, "plus": {plus}'
        each = "" if tree.pitch is None else f', "mm_each": "{tree.pitch}"'
        return f"{_ROUNDED[tree.rounding.rule]}{self.of(tree.of)}{multiple}{each}"

    def noted(self, tree: Noted) -> str:
        """A calculation of which something is said."""
        args = note_arguments(tree.arguments, lambda one: json.loads(self.of(one)))
        return f"{_NOTED[tree.note]}{self.of(tree.of)}" + (f', "with": {as_text(args)}' if args
                                                            else "")

    def chosen(self, tree: Chosen) -> str:
        """A choice: what there was to choose from, and which was taken."""
        given = f', "given": {self.every(tree.given)}' if tree.given else ""
        taken = tree.taken
        place = next(n for n, one in enumerate(tree.candidates) if one is taken)
        return (f"{_CHOSEN[tree.rule]}{_REASONS[tree.why]}{self.every(tree.candidates)}{given}"
                f', "taken": {place}, "value": "{tree.value}"')


as_text = json.JSONEncoder(ensure_ascii=False, check_circular=False).encode
"""Writes a value of counts.json."""


def _name(words: Note | ChoiceReason) -> str:
    return as_text(words.name.lower().replace("_", " "))


_WRITES: Mapping[type[Expression], Callable[[TreeWriter, Any], str]] = {
    Operand: TreeWriter.operand, BodyOperand: TreeWriter.operand, Term: TreeWriter.term,
    LookUp: TreeWriter.look_up, Branched: TreeWriter.branched,
    Rounded: TreeWriter.rounded, Noted: TreeWriter.noted, Chosen: TreeWriter.chosen,
    **dict.fromkeys(CALCULATIONS, TreeWriter.calculation)}
# How the text of each kind begins.
_FIGURES = {role: f'"is": "operand", "role": {as_text(role.value)}, "value": "' for role in Role}
_UNITS = {role: f', "unit": {as_text(WORDS[role].unit)}' if WORDS[role].unit else ""
          for role in Role}
_COUNTS = {role: f'"is": "count", "role": {as_text(role.value)}' for role in Role}
_CALCULATED = {made: f'"is": {as_text(kind.name)}, "of": ' for made, kind in CALCULATIONS.items()}
_ROUNDED = {rule: f'"is": "rounded", "rule": {as_text(rule)}, "of": ' for rule in RULES}
_NOTED = {note: f'"is": "noted", "note": {_name(note)}, "of": ' for note in Note}
_CHOSEN = {rule: f'"is": "choice", "rule": {as_text(rule.value)}' for rule in Rule}
_REASONS = {why: f', "reason": {_name(why)}, "candidates": ' for why in ChoiceReason}


def _figure(tree: Operand | Term, name: str) -> str:
    """A figure without what it comes from."""
    return f'{_FIGURES[tree.role]}{tree.value}"{_UNITS[tree.role]}{_named(name)}'


def _named(name: str) -> str:
    return f', "name": {as_text(name.strip(" ,"))}' if name else ""


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


def expression_schema() -> dict[str, Any]:
    """Return the definition of an expression for the schema of counts.json, draft 2020-12."""
    tree, text = {"$ref": "#/$defs/expression"}, {"type": "string", "minLength": 1}
    some, number = {"type": "array", "items": tree, "minItems": 1}, {"type": "integer"}
    return {
        "type": "object", "required": ["is"],
        "properties": {
            "is": {"enum": list(_KEYS)}, "role": text, "value": EXACT, "unit": text, "name": text,
            "source": place_schema(), "rule": text, "multiple": number, "plus": number,
            "mm_each": EXACT, "note": text,
            "with": {"type": "array", "items": argument_schema(tree), "minItems": 1},
            "reason": text, "candidates": some, "given": some,
            "taken": number, "table": text, "key": text,
            "entries": {"type": "object", "additionalProperties": number},
            "of": {"if": {"type": "array"}, "then": some, "else": tree}},
        "allOf": [{"if": {"properties": {"is": {"const": kind}}},
                   "then": {"required": list(needed), "propertyNames": {
                       "enum": ["is", *needed, *more]}}}
                  for kind, (needed, more) in _KEYS.items()]}


# The keys of every kind of expression, those it always has and those it may have.
_KEYS: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "operand": (("role", "value"), ("unit", "name", "source")),
    "count": (("role", "of"), ("name",)),
    **dict.fromkeys((kind.name for kind in CALCULATIONS.values()), (("of",), ())),
    "look-up": (("table", "key", "entries"), ()),
    "rounded": (("rule", "of"), ("multiple", "plus", "mm_each")),
    "noted": (("note", "of"), ("with",)),
    "choice": (("rule", "reason", "candidates", "taken", "value"), ("given",))}
