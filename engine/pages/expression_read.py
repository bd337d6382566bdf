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


def read_tree(said: Mapping[str, Any]) -> Expression:
    """Return the expression that JSON objects say.

    What notes say besides is not in a file older than version 9. Raises KeyError, TypeError or
    ValueError for what `TreeWriter` does not write.
    """
    kind = said["is"]
    if kind == "operand":
        return Operand(Fraction(said["value"]), Role(said["role"]), said.get("name", ""),
                       _place(said.get("source")))
    if kind == "count":
        return Term(read_tree(said["of"]), Role(said["role"]), said.get("name", ""))
    if kind == "look-up":
        return LookUp(said["table"], said["key"], tuple(said["entries"].items()))
    if kind == "rounded":
        return _rounded(said)
    if kind == "noted":
        return Noted(read_tree(said["of"]), Note[_name(said["note"])],
                     read_arguments(said.get("with", []), read_tree))
    if kind == "choice":
        return Chosen(tuple(map(read_tree, said["candidates"])), Rule(said["rule"]),
                      ChoiceReason[_name(said["reason"])],
                      tuple(map(read_tree, said.get("given", ()))))
    of = said["of"]
    made = calculation(kind, [read_tree(one) for one in (of if isinstance(of, list) else [of])])
    if made is None:
        raise ValueError(kind)
    return made


def _rounded(said: Mapping[str, Any]) -> Rounded:
    rule, pitch = said["rule"], said.get("mm_each")
    kind = () if rule in ("even", "odd") else (said.get("multiple", 1), said.get("plus", 0))
    return Rounded(read_tree(said["of"]), Rounding(rule, *kind),
                   None if pitch is None else Fraction(pitch))


def _name(said: str) -> str:
    return said.upper().replace(" ", "_")


def _place(said: Mapping[str, Any] | None) -> Place | None:
    return None if said is None else Place(said["file"], said["line"], said["column"])
