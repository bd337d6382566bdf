"""The expression of a count as counts.json has it, read back: the inverse of `TreeWriter`."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from ..core.counts import Rounding
from ..core.expression import Chosen, Expression, LookUp, Operand, Rounded, Rule, Term
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from .expression_kinds import calculation
from .note_json import read_arguments


def read_tree(data: Mapping[str, Any]) -> Expression:
    """Return the expression that JSON objects say.

    What notes say besides is not in a file older than version 9. Raises KeyError, TypeError or
    ValueError for what `TreeWriter` does not write.
    """
    kind = data["is"]
    if kind == "operand":
        return Operand(Fraction(data["value"]), Role(data["role"]), data.get("name", ""),
                       _place(data.get("source")))
    if kind == "count":
        return Term(read_tree(data["of"]), Role(data["role"]), data.get("name", ""))
    if kind == "look-up":
        return LookUp(data["table"], data["key"], tuple(data["entries"].items()))
    if kind == "rounded":
        return _rounded(data)
    if kind == "noted":
        return Noted(read_tree(data["of"]), Note[_name(data["note"])],
                     read_arguments(data.get("with", []), read_tree))
    if kind == "choice":
        return Chosen(tuple(map(read_tree, data["candidates"])), Rule(data["rule"]),
                      ChoiceReason[_name(data["reason"])],
                      tuple(map(read_tree, data.get("given", ()))))
    of = data["of"]
    made = calculation(kind, [read_tree(one) for one in (of if isinstance(of, list) else [of])])
    if made is None:
        raise ValueError(kind)
    return made


def _rounded(data: Mapping[str, Any]) -> Rounded:
    rule, pitch = data["rule"], data.get("mm_each")
    kind = () if rule in ("even", "odd") else (data.get("multiple", 1), data.get("plus", 0))
    return Rounded(read_tree(data["of"]), Rounding(rule, *kind),
                   None if pitch is None else Fraction(pitch))


def _name(name: str) -> str:
    return name.upper().replace(" ", "_")


def _place(data: Mapping[str, Any] | None) -> Place | None:
    return None if data is None else Place(data["file"], data["line"], data["column"])
